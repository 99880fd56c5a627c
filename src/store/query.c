/* query.c - kept statements of SQLite, prepared when first used. */
#include "store/query.h"

#include "store/moments.h"

#include <string.h>

void query_begin(struct query *query, struct store *store, enum sql sql)
{
    sqlite3_stmt **kept = &store->statement[sql];

    *query = (struct query){.store = store};
    if (store->moments_wait && moments_wanted(sql) && moments_settle(store, NULL) != LW_OK)
        query->code = SQLITE_NOMEM; /* an image is in memory: nothing else can fail there */
    if (!*kept && query->code == SQLITE_OK)
        query->code = sqlite3_prepare_v3(store->db, sql_text(sql), -1, SQLITE_PREPARE_PERSISTENT, kept, NULL);
    query->statement = *kept;
}

static void keep_failure(struct query *query, int code)
{
    if (query->code == SQLITE_OK)
        query->code = code;
}

void query_bind_int(struct query *query, int64_t value)
{
    if (query->code == SQLITE_OK)
        keep_failure(query, sqlite3_bind_int64(query->statement, ++query->bound, value));
}

void query_bind_real(struct query *query, double value)
{
    if (query->code == SQLITE_OK)
        keep_failure(query, sqlite3_bind_double(query->statement, ++query->bound, value));
}

void query_bind_text(struct query *query, const char *text)
{
    if (query->code == SQLITE_OK)
        keep_failure(query, sqlite3_bind_text(query->statement, ++query->bound, text, -1, SQLITE_STATIC));
}

void query_bind_bytes(struct query *query, const void *bytes, size_t n)
{
    if (query->code == SQLITE_OK)
        keep_failure(query, sqlite3_bind_blob64(query->statement, ++query->bound, bytes, n, SQLITE_STATIC));
}

void query_bind_null(struct query *query)
{
    if (query->code == SQLITE_OK)
        keep_failure(query, sqlite3_bind_null(query->statement, ++query->bound));
}

bool query_row(struct query *query)
{
    if (query->code != SQLITE_OK)
        return false;

    int code = sqlite3_step(query->statement);

    query->column = 0;
    if (code != SQLITE_ROW && code != SQLITE_DONE)
        query->code = code;
    return code == SQLITE_ROW;
}

int64_t query_int(struct query *query)
{
    return sqlite3_column_int64(query->statement, query->column++);
}

double query_real(struct query *query)
{
    return sqlite3_column_double(query->statement, query->column++);
}

const char *query_text(struct query *query)
{
    const char *text = (const char *)sqlite3_column_text(query->statement, query->column++);

    return text ? text : "";
}

bool query_is_null(const struct query *query)
{
    return sqlite3_column_type(query->statement, query->column) == SQLITE_NULL;
}

void query_bytes(struct query *query, void *bytes, size_t n)
{
    const void *found = sqlite3_column_blob(query->statement, query->column);

    if (sqlite3_column_bytes(query->statement, query->column++) == (int)n && found)
        memcpy(bytes, found, n);
    else
        query_corrupt(query);
}

void query_corrupt(struct query *query)
{
    keep_failure(query, SQLITE_CORRUPT);
}

enum lw_status query_end(struct query *query, struct lw_error *error)
{
    if (query->statement) {
        sqlite3_reset(query->statement);
        sqlite3_clear_bindings(query->statement);
    }
    return query->code == SQLITE_OK ? LW_OK : store_failed(query->store->path, query->code, error);
}

enum lw_status query_run(struct query *query, struct lw_error *error)
{
    query_row(query);
    return query_end(query, error);
}
