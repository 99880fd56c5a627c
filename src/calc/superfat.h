/* superfat.h - how far from lye-heavy a batch can be (calculations, section 3).
 *
 * Uncertainty after JCGM 100:2008 (GUM), clauses 4.3.7 and 5.1.2: independent rectangular inputs, coverage factor 2.
 */
#ifndef CALC_SUPERFAT_H
#define CALC_SUPERFAT_H

#include "calc/margin.h"
#include "lyeway/plan.h"

/* Oil that joins a part of the batter after the lye was reckoned: the carrier of a colourant. */
struct superfat_extra {
    const struct oil_fact *oil;
    double mass_g;
};

/* Superfat of the whole batter as rounded: plan->margin, and the findings about it (lye-heavy, lye-likely, lye-worst,
 * division-coarse) for the batter. */
void superfat_plan(const struct plan_input *in, struct plan *plan);

/* n - A and D of the whole batter as rounded, at the nominal values: plan->margin.nominal is 1 - excess / demand. */
struct margin_balance superfat_balance(const struct plan_input *in, const struct plan *plan);

/* Superfat of a part of the batter: `share` of what is in the jug, which is all rounded masses less plan->oil_kept_ug, plus
 * the extra oils. */
void superfat_of_part(const struct plan_input *in, const struct plan *plan, double share, int extras,
                      const struct superfat_extra extra[], struct margin *margin);

/* Superfat of each portion with the carriers of its colourants, plan->portion[].margin, and its findings where they are
 * worse than those of the whole. A portion has its share of the jug (reserve_share), which is without the oils that are
 * kept back, and its own carriers: hydroxide demand and alkali of the portions and of what is left of the jug sum to those
 * of the whole and the carriers on top. After reserve_plan. */
void superfat_portions(const struct plan_input *in, struct plan *plan);

#endif
