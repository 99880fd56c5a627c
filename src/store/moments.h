/* moments.h - moves everything in a store in time: records that were made ready for one day are opened on another. */
#ifndef STORE_MOMENTS_H
#define STORE_MOMENTS_H

#include "store/inside.h"

/* Adds `seconds` to every moment, those of sealed revisions too, and `running` more to those of batches that are neither finished nor
 * set aside: for a store that is only just being made of an image, before anybody works on it. The book follows. All or nothing. */
enum lw_status moments_shift(struct store *store, int64_t seconds, int64_t running, struct lw_error *error);

#endif
