/* verify.c - looks for whatever could be wrong with a store: its pages, its references, and whether every recipe and batch can
 * be read. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "store/batches.h"
#include "store/migrate.h"
#include "store/query.h"
#include "store/recipe_revision.h"
#include "store/recipes.h"

struct report {
    void (*each)(void *context, const char *sentence);
    void *context;
    int found;
};

static void report(struct report *report, const char *sentence)
{
    report->found++;
    if (report->each)
        report->each(report->context, sentence);
}

static enum lw_status count_page_faults(struct store *store, int *faults, struct lw_error *error)
{
    struct query query;

    *faults = 0;
    query_begin(&query, store, SQL_INTEGRITY);
    while (query_row(&query))
        *faults += strcmp(query_text(&query), "ok") != 0;
    /* Damage that stops the check is a finding, not a failure of it. */
    if ((query.code & 0xFF) == SQLITE_CORRUPT) {
        query.code = SQLITE_OK;
        ++*faults;
    }
    return query_end(&query, error);
}

/* What SQLite says of its pages helps no maker; how much of it there is says how bad it is. It also says so where it could not look
 * for want of memory: what is damaged is so the second time too. */
static enum lw_status check_pages(struct store *store, struct report *to, struct lw_error *error)
{
    char sentence[160];
    int faults;
    enum lw_status status = count_page_faults(store, &faults, error);

    if (status == LW_OK && faults > 0)
        status = count_page_faults(store, &faults, error);
    if (status != LW_OK || faults == 0)
        return status;
    snprintf(sentence, sizeof sentence, "The file is damaged in at least %d places; put a backup of it in its place.",
             faults);
    report(to, sentence);
    return LW_OK;
}

static enum lw_status check_references(struct store *store, struct report *to, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_FOREIGN_KEYS);
    while (query_row(&query)) {
        char sentence[160] = "";

        text_add(sentence, sizeof sentence, "A row of the table %s belongs to something that is not there.",
                 query_text(&query));
        report(to, sentence);
    }
    return query_end(&query, error);
}

static void report_recipe(struct report *to, const char *name, int number, const char *what)
{
    char sentence[LW_NAME_BYTES + 256] = "";

    if (number > 0)
        text_add(sentence, sizeof sentence, "Revision %d of the recipe \"%s\" %s", number, name, what);
    else
        text_add(sentence, sizeof sentence, "The draft of the recipe \"%s\" %s", name, what);
    report(to, sentence);
}

static enum lw_status check_recipes(struct store *store, struct report *to, struct lw_error *error)
{
    struct recipe *recipe = malloc(sizeof *recipe);
    struct query query;
    enum lw_status status = LW_OK;

    if (!recipe)
        return store_failed(store->path, SQLITE_NOMEM, error);
    query_begin(&query, store, SQL_REVISIONS_ALL);
    while (status == LW_OK && query_row(&query)) {
        int64_t id = query_int(&query);
        int number = (int)query_int(&query);

        status = recipes_load(store, id, number, recipe, NULL, error);
        if (status == LW_CORRUPT) {
            report_recipe(to, query_text(&query), number, "cannot be read; put a backup of the store in its place.");
            status = LW_OK;
        }
    }
    free(recipe);

    enum lw_status ended = query_end(&query, status == LW_OK ? error : NULL);

    return status == LW_OK ? ended : status;
}

static void report_batch(struct report *to, const char *number, const char *what)
{
    char sentence[BATCH_NUMBER_BYTES + 256] = "";

    text_add(sentence, sizeof sentence, "Batch %s %s", number, what);
    report(to, sentence);
}

/* By the numbers of SQL_BATCH_FAULTS. */
static enum lw_status check_records(struct store *store, struct report *to, struct lw_error *error)
{
    static const char *const faults[] = {
        "cannot be judged.",
        "has a gap in its events; put a backup of the store in its place.",
        "has a gap in its steps; put a backup of the store in its place.",
        "has an event of a step that is not there; put a backup of the store in its place.",
        "has an event about another that does not come before it; put a backup of the store in its place.",
        "is listed as finished or set aside where its events say otherwise; put a backup of the store in its place.",
        "has lost the recipe that it was made by; put a backup of the store in its place.",
    };
    struct query query;

    query_begin(&query, store, SQL_BATCH_FAULTS);
    while (query_row(&query)) {
        const char *number = query_text(&query);
        int64_t fault = query_int(&query);

        report_batch(to, number, faults[fault > 0 && fault < (int64_t)(sizeof faults / sizeof faults[0]) ? fault : 0]);
    }
    return query_end(&query, error);
}

static bool pass_step(void *context, const struct step *step)
{
    (void)context;
    (void)step;
    return true;
}

static bool pass_event(void *context, const struct batch_event *event)
{
    (void)context;
    (void)event;
    return true;
}

static enum lw_status read_batch(struct store *store, int64_t id, struct lw_error *error)
{
    struct batch_head head;
    char *frozen, *bench;
    enum lw_status status = batches_load(store, id, &head, &frozen, &bench, error);

    free(frozen);
    free(bench);
    if (status == LW_OK)
        status = batches_steps(store, id, pass_step, NULL, error);
    return status == LW_OK ? batches_events(store, id, 0, pass_event, NULL, error) : status;
}

static enum lw_status check_batches(struct store *store, struct report *to, struct lw_error *error)
{
    struct query query;
    enum lw_status status = LW_OK;

    query_begin(&query, store, SQL_BATCHES_ALL);
    while (status == LW_OK && query_row(&query)) {
        status = read_batch(store, query_int(&query), error);
        if (status == LW_CORRUPT) {
            report_batch(to, query_text(&query), "cannot be read; put a backup of the store in its place.");
            status = LW_OK;
        }
    }

    enum lw_status ended = query_end(&query, status == LW_OK ? error : NULL);

    return status == LW_OK ? ended : status;
}

/* PRAGMA integrity_check looks at the pages of the index of words only, not at what it says. */
static enum lw_status check_words(struct store *store, struct report *to, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_BOOK_WORDS_CHECK);
    query_row(&query);
    if ((query.code & 0xFF) == SQLITE_CORRUPT) {
        query.code = SQLITE_OK;
        report(to, "Some batches cannot be found by their words; put a backup of the store in its place.");
    }
    return query_end(&query, error);
}

/* What can be asked of the tables without reading what they stand for. A copy of an older version has other tables. */
static enum lw_status check_tables(struct store *store, bool last, struct report *to, struct lw_error *error)
{
    enum lw_status status = check_references(store, to, error);

    if (status == LW_OK && last)
        status = check_records(store, to, error);
    return status == LW_OK && last ? check_words(store, to, error) : status;
}

enum lw_status store_verify(struct store *store, void (*each)(void *context, const char *sentence), void *context,
                            int *found, struct lw_error *error)
{
    struct report to = {each, context, 0};
    bool last = migrate_is_last(store);
    enum lw_status status = check_pages(store, &to, error);

    if (status == LW_OK && to.found == 0)
        status = check_tables(store, last, &to, error);
    if (status == LW_OK && to.found == 0 && last)
        status = check_recipes(store, &to, error);
    if (status == LW_OK && to.found == 0 && last)
        status = check_batches(store, &to, error);
    *found = to.found;
    return status;
}
