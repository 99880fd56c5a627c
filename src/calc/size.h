/* size.h - the oils that a recipe's size asks for. */
#ifndef CALC_SIZE_H
#define CALC_SIZE_H

#include "lyeway/plan.h"

/* Fills plan->oil_share, oils_exact_g and oil[].exact_g. Size by batter, mould and pieces is linear in the oils but for fixed
 * grams, so it is solved exactly: batter = a * oils + b from two evaluations. Shares that sum to 1 within 0.0001 are
 * normalised. */
void size_plan(const struct plan_input *in, struct plan *plan);

#endif
