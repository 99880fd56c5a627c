/* learn.h - from what was seen of batches to what is learned (calculations, sections 8 and 11). Pure: the caller chooses which
 * batches count. */
#ifndef CALC_LEARN_H
#define CALC_LEARN_H

#include "calc/pace.h"
#include "calc/pieces.h"
#include "lyeway/learned.h"

/* One batch with pieces of a kind, seen through one of its parts. */
struct piece_seen {
    int made; /* pieces that each_g is the mean of; 0: no mass */
    double each_g;
    double within_squares; /* include/lyeway/book.h */
    int within_degrees;
    bool counted;
    int good, rejects;
};

/* Mean of the batches' means with the spread between them (Welford), spread within pooled over the batches, rejects of the class
 * brought up to date (pieces_counted). A batch's mean counts as one whatever number of pieces it is of; a count of none teaches nothing.
 * within_g is NAN without a degree; reject_a and reject_b are 0 without a count. */
void learn_pieces(const struct practice *practice, struct reject_prior prior, const struct piece_seen seen[], int n,
                  struct learned_pieces *learned);

/* One batch whose stages were stamped. */
struct pace_seen {
    double x[PACE_TERMS]; /* pace_numbers */
    double from_min;      /* NAN: not stamped */
    double until_min;     /* NAN: nothing is known of it; counts only with from_min, and not before it */
    bool at_least;        /* it was still workable then */
};

/* The belief of practice brought up to date by the batches. Those that were finished while still workable enter by
 * expectation-maximisation: until stands at what is expected of it, given that it is later than it was seen, and what is not known
 * of it widens the residual; again until nothing changes. Each then counts for as much as it tells, which may be next to nothing. The
 * order of batches does not matter. A batch without a from above 0 does not speak, an until before from is not taken. Returns the number
 * that speak. */
int learn_pace(const struct practice *practice, const struct pace_seen seen[], int n, struct pace_belief *belief);

/* Mean and spread of values; those that are not finite do not count. */
struct learned_value learn_value(const double value[], int n);

#endif
