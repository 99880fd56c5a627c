/* many_batches.h - a book of many batches, written by a few statements and not one by one. */
#ifndef SUPPORT_MANY_BATCHES_H
#define SUPPORT_MANY_BATCHES_H

#include "store/store.h"

/* Adds n finished batches of revision 1 of that recipe, which is kept, with rows in the book and words of all sorts, a batch every 5000
 * s from MANY_FIRST_S on; every tenth row lacks each of the figures that lists are sorted by. */
enum { MANY_FIRST_S = 1000000000, MANY_APART_S = 5000 };
enum lw_status many_batches(struct store *store, int64_t recipe_id, int n, struct lw_error *error);

#endif
