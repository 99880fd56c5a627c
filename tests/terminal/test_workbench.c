/* test_workbench.c - the workbench as a maker meets it: the real program on a terminal, keys in, screens read back. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <signal.h>

#include <cmocka.h>

#include "terminal/workbench.h"

static void empty_records_say_how_to_begin(void **state)
{
    struct driver *driver = open_at(*state, &usual);

    sees(driver, "Nothing is recorded yet");
    sees(driver, "n starts a recipe");
    keys(driver, "<Enter>");
    sees(driver, "There is no recipe yet; n starts one.");
    leave(driver);
}

static void a_newcomer_makes_a_three_colour_plan(void **state)
{
    struct driver *driver = open_at(*state, &usual);

    keys(driver, "nMorning<Enter>");
    sees(driver, "Begin with an oil");
    keys(driver, "<Enter>olive<Enter>");
    sees(driver, "128.67");
    keys(driver, "acanola<Enter>20<Enter>");
    sees(driver, "20.00 %");
    keys(driver, "acoconut<Enter>30<Enter>");
    sees(driver, "30.00 %");
    keys(driver, "<Tab><Tab><End><Up><Enter>");
    sees(driver, "base");
    keys(driver, "<End><Up><Enter>25<Enter>");
    keys(driver, "<End><Up><Enter>15<Enter>");
    sees(driver, "25.00 %");
    sees(driver, "15.00 %");
    keys(driver, "ciron oxide red<Enter>");
    sees(driver, "Iron oxide");
    sees(driver, "rest");
    leave(driver);
    driver = open_at(*state, &usual);
    keys(driver, "<Enter>");
    sees(driver, "Recipes > Morning");
    sees(driver, "15.00 %");
    sees(driver, "Iron oxide");
    leave(driver);
}

static void the_plan_follows_while_typing_and_esc_puts_it_back(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    sees(driver, "119.52");
    to_superfat(driver);
    keys(driver, "3");
    sees(driver, "121.49");
    sees(driver, "TIGHT");
    keys(driver, "<Esc>");
    sees(driver, "119.52");
    sees(driver, "WIDE");
    does_not_see(driver, "121.49");
    leave(driver);
}

static void a_change_can_be_undone_and_done_again_and_is_saved(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    to_superfat(driver);
    keys(driver, "3<Enter>");
    sees(driver, "121.49");
    keys(driver, "u");
    sees(driver, "119.52");
    keys(driver, "u");
    sees(driver, "There is nothing to undo.");
    keys(driver, "U");
    sees(driver, "121.49");
    leave(driver);
    driver = open_at(*state, &demo);
    open_quince(driver);
    sees(driver, "121.49");
    leave(driver);
}

static void nothing_that_was_taken_is_lost_when_the_program_is_killed(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    to_superfat(driver);
    keys(driver, "7<Enter>");
    sees(driver, "117.");
    keys(driver, "4");
    driver_signal(driver, SIGKILL);
    assert_true(driver_ended(driver, 5000, NULL));
    driver_close(driver);
    driver = open_at(*state, &demo);
    open_quince(driver);
    sees(driver, "7.0 %");
    leave(driver);
}

static void two_windows_on_one_recipe_see_each_other_and_lose_nothing(void **state)
{
    struct driver *one = open_at(*state, &demo), *two;

    open_quince(one);
    two = open_at(*state, &demo);
    open_quince(two);
    to_superfat(one);
    keys(one, "3<Enter>");
    sees(two, "121.49");
    keys(two, "<Home><Right>50<Enter>");
    sees(two, "50.00 %");
    sees(one, "50.00 %");
    sees(one, "3.0 %");
    leave(one);
    leave(two);
}

static void a_wrong_number_is_met_with_a_sentence_and_changes_nothing(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    to_superfat(driver);
    keys(driver, "60<Enter>");
    sees(driver, "The superfat is a number from 0 to 50, and this is 60.");
    keys(driver, "<Esc>");
    sees(driver, "119.52");
    keys(driver, "1,500<Enter>");
    sees(driver, "or mark thousands; use a point or none");
    keys(driver, "<Esc>");
    leave(driver);
}

/* Keys that come faster than frames: the screen that the first of them opens has not been painted when the next one comes. */
static void keys_typed_ahead_of_a_screen_are_not_lost(void **state)
{
    struct driver *driver = open_at(*state, &usual);

    keys(driver, "nMorning");
    assert_true(driver_bytes(driver, "\r\rolive\r", 8));
    sees(driver, "128.67");
    leave(driver);
}

static void a_paste_outside_of_a_field_changes_nothing(void **state)
{
    const char paste[] = "\033[200~xxq5\r5\033[201~";
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    assert_true(driver_bytes(driver, paste, sizeof paste - 1));
    sees(driver, "A paste goes into a field");
    sees(driver, "119.52");
    leave(driver);
}

static void the_window_may_shrink_to_nothing_and_grow_back(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    driver_resize(driver, 5, 20);
    sees(driver, "too small");
    driver_resize(driver, 1, 1);
    driver_settle(driver, 1000);
    driver_resize(driver, 24, 80);
    sees(driver, "119.52");
    sees(driver, "Recipes > Quince Orchard base");
    leave(driver);
}

static void shrink(struct driver *driver)
{
    driver_resize(driver, 5, 20);
    sees(driver, "too small");
}

static void grow(struct driver *driver)
{
    driver_resize(driver, 24, 80);
    sees(driver, " help"); /* at the end of the last line, whatever its key */
}

static void no_key_reaches_what_a_small_window_hides(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    shrink(driver);
    keys(driver, "4nS");
    grow(driver);
    sees(driver, "A tour of two minutes");
    open_quince(driver);
    to_superfat(driver);
    keys(driver, "3");
    sees(driver, "121.49");
    shrink(driver);
    keys(driver, "9<BS><Enter><Down>4<Enter>u<Esc>");
    grow(driver);
    sees(driver, "121.49");
    sees(driver, "[3 ");
    keys(driver, "<Esc>");
    sees(driver, "119.52");
    leave(driver);
}

static void q_in_a_small_window_asks_before_it_leaves(void **state)
{
    struct driver *driver = open_at(*state, &demo);
    int status = -1;

    open_quince(driver);
    keys(driver, "a"); /* a field in which q is a letter */
    shrink(driver);
    keys(driver, "q");
    sees(driver, "Leave?");
    keys(driver, "x");
    sees(driver, "too small");
    keys(driver, "y"); /* an answer to nothing */
    keys(driver, "q");
    sees(driver, "Leave?");
    grow(driver); /* the question is gone with the window that asked it */
    sees(driver, "It would change");
    shrink(driver);
    keys(driver, "q");
    sees(driver, "Leave?");
    driver_keys(driver, "y");
    assert_true(driver_ended(driver, 5000, &status));
    assert_int_equal(status, 0);
    assert_false(driver_state(driver).alternate);
    driver_close(driver);
}

static void every_look_shows_the_same_figures(void **state)
{
    static const struct look looks[] = {
        {.rows = 24, .cols = 80, .demo = true, .no_colour = true},
        {.rows = 24, .cols = 80, .demo = true, .term = "vt100", .locale = "C"},
        {.rows = 40, .cols = 120, .demo = true},
        {.rows = 50, .cols = 160, .demo = true},
    };

    for (size_t i = 0; i < sizeof looks / sizeof *looks; i++) {
        struct driver *driver = open_at(*state, &looks[i]);

        open_quince(driver);
        sees(driver, "119.52");
        sees(driver, "WIDE");
        sees(driver, "cream");
        leave(driver);
    }
}

static void findings_say_what_to_do_and_enter_goes_there(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    keys(driver, "f");
    sees(driver, "caution");
    sees(driver, "Mix 1.00 g into 9.00 g of oil");
    keys(driver, "h");
    sees(driver, "Only remarks can be hushed");
    keys(driver, "<Esc>");
    sees(driver, "119.52");
    leave(driver);
}

static void settings_change_the_units_everywhere(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    keys(driver, "S<Enter>");
    sees(driver, "ounces");
    keys(driver, "<Esc>");
    open_quince(driver);
    sees(driver, " oz");
    sees(driver, "4.22");
    leave(driver);
}

static void help_names_the_keys_of_the_screen(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    keys(driver, "?");
    sees(driver, "Sizes the recipe by oils, batter, mould or pieces.");
    sees(driver, "Keeps the recipe as it is now as a numbered revision.");
    keys(driver, "<Esc>");
    leave(driver);
}

static void a_kept_revision_is_compared_with_the_draft(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    keys(driver, "k");
    sees(driver, "Nothing differs from revision 1");
    to_superfat(driver);
    keys(driver, "6<Enter>k");
    sees(driver, "Kept as revision 2");
    keys(driver, "r");
    sees(driver, "From revision 1 to the draft");
    sees(driver, "5 % -> 6 %");
    keys(driver, "<Down>");
    sees(driver, "Nothing differs.");
    leave(driver);
}

static void keys_cost_few_bytes_and_idling_none(void **state)
{
    struct driver *driver = open_at(*state, &demo);
    uint64_t before;

    open_quince(driver);
    keys(driver, "<Down><Down>");
    before = driver_sent(driver);
    keys(driver, "<Up>");
    assert_in_range(driver_sent(driver) - before, 1, 90);
    before = driver_sent(driver);
    assert_false(driver_wait(driver, "this never comes", 600));
    assert_int_equal(driver_sent(driver) - before, 0);
    leave(driver);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(empty_records_say_how_to_begin),
        TEST(a_newcomer_makes_a_three_colour_plan),
        TEST(the_plan_follows_while_typing_and_esc_puts_it_back),
        TEST(a_change_can_be_undone_and_done_again_and_is_saved),
        TEST(nothing_that_was_taken_is_lost_when_the_program_is_killed),
        TEST(two_windows_on_one_recipe_see_each_other_and_lose_nothing),
        TEST(a_wrong_number_is_met_with_a_sentence_and_changes_nothing),
        TEST(keys_typed_ahead_of_a_screen_are_not_lost),
        TEST(a_paste_outside_of_a_field_changes_nothing),
        TEST(the_window_may_shrink_to_nothing_and_grow_back),
        TEST(no_key_reaches_what_a_small_window_hides),
        TEST(q_in_a_small_window_asks_before_it_leaves),
        TEST(every_look_shows_the_same_figures),
        TEST(findings_say_what_to_do_and_enter_goes_there),
        TEST(settings_change_the_units_everywhere),
        TEST(help_names_the_keys_of_the_screen),
        TEST(a_kept_revision_is_compared_with_the_draft),
        TEST(keys_cost_few_bytes_and_idling_none),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
