/* recipe_rows.h - which column of a recipe's tables is which member of its parts. */
#ifndef STORE_RECIPE_ROWS_H
#define STORE_RECIPE_ROWS_H

#include "lyeway/change.h"
#include "store/member.h"

/* A list of a recipe: where it is in struct recipe, and the statements of its table. */
struct recipe_list {
    size_t count, first; /* offsets in struct recipe */
    size_t size;         /* bytes of an element */
    int most;
    struct members members;
    enum sql select, count_rows, insert, update, remove, shift;
};

/* For every part but CHANGE_HEAD and CHANGE_NOTE. */
const struct recipe_list *recipe_list(enum change_part part);

/* Of struct recipe_head, and of one colourant of a portion. */
const struct members *recipe_head_members(void);
const struct members *recipe_colourant_members(void);

#endif
