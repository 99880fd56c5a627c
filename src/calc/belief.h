/* belief.h - what is believed about a quantity that is linear in known terms, and how an observation changes it.
 *
 * y = x'b + e, e normal with variance v. Belief: b normal around `mean` with covariance v * `covariance`, v inverse gamma with
 * `shape` and `scale` (normal-inverse-gamma, the conjugate family). A prediction is then Student's t with 2 * shape degrees.
 * Source: any text on Bayesian linear regression; checked with worked fractions and NIST StRD NoInt1.
 */
#ifndef CALC_BELIEF_H
#define CALC_BELIEF_H

#include "lyeway/learned.h"

/* Coefficients around 0 that are exactly known (no covariance) with that residual; belief_set gives each its own. */
void belief_start(struct belief *belief, double shape, double scale);

/* Coefficient `term`: expected value and its standard deviation, independent of the others. */
void belief_set(struct belief *belief, int term, double mean, double deviation);

/* Middle of the prediction at x, and the square of its scale: the predicted y is middle + scale * t. */
double belief_middle(const struct belief *belief, const double x[BELIEF_TERMS]);
double belief_scale_squared(const struct belief *belief, const double x[BELIEF_TERMS]);

/* Takes in one observation y at x. The order of observations does not matter. */
void belief_learn(struct belief *belief, const double x[BELIEF_TERMS], double y);

/* The same where that observation's own error has the variance noise * v, noise >= 0: 1 is belief_learn, 0 an exact one.
 * Nothing is learned where neither the belief nor the observation leaves any doubt. */
void belief_learn_noisy(struct belief *belief, const double x[BELIEF_TERMS], double y, double noise);

#endif
