/* fill.h - how full a batter makes a mould once fragrance and colourants are in its portions; for sizing by a mould.
 *
 * All of the usable batter lies in the mould, whatever is done with a portion: mould_plan then counts the same. */
#ifndef CALC_FILL_H
#define CALC_FILL_H

#include "lyeway/plan.h"

/* What portions ask in grams, whatever the batter: found once, since pieces cost time. */
struct fill_fixed {
    double grams[RECIPE_PORTIONS]; /* of DEMAND_GRAMS, and of DEMAND_PIECES as the split will ask; else 0 */
};

void fill_fixed(const struct plan_input *in, struct fill_fixed *fixed);

/* mL of usable_g of batter with the fragrance and colourants that go into its portions, where a gram of batter has
 * oils_share grams of oils and density_g_ml with its air. Fragrance takes up its mass by its density, colourants with
 * carriers what dose.h says: a carrier kept back from the oils nothing. Before any rounding. */
double fill_ml(const struct plan_input *in, const struct fill_fixed *fixed, double usable_g, double oils_share,
               double density_g_ml);

#endif
