/* yield.h - how much batter a piece takes, from the weighings of what was left while a batch was piped. */
#ifndef CALC_YIELD_H
#define CALC_YIELD_H

#include "lyeway/batch.h"
#include "lyeway/book.h"
#include "lyeway/plan.h"

/* One weighing of what is left in the bags. */
struct left_seen {
    int64_t left_ug;
    int made; /* pieces made by then, of the part that is weighed */
};

/* The parts of kind `kind` (index in batch->pieces) of a batch, at most `most`; how many. `left` are its weighings in time (those by
 * eye left out). Mass a piece is told of the part that piping_part names. Its spread within the batch is that of the means of the
 * stretches between weighings, the first from the full bags on where what is in them was weighed (piping.h), in which no bag was emptied; each weighed by its pieces. */
int yield_of(const struct plan_input *in, const struct plan *plan, const struct batch *batch, int kind,
             const struct left_seen left[], int n, struct book_pieces out[], int most);

/* Seconds a piece from the first to the last of those `made`, which were counted one by one; NAN under four pieces. */
double yield_seconds(const struct batch_pieces *pieces, int made);

#endif
