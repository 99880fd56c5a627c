/* moments.c - the columns that hold a moment end in _s; each table that has any has a statement here. */
#include "store/moments.h"

#include "store/query.h"

static const enum sql shifts[] = {SQL_RECIPE_MOMENTS, SQL_REVISION_MOMENTS, SQL_INGREDIENT_MOMENTS, SQL_BATCH_MOMENTS,
                                  SQL_EVENT_MOMENTS};

static enum lw_status shift_all(struct store *store, int64_t seconds, struct lw_error *error)
{
    enum lw_status status = LW_OK;

    for (size_t i = 0; i < sizeof shifts / sizeof *shifts && status == LW_OK; i++) {
        struct query query;

        query_begin(&query, store, shifts[i]);
        query_bind_int(&query, seconds);
        status = query_run(&query, error);
    }
    return status;
}

enum lw_status moments_shift(struct store *store, int64_t seconds, struct lw_error *error)
{
    enum lw_status status = store_begin(store, error);

    if (status != LW_OK)
        return status;
    /* What is sealed refuses change by triggers. */
    sqlite3_db_config(store->db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, NULL);
    status = store_end(store, shift_all(store, seconds, error), error);
    sqlite3_db_config(store->db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 1, NULL);
    return status;
}
