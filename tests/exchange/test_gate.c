/* test_gate.c - what the gate lets through. The grammar is that of RFC 8259; test_schema.c holds the same texts
 * against a JSON reader that is not ours.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "base/buffer.h"
#include "exchange/gate.h"
#include "lexical.h"

static enum lw_status check(const char *text, size_t n, struct lw_error *error)
{
    /* A copy of exactly n bytes, so that a sanitizer sees a step beyond them. */
    char *copy = malloc(n + 1);
    enum lw_status status;

    assert_non_null(copy);
    copy = realloc(copy, n > 0 ? n : 1);
    memcpy(copy, text, n);
    status = gate_check(copy, n, "x.json", error);
    free(copy);
    return status;
}

static void json_passes_and_what_is_not_is_stopped_with_line_and_column(void **state)
{
    (void)state;
    for (size_t i = 0; i < LEXICALS; i++) {
        const struct lexical *row = &lexical[i];
        struct lw_error error = {""};
        size_t n = row->n > 0 ? row->n : strlen(row->text);
        enum lw_status status = check(row->text, n, &error);

        if ((status == LW_OK) != (row->verdict == PASSES) || strstr(error.text, row->says) == NULL)
            fail_msg("row %zu, %s: wanted \"%s\", got \"%s\"", i, row->text, row->says, error.text);
        if (status != LW_OK)
            assert_memory_equal(error.text, "x.json: line ", 13);
    }
}

static void every_part_of_a_good_text_alone_is_stopped(void **state)
{
    static const char text[] = "{\"a\": [1.5e3, \"\\u00e9\\n\", true, null, {\"b\": \"\xE6\xBC\xA2\"}]}";
    struct lw_error error;

    (void)state;
    assert_int_equal(check(text, sizeof text - 1, &error), LW_OK);
    for (size_t n = 0; n < sizeof text - 1; n++)
        assert_int_equal(check(text, n, &error), LW_INVALID);
}

static void thirty_two_levels_pass_and_thirty_three_do_not(void **state)
{
    char text[80];
    struct lw_error error;

    (void)state;
    for (int depth = 32; depth <= 33; depth++) {
        memset(text, '[', (size_t)depth);
        memset(text + depth, ']', (size_t)depth);
        assert_int_equal(check(text, (size_t)depth * 2, &error), depth == 32 ? LW_OK : LW_INVALID);
    }
    assert_non_null(strstr(error.text, "column 33: found '[', expected at most 32 objects and lists"));
}

static void a_million_opening_brackets_are_stopped_at_the_33rd(void **state)
{
    size_t n = 1000000;
    char *text = malloc(n);
    struct lw_error error;

    (void)state;
    memset(text, '[', n);
    assert_int_equal(check(text, n, &error), LW_INVALID);
    assert_non_null(strstr(error.text, "column 33"));
    free(text);
}

/* An object of n members with different names, many times over. */
static void add_object(struct buffer *text, int members)
{
    buffer_add(text, "{");
    for (int i = 0; i < members; i++)
        buffer_add(text, "%s\"member%d\":0", i > 0 ? "," : "", i);
    buffer_add(text, "}");
}

static void an_object_holds_256_members_and_no_more(void **state)
{
    struct lw_error error;

    (void)state;
    for (int members = 256; members <= 257; members++) {
        struct buffer text;
        buffer_init(&text, 100000);
        add_object(&text, members);
        assert_int_equal(check(buffer_text(&text), text.length, &error), members == 256 ? LW_OK : LW_INVALID);
        buffer_done(&text);
    }
    assert_non_null(strstr(error.text, "expected at most 256 members"));
}

/* The list itself is a value too. */
static void values_are_counted(void **state)
{
    static const size_t numbers[] = {GATE_VALUES - 1, GATE_VALUES};
    struct lw_error error;

    (void)state;
    for (size_t i = 0; i < 2; i++) {
        size_t n = 2 * numbers[i] + 1;
        char *text = malloc(n);
        assert_non_null(text);
        for (size_t at = 0; at < n; at++)
            text[at] = at % 2 == 0 ? ',' : '1';
        text[0] = '[';
        text[n - 1] = ']';
        assert_int_equal(gate_check(text, n, "x.json", &error), i == 0 ? LW_OK : LW_INVALID);
        free(text);
    }
    assert_non_null(strstr(error.text, "expected at most 4000000 values"));
}

static double seconds_for(int objects)
{
    struct buffer text;
    struct timespec from, to;
    struct lw_error error;

    buffer_init(&text, (size_t)64 << 20);
    buffer_add(&text, "[");
    for (int i = 0; i < objects; i++) {
        buffer_add(&text, i > 0 ? "," : "");
        add_object(&text, GATE_MEMBERS);
    }
    buffer_add(&text, "]");
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &from);
    assert_int_equal(gate_check(buffer_text(&text), text.length, "x.json", &error), LW_OK);
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &to);
    buffer_done(&text);
    return (double)(to.tv_sec - from.tv_sec) + (double)(to.tv_nsec - from.tv_nsec) * 1e-9;
}

/* The text that costs most a byte: objects as full as they may be. Eight times the text may take at most 24 times the
 * time; a quadratic search would take 64 times. */
static void time_grows_with_the_text_and_not_with_its_square(void **state)
{
    double least = 1e9, most = 1e9;

    (void)state;
    for (int i = 0; i < 5; i++) {
        double one = seconds_for(40), eight = seconds_for(320);
        least = one < least ? one : least;
        most = eight < most ? eight : most;
    }
    assert_true(most < 24 * least);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(json_passes_and_what_is_not_is_stopped_with_line_and_column),
        cmocka_unit_test(every_part_of_a_good_text_alone_is_stopped),
        cmocka_unit_test(thirty_two_levels_pass_and_thirty_three_do_not),
        cmocka_unit_test(a_million_opening_brackets_are_stopped_at_the_33rd),
        cmocka_unit_test(an_object_holds_256_members_and_no_more),
        cmocka_unit_test(values_are_counted),
        cmocka_unit_test(time_grows_with_the_text_and_not_with_its_square),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
