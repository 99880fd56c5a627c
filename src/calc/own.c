/* own.c - own means in place of practice. */
#include "calc/own.h"

#include <math.h>

static const double JUG_MOST_SHARE = 0.5;

bool own_known(const struct learned_value *value)
{
    return value->batches >= LEARNED_LEAST;
}

struct practice own_practice(const struct plan_input *in)
{
    const struct learned *learned = &in->bench->learned;
    struct practice practice = *in->reference->practice;

    if (own_known(&learned->jug_residue_g)) {
        practice.jug_residue_g = fmax(learned->jug_residue_g.mean, 0.0);
        practice.jug_residue_most_share = JUG_MOST_SHARE;
    }
    if (own_known(&learned->bag_residue_g))
        practice.bag_residue_g = fmax(learned->bag_residue_g.mean, 0.0);
    return practice;
}

double own_air(const struct bench *bench)
{
    static const double most = 0.5;

    if (bench->air_share > 0.0 || bench->density_g_ml > 0.0 || !own_known(&bench->learned.air))
        return bench->air_share;
    return fmin(fmax(bench->learned.air.mean, 0.0), most);
}
