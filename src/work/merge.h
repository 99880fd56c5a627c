/* merge.h - a change that was made on one version of a recipe, put on top of another that somebody else saved meanwhile. */
#ifndef WORK_MERGE_H
#define WORK_MERGE_H

#include "work/change.h"

/* Puts n changes, one after another, on top of *recipe: each is fitted to the recipe as it is there by then, applied, and kept
 * in `fitted` (room for n). Returns how many could be.
 *
 * Elements are found by their ids, wherever they stand now; a new one whose id was given away meanwhile gets another. Of a part
 * that both changed only those members are put that the change is about: a superfat does not bring back the old name. What
 * both changed is as in the change. One about an element that is gone, or a new element without room, is left out. */
int merge_changes(struct recipe *recipe, const struct change changes[], int n, struct change fitted[]);

#endif
