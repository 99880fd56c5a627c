/* portion.h - splitting the batter so that nothing is lost (calculations, section 6). */
#ifndef CALC_PORTION_H
#define CALC_PORTION_H

#include "lyeway/plan.h"

/* Residue asked for, in grams, of a batter of batter_g. */
double portion_residue_g(const struct plan_input *in, double batter_g);

/* plan->portion[] up to batter_ug, division_ug, oils_g, technique; residue_ug; split_valid. Always
 * batter_ug == residue_ug + sum of portions where split_valid. Findings portions-over and portions-short. */
void portion_plan(const struct plan_input *in, struct plan *plan);

#endif
