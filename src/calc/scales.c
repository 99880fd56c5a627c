/* scales.c - choosing scales and rounding to their divisions. */
#include "calc/scales.h"

#include <math.h>

#include "base/mass.h"
#include "calc/apportion.h"
#include "calc/constants.h"

/* Where a recipe names no scale: a plain kitchen scale (common practice). */
static const struct scale common_scale = {.division_ug = 1 * UG_PER_G, .capacity_ug = INT64_C(5000) * UG_PER_G};

void scales_plan(const struct plan_input *in, struct plan *plan)
{
    const struct recipe *recipe = in->recipe;

    plan->scales = recipe->scales > 0 ? recipe->scales : 1;
    for (int i = 0; i < plan->scales; i++) {
        plan->scale[i] = recipe->scales > 0 ? recipe->scale[i] : common_scale;
        if (plan->scale[i].division_ug < 1) /* finer than a microgram */
            plan->scale[i].division_ug = 1;
    }
}

static bool holds(const struct scale *scale, int64_t ug)
{
    return ug <= scale->capacity_ug - scale->vessel_ug;
}

/* A scale that holds goes before one that does not; of those that hold the finer, then the larger; else the larger. */
static bool suits_better(const struct scale *a, bool a_holds, const struct scale *b, bool b_holds)
{
    if (a_holds != b_holds)
        return a_holds;
    if (a_holds && a->division_ug != b->division_ug)
        return a->division_ug < b->division_ug;
    return a->capacity_ug > b->capacity_ug;
}

static int best_for(const struct plan *plan, int64_t ug, bool *held)
{
    int best = 0;
    bool best_holds = holds(&plan->scale[0], ug);

    for (int i = 1; i < plan->scales; i++) {
        bool this_holds = holds(&plan->scale[i], ug);

        if (suits_better(&plan->scale[i], this_holds, &plan->scale[best], best_holds)) {
            best = i;
            best_holds = this_holds;
        }
    }
    if (held)
        *held = best_holds;
    return best;
}

int scales_for(const struct plan *plan, double grams, bool *held)
{
    return best_for(plan, mass_ug(fmin(grams, MASS_MOST_G)), held);
}

struct weighing scales_weigh(const struct plan *plan, double exact_g, enum scales_direction direction)
{
    struct weighing weighing = {0};

    if (!(exact_g > 0))
        return weighing;
    weighing.exact_g = fmin(exact_g, MASS_MOST_G);

    int64_t exact_ug = mass_ug(weighing.exact_g);

    weighing.scale = best_for(plan, exact_ug, NULL);
    weighing.division_ug = plan->scale[weighing.scale].division_ug;
    weighing.rounded_ug = direction == SCALES_DOWN ? mass_down(exact_ug, weighing.division_ug)
                                                   : mass_nearest(exact_ug, weighing.division_ug);
    return weighing;
}

/* The coarsest division under than_ug on which an oil is weighed; 0 if there is none. */
static int64_t coarsest_below(const struct plan *plan, int oils, int64_t than_ug)
{
    int64_t coarsest = 0;

    for (int i = 0; i < oils; i++)
        if (plan->oil[i].division_ug < than_ug && plan->oil[i].division_ug > coarsest)
            coarsest = plan->oil[i].division_ug;
    return coarsest;
}

/* Shares whole_ug among the oils with that division, in proportion to their exact masses. */
static void share_among(struct plan *plan, int oils, int64_t division_ug, int64_t whole_ug)
{
    double weight[RECIPE_OILS] = {0};
    int64_t part_ug[RECIPE_OILS];

    for (int i = 0; i < oils; i++)
        weight[i] = plan->oil[i].division_ug == division_ug ? plan->oil[i].exact_g : 0;
    if (apportion((size_t)oils, weight, whole_ug, division_ug, part_ug) != LW_OK)
        return; /* cannot be: the group is not empty and whole_ug a multiple of its division */
    for (int i = 0; i < oils; i++)
        if (plan->oil[i].division_ug == division_ug)
            plan->oil[i].rounded_ug = part_ug[i];
}

static double exact_with_division(const struct plan *plan, int oils, int64_t division_ug)
{
    double sum_g = 0;

    for (int i = 0; i < oils; i++)
        if (plan->oil[i].division_ug == division_ug)
            sum_g += plan->oil[i].exact_g;
    return sum_g;
}

/* From the coarsest scale down: each takes its own subtotal, rounded, and the finest what is left of the total. Where a
 * division does not go into the next coarser one the last subtotal is rounded too. */
static void share_total(struct plan *plan, int oils)
{
    int64_t division_ug = coarsest_below(plan, oils, INT64_MAX);

    if (division_ug == 0)
        return;

    int64_t left_ug = mass_nearest(mass_ug(fmin(plan->oils_exact_g, MASS_MOST_G)), division_ug);

    while (division_ug > 0) {
        int64_t finer_ug = coarsest_below(plan, oils, division_ug);
        int64_t own_ug = finer_ug == 0 ? left_ug : mass_ug(exact_with_division(plan, oils, division_ug));

        own_ug = mass_nearest(own_ug < left_ug ? own_ug : left_ug, division_ug);
        share_among(plan, oils, division_ug, own_ug);
        left_ug = own_ug < left_ug ? left_ug - own_ug : 0;
        division_ug = finer_ug;
    }
}

void scales_round_oils(const struct plan_input *in, struct plan *plan)
{
    int oils = in->recipe->oils;

    for (int i = 0; i < oils; i++)
        plan->oil[i] = scales_weigh(plan, plan->oil[i].exact_g, SCALES_NEAREST);
    if (in->recipe->oils_by == OILS_BY_SHARE)
        share_total(plan, oils);
    plan->oils_ug = 0;
    for (int i = 0; i < oils; i++)
        plan->oils_ug += plan->oil[i].rounded_ug;
}

static void find_if_too_small(struct plan *plan, const struct weighing *weighing, enum part part, int index)
{
    const struct scale *scale = &plan->scale[weighing->scale];

    if (weighing->division_ug == 0 || holds(scale, mass_ug(weighing->exact_g)))
        return;
    plan_find(plan,
              &(struct finding){.code = FINDING_SCALE_SMALL,
                                .level = LEVEL_REMARK,
                                .about = {part, (int16_t)index, 0},
                                .number = {weighing->exact_g + mass_g(scale->vessel_ug), mass_g(scale->capacity_ug)}});
}

void scales_find(const struct plan_input *in, struct plan *plan)
{
    const struct recipe *recipe = in->recipe;

    for (int i = 0; i < recipe->oils; i++)
        find_if_too_small(plan, &plan->oil[i], PART_OIL, i);
    for (int i = 0; i < ALKALIS; i++) {
        const struct plan_alkali *alkali = &plan->alkali[i];

        find_if_too_small(plan, alkali->solution.division_ug ? &alkali->solution : &alkali->alkali, PART_ALKALI, i);
    }
    find_if_too_small(plan, &plan->water.water, PART_WATER, 0);
    for (int i = 0; i < recipe->water.liquids; i++)
        find_if_too_small(plan, &plan->liquid[i].liquid, PART_LIQUID, i);
    for (int i = 0; i < recipe->additives; i++)
        find_if_too_small(plan, &plan->additive[i].additive, PART_ADDITIVE, i);
}
