/* transaction.c - transactions that write, reads of one moment, and writing the log back. */
#include "base/error.h"
#include "store/query.h"

static enum lw_status run(struct store *store, enum sql sql, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, sql);
    return query_run(&query, error);
}

/* Begins with `begin` once what ends it is prepared: what cannot be ended for want of memory must not be begun. */
static enum lw_status begin_to_end(struct store *store, enum sql begin, enum sql end, enum sql take_back,
                                   struct lw_error *error)
{
    struct query query;
    enum lw_status status;

    query_begin(&query, store, end);
    status = query_end(&query, error);
    if (status != LW_OK)
        return status;
    query_begin(&query, store, take_back);
    status = query_end(&query, error);
    return status == LW_OK ? run(store, begin, error) : status;
}

enum lw_status store_run(struct store *store, const char *sql, struct lw_error *error)
{
    return store_failed(store->path, sqlite3_exec(store->db, sql, NULL, NULL, NULL), error);
}

enum lw_status store_begin(struct store *store, struct lw_error *error)
{
    /* A failure of the disk took back the outer one already: what came now would be saved without it. */
    if (store->depth > 0 && sqlite3_get_autocommit(store->db))
        return lw_fail(error, LW_IO, "A step before this one failed and all of it was taken back; try again.");

    enum lw_status status = store->depth > 0
                                ? begin_to_end(store, SQL_NESTED_BEGIN, SQL_NESTED_COMMIT, SQL_NESTED_ROLLBACK, error)
                                : begin_to_end(store, SQL_BEGIN, SQL_COMMIT, SQL_ROLLBACK, error);

    if (status == LW_OK)
        store->depth++;
    return status;
}

/* The log never grows without bounds, even where the program never finds time for it. That this failed is told by the next
 * store_idle or store_close, which try again: what was committed is safe in the log. */
static void keep_log_short(struct store *store)
{
    bool whole;

    if (store->log_pages >= STORE_LOG_PAGES_MOST)
        store_checkpoint(store, &whole, NULL);
}

/* Takes back what was done since the innermost store_begin. */
static void take_back(struct store *store)
{
    /* Some failures have ended the transaction already. */
    if (sqlite3_get_autocommit(store->db))
        return;
    run(store, store->depth > 0 ? SQL_NESTED_ROLLBACK : SQL_ROLLBACK, NULL);
    if (store->depth > 0)
        run(store, SQL_NESTED_COMMIT, NULL);
}

enum lw_status store_end(struct store *store, enum lw_status status, struct lw_error *error)
{
    store->depth--;
    if (status == LW_OK)
        status = run(store, store->depth > 0 ? SQL_NESTED_COMMIT : SQL_COMMIT, error);
    if (status != LW_OK) {
        take_back(store);
    } else if (store->depth == 0) {
        if (store->path[0])
            watch_tell(store->path);
        keep_log_short(store);
    }
    return status;
}

enum lw_status store_read_begin(struct store *store, struct lw_error *error)
{
    return begin_to_end(store, SQL_READ_BEGIN, SQL_READ_END, SQL_READ_END, error);
}

enum lw_status store_read_end(struct store *store, enum lw_status status, struct lw_error *error)
{
    enum lw_status ended = sqlite3_get_autocommit(store->db) ? LW_OK
                                                             : run(store, SQL_READ_END, status == LW_OK ? error : NULL);

    return status == LW_OK ? ended : status;
}

enum lw_status store_checkpoint(struct store *store, bool *whole, struct lw_error *error)
{
    int log, written;
    int code = sqlite3_wal_checkpoint_v2(store->db, "main", SQLITE_CHECKPOINT_PASSIVE, &log, &written);

    *whole = code == SQLITE_OK && log == written;
    if (*whole)
        store->log_pages = 0;
    /* Somebody else is doing the same. */
    return code == SQLITE_BUSY ? LW_OK : store_failed(store->path, code, error);
}
