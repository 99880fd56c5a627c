/* A plot on a surface: where points, ticks and the curve stand, and that nothing of it leaves its axes. Cells are counted by hand
 * from the values; the bits of braille patterns are those of the Unicode Standard, chapter 21, "Braille". */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "kit/painted.h"
#include "ui/kit/plot.h"

enum { ROWS = 14, COLS = 46 };

/* Axes 0 to 10 with ticks of 5 up and 5 across: labels "10" take two columns, so the area begins in column 4 and has 42 of them; 12
 * rows of it, since no axis has a name. */
static struct plot bare(int n, const double x[], const double y[])
{
    return (struct plot){.across = {.name = "", .to = 10},
                         .up = {.name = "", .to = 10},
                         .n = n,
                         .x = x,
                         .y = y,
                         .marked = -1,
                         .mark_x = NAN};
}

static double same(const void *context, double x)
{
    (void)context;
    return x;
}

static void steps_are_one_two_or_five_times_a_power_of_ten(void **state)
{
    (void)state;
    assert_float_equal(plot_step(0, 10, 5), 2, 1e-12);
    assert_float_equal(plot_step(0, 10, 4), 5, 1e-12);
    assert_float_equal(plot_step(0, 10, 1), 10, 1e-12);
    assert_float_equal(plot_step(31.2, 37.9, 5), 2, 1e-12);
    assert_float_equal(plot_step(0.031, 0.044, 5), 0.005, 1e-12);
    assert_float_equal(plot_step(-730, 0, 6), 200, 1e-9);
    assert_float_equal(plot_step(3, 3, 6), 1, 1e-12);
    assert_float_equal(plot_step(0, INFINITY, 6), 1, 1e-12);
}

static void an_axis_reaches_beyond_its_values_and_not_below_nothing(void **state)
{
    struct plot_axis axis = {.name = ""};

    (void)state;
    plot_reach(&axis, 100, 200);
    assert_float_equal(axis.from, 96, 1e-9);
    assert_float_equal(axis.to, 204, 1e-9);
    plot_reach(&axis, 1, 101);
    assert_float_equal(axis.from, 0, 1e-9);
    plot_reach(&axis, 5, 5);
    assert_true(axis.from < 5 && axis.to > 5);
    plot_reach(&axis, 0, 0);
    assert_true(axis.to > 0 && axis.from <= 0 && axis.from < axis.to);
    plot_reach(&axis, -30, -10);
    assert_true(axis.from < -30 && axis.to > -10);
}

static void a_point_is_a_dot_in_the_cell_of_its_values(void **state)
{
    static const double x[] = {0, 10, 5}, y[] = {0, 10, 5};
    struct plot plot = bare(3, x, y);
    struct painted painted;

    (void)state;
    painted_start(&painted, ROWS, COLS);
    plot_paint(&plot, &painted.canvas);
    /* Lowest left, highest right: fat dots of two by two, within their cells. */
    assert_string_equal(painted_cell(&painted, 11, 4), "\u28e4");
    assert_string_equal(painted_cell(&painted, 0, 45), "\u281b");
    assert_string_equal(painted_cell(&painted, 5, 25), "\u28e4");
    assert_int_equal(painted_find(&painted, 0, "10", NULL), 0);
    assert_int_equal(painted_find(&painted, 1, "5", NULL), 5);
    painted_done(&painted);
}

static void many_points_are_single_dots_that_share_their_cells(void **state)
{
    enum { MANY = 201 };
    static double x[MANY], y[MANY];
    struct plot plot = bare(MANY, x, y);
    struct painted painted;

    (void)state;
    x[1] = 10 / 84.0 * 1.5; /* the right column of dots of the first cell */
    y[1] = 10 / 48.0 * 3.5; /* its highest row */
    painted_start(&painted, ROWS, COLS);
    plot_paint(&plot, &painted.canvas);
    assert_string_equal(painted_cell(&painted, 11, 4), "\u2848");
    painted_done(&painted);
}

static void classes_differ_by_sign_and_the_marked_point_lies_over_all(void **state)
{
    static const double x[] = {5, 5, 8}, y[] = {5, 5, 8};
    static const char sign[] = {'\0', 'x', 'x'};
    struct plot plot = bare(3, x, y);
    struct painted painted;

    (void)state;
    plot.sign = sign;
    painted_start(&painted, ROWS, COLS);
    plot_paint(&plot, &painted.canvas);
    assert_string_equal(painted_cell(&painted, 5, 25), "x");
    assert_string_equal(painted_cell(&painted, 2, 37), "x");
    plot.marked = 0;
    plot_paint(&plot, &painted.canvas);
    assert_string_equal(painted_cell(&painted, 5, 24), "(");
    assert_string_equal(painted_cell(&painted, 5, 25), "@");
    assert_string_equal(painted_cell(&painted, 5, 26), ")");
    painted_done(&painted);
}

static void the_curve_runs_between_its_ends_and_under_the_points(void **state)
{
    static const double x[] = {5}, y[] = {5};
    struct plot plot = bare(1, x, y);
    struct painted painted;

    (void)state;
    plot.curve = same;
    plot.curve_from = 2.5;
    plot.curve_to = 10;
    painted_start(&painted, ROWS, COLS);
    plot_paint(&plot, &painted.canvas);
    assert_string_equal(painted_cell(&painted, 11, 4), " ");
    assert_string_equal(painted_cell(&painted, 11, 13), " ");
    assert_string_equal(painted_cell(&painted, 8, 16), "\u00b7");
    assert_string_equal(painted_cell(&painted, 0, 45), "\u00b7");
    assert_string_equal(painted_cell(&painted, 5, 25), "\u28e4");
    painted_done(&painted);
}

static double cliff(const void *context, double x)
{
    (void)context;
    return (x - 5) * 1000;
}

static void a_steep_curve_has_no_gaps_and_stays_inside(void **state)
{
    struct plot plot = bare(0, NULL, NULL);
    struct painted painted;

    (void)state;
    plot.curve = cliff;
    plot.curve_from = 0;
    plot.curve_to = 10;
    painted_start(&painted, ROWS, COLS);
    plot_paint(&plot, &painted.canvas);
    for (int row = 0; row < 12; row++)
        assert_true(strcmp(painted_cell(&painted, row, 25), "\u00b7") == 0 ||
                    strcmp(painted_cell(&painted, row, 24), "\u00b7") == 0);
    assert_string_equal(painted_cell(&painted, 12, 25), "\u253c");
    painted_done(&painted);
}

static void what_cannot_be_shown_is_left_out(void **state)
{
    static const double x[] = {NAN, 3, INFINITY, 11, -1}, y[] = {3, NAN, 3, 3, 3};
    struct plot plot = bare(5, x, y);
    struct painted painted;
    char row[PAINTED_COLS * GLYPH_BYTES];

    (void)state;
    plot.marked = 3;
    painted_start(&painted, ROWS, COLS);
    plot_paint(&plot, &painted.canvas);
    assert_int_equal(painted_find(&painted, 0, "@", NULL), -1);
    for (int i = 0; i < 12; i++) {
        painted_row(&painted, i, row);
        assert_null(strstr(row, "\xe2\xa0"));
        assert_null(strstr(row, "\xe2\xa3"));
    }
    assert_int_equal(plot_at(&plot, &painted.canvas, 5, 20), -1);
    painted_done(&painted);
}

static void names_and_written_ticks_stand_at_their_axes(void **state)
{
    static const double x[] = {5}, y[] = {5};
    struct plot plot = bare(1, x, y);
    struct painted painted;

    (void)state;
    plot.up.name = "workable from, min";
    plot.across.name = "lye strength, %";
    plot.mark_x = 7.5;
    painted_start(&painted, ROWS, COLS);
    plot_paint(&plot, &painted.canvas);
    assert_int_equal(painted_find(&painted, 0, "workable from, min", NULL), 0);
    assert_int_equal(painted_find(&painted, 0, "lye strength, %", NULL), ROWS - 1);
    assert_string_equal(painted_cell(&painted, 5, 35), "\u2502");
    painted_done(&painted);
}

static void a_click_finds_the_nearest_point(void **state)
{
    static const double x[] = {1, 5, 9}, y[] = {1, 5, 9};
    struct plot plot = bare(3, x, y);
    struct painted painted;

    (void)state;
    painted_start(&painted, ROWS, COLS);
    assert_int_equal(plot_at(&plot, &painted.canvas, 5, 24), 1);
    assert_int_equal(plot_at(&plot, &painted.canvas, 11, 5), 0);
    assert_int_equal(plot_at(&plot, &painted.canvas, 0, 45), 2);
    assert_int_equal(plot_at(&plot, &painted.canvas, 12, 20), -1);
    assert_int_equal(plot_at(&plot, &painted.canvas, 5, 1), -1);
    painted_done(&painted);
}

/* Whatever the window and the values, all ends well: the sanitizers look on. */
static void any_values_in_any_window_are_drawn(void **state)
{
    static const double odd[] = {0, 1, -1, 1e-300, 1e300, -1e300, NAN, INFINITY, 5e-324, 123456789.123};
    enum { ODD = sizeof odd / sizeof *odd };
    struct painted painted;
    uint64_t seed = 7;

    (void)state;
    for (int i = 0; i < 3000; i++) {
        double x[4], y[4];
        struct plot plot = bare(4, x, y);

        for (int j = 0; j < 4; j++) {
            seed = seed * 6364136223846793005u + 1442695040888963407u;
            x[j] = odd[(seed >> 33) % ODD];
            y[j] = odd[(seed >> 48) % ODD];
        }
        plot_reach(&plot.across, x[0], x[1]);
        plot_reach(&plot.up, y[0], y[1]);
        plot.curve = same;
        plot.curve_to = 1e300;
        plot.curve_from = -1e300;
        plot.marked = i % 4;
        painted_start(&painted, i % PAINTED_ROWS + 1, i / 7 % PAINTED_COLS + 1);
        plot_paint(&plot, &painted.canvas);
        assert_true(plot_at(&plot, &painted.canvas, i % 5, i % 11) < 4);
        painted_done(&painted);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(steps_are_one_two_or_five_times_a_power_of_ten),
        cmocka_unit_test(an_axis_reaches_beyond_its_values_and_not_below_nothing),
        cmocka_unit_test(a_point_is_a_dot_in_the_cell_of_its_values),
        cmocka_unit_test(many_points_are_single_dots_that_share_their_cells),
        cmocka_unit_test(classes_differ_by_sign_and_the_marked_point_lies_over_all),
        cmocka_unit_test(the_curve_runs_between_its_ends_and_under_the_points),
        cmocka_unit_test(a_steep_curve_has_no_gaps_and_stays_inside),
        cmocka_unit_test(what_cannot_be_shown_is_left_out),
        cmocka_unit_test(names_and_written_ticks_stand_at_their_axes),
        cmocka_unit_test(a_click_finds_the_nearest_point),
        cmocka_unit_test(any_values_in_any_window_are_drawn),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
