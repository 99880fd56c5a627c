/* differ.h - why two batches differ: the inputs of the model of pace, ranked by how far each moves a time. */
#ifndef CALC_DIFFER_H
#define CALC_DIFFER_H

#include "calc/pace.h"

enum differ_figure { DIFFER_FROM, DIFFER_UNTIL, DIFFER_WINDOW };

struct differ_cause {
    enum pace_term term;
    double moves;     /* factor on the figure of a by having its input in place of b's; 1: none */
    double low, high; /* the factor's 80 % interval, as far as the term is known */
};

/* What changed from b to a, the largest move first; inputs that are the same are left out. Returns how many. The offsets of the
 * techniques count as one input, under the term of a's. Of the window, the factor on until - from is found with the other inputs as
 * they are in b, and a window of less than a hundredth of from counts as that. *expected: the factor by all of it together. Both
 * beliefs have a shape above 2. */
int differ_pace(const struct pace_belief *belief, const double a[PACE_TERMS], const double b[PACE_TERMS],
                enum differ_figure figure, struct differ_cause causes[PACE_TERMS], double *expected);

#endif
