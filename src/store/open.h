/* open.h - connects to a store after looking at what stands there, so that nothing foreign or damaged is ever written to. */
#ifndef STORE_OPEN_H
#define STORE_OPEN_H

#include "store/inside.h"

/* Opens the database of store->path, or of the image, checks and migrates it. The store is to be abandoned on failure. */
enum lw_status open_file(struct store *store, enum store_how how, struct lw_error *error);
enum lw_status open_image(struct store *store, const struct store_options *options, struct lw_error *error);

/* Opens `copy` to look at it: as it is, whatever its version, if it is known here. Sentences name store->path. */
enum lw_status open_copy(struct store *store, const char *copy, struct lw_error *error);

#endif
