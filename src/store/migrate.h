/* migrate.h - the tables of the store, made and brought up to date by numbered steps. */
#ifndef STORE_MIGRATE_H
#define STORE_MIGRATE_H

#include <stddef.h>

#include "store/inside.h"

/* sql[i] leads from version i to version i + 1. */
struct migrations {
    const char *const *sql;
    size_t count;
};

/* Those of schema/, compiled in. */
struct migrations migrations_all(void);

/* Takes the store from whatever version it has to the last, in one transaction: all steps or none. A store that has a version
 * already is copied beside its file first (FILE.before-v2). Another program may be at it at the same moment: the second finds
 * the work done. LW_CONFLICT where the version is higher than all that is known here. */
enum lw_status migrate(struct store *store, const struct migrations *migrations, struct lw_error *error);

/* The store has the version that this program writes. */
bool migrate_is_last(struct store *store);

#endif
