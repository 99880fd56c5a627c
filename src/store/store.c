/* store.c - the open store: its life, its quiet moments, and who else writes to it. */
#include "store/store.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "store/moments.h"
#include "store/open.h"
#include "store/place.h"
#include "store/query.h"

struct store *store_new(const char *path, const struct store_options *options)
{
    struct store *store = calloc(1, sizeof *store);

    if (!store)
        return NULL;
    store->path = place_beside(options->how == STORE_IMAGE ? "" : path, "");
    store->random = options->random;
    store->context = options->context;
    store->watch.fd = -1;
    if (store->path)
        return store;
    free(store);
    return NULL;
}

void store_free(struct store *store)
{
    for (int i = 0; i < SQL_COUNT; i++)
        sqlite3_finalize(store->statement[i]);
    sqlite3_close(store->db);
    watch_end(&store->watch);
    free(store->path);
    free(store);
}

/* Makes the file that is not there yet of the image: in memory first, so that the file is whole as soon as it has its name. */
static enum lw_status make_of_image(const char *path, const struct store_options *options, struct lw_error *error)
{
    struct store_options of_image = *options;
    struct store *image;
    struct place place;
    enum lw_status status = place_look(path, &place, error);

    if (status != LW_OK || place.kind != PLACE_MISSING)
        return status;
    of_image.how = STORE_IMAGE;
    status = place_make_folders(path, error);
    if (status == LW_OK)
        status = store_open("", &of_image, &image, error);
    if (status != LW_OK)
        return status;
    status = store_backup(image, path, false, NULL, NULL, error);
    store_close(image, NULL);
    return status;
}

enum lw_status store_open(const char *path, const struct store_options *options, struct store **store,
                          struct lw_error *error)
{
    struct store *made;
    enum lw_status status = LW_OK;

    *store = NULL;
    if (options->how == STORE_CREATE && options->image)
        status = make_of_image(path, options, error);
    if (status != LW_OK)
        return status;
    made = store_new(path, options);
    if (!made)
        return lw_fail(error, LW_FULL, "There is no memory left to open a store; close other programs and try again.");
    if (options->how == STORE_IMAGE)
        status = open_image(made, options, error);
    else
        status = open_file(made, options->how, error);
    if (status != LW_OK) {
        store_free(made);
        return status;
    }
    if (options->how != STORE_IMAGE)
        watch_begin(&made->watch, made->path);
    store_changed_elsewhere(made);
    *store = made;
    return LW_OK;
}

const char *store_path(const struct store *store)
{
    return store->path;
}

/* Whoever still has the store open keeps the log, and writes it back when closing. */
static enum lw_status empty_log(struct store *store, struct lw_error *error)
{
    int code;

    sqlite3_busy_timeout(store->db, 0);
    code = sqlite3_wal_checkpoint_v2(store->db, "main", SQLITE_CHECKPOINT_TRUNCATE, NULL, NULL);
    if (code == SQLITE_OK)
        sqlite3_db_config(store->db, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 0, NULL);
    return code == SQLITE_BUSY ? LW_OK : store_failed(store->path, code, error);
}

enum lw_status store_close(struct store *store, struct lw_error *error)
{
    struct lw_error why = {""};
    enum lw_status status = LW_OK;

    if (!store)
        return LW_OK;
    if (store->path[0])
        status = empty_log(store, &why);
    if (status != LW_OK)
        lw_fail(error, status,
                "All is saved, but the log of %s (%s-wal) could not be written back and must stay beside it: %s",
                store->path, store->path, why.text);
    store_free(store);
    return status;
}

/* After the log was written back the next commit begins it anew, which costs one sync more. Better now than at a keystroke. */
static enum lw_status begin_log_anew(struct store *store, struct lw_error *error)
{
    char sql[64];
    struct query query;
    int64_t version = 0;
    enum lw_status status = store_begin(store, error);

    if (status != LW_OK)
        return status == LW_BUSY ? LW_OK : status;
    query_begin(&query, store, SQL_USER_VERSION);
    if (query_row(&query))
        version = query_int(&query);
    status = query_end(&query, error);
    sqlite3_snprintf(sizeof sql, sql, "PRAGMA user_version = %lld", (long long)version);
    if (status == LW_OK)
        status = store_run(store, sql, error);
    return store_end(store, status, error);
}

enum lw_status store_idle(struct store *store, struct lw_error *error)
{
    bool whole;
    enum lw_status status;

    if (store->moments_wait)
        return moments_settle(store, error);
    if (store->log_pages < STORE_LOG_PAGES)
        return LW_OK;
    sqlite3_busy_timeout(store->db, 0);
    status = store_checkpoint(store, &whole, error);
    if (status == LW_OK && whole)
        status = begin_log_anew(store, error);
    sqlite3_busy_timeout(store->db, STORE_BUSY_MS);
    return status;
}

bool store_changed_elsewhere(struct store *store)
{
    struct query query;
    int64_t version = store->seen_version;

    watch_drain(&store->watch);
    query_begin(&query, store, SQL_DATA_VERSION);
    if (query_row(&query))
        version = query_int(&query);
    query_end(&query, NULL);

    bool changed = version != store->seen_version;

    store->seen_version = version;
    return changed;
}

int store_watch_fd(const struct store *store)
{
    return store->watch.fd;
}

void store_uuid(struct store *store, uint8_t uuid[16])
{
    store->random(store->context, uuid, 16);
    uuid[6] = (uint8_t)((uuid[6] & 0x0F) | 0x40);
    uuid[8] = (uint8_t)((uuid[8] & 0x3F) | 0x80);
}
