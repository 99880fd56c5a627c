/* moments.h - moves everything in a store in time: records that were made ready for one day are opened on another.
 *
 * Only what a first screen shows is moved at once; to write thousands of events anew would be most of the time that opening takes. The
 * rest waits for the first moment of leisure, or until somebody asks for it: query_begin knows which statements do.
 */
#ifndef STORE_MOMENTS_H
#define STORE_MOMENTS_H

#include "store/inside.h"

/* Adds `offset` to the local time of every batch, `seconds` to every moment, those of sealed revisions too, and `running` more to those of batches that are neither finished nor
 * set aside: for a store that is only just being made of an image, before anybody works on it. Events of other batches, and the book,
 * follow later. All or nothing. */
enum lw_status moments_shift(struct store *store, int64_t seconds, int64_t running, int32_t offset,
                             struct lw_error *error);

/* Moves what still waits. */
enum lw_status moments_settle(struct store *store, struct lw_error *error);

/* Whether the statement reads or writes what may still wait. */
bool moments_wanted(enum sql sql);

#endif
