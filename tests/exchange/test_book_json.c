/* Lines of the book as JSON, held against the schema by a validator that is not ours (python3-jsonschema). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "exchange/book_json.h"
#include "validator.h"

static struct book_line line_with(double figure)
{
    struct book_line line = {.number = "26-031",
                             .name = "Blossoms \"and\" leaves",
                             .revision = 2,
                             .started_s = 1773486000,
                             .offset_s = 3600,
                             .outcome = BOOK_ON_HOLD,
                             .technique = TECHNIQUE_PIPE,
                             .until_least = true};

    for (int i = 0; i < BOOK_FIGURE_COUNT; i++)
        line.figure[i] = figure;
    return line;
}

static void write(struct buffer *out, const struct book_line line[], int n)
{
    struct json_writer writer;

    buffer_init(out, 1 << 20);
    writer = book_json_begin(out);
    for (int i = 0; i < n; i++)
        book_json_line(&writer, &line[i]);
    book_json_end(&writer);
}

static void accepted(const struct buffer *out, bool good)
{
    struct validator_text text = {.text = buffer_text(out), .n = out->length};

    assert_int_equal(validator_ask("#/$defs/book", &text, 1), 0);
    assert_int_equal(text.accepted, good);
}

static void the_schema_takes_lines_with_every_figure_and_with_none(void **state)
{
    struct book_line line[] = {line_with(0.25), line_with(NAN), line_with(INFINITY)};
    struct buffer out;

    (void)state;
    write(&out, line, 3);
    accepted(&out, true);
    buffer_done(&out);
    write(&out, line, 0);
    accepted(&out, true);
    buffer_done(&out);
}

/* So that the check above can fail. */
static void the_schema_refuses_what_it_does_not_know(void **state)
{
    struct buffer out;

    (void)state;
    buffer_init(&out, 1024);
    buffer_add(&out, "{\"lyeway\": 1, \"book\": [{\"number\": \"1\"}]}");
    accepted(&out, false);
    buffer_done(&out);
}

static void a_line_says_whether_it_is_learned_from(void **state)
{
    struct book_line line = line_with(NAN);
    struct buffer out;

    (void)state;
    write(&out, &line, 1);
    assert_non_null(strstr(buffer_text(&out), "\"counts\": false"));
    buffer_done(&out);
    line.teaches = true;
    write(&out, &line, 1);
    assert_non_null(strstr(buffer_text(&out), "\"counts\": true"));
    buffer_done(&out);
}

static void shares_are_percent_and_what_was_not_taken_is_left_out(void **state)
{
    struct book_line line = line_with(NAN);
    struct buffer out;

    (void)state;
    line.figure[BOOK_SUPERFAT] = 0.0512;
    line.figure[BOOK_FROM] = 48.5;
    write(&out, &line, 1);
    assert_non_null(strstr(buffer_text(&out), "\"superfat\": 5.12"));
    assert_non_null(strstr(buffer_text(&out), "\"from\": 48.5"));
    assert_null(strstr(buffer_text(&out), "\"until\""));
    assert_non_null(strstr(buffer_text(&out), "\"made\": \"2026-03-14\""));
    assert_non_null(strstr(buffer_text(&out), "\"recipe\": \"Blossoms \\\"and\\\" leaves\""));
    buffer_done(&out);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_schema_takes_lines_with_every_figure_and_with_none),
        cmocka_unit_test(the_schema_refuses_what_it_does_not_know),
        cmocka_unit_test(a_line_says_whether_it_is_learned_from),
        cmocka_unit_test(shares_are_percent_and_what_was_not_taken_is_left_out),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
