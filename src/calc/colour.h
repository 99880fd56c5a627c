/* colour.h - how a coloured batter would look: a hint for the eye, not a measurement (calculations, section 17).
 *
 * Kubelka and Munk's relation for an opaque layer, K/S = (1 - R)^2 / 2R, taken for each channel of linear sRGB, with
 * the single constant K/S for each colourant: absorptions add in proportion to the dose. A colourant is told by its
 * swatch at the middle of its usual dose, a plain bar by practice (plain_red and so on). Whiteners add scattering
 * instead, so that all absorption counts less.
 *
 * Source: Kubelka and Munk 1931; Kubelka 1948, equation for infinite thickness; the single constant is Duncan's (1940).
 */
#ifndef CALC_COLOUR_H
#define CALC_COLOUR_H

#include <stdbool.h>

#include "lyeway/plan.h"

enum { COLOUR_CHANNELS = 3 };

/* K/S of a reflectance, which is kept within 0.01 and 0.99; and back, kept within the same. */
double colour_absorption(double reflectance);
double colour_reflectance(double absorption);

/* A batter while colourants are added to it. */
struct colour_mix {
    double plain[COLOUR_CHANNELS]; /* K/S of the batter without any */
    double fresh[COLOUR_CHANNELS], cured[COLOUR_CHANNELS];
    double scattering; /* beyond that of the batter itself, which is 1 */
    bool shifts;       /* fresh and cured differ */
    bool known;
};

void colour_start(const struct practice *practice, struct colour_mix *mix);

/* Adds g_per_kg >= 0 grams of a colourant for each kilogram of oils. Per channel its tint is
 * max(0, q(swatch) - q(plain)) / middle dose. A whitener's scattering is dose / halving dose, where the halving dose is the
 * one with which its middle dose comes out as light as its swatch; a swatch that is no lighter than the batter brings none.
 * One that has no usual dose in soap makes the mix unknown, unless nothing is added of it. */
void colour_add(struct colour_mix *mix, const struct colourant_fact *colourant, double g_per_kg);

/* How the mix looks: K/S over 1 + scattering. */
struct plan_colour colour_seen(const struct colour_mix *mix);

/* plan->portion[].colour, from exact doses: what is too little for the scale can still be given as a dispersion. With
 * PUT_IN_BATTER every portion looks alike. After dose_plan. */
void colour_plan(const struct plan_input *in, struct plan *plan);

#endif
