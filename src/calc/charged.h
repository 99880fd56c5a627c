/* charged.h - a plan with what was really weighed in place of what was asked (calculations, section 3, last words).
 *
 * With it the live superfat is found by the very functions that find the planned one.
 */
#ifndef CALC_CHARGED_H
#define CALC_CHARGED_H

#include "lyeway/batch.h"

/* Copies *plan to *out with the charges that there are in place of the planned masses, and finds anew what depends on them:
 * alkali in moles, strength reached, batter_ug, oils_ug, margin and, where the split is valid, portions, volumes and heat.
 * No findings but those about lye. Whatever the charges, every number is finite. */
void charged_plan(const struct plan_input *in, const struct plan *plan, const struct charges *charges,
                  struct plan *out);

/* Targets of the portions that are still to be poured, ug: those already poured keep what they got; grams, layers and pieces
 * are served first, the others share what is left in the jug (less the residue) in proportion to what was planned, by
 * largest remainder, to the plan's division. A portion poured has target 0. Sum of poured, targets and residue is batter_ug
 * unless too little is left, then the targets sum to what there is. */
void charged_split(const struct plan_input *in, const struct plan *charged, const struct charge poured[PLAN_PORTIONS],
                   int64_t target_ug[PLAN_PORTIONS]);

/* What the full jug should weigh without its vessel before the lye goes in (`lye` false) or after, ug, and the tolerance: the sum of
 * what its weighings may be off, and the larger of that and a division of the scale it stands on. */
void charged_jug(const struct plan_input *in, const struct plan *plan, const struct batch *batch, bool lye,
                 int64_t *expected_ug, int64_t *tolerance_ug);

#endif
