/* dose.h - colourants of each portion and their carriers (calculations, sections 5 and 6).
 *
 * A dose goes by the oils that its portion holds (portion * oils / batter, both as rounded; fat of liquids is not
 * counted), by the portion's batter, or is given in grams. A blend's dose is shared among its colourants by parts.
 * The carrier's grams are ratio times the exact dose. Carrier oil is on top of the portion; where it is reserved
 * from the recipe's oils it is in the batter already, and in its portion's part of it: it is weighed, but adds
 * neither mass nor volume (reserve.h). */
#ifndef CALC_DOSE_H
#define CALC_DOSE_H

#include "lyeway/plan.h"

/* plan->portion[].colourant[]; adds their masses to filled_g and volume_ml (colourants at 1.0 g/mL, carriers as oil at
 * the batter's temperature); with PUT_IN_BATTER only the findings. After portion_plan.
 *
 * dose-small: a dose above 0 that comes to under five divisions of its scale, colourants, fragrances of each portion or
 * of the batter, and additives. A fragrance's finding names its portion in `other`.
 * colour-shifts: a colourant whose row says anything but stable in high pH. */
void dose_plan(const struct plan_input *in, struct plan *plan);

/* With PUT_IN_BATTER: weighs the colourants named under any portion, dosed on the whole batter, into
 * plan->portion[].colourant[], and adds them and their carriers to plan->batter_ug. Nothing otherwise. Before the
 * split. */
void dose_into_batter(const struct plan_input *in, struct plan *plan);

/* Exact grams of all colourants and carriers of a recipe that go into the whole batter, at those oils; 0 with
 * PUT_IN_PORTIONS. */
double dose_batter_g(const struct plan_input *in, const struct plan *plan, double oils_g);

/* What colourants with their carriers bring to a batter. */
struct dose_added {
    double mass_g, volume_ml;
};

/* Exactly, of all colourants of portion i, in a batter of batter_g with oils_g of oils in it. */
struct dose_added dose_portion_exact(const struct plan_input *in, int i, double oils_g, double batter_g);

/* The same as dose_batter_g with its volume; batter_g is the batter before colour. */
struct dose_added dose_batter_exact(const struct plan_input *in, double oils_g, double batter_g);

/* Of colourant c of portion i, as weighed in the plan. */
struct dose_added dose_as_rounded(const struct plan_input *in, const struct plan *plan, int i, int c);

/* A dispersion for a dose under five divisions: weigh `weigh_g` of the colourant into `carrier_g` and use `use_g` of
 * the mix.
 *
 * dose_g > 0, division_g > 0. Usually one part in ten, thinner (to one in a hundred) where the use would still be
 * under five divisions; at least 1 g and five divisions of the colourant. All 0 where not even one division of the
 * thinnest would be used: only a finer scale helps. */
struct dispersion {
    double weigh_g, carrier_g, use_g;
};
struct dispersion dose_dispersion(double dose_g, double division_g);

#endif
