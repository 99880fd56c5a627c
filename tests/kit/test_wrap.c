/* A sentence broken into rows: at blanks, and cut with a sign where the rows do not take it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "kit/painted.h"

enum { COLS = 20 };

/* Rows that the text took of `most`; *first and *last are theirs. */
static int wrapped(const char *text, int most, char first[], char last[])
{
    struct painted painted;
    int rows;

    painted_start(&painted, 4, COLS);
    rows = canvas_wrap(&painted.canvas, 0, most, STYLE_PLAIN, text);
    painted_row(&painted, 0, first);
    painted_row(&painted, rows - 1, last);
    painted_done(&painted);
    return rows;
}

static void lines_break_at_blanks(void **state)
{
    char first[PAINTED_COLS * GLYPH_BYTES], last[PAINTED_COLS * GLYPH_BYTES];

    (void)state;
    assert_int_equal(wrapped("alkali into the water, never the other way", 4, first, last), 3);
    assert_string_equal(first, "alkali into the");
    assert_string_equal(last, "other way");
    assert_int_equal(wrapped("exactly twenty cells", 1, first, last), 1);
    assert_string_equal(first, "exactly twenty cells");
}

/* The end of a sentence often has the figure, so it is the middle that goes. */
static void what_does_not_fit_is_cut_in_the_middle_of_the_last_row(void **state)
{
    char first[PAINTED_COLS * GLYPH_BYTES], last[PAINTED_COLS * GLYPH_BYTES];

    (void)state;
    assert_int_equal(wrapped("alkali into the water, never the other way", 2, first, last), 2);
    assert_string_equal(first, "alkali into the");
    assert_string_equal(last, "water, nev…other way");
    assert_int_equal(wrapped("twenty cells or more of it", 1, first, last), 1);
    assert_string_equal(first, "twenty cel…ore of it");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines_break_at_blanks),
        cmocka_unit_test(what_does_not_fit_is_cut_in_the_middle_of_the_last_row),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
