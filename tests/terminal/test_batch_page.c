/* test_batch_page.c - one batch of the book by keys, on the real program with the demo's two years of batches: its record, its point in a
 * plot, made again, weighed while it cures, tested, released. Figures are tested elsewhere; here they are read off the screen.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <math.h>
#include <sqlite3.h>

#include "terminal/workbench.h"

enum { ROW_BYTES = 1024, FIRST_ROW = 3, NUMBER_COL = 13, NUMBER_BYTES = 7 };

/* A batch of the demo that was made, cut, and weighed since, and on whose outcome nothing is said yet. */
#define CURING "4/outcome:made oat<Enter>"

/* A key that is not another press of the one before: a click on nothing stands between. */
static void press(struct driver *driver, const char *key)
{
    assert_true(driver_click(driver, 0, 0));
    keys(driver, key);
}

static void row_of(struct driver *driver, int row, char out[ROW_BYTES])
{
    driver_row(driver, row, out, ROW_BYTES);
}

/* The number in a row of the list. */
static void number_in(struct driver *driver, int row, char out[NUMBER_BYTES])
{
    char line[ROW_BYTES];

    row_of(driver, row, line);
    assert_true(strlen(line) > NUMBER_COL + NUMBER_BYTES);
    snprintf(out, NUMBER_BYTES, "%.6s", line + NUMBER_COL);
}

static void a_record_shows_all_of_a_batch_and_leads_back_to_its_line(void **state)
{
    struct driver *driver = open_at(*state, &history);
    char line[ROW_BYTES], number[NUMBER_BYTES];

    keys(driver, "4<PgDn><PgDn><Down>");
    number_in(driver, 10, number);
    keys(driver, "/blossoms outcome:released<Enter><Down><Down><Enter>");
    sees(driver, "Batches > ");
    sees(driver, "superfat as weighed");
    sees(driver, "Minutes from combining");
    keys(driver, "<Tab>");
    sees(driver, "quince blossom:");
    keys(driver, "<End>");
    sees(driver, "finished");
    keys(driver, "<Esc>");
    row_of(driver, FIRST_ROW + 2, line);
    assert_int_equal(line[0], '>');
    leave(driver);
}

/* What stands in the line gives the figure that stands under it, but for the rounding of its three masses, 0.005 g each. */
static void a_mass_a_piece_can_be_reckoned_again(void **state)
{
    struct driver *driver = open_at(*state, &history);
    char row[ROW_BYTES], figure[ROW_BYTES];
    double filled, lost, left, each;
    int at = 0, made = 0;

    keys(driver, "4/24-001<Enter><Enter>");
    sees(driver, "petals: (");
    assert_true(driver_find(driver, "petals: (", &at, NULL));
    row_of(driver, at, row);
    assert_int_equal(sscanf(row, " petals: (%lf filled - %lf cup and squeeze - %lf left) / %d made = %lf g", &filled,
                            &lost, &left, &made, &each),
                     5);
    assert_true(fabs((filled - lost - left) / made - each) <= 0.005 + 0.015 / made);
    assert_true(driver_find(driver, "mass a piece", &at, NULL));
    row_of(driver, at, row);
    snprintf(figure, sizeof figure, " %.2f g ", each);
    assert_non_null(strstr(row, figure));
    leave(driver);
}

/* Nobody weighed what was left in its bags. */
static void a_mass_a_piece_that_cannot_be_told_has_no_line(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4/26-001<Enter><Enter>");
    sees(driver, "quince blossom: ");
    does_not_see(driver, "mass a piece");
    does_not_see(driver, "petals: (");
    leave(driver);
}

/* Down as often as lines are said to be below comes to the last one, which has a row of its own in view, as all have. */
static void a_record_says_how_many_lines_are_below(void **state)
{
    struct driver *driver = open_at(*state, &history);
    char row[ROW_BYTES], expected[ROW_BYTES];
    int at = 0, below = 0;

    keys(driver, "4/26-014<Enter><Enter>");
    sees(driver, "more lines");
    assert_true(driver_find(driver, "more lines", &at, NULL));
    row_of(driver, at, row);
    assert_int_equal(sscanf(row, " v %d more lines", &below), 1);
    snprintf(expected, sizeof expected, " v %d more lines", below);
    assert_string_equal(row, expected);
    for (; below > 1; below--)
        press(driver, "<Down>");
    row_of(driver, at, row);
    assert_string_equal(row, " v 1 more line");
    does_not_see(driver, "  released");
    press(driver, "<Down>");
    does_not_see(driver, "more line");
    row_of(driver, at - 1, row);
    assert_non_null(strstr(row, "  released"));
    leave(driver);
}

/* In two columns too. */
static void what_was_said_of_it_stands_whole_above_both_columns(void **state)
{
    static const struct look two_columns = {.rows = 40, .cols = 120, .history = true};
    struct driver *driver = open_at(*state, &two_columns);

    keys(driver, "4/26-015<Enter><Enter>");
    sees(driver, "on hold (White specks at the cut: ash or alkali, to be found out.)");
    sees(driver, "Yield");
    leave(driver);
}

static void why_it_differs_from_the_one_before_is_one_key(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4/madder<Enter><Enter>y");
    sees(driver, "26-025 against 25-055"); /* the two newest of that recipe */
    keys(driver, "<Esc><Esc><End><Enter>y");
    sees(driver, "no earlier batch of this recipe");
    leave(driver);
}

/* Inside of the axes, which fill the screen down to the names. */
static void is_drawn(struct driver *driver, const char *sign)
{
    char line[ROW_BYTES];

    for (int row = 2; row < 16; row++) {
        row_of(driver, row, line);
        if (strstr(line, sign))
            return;
    }
    fail_msg("not in the plot: %s", sign);
}

static void points_are_walked_and_opened(void **state)
{
    struct driver *driver = open_at(*state, &history);
    char last[ROW_BYTES], other[ROW_BYTES], number[NUMBER_BYTES];
    int row;

    keys(driver, "4p");
    sees(driver, "temperature combined, C");
    is_drawn(driver, "x");
    is_drawn(driver, "(@)");
    assert_true(driver_find(driver, "made 20", &row, NULL));
    row_of(driver, row, last);
    keys(driver, "<Left>");
    row_of(driver, row, other);
    assert_string_not_equal(last, other);
    snprintf(number, sizeof number, "%.6s", other + 1);
    keys(driver, "<Enter>");
    sees(driver, "superfat as weighed");
    sees(driver, number);
    keys(driver, "<Esc>");
    row_of(driver, row, last);
    assert_string_equal(last, other);
    keys(driver, "t");
    sees(driver, "number ");
    sees(driver, "window, min");
    snprintf(last, sizeof last, ">%s", number);
    sees(driver, last);
    keys(driver, "tx");
    sees(driver, "What goes across?");
    keys(driver, "day<Enter>");
    sees(driver, "day made");
    sees(driver, "for 100 days across");
    keys(driver, "ydensity<Enter>");
    sees(driver, "density of the batter, g/mL");
    leave(driver);
}

static void nothing_to_draw_is_said(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4/oat<Enter>pyseconds<Enter>");
    sees(driver, "None of these batches has both");
    keys(driver, "<Enter>");
    sees(driver, "There is no point to open.");
    keys(driver, "<Right>t");
    sees(driver, "None of these batches has both");
    leave(driver);
}

/* From a batch of revision 1, whose recipe was changed since: starts a batch of what that key chooses and opens its record. */
static void make_again(struct driver *driver, const char *key, const char *made_of)
{
    keys(driver, "4/24-005<Enter>n");
    sees(driver, "the revision that this batch was made of");
    keys(driver, key);
    sees(driver, "Bench > start a batch of Madder rosettes");
    sees(driver, made_of);
    press(driver, "<Enter>");
    sees(driver, "step 1 of ");
    keys(driver, "<Esc>4");
    sees(driver, "on bench");
    keys(driver, "<Enter>");
    sees(driver, "on the bench");
}

static void a_new_batch_is_made_of_the_revision_or_of_the_recipe_as_it_is(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "2/madder<Enter><Enter>");
    to_superfat(driver);
    keys(driver, "6<Enter>");
    sees(driver, "6");
    keys(driver, "<Esc>");
    make_again(driver, "r", "revision 1 of Madder rosettes, lye strength 32.0 %");
    sees(driver, "Madder rosettes, revision 1,");
    make_again(driver, "n", "the recipe as it is now (it becomes revision 2), lye strength 32.0 %");
    sees(driver, "Madder rosettes, revision 2,");
    make_again(driver, "n", "revision 2 of Madder rosettes, lye strength 32.0 %"); /* nothing was changed since */
    sees(driver, "Madder rosettes, revision 2,");
    keys(driver, "b");
    sees(driver, "step 1 of ");
    leave(driver);
}

/* Only the bars that were weighed on the first day are asked for. */
static void bars_are_weighed_one_after_the_other(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, CURING "<Enter>w");
    sees(driver, "marker bar 1 weigh now, in grams? It was");
    keys(driver, "much");
    press(driver, "<Enter>");
    sees(driver, "marker bar 1 weigh now, in grams? It was");
    keys(driver, "<C-u>0");
    press(driver, "<Enter>");
    sees(driver, "more than nothing");
    keys(driver, "<C-u>86.5<Enter>");
    sees(driver, "marker bar 2 weigh now, in grams? It was");
    keys(driver, "3 oz<Enter>");
    does_not_see(driver, "What does");
    keys(driver, "<End>");
    sees(driver, "marker bar 1: 86.5 g");
    sees(driver, "marker bar 2: 85");
    leave(driver);
}

static void a_bar_that_gained_is_asked_about(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, CURING "<Enter>w200");
    sees(driver, "a drying bar does not gain");
    keys(driver, "<Enter>");
    sees(driver, "Is 200 right?");
    keys(driver, "n");
    sees(driver, "marker bar 1 weigh now, in grams? It was");
    keys(driver, "200<Enter>y<Enter><End>");
    sees(driver, "marker bar 1: 200 g");
    leave(driver);
}

static void what_was_said_last_is_taken_back(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, CURING "<Enter>w86.5<Enter><Enter>u");
    sees(driver, "Said last, on");
    sees(driver, "marker bar 1: 86.5 g");
    keys(driver, "n<End>");
    does_not_see(driver, "(taken back)");
    keys(driver, "uy<End>");
    sees(driver, "marker bar 1: 86.5 g   (taken back)");
    leave(driver);
}

static void it_is_tested_and_released_and_its_mass_is_no_label_before_that(void **state)
{
    const struct look tall = {.rows = 50, .cols = 80, .history = true};
    struct driver *driver = open_at(*state, &tall);

    keys(driver, CURING "<Enter>");
    sees(driver, "not for a label before");
    keys(driver, "or");
    sees(driver, "No test for free alkali is on record");
    press(driver, "<Esc>");
    keys(driver, "t1fine and mild<Enter>");
    sees(driver, "tongue test: as it should be, fine and mild");
    keys(driver, "or");
    sees(driver, "days old; the usual least is");
    press(driver, "<Enter>");
    sees(driver, "A reason is wanted");
    keys(driver, "for ourselves<Enter>");
    sees(driver, "released (for ourselves)");
    sees(driver, ": the mass for the label");
    does_not_see(driver, "not for a label before");
    keys(driver, "oh");
    sees(driver, "Why?");
    keys(driver, "white specks<Enter>");
    sees(driver, "on hold (white specks)");
    sees(driver, "not for a label before");
    leave(driver);
}

static void what_is_measured_afterwards_is_kept(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, CURING "<Enter>m");
    sees(driver, "What was measured?");
    keys(driver, "198");
    keys(driver, "<Esc>");
    keys(driver, "m119.5<Enter>");
    sees(driver, "Recorded; it counts for what is learned.");
    keys(driver, "m2");
    sees(driver, "left in the bags");
    keys(driver, "30<Enter>");
    sees(driver, "In how many of them together?");
    keys(driver, "3<Enter>");
    sees(driver, "Recorded; it counts for what is learned.");
    keys(driver, "m495<Enter>");
    sees(driver, "In how many mL?");
    keys(driver, "100<Enter>");
    sees(driver, "Recorded; it counts for what is learned.");
    keys(driver, "i<Enter>");
    sees(driver, "A note wants a few words.");
    keys(driver, "wrapped in linen<Enter><End>");
    sees(driver, "30 g left in 3 bags");
    sees(driver, "95 g of batter in 100 mL");
    sees(driver, "note: wrapped in linen");
    leave(driver);
}

static void what_cannot_be_done_says_why(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "4<Enter>w");
    sees(driver, "It was not cut into bars");
    press(driver, "o");
    sees(driver, "not finished yet");
    press(driver, "l");
    sees(driver, "not finished yet");
    keys(driver, "<Esc>/outcome:released<Enter><Enter>b");
    sees(driver, "no longer on the bench");
    press(driver, "Z");
    sees(driver, "That key does nothing here");
    leave(driver);
}

static void a_click_chooses(void **state)
{
    struct driver *driver = open_at(*state, &history);
    char line[ROW_BYTES];

    keys(driver, "4");
    sees(driver, ", newest first");
    assert_true(driver_click(driver, FIRST_ROW + 4, 20));
    row_of(driver, FIRST_ROW + 4, line);
    assert_int_equal(line[0], '>');
    leave(driver);
}

static void an_empty_book_says_how_it_fills(void **state)
{
    struct driver *driver = open_at(*state, &usual);

    keys(driver, "4");
    sees(driver, "No batch yet.");
    keys(driver, "<Enter>");
    sees(driver, "no batch");
    keys(driver, "pt<Enter>");
    sees(driver, "There is no point to open.");
    keys(driver, "<Esc>L");
    sees(driver, "Nothing is learned yet.");
    keys(driver, "p");
    sees(driver, "Nothing is learned yet.");
    leave(driver);
}

/* A record whose recipe is no longer a recipe: not one that the program writes. */
static void damage(const struct scratch *scratch, const char *number)
{
    char sql[ROW_BYTES];
    sqlite3 *db;

    snprintf(sql, sizeof sql,
             "DROP TRIGGER batch_frozen_update; UPDATE batch_frozen SET recipe = 'x' "
             "WHERE batch_id = (SELECT id FROM batch WHERE number = '%s');",
             number);
    assert_int_equal(sqlite3_open(scratch->path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, sql, NULL, NULL, NULL), SQLITE_OK);
    assert_int_equal(sqlite3_changes(db), 1);
    assert_int_equal(sqlite3_close(db), SQLITE_OK);
}

static void a_record_that_cannot_be_read_is_told_and_the_others_open(void **state)
{
    struct driver *driver = open_at(*state, &history);
    char number[NUMBER_BYTES];

    keys(driver, "4/outcome:made<Enter>");
    sees(driver, "made");
    number_in(driver, FIRST_ROW, number);
    leave(driver);
    damage(*state, number);
    driver = open_at(*state, &history);
    keys(driver, "4/outcome:made<Enter><Enter>");
    does_not_see(driver, "superfat as weighed");
    sees(driver, number);
    keys(driver, "<Down><Enter>");
    sees(driver, "superfat as weighed");
    leave(driver);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_record_shows_all_of_a_batch_and_leads_back_to_its_line),
        TEST(a_mass_a_piece_can_be_reckoned_again),
        TEST(a_mass_a_piece_that_cannot_be_told_has_no_line),
        TEST(a_record_says_how_many_lines_are_below),
        TEST(what_was_said_of_it_stands_whole_above_both_columns),
        TEST(why_it_differs_from_the_one_before_is_one_key),
        TEST(points_are_walked_and_opened),
        TEST(nothing_to_draw_is_said),
        TEST(a_new_batch_is_made_of_the_revision_or_of_the_recipe_as_it_is),
        TEST(bars_are_weighed_one_after_the_other),
        TEST(a_bar_that_gained_is_asked_about),
        TEST(what_was_said_last_is_taken_back),
        TEST(it_is_tested_and_released_and_its_mass_is_no_label_before_that),
        TEST(what_is_measured_afterwards_is_kept),
        TEST(what_cannot_be_done_says_why),
        TEST(a_click_chooses),
        TEST(an_empty_book_says_how_it_fills),
        TEST(a_record_that_cannot_be_read_is_told_and_the_others_open),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
