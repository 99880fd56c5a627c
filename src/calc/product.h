/* product.h - what a portion weighs once cured, and how much of that is fragrance (calculations, section 9).
 *
 * Limits and labels count in the finished product. A bar loses water in the cure, so a fragrance's share rises; a check
 * against the poured mass would come out too low.
 */
#ifndef CALC_PRODUCT_H
#define CALC_PRODUCT_H

#include "lyeway/plan.h"

/* Grams left of filled_g that holds water_g of water: dried until water is practice.water_in_bar of the bar, and with at least
 * practice.cure_loss_least of the mass gone. Of the two the lighter bar counts, since shares are larger in it. Fragrance is
 * taken to stay. 0 for a portion without mass. */
double product_cured_g(const struct practice *practice, double filled_g, double water_g);

/* All water in the batter, g, from rounded masses: plain, in ready-made lye, in liquids and in additives. What is not alkali in
 * dry flake is taken as solid. */
double product_water_g(const struct plan_input *in, const struct plan *plan);

/* Whether fragrance reaches the portion: it is scented, or the whole batter is. */
bool product_scented(const struct plan_input *in, const struct plan_portion *portion);

/* Grams of fragrance i in the portion. */
double product_fragrance_g(const struct plan_input *in, const struct plan *plan, const struct plan_portion *portion,
                           int i);

/* Share of the cured portion that each of the recipe's fragrances is; all 0 for one that is not scented or has no mass.
 * Returns their sum. Needs portion->cured_g. */
double product_uses(const struct plan_input *in, const struct plan *plan, const struct plan_portion *portion,
                    double use[RECIPE_FRAGRANCES]);

/* Fills cured_g of every portion (by the loss in the cure that the maker's batches taught, where enough speak), plan->worst_portion and plan->fragrance[].share_of_product. */
void product_plan(const struct plan_input *in, struct plan *plan);

#endif
