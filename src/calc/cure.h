/* cure.h - how a bar dries: m(t) = end + (start - end) exp(-rate t), fitted to cure weighings (calculations, section 13).
 *
 * Masses may be grams or shares of the first weighing: all masses of one fit in the same unit. Days count from the cut.
 * Reference: any text on non-linear least squares; checked with NIST StRD BoxBOD and Misra1a.
 */
#ifndef CALC_CURE_H
#define CALC_CURE_H

#include <stdbool.h>

enum { CURE_POINTS = 96, CURE_LEAST_POINTS = 4 };

struct cure_point {
    double day, mass;
};

/* Why there is no curve: fewer than CURE_LEAST_POINTS days; a row that is straight, falls ever faster, or bends so little that two
 * standard errors of its end are more than all it loses; a row that rises; one that stays the same, from the first or the second
 * weighing on. A rising or nearly straight row has its best curve in the figures all the same, but nothing follows from it. */
enum cure_unknown { CURE_KNOWN, CURE_FEW, CURE_STRAIGHT, CURE_RISING, CURE_SAME };

struct cure_fit {
    enum cure_unknown unknown;
    int points;                       /* at different days */
    double end, start, rate;          /* rate a day, > 0 */
    double sd_end, sd_start, sd_rate; /* standard errors; 0 of what was held */
    double rss, sd;                   /* residual sum of squares, and standard deviation */
    bool held;                        /* end stands at `least_end`: the weighings would have gone below */
};

/* All three free; end not below least_end (0: no bound). Weighings within one whole day count as their mean; any order. At most CURE_POINTS points, the
 * first of them. */
void cure_fit(const struct cure_point point[], int n, double least_end, struct cure_fit *fit);

/* The same where the mass at day 0 is known. */
void cure_fit_from(const struct cure_point point[], int n, double start, double least_end, struct cure_fit *fit);

/* NAN without a curve, like the next two. */
double cure_mass(const struct cure_fit *fit, double day);

/* Share of its mass that it loses a day then. */
double cure_loss_a_day(const struct cure_fit *fit, double day);

/* First day on which least_days have passed and the loss a day is under `threshold` (share, > 0); NAN too where it never is. */
double cure_cured_day(const struct cure_fit *fit, double least_days, double threshold);

/* What a fit stands on where there are too few weighings: the curve that shares of the mass follow by other batches or practice.
 * loss: share lost in the end, > 0 and < 1; rate a day, > 0; else there is none (CURE_FEW). */
void cure_expected(double loss, double rate, struct cure_fit *fit);

/* Mass for the label: that of the lightest whole bar, g at the cut, once it has dried as the curve (in shares of the mass at the
 * cut) says, less `z` standard errors of its end, at most all the water lost (least_share of the mass stays), rounded down to
 * division_g. 0 without a curve. */
double cure_label_g(const struct cure_fit *fit, double lightest_g, double z, double least_share, double division_g);

#endif
