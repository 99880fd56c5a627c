/* test_batches.c - the book as it is worked with: find, open, compare, plot, leave out, learn, a new batch, and the cure; on the demo's
 * two years, and once more with 100,000 batches beside them. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "support/many_batches.h"
#include "terminal/workbench.h"

enum { ROW_BYTES = 1024, MANY = 100000 };

static const struct look wide = {.rows = 40, .cols = 120, .history = true};
static const struct look plain = {
    .rows = 24, .cols = 80, .history = true, .no_colour = true, .term = "vt100", .locale = "C"};

/* The first row that has the text. */
static void row_with(struct driver *driver, const char *text, char out[ROW_BYTES])
{
    int row;

    sees(driver, text);
    assert_true(driver_find(driver, text, &row, NULL));
    driver_row(driver, row, out, ROW_BYTES);
}

static void has(const char *row, const char *text)
{
    if (!strstr(row, text))
        fail_msg("\"%s\" does not have \"%s\"", row, text);
}

static void batches_are_found_by_words_dates_and_what_they_were_made_of(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4");
    sees(driver, "126, newest first");
    keys(driver, "/recipe:bloss");
    sees(driver, "30 of 126");
    keys(driver, "<Enter><Esc>");
    keys(driver, "/outcome:rejected<Enter>");
    sees(driver, "1 of 126");
    sees(driver, "Harbour Kitchen");
    keys(driver, "<Esc>");
    keys(driver, "/fragrance:clove seized<Enter>"); /* of a problem that was recorded */
    sees(driver, "1 of 126");
    sees(driver, "aside");
    keys(driver, "<Esc>");
    keys(driver, "/nettle \"<Enter>");
    sees(driver, "No batch has all of");
    leave(driver);
}

/* A batch whose number is typed is at hand, though a newer one that holds its pieces is found too. */
static void what_is_typed_wrongly_is_told_and_a_number_is_gone_to(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4/from:banana");
    sees(driver, "\"from:banana\" names no day; write 2026, 2026-03 or 2026-03-14");
    keys(driver, "<Enter>");
    sees(driver, "names no day");
    keys(driver, "<Esc>");
    does_not_see(driver, "names no day");
    keys(driver, "/colour:rose");
    sees(driver, "before a colon stand recipe, colourant");
    keys(driver, "<Esc>/26-017<Enter>");
    sees(driver, "3 of 126"); /* the two above it hold its blossoms */
    keys(driver, "<Enter>");
    sees(driver, "Batches > 26-017");
    leave(driver);
}

/* At 80 columns and without colour: the row of the batch with that number ends with the whole word. */
static void an_outcome_is_a_whole_word_in_the_narrowest_window(void **state)
{
    static const char *const rows[][3] = {{"4", "26-027", " on bench"},
                                          {"/outcome:released orchard<Enter>", "26-018", " released"},
                                          {"<Esc>/outcome:hold<Enter>", "26-015", " on hold"},
                                          {"<Esc>/outcome:rejected<Enter>", "Harbour Kitchen", " rejected"},
                                          {"<Esc>/outcome:\"set aside\"<Enter>", ">", " aside"},
                                          {"<Esc>/outcome:made<Enter>", "26-024", " made"}};
    struct driver *driver = open_at(*state, &plain);
    char row[ROW_BYTES];

    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const char *word = rows[i][2];

        keys(driver, rows[i][0]);
        row_with(driver, rows[i][1], row);
        assert_true(strlen(row) > strlen(word));
        assert_string_equal(row + strlen(row) - strlen(word), word);
    }
    leave(driver);
}

static void a_list_of_words_helps_to_find(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4fc"); /* a colourant */
    sees(driver, "Which colourant?");
    keys(driver, "turm<Enter>");
    sees(driver, "colourant:\"");
    sees(driver, "8 of 126");
    sees(driver, "Turmeric Lane");
    leave(driver);
}

static void orders_are_offered_one_after_the_other(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4/blossoms<Enter>");
    keys(driver, "sssss");
    sees(driver, "shortest window");
    keys(driver, "<Home>");
    sees(driver, "12  released"); /* the least of all windows, in minutes */
    keys(driver, "s");
    sees(driver, "newest first");
    leave(driver);
}

static void a_record_shows_planned_against_actual_and_what_came_of_it(void **state)
{
    struct driver *driver = open_at(*state, &wide);
    char row[ROW_BYTES];

    keys(driver, "4/blossoms<Enter><Down><Down><Enter>");
    row_with(driver, "superfat as weighed", row);
    has(row, "asked 5.0 %");
    sees(driver, "quince blossom:");
    sees(driver, "Minutes from combining");
    sees(driver, "Planned against actual");
    row_with(driver, "NaOH into a dry cup", row);
    has(row, "26.31");
    keys(driver, "<End>");
    sees(driver, "finished");
    leave(driver);
}

/* The bar of the book: why did that one set so fast, and how many grams does a blossom really take? Four keys for a
 * batch in view. */
static void two_questions_take_few_keys(void **state)
{
    struct driver *driver = open_at(*state, &history);
    char row[ROW_BYTES];

    keys(driver, "4<Down>y"); /* the book, the batch, why */
    sees(driver, "is expected. 121 of your batches speak");
    keys(driver, "L");
    row_with(driver, "quince blossom, petals: mass a piece", row);
    has(row, "2.7");
    keys(driver, "<Esc>");
    sees(driver, "rows that differ");
    leave(driver);
}

static void marked_batches_are_compared_and_a_figure_explained(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4c");
    sees(driver, "Mark two to four batches with Space first");
    keys(driver, "/blossoms<Enter><Down><Down>  c");
    sees(driver, "rows that differ");
    sees(driver, "temperature combined");
    sees(driver, "combined at");
    keys(driver, "fsuperf<Enter>");
    sees(driver, "superfat as weighed:");
    keys(driver, "a");
    sees(driver, "all rows");
    keys(driver, "<Right><Enter>");
    sees(driver, "Batches > 26-013");
    leave(driver);
}

/* At 80 columns each head names its batch, "at least" has room as a sign, and what is cut stands whole below. */
static void four_batches_have_room_side_by_side(void **state)
{
    struct driver *driver = open_at(*state, &history);
    char row[ROW_BYTES];

    keys(driver, "4    c");
    sees(driver, "Batches > 4 side by side");
    row_with(driver, "rows that differ", row);
    has(row, " 26-027 ");
    has(row, " 26-026 ");
    has(row, " 26-025 ");
    has(row, " 26-024");
    row_with(driver, "recipe  ", row);
    assert_null(strstr(row, "Blossoms and leaves")); /* has no room there */
    keys(driver, "<Down><Up>");
    sees(driver, "recipe: 26-027 Quince Orchard base; 26-026 Blossoms and leaves; 26-025 Madder");
    sees(driver, "rosettes; 26-024 Oat and Linen.");
    keys(driver, "<PgDn><PgDn>");
    row_with(driver, "workable until", row);
    has(row, " - ");
    has(row, " >= 88 min ");
    has(row, " >= 123 min ");
    has(row, " >= 14 min");
    leave(driver);
}

/* At 80 columns; a wider window has room for more of them. */
static void the_last_line_has_the_usual_keys_and_help_has_all(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4");
    sees(driver, "Enter open  / find  Space mark  c compare  y why  p plot  L learned  ? help");
    keys(driver, "?");
    sees(driver, "f          Finds by recipe");
    sees(driver, "s          Another order");
    sees(driver, "l          Leaves the batch out");
    keys(driver, "<Esc><Enter>");
    sees(driver, "Tab part  y why  w weigh  t test  o outcome  i note  m measured  n new  ? help");
    keys(driver, "?");
    sees(driver, "u          Takes back");
    sees(driver, "b          Goes to the batch on the bench");
    sees(driver, "l          Leaves it out");
    leave(driver);
    driver = open_at(*state, &wide);
    keys(driver, "4");
    sees(driver, "f find by  s order  l leave out");
    keys(driver, "<Enter>");
    sees(driver, "u take back  b bench");
    leave(driver);
}

/* As the tour of Today says it: Space on 26-021, the second, and on 25-045, nine below. */
static void the_two_of_the_tour_differ_by_strength_and_temperature(void **state)
{
    struct driver *driver = open_at(*state, &history);

    sees(driver, "Space on 26-021 and 25-045");
    keys(driver, "4/blossoms<Enter><Down> ");
    sees(driver, "*2026-04-29 26-021");
    keys(driver, "<Down><Down><Down><Down><Down><Down><Down><Down> "); /* Space went one down */
    sees(driver, "2 marked");
    keys(driver, "c");
    sees(driver, "window: 26-021 51 min, 25-045 20 min");
    sees(driver, "combined at");
    sees(driver, "lye strength 31.0 % against 36.0 %");
    leave(driver);
}

/* Two that no words find together. */
static void marks_outlast_the_filter(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4/26-021<Enter> <Esc>");
    sees(driver, "1 marked   126");
    keys(driver, "/25-045<Enter> <Esc>");
    sees(driver, "2 marked   126");
    keys(driver, "c");
    sees(driver, "lye strength 31.0 % against 36.0 %");
    keys(driver, "<Esc><Esc>");
    does_not_see(driver, "marked");
    leave(driver);
}

static void no_more_than_four_are_marked(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4    ");
    sees(driver, "4 marked");
    keys(driver, " ");
    sees(driver, "4 are marked");
    keys(driver, "<Esc>");
    does_not_see(driver, "marked");
    leave(driver);
}

static void a_plot_names_its_points_and_can_be_read_as_text(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4/blossoms<Enter>p");
    sees(driver, "temperature combined, C");
    sees(driver, "28 points, 10 of them at least that (^), 2 do not count (x)");
    sees(driver, " off.");
    sees(driver, ", too low by the ^.");
    keys(driver, "ymass a piece<Enter>");
    sees(driver, "mass a piece, g");
    keys(driver, "xmass a piece<Enter>");
    sees(driver, "The mass a piece is on the other axis already");
    sees(driver, "temperature combined, C");
    keys(driver, "xday<Enter>");
    sees(driver, "day made");
    keys(driver, "t<Home>");
    sees(driver, "24-0");
    keys(driver, "<Enter>");
    sees(driver, "Batches > 24-0");
    leave(driver);
}

static void a_plot_needs_no_utf8_and_no_colour(void **state)
{
    struct driver *driver = open_at(*state, &plain);

    keys(driver, "4/blossoms<Enter>p");
    sees(driver, "temperature combined, C");
    sees(driver, "*");
    sees(driver, "+---");
    keys(driver, "<Esc>");
    keys(driver, "<Enter>");
    sees(driver, "superfat as weighed");
    keys(driver, "<End>"); /* which a vt100 has not */
    sees(driver, "left in the bag");
    sees(driver, "Batches > 26-026");
    leave(driver);
}

static void what_is_left_out_teaches_no_more_until_it_counts_again(void **state)
{
    struct driver *driver = open_at(*state, &history);
    char before[ROW_BYTES], after[ROW_BYTES];

    keys(driver, "4L");
    row_with(driver, "quince blossom, petals: mass a piece", before);
    keys(driver, "<Esc>");
    keys(driver, "/recipe:blossoms 26-017<Enter>l");
    sees(driver, "Why?");
    keys(driver, "<Enter>"); /* without a reason nothing is done */
    sees(driver, "A reason is wanted");
    keys(driver, "the scale was new<Enter>");
    sees(driver, "teaches nothing from here on");
    sees(driver, "released x");
    keys(driver, "<Esc>");
    keys(driver, "L");
    row_with(driver, "quince blossom, petals: mass a piece", after);
    assert_string_not_equal(before, after);
    keys(driver, "<Esc>");
    keys(driver, "/recipe:blossoms 26-017<Enter>l");
    sees(driver, "counts again");
    keys(driver, "<Esc>");
    keys(driver, "L");
    row_with(driver, "quince blossom, petals: mass a piece", after);
    assert_string_equal(before, after);
    leave(driver);
}

static void what_was_learned_leads_to_its_batches_and_their_plot(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4Lp");
    sees(driver, "day made");
    keys(driver, "<Esc>");
    keys(driver, "<Enter>");
    sees(driver, "/ counts:yes \"rosette\"");
    leave(driver);
}

static void a_new_batch_is_made_of_the_old_revision_or_of_the_recipe(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4/24-001<Enter>n");
    sees(driver, "the revision that this batch was made of");
    keys(driver, "r");
    sees(driver, "Bench > start a batch");
    keys(driver, "<Esc>");
    keys(driver, "n<Enter>");
    sees(driver, "Bench > start a batch");
    leave(driver);
}

static void bars_are_weighed_tested_and_released(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4/26-023<Enter><Enter>w");
    sees(driver, "What does marker bar 1 weigh");
    keys(driver, "a lot<Enter>");
    sees(driver, "marker bar 1 weigh");
    keys(driver, "<BS><BS><BS><BS><BS>88.4<Enter>");
    sees(driver, "What does marker bar 2 weigh");
    keys(driver, "91.2<Enter>");
    sees(driver, "Marker bar 2 is weighed."); /* two were weighed on the first day, so there is no third to ask for */
    keys(driver, "o<Enter>");
    sees(driver, "No test for free alkali is on record");
    keys(driver, "<Esc>");
    keys(driver, "t1<Enter>");
    sees(driver, "The test is recorded.");
    keys(driver, "o<Enter>");
    sees(driver, "days old");
    keys(driver, "it goes to nobody<Enter>");
    sees(driver, "Released.");
    sees(driver, "released (it goes to nobody)");
    leave(driver);
}

/* The demo's bench: 31 good, batter for about 9 more, 13 to go. */
static void the_demo_opens_in_the_middle_of_its_piping(void **state)
{
    struct driver *driver = open_at(*state, &history);

    sees(driver, "workable 37:");
    keys(driver, "<Enter>");
    sees(driver, "31 good");
    sees(driver, "13 to go");
    sees(driver, "9 more");
    keys(driver, "n");
    sees(driver, "BEFORE THE FIRST LYE"); /* the base that waits stands at its alkali */
    leave(driver);
}

static void today_leads_to_what_is_due(void **state)
{
    struct driver *driver = open_at(*state, &history);

    sees(driver, "Cures");
    sees(driver, "Findings that wait");
    keys(driver, "<Down><Down><Enter>");
    sees(driver, "on hold (White specks");
    leave(driver);
}

/* Too long for its line, which leaves out the middle, it stands whole below; Enter goes on to what to do about it. */
static void a_finding_that_waits_is_told_whole_and_leads_to_its_recipe(void **state)
{
    struct driver *driver = open_at(*state, &history);
    char row[ROW_BYTES];

    does_not_see(driver, "is under");
    for (int i = 0; i < 5; i++)
        keys(driver, "<Down>");
    row_with(driver, ">", row);
    has(row, "26-023  Hedge Rose base"); /* the last of the cures, which come to view where the selection is */
    keys(driver, "<Down>");
    row_with(driver, ">", row);
    has(row, "Quince Orchard base");
    sees(driver, "Quince Orchard base: Iron oxide red in portion clay pink: 0.034 g is under");
    sees(driver, "five divisions of the scale, 0.01 g each.");
    keys(driver, "<Up>"); /* to the cures, and the last of them */
    does_not_see(driver, "is under");
    row_with(driver, ">", row);
    has(row, "26-023  Hedge Rose base");
    keys(driver, "<Down><Enter>");
    sees(driver, "Recipes > Quince Orchard base");
    row_with(driver, ">caution", row);
    has(row, "Iron oxide red");
    sees(driver, "Mix 1.00 g into 9.00 g of oil");
    keys(driver, "<Enter>"); /* to what it is about */
    sees(driver, ">clay pink");
    leave(driver);
}

static void a_batch_that_is_finished_stands_in_the_book_at_once(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "<Down><Enter>");
    sees(driver, "BEFORE THE FIRST LYE");
    keys(driver, "<Esc>");
    keys(driver, "4/orchard<Enter><Enter>");
    sees(driver, "on the bench");
    keys(driver, "inoted from the book<Enter>");
    sees(driver, "Noted.");
    keys(driver, "<Esc>");
    keys(driver, "<Esc>");
    keys(driver, "/noted from<Enter>");
    sees(driver, "1 of 126");
    leave(driver);
}

/* ---- 100,000 batches beside those of the demo, older than all of them */

static void add_many(const struct scratch *scratch)
{
    struct store_options options = {.how = STORE_EXISTING};
    struct lw_error error = {""};
    struct store *store;

    if (store_open(scratch->path, &options, &store, &error) != LW_OK || many_batches(store, 1, MANY, &error) != LW_OK ||
        store_close(store, &error) != LW_OK)
        fail_msg("%s", error.text);
}

static void a_hundred_thousand_batches_are_no_hindrance(void **state)
{
    struct driver *driver = open_at(*state, &history); /* makes the demo's store */

    leave(driver);
    add_many(*state);
    driver = open_at(*state, &history);
    keys(driver, "4");
    sees(driver, "1000+, newest first");
    for (int i = 0; i < 30; i++) /* on and on, beyond what is in memory */
        keys(driver, "<PgDn>");
    sees(driver, ">");
    keys(driver, "<End>");
    sees(driver, "M1 ");
    keys(driver, "?<Esc>"); /* the list is read again, and stays where it is */
    sees(driver, "> 2001-09-09 M1 ");
    keys(driver, "<PgUp><PgUp><Home>");
    sees(driver, "26-0");
    keys(driver, "/spearmint indigo");
    sees(driver, "of 1000+");
    keys(driver, "<Enter><Down> <Down> c");
    sees(driver, "cannot be read"); /* their records are empty; the sentence says so, and nothing is lost */
    keys(driver, "<Esc>");
    keys(driver, "<Esc>");
    keys(driver, "sss");
    sees(driver, "fewest rejects");
    keys(driver, "ss");
    keys(driver, "<End>");
    sees(driver, "shortest window");
    keys(driver, "s");
    keys(driver, "p");
    sees(driver, "only the newest 4000");
    keys(driver, "<Esc>");
    keys(driver, "/blossoms<Enter><Down><Down><Enter>");
    sees(driver, "superfat as weighed");
    keys(driver, "y");
    sees(driver, "rows that differ");
    leave(driver);
}

/* A command on those records, until it has ended well; what it showed, on the standard error too, is left on the screen. */
static struct driver *command_on(const struct scratch *scratch, const char *words)
{
    const char *const argv[] = {
        "/bin/sh", "-c", "\"$0\" --db \"$1\" batches \"$2\" 2>&1", getenv("LYEWAY"), scratch->path, words, NULL};
    struct driver *driver = driver_open(argv, &(struct driver_options){.rows = 24, .cols = 80});
    int status = -1;

    assert_non_null(driver);
    assert_true(driver_ended(driver, 20000, &status));
    assert_int_equal(status, 0);
    return driver;
}

/* As after a migration, every batch has yet to be read into the book: what takes time is shown, once. */
static void many_old_batches_are_read_with_a_percentage(void **state)
{
    struct scratch *scratch = *state;
    struct driver *driver = open_at(scratch, &history);
    sqlite3 *db;

    leave(driver);
    assert_int_equal(sqlite3_open(scratch->path, &db), SQLITE_OK);
    assert_int_equal(
        sqlite3_exec(db, "DELETE FROM book_due; INSERT INTO book_due SELECT batch_id FROM book", NULL, NULL, NULL),
        SQLITE_OK);
    sqlite3_close(db);
    driver = command_on(scratch, "from:2030");
    sees(driver, "Reading what was made into the book: 100 %");
    driver_close(driver);
    driver = command_on(scratch, "from:2030");
    does_not_see(driver, "Reading");
    driver_close(driver);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(batches_are_found_by_words_dates_and_what_they_were_made_of),
        TEST(what_is_typed_wrongly_is_told_and_a_number_is_gone_to),
        TEST(an_outcome_is_a_whole_word_in_the_narrowest_window),
        TEST(a_list_of_words_helps_to_find),
        TEST(orders_are_offered_one_after_the_other),
        TEST(a_record_shows_planned_against_actual_and_what_came_of_it),
        TEST(two_questions_take_few_keys),
        TEST(marked_batches_are_compared_and_a_figure_explained),
        TEST(four_batches_have_room_side_by_side),
        TEST(the_last_line_has_the_usual_keys_and_help_has_all),
        TEST(the_two_of_the_tour_differ_by_strength_and_temperature),
        TEST(marks_outlast_the_filter),
        TEST(no_more_than_four_are_marked),
        TEST(a_plot_names_its_points_and_can_be_read_as_text),
        TEST(a_plot_needs_no_utf8_and_no_colour),
        TEST(what_is_left_out_teaches_no_more_until_it_counts_again),
        TEST(what_was_learned_leads_to_its_batches_and_their_plot),
        TEST(a_new_batch_is_made_of_the_old_revision_or_of_the_recipe),
        TEST(bars_are_weighed_tested_and_released),
        TEST(the_demo_opens_in_the_middle_of_its_piping),
        TEST(today_leads_to_what_is_due),
        TEST(a_finding_that_waits_is_told_whole_and_leads_to_its_recipe),
        TEST(a_batch_that_is_finished_stands_in_the_book_at_once),
        TEST(many_old_batches_are_read_with_a_percentage),
        TEST(a_hundred_thousand_batches_are_no_hindrance),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
