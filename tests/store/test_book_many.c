/* A book of a hundred thousand batches: what a page takes does not depend on how many there are. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "store/booked.h"
#include "support/many_batches.h"

enum {
    BATCHES = 100000,
    PAGE = 50,
    STEPS_A_LINE = 150 /* of SQLite's machine: some 60 to read a line, and what finds it */
};

static int setup(void **state)
{
    struct booked *booked;

    if (booked_setup(state) != 0)
        return -1;
    booked = *state;
    booked_ok(booked, many_batches(booked->store, booked->recipe_id, BATCHES, &booked->error));
    return 0;
}

struct page {
    int n;
    struct book_line last;
};

static bool take_line(void *context, const struct book_line *line)
{
    struct page *page = context;

    page->n++;
    page->last = *line;
    return true;
}

/* Steps that all statements of the book took since this was last asked, none of which may be a scan or a sort. */
static int steps_taken(struct booked *booked)
{
    int steps = 0;

    booked_unscanned(booked, SQL_BOOK_DUE, SQL_BOOK_PIECES);
    for (enum sql sql = SQL_BOOK_DUE; sql <= SQL_BOOK_PIECES; sql++)
        if (booked->store->statement[sql])
            steps += sqlite3_stmt_status(booked->store->statement[sql], SQLITE_STMTSTATUS_VM_STEP, 1);
    return steps;
}

/* Some pages on from a line: each full, each of few steps. */
static void pages_are_short_work(struct booked *booked, const struct book_filter *filter, enum book_order order,
                                 bool backwards, int pages)
{
    struct page page = {0};

    steps_taken(booked);
    for (int i = 0; i < pages; i++) {
        struct book_line beyond = page.last;

        page.n = 0;
        booked_ok(booked, book_page(booked->store, filter, order, i > 0 ? &beyond : NULL, backwards, PAGE, take_line,
                                    &page, &booked->error));
        assert_int_equal(page.n, PAGE);

        int steps = steps_taken(booked);

        if (steps > PAGE * STEPS_A_LINE)
            fail_msg("order %d: %d steps", (int)order, steps);
    }
}

static void a_page_in_any_order_neither_scans_nor_sorts_nor_walks(void **state)
{
    struct booked *booked = *state;
    const struct book_filter all = {0}, counted = {.counted_only = true};

    for (int backwards = 0; backwards < 2; backwards++) {
        for (enum book_order order = BOOK_NEWEST; order < BOOK_ORDERS; order++)
            pages_are_short_work(booked, &all, order, backwards, 10);
        pages_are_short_work(booked, &counted, BOOK_NEWEST, backwards, 10);
    }
}

static void the_first_fifty_by_words_neither_scan_nor_sort(void **state)
{
    static const char *const typed[] = {"r", "ro", "ros", "rose", "2", "201", "olive", "on h"};
    struct booked *booked = *state;

    for (size_t i = 0; i < sizeof typed / sizeof typed[0]; i++) {
        struct book_filter filter = {.terms = 2, .term = {{.text = ""}, {.in = BOOK_IN_COLOURANT, .text = "moss"}}};

        text_copy(filter.term[0].text, BOOK_TERM_BYTES, typed[i]);
        for (int backwards = 0; backwards < 2; backwards++)
            pages_are_short_work(booked, &filter, BOOK_NEWEST, backwards, 2);
    }
}

static void a_day_long_ago_is_as_near_as_today(void **state)
{
    struct booked *booked = *state;
    const int64_t then_s = MANY_FIRST_S + (int64_t)MANY_APART_S * (BATCHES / 3);
    const struct book_filter filter = {.terms = 1, .term = {{.text = "olive"}}, .before_s = then_s},
                             days = {.before_s = then_s};

    pages_are_short_work(booked, &filter, BOOK_NEWEST, false, 2);
    pages_are_short_work(booked, &days, BOOK_NEWEST, false, 2);
}

static void matches_are_counted_no_further_than_asked(void **state)
{
    struct booked *booked = *state;
    const struct book_filter all = {0}, counted = {.counted_only = true},
                             words = {.terms = 1, .term = {{.text = "olive"}}};
    int n;

    booked_ok(booked, book_count(booked->store, &all, BATCHES + 1, &n, &booked->error));
    assert_int_equal(n, BATCHES);
    steps_taken(booked);
    booked_ok(booked, book_count(booked->store, &all, 1000, &n, &booked->error));
    assert_int_equal(n, 1000);
    booked_ok(booked, book_count(booked->store, &counted, 1000, &n, &booked->error));
    assert_int_equal(n, 1000);
    booked_ok(booked, book_count(booked->store, &words, 1000, &n, &booked->error));
    assert_int_equal(n, 1000);
    assert_true(steps_taken(booked) < 3 * 1000 * 20);
}

struct wants {
    int n;
    int64_t last_s;
};

static bool take_want(void *context, const struct book_line *line)
{
    struct wants *wants = context;

    assert_int_equal(line->want, WANT_TEST);
    assert_true(line->want_s >= wants->last_s);
    wants->last_s = line->want_s;
    wants->n++;
    return true;
}

/* One in fifty wants something, the newest first of all; not all of them by that moment. */
static void what_is_wanted_next_is_found_among_all_that_want_nothing(void **state)
{
    struct booked *booked = *state;
    struct wants wants = {0};

    steps_taken(booked);
    booked_ok(booked, book_wants(booked->store, 0, INT64_MAX, PAGE, take_want, &wants, &booked->error));
    assert_int_equal(wants.n, PAGE);
    assert_true(steps_taken(booked) <= PAGE * STEPS_A_LINE);
    wants = (struct wants){0};
    booked_ok(booked, book_wants(booked->store, 0, MANY_FIRST_S, BATCHES, take_want, &wants, &booked->error));
    assert_true(wants.n > 0 && wants.n < BATCHES / 50 && wants.last_s <= MANY_FIRST_S);
    wants = (struct wants){0};
    booked_ok(booked, book_wants(booked->store, 0, INT64_MAX, BATCHES, take_want, &wants, &booked->error));
    assert_int_equal(wants.n, BATCHES / 50);
}

static bool count_name(void *context, const char *name)
{
    ++*(int *)context;
    return name[0] != '\0';
}

static void names_of_recipes_are_found_without_reading_every_batch(void **state)
{
    struct booked *booked = *state;
    int names = 0;

    booked_ok(booked, book_names(booked->store, BOOK_IN_RECIPE, 100, count_name, &names, &booked->error));
    assert_int_equal(names, 41);
    assert_true(sqlite3_stmt_status(booked->store->statement[SQL_BOOK_RECIPES], SQLITE_STMTSTATUS_VM_STEP, 0) <
                41 * 100);
}

#define TEST(name) cmocka_unit_test(name)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_page_in_any_order_neither_scans_nor_sorts_nor_walks),
        TEST(the_first_fifty_by_words_neither_scan_nor_sort),
        TEST(a_day_long_ago_is_as_near_as_today),
        TEST(matches_are_counted_no_further_than_asked),
        TEST(what_is_wanted_next_is_found_among_all_that_want_nothing),
        TEST(names_of_recipes_are_found_without_reading_every_batch),
    };

    return cmocka_run_group_tests(tests, setup, booked_teardown);
}
