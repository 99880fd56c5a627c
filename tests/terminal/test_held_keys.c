/* test_held_keys.c - a key held down against honest presses, with the times at which a terminal sends them. The rates are those of
 * common keyboards, from memory: the Linux console waits 250 ms and repeats every 92 ms, X waits 660 ms and repeats every 40 ms,
 * others wait 500 ms and repeat every 33 ms.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "ui/kit/digits.h"
#include "ui/kit/repeat.h"

static const struct key plus = {.code = KEY_CHARACTER, .point = '+'};
static const struct key star = {.code = KEY_CHARACTER, .point = '*'};

struct pad {
    struct repeat repeat;
    int counted, said; /* how often a hold was said */
};

static void wait_until(struct pad *pad, int64_t ms)
{
    struct key key;

    pad->counted += repeat_honest(&pad->repeat, NULL, ms, &key);
}

static void press(struct pad *pad, const struct key *key, int64_t ms)
{
    struct key waited;

    enum repeat_verdict verdict;

    pad->counted += repeat_honest(&pad->repeat, key, ms, &waited);
    verdict = repeat_key(&pad->repeat, key, ms, true);
    pad->counted += verdict == REPEAT_TAKE;
    pad->said += verdict == REPEAT_HELD;
}

/* Held from `ms` for two seconds; returns when it was let go. */
static int64_t hold(struct pad *pad, int64_t ms, int pause, int every)
{
    int64_t end = ms + 2000;

    press(pad, &plus, ms);
    for (ms += pause; ms < end; ms += every)
        press(pad, &plus, ms);
    wait_until(pad, end + 1000);
    return end + 1000;
}

static void a_held_key_counts_once_whatever_the_keyboard(void **state)
{
    static const int keyboards[][2] = {{250, 92}, {660, 40}, {500, 33}, {200, 15}, {1000, 100}};

    (void)state;
    for (size_t i = 0; i < sizeof keyboards / sizeof *keyboards; i++) {
        struct pad pad = {0};

        hold(&pad, 5000, keyboards[i][0], keyboards[i][1]);
        assert_int_equal(pad.counted, 1);
        assert_int_equal(pad.said, 1);
    }
}

/* It is said with the first repetition that shows it, not when the key is let go: of a keyboard quicker than fingers with the
 * second, of a slower one with the third. */
static void a_hold_is_said_while_it_lasts(void **state)
{
    struct pad quick = {0}, slow = {0};

    (void)state;
    press(&quick, &plus, 5000);
    press(&quick, &plus, 5660);
    assert_int_equal(quick.said, 0);
    press(&quick, &plus, 5700);
    assert_int_equal(quick.said, 1);
    press(&slow, &plus, 5000);
    press(&slow, &plus, 5250);
    press(&slow, &plus, 5342);
    assert_int_equal(slow.said, 0);
    press(&slow, &plus, 5434);
    assert_int_equal(slow.said, 1);
    assert_int_equal(quick.counted + slow.counted, 2);
}

static void the_press_after_a_hold_counts_again(void **state)
{
    struct pad pad = {0};
    int64_t ms = hold(&pad, 5000, 500, 33);

    (void)state;
    hold(&pad, ms, 500, 33);
    assert_int_equal(pad.counted, 2);
}

static void honest_presses_all_count_however_quick_a_hand_is(void **state)
{
    (void)state;
    for (int gap = 150; gap < 3000; gap += 50) {
        struct pad pad = {0};

        for (int i = 0; i < 10; i++)
            press(&pad, &plus, 5000 + i * gap);
        wait_until(&pad, 5000 + 10 * gap + 1000);
        assert_int_equal(pad.counted, 10);
    }
}

/* A held key makes its pause first: without it nothing is one, be it as quick and steady as a machine. */
static void presses_without_the_pause_of_a_held_key_all_count(void **state)
{
    (void)state;
    for (int gap = 0; gap < REPEAT_DELAY_MS; gap++) {
        struct pad pad = {0};

        for (int i = 0; i < 30; i++)
            press(&pad, &plus, 5000 + i * gap);
        assert_int_equal(pad.counted, 30);
        assert_int_equal(pad.said, 0);
    }
}

/* The same some time after the last press, which is longer than any keyboard waits. */
static void a_quick_burst_after_a_rest_all_counts(void **state)
{
    struct pad pad = {0};

    (void)state;
    press(&pad, &plus, 5000);
    for (int i = 0; i < 10; i++)
        press(&pad, &plus, 7000 + i * 50);
    assert_int_equal(pad.counted, 11);
    assert_int_equal(pad.said, 0);
}

/* Fingers do not keep time to the hundredth of a second. */
static void a_quick_burst_after_a_short_pause_counts_by_its_unsteadiness(void **state)
{
    static const int at[] = {0, 400, 495, 575, 685, 768, 870};
    struct pad pad = {0};

    (void)state;
    for (size_t i = 0; i < sizeof at / sizeof *at; i++)
        press(&pad, &plus, 5000 + at[i]);
    wait_until(&pad, 7000);
    assert_int_equal(pad.counted, 7);
    assert_int_equal(pad.said, 0);
}

/* Two quick ones after a pause: held for one repetition more, or pressed; slower than a machine, they count. */
static void a_quick_pair_after_a_short_pause_counts(void **state)
{
    struct pad pad = {0};

    (void)state;
    press(&pad, &plus, 5000);
    press(&pad, &plus, 5400);
    press(&pad, &plus, 5500);
    assert_int_equal(pad.counted, 1);
    wait_until(&pad, 5700);
    assert_int_equal(pad.counted, 3);
}

/* Over a network repetitions are late, and come several at a time. */
static void a_hold_bears_an_unsteady_line(void **state)
{
    static const int at[] = {0, 500, 540, 575, 655, 655, 690, 830, 830, 830, 865, 1065, 1066, 1100};
    struct pad pad = {0};

    (void)state;
    for (size_t i = 0; i < sizeof at / sizeof *at; i++)
        press(&pad, &plus, 5000 + at[i]);
    wait_until(&pad, 9000);
    assert_int_equal(pad.counted, 1);
}

static void other_keys_are_never_swallowed(void **state)
{
    struct pad pad = {0};

    (void)state;
    for (int i = 0; i < 20; i++)
        press(&pad, i % 2 ? &plus : &star, 5000 + i);
    assert_int_equal(pad.counted, 20);
}

/* The second press waits for what comes; another key tells that it was honest, and comes after it. */
static void a_waiting_press_goes_before_the_key_that_follows(void **state)
{
    struct repeat repeat = {0};
    struct key waited = {0};

    (void)state;
    assert_int_equal(repeat_key(&repeat, &plus, 5000, true), REPEAT_TAKE);
    assert_int_equal(repeat_key(&repeat, &plus, 5400, true), REPEAT_WAIT);
    assert_int_equal(repeat_left_ms(&repeat, 5410), REPEAT_MS - 10);
    assert_int_equal(repeat_honest(&repeat, NULL, 5410, &waited), 0);
    assert_int_equal(repeat_honest(&repeat, &star, 5410, &waited), 1);
    assert_int_equal(waited.point, '+');
    assert_int_equal(repeat_key(&repeat, &star, 5410, true), REPEAT_TAKE);
    assert_int_equal(repeat_left_ms(&repeat, 5410), -1);
}

/* Held over a change of views, from one where it repeats to one where it counts once. */
static void a_key_held_over_a_change_of_views_stays_held(void **state)
{
    struct repeat repeat = {0};

    (void)state;
    assert_int_equal(repeat_key(&repeat, &plus, 5000, false), REPEAT_TAKE);
    assert_int_equal(repeat_key(&repeat, &plus, 5500, false), REPEAT_TAKE);
    assert_int_equal(repeat_key(&repeat, &plus, 5533, false), REPEAT_TAKE);
    assert_int_equal(repeat_key(&repeat, &plus, 5566, true), REPEAT_HELD);
    assert_int_equal(repeat_key(&repeat, &plus, 5599, true), REPEAT_DROP);
}

static void assert_row(const struct surface *surface, int row, const char *expected)
{
    char got[64];
    int col;

    for (col = 0; expected[col]; col++)
        got[col] = surface->cell[row * surface->cols + col].text[0] == ' ' ? ' ' : '#';
    got[col] = '\0';
    assert_string_equal(got, expected);
}

static void digits_have_their_shapes_and_take_the_columns_that_are_told(void **state)
{
    struct surface surface = {0};
    struct canvas whole;

    (void)state;
    assert_true(surface_resize(&surface, DIGITS_ROWS, 24));
    whole = canvas_whole(&surface);
    assert_int_equal(digits_columns("-4.0g"), 4 + 1 + 6 + 1 + 2 + 1 + 6 + 1 - 1);
    assert_int_equal(digits_paint(&whole, 0, 0, STYLE_PLAIN, "-4.0"), digits_columns("-4.0"));
    assert_row(&surface, 0, "     ##  ##    ######");
    assert_row(&surface, 1, "     ##  ##    ##  ##");
    assert_row(&surface, 2, "#### ######    ##  ##");
    assert_row(&surface, 3, "         ##    ##  ##");
    assert_row(&surface, 4, "         ## ## ######");
    surface_done(&surface);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_held_key_counts_once_whatever_the_keyboard),
        cmocka_unit_test(the_press_after_a_hold_counts_again),
        cmocka_unit_test(honest_presses_all_count_however_quick_a_hand_is),
        cmocka_unit_test(a_hold_is_said_while_it_lasts),
        cmocka_unit_test(presses_without_the_pause_of_a_held_key_all_count),
        cmocka_unit_test(a_quick_burst_after_a_rest_all_counts),
        cmocka_unit_test(a_quick_burst_after_a_short_pause_counts_by_its_unsteadiness),
        cmocka_unit_test(a_quick_pair_after_a_short_pause_counts),
        cmocka_unit_test(a_hold_bears_an_unsteady_line),
        cmocka_unit_test(other_keys_are_never_swallowed),
        cmocka_unit_test(a_waiting_press_goes_before_the_key_that_follows),
        cmocka_unit_test(a_key_held_over_a_change_of_views_stays_held),
        cmocka_unit_test(digits_have_their_shapes_and_take_the_columns_that_are_told),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
