/* From the bytes of a file to a plan with its words. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/mass.h"
#include "work/plan_file.h"

#define PLAIN(name, rest)                                                                                        \
    "{\"name\": \"" name "\", " rest                                                                             \
    "\"oils\": [{\"oil\": \"olive\", \"percent\": 100}], \"size\": {\"oils_g\": 1000}, \"superfat_percent\": 5," \
    " \"water\": {\"ratio\": 2}}"
#define FILE_OF(recipes) "{\"lyeway\": 1, \"recipes\": [" recipes "]}"

static struct plan_file *opened(const char *text)
{
    struct plan_file *plan_file = NULL;
    struct lw_error error = {""};

    if (plan_file_open(text, strlen(text), "bench.json", &plan_file, &error) != LW_OK)
        fail_msg("refused: %s", error.text);
    return plan_file;
}

static void chooses(const char *text, const char *name, size_t expected)
{
    struct plan_file *plan_file = opened(text);
    struct lw_error error = {""};
    size_t index = 99;

    assert_int_equal(plan_file_choose(plan_file, name, &index, &error), LW_OK);
    assert_int_equal(index, expected);
    plan_file_free(plan_file);
}

static void refuses_choice(const char *text, const char *name, enum lw_status status, const char *part)
{
    struct plan_file *plan_file = opened(text);
    struct lw_error error = {""};
    size_t index = 99;

    assert_int_equal(plan_file_choose(plan_file, name, &index, &error), status);
    if (strncmp(error.text, "bench.json: ", 12) != 0 || !strstr(error.text, part))
        fail_msg("\"%s\" does not say \"%s\"", error.text, part);
    plan_file_free(plan_file);
}

static void a_recipe_is_chosen_by_its_name_or_for_being_the_only_one(void **state)
{
    const char *two = FILE_OF(PLAIN("Moss", "") ", " PLAIN("Clay pink", ""));

    (void)state;
    chooses(FILE_OF(PLAIN("Moss", "")), NULL, 0);
    chooses(two, "clay PINK", 1);
    refuses_choice(two, NULL, LW_INVALID, "holds 2 recipes, so one has to be named: \"Moss\", \"Clay pink\".");
    refuses_choice(two, "Clay", LW_NOT_FOUND, "no recipe is named \"Clay\"; it holds \"Moss\", \"Clay pink\".");
}

static void two_recipes_of_one_name_cannot_be_chosen_between(void **state)
{
    (void)state;
    refuses_choice(FILE_OF(PLAIN("Moss", "\"uuid\": \"6f0c2b1e-5d3a-4c8e-9b7f-2a1d4e6c8f03\",") ", " PLAIN(
                       "Moss", "\"uuid\": \"6f0c2b1e-5d3a-4c8e-9b7f-2a1d4e6c8f04\",")),
                   "Moss", LW_INVALID, "2 recipes are named \"Moss\"");
}

static void a_long_list_of_names_is_cut(void **state)
{
    (void)state;
    refuses_choice(FILE_OF(PLAIN("A", "") "," PLAIN("B", "") "," PLAIN("C", "") "," PLAIN("D", "") "," PLAIN(
                       "E", "") "," PLAIN("F", "") "," PLAIN("G", "") "," PLAIN("H", "")),
                   NULL, LW_INVALID, "\"E\", \"F\" and 2 more");
}

static void another_size_replaces_the_recipes_own(void **state)
{
    struct plan_file *plan_file = opened(FILE_OF(PLAIN("Moss", "")));
    struct plan_size own = {PLAN_SIZE_OWN, 0}, oils = {PLAN_SIZE_OILS, 500}, batter = {PLAN_SIZE_BATTER, 700};
    struct lw_error error = {""};
    const struct plan *plan = NULL;

    (void)state;
    assert_int_equal(plan_file_compute(plan_file, 0, &oils, MASS_G, &error), LW_OK);
    plan = plan_file_document(plan_file)->plan;
    assert_true(plan->oils_ug == (int64_t)500 * UG_PER_G);
    assert_int_equal(plan_file_compute(plan_file, 0, &batter, MASS_G, &error), LW_OK);
    assert_true(plan->batter_ug >= (int64_t)698 * UG_PER_G && plan->batter_ug <= (int64_t)702 * UG_PER_G);
    /* the file's recipe is as it was */
    assert_int_equal(plan_file_compute(plan_file, 0, &own, MASS_G, &error), LW_OK);
    assert_true(plan->oils_ug == (int64_t)1000 * UG_PER_G);
    plan_file_free(plan_file);
}

static void a_size_that_is_no_batch_is_refused(void **state)
{
    static const double sizes[] = {0, -1, 1e6 + 1, 1e300};
    struct plan_file *plan_file = opened(FILE_OF(PLAIN("Moss", "")));
    struct plan_size most = {PLAN_SIZE_BATTER, 1e6};
    struct lw_error error = {""};

    (void)state;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        struct plan_size size = {PLAN_SIZE_OILS, sizes[i]};

        assert_int_equal(plan_file_compute(plan_file, 0, &size, MASS_G, &error), LW_INVALID);
        assert_non_null(strstr(error.text, "above 0 and at most 1,000 kg"));
    }
    assert_int_equal(plan_file_compute(plan_file, 0, &most, MASS_G, &error), LW_OK);
    plan_file_free(plan_file);
}

static void every_finding_has_its_words(void **state)
{
    struct plan_file *plan_file = opened(
        "{\"lyeway\": 1, \"recipes\": [{\"name\": \"Moss\", \"oils\": [{\"oil\": \"olive\", \"percent\": 100}],"
        "\"size\": {\"oils_g\": 100}, \"superfat_percent\": 0, \"water\": {\"strength_percent\": 45},"
        "\"portions\": [{\"name\": \"moss\", \"percent\": 60}, {\"name\": \"clay\", \"percent\": 60}]}]}");
    struct plan_size own = {PLAN_SIZE_OWN, 0};
    struct lw_error error = {""};

    (void)state;
    assert_int_equal(plan_file_compute(plan_file, 0, &own, MASS_G, &error), LW_OK);

    const struct plan_document *document = plan_file_document(plan_file);

    assert_true(document->plan->findings >= 3); /* lye-heavy, strength-high and portions-over at least */
    for (int i = 0; i < document->plan->findings; i++) {
        assert_true(document->words[i].what[0] != '\0');
        assert_true(document->words[i].todo[0] != '\0');
    }
    plan_file_free(plan_file);
}

static void what_is_refused_leaves_nothing_behind(void **state)
{
    struct plan_file *plan_file = (struct plan_file *)1;
    struct lw_error error = {""};

    (void)state;
    assert_int_equal(plan_file_open("{", 1, "bench.json", &plan_file, &error), LW_INVALID);
    assert_null(plan_file);
    plan_file_free(plan_file);
    assert_non_null(strstr(error.text, "bench.json"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_recipe_is_chosen_by_its_name_or_for_being_the_only_one),
        cmocka_unit_test(two_recipes_of_one_name_cannot_be_chosen_between),
        cmocka_unit_test(a_long_list_of_names_is_cut),
        cmocka_unit_test(another_size_replaces_the_recipes_own),
        cmocka_unit_test(a_size_that_is_no_batch_is_refused),
        cmocka_unit_test(every_finding_has_its_words),
        cmocka_unit_test(what_is_refused_leaves_nothing_behind),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
