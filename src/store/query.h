/* query.h - one run of a kept statement. A failure is kept and looked at once, at the end; after one, binding does nothing and
 * there are no rows. */
#ifndef STORE_QUERY_H
#define STORE_QUERY_H

#include "store/inside.h"

struct query {
    struct store *store;
    sqlite3_stmt *statement;
    int code;          /* first result of SQLite that was a failure, else SQLITE_OK */
    int bound, column; /* so far; columns of the row at hand */
};

/* Prepares the statement if this is its first use. One run of a statement at a time. */
void query_begin(struct query *query, struct store *store, enum sql sql);

/* The next parameter. Texts and bytes must stay until query_end; a text that is NULL is bound as NULL. */
void query_bind_int(struct query *query, int64_t value);
void query_bind_real(struct query *query, double value);
void query_bind_text(struct query *query, const char *text);
void query_bind_bytes(struct query *query, const void *bytes, size_t n);
void query_bind_null(struct query *query);

/* Steps; true if there is a row to read. */
bool query_row(struct query *query);

/* The next column of the row. A text stays until the next step; NULL reads as 0 and "". */
int64_t query_int(struct query *query);
double query_real(struct query *query);
const char *query_text(struct query *query);
bool query_is_null(const struct query *query);

/* Copies n bytes; what is there in another length is damage. */
void query_bytes(struct query *query, void *bytes, size_t n);

/* Makes it fail as one does that reads damage. */
void query_corrupt(struct query *query);

/* Ends the run: what failed, with a sentence, or LW_OK. */
enum lw_status query_end(struct query *query, struct lw_error *error);

/* Steps once, for what returns no rows, and ends. */
enum lw_status query_run(struct query *query, struct lw_error *error);

#endif
