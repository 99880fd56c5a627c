/* The timers of all batches on the bench, for every screen. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "kitchen_bench.h"
#include "work/board.h"

static struct run *with_timer(struct kitchen *kitchen, const char *recipe, const char *name, int length_s, int repeat_s)
{
    struct run *run = kitchen_start(kitchen, recipe);
    struct lw_error error = {""};

    assert_int_equal(run_timer(run, &kitchen->now, name, length_s, repeat_s, &error), LW_OK);
    assert_int_equal(run_save(run, &error), LW_OK);
    return run;
}

static void expect_status(struct kitchen *kitchen, const struct board *board, int columns, const char *expected)
{
    char status[128];

    board_status(board, kitchen->now.utc_s, columns, status, sizeof status);
    assert_string_equal(status, expected);
}

static void read_board(struct kitchen *kitchen, struct board *board)
{
    struct lw_error error = {""};

    if (board_read(board, kitchen->workshop, &kitchen->now, &error) != LW_OK)
        fail_msg("%s", error.text);
}

static void an_empty_bench_shows_nothing_and_never_wakes(void **state)
{
    struct board board = {0};

    read_board(*state, &board);
    assert_int_equal(board.batches, 0);
    expect_status(*state, &board, 80, "");
    assert_int_equal(board_status_ms(&board, &((struct kitchen *)*state)->now), -1);
}

static void the_soonest_timer_is_shown_first_with_its_batch_where_there_are_several(void **state)
{
    struct kitchen *kitchen = *state;
    struct board board = {0};
    struct run *one = with_timer(kitchen, "Blossoms and leaves", "chilled?", 2700, 0), *two;

    read_board(kitchen, &board);
    expect_status(kitchen, &board, 80, "chilled? 45:00");
    two = with_timer(kitchen, "Quince Orchard base", "rinse", 1200, 0);
    kitchen_wait(kitchen, 61);
    read_board(kitchen, &board);
    assert_int_equal(board.batches, 2);
    expect_status(kitchen, &board, 80, "Quince Orchard base: rinse 18:59   Blossoms and leaves: chilled? 43:59");
    expect_status(kitchen, &board, 40, "Quince Orchard base: rinse 18:59");
    run_free(one);
    run_free(two);
}

static void what_is_over_counts_up_and_hours_are_told(void **state)
{
    struct kitchen *kitchen = *state;
    struct board board = {0};
    struct run *run = with_timer(kitchen, "Blossoms and leaves", "out", 7200, 0);

    read_board(kitchen, &board);
    expect_status(kitchen, &board, 80, "out 2:00:00");
    kitchen_wait(kitchen, 7205);
    expect_status(kitchen, &board, 80, "out +00:05");
    run_free(run);
}

static bool due(struct kitchen *kitchen, struct board *board)
{
    char sentence[160];

    return board_due(board, kitchen->now.utc_s, sentence, sizeof sentence);
}

static void a_timer_rings_once_and_one_that_repeats_each_time(void **state)
{
    struct kitchen *kitchen = *state;
    struct board board = {0};
    struct run *run = with_timer(kitchen, "Blossoms and leaves", "look at the trace", 600, 600);

    read_board(kitchen, &board);
    kitchen_wait(kitchen, 599);
    assert_false(due(kitchen, &board));
    kitchen_wait(kitchen, 1);
    assert_true(due(kitchen, &board));
    assert_false(due(kitchen, &board));
    kitchen_wait(kitchen, 60);
    assert_int_equal(board_left_s(&board.timer[0].timer, kitchen->now.utc_s), 540);
    read_board(kitchen, &board); /* what has rung stays rung */
    assert_false(due(kitchen, &board));
    kitchen_wait(kitchen, 540);
    assert_true(due(kitchen, &board));
    kitchen_wait(kitchen, 6000); /* away for long: it rings once, not ten times */
    assert_true(due(kitchen, &board));
    assert_false(due(kitchen, &board));
    run_free(run);
}

static void timers_go_on_while_the_program_is_not_there(void **state)
{
    struct kitchen *kitchen = *state;
    struct board board = {0};

    run_free(with_timer(kitchen, "Blossoms and leaves", "chilled?", 2700, 0));
    kitchen_reopen(kitchen);
    kitchen_wait(kitchen, 2800);
    read_board(kitchen, &board);
    expect_status(kitchen, &board, 80, "chilled? +01:40");
    assert_true(due(kitchen, &board)); /* late is better than never */
}

static void a_batch_that_is_set_aside_is_off_the_bench(void **state)
{
    struct kitchen *kitchen = *state;
    struct board board = {0};
    struct lw_error error;
    struct run *run = with_timer(kitchen, "Blossoms and leaves", "chilled?", 2700, 0);

    assert_int_equal(run_set_aside(run, &kitchen->now, "oil forgotten", &error), LW_OK);
    assert_int_equal(run_save(run, &error), LW_OK);
    read_board(kitchen, &board);
    assert_int_equal(board.batches, 0);
    assert_int_equal(board.timers, 0);
    run_free(run);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, kitchen_setup, kitchen_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(an_empty_bench_shows_nothing_and_never_wakes),
        TEST(the_soonest_timer_is_shown_first_with_its_batch_where_there_are_several),
        TEST(what_is_over_counts_up_and_hours_are_told),
        TEST(a_timer_rings_once_and_one_that_repeats_each_time),
        TEST(timers_go_on_while_the_program_is_not_there),
        TEST(a_batch_that_is_set_aside_is_off_the_bench),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
