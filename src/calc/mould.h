/* mould.h - what a mould holds, how high a layer stands (calculations, section 7). */
#ifndef CALC_MOULD_H
#define CALC_MOULD_H

#include "lyeway/plan.h"

/* Volume to fill in mL: the whole times its fill share. 0 for a mould with a length of 0; never over 1e12. */
double mould_ml(const struct mould *mould);

/* Grams of batter of that density (g/mL) in a layer of `mm` in a box; 0 for other shapes; never over 1e12. */
double mould_layer_g(const struct mould *mould, double mm, double density_g_ml);

/* Height in mm of a volume in a box; 0 for other shapes. */
double mould_height_mm(const struct mould *mould, double ml);

/* plan->mould_ml, filled_ml, portion[].layer_mm, and the finding mould-over. After portions, doses and fragrance.
 *
 * Of a recipe that is sized by its mould every portion lies in it, as the size was reckoned (fill.h). Otherwise piped
 * portions stand on the mould or beside it and fill none of it, unless they ask for a layer. Over is what one
 * percent and two divisions of the split do not explain: rounding to the scale is no spill. */
void mould_plan(const struct plan_input *in, struct plan *plan);

#endif
