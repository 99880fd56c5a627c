/* reserve.c - what is kept back of the oils for carriers, and how the jug is then shared out. */
#include "calc/reserve.h"

#include <string.h>

/* Superfat this much lower than the whole's is due to rounding of masses to whole micrograms. */
static const double rounding_noise = 1e-6;

static bool is_oil(const struct plan_input *in, int line, const struct oil_fact *fact, const char *name)
{
    const struct oil_fact *own = in->facts->oil[line];

    return fact ? own == fact : !own && name && strcmp(name, in->recipe->oil[line].name) == 0;
}

int reserve_line(const struct plan_input *in, const struct oil_fact *fact, const char *name)
{
    for (int i = 0; i < in->recipe->oils; i++)
        if (is_oil(in, i, fact, name))
            return i;
    return -1;
}

/* Keeps back the carrier of colourant c of portion p, and returns how much of it the recipe has. */
static int64_t keep_back(const struct plan_input *in, const struct plan *plan, int p, int c, int64_t kept_ug[])
{
    const char *name = in->recipe->portion[p].colourant[c].carrier_oil;
    int64_t wanted_ug = plan->portion[p].colourant[c].carrier.rounded_ug, sum_ug = 0;

    for (int i = 0; i < in->recipe->oils && wanted_ug > 0; i++) {
        if (!is_oil(in, i, in->facts->carrier[p][c], name))
            continue;

        int64_t left_ug = plan->oil[i].rounded_ug - kept_ug[i];
        int64_t taken_ug = wanted_ug < left_ug ? wanted_ug : left_ug;

        kept_ug[i] += taken_ug;
        sum_ug += taken_ug;
        wanted_ug -= taken_ug;
    }
    return sum_ug;
}

int64_t reserve_kept(const struct plan_input *in, const struct plan *plan, int64_t kept_ug[RECIPE_OILS])
{
    int64_t sum_ug = 0;

    for (int i = 0; i < RECIPE_OILS; i++)
        kept_ug[i] = 0;
    for (int p = 0; p < in->recipe->portions; p++)
        for (int c = 0; c < in->recipe->portion[p].colourants; c++)
            if (in->recipe->portion[p].colourant[c].carrier_reserved)
                sum_ug += keep_back(in, plan, p, c, kept_ug);
    return sum_ug;
}

void reserve_plan(const struct plan_input *in, struct plan *plan)
{
    const struct recipe *recipe = in->recipe;

    if (recipe->colour == PUT_IN_BATTER)
        return;
    plan->kept_ug = reserve_kept(in, plan, plan->oil_kept_ug);
    for (int p = 0; p < recipe->portions; p++) {
        plan->portion[p].kept_ug = 0;
        for (int c = 0; c < recipe->portion[p].colourants; c++)
            if (recipe->portion[p].colourant[c].carrier_reserved)
                plan->portion[p].kept_ug += plan->portion[p].colourant[c].carrier.rounded_ug;
    }
}

double reserve_share(const struct plan *plan, const struct plan_portion *portion)
{
    int64_t jug_ug = plan->batter_ug - plan->kept_ug, poured_ug = portion->batter_ug - portion->kept_ug;

    return jug_ug > 0 && poured_ug > 0 ? (double)poured_ug / (double)jug_ug : 0;
}

bool plan_reserve_fits(const struct plan_input *in, const struct plan *plan)
{
    for (int i = 0; i < plan->portions; i++) {
        double superfat = plan->portion[i].margin.nominal;

        if (superfat < in->recipe->superfat / 2 && superfat < plan->margin.nominal - rounding_noise)
            return false;
    }
    return true;
}
