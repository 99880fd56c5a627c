/* A store that begins as a copy of an image, with its moments moved to another day. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <sqlite3.h>

#include "lyeway/facts.h"
#include "store/booked.h"
#include "store/inside.h"
#include "store/named.h"
#include "store/shelf.h"

enum { SQL_BYTES = 512, SHIFT_S = 37 * 86400 };

/* A batch that is over, with a leftover to be used in a week. */
static void add_batch(struct store *store, int64_t recipe_id, int revision, int64_t now_s)
{
    struct batch_head head = {.number = "26-001", .recipe_id = recipe_id, .revision = revision, .started_s = now_s};
    struct batch_event events[] = {
        {.id = 1, .at_s = now_s, .kind = EVENT_LEFTOVER, .mass_ug = 1, .scale = -1, .number = {7}},
        {.id = 2, .at_s = now_s, .kind = EVENT_FINISHED, .scale = -1}};
    struct lw_error error = {""};

    struct book_row row = {.last_event = 2, .want = WANT_TEST, .want_s = now_s};

    if (batches_create(store, &head, 190000000, "{}", "", NULL, 0, &error) != LW_OK ||
        batches_append(store, head.id, NULL, 0, events, 2, &error) != LW_OK)
        fail_msg("%s", error.text);
    row.batch_id = head.id;
    if (book_write(store, &row, &(struct book_words){.recipe = "Hedge Rose"}, &error) != LW_OK)
        fail_msg("%s", error.text);
}

/* An image with something in every table that has a moment. */
static char *make_image(struct scratch *scratch, size_t *n)
{
    struct lw_error error = {""};
    struct store *store;
    size_t rows;
    int64_t id;
    int number;

    free(make_store(scratch, n));
    store = scratch_open(scratch);
    assert_int_equal(recipes_find(store, NULL, "Hedge Rose", &id, &error), LW_OK);
    assert_int_equal(recipes_seal(store, id, &scratch->now, &number, &error), LW_OK);
    add_batch(store, id, number, scratch->now.utc_s);
    if (shelf_put_oil(store, &facts_oils(&rows)[0], &scratch->now, &error) != LW_OK)
        fail_msg("%s", error.text);
    scratch_close(store);
    return scratch_read(scratch->path, n);
}

static struct store *open_made(struct scratch *scratch, const char *path, const char *image, size_t n)
{
    struct store_options options = scratch_options(scratch, STORE_CREATE);
    struct lw_error error = {""};
    struct store *store;

    options.image = (const unsigned char *)image;
    options.image_bytes = n;
    options.image_shift_s = SHIFT_S;
    if (store_open(path, &options, &store, &error) != LW_OK)
        fail_msg("%s", error.text);
    return store;
}

static sqlite3_int64 one_number(sqlite3 *db, const char *sql)
{
    sqlite3_stmt *statement;
    sqlite3_int64 number;

    assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &statement, NULL), SQLITE_OK);
    assert_int_equal(sqlite3_step(statement), SQLITE_ROW);
    number = sqlite3_column_int64(statement, 0);
    sqlite3_finalize(statement);
    return number;
}

/* Of the index of words, which is made anew, and of the order and the days of the book, which follow the moments. */
static bool follows(const char *table, const char *column)
{
    return strncmp(table, "book_words", strlen("book_words")) == 0 || strcmp(column, "place") == 0 ||
           strcmp(column, "day") == 0;
}

/* One column in both stores: so many moments, all of them moved; or none that differs. */
static void compare_column(sqlite3 *db, const char *table, const char *column)
{
    bool moment = strlen(column) > 2 && strcmp(column + strlen(column) - 2, "_s") == 0;
    char sql[SQL_BYTES];
    sqlite3_int64 rows, moved;

    if (follows(table, column))
        return;
    snprintf(sql, sizeof sql, "SELECT count(\"%s\") FROM main.\"%s\"", column, table);
    rows = one_number(db, sql);
    if (!moment) {
        snprintf(sql, sizeof sql,
                 "SELECT count(*) FROM (SELECT \"%s\" FROM main.\"%s\" EXCEPT SELECT \"%s\" FROM made.\"%s\")", column,
                 table, column, table);
        assert_int_equal(one_number(db, sql), 0);
        return;
    }
    snprintf(sql, sizeof sql,
             "SELECT (SELECT total(\"%s\") FROM made.\"%s\") - (SELECT total(\"%s\") FROM main.\"%s\")", column, table,
             column, table);
    moved = one_number(db, sql);
    if (rows == 0 || moved != rows * SHIFT_S)
        fail_msg("%s.%s: %lld moments, moved by %lld s in all", table, column, (long long)rows, (long long)moved);
}

static int compare_tables(sqlite3 *db)
{
    sqlite3_stmt *statement;
    int columns = 0;

    assert_int_equal(sqlite3_prepare_v2(db,
                                        "SELECT t.name, c.name FROM sqlite_schema AS t, pragma_table_info(t.name) AS c"
                                        " WHERE t.type = 'table'",
                                        -1, &statement, NULL),
                     SQLITE_OK);
    while (sqlite3_step(statement) == SQLITE_ROW) {
        compare_column(db, (const char *)sqlite3_column_text(statement, 0),
                       (const char *)sqlite3_column_text(statement, 1));
        columns++;
    }
    sqlite3_finalize(statement);
    return columns;
}

/* By the names of the columns, so that a table that is added and forgotten is found. */
static void every_moment_is_moved_and_nothing_else(void **state)
{
    struct scratch *scratch = *state;
    char made[SCRATCH_PATH_BYTES], sql[SQL_BYTES];
    size_t n;
    char *image = make_image(scratch, &n);
    sqlite3 *db;

    path_of(made, scratch, ".made");
    scratch_close(open_made(scratch, made, image, n));
    assert_int_equal(sqlite3_open(scratch->path, &db), SQLITE_OK);
    snprintf(sql, sizeof sql, "ATTACH '%s' AS made", made);
    assert_int_equal(sqlite3_exec(db, sql, NULL, NULL, NULL), SQLITE_OK);
    assert_true(compare_tables(db) > 100);
    sqlite3_close(db);
    free(image);
}

static void what_was_sealed_is_sealed_again_after_it_was_moved(void **state)
{
    struct scratch *scratch = *state;
    struct store_options options = scratch_options(scratch, STORE_IMAGE);
    struct lw_error error = {""};
    size_t n;
    char *image = make_image(scratch, &n);
    struct store *store;

    options.image = (const unsigned char *)image;
    options.image_bytes = n;
    options.image_shift_s = SHIFT_S;
    assert_int_equal(store_open("", &options, &store, &error), LW_OK);
    assert_int_equal(store_run(store, "UPDATE revision SET name = 'x' WHERE number IS NULL", &error), LW_OK);
    assert_int_not_equal(store_run(store, "UPDATE revision SET name = 'x' WHERE number = 1", &error), LW_OK);
    scratch_close(store);
    free(image);
}

static void a_file_is_made_of_the_image_once_and_is_the_makers_from_then_on(void **state)
{
    struct scratch *scratch = *state;
    char made[SCRATCH_PATH_BYTES];
    size_t n;
    char *image = make_image(scratch, &n);
    struct store *store;

    snprintf(made, sizeof made, "%.180s/folder/made", scratch->folder);
    store = open_made(scratch, made, image, n);
    assert_true(has_recipe(store, "Hedge Rose"));
    add_recipe(store, scratch, "mine");
    scratch_verify(store);
    scratch_close(store);
    store = open_made(scratch, made, image, n);
    assert_true(has_recipe(store, "mine"));
    scratch_close(store);
    free(image);
}

static void a_damaged_image_makes_no_file(void **state)
{
    struct scratch *scratch = *state;
    struct store_options options = scratch_options(scratch, STORE_CREATE);
    struct lw_error error = {""};
    struct store *store;

    options.image = (const unsigned char *)"nonsense";
    options.image_bytes = strlen("nonsense");
    assert_int_equal(store_open(scratch->path, &options, &store, &error), LW_CORRUPT);
    assert_null(store);
    assert_int_equal(scratch_files(scratch), 0);
}

/* ---- the book in an image */

enum { RUNNING_SHIFT_S = 4321, FIRST_S = 1700000000, DAY_S = 86400 };

/* Batches 1 to 3, the first finished, the second set aside, the third running, all in the book with an event each. Opened again as an
 * image that is moved on. */
static void move_book_on(struct booked *booked, int64_t shift_s, int64_t running_s)
{
    static const enum event_kind kinds[] = {EVENT_FINISHED, EVENT_SET_ASIDE, EVENT_NOTE};
    struct store_options options = scratch_options(booked->scratch, STORE_IMAGE);
    size_t n;

    for (int i = 0; i < 3; i++) {
        struct book_row row = booked_row(booked_batch(booked, "Hedge Rose", FIRST_S + i * DAY_S));

        booked_event(booked, row.batch_id, 1, kinds[i], 0);
        row.last_event = 1;
        row.kinds = 1;
        row.outcome = i == 0 ? BOOK_MADE : i == 1 ? BOOK_SET_ASIDE : BOOK_RUNNING;
        booked_write(booked, &row, "Hedge Rose", "held");
    }
    scratch_close(booked->store);

    char *image = scratch_read(booked->scratch->path, &n);

    options.image = (const unsigned char *)image;
    options.image_bytes = n;
    options.image_shift_s = shift_s;
    options.image_running_shift_s = running_s;
    booked_ok(booked, store_open("", &options, &booked->store, &booked->error));
    free(image);
}

static int found_by(struct booked *booked, enum book_in in, const char *text)
{
    struct book_filter filter = {.terms = 1, .term = {{.in = in, .whole = true}}};
    int n;

    snprintf(filter.term[0].text, BOOK_TERM_BYTES, "%s", text);
    booked_ok(booked, book_count(booked->store, &filter, 9, &n, &booked->error));
    return n;
}

/* 1700000000 is 2023-11-14 22:13:20 UTC (from memory, as date(1) has it), for the maker an hour earlier. */
static void batches_are_found_by_the_days_that_they_were_moved_to(void **state)
{
    struct booked *booked = *state;

    move_book_on(booked, SHIFT_S, 0);
    assert_int_equal(found_by(booked, BOOK_IN_DAY, "2023-11"), 0);
    assert_int_equal(found_by(booked, BOOK_IN_DAY, "2023-12"), 3);
    assert_int_equal(found_by(booked, BOOK_IN_DAY, "2023-12-21"), 1);
    assert_int_equal(found_by(booked, BOOK_ANYWHERE, "held"), 3);
    scratch_verify(booked->store);
}

static bool add_id(void *context, const struct book_line *line)
{
    int64_t *ids = context;

    *ids = *ids * 10 + line->id;
    return true;
}

static void in_newest_order(struct booked *booked, const struct book_filter *filter, int64_t expected)
{
    int64_t ids = 0;

    booked_ok(booked, book_page(booked->store, filter, BOOK_NEWEST, NULL, false, 9, add_id, &ids, &booked->error));
    assert_int_equal(ids, expected);
}

static bool take_event(void *context, const struct batch_event *event)
{
    *(struct batch_event *)context = *event;
    return true;
}

static void moved_by(struct booked *booked, int64_t id, int64_t started_s, int64_t seconds)
{
    struct batch_event event = {0};
    struct book_line line;

    booked_ok(booked, book_line(booked->store, id, &line, &booked->error));
    assert_int_equal(line.started_s, started_s + seconds);
    booked_ok(booked, batches_events(booked->store, id, 0, take_event, &event, &booked->error));
    assert_int_equal(event.at_s, 1709200001 + seconds);
    assert_int_equal(line.finished_s, id == 1 ? event.at_s : 0);
}

/* Back past the others, so that the order is another. */
static void only_what_is_on_the_bench_is_moved_by_the_second_shift(void **state)
{
    const struct book_filter all = {0}, words = {.terms = 1, .term = {{.text = "he"}}};
    struct booked *booked = *state;

    move_book_on(booked, SHIFT_S, RUNNING_SHIFT_S - 3 * DAY_S);
    moved_by(booked, 1, FIRST_S, SHIFT_S);
    moved_by(booked, 2, FIRST_S + DAY_S, SHIFT_S);
    moved_by(booked, 3, FIRST_S + 2 * DAY_S, SHIFT_S + RUNNING_SHIFT_S - 3 * DAY_S);
    in_newest_order(booked, &all, 213);
    in_newest_order(booked, &words, 213);
    scratch_verify(booked->store);
}

static void the_second_shift_needs_no_first(void **state)
{
    struct booked *booked = *state;

    move_book_on(booked, 0, RUNNING_SHIFT_S);
    moved_by(booked, 1, FIRST_S, 0);
    moved_by(booked, 3, FIRST_S + 2 * DAY_S, RUNNING_SHIFT_S);
    /* What is written to it afterwards takes the place of what was moved. */
    struct book_row row = booked_row(3);

    row.last_event = 1;
    booked_write(booked, &row, "Quince Orchard", "put away");
    assert_int_equal(found_by(booked, BOOK_ANYWHERE, "held"), 2);
    assert_int_equal(found_by(booked, BOOK_IN_RECIPE, "quince"), 1);
}

static void event_is_at(struct booked *booked, int64_t id, int64_t seconds)
{
    struct batch_event event = {0};

    booked_ok(booked, batches_events(booked->store, id, 0, take_event, &event, &booked->error));
    assert_int_equal(event.at_s, 1709200001 + seconds);
}

/* The local time of what was made elsewhere. */
static void batches_are_given_the_clock_of_the_place(void **state)
{
    struct store_options options;
    struct booked *booked = *state;
    struct book_line line;
    char *image;
    size_t n;

    move_book_on(booked, 0, 0);
    booked_ok(booked, book_line(booked->store, 1, &line, &booked->error));

    int32_t before = line.offset_s;

    scratch_close(booked->store);
    image = scratch_read(booked->scratch->path, &n);
    options = scratch_options(booked->scratch, STORE_IMAGE);
    options.image = (const unsigned char *)image;
    options.image_bytes = n;
    options.image_offset_s = 36000;
    booked_ok(booked, store_open("", &options, &booked->store, &booked->error));
    free(image);
    booked_ok(booked, book_line(booked->store, 1, &line, &booked->error));
    assert_int_equal(line.offset_s, before + 36000);
    assert_int_equal(line.started_s, FIRST_S);
    /* 22:13 UTC on 14 November, an hour earlier for the maker before, is the next day ten hours further east. */
    assert_int_equal(found_by(booked, BOOK_IN_DAY, "2023-11-15"), 1);
}

/* What is not moved at once is moved before anybody sees it, and nothing twice. */
static void what_waits_to_be_moved_is_moved_for_whoever_asks_first(void **state)
{
    struct booked *booked = *state;
    int64_t acknowledged_s;

    move_book_on(booked, SHIFT_S, RUNNING_SHIFT_S);
    event_is_at(booked, 3, SHIFT_S + RUNNING_SHIFT_S); /* on the bench: moved at once */
    event_is_at(booked, 1, SHIFT_S);
    event_is_at(booked, 3, SHIFT_S + RUNNING_SHIFT_S);
    booked_ok(booked, store_idle(booked->store, &booked->error));
    event_is_at(booked, 2, SHIFT_S);
    booked_ok(booked, batches_acknowledged(booked->store, &acknowledged_s, &booked->error));
    assert_int_equal(acknowledged_s, 0);
    assert_int_equal(found_by(booked, BOOK_IN_DAY, "2023-12"), 3);
}

/* A moment of leisure is enough, and a write before it too. */
static void leisure_and_writing_move_what_waits(void **state)
{
    struct booked *booked = *state;

    move_book_on(booked, SHIFT_S, 0);
    booked_ok(booked, store_idle(booked->store, &booked->error));
    event_is_at(booked, 1, SHIFT_S);
    booked_event(booked, 3, 2, EVENT_NOTE, 0);
    event_is_at(booked, 2, SHIFT_S);
    scratch_verify(booked->store);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, scratch_setup, scratch_teardown)
#define BOOK(name) cmocka_unit_test_setup_teardown(name, booked_setup, booked_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(every_moment_is_moved_and_nothing_else),
        TEST(what_was_sealed_is_sealed_again_after_it_was_moved),
        TEST(a_file_is_made_of_the_image_once_and_is_the_makers_from_then_on),
        TEST(a_damaged_image_makes_no_file),
        BOOK(batches_are_found_by_the_days_that_they_were_moved_to),
        BOOK(only_what_is_on_the_bench_is_moved_by_the_second_shift),
        BOOK(the_second_shift_needs_no_first),
        BOOK(batches_are_given_the_clock_of_the_place),
        BOOK(what_waits_to_be_moved_is_moved_for_whoever_asks_first),
        BOOK(leisure_and_writing_move_what_waits),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
