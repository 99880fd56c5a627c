/* verify.c - is the store whole? What SQLite can tell of its pages and references, in sentences. */
#include <stdio.h>

#include "base/error.h"
#include "store/query.h"
#include "store/recipes.h"

struct finder {
    void (*each)(void *context, const char *sentence);
    void *context;
    int found;
};

static void tell(struct finder *finder, const char *format, const char *what)
{
    char sentence[LW_ERROR_BYTES];

    finder->found++;
    snprintf(sentence, sizeof sentence, format, what);
    if (finder->each)
        finder->each(finder->context, sentence);
}

static enum lw_status pages(struct store *store, struct finder *finder, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_INTEGRITY);
    while (query_row(&query)) {
        const char *said = query_text(&query);

        if (sqlite3_stricmp(said, "ok") != 0)
            tell(finder, "The file is damaged: %s.", said);
    }
    return query_end(&query, error);
}

static enum lw_status references(struct store *store, struct finder *finder, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_FOREIGN_KEYS);
    while (query_row(&query))
        tell(finder, "A row of %s belongs to something that is not there.", query_text(&query));
    return query_end(&query, error);
}

/* Every revision can be read, which checks the words, ranges and positions of all its rows. */
static enum lw_status revisions(struct store *store, struct finder *finder, struct lw_error *error)
{
    struct query query;
    struct recipe recipe;

    query_begin(&query, store, SQL_REVISIONS_ALL);
    while (query_row(&query)) {
        int64_t recipe_id = query_int(&query);
        int number = (int)query_int(&query); /* that of a draft is NULL and reads as 0 */

        if (recipes_load(store, recipe_id, number, &recipe, NULL, NULL) != LW_OK)
            tell(finder, "The recipe \"%s\" has a version that cannot be read.", query_text(&query));
    }
    return query_end(&query, error);
}

enum lw_status store_verify(struct store *store, void (*each)(void *context, const char *sentence), void *context,
                            int *found, struct lw_error *error)
{
    struct finder finder = {each, context, 0};
    enum lw_status status = pages(store, &finder, error);

    if (status == LW_OK)
        status = references(store, &finder, error);
    if (status == LW_OK && finder.found == 0)
        status = revisions(store, &finder, error);
    *found = finder.found;
    return status;
}
