/* coarse.c - the scale that is too coarse, and the sizes that suit it. */
#include "calc/coarse.h"

#include <math.h>

#include "base/mass.h"
#include "calc/constants.h"
#include "calc/lye.h"
#include "calc/scales.h"

static const double variance_share = 1.0 / 3, moves = 0.005, near = 0.001, reach = 0.25;

/* How the weighed alkali (or its ready-made solution) follows the oils: grams = slope * oils_g + fixed, as the
 * recipe is linear but for fixed grams. */
struct follows {
    double slope, fixed;
    double superfat_per_g; /* of weighed alkali, at the present size */
    double division_g;
};

static double weighed_g(const struct lye_exact *exact, int alkali)
{
    return exact->solution_g[alkali] > 0 ? exact->solution_g[alkali] : exact->alkali_g[alkali];
}

static const struct weighing *weighing_of(const struct plan_alkali *alkali)
{
    return alkali->solution.division_ug > 0 ? &alkali->solution : &alkali->alkali;
}

static double superfat_per_g(const struct plan_input *in, const struct plan *plan, int alkali)
{
    double strength = in->recipe->alkali.solution_share[alkali];

    return (strength > 0 ? strength : 1) * plan->purity[alkali].nominal / MOLAR_ALKALI[alkali] / plan->demand_mol;
}

/* The alkali whose division moves the superfat most. */
static int decisive(const struct plan_input *in, const struct plan *plan)
{
    double step[ALKALIS];

    for (int i = 0; i < ALKALIS; i++)
        step[i] = superfat_per_g(in, plan, i) * mass_g(weighing_of(&plan->alkali[i])->division_ug);
    return step[ALKALI_KOH] > step[ALKALI_NAOH] ? ALKALI_KOH : ALKALI_NAOH;
}

static struct follows follow(const struct plan_input *in, const struct plan *plan, int alkali)
{
    struct lye_exact here, less;
    double oils_g = plan->oils_exact_g;

    lye_exact(in, plan, oils_g, &here);
    lye_exact(in, plan, oils_g * (1 - reach), &less);

    double slope = (weighed_g(&here, alkali) - weighed_g(&less, alkali)) / (oils_g * reach);

    return (struct follows){.slope = slope,
                            .fixed = weighed_g(&here, alkali) - slope * oils_g,
                            .superfat_per_g = superfat_per_g(in, plan, alkali),
                            .division_g = mass_g(weighing_of(&plan->alkali[alkali])->division_ug)};
}

/* Coarsest division among the oils, grams: sizes are proposed in it. */
static double oils_division_g(const struct plan_input *in, const struct plan *plan)
{
    int64_t coarsest = 1;

    for (int i = 0; i < in->recipe->oils; i++)
        if (plan->oil[i].division_ug > coarsest)
            coarsest = plan->oil[i].division_ug;
    return mass_g(coarsest);
}

/* Grams of oils near the present size, on the side of `direction` (-1 less, 1 more), that bring the alkali to a
 * whole number of divisions, never just short of one since it is rounded down. 0: none. */
static double suitable_size(const struct plan *plan, const struct follows *follows, double oils_division, int direction)
{
    double oils_g = plan->oils_exact_g, best_g = 0, least = moves;
    double from_g = oils_g + direction * oils_division;
    double first = (follows->slope * from_g + follows->fixed) / follows->division_g;
    double count = direction < 0 ? floor(first) : ceil(first);

    for (int tries = 0; tries < 64; tries++) {
        double alkali_g = (count + direction * tries) * follows->division_g;
        double size_g = ceil((alkali_g - follows->fixed) / follows->slope / oils_division - 1e-9) * oils_division;

        if (!(alkali_g > 0) || fabs(size_g - oils_g) > reach * oils_g)
            break;
        if (mass_ug(follows->division_g) != plan->scale[scales_for(plan, alkali_g, NULL)].division_ug)
            continue;

        double over_g = follows->slope * size_g + follows->fixed - alkali_g;
        double moved = over_g * follows->superfat_per_g * oils_g / size_g;

        if (moved < least) {
            least = moved;
            best_g = size_g;
        }
        if (moved <= near)
            break;
    }
    return best_g;
}

static double fine_division_g(const struct follows *follows)
{
    double division_g = follows->division_g / 10;

    while (division_g * follows->superfat_per_g > moves && division_g > 1e-6)
        division_g /= 10;
    return division_g;
}

/* How the alkali that counts most follows the oils; false where nothing can be said of it. */
static bool followed(const struct plan_input *in, const struct plan *plan, int *alkali, struct follows *follows)
{
    if (!(plan->oils_exact_g > 0) || !(plan->demand_mol > 0))
        return false;
    *alkali = decisive(in, plan);
    *follows = follow(in, plan, *alkali);
    return follows->division_g > 0 && follows->slope > 0;
}

double coarse_size(const struct plan_input *in, const struct plan *plan, int direction)
{
    struct follows follows;
    int alkali;

    return followed(in, plan, &alkali, &follows) ? suitable_size(plan, &follows, oils_division_g(in, plan), direction)
                                                 : 0;
}

void coarse_find(const struct plan_input *in, struct plan *plan, const struct margin *margin)
{
    double asked = in->recipe->superfat, rounded = margin->nominal;
    struct follows follows;
    int alkali;

    if (margin->mass_share <= variance_share && fabs(rounded - asked) <= moves)
        return;
    if (!followed(in, plan, &alkali, &follows))
        return;

    double step_g = oils_division_g(in, plan);

    plan_find(plan, &(struct finding){.code = FINDING_DIVISION_COARSE,
                                      .level = LEVEL_REMARK,
                                      .about = {PART_ALKALI, (int16_t)alkali, 0},
                                      .number = {margin->mass_share, asked, rounded, follows.division_g,
                                                 suitable_size(plan, &follows, step_g, -1),
                                                 suitable_size(plan, &follows, step_g, 1), fine_division_g(&follows)}});
}
