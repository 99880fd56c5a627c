/* inside.h - what the files of the store share: the open store, its transactions, and words for what SQLite says. */
#ifndef STORE_INSIDE_H
#define STORE_INSIDE_H

#include <sqlite3.h>

#include "store/sql.h"
#include "store/store.h"
#include "store/watch.h"

enum {
    STORE_APPLICATION_ID = 0x4C594557, /* "LYEW" */
    STORE_BUSY_MS = 5000,
    STORE_LOG_PAGES = 1000,       /* of the log, from which it is written back when there is time */
    STORE_LOG_PAGES_MOST = 16000, /* and at once, since there may never be time */
};

struct store {
    sqlite3 *db;
    char *path; /* "" for one in memory */
    void (*random)(void *context, uint8_t *bytes, size_t n);
    void *context;
    sqlite3_stmt *statement[SQL_COUNT]; /* NULL until first used */
    int depth;                          /* of transactions one inside another */
    int log_pages;                      /* at the last commit */
    int64_t seen_version;               /* PRAGMA data_version */
    bool moments_wait;                  /* moments of an image that are not moved yet (moments.h), by moments_wait_s */
    int64_t moments_wait_s;
    struct watch watch;
};

/* Not connected to anything yet; NULL without memory. To be freed, which also disconnects. */
struct store *store_new(const char *path, const struct store_options *options);
void store_free(struct store *store);

/* What SQLite result `code` means for a maker, as a sentence that names the store. Returns the status; LW_OK only for
 * SQLITE_OK, SQLITE_ROW and SQLITE_DONE. */
enum lw_status store_failed(const char *path, int code, struct lw_error *error);

/* Several reads that see one and the same moment. May stand inside of a transaction. */
enum lw_status store_read_begin(struct store *store, struct lw_error *error);
enum lw_status store_read_end(struct store *store, enum lw_status status, struct lw_error *error);

/* Runs SQL that returns nothing and is not kept. */
enum lw_status store_run(struct store *store, const char *sql, struct lw_error *error);

/* Writes the log back as far as nobody reads from it; *whole says whether that was all of it. */
enum lw_status store_checkpoint(struct store *store, bool *whole, struct lw_error *error);

/* A UUID of version 4 (RFC 9562) from the store's source of randomness. */
void store_uuid(struct store *store, uint8_t uuid[16]);

#endif
