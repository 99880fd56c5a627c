/* own.h - common practice, with what the maker's own batches taught in its place where enough of them speak (learned.h).
 *
 * Here is what a whole batch shares; pieces.h and pace.h have theirs. With nothing learned all of it is practice as it is.
 */
#ifndef CALC_OWN_H
#define CALC_OWN_H

#include "lyeway/plan.h"

/* Whether so many batches speak for it that its mean is used: LEARNED_LEAST. */
bool own_known(const struct learned_value *value);

/* Practice with the own residue of the jug and of a bag. What practice allows the jug at most, a share of the batter, is then no
 * bound: what was weighed is taken at its word, up to half of the batter. */
struct practice own_practice(const struct plan_input *in);

/* Air by volume: the bench's, where it has none as learned. None is added to a measured density, which has it in it. */
double own_air(const struct bench *bench);

#endif
