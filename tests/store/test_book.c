/* The book: rows that follow the records, and pages of them in every order. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include <cmocka.h>

#include "base/text.h"
#include "store/booked.h"

enum { ROWS = 300, PAGE = 7, DAY_S = 86400, FIRST_S = 1700000000 };

struct list {
    int n;
    struct book_line line[ROWS];
};

static bool add_line(void *context, const struct book_line *line)
{
    struct list *list = context;

    assert_true(list->n < ROWS);
    list->line[list->n++] = *line;
    return true;
}

/* ---- due */

static void is_due(struct booked *booked, int n, const int64_t expected[])
{
    int64_t id[ROWS];
    int found;

    booked_ok(booked, book_due(booked->store, id, ROWS, &found, &booked->error));
    assert_int_equal(found, n);
    for (int i = 0; i < n; i++)
        assert_int_equal(id[i], expected[i]);
}

static void a_batch_is_due_from_its_beginning_and_again_with_each_event(void **state)
{
    struct booked *booked = *state;
    int64_t a = booked_batch(booked, "Hedge Rose", FIRST_S), b = booked_batch(booked, "Hedge Rose", FIRST_S);
    struct book_row row = booked_row(a);

    is_due(booked, 2, (int64_t[]){a, b});
    booked_write(booked, &row, "Hedge Rose", "");
    is_due(booked, 1, (int64_t[]){b});
    booked_event(booked, a, 1, EVENT_NOTE, 0);
    is_due(booked, 2, (int64_t[]){a, b});
    booked_event(booked, a, 2, EVENT_TAKEN_BACK, 1);
    row.last_event = 2;
    booked_write(booked, &row, "Hedge Rose", "");
    is_due(booked, 1, (int64_t[]){b});
}

static void a_row_of_a_record_that_has_grown_since_leaves_the_batch_due(void **state)
{
    struct booked *booked = *state;
    int64_t id = booked_batch(booked, "Hedge Rose", FIRST_S);
    struct book_row newer = booked_row(id), older = booked_row(id);

    for (int i = 1; i <= 3; i++)
        booked_event(booked, id, i, EVENT_NOTE, 0);
    newer.last_event = 3;
    older.last_event = 2;
    booked_write(booked, &newer, "Hedge Rose", "");
    is_due(booked, 0, NULL);
    booked_write(booked, &older, "Hedge Rose", ""); /* by a program that had read it before the other wrote */
    is_due(booked, 1, (int64_t[]){id});
    booked_write(booked, &newer, "Hedge Rose", "");
    is_due(booked, 0, NULL);
}

static void only_so_many_are_due_at_once_the_oldest_first(void **state)
{
    struct booked *booked = *state;
    int64_t made[5], id[2];
    int n;

    for (int i = 0; i < 5; i++)
        made[i] = booked_batch(booked, "Hedge Rose", FIRST_S);
    booked_ok(booked, book_due(booked->store, id, 2, &n, &booked->error));
    assert_int_equal(n, 2);
    assert_memory_equal(id, made, sizeof id);
}

/* ---- written */

static void what_is_not_in_the_store_is_said(void **state)
{
    struct booked *booked = *state;
    const struct book_words words = {.recipe = "x"};
    struct book_row row = booked_row(7);
    struct book_line line;
    int64_t id;

    assert_int_equal(book_write(booked->store, &row, &words, &booked->error), LW_NOT_FOUND);
    assert_int_equal(book_line(booked->store, 7, &line, &booked->error), LW_NOT_FOUND);
    assert_int_equal(book_find(booked->store, "99-001", &id, &booked->error), LW_NOT_FOUND);
    id = booked_batch(booked, "Hedge Rose", FIRST_S);
    assert_int_equal(book_line(booked->store, id, &line, &booked->error), LW_NOT_FOUND);
}

static void a_line_is_the_batch_and_its_row(void **state)
{
    struct booked *booked = *state;
    int64_t id = booked_batch(booked, "Hedge Rose", FIRST_S), found = 0;
    struct book_row row = booked_row(id);
    struct book_line line;

    booked_event(booked, id, 1, EVENT_FINISHED, 0);
    row.last_event = 1;
    row.outcome = BOOK_ON_HOLD;
    row.left_out = row.until_least = true;
    row.technique = TECHNIQUE_PIPE;
    row.want = WANT_OUTCOME;
    row.want_s = FIRST_S + 9;
    for (int i = 0; i < BOOK_FIGURE_COUNT; i++)
        row.figure[i] = i == BOOK_AIR ? (double)NAN : 1.5 + i;
    booked_write(booked, &row, "Hedge Rose", "");
    booked_ok(booked, book_line(booked->store, id, &line, &booked->error));
    assert_int_equal(line.id, id);
    assert_string_equal(line.number, "26-001");
    assert_string_equal(line.name, "Hedge Rose");
    assert_int_equal(line.recipe_id, booked->recipe_id);
    assert_int_equal(line.revision, 1);
    assert_int_equal(line.started_s, FIRST_S);
    assert_int_equal(line.offset_s, -3600);
    assert_int_equal(line.finished_s, 1709200001);
    assert_int_equal(line.outcome, BOOK_ON_HOLD);
    assert_true(line.left_out && line.until_least);
    assert_int_equal(line.technique, TECHNIQUE_PIPE);
    assert_int_equal(line.want, WANT_OUTCOME);
    assert_int_equal(line.want_s, FIRST_S + 9);
    for (int i = 0; i < BOOK_FIGURE_COUNT; i++)
        assert_true(i == BOOK_AIR ? isnan(line.figure[i]) : line.figure[i] == 1.5 + i);
    booked_ok(booked, book_find(booked->store, "26-001", &found, &booked->error));
    assert_int_equal(found, id);
}

static double one_figure(struct booked *booked, const char *column)
{
    char sql[64];
    sqlite3_stmt *statement;
    double value;

    snprintf(sql, sizeof sql, "SELECT %s FROM book", column);
    assert_int_equal(sqlite3_prepare_v2(booked->store->db, sql, -1, &statement, NULL), SQLITE_OK);
    assert_int_equal(sqlite3_step(statement), SQLITE_ROW);
    value = sqlite3_column_double(statement, 0);
    sqlite3_finalize(statement);
    return value;
}

/* What the shell of SQLite shows under a name is that figure. */
static void each_figure_is_in_the_column_of_its_name(void **state)
{
    static const char *const column[] = {
        [BOOK_OILS] = "oils_g",
        [BOOK_BATTER] = "batter_g",
        [BOOK_SUPERFAT] = "superfat",
        [BOOK_STRENGTH] = "strength",
        [BOOK_TEMP] = "temp_c",
        [BOOK_SATURATED] = "saturated",
        [BOOK_SCENT] = "scent",
        [BOOK_FROM] = "from_min",
        [BOOK_UNTIL] = "until_min",
        [BOOK_WINDOW] = "window_min",
        [BOOK_PIECES] = "pieces",
        [BOOK_GOOD] = "good",
        [BOOK_REJECTS] = "rejects",
        [BOOK_EACH] = "each_g",
        [BOOK_SECONDS] = "seconds_each",
        [BOOK_JUG_RESIDUE] = "jug_g",
        [BOOK_BAG_RESIDUE] = "bag_g",
        [BOOK_DENSITY] = "density_g_ml",
        [BOOK_AIR] = "air",
        [BOOK_BARS] = "bars",
        [BOOK_LIGHTEST] = "lightest_g",
        [BOOK_CURE_LOSS] = "cure_loss",
        [BOOK_CURE_RATE] = "cure_rate",
        [BOOK_CURED_DAYS] = "cured_days",
    };
    struct booked *booked = *state;
    struct book_row row = booked_row(booked_batch(booked, "Hedge Rose", FIRST_S));

    _Static_assert(sizeof column / sizeof column[0] == BOOK_FIGURE_COUNT, "a column for each figure");
    for (int i = 0; i < BOOK_FIGURE_COUNT; i++)
        row.figure[i] = 100 + i;
    booked_write(booked, &row, "Hedge Rose", "");
    for (int i = 0; i < BOOK_FIGURE_COUNT; i++)
        assert_true(one_figure(booked, column[i]) == 100 + i);
}

static struct book_pieces some_pieces(const char *kind, const char *part)
{
    struct book_pieces pieces = {.class = PIECE_FLOWER,
                                 .first_time = true,
                                 .counted = true,
                                 .good = 26,
                                 .rejects = 3,
                                 .made = 29,
                                 .each_g = 2.6,
                                 .within_squares = 0.5,
                                 .within_degrees = 2};

    text_copy(pieces.kind, sizeof pieces.kind, kind);
    text_copy(pieces.part, sizeof pieces.part, part);
    return pieces;
}

struct parts {
    int n;
    int64_t id[8];
    struct book_pieces pieces[8];
};

static bool add_pieces(void *context, int64_t batch_id, const struct book_pieces *pieces)
{
    struct parts *parts = context;

    parts->id[parts->n] = batch_id;
    parts->pieces[parts->n++] = *pieces;
    return parts->n < 8;
}

static bool same_pieces(const struct book_pieces *a, const struct book_pieces *b)
{
    return strcmp(a->kind, b->kind) == 0 && strcmp(a->part, b->part) == 0 && a->class == b->class &&
           a->first_time == b->first_time && a->counted == b->counted && a->good == b->good &&
           a->rejects == b->rejects && a->made == b->made && memcmp(&a->each_g, &b->each_g, sizeof a->each_g) == 0 &&
           a->within_squares == b->within_squares && a->within_degrees == b->within_degrees;
}

static void pieces_of_batches_that_count_come_newest_first(void **state)
{
    struct booked *booked = *state;
    struct parts parts = {0};
    int64_t id[4];

    for (int i = 0; i < 4; i++) {
        struct book_row row = booked_row(id[i] = booked_batch(booked, "Hedge Rose", FIRST_S - i * DAY_S));

        row.outcome = i == 1 ? BOOK_RUNNING : BOOK_MADE;
        row.left_out = i == 2;
        row.kinds = 2;
        row.pieces[0] = some_pieces("blossom", "petals");
        row.pieces[1] = some_pieces("blossom", "centres");
        booked_write(booked, &row, "Hedge Rose", "");
        row.kinds = 1; /* written anew: those before are gone */
        row.pieces[0].good = i;
        if (i == 3)
            row.pieces[0].each_g = 1.25;
        booked_write(booked, &row, "Hedge Rose", "");
    }
    booked_ok(booked, book_pieces_each(booked->store, 8, add_pieces, &parts, &booked->error));
    assert_int_equal(parts.n, 2);
    assert_int_equal(parts.id[0], id[0]);
    assert_int_equal(parts.id[1], id[3]);

    struct book_pieces expected = some_pieces("blossom", "petals");

    expected.good = 0;
    assert_true(same_pieces(&parts.pieces[0], &expected));
    expected.good = 3;
    expected.each_g = 1.25;
    assert_true(same_pieces(&parts.pieces[1], &expected));
    parts.n = 0;
    booked_ok(booked, book_pieces_each(booked->store, 1, add_pieces, &parts, &booked->error));
    assert_int_equal(parts.n, 1);
}

/* ---- pages */

static void write_random(struct booked *booked, int64_t id)
{
    struct chance *chance = &booked->scratch->chance;
    struct book_row row = booked_row(id);

    row.outcome = (enum book_outcome)chance_below(chance, BOOK_OUTCOMES);
    row.left_out = chance_below(chance, 4) == 0;
    for (int i = 0; i < BOOK_FIGURE_COUNT; i++)
        if (chance_below(chance, 3) > 0)
            row.figure[i] = chance_below(chance, 20) / 8.0 - 0.5; /* equal ones, 0 and below it */
    booked_write(booked, &row, "Hedge Rose", "");
}

/* In no order of time, several at the same second. */
static void fill(struct booked *booked)
{
    static const char *const names[] = {"Hedge Rose", "hedge rose", "Quince Orchard", "", "Äpfel", "\xF0\x9F\x8C\xB8"};
    struct chance *chance = &booked->scratch->chance;

    booked_ok(booked, store_begin(booked->store, &booked->error));
    for (int i = 0; i < ROWS; i++)
        write_random(booked, booked_batch(booked, names[chance_below(chance, 6)],
                                          (int64_t)FIRST_S + chance_below(chance, ROWS / 2) * DAY_S));
    booked_ok(booked, store_end(booked->store, LW_OK, &booked->error));
}

static int by_age(const struct book_line *a, const struct book_line *b)
{
    if (a->started_s != b->started_s)
        return a->started_s < b->started_s ? 1 : -1;
    return (a->id < b->id) - (a->id > b->id);
}

static const enum book_figure figures[] = {
    [BOOK_BY_SUPERFAT] = BOOK_SUPERFAT,
    [BOOK_BY_REJECTS] = BOOK_REJECTS,
    [BOOK_BY_EACH] = BOOK_EACH,
    [BOOK_BY_WINDOW] = BOOK_WINDOW,
};
static enum book_order sorted_by;

static int compare_lines(const void *one, const void *other)
{
    const struct book_line *a = one, *b = other;
    enum book_figure figure = figures[sorted_by];
    int by_name = sorted_by == BOOK_BY_RECIPE ? strcasecmp(a->name, b->name) : 0;

    if (by_name != 0)
        return by_name;
    if (sorted_by > BOOK_BY_RECIPE && (a->figure[figure] < b->figure[figure] || a->figure[figure] > b->figure[figure]))
        return a->figure[figure] < b->figure[figure] ? -1 : 1;
    return by_age(a, b);
}

/* What the filter and order should come to, from all lines by their own look-up. */
static void expect(struct booked *booked, const struct book_filter *filter, enum book_order order, struct list *list)
{
    list->n = 0;
    for (int64_t id = 1; id <= ROWS; id++) {
        struct book_line line;

        booked_ok(booked, book_line(booked->store, id, &line, &booked->error));
        if (line.started_s < filter->from_s || (filter->before_s > 0 && line.started_s >= filter->before_s))
            continue;
        if (filter->counted_only && (line.left_out || line.outcome == BOOK_RUNNING || line.outcome == BOOK_SET_ASIDE))
            continue;
        if (order > BOOK_BY_RECIPE && isnan(line.figure[figures[order]]))
            continue;
        list->line[list->n++] = line;
    }
    sorted_by = order;
    qsort(list->line, (size_t)list->n, sizeof list->line[0], compare_lines);
}

static void walk(struct booked *booked, const struct book_filter *filter, enum book_order order, bool backwards,
                 struct list *list)
{
    int before;

    list->n = 0;
    do {
        const struct book_line *last = list->n > 0 ? &list->line[list->n - 1] : NULL;
        struct book_line beyond;

        if (last)
            beyond = *last;
        before = list->n;
        booked_ok(booked, book_page(booked->store, filter, order, last ? &beyond : NULL, backwards, PAGE, add_line,
                                    list, &booked->error));
        assert_true(list->n - before <= PAGE);
    } while (list->n - before == PAGE);
}

static void pages_are(struct booked *booked, const struct book_filter *filter, enum book_order order)
{
    struct list *expected = calloc(1, sizeof *expected), *walked = calloc(1, sizeof *walked);

    assert_non_null(expected);
    assert_non_null(walked);
    expect(booked, filter, order, expected);
    assert_true(expected->n > 2 * PAGE);
    for (int backwards = 0; backwards < 2; backwards++) {
        walk(booked, filter, order, backwards, walked);
        assert_int_equal(walked->n, expected->n);
        for (int i = 0; i < walked->n; i++)
            assert_int_equal(walked->line[i].id, expected->line[backwards ? walked->n - 1 - i : i].id);
    }
    free(expected);
    free(walked);
}

static void pages_in_every_order_come_to_the_sorted_list_on_and_back(void **state)
{
    struct booked *booked = *state;
    const struct book_filter all = {0};
    struct book_filter some = {.from_s = FIRST_S + 20 * DAY_S, .before_s = FIRST_S + 120 * DAY_S};

    fill(booked);
    for (enum book_order order = BOOK_NEWEST; order < BOOK_ORDERS; order++) {
        pages_are(booked, &all, order);
        pages_are(booked, &some, order);
    }
    some.counted_only = true;
    pages_are(booked, &some, BOOK_NEWEST);
    assert_int_equal(booked_unscanned(booked, SQL_BOOK_NEWEST, SQL_BOOK_BY_WINDOW_BACK), 14);
}

static void a_batch_that_is_counted_is_one_that_a_page_has(void **state)
{
    struct booked *booked = *state;
    struct book_filter filter = {.from_s = FIRST_S + 20 * DAY_S, .before_s = FIRST_S + 120 * DAY_S};
    struct list *list = calloc(1, sizeof *list);
    int n;

    assert_non_null(list);
    fill(booked);
    for (int counted = 0; counted < 2; counted++) {
        filter.counted_only = counted;
        expect(booked, &filter, BOOK_NEWEST, list);
        booked_ok(booked, book_count(booked->store, &filter, ROWS, &n, &booked->error));
        assert_int_equal(n, list->n);
        booked_ok(booked, book_count(booked->store, &filter, 10, &n, &booked->error));
        assert_int_equal(n, 10);
    }
    free(list);
}

static bool refuse_second(void *context, const struct book_line *line)
{
    (void)line;
    return ++*(int *)context < 2;
}

static void a_page_stops_where_it_is_told_to(void **state)
{
    struct booked *booked = *state;
    int seen = 0;

    fill(booked);
    booked_ok(booked, book_page(booked->store, &(struct book_filter){0}, BOOK_BY_RECIPE, NULL, false, PAGE,
                                refuse_second, &seen, &booked->error));
    assert_int_equal(seen, 2);
}

static void what_counts_is_listed_from_the_newest_only(void **state)
{
    struct booked *booked = *state;
    const struct book_filter words = {.terms = 1, .term = {{.text = "rose"}}}, counted = {.counted_only = true},
                             nothing = {.terms = 1, .term = {{.text = "--"}}};
    struct list *list = calloc(1, sizeof *list);

    assert_non_null(list);
    assert_int_equal(book_page(booked->store, &words, BOOK_BY_EACH, NULL, false, 1, add_line, list, &booked->error),
                     LW_INVALID);
    assert_int_equal(book_page(booked->store, &counted, BOOK_BY_EACH, NULL, false, 1, add_line, list, &booked->error),
                     LW_INVALID);
    booked_ok(booked, book_page(booked->store, &nothing, BOOK_BY_EACH, NULL, false, 1, add_line, list, &booked->error));
    free(list);
}

/* ---- names */

static bool join_name(void *context, const char *name)
{
    text_add(context, ROWS, "%s,", name);
    return true;
}

static void names_are(struct booked *booked, enum book_in in, const char *expected)
{
    char names[ROWS] = "";

    booked_ok(booked, book_names(booked->store, in, 10, join_name, names, &booked->error));
    assert_string_equal(names, expected);
}

static void names_to_ask_for_are_those_of_batches_and_their_recipes(void **state)
{
    static const char *const names[] = {"Quince Orchard", "Hedge Rose", "Quince Orchard", "Blossoms"};
    struct booked *booked = *state;

    names_are(booked, BOOK_IN_RECIPE, "");
    names_are(booked, BOOK_IN_COLOURANT, "");
    names_are(booked, BOOK_IN_FRAGRANCE, "");
    for (int i = 0; i < 4; i++)
        booked_write(booked, &(struct book_row){.batch_id = booked_batch(booked, names[i], FIRST_S)}, names[i], "");
    names_are(booked, BOOK_IN_RECIPE, "Blossoms,Hedge Rose,Quince Orchard,");
    names_are(booked, BOOK_IN_COLOURANT, "Moss,pink clay,");
    names_are(booked, BOOK_IN_FRAGRANCE, "Lavender,vetiver,");
    assert_int_equal(book_names(booked->store, BOOK_IN_DAY, 1, join_name, NULL, &booked->error), LW_INVALID);
    scratch_verify(booked->store);
}

/* What is thought to be its batch cannot be another's or none. */
static void a_row_of_no_batch_is_refused_by_the_tables(void **state)
{
    static const char *const wrong[] = {
        "UPDATE book SET batch_id = batch_id + 16777216",
        "UPDATE book SET batch_id = 2, place = place + 1",
        "INSERT INTO book_pieces SELECT 2, position, kind, part, class, first_time, counted, good, rejects, made, "
        "each_g,"
        " within_squares, within_degrees FROM book_pieces",
        "INSERT INTO book_due VALUES (2)",
        "DELETE FROM book",
    };
    struct booked *booked = *state;
    struct book_row row = booked_row(booked_batch(booked, "Hedge Rose", FIRST_S));

    row.kinds = 1;
    row.pieces[0] = some_pieces("blossom", "petals");
    booked_write(booked, &row, "Hedge Rose", "");
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        if (sqlite3_exec(booked->store->db, wrong[i], NULL, NULL, NULL) != SQLITE_CONSTRAINT_FOREIGNKEY &&
            sqlite3_extended_errcode(booked->store->db) != SQLITE_CONSTRAINT_CHECK)
            fail_msg("%s: %s", wrong[i], sqlite3_errmsg(booked->store->db));
    scratch_verify(booked->store);
}

static void keep_finding(void *context, const char *sentence)
{
    text_copy(context, ROWS, sentence);
}

/* A text changed behind the index, and one that the index has lost. */
static void words_that_are_not_those_of_the_batch_are_a_finding(void **state)
{
    static const char *const damage[][2] = {
        {"UPDATE book_text SET said = 'moss'", "UPDATE book_text SET said = 'clay'"},
        {"INSERT INTO book_words (book_words) VALUES ('delete-all')",
         "INSERT INTO book_words (book_words) VALUES ('rebuild')"},
    };
    struct booked *booked = *state;

    booked_write(booked, &(struct book_row){.batch_id = booked_batch(booked, "Hedge Rose", FIRST_S)}, "Hedge Rose",
                 "clay");
    scratch_verify(booked->store);
    for (size_t i = 0; i < sizeof damage / sizeof damage[0]; i++) {
        char sentence[ROWS] = "";
        int found = 0;

        assert_int_equal(sqlite3_exec(booked->store->db, damage[i][0], NULL, NULL, NULL), SQLITE_OK);
        booked_ok(booked, store_verify(booked->store, keep_finding, sentence, &found, &booked->error));
        assert_int_equal(found, 1);
        assert_non_null(strstr(sentence, "cannot be found by their words"));
        assert_int_equal(sqlite3_exec(booked->store->db, damage[i][1], NULL, NULL, NULL), SQLITE_OK);
        scratch_verify(booked->store);
    }
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, booked_setup, booked_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_batch_is_due_from_its_beginning_and_again_with_each_event),
        TEST(a_row_of_a_record_that_has_grown_since_leaves_the_batch_due),
        TEST(only_so_many_are_due_at_once_the_oldest_first),
        TEST(what_is_not_in_the_store_is_said),
        TEST(a_line_is_the_batch_and_its_row),
        TEST(each_figure_is_in_the_column_of_its_name),
        TEST(pieces_of_batches_that_count_come_newest_first),
        TEST(pages_in_every_order_come_to_the_sorted_list_on_and_back),
        TEST(a_batch_that_is_counted_is_one_that_a_page_has),
        TEST(a_page_stops_where_it_is_told_to),
        TEST(what_counts_is_listed_from_the_newest_only),
        TEST(names_to_ask_for_are_those_of_batches_and_their_recipes),
        TEST(a_row_of_no_batch_is_refused_by_the_tables),
        TEST(words_that_are_not_those_of_the_batch_are_a_finding),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
