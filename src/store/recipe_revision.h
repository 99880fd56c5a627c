/* recipe_revision.h - one revision of a recipe, whole: read, written and compared. */
#ifndef STORE_RECIPE_REVISION_H
#define STORE_RECIPE_REVISION_H

#include "store/recipe_rows.h"

/* The row of the draft (number 0) or of a sealed revision. LW_NOT_FOUND. version may be NULL. */
enum lw_status revision_find(struct store *store, int64_t recipe_id, int number, int64_t *revision_id, int64_t *version,
                             struct lw_error *error);

/* All of it but uuid and revision number, which become 0. */
enum lw_status revision_read(struct store *store, int64_t revision_id, struct recipe *recipe, struct lw_error *error);

/* Writes a recipe as a new revision: the draft (number 0), or one that is still to be sealed. */
enum lw_status revision_write(struct store *store, int64_t recipe_id, int number, const struct recipe *recipe,
                              int64_t *revision_id, struct lw_error *error);

/* Writes one element of a list to a position that is free, with a portion's colourants. */
enum lw_status revision_insert_element(struct store *store, int64_t revision_id, enum change_part part, int position,
                                       const void *element, struct lw_error *error);

/* Puts the colourants of a portion in place of those it had. */
enum lw_status revision_replace_colourants(struct store *store, int64_t portion_id,
                                           const struct recipe_portion *portion, struct lw_error *error);

/* Nothing that a revision keeps differs. */
bool revision_same(const struct recipe *a, const struct recipe *b);

#endif
