/* reserve.h - carrier oil that is kept back from the recipe's own oils (calculations, section 6).
 *
 * The oil is weighed with the others and then held out of the jug until it goes into its portion with the colourant
 * in it. So what is shared out of the jug is poorer in just that oil, and a portion's batter_ug has its carrier in it
 * already: what it gets of the jug is the rest. With that, oils, alkali and all else of the portions and the residue
 * add up to those of the whole. Where the recipe has less of the oil than its carriers want, or none, only what it
 * has is kept back; the rest is other oil, which adds to the superfat of its portion.
 */
#ifndef CALC_RESERVE_H
#define CALC_RESERVE_H

#include "lyeway/plan.h"

/* The recipe's first line of that oil: the same fact, or the same name where there is no fact; -1 if it has none. */
int reserve_line(const struct plan_input *in, const struct oil_fact *fact, const char *name);

/* Micrograms of each of the recipe's oils that the carriers as weighed keep back, of several lines of one oil the
 * first ones first; their sum is returned. */
int64_t reserve_kept(const struct plan_input *in, const struct plan *plan, int64_t kept_ug[RECIPE_OILS]);

/* plan->oil_kept_ug[], plan->kept_ug and plan->portion[].kept_ug; left at 0 with PUT_IN_BATTER, where all of the oils are in the
 * batter before it is split. After dose_plan. */
void reserve_plan(const struct plan_input *in, struct plan *plan);

/* Share of what is in the jug that goes into the portion; 0 for one that is carrier alone. */
double reserve_share(const struct plan *plan, const struct plan_portion *portion);

#endif
