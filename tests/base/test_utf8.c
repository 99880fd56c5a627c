/* test_utf8.c - text from outside. The well-formed sequences are those of the Unicode Standard, table 3-7; widths are compared
 * with the C library's own table. */
#define _XOPEN_SOURCE 700 /* wcwidth */
#include <locale.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>
#include <wchar.h>
#include <wctype.h>
#include <cmocka.h>

#include "base/utf8.h"

static void every_code_point_goes_there_and_back(void **state)
{
    (void)state;
    for (uint32_t point = 0; point <= 0x10FFFF; point++) {
        char bytes[4];
        uint32_t back;
        size_t length, bad;

        if (point >= 0xD800 && point <= 0xDFFF)
            continue;
        length = utf8_put(point, bytes);
        if (utf8_next(bytes, length, &back) != length || back != point || !utf8_valid(bytes, length, &bad))
            fail_msg("U+%04X came back as U+%04X", point, back);
    }
}

/* Encodings as in RFC 3629, section 7 (examples) and table 3-7 (limits of each length). */
static void known_sequences_are_decoded(void **state)
{
    static const struct {
        const char *bytes;
        uint32_t point;
    } cases[] = {
        {"A", 0x41},
        {"\xC2\x80", 0x80},
        {"\xDF\xBF", 0x7FF},
        {"\xE0\xA0\x80", 0x800},
        {"\xE2\x89\xA2", 0x2262},
        {"\xED\x95\x9C", 0xD55C},
        {"\xE6\x97\xA5", 0x65E5},
        {"\xEF\xBF\xBF", 0xFFFF},
        {"\xF0\xA3\x8E\xB4", 0x233B4},
        {"\xF4\x8F\xBF\xBF", 0x10FFFF},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        uint32_t point;
        assert_int_equal(utf8_next(cases[i].bytes, strlen(cases[i].bytes), &point), strlen(cases[i].bytes));
        assert_int_equal(point, cases[i].point);
    }
}

static void broken_sequences_are_one_bad_byte(void **state)
{
    static const char *const broken[] = {
        "\x80",
        "\xBF",
        "\xC0\x80",
        "\xC1\xBF",
        "\xE0\x80\x80",
        "\xE0\x9F\xBF",
        "\xF0\x80\x80\x80",
        "\xF0\x8F\xBF\xBF", /* overlong */
        "\xED\xA0\x80",
        "\xED\xBF\xBF", /* surrogates */
        "\xF4\x90\x80\x80",
        "\xF5\x80\x80\x80",
        "\xFE",
        "\xFF", /* too large */
        "\xC2",
        "\xE2\x82",
        "\xF0\x9F\x98",
        "\xC2"
        "A",
        "\xE2\x82"
        "A",
        "\xF0\x9F"
        "AA", /* cut off */
    };

    (void)state;
    for (size_t i = 0; i < sizeof broken / sizeof broken[0]; i++) {
        uint32_t point = 0;
        size_t bad = 99, n = strlen(broken[i]);
        char text[8];

        assert_int_equal(utf8_next(broken[i], n, &point), 1);
        assert_int_equal(point, UTF8_BROKEN);
        text[0] = 'a';
        memcpy(text + 1, broken[i], n);
        assert_false(utf8_valid(text, n + 1, &bad));
        assert_int_equal(bad, 1);
    }
}

/* mbrtowc of the C library under a UTF-8 locale is the outside judge of what is well-formed. */
static void random_bytes_are_judged_as_the_c_library_does(void **state)
{
    unsigned seed = 12345;
    int well_formed = 0;

    if (!setlocale(LC_CTYPE, "C.UTF-8"))
        fail_msg("the locale C.UTF-8 is missing: %s", (const char *)*state);
    for (int round = 0; round < 200000; round++) {
        char bytes[4];
        uint32_t point;
        wchar_t wide;
        mbstate_t shift = {0};

        for (size_t i = 0; i < 4; i++) {
            seed = seed * 1103515245U + 12345U;
            bytes[i] = (char)((seed >> 16) % 4 ? 0x80 | (seed >> 16 & 0x7F) : seed >> 16 & 0xFF);
        }
        size_t theirs = mbrtowc(&wide, bytes, 4, &shift);
        size_t ours = utf8_next(bytes, 4, &point);
        bool broken = ours == 1 && point == UTF8_BROKEN;

        if (bytes[0] == '\0')
            continue;
        /* glibc still takes the five-bit forms above U+10FFFF that RFC 3629 took out of UTF-8. */
        assert_int_equal(broken, theirs > 4 || wide > 0x10FFFF);
        if (!broken) {
            assert_int_equal(ours, theirs);
            assert_int_equal(point, wide);
            well_formed++;
        }
    }
    assert_true(well_formed > 10000);
}

static void a_cut_character_is_left_off(void **state)
{
    (void)state;
    assert_int_equal(utf8_whole("", 0), 0);
    assert_int_equal(utf8_whole("ab", 2), 2);
    assert_int_equal(utf8_whole("a\xC3\xA9", 3), 3);
    assert_int_equal(utf8_whole("a\xC3\xA9", 2), 1);
    assert_int_equal(utf8_whole("a\xF0\x9F\x98\x80", 5), 5);
    assert_int_equal(utf8_whole("a\xF0\x9F\x98\x80", 4), 1);
    assert_int_equal(utf8_whole("a\xF0\x9F\x98\x80", 2), 1);
    assert_int_equal(utf8_whole("\x80\x80\x80\x80", 4), 4); /* broken anyway: nothing to save */
}

static void what_steers_a_terminal_or_the_direction_is_not_printable(void **state)
{
    static const uint32_t refused[] = {0,      9,      10,     0x1B,   0x1F,    0x7F,     0x80,    0x9B,   0x9F,
                                       0x61C,  0x200E, 0x200F, 0x202A, 0x202E,  0x2066,   0x2069,  0xD800, 0xDFFF,
                                       0xFDD0, 0xFDEF, 0xFFFE, 0xFFFF, 0x1FFFE, 0x10FFFF, 0x110000};
    static const uint32_t taken[] = {' ',    '~',    0xA0,   0xE9,    0x301,  0x2010, 0x2029,
                                     0x202F, 0x206A, 0xFFFD, 0x1F33F, 0xFDCF, 0xFDF0};

    (void)state;
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++)
        assert_false(utf8_printable(refused[i]));
    for (size_t i = 0; i < sizeof taken / sizeof taken[0]; i++)
        assert_true(utf8_printable(taken[i]));
}

/* Unicode Standard Annex 11 (East Asian Width) and the general categories of the Unicode Character Database. */
static void known_characters_have_their_width(void **state)
{
    static const struct {
        uint32_t point;
        int width;
    } cases[] = {
        {'a', 1},     {0xE9, 1},    {0x2026, 1},   {0xAD, 1}, /* a, e acute, ellipsis, soft hyphen */
        {0x300, 0},   {0x36F, 0},   {0x200B, 0},   {0x200D, 0},
        {0xFE0F, 0},  {0x20DD, 0}, /* marks, zero width space and joiner, selector */
        {0x1100, 2},  {0x1160, 0},  {0x3042, 2},   {0x4E00, 2},
        {0xAC00, 2},  {0xFF01, 2},  {0xFF61, 1}, /* Jamo, kana, Han, Hangul, forms */
        {0x1F33F, 2}, {0x2764, 1},  {0x4DC0, 2},   {0x4DFF, 2},
        {0x20000, 2}, {0x3FFFD, 2}, {0x10FFFD, 1},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        if (utf8_width(cases[i].point) != cases[i].width)
            fail_msg("U+%04X is %d wide, not %d", cases[i].point, utf8_width(cases[i].point), cases[i].width);
    }
}

/* A terminal follows wcwidth. The circled numbers on black squares are of ambiguous width, which glibc takes as wide; a C
 * library of a later Unicode knows up to some hundred marks and signs more, of over a quarter million compared. */
static void widths_are_those_of_the_c_library(void **state)
{
    int compared = 0, differ = 0;

    if (!setlocale(LC_CTYPE, "C.UTF-8"))
        fail_msg("the locale C.UTF-8 is missing: %s", (const char *)*state);
    for (uint32_t point = 0x20; point <= 0x10FFFF; point++) {
        int theirs = wcwidth((wchar_t)point);

        if (theirs < 0 || !utf8_printable(point) || (point >= 0x3248 && point <= 0x324F))
            continue;
        compared++;
        differ += utf8_width(point) != theirs;
    }
    assert_true(compared > 250000);
    assert_in_range(differ, 0, 100);
}

static void columns_count_what_is_drawn(void **state)
{
    (void)state;
    assert_int_equal(utf8_columns(""), 0);
    assert_int_equal(utf8_columns("abc"), 3);
    assert_int_equal(utf8_columns("e\xCC\x81"), 1);
    assert_int_equal(utf8_columns("\xE4\xB8\x80x"), 3);
    assert_int_equal(utf8_columns("\x1B[31m"), 5);
    assert_int_equal(utf8_columns("\xFF\xFE"), 2);
}

static void cleaned(const char *from, size_t columns, const char *expected)
{
    char out[64];

    utf8_clean(out, sizeof out, from, columns);
    assert_string_equal(out, expected);
    assert_true(utf8_columns(out) <= columns);
}

static void a_clean_text_is_harmless(void **state)
{
    (void)state;
    cleaned("Olive oil", 20, "Olive oil");
    cleaned("\x1B]0;title\x07", 20, "?]0;title?");
    cleaned("a\xE2\x80\xAE"
            "b",
            20, "a?b"); /* right-to-left override */
    cleaned("\xC0\xAF\xFF", 20, "???");
    cleaned("\xEF\xBF\xBD", 20, "\xEF\xBF\xBD"); /* a real replacement character stays */
    cleaned("e\xCC\x81\xCC\x81\xCC\x81\xCC\x81\xCC\x81\xCC\x81x", 20, "e\xCC\x81\xCC\x81\xCC\x81\xCC\x81x");
}

static void a_long_text_keeps_its_beginning_and_end(void **state)
{
    (void)state;
    cleaned("abcdefghij", 10, "abcdefghij");
    cleaned("abcdefghij", 9, "abcd\xE2\x80\xA6ghij");
    cleaned("abcdefghij", 4, "ab\xE2\x80\xA6j");
    cleaned("abcdefghij", 1, "\xE2\x80\xA6");
    cleaned("abcdefghij", 0, "");
    cleaned("\xE4\xB8\x80\xE4\xB8\x81\xE4\xB8\x82", 4,
            "\xE4\xB8\x80\xE2\x80\xA6"); /* half a wide character has no place */
    cleaned("\xE4\xB8\x80\xE4\xB8\x81\xE4\xB8\x82", 5, "\xE4\xB8\x80\xE2\x80\xA6\xE4\xB8\x82");
    cleaned("abcd\xCC\x81xy", 5, "ab\xE2\x80\xA6xy"); /* no mark without its letter */
    cleaned("abcde\xCC\x81", 4,
            "ab\xE2\x80\xA6"
            "e\xCC\x81");
}

static void a_small_array_cuts_whole_characters(void **state)
{
    char out[8];

    (void)state;
    for (size_t size = 1; size < sizeof out; size++) {
        size_t bad;
        memset(out, 'x', sizeof out);
        utf8_clean(out, size, "\xE2\x82\xAC\xE2\x82\xAC", 10);
        assert_int_equal(strlen(out), (size - 1) / 3 * 3);
        assert_true(utf8_valid(out, strlen(out), &bad));
        assert_int_equal(out[size], 'x');
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_code_point_goes_there_and_back),
        cmocka_unit_test(known_sequences_are_decoded),
        cmocka_unit_test(broken_sequences_are_one_bad_byte),
        cmocka_unit_test(random_bytes_are_judged_as_the_c_library_does),
        cmocka_unit_test(a_cut_character_is_left_off),
        cmocka_unit_test(what_steers_a_terminal_or_the_direction_is_not_printable),
        cmocka_unit_test(known_characters_have_their_width),
        cmocka_unit_test(widths_are_those_of_the_c_library),
        cmocka_unit_test(columns_count_what_is_drawn),
        cmocka_unit_test(a_clean_text_is_harmless),
        cmocka_unit_test(a_long_text_keeps_its_beginning_and_end),
        cmocka_unit_test(a_small_array_cuts_whole_characters),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
