/* dose.h - colourants of each portion and their carriers (calculations, sections 5 and 6). */
#ifndef CALC_DOSE_H
#define CALC_DOSE_H

#include "lyeway/plan.h"

/* plan->portion[].colourant[]; adds their masses to filled_g and volume_ml; with PUT_IN_BATTER
 * only the findings. Findings dose-small (also for additives and
 * fragrances), colour-shifts. */
void dose_plan(const struct plan_input *in, struct plan *plan);

/* With PUT_IN_BATTER: weighs the colourants named under any portion, dosed on the whole batter, into
 * plan->portion[].colourant[], and adds them and their carriers to plan->batter_ug. Nothing otherwise. Before the split. */
void dose_into_batter(const struct plan_input *in, struct plan *plan);

/* Exact grams of all colourants and carriers of a recipe that go into the whole batter, at those oils; 0 with
 * PUT_IN_PORTIONS. */
double dose_batter_g(const struct plan_input *in, const struct plan *plan, double oils_g);

/* A dispersion for a dose under five divisions: weigh `weigh_g` of the colourant into `carrier_g` and use `use_g` of the mix. */
struct dispersion { double weigh_g, carrier_g, use_g; };
struct dispersion dose_dispersion(double dose_g, double division_g);

#endif
