/* maker.h - a maker who edits one recipe, and what must be true of it afterwards, whatever happened on the way.
 *
 * Save number n writes n into four places of the recipe at once, so that a save that is torn is seen.
 */
#ifndef FAULT_MAKER_H
#define FAULT_MAKER_H

#include "store/recipes.h"
#include "support/scratch.h"

struct maker {
    struct store *store;
    int64_t id, version;
    int saved; /* number of the last save that was acknowledged; -1: not even the recipe was made */
    struct recipe recipe, loaded;
    struct change change[4];
};

/* Makes the recipe, as save 0. */
enum lw_status maker_begin(struct maker *maker, struct store *store, const struct lw_now *now, struct lw_error *error);

/* Makes the next save. */
enum lw_status maker_save(struct maker *maker, const struct lw_now *now, struct lw_error *error);

/* Finds the recipe again and reads which save it holds; the test fails where it is torn. -1: there is no recipe. */
int maker_find(struct maker *maker, struct store *store);

#endif
