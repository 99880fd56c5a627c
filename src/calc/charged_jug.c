/* charged_jug.c - what is left to share out of the jug, and what the full jug should weigh. */
#include <stddef.h>

#include "base/mass.h"
#include "base/text.h"
#include "calc/apportion.h"
#include "calc/charged.h"
#include "calc/scales.h"

/* What portion i takes out of the jug as planned, with what was charged. */
static int64_t share_of_jug(const struct plan *charged, int i)
{
    int64_t ug = charged->portion[i].batter_ug - charged->portion[i].kept_ug;

    return ug > 0 ? ug : 0;
}

static bool asks_fixed(const struct recipe *recipe, int i)
{
    if (i >= recipe->portions)
        return false;
    switch (recipe->portion[i].demand) {
    case DEMAND_GRAMS:
    case DEMAND_LAYER:
    case DEMAND_PIECES:
        return true;
    case DEMAND_SHARE:
    case DEMAND_REST:
        break;
    }
    return false;
}

/* Serves those that ask for a mass, in order; returns what is left. */
static int64_t serve_fixed(const struct plan_input *in, const struct plan *charged, const struct charge poured[],
                           int64_t left_ug, int64_t target_ug[])
{
    for (int i = 0; i < charged->portions; i++) {
        if (poured[i].has || !asks_fixed(in->recipe, i))
            continue;
        target_ug[i] = share_of_jug(charged, i) < left_ug ? share_of_jug(charged, i) : left_ug;
        left_ug -= target_ug[i];
    }
    return left_ug;
}

void charged_split(const struct plan_input *in, const struct plan *charged, const struct charge poured[PLAN_PORTIONS],
                   int64_t target_ug[PLAN_PORTIONS])
{
    int64_t division_ug = charged->portions > 0 ? charged->portion[0].division_ug : 0;
    int64_t left_ug = charged->batter_ug - charged->kept_ug - charged->residue_ug;
    double weight[PLAN_PORTIONS] = {0};
    int64_t shared_ug[PLAN_PORTIONS] = {0};

    for (int i = 0; i < PLAN_PORTIONS; i++)
        target_ug[i] = 0;
    for (int i = 0; i < charged->portions; i++)
        left_ug -= poured[i].has ? poured[i].mass_ug : 0;
    if (left_ug <= 0 || division_ug <= 0)
        return;
    left_ug = serve_fixed(in, charged, poured, mass_down(left_ug, division_ug), target_ug);
    for (int i = 0; i < charged->portions; i++)
        if (!poured[i].has && !asks_fixed(in->recipe, i))
            weight[i] = (double)share_of_jug(charged, i);
    /* Kept oil need not be a whole division, so what is left need not be one either. */
    if (apportion((size_t)charged->portions, weight, mass_down(left_ug, division_ug), division_ug, shared_ug) != LW_OK)
        return; /* nobody shares */
    for (int i = 0; i < charged->portions; i++)
        target_ug[i] += shared_ug[i];
}

/* A sum of weighings, and what it may be off. */
struct tally {
    const struct plan_input *in;
    const struct plan *plan; /* charged */
    int64_t sum_ug, off_ug;
};

static void tally_add(struct tally *tally, enum part part, int index)
{
    const struct weighing *w = charged_weighing(tally->in, tally->plan, (struct part_ref){part, (int16_t)index, 0});

    if (w->rounded_ug == 0)
        return;
    tally->sum_ug += w->rounded_ug;
    tally->off_ug += w->half_ug > 0 ? w->half_ug : w->division_ug / 2;
    tally->off_ug += tally->plan->scale[w->scale].accuracy_ug;
}

bool charged_in_jug(const struct plan_input *in, int additive, bool lye)
{
    const struct additive_fact *fact = in->facts->additive[additive];

    return (lye && charged_in_lye(in, additive)) || (fact && fact->add_to && text_same(fact->add_to, "oils"));
}

void charged_jug(const struct plan_input *in, const struct plan *plan, const struct batch *batch, bool lye,
                 int64_t *expected_ug, int64_t *tolerance_ug)
{
    struct plan charged;
    struct tally tally = {in, &charged, 0, 0};

    charged_plan(in, plan, &batch->charges, &charged);
    for (int i = 0; i < in->recipe->oils; i++) {
        tally_add(&tally, PART_OIL, i);
        tally.sum_ug -= batch->kept_ug[i];
    }
    for (int i = 0; i < ALKALIS && lye; i++)
        tally_add(&tally, PART_ALKALI, i);
    if (lye)
        tally_add(&tally, PART_WATER, 0);
    for (int i = 0; i < in->recipe->water.liquids && lye; i++)
        tally_add(&tally, PART_LIQUID, i);
    for (int i = 0; i < in->recipe->additives; i++)
        if (charged_in_jug(in, i, lye))
            tally_add(&tally, PART_ADDITIVE, i);

    int64_t division_ug =
        charged.scale[scales_for(&charged, mass_g(tally.sum_ug > 0 ? tally.sum_ug : 0), NULL)].division_ug;

    *expected_ug = tally.sum_ug > 0 ? tally.sum_ug : 0;
    *tolerance_ug = tally.off_ug > division_ug ? tally.off_ug : division_ug;
}
