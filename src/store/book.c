/* book.c - the book written, and its lines, counts and names found. */
#include "store/book.h"

#include <math.h>
#include <string.h>

#include "base/error.h"
#include "store/book_match.h"
#include "store/book_rows.h"
#include "store/moments.h"
#include "store/query.h"

/* ---- written */

enum lw_status book_due(struct store *store, int64_t id[], int most, int *n, struct lw_error *error)
{
    struct query query;

    *n = 0;
    query_begin(&query, store, SQL_BOOK_DUE);
    query_bind_int(&query, most);
    while (*n < most && query_row(&query))
        id[(*n)++] = query_int(&query);
    return query_end(&query, error);
}

enum lw_status book_due_count(struct store *store, int *n, struct lw_error *error)
{
    struct query query;

    *n = 0;
    query_begin(&query, store, SQL_BOOK_DUE_COUNT);
    if (query_row(&query))
        *n = (int)query_int(&query);
    return query_end(&query, error);
}

/* A statement that has no parameter but the batch. */
static enum lw_status run_for(struct store *store, enum sql sql, int64_t id, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, sql);
    query_bind_int(&query, id);
    return query_run(&query, error);
}

static enum lw_status write_figures(struct store *store, const struct book_row *row, struct lw_error *error)
{
    struct query query;
    enum lw_status status;

    query_begin(&query, store, SQL_BOOK_WRITE);
    query_bind_int(&query, row->batch_id);
    members_bind(&query, book_row_members(), row);
    status = query_run(&query, error);
    if (status != LW_OK || sqlite3_changes(store->db) > 0)
        return status;
    return lw_fail(error, LW_NOT_FOUND, "That batch is not in the records.");
}

static enum lw_status write_pieces(struct store *store, const struct book_row *row, struct lw_error *error)
{
    enum lw_status status = LW_OK;

    for (int i = 0; status == LW_OK && i < row->kinds; i++) {
        struct query query;

        query_begin(&query, store, SQL_BOOK_PIECES_INSERT);
        query_bind_int(&query, row->batch_id);
        query_bind_int(&query, i);
        members_bind(&query, book_pieces_members(), &row->pieces[i]);
        status = query_run(&query, error);
    }
    return status;
}

static void bind_words(struct query *query, int64_t id, const struct book_words *words)
{
    const char *const text[] = {words->recipe, words->colourants, words->fragrances, words->said};

    query_bind_int(query, id);
    for (size_t i = 0; i < sizeof text / sizeof text[0]; i++)
        query_bind_text(query, text[i] ? text[i] : "");
}

static enum lw_status words_same(struct store *store, int64_t id, const struct book_words *words, bool *same,
                                 struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_BOOK_TEXT_SAME);
    bind_words(&query, id, words);
    *same = query_row(&query);
    return query_end(&query, error);
}

/* Most events change figures and no words, and to write to the index of words is dear. */
static enum lw_status write_words(struct store *store, int64_t id, const struct book_words *words,
                                  struct lw_error *error)
{
    struct query query;
    bool same;
    enum lw_status status = words_same(store, id, words, &same, error);

    if (status != LW_OK || same)
        return status;
    status = run_for(store, SQL_BOOK_WORDS_DELETE, id, error);
    if (status != LW_OK)
        return status;
    query_begin(&query, store, SQL_BOOK_TEXT_WRITE);
    bind_words(&query, id, words);
    status = query_run(&query, error);
    return status == LW_OK ? run_for(store, SQL_BOOK_WORDS_INSERT, id, error) : status;
}

/* Somebody may have added to the record since it was read, and written a newer row even. */
static enum lw_status settle_due(struct store *store, const struct book_row *row, struct lw_error *error)
{
    struct query query;
    enum lw_status status = run_for(store, SQL_BOOK_DONE, row->batch_id, error);

    if (status != LW_OK)
        return status;
    query_begin(&query, store, SQL_BOOK_DUE_AGAIN);
    query_bind_int(&query, row->batch_id);
    query_bind_int(&query, row->last_event);
    return query_run(&query, error);
}

static enum lw_status write_all(struct store *store, const struct book_row *row, const struct book_words *words,
                                struct lw_error *error)
{
    enum lw_status status = run_for(store, SQL_BOOK_PIECES_DELETE, row->batch_id, error);

    if (status == LW_OK)
        status = write_figures(store, row, error);
    if (status == LW_OK)
        status = write_pieces(store, row, error);
    if (status == LW_OK)
        status = write_words(store, row->batch_id, words, error);
    return status == LW_OK ? settle_due(store, row, error) : status;
}

enum lw_status book_write(struct store *store, const struct book_row *row, const struct book_words *words,
                          struct lw_error *error)
{
    enum lw_status status = store_begin(store, error);

    if (status != LW_OK)
        return status;
    return store_end(store, write_all(store, row, words, error), error);
}

/* ---- found */

/* By schema/003.sql: the order of the days that batches were begun. */
enum { PLACES_A_SECOND = 1 << 24 };
static const int64_t last_second = 253402300799; /* of the year 9999 */

/* The least place of that second. */
static int64_t place_of(int64_t second)
{
    if (second <= 0)
        return 0;
    return (second > last_second ? last_second + 1 : second) * PLACES_A_SECOND;
}

struct page {
    enum sql sql;
    int64_t from, before; /* places */
    char match[BOOK_MATCH_BYTES];
    bool counted;
};

static enum lw_status page_begin(struct store *store, const struct book_filter *filter, struct page *page,
                                 struct lw_error *error)
{
    page->from = place_of(filter->from_s);
    page->before = filter->before_s > 0 ? place_of(filter->before_s) : INT64_MAX;
    page->counted = filter->counted_only;
    return book_match(store, filter, page->match, error);
}

/* The first three parameters, and the next two where words are looked for. */
static void bind_page(struct query *query, const struct page *page, int most)
{
    query_bind_int(query, page->from);
    query_bind_int(query, page->before);
    query_bind_int(query, most > 0 ? most : 0);
    if (!page->match[0])
        return;
    query_bind_text(query, page->match);
    query_bind_int(query, page->counted);
}

/* The way back after the way on. */
static const enum sql by_place[2] = {SQL_BOOK_NEWEST, SQL_BOOK_OLDEST};
static const enum sql by_place_counted[2] = {SQL_BOOK_COUNTED_NEWEST, SQL_BOOK_COUNTED_OLDEST};
static const enum sql by_place_found[2] = {SQL_BOOK_FOUND_NEWEST, SQL_BOOK_FOUND_OLDEST};
static const struct {
    enum sql sql[2];
    enum book_figure figure;
} by_key[BOOK_ORDERS] = {
    [BOOK_BY_RECIPE] = {{SQL_BOOK_BY_RECIPE, SQL_BOOK_BY_RECIPE_BACK}, BOOK_FIGURE_COUNT},
    [BOOK_BY_SUPERFAT] = {{SQL_BOOK_BY_SUPERFAT, SQL_BOOK_BY_SUPERFAT_BACK}, BOOK_SUPERFAT},
    [BOOK_BY_REJECTS] = {{SQL_BOOK_BY_REJECTS, SQL_BOOK_BY_REJECTS_BACK}, BOOK_REJECTS},
    [BOOK_BY_EACH] = {{SQL_BOOK_BY_EACH, SQL_BOOK_BY_EACH_BACK}, BOOK_EACH},
    [BOOK_BY_WINDOW] = {{SQL_BOOK_BY_WINDOW, SQL_BOOK_BY_WINDOW_BACK}, BOOK_WINDOW},
};

/* Newest first: what is beyond a line are places on one side of its own. */
static void go_beyond(struct page *page, const struct book_line *beyond, bool backwards)
{
    if (!beyond)
        return;

    int64_t place = place_of(beyond->started_s) + beyond->id;

    if (backwards && page->from <= place)
        page->from = place + 1;
    if (!backwards && page->before > place)
        page->before = place;
}

/* Names come before any bytes, and no batch has the age of either end. */
static void bind_end(struct query *query, bool by_name, bool backwards)
{
    if (by_name && backwards)
        query_bind_bytes(query, "", 0);
    else if (by_name)
        query_bind_text(query, "");
    else
        query_bind_real(query, backwards ? (double)INFINITY : -(double)INFINITY);
    query_bind_int(query, backwards ? INT64_MAX : INT64_MIN);
}

static void bind_key(struct query *query, enum book_order order, const struct book_line *beyond, bool backwards)
{
    enum book_figure figure = by_key[order].figure;
    bool by_name = figure == BOOK_FIGURE_COUNT;

    if (!beyond) {
        bind_end(query, by_name, backwards);
        return;
    }
    if (by_name)
        query_bind_text(query, beyond->name);
    else
        query_bind_real(query, beyond->figure[figure]);
    query_bind_int(query, -(place_of(beyond->started_s) + beyond->id));
}

static enum lw_status read_lines(struct query *query, bool (*each)(void *context, const struct book_line *line),
                                 void *context, struct lw_error *error)
{
    bool more = true;

    while (more && query_row(query)) {
        struct book_line line;

        memset(&line, 0, sizeof line);
        members_read(query, book_line_members(), &line);
        more = query->code == SQLITE_OK && each(context, &line);
    }
    return query_end(query, error);
}

enum lw_status book_page(struct store *store, const struct book_filter *filter, enum book_order order,
                         const struct book_line *beyond, bool backwards, int most,
                         bool (*each)(void *context, const struct book_line *line), void *context,
                         struct lw_error *error)
{
    struct query query;
    struct page page;
    /* Places are bounds here, so they have to be where they belong. */
    enum lw_status status = beyond || filter->from_s || filter->before_s ? moments_settle(store, error) : LW_OK;

    if (status == LW_OK)
        status = page_begin(store, filter, &page, error);
    if (status != LW_OK)
        return status;
    if (order != BOOK_NEWEST && (page.match[0] || page.counted))
        return lw_fail(error, LW_INVALID,
                       "Batches that are looked for by words are listed from the newest; ask for no "
                       "other order.");
    if (order == BOOK_NEWEST) {
        go_beyond(&page, beyond, backwards);
        query_begin(&query, store,
                    (page.match[0]  ? by_place_found
                     : page.counted ? by_place_counted
                                    : by_place)[backwards]);
    } else {
        query_begin(&query, store, by_key[order].sql[backwards]);
    }
    bind_page(&query, &page, most);
    if (order != BOOK_NEWEST)
        bind_key(&query, order, beyond, backwards);
    return read_lines(&query, each, context, error);
}

enum lw_status book_count(struct store *store, const struct book_filter *filter, int most, int *n,
                          struct lw_error *error)
{
    struct query query;
    struct page page;
    enum lw_status status = page_begin(store, filter, &page, error);

    *n = 0;
    if (status != LW_OK)
        return status;
    query_begin(&query, store,
                page.match[0]  ? SQL_BOOK_COUNT_FOUND
                : page.counted ? SQL_BOOK_COUNT_COUNTED
                               : SQL_BOOK_COUNT);
    bind_page(&query, &page, most);
    if (query_row(&query))
        *n = (int)query_int(&query);
    return query_end(&query, error);
}

static bool keep_line(void *context, const struct book_line *line)
{
    *(struct book_line *)context = *line;
    return true;
}

enum lw_status book_line(struct store *store, int64_t batch_id, struct book_line *line, struct lw_error *error)
{
    struct query query;
    enum lw_status status;

    line->id = 0;
    query_begin(&query, store, SQL_BOOK_LINE);
    query_bind_int(&query, batch_id);
    status = read_lines(&query, keep_line, line, error);
    if (status != LW_OK || line->id == batch_id)
        return status;
    return lw_fail(error, LW_NOT_FOUND, "That batch is not in the book yet.");
}

enum lw_status book_wants(struct store *store, int64_t from_s, int64_t until_s, int most,
                          bool (*each)(void *context, const struct book_line *line), void *context,
                          struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_BOOK_WANTS);
    query_bind_int(&query, from_s);
    query_bind_int(&query, until_s);
    query_bind_int(&query, most > 0 ? most : 0);
    return read_lines(&query, each, context, error);
}

enum lw_status book_find(struct store *store, const char *number, int64_t *batch_id, struct lw_error *error)
{
    struct query query;
    enum lw_status status;
    bool found;

    query_begin(&query, store, SQL_BOOK_FIND);
    query_bind_text(&query, number);
    found = query_row(&query);
    if (found)
        *batch_id = query_int(&query);
    status = query_end(&query, error);
    if (status != LW_OK || found)
        return status;
    return lw_fail(error, LW_NOT_FOUND, "There is no batch %s in the records.", number);
}

enum lw_status book_pieces_each(struct store *store, int most,
                                bool (*each)(void *context, int64_t batch_id, const struct book_pieces *pieces),
                                void *context, struct lw_error *error)
{
    struct query query;
    bool more = true;

    query_begin(&query, store, SQL_BOOK_PIECES);
    query_bind_int(&query, most > 0 ? most : 0);
    while (more && query_row(&query)) {
        struct book_pieces pieces;
        int64_t batch_id = query_int(&query);

        memset(&pieces, 0, sizeof pieces);
        members_read(&query, book_pieces_members(), &pieces);
        more = query.code == SQLITE_OK && each(context, batch_id, &pieces);
    }
    return query_end(&query, error);
}

enum lw_status book_names(struct store *store, enum book_in in, int most, bool (*each)(void *context, const char *name),
                          void *context, struct lw_error *error)
{
    struct query query;
    bool more = true;

    if (in != BOOK_IN_RECIPE && in != BOOK_IN_COLOURANT && in != BOOK_IN_FRAGRANCE)
        return lw_fail(error, LW_INVALID, "Only recipes, colourants and fragrances have names.");
    query_begin(&query, store,
                in == BOOK_IN_RECIPE      ? SQL_BOOK_RECIPES
                : in == BOOK_IN_COLOURANT ? SQL_BOOK_COLOURANTS
                                          : SQL_BOOK_FRAGRANCES);
    query_bind_int(&query, most > 0 ? most : 0);
    while (more && query_row(&query))
        more = each(context, query_text(&query));
    return query_end(&query, error);
}
