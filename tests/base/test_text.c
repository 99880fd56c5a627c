/* test_text.c - bounded strings and the distance of names. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "base/text.h"

static void a_copy_is_never_cut_inside_a_character(void **state)
{
    /* "aé€😀" has characters of 1, 2, 3 and 4 bytes. */
    static const char text[] = "a\xC3\xA9\xE2\x82\xAC\xF0\x9F\x98\x80";
    static const size_t whole[] = {0, 0, 1, 1, 3, 3, 3, 6, 6, 6, 6, 10, 10};
    char to[16];

    (void)state;
    for (size_t size = 1; size <= 12; size++) {
        memset(to, 'x', sizeof to);
        assert_int_equal(text_copy(to, size, text), size == 11 || size == 12);
        assert_int_equal(strlen(to), whole[size]);
        assert_memory_equal(to, text, whole[size]);
        assert_int_equal(to[size], 'x');
    }
    assert_false(text_copy(to, 0, "a"));
}

static void appending_keeps_to_the_same_rule(void **state)
{
    char to[8] = "ab";

    (void)state;
    assert_true(text_add(to, sizeof to, "%d", 12));
    assert_string_equal(to, "ab12");
    assert_false(text_add(to, sizeof to, "%s", "\xE2\x82\xAC\xE2\x82\xAC"));
    assert_string_equal(to, "ab12\xE2\x82\xAC");
    assert_false(text_add(to, sizeof to, "%s", "x"));
    assert_string_equal(to, "ab12\xE2\x82\xAC");
    assert_true(text_add(to, sizeof to, "%s", ""));
}

static void only_ascii_letters_lose_their_case(void **state)
{
    (void)state;
    assert_true(text_same("Canola", "cANOLA"));
    assert_false(text_same("Canola", "canol"));
    assert_false(text_same("[", "{"));
    assert_false(text_same("\xC3\x84", "\xC3\xA4")); /* A and a with diaeresis */
    assert_true(text_same("", ""));
}

static void a_word_is_found_anywhere(void **state)
{
    (void)state;
    assert_true(text_has("Olive oil, refined", "OIL"));
    assert_true(text_has("aaab", "aab"));
    assert_true(text_has("abc", ""));
    assert_true(text_has("", ""));
    assert_false(text_has("", "a"));
    assert_false(text_has("oi", "oil"));
}

/* kitten and sitting, sunday and saturday: the examples that textbooks give for this distance (from memory; common to
 * descriptions of the algorithm of Wagner and Fischer, J. ACM 21, 1974). The others follow from its definition. */
static void distances_are_those_of_the_textbooks(void **state)
{
    static const struct {
        const char *a, *b;
        size_t distance;
    } cases[] = {
        {"kitten", "sitting", 3}, {"sunday", "saturday", 3},    {"", "", 0},           {"", "abc", 3},
        {"flaw", "lawn", 2},      {"Olive", "olive", 0},        {"oliev", "olive", 2}, {"a", "b", 1},
        {"\xC3\xA9", "e", 1},     {"cr\xC3\xA8me", "creme", 1},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        assert_int_equal(text_distance(cases[i].a, cases[i].b, 10), cases[i].distance);
        assert_int_equal(text_distance(cases[i].b, cases[i].a, 10), cases[i].distance);
    }
}

static void beyond_the_most_it_is_one_more(void **state)
{
    (void)state;
    assert_int_equal(text_distance("kitten", "sitting", 3), 3);
    assert_int_equal(text_distance("kitten", "sitting", 2), 3);
    assert_int_equal(text_distance("kitten", "sitting", 0), 1);
    assert_int_equal(text_distance("aaa", "bbb", 3), 3);
    assert_int_equal(text_distance("", "abcdef", 2), 3);
    assert_int_equal(text_distance("abcdef", "", 2), 3);
}

static void names_longer_than_255_bytes_compare_as_far(void **state)
{
    char a[600], b[600];

    (void)state;
    memset(a, 'a', sizeof a - 1);
    memset(b, 'a', sizeof b - 1);
    a[sizeof a - 1] = b[sizeof b - 1] = '\0';
    b[300] = 'b';
    assert_int_equal(text_distance(a, b, 255), 0);
    b[100] = 'b';
    assert_int_equal(text_distance(a, b, 255), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_copy_is_never_cut_inside_a_character),
        cmocka_unit_test(appending_keeps_to_the_same_rule),
        cmocka_unit_test(only_ascii_letters_lose_their_case),
        cmocka_unit_test(a_word_is_found_anywhere),
        cmocka_unit_test(distances_are_those_of_the_textbooks),
        cmocka_unit_test(beyond_the_most_it_is_one_more),
        cmocka_unit_test(names_longer_than_255_bytes_compare_as_far),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
