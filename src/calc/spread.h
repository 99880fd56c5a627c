/* spread.h - mean and spread of a row of values, their quantiles, and a straight line through points. */
#ifndef CALC_SPREAD_H
#define CALC_SPREAD_H

#include <stdbool.h>

/* A running mean and sum of squares about it (Welford 1962), which does not lose the small differences of large numbers. */
struct running_mean {
    int n;
    double mean, squares;
};

void running_mean_add(struct running_mean *running, double value);

/* Standard deviation with n - 1; NAN below two values. */
double running_mean_sd(const struct running_mean *running);

/* Quantile p, 0 to 1, of n >= 1 values in rising order, on the line between neighbours: position p * (n - 1) (type 7 of
 * Hyndman and Fan 1996). */
double quantile_sorted(const double sorted[], int n, double p);

/* Least squares of y = at_0 + slope * x. */
struct line {
    bool known; /* false: fewer than three points, or all at one x */
    int n;
    double at_0, slope, sd_slope;
    double sd; /* residual standard deviation, n - 2 degrees */
};
struct line line_fit(const double x[], const double y[], int n);

#endif
