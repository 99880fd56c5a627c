/* weigher.h - a maker at the bench who adds to one batch, and what must be true of its record afterwards, whatever happened.
 *
 * Append number n adds three events at once, each of which says n, so that one that is torn is seen. */
#ifndef FAULT_WEIGHER_H
#define FAULT_WEIGHER_H

#include "store/batches.h"
#include "support/scratch.h"

struct weigher {
    struct store *store;
    int64_t id;   /* of the batch */
    int appended; /* number of the last append that was acknowledged; -1: not even the batch was begun */
};

/* Keeps a recipe and begins a batch of it, as append 0. */
enum lw_status weigher_begin(struct weigher *weigher, struct store *store, const struct lw_now *now,
                             struct lw_error *error);

/* Makes the next append. */
enum lw_status weigher_append(struct weigher *weigher, struct lw_error *error);

/* Finds the batch again and reads how many appends its record holds; the test fails where one is torn. -1: there is no batch. */
int weigher_find(struct weigher *weigher, struct store *store);

#endif
