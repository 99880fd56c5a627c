/* moments.c - the columns that hold a moment end in _s; each table that has any has a statement here. The book has its places and days
 * from them. */
#include "store/moments.h"

#include "store/query.h"

static const enum sql at_once[] = {SQL_RECIPE_MOMENTS, SQL_REVISION_MOMENTS, SQL_INGREDIENT_MOMENTS, SQL_BATCH_MOMENTS,
                                   SQL_BOOK_WANT_MOMENTS};
static const enum sql running_shifts[] = {SQL_RUNNING_BATCH_MOMENTS};
static const enum sql offsets[] = {SQL_BATCH_OFFSETS};
static const enum sql running_events[] = {SQL_RUNNING_EVENT_MOMENTS};
static const enum sql later[] = {SQL_OTHER_EVENT_MOMENTS};
static const enum sql following[] = {SQL_BOOK_PLACES, SQL_BOOK_DAYS, SQL_BOOK_WORDS_ANEW};

#define COUNT(array) ((int)(sizeof(array) / sizeof(array)[0]))

static enum lw_status shift(struct store *store, const enum sql sql[], int n, int64_t seconds, struct lw_error *error)
{
    enum lw_status status = LW_OK;

    for (int i = 0; seconds != 0 && i < n && status == LW_OK; i++) {
        struct query query;

        query_begin(&query, store, sql[i]);
        query_bind_int(&query, seconds);
        status = query_run(&query, error);
    }
    return status;
}

static enum lw_status follow(struct store *store, struct lw_error *error)
{
    enum lw_status status = LW_OK;

    for (int i = 0; i < COUNT(following) && status == LW_OK; i++) {
        struct query query;

        query_begin(&query, store, following[i]);
        status = query_run(&query, error);
    }
    return status;
}

static enum lw_status end(struct store *store, enum lw_status status, struct lw_error *error)
{
    status = store_end(store, status, error);
    sqlite3_db_config(store->db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 1, NULL);
    return status;
}

/* What is sealed refuses change by triggers, which are off until the end. */
static enum lw_status begin(struct store *store, struct lw_error *error)
{
    enum lw_status status = store_begin(store, error);

    if (status == LW_OK)
        sqlite3_db_config(store->db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, NULL);
    return status;
}

enum lw_status moments_shift(struct store *store, int64_t seconds, int64_t running, int32_t offset,
                             struct lw_error *error)
{
    enum lw_status status = begin(store, error);

    if (status != LW_OK)
        return status;
    status = shift(store, at_once, COUNT(at_once), seconds, error);
    if (status == LW_OK)
        status = shift(store, running_shifts, COUNT(running_shifts), running, error);
    if (status == LW_OK)
        status = shift(store, offsets, COUNT(offsets), offset, error);
    if (status == LW_OK)
        status = shift(store, running_events, COUNT(running_events), seconds + running, error);
    status = end(store, status, error);
    store->moments_wait = status == LW_OK;
    store->moments_wait_s = seconds;
    return status;
}

enum lw_status moments_settle(struct store *store, struct lw_error *error)
{
    enum lw_status status;

    if (!store->moments_wait)
        return LW_OK;
    store->moments_wait = false; /* the statements below do not wait for themselves */
    status = begin(store, error);
    if (status == LW_OK) {
        status = shift(store, later, COUNT(later), store->moments_wait_s, error);
        if (status == LW_OK)
            status = follow(store, error);
        status = end(store, status, error);
    }
    store->moments_wait = status != LW_OK;
    return status;
}

/* Statements of the book for which it does not matter: what is due and wanted, and which batches count, in an order that stays. */
static bool does_without(enum sql sql)
{
    return sql == SQL_BOOK_DUE || sql == SQL_BOOK_WANTS || sql == SQL_BOOK_COUNTED_NEWEST || sql == SQL_BOOK_PIECES;
}

bool moments_wanted(enum sql sql)
{
    return sql == SQL_BEGIN || sql == SQL_PIECES || sql == SQL_BATCH_ACKNOWLEDGED || sql == SQL_BATCH_FAULTS ||
           sql == SQL_INTEGRITY || (sql >= SQL_BOOK_DUE && sql <= SQL_BOOK_FRAGRANCES && !does_without(sql));
}
