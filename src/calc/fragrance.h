/* fragrance.h - load, limits, allergens and behaviour of fragrance (calculations, section 9). */
#ifndef CALC_FRAGRANCE_H
#define CALC_FRAGRANCE_H

#include "lyeway/plan.h"

/* Exact grams of fragrance i for a part of the batter with oils_g of oils and batter_g before fragrance. */
double fragrance_dose_g(const struct recipe_fragrance *fragrance, double oils_g, double batter_g);

/* Exact grams that go into the whole batter; 0 with PUT_IN_PORTIONS. `batter_g` is the batter without them. */
double fragrance_batter_g(const struct plan_input *in, double oils_g, double batter_g);

/* With PUT_IN_BATTER: weighs plan->batter_fragrance[] for the whole and adds it to plan->batter_ug. Before the split. */
void fragrance_into_batter(const struct plan_input *in, struct plan *plan);

/* With PUT_IN_BATTER every portion holds its share of plan->batter_fragrance (portion.fragrance_ug, nothing to weigh there).
 * Else plan->portion[].fragrance[] and fragrance_ug, added to filled_g and volume_ml; plan->fragrance[].rounded_ug. */
void fragrance_doses(const struct plan_input *in, struct plan *plan);

/* cured_g of each portion, shares in the product, the binding limit, allergens; findings fragrance-limit, fragrance-fast. */
void fragrance_plan(const struct plan_input *in, struct plan *plan);

#endif
