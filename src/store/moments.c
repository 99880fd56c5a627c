/* moments.c - the columns that hold a moment end in _s; each table that has any has a statement here. The book has its places and days
 * from them. */
#include "store/moments.h"

#include "store/query.h"

static const enum sql shifts[] = {SQL_RECIPE_MOMENTS, SQL_REVISION_MOMENTS, SQL_INGREDIENT_MOMENTS,
                                  SQL_BATCH_MOMENTS,  SQL_EVENT_MOMENTS,    SQL_BOOK_WANT_MOMENTS};
static const enum sql running_shifts[] = {SQL_RUNNING_EVENT_MOMENTS, SQL_RUNNING_BATCH_MOMENTS};
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

static enum lw_status shift_all(struct store *store, int64_t seconds, int64_t running, struct lw_error *error)
{
    enum lw_status status = shift(store, shifts, COUNT(shifts), seconds, error);

    if (status == LW_OK)
        status = shift(store, running_shifts, COUNT(running_shifts), running, error);
    return status == LW_OK ? follow(store, error) : status;
}

enum lw_status moments_shift(struct store *store, int64_t seconds, int64_t running, struct lw_error *error)
{
    enum lw_status status = store_begin(store, error);

    if (status != LW_OK)
        return status;
    /* What is sealed refuses change by triggers. */
    sqlite3_db_config(store->db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, NULL);
    status = store_end(store, shift_all(store, seconds, running, error), error);
    sqlite3_db_config(store->db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 1, NULL);
    return status;
}
