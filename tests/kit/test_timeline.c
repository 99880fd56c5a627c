/* A line of events: each label hangs at its own column, none lies over another, and what has no room is counted. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "kit/painted.h"
#include "ui/kit/timeline.h"

static void labels_hang_where_they_happened(void **state)
{
    static const struct timeline_event events[] = {{0, "combined"}, {30, "medium"}, {60, "piped"}};
    struct painted painted;
    int rows, first, second, third;

    (void)state;
    painted_start(&painted, 6, 61);
    assert_int_equal(timeline_paint(&painted.canvas, events, 3, "min", &rows), 0);
    assert_int_equal(rows, 3);
    assert_int_equal(painted_find(&painted, 0, "min", NULL), 0);
    assert_int_equal(painted_find(&painted, 2, "\u2514combined", &first), 2);
    assert_int_equal(painted_find(&painted, 2, "\u2514medium", &second), 2);
    assert_int_equal(painted_find(&painted, 2, "\u2514piped", &third), 2);
    /* The last label ends at the right edge: 61 columns less its six are those of an hour. */
    assert_int_equal(first, 0);
    assert_int_equal(third, 55);
    assert_int_equal(second, 28);
    painted_done(&painted);
}

static void labels_that_would_meet_go_down_on_threads(void **state)
{
    static const struct timeline_event events[] = {{0, "combined"}, {3, "emulsion"}, {6, "thin"}, {60, "piped"}};
    struct painted painted;
    int rows, col;

    (void)state;
    painted_start(&painted, 7, 61);
    assert_int_equal(timeline_paint(&painted.canvas, events, 4, "min", &rows), 0);
    assert_int_equal(rows, 5);
    assert_int_equal(painted_find(&painted, 2, "\u2514thin", NULL), 2);
    assert_int_equal(painted_find(&painted, 2, "\u2514emulsion", &col), 3);
    assert_string_equal(painted_cell(&painted, 2, col), "\u2502");
    assert_int_equal(painted_find(&painted, 2, "\u2514combined", &col), 4);
    assert_string_equal(painted_cell(&painted, 2, col), "\u2502");
    assert_string_equal(painted_cell(&painted, 3, col), "\u2502");
    painted_done(&painted);
}

static void what_has_no_room_is_counted(void **state)
{
    static const struct timeline_event events[] = {{0, "combined"}, {3, "emulsion"}, {6, "thin"}, {60, "piped"}};
    struct painted painted;

    (void)state;
    painted_start(&painted, 3, 61);
    assert_int_equal(timeline_paint(&painted.canvas, events, 4, "min", NULL), 2);
    assert_int_equal(painted_find(&painted, 0, "combined", NULL), -1);
    assert_int_equal(painted_find(&painted, 0, "thin", NULL), 2);
    painted_done(&painted);
    painted_start(&painted, 1, 61);
    assert_int_equal(timeline_paint(&painted.canvas, events, 4, "min", NULL), 4);
    painted_done(&painted);
}

static void all_at_one_moment_and_none_are_drawn(void **state)
{
    static const struct timeline_event events[] = {{0, "combined"}, {0, "emulsion"}};
    struct painted painted;
    int rows;

    (void)state;
    painted_start(&painted, 6, 61);
    assert_int_equal(timeline_paint(&painted.canvas, events, 2, "min", &rows), 0);
    assert_int_equal(rows, 4);
    assert_int_equal(painted_find(&painted, 2, "\u2514emulsion", NULL), 2);
    assert_int_equal(painted_find(&painted, 2, "\u2514combined", NULL), 3);
    assert_int_equal(timeline_paint(&painted.canvas, events, 0, "min", &rows), 0);
    assert_int_equal(rows, 0);
    painted_done(&painted);
}

/* Property: of every label that is counted as drawn all of it stands, unless the window is narrower than the label. */
static void no_label_lies_over_another(void **state)
{
    struct timeline_event events[12];
    struct painted painted;
    unsigned seed = 1;

    (void)state;
    for (int round = 0; round < 2000; round++) {
        double at = 0;
        int n = round % 12 + 1, out, seen = 0;

        for (int i = 0; i < n; i++) {
            at += (seed = seed * 1103515245u + 12345u) >> 16 & 15;
            events[i].at = at;
            snprintf(events[i].label, sizeof events[i].label, "event-%c%.*s;", 'a' + i, (int)(seed >> 20 & 7),
                     "-------");
        }
        painted_start(&painted, 14, 40 + round % 41);
        out = timeline_paint(&painted.canvas, events, n, "h", NULL);
        for (int i = 0; i < n; i++)
            seen += painted_find(&painted, 2, events[i].label, NULL) >= 0;
        assert_int_equal(seen, n - out);
        painted_done(&painted);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(labels_hang_where_they_happened), cmocka_unit_test(labels_that_would_meet_go_down_on_threads),
        cmocka_unit_test(what_has_no_room_is_counted),     cmocka_unit_test(all_at_one_moment_and_none_are_drawn),
        cmocka_unit_test(no_label_lies_over_another),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
