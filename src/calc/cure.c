/* cure.c - what follows from a curve: mass, loss, the day it is cured, the mass for a label. */
#include "calc/cure.h"

#include <math.h>
#include <string.h>

/* Masses that should be whole divisions come out a hair under. */
static const double HAIR = 1e-9;

double cure_mass(const struct cure_fit *fit, double day)
{
    if (fit->unknown != CURE_KNOWN)
        return NAN;
    return fit->end + (fit->start - fit->end) * exp(-fit->rate * day);
}

double cure_loss_a_day(const struct cure_fit *fit, double day)
{
    double mass = cure_mass(fit, day);

    return fit->rate * (mass - fit->end) / mass;
}

/* The loss a day, rate * (m - end) / m, falls with m: it is at the threshold when m = rate * end / (rate - threshold), and always
 * under it where the rate itself is. A curve that ends at nothing loses the same share every day. */
double cure_cured_day(const struct cure_fit *fit, double least_days, double threshold)
{
    if (fit->unknown != CURE_KNOWN || !(threshold > 0.0))
        return NAN;
    if (cure_loss_a_day(fit, least_days) < threshold)
        return least_days;
    if (!(fit->end > 0.0 && fit->rate > threshold))
        return NAN;

    double above_end = fit->end * threshold / (fit->rate - threshold);
    double day = log((fit->start - fit->end) / above_end) / fit->rate;

    return fmax(day, least_days);
}

void cure_expected(double loss, double rate, struct cure_fit *fit)
{
    memset(fit, 0, sizeof *fit);
    fit->unknown = CURE_FEW;
    if (!(loss > 0.0 && loss < 1.0 && rate > 0.0 && isfinite(rate)))
        return;
    fit->unknown = CURE_KNOWN;
    fit->start = 1.0;
    fit->end = 1.0 - loss;
    fit->rate = rate;
}

double cure_label_g(const struct cure_fit *fit, double lightest_g, double z, double least_share, double division_g)
{
    if (fit->unknown != CURE_KNOWN || !(lightest_g > 0.0 && division_g > 0.0))
        return 0.0;

    double share = fmin(fmax(fit->end - z * fit->sd_end, least_share), 1.0);

    return floor(fmax(lightest_g * share, 0.0) / division_g + HAIR) * division_g;
}
