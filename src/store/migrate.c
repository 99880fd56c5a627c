/* migrate.c - from one version of the store to the next. */
#include "store/migrate.h"

#include <stdio.h>
#include <stdlib.h>

#include "base/error.h"
#include "store/place.h"
#include "store/query.h"

static enum lw_status read_version(struct store *store, size_t *version, struct lw_error *error)
{
    struct query query;
    int64_t found = 0;

    query_begin(&query, store, SQL_USER_VERSION);
    if (query_row(&query))
        found = query_int(&query);
    if (found < 0)
        query_corrupt(&query);
    *version = (size_t)found;
    return query_end(&query, error);
}

static enum lw_status set_version(struct store *store, size_t version, struct lw_error *error)
{
    char sql[96];

    snprintf(sql, sizeof sql, "PRAGMA application_id = %d; PRAGMA user_version = %zu", STORE_APPLICATION_ID, version);
    return store_run(store, sql, error);
}

static enum lw_status run_steps(struct store *store, const struct migrations *migrations, struct lw_error *error)
{
    size_t version;
    enum lw_status status = read_version(store, &version, error);

    for (; status == LW_OK && version < migrations->count; version++)
        status = store_run(store, migrations->sql[version], error);
    return status == LW_OK ? set_version(store, version, error) : status;
}

static enum lw_status keep_copy(struct store *store, size_t version, struct lw_error *error)
{
    char suffix[32];
    char *copy;
    enum lw_status status;

    snprintf(suffix, sizeof suffix, ".before-v%zu", version);
    copy = place_free_beside(store->path, suffix);
    if (!copy)
        return lw_fail(error, LW_FULL, "There is no memory left to keep a copy of %s.", store->path);
    status = store_backup(store, copy, false, NULL, NULL, error);
    free(copy);
    return status;
}

enum lw_status migrate(struct store *store, const struct migrations *migrations, struct lw_error *error)
{
    size_t version;
    enum lw_status status = read_version(store, &version, error);

    if (status != LW_OK)
        return status;
    if (version == migrations->count)
        return LW_OK;
    if (version > migrations->count)
        return lw_fail(
            error, LW_CONFLICT,
            "%s was written by a newer Lyeway (store version %zu, known here are %zu); nothing was written to it, "
            "use the newer program.",
            store->path, version, migrations->count);
    if (version > 0 && store->path[0])
        status = keep_copy(store, migrations->count, error);
    if (status == LW_OK)
        status = store_begin(store, error);
    if (status != LW_OK)
        return status;
    return store_end(store, run_steps(store, migrations, error), error);
}

bool migrate_is_last(struct store *store)
{
    size_t version;

    return read_version(store, &version, NULL) == LW_OK && version == migrations_all().count;
}
