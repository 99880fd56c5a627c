/* bench_book.c - a page of the book and a search while typing, with 100,000 batches, against the bare query that the least of programs
 * would ask of the same file: the same lines by their place, and the first of the words' index. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include <sqlite3.h>

#include "bench/measure.h"
#include "store/book.h"
#include "store/recipes.h"
#include "support/many_batches.h"
#include "support/random_recipe.h"

enum { BATCHES = 100000, PAGE = 50, PATH_BYTES = 64, SEARCHES = 2000, WARM_UP = 50 };

static const double ratio_most = 2.0;

/* By the place of each line, in the terms of schema/003.sql. */
static const char bare_page[] =
    "SELECT batch.id, number, batch.name, recipe_id, revision, started_s, utc_offset, finished_s, book.outcome, "
    "left_out,"
    "       until_least, technique, want, want_s, oils_g, batter_g, superfat, strength, temp_c, saturated, scent, "
    "from_min, "
    "until_min,"
    "       window_min, pieces, good, rejects, each_g, seconds_each, jug_g, bag_g, density_g_ml, air, bars, lightest_g,"
    "       cure_loss, cure_rate, cured_days"
    "  FROM book CROSS JOIN batch ON batch.id = batch_id WHERE place < ?1 ORDER BY place DESC LIMIT 50";
static const char bare_search[] = "SELECT rowid FROM book_words WHERE book_words MATCH ?1 ORDER BY rowid DESC LIMIT 50";

static const char *const typed[] = {"r",  "ro",   "ros", "rose", "o",  "ol",    "olive",
                                    "so", "soap", "2",   "201",  "mi", "bergam"};
enum { TYPED = sizeof typed / sizeof typed[0] };

struct subject {
    struct store *store;
    enum book_order order;
    struct book_line last;
    int lines;
    sqlite3 *db; /* a connection of the floor's own */
    sqlite3_stmt *page, *search;
    int failed;
};

static bool take_line(void *context, const struct book_line *line)
{
    struct subject *subject = context;

    subject->last = *line;
    subject->lines++;
    return true;
}

/* A page from somewhere in the middle on. */
static void page(void *context, size_t times)
{
    static const struct book_filter all;
    struct subject *subject = context;
    struct lw_error error = {""};

    for (size_t i = 0; i < times; i++) {
        struct book_line beyond = subject->last;

        subject->lines = 0;
        if (book_page(subject->store, &all, subject->order, &beyond, false, PAGE, take_line, subject, &error) !=
                LW_OK ||
            subject->lines != PAGE)
            subject->failed++;
        subject->last = beyond;
    }
}

static int step_through(sqlite3_stmt *statement)
{
    volatile double kept = 0;
    int rows = 0;

    for (; sqlite3_step(statement) == SQLITE_ROW; rows++)
        for (int column = 0; column < sqlite3_column_count(statement); column++) {
            if (sqlite3_column_type(statement, column) == SQLITE_TEXT)
                kept += sqlite3_column_text(statement, column)[0];
            else
                kept += sqlite3_column_double(statement, column);
        }
    sqlite3_reset(statement);
    return rows;
}

static void page_barely(void *context, size_t times)
{
    struct subject *subject = context;

    for (size_t i = 0; i < times; i++) {
        sqlite3_bind_int64(subject->page, 1, subject->last.started_s << 24 | subject->last.id);
        subject->failed += step_through(subject->page) != PAGE;
    }
}

/* ---- searching */

static double now_us(void)
{
    struct timespec now;

    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec * 1e6 + (double)now.tv_nsec / 1e3;
}

static double search_us(struct subject *subject, const char *text)
{
    struct book_filter filter = {.terms = 1};
    struct lw_error error = {""};
    double begin;

    snprintf(filter.term[0].text, BOOK_TERM_BYTES, "%s", text);
    subject->lines = 0;
    begin = now_us();
    if (book_page(subject->store, &filter, BOOK_NEWEST, NULL, false, PAGE, take_line, subject, &error) != LW_OK ||
        subject->lines != PAGE)
        subject->failed++;
    return now_us() - begin;
}

static double search_barely_us(struct subject *subject, const char *text)
{
    char match[BOOK_TERM_BYTES];
    double begin;

    snprintf(match, sizeof match, "\"%s\" *", text);
    begin = now_us();
    sqlite3_bind_text(subject->search, 1, match, -1, SQLITE_STATIC);
    subject->failed += step_through(subject->search) != PAGE;
    return now_us() - begin;
}

static int by_value(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void compare_searches(struct subject *subject)
{
    static double of_subject[SEARCHES], of_floor[SEARCHES];

    for (int i = -WARM_UP; i < SEARCHES; i++) {
        const char *text = typed[(i + WARM_UP) % TYPED];
        double a = search_us(subject, text), b = search_barely_us(subject, text);

        if (i >= 0) {
            of_subject[i] = a;
            of_floor[i] = b;
        }
    }
    qsort(of_subject, SEARCHES, sizeof of_subject[0], by_value);
    qsort(of_floor, SEARCHES, sizeof of_floor[0], by_value);

    double a = of_subject[SEARCHES * 99 / 100], b = of_floor[SEARCHES * 99 / 100];

    printf("search while typing, first %d of %d, 99 in 100 within: %.0f us, bare %.0f us, ratio %.2f (at most %.1f); "
           "medians %.0f us, %.0f us%s\n",
           PAGE, BATCHES, a, b, a / b, ratio_most, measure_median(of_subject, SEARCHES),
           measure_median(of_floor, SEARCHES), a / b > ratio_most ? "  MISSED" : "");
}

/* ---- the store */

static bool make_book(struct subject *subject, const char *path, struct chance *chance)
{
    static const struct recipe recipe = {.name = "Hedge Rose"};
    const struct lw_now now = {.utc_s = 900000000};
    const struct store_options options = {.how = STORE_CREATE, .random = chance_bytes, .context = chance};
    struct lw_error error = {""};
    int64_t id;
    int number;

    return store_open(path, &options, &subject->store, &error) == LW_OK &&
           recipes_create(subject->store, &recipe, &now, &id, &error) == LW_OK &&
           recipes_seal(subject->store, id, &now, &number, &error) == LW_OK &&
           many_batches(subject->store, id, BATCHES, &error) == LW_OK &&
           book_line(subject->store, BATCHES / 2, &subject->last, &error) == LW_OK;
}

static bool open_floor(struct subject *subject, const char *path)
{
    return sqlite3_open_v2(path, &subject->db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL) == SQLITE_OK &&
           sqlite3_prepare_v2(subject->db, bare_page, -1, &subject->page, NULL) == SQLITE_OK &&
           sqlite3_prepare_v2(subject->db, bare_search, -1, &subject->search, NULL) == SQLITE_OK;
}

static void compare_pages(struct subject *subject)
{
    static const char *const names[BOOK_ORDERS] = {"newest",     "by recipe", "by superfat",
                                                   "by rejects", "by mass",   "by window"};

    for (subject->order = BOOK_NEWEST; subject->order < BOOK_ORDERS; subject->order++) {
        struct ratio result = measure(&(struct work){page, subject, 20}, &(struct work){page_barely, subject, 20});

        printf("a page of the book, %d of %d, %s: %.0f us, bare keyset query %.0f us, ratio %.2f (at most %.1f)%s\n",
               PAGE, BATCHES, names[subject->order], result.subject_us, result.floor_us, result.ratio, ratio_most,
               result.ratio > ratio_most ? "  MISSED" : "");
    }
}

static void remove_all(const char *folder)
{
    static const char *const names[] = {"store", "store-wal", "store-shm"};
    char path[2 * PATH_BYTES];

    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        snprintf(path, sizeof path, "%s/%s", folder, names[i]);
        unlink(path);
    }
    rmdir(folder);
}

int main(void)
{
    static struct subject subject;
    struct chance chance = chance_of(20240229);
    char folder[PATH_BYTES] = "/tmp/lyeway-bench-XXXXXX", path[2 * PATH_BYTES];

    if (!mkdtemp(folder))
        return 1;
    snprintf(path, sizeof path, "%s/store", folder);
    if (!make_book(&subject, path, &chance) || !open_floor(&subject, path)) {
        fprintf(stderr, "The book that is measured cannot be made.\n");
        return 1;
    }
    compare_pages(&subject);
    compare_searches(&subject);
    sqlite3_finalize(subject.page);
    sqlite3_finalize(subject.search);
    sqlite3_close(subject.db);
    store_close(subject.store, NULL);
    remove_all(folder);
    return subject.failed == 0 ? 0 : 1;
}
