/* distribution.h - the distributions that the craft's figures need; checked against GSL in tests/reference. */
#ifndef CALC_DISTRIBUTION_H
#define CALC_DISTRIBUTION_H

/* P(Z <= z) and its inverse for the standard normal; 0 < p < 1. Relative error under 1e-12 and 1e-9. */
double normal_cdf(double z);
double normal_quantile(double p);

/* P(T <= t) for Student's t with `degrees` > 0 of freedom; relative error under 1e-10, in the lower tail too, for up to
 * 1e5 degrees; beyond them it is taken as normal. */
double student_cdf(double t, double degrees);

/* Inverse of Student's t with `degrees` > 0 of freedom; 0 < p < 1; relative error under 1e-8. */
double student_quantile(double p, double degrees);

#endif
