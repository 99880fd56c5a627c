/* many_batches.c - see the header. */
#include "support/many_batches.h"

#include <sqlite3.h>

#include "store/inside.h"

/* Figures and words turn over by primes, so that no two columns go together. */
static const char rows[] =
    "INSERT INTO batch (uuid, number, name, recipe_id, revision, started_s, utc_offset, oils_ug)"
    " WITH RECURSIVE i (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM i WHERE i < %d)"
    " SELECT randomblob(16), 'M' || i, 'Soap ' || (i * 17 %% 41), %lld, 1, %d + i * %d, 3600, 500000000 FROM i;"
    "INSERT INTO batch_frozen SELECT id, '', '' FROM batch WHERE number GLOB 'M*';"
    "INSERT INTO batch_event SELECT id, 1, started_s + 3600, 'finished', NULL, 'batter', 0, 0, 0, 0, 0, -1, NULL, NULL,"
    "    NULL, '' FROM batch WHERE number GLOB 'M*';"
    "DELETE FROM book_due;"
    "INSERT INTO book (place, batch_id, name, last_event, outcome, left_out, until_least, technique, oils_g, batter_g,"
    "    superfat, rejects, each_g, window_min)"
    " SELECT started_s * 16777216 + id, id, name, 1, CASE id %% 13 WHEN 0 THEN 'on hold' ELSE 'made' END, id %% 19 = "
    "0, 0,"
    "    'pipe', 500, 800, nullif(id * 7919 %% 1000, id %% 10) / 10000.0, nullif(id * 6007 %% 97, 97 - id %% 10) / "
    "97.0,"
    "    CASE WHEN id %% 10 = 3 THEN NULL ELSE id * 4001 %% 3001 / 1000.0 END,"
    "    CASE WHEN id %% 10 = 7 THEN NULL ELSE id * 5003 %% 211 END"
    "  FROM batch WHERE number GLOB 'M*';"
    "CREATE TEMP TABLE word (id INTEGER PRIMARY KEY, word TEXT);"
    "INSERT INTO word (word) VALUES ('rose'), ('clay'), ('moss'), ('indigo'), ('madder'), ('ochre'), ('spirulina'),"
    "    ('charcoal'), ('titanium'), ('paprika'), ('annatto'), ('lavender'), ('vetiver'), ('cedar'), ('bergamot'),"
    "    ('patchouli'), ('clove'), ('lemon'), ('spearmint'), ('rosemary');"
    "INSERT INTO book_text (place, recipe, colourant, fragrance, outcome, day, said)"
    " SELECT place, book.name, (SELECT word FROM word WHERE id = 1 + batch_id * 31 %% 11),"
    "    (SELECT word FROM word WHERE id = 12 + batch_id * 37 %% 9), outcome,"
    "    strftime('%%Y%%m%%d %%Y%%m %%Y', started_s + utc_offset, 'unixepoch'),"
    "    'olive coconut palm thick after ' || (batch_id * 41 %% 83) || ' minutes, ' || (batch_id * 43 %% 7) || ' rejects, '"
    "    || (SELECT word FROM word WHERE id = 1 + batch_id * 47 %% 20)"
    "  FROM book JOIN batch ON batch.id = batch_id WHERE number GLOB 'M*';"
    "DROP TABLE word;"
    "INSERT INTO book_words (book_words) VALUES ('rebuild')";

enum lw_status many_batches(struct store *store, int64_t recipe_id, int n, struct lw_error *error)
{
    char *sql = sqlite3_mprintf(rows, n, (long long)recipe_id, MANY_FIRST_S, MANY_APART_S);
    enum lw_status status = store_begin(store, error);

    if (status == LW_OK)
        status = store_end(store, store_run(store, sql, error), error);
    sqlite3_free(sql);
    return status;
}
