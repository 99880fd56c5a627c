/* acids.h - what fats the recipe is made of (calculations, section 12). */
#ifndef CALC_ACIDS_H
#define CALC_ACIDS_H

#include "lyeway/plan.h"

/* plan->acids over plan->oil_share, and the finding rancid-risk.
 *
 * Shares, subtotals, iodine value and oxidisability are sums over the oils whose acids are known, weighted by their share of
 * all oils; they are not scaled up for the oils that are not known, whose share is `unknown`. An oil without acids but with a
 * published iodine range counts in the iodine value at the middle of it. */
void acids_plan(const struct plan_input *in, struct plan *plan);

/* mg KOH per g of a triglyceride with those acid shares (sum 1): 3 * M(KOH) * 1000 / (3 M + M(glycerol) - 3 M(water)). */
double acids_sap(const struct reference *reference, const double share[ACIDS]);

/* Iodine value of a triglyceride with those acid shares, AOCS Cd 1c-85. */
double acids_iodine(const struct reference *reference, const double share[ACIDS]);

#endif
