/* A text of several lines: what keys make of it, how it is broken into rows, and that nothing that is typed can break it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "base/utf8.h"
#include "support/random_recipe.h"
#include "ui/kit/area.h"

enum { ROWS = 6, COLS = 21 }; /* 20 for the text, one for the cursor behind it */

static void press(struct area *area, enum key_code code)
{
    area_key(area, &(struct key){.code = code});
}

static void type(struct area *area, const char *text)
{
    for (; *text; text++)
        if (*text == '\n')
            press(area, KEY_RETURN);
        else
            area_key(area, &(struct key){.code = KEY_CHARACTER, .point = (unsigned char)*text});
}

struct painted {
    char row[ROWS][COLS * GLYPH_BYTES];
    int cursor_row, cursor_col;
};

static struct painted paint(struct area *area)
{
    static struct surface surface;
    struct painted out = {.cursor_row = -1};

    assert_true(surface_resize(&surface, ROWS, COLS));
    area_paint(area, &(struct canvas){.surface = &surface, .rows = ROWS, .cols = COLS});
    for (int row = 0; row < ROWS; row++) {
        for (int col = 0; col < COLS; col++)
            strcat(out.row[row], surface.cell[row * COLS + col].text);
        for (size_t n = strlen(out.row[row]); n > 0 && out.row[row][n - 1] == ' '; n--)
            out.row[row][n - 1] = '\0';
    }
    out.cursor_row = surface.cursor_row;
    out.cursor_col = surface.cursor_col;
    surface_done(&surface);
    return out;
}

static void the_cursor_is_at(const struct painted *painted, int row, int col)
{
    assert_int_equal(painted->cursor_row, row);
    assert_int_equal(painted->cursor_col, col);
}

static void lines_are_typed_and_long_ones_break_at_blanks(void **state)
{
    struct area area;
    struct painted painted;

    (void)state;
    area_start(&area, "", 200);
    type(&area, "poured at thirty-four degrees\n\nthen wrapped");
    assert_string_equal(area.text, "poured at thirty-four degrees\n\nthen wrapped");
    painted = paint(&area);
    assert_string_equal(painted.row[0], "poured at");
    assert_string_equal(painted.row[1], "thirty-four degrees");
    assert_string_equal(painted.row[2], "");
    assert_string_equal(painted.row[3], "then wrapped");
    the_cursor_is_at(&painted, 3, 12);
}

static void a_word_longer_than_a_row_is_cut_and_a_newline_at_the_end_shows(void **state)
{
    struct area area;
    struct painted painted;

    (void)state;
    area_start(&area, "abcdefghijklmnopqrstuvwxy\n", 200);
    painted = paint(&area);
    assert_string_equal(painted.row[0], "abcdefghijklmnopqrst");
    assert_string_equal(painted.row[1], "uvwxy");
    the_cursor_is_at(&painted, 2, 0);
}

static void up_and_down_go_by_rows_and_keep_the_column(void **state)
{
    struct area area;
    struct painted painted;

    (void)state;
    area_start(&area, "one two three four five six\nseven", 200);
    paint(&area);
    press(&area, KEY_ARROW_UP);
    painted = paint(&area);
    the_cursor_is_at(&painted, 1, 5);
    press(&area, KEY_ARROW_UP);
    painted = paint(&area);
    the_cursor_is_at(&painted, 0, 5);
    press(&area, KEY_ARROW_UP);
    painted = paint(&area);
    the_cursor_is_at(&painted, 0, 5);
    press(&area, KEY_ARROW_DOWN);
    press(&area, KEY_ARROW_DOWN);
    press(&area, KEY_ARROW_DOWN);
    painted = paint(&area);
    the_cursor_is_at(&painted, 2, 5);
}

static void home_end_and_deleting_to_an_end_keep_to_the_line(void **state)
{
    struct area area;

    (void)state;
    area_start(&area, "first\nsecond\nthird", 200);
    paint(&area);
    press(&area, KEY_ARROW_UP);
    press(&area, KEY_TO_START);
    assert_int_equal(area.cursor, 6);
    press(&area, KEY_TO_END);
    assert_int_equal(area.cursor, 12);
    area_key(&area, &(struct key){.code = KEY_CONTROL, .point = 'u'});
    assert_string_equal(area.text, "first\n\nthird");
    press(&area, KEY_ERASE);
    assert_string_equal(area.text, "first\nthird");
    press(&area, KEY_DEL);
    assert_string_equal(area.text, "firstthird");
}

static void a_paste_keeps_its_lines_and_leaves_out_what_cannot_be_shown(void **state)
{
    struct area area;

    (void)state;
    area_start(&area, "", 200);
    area_key(&area, &(struct key){.code = KEY_PASTE, .paste = "a\nb\033[31m\001c\nd"});
    assert_string_equal(area.text, "a\nb[31mc\nd");
}

static void marks_stay_with_their_letter(void **state)
{
    struct area area;

    (void)state;
    area_start(&area, "re\xcc\x81", 200); /* e and U+0301 */
    press(&area, KEY_ERASE);
    assert_string_equal(area.text, "r");
}

static void the_limit_holds_at_a_whole_character(void **state)
{
    static char long_text[AREA_BYTES + 100];
    struct area area;

    (void)state;
    memset(long_text, 'x', sizeof long_text - 1);
    area_start(&area, long_text, 100000);
    assert_int_equal(strlen(area.text), AREA_BYTES - 1);
    assert_int_equal(area_key(&area, &(struct key){.code = KEY_CHARACTER, .point = 'y'}), FIELD_FULL);
    area_start(&area, "abc\xc3\xa9", 4);
    assert_string_equal(area.text, "abc");
}

static struct key random_key(struct chance *chance)
{
    static const uint32_t points[] = {'a', ' ', 'z', 0xe9, 0x301, 0x6f22, 0x1f34b, 0x202e, 0x7f, '-'};
    static const enum key_code codes[] = {KEY_RETURN,     KEY_ERASE,    KEY_DEL,    KEY_ARROW_UP,   KEY_ARROW_DOWN,
                                          KEY_ARROW_LEFT, KEY_TO_START, KEY_TO_END, KEY_ARROW_RIGHT};
    static const char controls[] = "aekuw";

    switch (chance_below(chance, 8)) {
    case 0:
    case 1:
        return (struct key){.code = codes[chance_below(chance, 9)]};
    case 2:
        return (struct key){.code = KEY_CONTROL, .point = (uint32_t)controls[chance_below(chance, 5)]};
    case 3:
        return (struct key){.code = KEY_PASTE, .paste = "two lines\nof \xe6\xbc\xa2 and e\xcc\x81\n"};
    default:
        return (struct key){.code = KEY_CHARACTER, .point = points[chance_below(chance, 10)]};
    }
}

/* Property: after whatever keys the text is whole UTF-8 within its limit, the cursor stands before a character and shows. */
static void no_keys_break_the_text(void **state)
{
    struct chance chance = chance_of(4095);
    struct area area;

    (void)state;
    for (int round = 0; round < 40; round++) {
        area_start(&area, "", (size_t)(20 + chance_below(&chance, 400)));
        for (int i = 0; i < 300; i++) {
            struct key key = random_key(&chance);
            struct painted painted;

            area_key(&area, &key);
            assert_true(strlen(area.text) <= area.limit);
            assert_true(utf8_valid(area.text, strlen(area.text), &(size_t){0}));
            assert_true(area.cursor <= strlen(area.text) && (area.text[area.cursor] & 0xC0) != 0x80);
            painted = paint(&area);
            assert_in_range(painted.cursor_row, 0, ROWS - 1);
            assert_in_range(painted.cursor_col, 0, COLS - 1);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines_are_typed_and_long_ones_break_at_blanks),
        cmocka_unit_test(a_word_longer_than_a_row_is_cut_and_a_newline_at_the_end_shows),
        cmocka_unit_test(up_and_down_go_by_rows_and_keep_the_column),
        cmocka_unit_test(home_end_and_deleting_to_an_end_keep_to_the_line),
        cmocka_unit_test(a_paste_keeps_its_lines_and_leaves_out_what_cannot_be_shown),
        cmocka_unit_test(marks_stay_with_their_letter),
        cmocka_unit_test(the_limit_holds_at_a_whole_character),
        cmocka_unit_test(no_keys_break_the_text),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
