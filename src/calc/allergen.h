/* allergen.h - which fragrance allergens a label must name (calculations, section 9).
 *
 * Regulation (EC) 1223/2009, Annex III: a listed substance is named where its concentration in the finished product exceeds
 * the threshold; exactly at it is not above it. Constituents count at the high end of their range, isomers that share a name
 * are summed first, and an extract that is listed as a whole counts whole. From when a new name must be used is for the label.
 */
#ifndef CALC_ALLERGEN_H
#define CALC_ALLERGEN_H

#include "lyeway/plan.h"

/* share[] of each allergen of reference.allergen in a product that is use[] of each of the recipe's fragrances. An oil that is
 * listed as a whole and holds a constituent under that same name counts once, whole. */
void allergen_shares(const struct plan_input *in, const double use[RECIPE_FRAGRANCES], double share[PLAN_ALLERGENS]);

/* Whether a share is above the threshold; equality within 1e-9 of it is not. */
bool allergen_named(const struct allergen_fact *allergen, double share);

/* plan->allergen[] in the worst scented portion, by falling share, equal ones in the order of the table. */
void allergen_plan(const struct plan_input *in, struct plan *plan);

#endif
