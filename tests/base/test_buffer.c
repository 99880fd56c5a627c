/* test_buffer.c - a growing text, and the sentence of a failure. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "base/buffer.h"
#include "base/error.h"

static void an_empty_buffer_has_an_empty_text(void **state)
{
    struct buffer buffer;
    struct lw_error error;

    (void)state;
    buffer_init(&buffer, 10);
    assert_string_equal(buffer_text(&buffer), "");
    assert_int_equal(buffer_status(&buffer, &error), LW_OK);
    buffer_add_bytes(&buffer, "", 0);
    assert_string_equal(buffer_text(&buffer), "");
    buffer_done(&buffer);
}

static void pieces_follow_each_other(void **state)
{
    struct buffer buffer;
    char expected[5000] = "";

    (void)state;
    buffer_init(&buffer, 5000);
    for (int i = 0; i < 400; i++) {
        buffer_add(&buffer, "%d,", i);
        buffer_add_bytes(&buffer, "xyz", 2);
        int n = 0, value = i;
        char digits[8];
        do
            digits[n++] = (char)('0' + value % 10);
        while ((value /= 10) > 0);
        while (n > 0)
            strncat(expected, &digits[--n], 1);
        strcat(expected, ",xy");
    }
    assert_string_equal(buffer_text(&buffer), expected);
    assert_int_equal(buffer.length, strlen(expected));
    assert_int_equal(buffer_status(&buffer, NULL), LW_OK);
    buffer_done(&buffer);
}

static void one_piece_may_be_larger_than_the_room(void **state)
{
    struct buffer buffer;
    char big[3000];

    (void)state;
    memset(big, 'b', sizeof big - 1);
    big[sizeof big - 1] = '\0';
    buffer_init(&buffer, 10000);
    buffer_add(&buffer, "a");
    buffer_add(&buffer, "%s|", big);
    assert_int_equal(buffer.length, 1 + sizeof big - 1 + 1);
    assert_string_equal(buffer_text(&buffer) + sizeof big, "|");
    buffer_done(&buffer);
}

static void bytes_may_hold_a_nul(void **state)
{
    struct buffer buffer;

    (void)state;
    buffer_init(&buffer, 10);
    buffer_add_bytes(&buffer, "a\0b", 3);
    assert_int_equal(buffer.length, 3);
    assert_memory_equal(buffer.data, "a\0b", 4);
    buffer_done(&buffer);
}

static void the_limit_is_exact_and_failure_stays(void **state)
{
    struct buffer buffer;
    struct lw_error error = {"before"};

    (void)state;
    buffer_init(&buffer, 5);
    buffer_add(&buffer, "12345");
    assert_int_equal(buffer_status(&buffer, &error), LW_OK);
    assert_string_equal(error.text, "before");
    buffer_add(&buffer, "6");
    assert_int_equal(buffer_status(&buffer, &error), LW_FULL);
    assert_non_null(strstr(error.text, "5 bytes"));
    assert_string_equal(buffer_text(&buffer), "12345");

    buffer_done(&buffer);
    buffer_init(&buffer, 5);
    buffer_add(&buffer, "123");
    buffer_add_bytes(&buffer, "456", 3);
    buffer_add(&buffer, "4");
    buffer_add_bytes(&buffer, "4", 1);
    assert_string_equal(buffer_text(&buffer), "123");
    assert_int_equal(buffer_status(&buffer, &error), LW_FULL);
    buffer_done(&buffer);
}

static void a_failure_returns_its_status_and_keeps_its_sentence(void **state)
{
    struct lw_error error;

    (void)state;
    assert_int_equal(lw_fail(&error, LW_BUSY, "%s is held by %d others.", "It", 2), LW_BUSY);
    assert_string_equal(error.text, "It is held by 2 others.");
    assert_int_equal(lw_fail(NULL, LW_IO, "unheard"), LW_IO);
}

static void a_sentence_may_be_made_of_the_one_before(void **state)
{
    struct lw_error error;

    (void)state;
    lw_fail(&error, LW_IO, "inner");
    lw_fail(&error, LW_IO, "outer: %s", error.text);
    assert_string_equal(error.text, "outer: inner");
}

static void a_sentence_cannot_steer_a_terminal(void **state)
{
    struct lw_error error;

    (void)state;
    lw_fail(&error, LW_INVALID, "%s",
            "a\x1B[2Jb\nc\xE2\x80\xAE"
            "d\xFF"
            "e\xC3\xA9");
    assert_string_equal(error.text, "a?[2Jb?c?d?e\xC3\xA9");
}

static void a_long_sentence_is_cut_at_a_whole_character(void **state)
{
    struct lw_error error;
    char text[700];

    (void)state;
    for (size_t i = 0; i + 2 < sizeof text; i += 2)
        memcpy(text + i, "\xC3\xA9", 3);
    lw_fail(&error, LW_INVALID, "%s", text);
    assert_int_equal(strlen(error.text), 510); /* 511 fit, the 256th would be half */
    lw_fail(&error, LW_INVALID, "x%s", text);
    assert_int_equal(strlen(error.text), 511);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_empty_buffer_has_an_empty_text),
        cmocka_unit_test(pieces_follow_each_other),
        cmocka_unit_test(one_piece_may_be_larger_than_the_room),
        cmocka_unit_test(bytes_may_hold_a_nul),
        cmocka_unit_test(the_limit_is_exact_and_failure_stays),
        cmocka_unit_test(a_failure_returns_its_status_and_keeps_its_sentence),
        cmocka_unit_test(a_sentence_may_be_made_of_the_one_before),
        cmocka_unit_test(a_sentence_cannot_steer_a_terminal),
        cmocka_unit_test(a_long_sentence_is_cut_at_a_whole_character),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
