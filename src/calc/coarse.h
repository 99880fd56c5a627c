/* coarse.h - whether the scale in use is too coarse for the alkali, and what would help (calculations, section 3). */
#ifndef CALC_COARSE_H
#define CALC_COARSE_H

#include "lyeway/plan.h"

/* The finding division-coarse: weighings make up over a third of the variance of *margin, the superfat of what is
 * weighed without any carriers of colourants, or rounding moves the superfat by more than half a point. It names the
 * nearest sizes below and above, within a quarter of the present one, at which the alkali comes to a whole division
 * (within a tenth of a point; else the best there is under half a point), and the division, a power of ten finer
 * than the present, at which rounding moves the superfat by less than half a point. */
void coarse_find(const struct plan_input *in, struct plan *plan, const struct margin *margin);

/* The nearest of those sizes in grams of oils, below the present one with a direction of -1, above with 1, whether or not the scale
 * is too coarse; 0 where there is none. For a plan that is made. */
double coarse_size(const struct plan_input *in, const struct plan *plan, int direction);

#endif
