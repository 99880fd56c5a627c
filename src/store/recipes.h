/* recipes.h - recipes in the store: a line each for lists, drafts saved change by change, sealed revisions. */
#ifndef STORE_RECIPES_H
#define STORE_RECIPES_H

#include "lyeway/change.h"
#include "store/store.h"

struct recipe_line {
    int64_t id;
    uint8_t uuid[LW_UUID_BYTES];
    char name[LW_NAME_BYTES];
    int revisions; /* sealed so far */
    bool changed;  /* the draft differs from the newest sealed one, or there is none */
    bool archived;
    enum purpose purpose;
    int oils, portions;
    int64_t changed_s; /* UTC */
};

enum recipes_order { RECIPES_BY_NAME, RECIPES_NEWEST };

/* Calls `each` for the recipes whose name holds every word of `filter`, in order; false from it stops. */
enum lw_status recipes_each(struct store *store, const char *filter, bool archived, enum recipes_order order,
                            bool (*each)(void *context, const struct recipe_line *line), void *context,
                            struct lw_error *error);

/* The draft, or sealed revision `number` > 0. *version (may be NULL) is that of the draft, for recipes_save. */
enum lw_status recipes_load(struct store *store, int64_t id, int number, struct recipe *recipe, int64_t *version,
                            struct lw_error *error);

/* A new recipe with this as its draft; a uuid of zeros gets a new one. LW_CONFLICT if its uuid is there already. */
enum lw_status recipes_create(struct store *store, const struct recipe *recipe, const struct lw_now *now, int64_t *id,
                              struct lw_error *error);

/* Applies n changes to the draft in one transaction, writing only the rows they name. *version must be that of the draft, and is
 * moved on; LW_CONFLICT where somebody else saved since (load again, apply again). */
enum lw_status recipes_save(struct store *store, int64_t id, int64_t *version, const struct change changes[], int n,
                            const struct lw_now *now, struct lw_error *error);

/* Keeps the draft as the next revision; the draft goes on from it. LW_CONFLICT where nothing differs from the newest. */
enum lw_status recipes_seal(struct store *store, int64_t id, const struct lw_now *now, int *number,
                            struct lw_error *error);

struct revision_line {
    int number;
    int64_t sealed_s;
};
enum lw_status recipes_revisions(struct store *store, int64_t id,
                                 bool (*each)(void *context, const struct revision_line *line), void *context,
                                 struct lw_error *error);

/* Number of the newest sealed revision; LW_NOT_FOUND where there is none. */
enum lw_status recipes_newest(struct store *store, int64_t id, int *number, struct lw_error *error);

enum lw_status recipes_archive(struct store *store, int64_t id, bool archived, const struct lw_now *now,
                               struct lw_error *error);

/* By uuid, else (uuid NULL or not there) by exact name among those not archived; LW_NOT_FOUND. */
enum lw_status recipes_find(struct store *store, const uint8_t *uuid, const char *name, int64_t *id,
                            struct lw_error *error);

#endif
