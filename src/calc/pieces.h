/* pieces.h - how many pieces to pipe so that enough come out good, and the batter for them (calculations, section 8). */
#ifndef CALC_PIECES_H
#define CALC_PIECES_H

#include "lyeway/plan.h"

/* Rejects ~ beta-binomial(n, a, b). */
struct reject_prior { double a, b; };
struct reject_prior pieces_prior(const struct practice *practice, const struct pieces *pieces);

/* P(at least `wanted` of n are good). */
double pieces_chance(int n, int wanted, struct reject_prior prior);

/* Least n with that chance at least `chance` (a guard of 1e-12 lets equality count). wanted 1 to 2000; chance in (0, 1). */
int pieces_to_pipe(int wanted, double chance, struct reject_prior prior);

/* Grams of batter for n pieces with the spread of practice and that chance, bag and cup losses included; *bags may be NULL. */
double pieces_batter_g(const struct practice *practice, const struct pieces *pieces, int n, double chance, int *bags);

/* Pieces that batter_g is expected to make after the losses of its bags and cup: whole ones, at least 0. */
int pieces_made(const struct practice *practice, const struct pieces *pieces, double batter_g, int *bags);

/* Chance asked by the recipe, or of practice. */
double pieces_chance_wanted(const struct practice *practice, const struct pieces *pieces);

/* plan->portion[].pieces, and the finding pieces-short. Portions with the same kind share one number to pipe. */
void pieces_plan(const struct plan_input *in, struct plan *plan);

#endif
