/* change.h - applies changes to a recipe: the one road that edits, undo and redo share. */
#ifndef WORK_CHANGE_H
#define WORK_CHANGE_H

#include "lyeway/change.h"
#include "lyeway/status.h"

/* Bytes of an element of that part. */
size_t change_size(enum change_part part);

/* Number of elements of a list; 1 for head and note. */
int change_count(const struct recipe *recipe, enum change_part part);

/* Copies element `index` of that part out of the recipe. */
void change_read(const struct recipe *recipe, enum change_part part, int index, union change_element *out);

/* A replacement of element `index`, before and after both as it is now, for the caller to edit `after`. */
void change_begin(const struct recipe *recipe, enum change_part part, int index, struct change *change);

/* Applies it forward, or back. LW_FULL with a sentence where the list has no room, LW_INVALID where the index is outside of it;
 * the recipe is then as it was. */
enum lw_status change_apply(struct recipe *recipe, const struct change *change, bool forward, struct lw_error *error);

/* An id that no element of that list has yet. Not for scales, which have none. */
uint32_t change_free_id(const struct recipe *recipe, enum change_part part);

#endif
