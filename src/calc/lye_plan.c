/* lye_plan.c - alkali, water and what goes with them as the scales will read, and what there is to say about the
 * lye. */
#include <math.h>

#include "base/mass.h"
#include "calc/constants.h"
#include "calc/lye.h"
#include "calc/scales.h"

/* Figures closer than this to a threshold, relatively, are on it: 40 % asked is not above 40 %. */
#define NEARLY 1e-9

/* 0 of nothing, and never so large that it is no number. */
static double share_of(double part, double whole)
{
    return whole > 0 ? fmin(part / whole, MASS_MOST_G) : 0;
}

static void weigh_alkali(struct plan *plan, const struct lye_exact *exact)
{
    for (int i = 0; i < ALKALIS; i++) {
        struct plan_alkali *alkali = &plan->alkali[i];

        if (exact->solution_g[i] > 0) {
            alkali->solution = scales_weigh(plan, exact->solution_g[i], SCALES_DOWN);
            alkali->alkali = (struct weighing){.exact_g = exact->alkali_g[i]};
        } else {
            alkali->alkali = scales_weigh(plan, exact->alkali_g[i], SCALES_DOWN);
        }
    }
}

static void weigh_others(const struct plan_input *in, struct plan *plan, const struct lye_exact *exact)
{
    for (int i = 0; i < in->recipe->water.liquids; i++)
        plan->liquid[i].liquid = scales_weigh(plan, exact->liquid_g[i], SCALES_NEAREST);
    for (int i = 0; i < in->recipe->additives; i++)
        plan->additive[i].additive = scales_weigh(plan, exact->additive_g[i], SCALES_NEAREST);
}

static void alkali_as_weighed(const struct plan_input *in, struct plan *plan)
{
    for (int i = 0; i < ALKALIS; i++) {
        struct plan_alkali *alkali = &plan->alkali[i];

        if (alkali->solution.division_ug > 0)
            alkali->alkali.rounded_ug = mass_ug(mass_g(alkali->solution.rounded_ug) *
                                                in->recipe->alkali.solution_share[i]);
        alkali->moles = mass_g(alkali->alkali.rounded_ug) * plan->purity[i].nominal / MOLAR_ALKALI[i];
    }
}

static void liquids_as_weighed(const struct plan_input *in, struct plan *plan)
{
    for (int i = 0; i < in->recipe->water.liquids; i++) {
        struct plan_liquid *liquid = &plan->liquid[i];
        const struct liquid_fact *fact = in->facts->liquid[i];
        double grams = mass_g(liquid->liquid.rounded_ug);

        liquid->water_g = fact ? grams * fact->water_share : grams;
        liquid->fat_g = fact ? grams * fact->fat_share : 0;
        liquid->acid_mol = fact ? grams * fact->acid_mol_per_kg / 1000 : 0;
    }
}

static void additives_as_weighed(const struct plan_input *in, struct plan *plan)
{
    for (int i = 0; i < in->recipe->additives; i++) {
        struct plan_additive *additive = &plan->additive[i];
        const struct additive_fact *fact = in->facts->additive[i];

        if (!fact)
            continue;

        double grams = mass_g(additive->additive.rounded_ug);

        additive->water_g = grams * fact->water_share;
        additive->fat_g = grams * fact->fat_share;
        additive->acid_mol = lye_acid_mol(fact, grams);
    }
}

/* Alkali and all water in the batter, in grams as rounded. */
static void lye_rounded(const struct plan_input *in, const struct plan *plan, double *alkali_g, double *water_g)
{
    *alkali_g = 0;
    *water_g = mass_g(plan->water.water.rounded_ug);
    for (int i = 0; i < ALKALIS; i++) {
        const struct plan_alkali *alkali = &plan->alkali[i];

        *alkali_g += mass_g(alkali->alkali.rounded_ug);
        if (alkali->solution.division_ug)
            *water_g += mass_g(alkali->solution.rounded_ug - alkali->alkali.rounded_ug);
    }
    for (int i = 0; i < in->recipe->water.liquids; i++)
        *water_g += plan->liquid[i].water_g;
    for (int i = 0; i < in->recipe->additives; i++)
        *water_g += plan->additive[i].water_g;
}

int64_t lye_batter_ug(const struct plan_input *in, const struct plan *plan)
{
    int64_t sum_ug = plan->oils_ug + plan->water.water.rounded_ug;

    for (int i = 0; i < ALKALIS; i++) {
        const struct plan_alkali *alkali = &plan->alkali[i];

        sum_ug += alkali->solution.division_ug ? alkali->solution.rounded_ug : alkali->alkali.rounded_ug;
    }
    for (int i = 0; i < in->recipe->water.liquids; i++)
        sum_ug += plan->liquid[i].liquid.rounded_ug;
    for (int i = 0; i < in->recipe->additives; i++)
        sum_ug += plan->additive[i].additive.rounded_ug;
    return sum_ug;
}

static void find_about_water(struct plan *plan, enum finding_code code, enum finding_level level, double a, double b,
                             double c)
{
    plan_find(plan, &(struct finding){.code = code, .level = level, .about = {PART_WATER, 0, 0}, .number = {a, b, c}});
}

double lye_soluble(const struct plan_input *in)
{
    const struct practice *practice = in->reference->practice;
    double f = in->recipe->alkali.potassium_share;

    return (1 - f) * practice->naoh_soluble_share + f * practice->koh_soluble_share;
}

static void find_strength(const struct plan_input *in, struct plan *plan, double strength)
{
    const struct practice *practice = in->reference->practice;
    double soluble = lye_soluble(in);

    if (strength > soluble * (1 + NEARLY))
        find_about_water(plan, FINDING_STRENGTH_OVER, LEVEL_STOP, strength, soluble, 0);
    else if (strength > practice->strength_high * (1 + NEARLY))
        find_about_water(plan, FINDING_STRENGTH_HIGH, LEVEL_CAUTION, strength, practice->strength_high, 0);
    else if (strength > 0 && strength < practice->strength_low * (1 - NEARLY))
        find_about_water(plan, FINDING_STRENGTH_LOW, LEVEL_REMARK, strength, practice->strength_low, 0);
}

/* Sugar of milk, juice or beer; about the liquid that brings most of it. */
static void find_sugar(const struct plan_input *in, struct plan *plan)
{
    double sugar_g = 0, most_g = 0;
    int most = 0;

    for (int i = 0; i < in->recipe->water.liquids; i++) {
        const struct liquid_fact *fact = in->facts->liquid[i];
        double grams = fact ? mass_g(plan->liquid[i].liquid.rounded_ug) * fact->sugar_share : 0;

        sugar_g += grams;
        if (grams > most_g) {
            most_g = grams;
            most = i;
        }
    }

    double share = share_of(sugar_g, mass_g(plan->oils_ug));

    if (share > in->reference->practice->sugar_boil_share)
        plan_find(plan, &(struct finding){.code = FINDING_HEAT_BOIL,
                                          .level = LEVEL_CAUTION,
                                          .about = {PART_LIQUID, (int16_t)most, 0},
                                          .number = {0, 0, share}});
}

/* More water is brought than asked, or no water is enough for the alkali that its own acid and fat take up. */
static void find_weak(struct plan *plan, const struct lye_exact *exact, double alkali_g)
{
    double total_g = exact->total_water_g, brought_g = total_g - exact->water_g;

    if (exact->water_g < 0)
        find_about_water(plan, FINDING_SOLUTION_WEAK, LEVEL_STOP, total_g, brought_g,
                         share_of(alkali_g, alkali_g + brought_g));
    else if (total_g < exact->asked_water_g * (1 - NEARLY))
        find_about_water(plan, FINDING_SOLUTION_WEAK, LEVEL_STOP, exact->asked_water_g, total_g,
                         share_of(alkali_g, alkali_g + total_g));
}

void lye_find(const struct plan_input *in, struct plan *plan, double strength)
{
    find_strength(in, plan, strength);
    find_sugar(in, plan);
}

void lye_weighed(const struct plan_input *in, struct plan *plan)
{
    double alkali_g, water_g;

    alkali_as_weighed(in, plan);
    liquids_as_weighed(in, plan);
    additives_as_weighed(in, plan);
    plan->batter_ug = lye_batter_ug(in, plan);
    lye_rounded(in, plan, &alkali_g, &water_g);
    plan->water.strength_rounded = share_of(alkali_g, alkali_g + water_g);
}

void lye_plan(const struct plan_input *in, struct plan *plan)
{
    struct plan_water *water = &plan->water;
    struct lye_exact exact;

    lye_exact(in, plan, plan->oils_exact_g, &exact);
    if (fabs(exact.water_g) < NEARLY * exact.total_water_g)
        exact.water_g = 0; /* all of it is brought, but for the last bits */
    plan->demand_mol = exact.demand_mol;
    plan->acid_mol = exact.acid_mol;
    weigh_alkali(plan, &exact);
    weigh_others(in, plan, &exact);
    water->water = scales_weigh(plan, exact.water_g, SCALES_NEAREST);
    lye_weighed(in, plan);

    double alkali_g = exact.alkali_g[ALKALI_NAOH] + exact.alkali_g[ALKALI_KOH];
    double present_g = exact.total_water_g + fmax(-exact.water_g, 0); /* what is brought stays in */

    water->total_g = exact.total_water_g;
    water->strength = share_of(alkali_g, alkali_g + present_g);
    water->ratio = share_of(present_g, alkali_g);
    water->of_oils = share_of(present_g, plan->oils_exact_g);
    find_weak(plan, &exact, alkali_g);
    lye_find(in, plan, water->strength);
}
