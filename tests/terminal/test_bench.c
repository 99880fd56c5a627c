/* test_bench.c - the bench as it is worked with in gloves: a batch made by keys, on the real program. What stands on the screen
 * is read back; the targets that are typed are those that it shows, since they are tested elsewhere.
 */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "terminal/workbench.h"

enum { ROW_BYTES = 1024, STEPS_MOST = 80, COUNT_MOST_BYTES = 200, TICK_MOST_BYTES = 40 };

static const struct look wide = {.rows = 40, .cols = 120, .demo = true};

/* Nobody's finger stays on a key: another thing in between tells that it was let go. */
static void press(struct driver *driver, const char *key)
{
    assert_true(driver_click(driver, 0, 0));
    keys(driver, key);
}

static bool shows(struct driver *driver, const char *text)
{
    return driver_find(driver, text, NULL, NULL);
}

static bool at_step(struct driver *driver, const char *title)
{
    char line[ROW_BYTES];

    driver_row(driver, 2, line, sizeof line);
    return strstr(line, title) != NULL;
}

/* The number that the scale should read, as the screen says it. */
static void target(struct driver *driver, char out[32])
{
    static const char before[] = "should read ";
    char line[ROW_BYTES];
    const char *at;
    int row;

    assert_true(driver_find(driver, before, &row, NULL));
    driver_row(driver, row, line, sizeof line);
    at = strstr(line, before) + strlen(before);
    snprintf(out, 32, "%.*s", (int)strspn(at, "0123456789."), at);
}

/* Does the step at hand as it should be, or reads the notes that stand before it. */
static void go_on(struct driver *driver)
{
    char number[32];

    if (shows(driver, "Type what it reads")) {
        target(driver, number);
        keys(driver, number);
    }
    press(driver, "<Enter>");
    if (shows(driver, "Nothing was counted") || shows(driver, "still to go. Go on"))
        press(driver, "2");
    else if (shows(driver, "type how many are good"))
        keys(driver, "0<Enter>0<Enter>");
}

static void go_to(struct driver *driver, const char *title)
{
    for (int i = 0; i < STEPS_MOST && !at_step(driver, title); i++)
        go_on(driver);
    if (at_step(driver, title))
        return;
    driver_print(driver, stderr);
    fail_msg("this step did not come: %s", title);
}

static void start(struct driver *driver, const char *filter)
{
    char typed[64];

    snprintf(typed, sizeof typed, "2/%s<Enter>b", filter);
    keys(driver, typed);
    sees(driver, "How is it to be made?");
    press(driver, "<Enter>");
    sees(driver, "step 1 of ");
}

static struct driver *begin(const struct scratch *scratch, const struct look *look, const char *filter)
{
    struct driver *driver = open_at(scratch, look);

    start(driver, filter);
    return driver;
}

static void an_empty_bench_says_how_to_start(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    keys(driver, "3");
    sees(driver, "No batch is on the bench.");
    sees(driver, "press b");
    keys(driver, "n");
    sees(driver, "No other batch is on the bench");
    leave(driver);
}

static void answer_questions(struct driver *driver)
{
    for (int i = 1; i <= 5; i++) {
        char title[32];

        snprintf(title, sizeof title, "Question %d of 5", i);
        sees(driver, title);
        press(driver, "1");
    }
}

/* Every key from the start dialog to the end is one of a number pad. */
static void a_number_pad_alone_makes_a_whole_batch(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");

    press(driver, ".");
    sees(driver, "1  Lye on somebody");
    press(driver, "1");
    sees(driver, "RINSE WITH RUNNING WATER");
    press(driver, "<Enter>");
    go_to(driver, "let it stand");
    press(driver, "3");
    sees(driver, "Stamped: 3, medium.");
    press(driver, "5");
    sees(driver, ">5 piping");
    go_to(driver, "pipe quince blossom");
    press(driver, "+");
    press(driver, "+");
    press(driver, "*");
    sees(driver, "2 good   1 reject ");
    press(driver, "/");
    sees(driver, "2 good   0 rejects");
    press(driver, "-");
    sees(driver, "1 good   0 rejects");
    keys(driver, "24");
    press(driver, "<Enter>");
    sees(driver, "So many at once?");
    press(driver, "1");
    sees(driver, "25 good");
    press(driver, ".");
    sees(driver, "Weighs what is left in the bag");
    press(driver, "1");
    keys(driver, "40");
    press(driver, "<Enter>");
    sees(driver, "left in the bag about 40 g");
    go_to(driver, "count quince blossom");
    keys(driver, "23");
    press(driver, "<Enter>");
    keys(driver, "2");
    press(driver, "<Enter>");
    sees(driver, "count leaf");
    for (int i = 0; i < STEPS_MOST && !shows(driver, "Every step is done."); i++)
        go_on(driver);
    sees(driver, "Every step is done.");
    press(driver, "<Enter>");
    answer_questions(driver);
    sees(driver, "No batch is on the bench.");
    leave(driver);
}

static void an_alkali_weighing_is_never_taken_by_enter_alone(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");
    char number[32], echo[64];

    go_to(driver, "NaOH into");
    if (shows(driver, "BEFORE THE FIRST LYE"))
        press(driver, "<Enter>");
    press(driver, "<Enter>");
    sees(driver, "Alkali is never taken as shown");
    assert_true(at_step(driver, "NaOH into"));
    target(driver, number);
    keys(driver, number);
    press(driver, "<Enter>");
    snprintf(echo, sizeof echo, "%s g: NaOH into", number);
    sees(driver, echo);
    assert_true(at_step(driver, "dissolve"));
    leave(driver);
}

static void the_notes_are_read_once_a_day_and_stand_whole_on_every_lye_step(void **state)
{
    static const struct look next_day = {.rows = 24, .cols = 80, .demo = true, .now = "LYEWAY_NOW=1780100000"};
    struct driver *driver = begin(*state, &demo, "blossoms");

    for (int i = 0; i < STEPS_MOST && !shows(driver, "BEFORE THE FIRST LYE OF THE DAY"); i++)
        go_on(driver);
    sees(driver, "BEFORE THE FIRST LYE OF THE DAY");
    press(driver, "1");
    sees(driver, "BEFORE THE FIRST LYE OF THE DAY");
    press(driver, "<Enter>");
    does_not_see(driver, "BEFORE THE FIRST LYE OF THE DAY");
    go_to(driver, "NaOH into");
    sees(driver, "Sodium and potassium hydroxide burn skin");
    sees(driver, "it sensitises some people.");
    go_to(driver, "dissolve");
    sees(driver, "it can boil up and throw hot lye");
    sees(driver, "it sensitises some people.");
    leave(driver);
    driver = open_at(*state, &demo);
    keys(driver, "3");
    sees(driver, "dissolve the alkali");
    leave(driver);
    driver = open_at(*state, &next_day);
    keys(driver, "3");
    sees(driver, "BEFORE THE FIRST LYE OF THE DAY");
    leave(driver);
}

static void a_reading_that_is_off_opens_what_can_be_done(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");
    char number[32];

    go_to(driver, "NaOH into");
    target(driver, number);
    keys(driver, number);
    keys(driver, "+3");
    press(driver, "<Enter>");
    sees(driver, "3.00 g more than it should be");
    sees(driver, "1  typed wrong: type again");
    press(driver, "1");
    sees(driver, "the scale reads [");
    assert_true(at_step(driver, "NaOH into"));
    keys(driver, number);
    keys(driver, "+3");
    press(driver, "<Enter>");
    sees(driver, "2  it is so");
    press(driver, "2");
    sees(driver, "what can be done now?");
    sees(driver, "1  Take 3.00 g of NaOH out again");
    sees(driver, "superfat is then 5.0 %");
    press(driver, "<Enter>");
    sees(driver, "Press the number of a line.");
    press(driver, "1");
    assert_true(at_step(driver, "put right: NaOH out of"));
    leave(driver);
}

/* A terminal sends a key that is held once, after a pause again, and then many times a second. The pause is what tells, so it must
 * pass here as well; its length may be anything that a keyboard has. */
static void hold(struct driver *driver, const char *key, const char *repetitions)
{
    static const struct timespec pause = {.tv_nsec = 400 * 1000 * 1000};

    press(driver, key);
    nanosleep(&pause, NULL);
    keys(driver, repetitions);
}

static void a_key_held_down_counts_one_piece(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");

    go_to(driver, "pipe quince blossom");
    hold(driver, "+", "++++++++++++++++++++++++++++++");
    sees(driver, "1 good");
    sees(driver, "A key held down counts once; let it go to press it again.");
    press(driver, "*+");
    sees(driver, "2 good   1 reject ");
    does_not_see(driver, "held down");
    leave(driver);
}

static void nothing_counted_is_asked_about_and_then_not_again(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");

    go_to(driver, "pipe quince blossom");
    press(driver, "<Enter>");
    sees(driver, "Nothing was counted");
    sees(driver, "Go on all the same?");
    press(driver, "1");
    assert_true(at_step(driver, "pipe quince blossom"));
    press(driver, "<Enter>");
    press(driver, "3");
    assert_true(at_step(driver, "pipe leaf"));
    press(driver, "*");
    press(driver, "<Enter>"); /* a reject is a count */
    sees(driver, "still to go. Go on all the same?");
    press(driver, "2");
    assert_true(at_step(driver, "chill"));
    press(driver, "<Enter>");
    assert_true(at_step(driver, "count leaf after lifting"));
    leave(driver);
}

/* Batch 26-026 of the demo has 31 good ones of 44. */
static void fewer_than_wanted_are_asked_about_and_all_that_were_wanted_are_not(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "<Enter>");
    sees(driver, "31 good   2 rejects   13 to go");
    press(driver, "<Enter>");
    sees(driver, "13 are still to go. Go on all the same?");
    press(driver, "1");
    assert_true(at_step(driver, "pipe quince blossom"));
    keys(driver, "12<Enter>");
    press(driver, "1");
    press(driver, "<Enter>");
    sees(driver, "1 is still to go. Go on all the same?");
    press(driver, "<Esc>");
    assert_true(at_step(driver, "pipe quince blossom"));
    press(driver, "+");
    sees(driver, "all that were wanted are there");
    press(driver, "<Enter>");
    assert_false(at_step(driver, "pipe quince blossom"));
    does_not_see(driver, "Go on all the same?");
    press(driver, "b");
    keys(driver, "-");
    press(driver, "<Enter>");
    press(driver, "2");
    assert_false(at_step(driver, "pipe quince blossom"));
    press(driver, "b");
    press(driver, "g"); /* a batter that is setting does not wait for an answer */
    press(driver, "<Enter>");
    does_not_see(driver, "Go on all the same?");
    assert_false(at_step(driver, "pipe quince blossom"));
    leave(driver);
}

/* What 0 g in the bag gives is none; the next one was more, and what counts is what lies on the tray. */
static void more_pieces_than_the_bag_should_give_are_said_once(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "<Enter>");
    press(driver, "+");
    does_not_see(driver, "should give");
    press(driver, "w");
    keys(driver, "0<Enter>");
    sees(driver, "left in the bag about 0 g: 0 more");
    press(driver, "+");
    sees(driver, "More than the batter weighed should give; weigh what is left (w).");
    sees(driver, "33 good");
    press(driver, "*");
    does_not_see(driver, "should give");
    press(driver, "w");
    keys(driver, "20<Enter>");
    press(driver, "+");
    does_not_see(driver, "should give");
    keys(driver, "30<Enter>");
    press(driver, "1");
    sees(driver, "64 good");
    sees(driver, "More than the batter weighed should give");
    leave(driver);
}

static void pieces_counted_only_after_lifting_are_typed(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");

    go_to(driver, "pipe quince blossom");
    press(driver, "<Enter>");
    press(driver, "2");
    go_to(driver, "count quince blossom after lifting");
    press(driver, "<Enter>");
    sees(driver, "Nothing was counted while they were piped");
    assert_true(at_step(driver, "count quince blossom"));
    keys(driver, "40<Enter>");
    sees(driver, "40 good; now type how many rejects lie beside them.");
    keys(driver, "3<Enter>");
    assert_true(at_step(driver, "count leaf"));
    leave(driver);
}

/* Of batch 26-026 of the demo 31 good ones and 2 rejects are piped. */
static void more_after_lifting_than_were_piped_are_asked_about(void **state)
{
    struct driver *driver = open_at(*state, &history);

    keys(driver, "<Enter>");
    go_to(driver, "count quince blossom after lifting");
    keys(driver, "32<Enter>");
    sees(driver, "32 good; now type how many rejects lie beside them.");
    sees(driver, "\u2588\u2588\u2588\u2588\u2588\u2588 \u2588\u2588\u2588\u2588\u2588\u2588"); /* 32 */
    keys(driver, "2<Enter>");
    sees(driver, "32 good and 2 rejects are more than the 33 that were piped.");
    press(driver, "1");
    sees(driver, "good pieces [");
    sees(driver, "\u2588\u2588\u2588\u2588\u2588\u2588   \u2588\u2588"); /* 31 again */
    keys(driver, "32<Enter>1<Enter>");                                   /* a reject looked at again is a good one */
    assert_false(at_step(driver, "count quince blossom after lifting"));
    press(driver, "-");
    keys(driver, "20<Enter>0<Enter>"); /* 13 are lost: that can be */
    assert_false(at_step(driver, "count quince blossom after lifting"));
    press(driver, "-");
    keys(driver, "33<Enter>2<Enter>");
    sees(driver, "33 good and 2 rejects are more than the 33 that were piped.");
    press(driver, "2");
    assert_false(at_step(driver, "count quince blossom after lifting"));
    keys(driver, "<Esc>4/26-026<Enter><Enter>");
    sees(driver, "quince blossom: 33 good of 35, ");
    leave(driver);
}

static void quick_presses_all_count(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");

    go_to(driver, "pipe quince blossom");
    press(driver, "++++++++++++");
    sees(driver, "12 good");
    does_not_see(driver, "held down");
    leave(driver);
}

/* Pedals and page turners send keys; the maker says what they are for. */
static void a_key_of_the_makers_own_counts(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    keys(driver, "S<End>");
    for (int i = 0; i < STEPS_MOST && !shows(driver, ">+ key of the bench"); i++)
        keys(driver, "<Up>");
    keys(driver, "<Enter>");
    keys(driver, "PgDn for juggle");
    sees(driver, "The bench knows: ");
    keys(driver, "<C-u>PgDn for more<Enter>");
    sees(driver, "PgDn for more");
    keys(driver, "<Esc>");
    start(driver, "blossoms");
    go_to(driver, "pipe quince blossom");
    press(driver, "<PgDn>");
    sees(driver, "1 good");
    press(driver, "<PgDn>");
    sees(driver, "2 good");
    leave(driver);
}

static void held_enter_does_not_run_through_the_steps(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");

    hold(driver, "<Enter>", "<Enter><Enter><Enter><Enter><Enter>");
    sees(driver, "step 2 of ");
    sees(driver, "A key held down counts once");
    leave(driver);
}

static void two_points_begin_a_number_again(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");

    press(driver, "<Enter>");
    sees(driver, "step 2 of ");
    keys(driver, "777");
    sees(driver, "[777");
    keys(driver, "..");
    does_not_see(driver, "[777");
    sees(driver, "the scale reads [");
    keys(driver, ".");
    does_not_see(driver, "the scale reads [");
    leave(driver);
}

static void a_splash_shows_first_aid_with_its_timer_and_goes_back(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");

    press(driver, "<Enter>");
    keys(driver, "12");
    keys(driver, "!");
    sees(driver, "RINSE WITH RUNNING WATER");
    sees(driver, "IN AN EYE");
    sees(driver, "No vinegar or other acid");
    press(driver, "<Enter>");
    sees(driver, "step 2 of ");
    sees(driver, "rinse 20:00");
    press(driver, "<Esc>");
    sees(driver, "rinse 20:00");
    keys(driver, "2");
    sees(driver, "rinse 20:00");
    leave(driver);
}

static void a_wide_window_shows_more_and_a_small_one_waits(void **state)
{
    struct driver *driver = begin(*state, &wide, "blossoms");

    go_to(driver, "Titanium");
    sees(driver, "To come");
    sees(driver, "Done, the last first");
    driver_resize(driver, 10, 40);
    sees(driver, "too small");
    driver_resize(driver, 24, 80);
    sees(driver, "the scale should read");
    does_not_see(driver, "To come");
    leave(driver);
}

static void leaving_and_reopening_lands_on_the_step(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");
    char before[ROW_BYTES], after[ROW_BYTES];

    go_to(driver, "Olive oil");
    driver_row(driver, 2, before, sizeof before);
    leave(driver);
    driver = open_at(*state, &demo);
    sees(driver, "On the bench");
    keys(driver, "<Home><Enter>");
    sees(driver, "Bench > Blossoms and leaves");
    driver_row(driver, 2, after, sizeof after);
    assert_string_equal(after, before);
    leave(driver);
}

static void pieces_counted_outlast_a_kill(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");

    go_to(driver, "pipe quince blossom");
    press(driver, "+");
    press(driver, "+");
    press(driver, "+");
    sees(driver, "3 good");
    driver_signal(driver, 9);
    assert_true(driver_ended(driver, 5000, NULL));
    driver_close(driver);
    driver = open_at(*state, &demo);
    keys(driver, "3");
    sees(driver, "3 good");
    leave(driver);
}

/* Scraped back it lies there no more, so it is not among what is counted after lifting. Batch 26-026 of the demo has 31 good ones and 2 rejects
 * on its tray. */
static void a_reject_scraped_back_is_not_there_after_lifting(void **state)
{
    static const struct look past = {.rows = 40, .cols = 120, .history = true};
    struct driver *driver = open_at(*state, &past);

    keys(driver, "<Enter>");
    sees(driver, "31 good   2 rejects");
    press(driver, "/");
    sees(driver, "31 good   1 reject ");
    go_to(driver, "count quince blossom");
    press(driver, "<Enter>");
    keys(driver, "<Esc>4/26-026<Enter><Enter>");
    sees(driver, "quince blossom: 31 good of 32, ");
    leave(driver);
}

static void pieces_wait_on_the_shelf_until_they_are_placed(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");

    go_to(driver, "count quince blossom");
    keys(driver, "40");
    press(driver, "<Enter>");
    keys(driver, "3");
    press(driver, "<Enter>");
    press(driver, "o"); /* left over: the third portion, 12.5 g, a week */
    sees(driver, "Of which portion?");
    press(driver, "3");
    keys(driver, "12,5");
    press(driver, "<Enter>");
    sees(driver, "Within what time");
    press(driver, "2");
    sees(driver, "to be used within a week");
    press(driver, "<Esc>");
    start(driver, "quince orchard");
    go_to(driver, "place pieces");
    keys(driver, "41");
    press(driver, "<Enter>");
    sees(driver, "40 of quince blossom   batch 26-001, 0 days old");
    press(driver, "1");
    sees(driver, "there are 40 on the shelf");
    keys(driver, "24");
    press(driver, "<Enter>");
    press(driver, "1");
    sees(driver, "24 placed, quince blossom of 26-001");
    press(driver, "<Enter>");
    sees(driver, "cover");
    leave(driver);
}

static void two_batches_are_switched_by_one_key(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");

    press(driver, "<Enter>");
    sees(driver, "step 2 of ");
    press(driver, "<Esc>");
    start(driver, "hedge");
    sees(driver, "next: Blossoms and leaves (n)");
    press(driver, "n");
    sees(driver, "Bench > Blossoms and leaves");
    sees(driver, "step 2 of ");
    press(driver, "n");
    sees(driver, "Bench > Hedge Rose base");
    sees(driver, "step 1 of ");
    press(driver, "n");
    sees(driver, "Bench > Blossoms and leaves");
    press(driver, "<Esc>");
    sees(driver, "Hedge Rose base   batch");
    keys(driver, "3");
    sees(driver, "Bench > Blossoms and leaves");
    leave(driver);
}

/* Ten minutes and a second after the stand began. */
static void a_timer_shows_everywhere_and_rings_when_it_is_due(void **state)
{
    static const struct look later = {.rows = 24, .cols = 80, .demo = true, .now = "LYEWAY_NOW=1780000601"};
    struct driver *driver = begin(*state, &demo, "blossoms");

    go_to(driver, "let it stand");
    sees(driver, "look at the trace 10:00");
    press(driver, "<Esc>");
    sees(driver, "Today");
    sees(driver, "look at the trace 10:00");
    assert_false(driver_sent_raw(driver, "\a"));
    leave(driver);
    driver = open_at(*state, &later);
    sees(driver, "Blossoms and leaves: look at the trace");
    assert_true(driver_sent_raw(driver, "\a"));
    sees(driver, "09:59");
    keys(driver, "3");
    press(driver, "t");
    sees(driver, "stop: look at the trace");
    leave(driver);
}

static void counting_a_piece_sends_little(void **state)
{
    struct driver *driver = begin(*state, &demo, "blossoms");
    uint64_t before;

    go_to(driver, "pipe quince blossom");
    keys(driver, "4");
    press(driver, "<Enter>");
    press(driver, "1");
    sees(driver, "4 good");
    assert_true(driver_click(driver, 0, 0));
    before = driver_sent(driver);
    keys(driver, "+");
    sees(driver, "5 good");
    print_message("a piece counted sends %d bytes\n", (int)(driver_sent(driver) - before));
    assert_in_range(driver_sent(driver) - before, 1, COUNT_MOST_BYTES);
    leave(driver);
}

/* Which second it is when the test looks is not known; that one tick comes after another is. */
static void a_tick_sends_only_its_digits(void **state)
{
    static const struct look running = {.rows = 24, .cols = 80, .demo = true, .now = "LYEWAY_NOW="};
    struct driver *driver = begin(*state, &running, "blossoms");
    uint64_t before;

    keys(driver, "t");
    sees(driver, "1  another length");
    press(driver, "1");
    keys(driver, "10");
    press(driver, "<Enter>");
    sees(driver, "timer 09:5");
    press(driver, "<Esc>");
    sees(driver, "Recipes changed last");
    keys(driver, "2");
    assert_true(driver_wait(driver, "timer 09:50", 15000));
    before = driver_sent(driver);
    assert_true(driver_wait(driver, "timer 09:49", 5000));
    print_message("a tick sends %d bytes\n", (int)(driver_sent(driver) - before));
    assert_in_range(driver_sent(driver) - before, 1, TICK_MOST_BYTES);
    leave(driver);
}

static void without_utf8_digits_are_drawn_in_ascii(void **state)
{
    static const struct look plain = {
        .rows = 24, .cols = 80, .demo = true, .term = "vt100", .locale = "C", .no_colour = true};
    struct driver *driver = open_at(*state, &plain);

    keys(driver, "2/blossoms<Enter>b<Enter>");
    sees(driver, "step 1 of ");
    keys(driver, "t.<Enter>");
    sees(driver, "the scale should read");
    sees(driver, "######");
    leave(driver);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(an_empty_bench_says_how_to_start),
        TEST(a_number_pad_alone_makes_a_whole_batch),
        TEST(an_alkali_weighing_is_never_taken_by_enter_alone),
        TEST(the_notes_are_read_once_a_day_and_stand_whole_on_every_lye_step),
        TEST(a_reading_that_is_off_opens_what_can_be_done),
        TEST(a_key_held_down_counts_one_piece),
        TEST(nothing_counted_is_asked_about_and_then_not_again),
        TEST(fewer_than_wanted_are_asked_about_and_all_that_were_wanted_are_not),
        TEST(more_pieces_than_the_bag_should_give_are_said_once),
        TEST(pieces_counted_only_after_lifting_are_typed),
        TEST(more_after_lifting_than_were_piped_are_asked_about),
        TEST(quick_presses_all_count),
        TEST(a_key_of_the_makers_own_counts),
        TEST(held_enter_does_not_run_through_the_steps),
        TEST(two_points_begin_a_number_again),
        TEST(a_splash_shows_first_aid_with_its_timer_and_goes_back),
        TEST(a_wide_window_shows_more_and_a_small_one_waits),
        TEST(leaving_and_reopening_lands_on_the_step),
        TEST(pieces_counted_outlast_a_kill),
        TEST(a_reject_scraped_back_is_not_there_after_lifting),
        TEST(pieces_wait_on_the_shelf_until_they_are_placed),
        TEST(two_batches_are_switched_by_one_key),
        TEST(a_timer_shows_everywhere_and_rings_when_it_is_due),
        TEST(counting_a_piece_sends_little),
        TEST(a_tick_sends_only_its_digits),
        TEST(without_utf8_digits_are_drawn_in_ascii),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
