/* lye.h - how much alkali the oils and acids ask for, and the water that goes with it (calculations, 1 and 2).
 *
 * Alkali needs water, water brings liquids, liquids bring fat and acid that need alkali: the system is linear in the
 * alkali, so it is solved in closed form.
 */
#ifndef CALC_LYE_H
#define CALC_LYE_H

#include "lyeway/plan.h"

/* Saponification value and purity in use: plan->sap, plan->purity. Own value first, then the published one; findings
 * sap-unit, sap-no-range, sap-far.
 *
 * An own value without a range gets that of practice. One below 1 is a stop; the plan goes on with the published
 * value, else with a thousand times the one given. One of 100 to 150 that no published range holds is a caution and
 * is used as given. */
void lye_facts(const struct plan_input *in, struct plan *plan);

/* What a recipe asks of each part at given oils, before rounding. Masses in grams. */
struct lye_exact {
    double demand_mol, acid_mol; /* D with the liquids' and additives' fat; A */
    double alkali_g[ALKALIS];    /* as weighed, impurity included */
    double solution_g[ALKALIS];  /* 0 where dry alkali is weighed */
    double total_water_g;        /* all water that goes with the alkali */
    double asked_water_g;        /* the same, but what the strength asked would want where the liquids take
                                                up more alkali than all of their water carries at that strength */
    double water_g;              /* plain water to weigh; negative where more is brought than asked */
    double liquid_g[RECIPE_LIQUIDS];
    double additive_g[RECIPE_ADDITIVES];
};

/* Moles of hydroxide that an additive takes up by its acid. */
double lye_acid_mol(const struct additive_fact *fact, double grams);

/* oils_g >= 0: total of the oils, shares are plan->oil_share. Needs lye_facts first.
 *
 * Strength, ratio and share of the oils are of the alkali as weighed, impurity included. A liquid that supplies a
 * share of the water weighs that share over its own water share; its fat and an additive's join the demand with the
 * nominal value of their oil. What is left to weigh as plain water is the total less what solutions, liquids and
 * additives bring; it may come out negative. Where the alkali taken up by liquids would grow the whole more than
 * tenfold, the water is held there. */
void lye_exact(const struct plan_input *in, const struct plan *plan, double oils_g, struct lye_exact *out);

/* Batter before rounding at those oils: oils, alkali or its solution, water, liquids, additives, and fragrance and
 * colourants that the recipe puts into the batter. */
double lye_batter_g(const struct plan_input *in, const struct plan *plan, double oils_g);

/* Fills plan->alkali, water, liquid, additive, demand_mol, acid_mol and batter_ug (of these and the oils) from
 * plan->oils_exact_g, and rounds them: alkali or its solution down, the rest to nearest. Of ready-made lye the
 * alkali in it has division 0. More water brought than asked: none is weighed. Findings strength-over, -high, -low
 * (of the strength that is reached), solution-weak, and heat-boil by sugar. */
void lye_plan(const struct plan_input *in, struct plan *plan);

/* From the rounded masses alone: moles of alkali, what liquids and additives bring, batter_ug (lye_batter_ug) and
 * strength_rounded. */
void lye_weighed(const struct plan_input *in, struct plan *plan);

/* Oils, alkali or its solution, water, liquids and additives as rounded. */
int64_t lye_batter_ug(const struct plan_input *in, const struct plan *plan);

/* Strength above which alkali stays undissolved: the solubility at 20 C, mixed by mole share of the alkalis. */
double lye_soluble(const struct plan_input *in);

/* The findings strength-over, -high, -low of that strength, and heat-boil by sugar. */
void lye_find(const struct plan_input *in, struct plan *plan, double strength);

#endif
