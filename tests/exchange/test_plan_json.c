/* test_plan_json.c - a plan as JSON. The figures and the form are those of the description of the exchange format
 * (data/sample-plan.json); the form is also checked by python3-jsonschema against $defs/plan.
 */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "exchange/gate.h"
#include "exchange/json.h"
#include "exchange/plan_json.h"
#include "files.h"
#include "filled_plan.h"
#include "hostile.h"
#include "validator.h"

static struct buffer written(const struct filled *filled)
{
    struct buffer out;
    struct lw_error error;

    buffer_init(&out, 1 << 20);
    plan_json(&filled->document, &out);
    assert_int_equal(buffer_status(&out, &error), LW_OK);
    return out;
}

static cJSON *tree_of(const char *text)
{
    struct lw_error error = {""};
    cJSON *root;

    json_read(text, strlen(text), "plan", &root, &error);
    assert_string_equal(error.text, "");
    return root;
}

static void same(const cJSON *ours, const cJSON *expected);

static void same_children(const cJSON *ours, const cJSON *expected)
{
    const cJSON *a = ours->child, *b = expected->child;

    for (; a != NULL && b != NULL; a = a->next, b = b->next) {
        if (b->string != NULL)
            assert_string_equal(a->string, b->string);
        same(a, b);
    }
    assert_true(a == NULL && b == NULL);
}

/* The same values under the same names in the same order. */
static void same(const cJSON *ours, const cJSON *expected)
{
    if ((ours->type & 0xFF) != (expected->type & 0xFF))
        fail_msg("%s is of another type", expected->string == NULL ? "an element" : expected->string);
    if (cJSON_IsNumber(ours) && ours->valuedouble != expected->valuedouble)
        fail_msg("%s is %.10g, not %.10g", expected->string == NULL ? "a number" : expected->string, ours->valuedouble,
                 expected->valuedouble);
    if (cJSON_IsString(ours))
        assert_string_equal(ours->valuestring, expected->valuestring);
    same_children(ours, expected);
}

static void the_sample_is_written_as_the_format_describes_it(void **state)
{
    struct filled *filled = filled_sample();
    struct buffer out = written(filled);
    char *text = sample_file("sample-plan.json");
    cJSON *ours = tree_of(buffer_text(&out)), *expected = tree_of(text);

    (void)state;
    same(ours, expected);
    cJSON_Delete(ours);
    cJSON_Delete(expected);
    buffer_done(&out);
    free(text);
    free(filled);
}

static void assert_valid(const struct filled *filled)
{
    struct buffer out = written(filled);
    struct validator_text text = {.text = buffer_text(&out), .n = out.length};
    struct lw_error error = {""};

    if (gate_check(text.text, text.n, "plan", &error) != LW_OK)
        fail_msg("%s", error.text);
    assert_int_equal(validator_ask("#/$defs/plan", &text, 1), 0);
    if (!text.accepted)
        fail_msg("%s in %s", text.why, text.text);
    buffer_done(&out);
}

static void every_kind_of_plan_has_the_form_of_the_schema(void **state)
{
    struct filled *filled = filled_sample();
    struct plan *plan = &filled->plan;

    (void)state;
    assert_valid(filled);
    plan->alkali[ALKALI_NAOH].solution = (struct weighing){294.495, 294490000, 10000, 1, 0};
    plan->alkali[ALKALI_KOH].alkali = (struct weighing){5.5, 5500000, 10000, 1, 0};
    plan->heat.has = false;
    assert_valid(filled);
    plan->margin.mostly_from = CAUSE_NONE;
    plan->fragrance[0].has_limit = true;
    plan->limit.from = LIMIT_CERTIFICATE;
    assert_valid(filled);
    plan->margin.mostly_from = CAUSE_PURITY;
    plan->margin.mostly = (struct part_ref){PART_ALKALI, ALKALI_NAOH, 0};
    plan->limit.from = LIMIT_IFRA;
    plan->portion[3] = (struct plan_portion){.source = -1, .batter_ug = 5000000, .division_ug = 1000000};
    plan->portions = 4;
    assert_valid(filled);
    free(filled);
}

static const cJSON *member(const cJSON *object, const char *name)
{
    const cJSON *value = json_member(object, name);

    assert_non_null(value);
    return value;
}

static void ready_made_lye_gives_what_is_weighed_and_no_heat(void **state)
{
    struct filled *filled = filled_sample();
    struct buffer out;
    cJSON *root;

    (void)state;
    filled->plan.alkali[ALKALI_NAOH].alkali = (struct weighing){147.2475, 147246123, 0, 0, 0};
    filled->plan.alkali[ALKALI_NAOH].solution = (struct weighing){294.495, 294490000, 10000, 1, 0};
    filled->plan.heat.has = false;
    out = written(filled);
    root = tree_of(buffer_text(&out));
    assert_true(member(member(root, "alkali")->child, "solution_g")->valuedouble == 294.49);
    assert_true(member(member(root, "alkali")->child, "rounded_g")->valuedouble == 147.246123);
    assert_true(member(member(root, "alkali")->child, "division_g")->valuedouble == 0.01);
    assert_true(cJSON_IsNull(member(member(root, "heat"), "up_to_c")));
    cJSON_Delete(root);
    buffer_done(&out);
    free(filled);
}

static void scent_in_the_batter_is_not_weighed_into_a_portion(void **state)
{
    struct filled *filled = filled_sample();
    struct buffer out;
    cJSON *root;

    (void)state;
    filled->recipe.scent = PUT_IN_BATTER;
    out = written(filled);
    root = tree_of(buffer_text(&out));
    assert_true(member(member(root, "portions")->child, "fragrance_g")->valuedouble == 0);
    assert_true(member(member(root, "fragrance")->child, "g")->valuedouble == 25.36);
    cJSON_Delete(root);
    buffer_done(&out);
    free(filled);
}

static const char *name_of_last_portion(const struct filled *filled, char name[LW_NAME_BYTES])
{
    struct buffer out = written(filled);
    cJSON *root = tree_of(buffer_text(&out));
    const cJSON *last = member(root, "portions")->child;

    while (last->next != NULL)
        last = last->next;
    snprintf(name, LW_NAME_BYTES, "%s", member(last, "name")->valuestring);
    cJSON_Delete(root);
    buffer_done(&out);
    return name;
}

static void an_implied_portion_is_leftover_or_all_of_the_batter(void **state)
{
    struct filled *filled = filled_sample();
    char name[LW_NAME_BYTES];

    (void)state;
    filled->plan.portion[3] = (struct plan_portion){.source = -1, .batter_ug = 5000000, .division_ug = 1000000};
    filled->plan.portions = 4;
    assert_string_equal(name_of_last_portion(filled, name), "leftover");
    filled->recipe.portions = 0;
    filled->plan.portion[0] = filled->plan.portion[3];
    filled->plan.portions = 1;
    filled->plan.findings = 0;
    assert_string_equal(name_of_last_portion(filled, name), "batter");
    free(filled);
}

static void a_hushed_remark_is_left_out_and_a_hushed_caution_is_not(void **state)
{
    struct filled *filled = filled_sample();
    struct buffer out;

    (void)state;
    filled->recipe.hushed = 1U << FINDING_DOSE_SMALL;
    out = written(filled);
    assert_non_null(strstr(buffer_text(&out), "\"dose-small\""));
    buffer_done(&out);
    filled->plan.finding[0].level = LEVEL_REMARK;
    out = written(filled);
    assert_null(strstr(buffer_text(&out), "\"dose-small\""));
    buffer_done(&out);
    free(filled);
}

static void hostile_names_come_out_as_harmless_json(void **state)
{
    struct filled *filled = filled_sample();

    (void)state;
    for (size_t i = 0; i < HOSTILE_NAMES; i++) {
        struct buffer out;
        struct lw_error error = {""};
        snprintf(filled->recipe.name, LW_NAME_BYTES, "%s", hostile_names[i]);
        snprintf(filled->recipe.oil[2].name, LW_NAME_BYTES, "%s", hostile_names[i]);
        snprintf(filled->recipe.portion[0].name, LW_NAME_BYTES, "%s", hostile_names[i]);
        snprintf(filled->recipe.portion[2].pieces.kind, LW_NAME_BYTES, "%s", hostile_names[i]);
        snprintf(filled->words[0].what, WORDS_WHAT_BYTES, "About %s.", hostile_names[i]);
        out = written(filled);
        if (gate_check(buffer_text(&out), out.length, "plan", &error) != LW_OK)
            fail_msg("name %zu: %s", i, error.text);
        buffer_done(&out);
    }
    free(filled);
}

static void a_name_with_quotes_comes_back_as_it_was(void **state)
{
    struct filled *filled = filled_sample();
    struct buffer out;
    cJSON *root;

    (void)state;
    strcpy(filled->recipe.name, "\"quoted\\\" \\u0000 \xE6\xBC\xA2");
    out = written(filled);
    root = tree_of(buffer_text(&out));
    assert_string_equal(member(root, "name")->valuestring, filled->recipe.name);
    cJSON_Delete(root);
    buffer_done(&out);
    free(filled);
}

static void what_is_not_finite_never_becomes_a_number(void **state)
{
    struct filled *filled = filled_sample();
    struct buffer out;
    cJSON *root;

    (void)state;
    filled->plan.batter_ml = NAN;
    filled->plan.density_g_ml = INFINITY;
    filled->plan.margin.worst.hi = 1e300;
    out = written(filled);
    root = tree_of(buffer_text(&out));
    assert_true(cJSON_IsNull(member(root, "batter_ml")));
    assert_true(cJSON_IsNull(member(root, "density_g_ml")));
    cJSON_Delete(root);
    buffer_done(&out);
    free(filled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_sample_is_written_as_the_format_describes_it),
        cmocka_unit_test(every_kind_of_plan_has_the_form_of_the_schema),
        cmocka_unit_test(ready_made_lye_gives_what_is_weighed_and_no_heat),
        cmocka_unit_test(scent_in_the_batter_is_not_weighed_into_a_portion),
        cmocka_unit_test(an_implied_portion_is_leftover_or_all_of_the_batter),
        cmocka_unit_test(a_hushed_remark_is_left_out_and_a_hushed_caution_is_not),
        cmocka_unit_test(hostile_names_come_out_as_harmless_json),
        cmocka_unit_test(a_name_with_quotes_comes_back_as_it_was),
        cmocka_unit_test(what_is_not_finite_never_becomes_a_number),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
