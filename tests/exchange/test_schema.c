/* test_schema.c - schema/exchange.schema.json and our reader agree. The outside measure is python3-jsonschema on the
 * JSON reader of Python. What a JSON Schema cannot say is marked row by row (REFUSED_HERE_ONLY, STOPPED_HERE_ONLY):
 * ours may refuse more, never less.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "exchange/gate.h"
#include "files.h"
#include "lexical.h"
#include "mutations.h"
#include "validator.h"

static bool ours_accepts(const struct validator_text *text, struct lw_error *error)
{
    struct recipe_file *file = NULL;
    bool accepted = read_text_as_file(text->text, text->n, &file, error) == LW_OK;

    recipe_file_free(file);
    return accepted;
}

static void both_accept_the_samples(void **state)
{
    static const char *const names[] = {"sample-base.json", "everything.json"};
    struct validator_text texts[2];
    struct lw_error error = {""};

    (void)state;
    for (size_t i = 0; i < 2; i++) {
        char *text = sample_file(names[i]);
        texts[i] = (struct validator_text){.text = text, .n = strlen(text)};
    }
    assert_int_equal(validator_ask("#", texts, 2), 0);
    for (size_t i = 0; i < 2; i++) {
        if (!texts[i].accepted || !ours_accepts(&texts[i], &error))
            fail_msg("%s: validator %s, ours %s", names[i], texts[i].why, error.text);
        free((char *)texts[i].text);
    }
}

static void both_agree_on_every_change(void **state)
{
    static struct validator_text texts[MUTATIONS];
    char *base = sample_file("everything.json");

    (void)state;
    for (size_t i = 0; i < MUTATIONS; i++) {
        char *text = changed(base, mutations[i].from, mutations[i].to);
        assert_non_null(text);
        texts[i] = (struct validator_text){.text = text, .n = strlen(text)};
    }
    assert_int_equal(validator_ask("#", texts, MUTATIONS), 0);
    for (size_t i = 0; i < MUTATIONS; i++) {
        struct lw_error error = {""};
        bool ours = ours_accepts(&texts[i], &error), theirs = texts[i].accepted != 0;
        if (ours != (mutations[i].verdict == ACCEPTED) || theirs != (mutations[i].verdict != REFUSED))
            fail_msg("%s -> %s: validator %s, ours %s %s", mutations[i].from, mutations[i].to, texts[i].why,
                     ours ? "accept" : "refuse", error.text);
        free((char *)texts[i].text);
    }
    free(base);
}

/* Lists "[...]" are no file of ours, so that here it is JSON or not that counts: the validator's reader, our gate. */
static void both_agree_on_what_is_json(void **state)
{
    static struct validator_text texts[LEXICALS];

    (void)state;
    for (size_t i = 0; i < LEXICALS; i++)
        texts[i] = (struct validator_text){.text = lexical[i].text,
                                           .n = lexical[i].n > 0 ? lexical[i].n : strlen(lexical[i].text)};
    assert_int_equal(validator_ask("", texts, LEXICALS), 0);
    for (size_t i = 0; i < LEXICALS; i++) {
        struct lw_error error = {""};
        bool ours = gate_check(texts[i].text, texts[i].n, "x", &error) == LW_OK, theirs = texts[i].accepted != 0;
        if (ours != (lexical[i].verdict == PASSES) || theirs != (lexical[i].verdict != STOPPED))
            fail_msg("%s: validator %s, ours %s %s", lexical[i].text, texts[i].why, ours ? "accept" : "refuse",
                     error.text);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(both_accept_the_samples),
        cmocka_unit_test(both_agree_on_every_change),
        cmocka_unit_test(both_agree_on_what_is_json),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
