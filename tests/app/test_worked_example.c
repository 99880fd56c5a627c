/* A whole plan, from the file to the figures: the recipe of worked_example.json.
 *
 * The figures were worked outside this program, once, from the definitions: oils and acids by the molar masses of CIAAW,
 * superfat by JCGM 100:2008, the split by largest remainder, pieces by the beta-binomial distribution. Each is compared to
 * half of the last place that it was given with. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cjson/cJSON.h>
#include <cmocka.h>

#include "app/program.h"

/* clang-format off */
static const struct { const char *path; double value, within; } figures[] = {
    {"oils/0/exact_g", 450, 0.05}, {"oils/0/rounded_g", 450, 0}, {"oils/0/division_g", 1, 0},
    {"oils/1/exact_g", 250, 0.05}, {"oils/1/rounded_g", 250, 0}, {"oils/1/division_g", 1, 0},
    {"oils/2/exact_g", 300, 0.05}, {"oils/2/rounded_g", 300, 0}, {"oils/2/division_g", 1, 0},
    {"oils_g", 1000, 0.05},
    {"alkali/0/exact_g", 147.2475, 0.00005}, {"alkali/0/rounded_g", 147.24, 1e-9}, {"alkali/0/division_g", 0.01, 0},
    {"water_g", 299, 0}, {"strength_percent", 33.0, 0.05}, {"strength_rounded_percent", 33.0, 0.05},
    {"additives/0/rounded_g", 10, 0},
    {"superfat/asked", 5.0, 1e-9}, {"superfat/rounded", 5.01, 0.005},
    {"superfat/likely/0", 3.89, 0.005}, {"superfat/likely/1", 7.94, 0.005},
    {"superfat/worst/0", 2.42, 0.005}, {"superfat/worst/1", 9.24, 0.005},
    {"superfat/chance_lye_heavy_percent", 0.0, 0.05}, {"superfat/mostly_share", 48, 0.5},
    {"batter_g", 1456.24, 1e-9}, {"batter_ml", 1442.4, 0.05}, {"density_g_ml", 1.0096, 0.00005},
    {"heat/up_to_c", 108, 0.5},
    {"portions/0/batter_g", 869, 0}, {"portions/0/filled_g", 889.88, 0.005}, {"portions/0/volume_ml", 884, 0.5},
    {"portions/0/fragrance_g", 17.9, 0.005}, {"portions/0/superfat", 5.01, 0.005},
    {"portions/0/colourants/0/exact_g", 2.9837, 0.00005}, {"portions/0/colourants/0/rounded_g", 2.98, 1e-9},
    {"portions/0/colourants/0/division_g", 0.01, 0},
    {"portions/1/batter_g", 362, 0}, {"portions/1/filled_g", 370.45, 0.005}, {"portions/1/volume_ml", 368, 0.5},
    {"portions/1/fragrance_g", 7.46, 0.005}, {"portions/1/superfat", 5.01, 0.005},
    {"portions/1/colourants/0/exact_g", 0.9943, 0.00005}, {"portions/1/colourants/0/rounded_g", 0.99, 1e-9},
    {"portions/2/batter_g", 217, 0}, {"portions/2/filled_g", 217, 0}, {"portions/2/volume_ml", 215, 0.5},
    {"portions/2/fragrance_g", 0, 0}, {"portions/2/superfat", 5.01, 0.005},
    {"portions/2/pieces/wanted", 24, 0}, {"portions/2/pieces/to_pipe", 29, 0},
    {"portions/2/pieces/chance_percent", 87.7, 0.05}, {"portions/2/pieces/expected_good", 25.8, 0.05},
    {"portions/2/pieces/mass_g", 6.5, 0}, {"portions/2/pieces/bags", 2, 0},
    {"jug_residue_g", 8.24, 1e-9},
    {"fragrance/0/g", 25.36, 0.005}, {"fragrance/0/percent_of_product", 2.27, 0.005},
    {"fatty_acids/c12_0", 11.86, 0.005}, {"fatty_acids/unknown", 30, 0.5},
    {"iodine_value", 39.7, 0.05}, {"oxidisability", 0.98, 0.005},
};
static const struct { const char *path, *value; } texts[] = {
    {"name", "Sample base"}, {"oils/0/oil", "olive"}, {"oils/2/oil", "House blend"}, {"alkali/0/kind", "NaOH"},
    {"additives/0/additive", "citric-acid"}, {"superfat/mostly_from", "sap:olive"}, {"portions/0/name", "base"},
    {"portions/0/technique", "swirl"}, {"portions/2/technique", "pipe"}, {"portions/2/pieces/kind", "rosette"},
    {"portions/0/colourants/0/colourant", "titanium-dioxide"}, {"fragrance/0/fragrance", "lavender"},
};
static const char *const nulls[] = {"alkali/0/solution_g", "portions/0/pieces", "fragrance/0/limit_percent"};
static const char *const empty[] = {"liquids", "portions/2/colourants"};
/* clang-format on */

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* The item at "portions/0/name". */
static const cJSON *at(const cJSON *item, const char *path)
{
    while (*path && item) {
        size_t n = strcspn(path, "/");
        char step[64] = "";

        memcpy(step, path, n);
        item = cJSON_IsArray(item) ? cJSON_GetArrayItem(item, atoi(step))
                                   : cJSON_GetObjectItemCaseSensitive(item, step);
        path += n + (path[n] == '/');
    }
    return item;
}

static cJSON *plan;

static int plan_the_example(void **state)
{
    const struct run *run = RUN("plan", "tests/app/worked_example.json", "--json");

    (void)state;
    if (run->status != 0)
        fail_msg("status %d: %s", run->status, run->err);
    plan = cJSON_Parse(run->out);
    return plan ? 0 : 1;
}

static int forget_the_example(void **state)
{
    (void)state;
    cJSON_Delete(plan);
    return 0;
}

static void every_figure_is_as_worked(void **state)
{
    int wrong = 0;

    (void)state;
    for (size_t i = 0; i < COUNT(figures); i++) {
        const cJSON *item = at(plan, figures[i].path);

        if (cJSON_IsNumber(item) && fabs(item->valuedouble - figures[i].value) <= figures[i].within * (1 + 1e-9))
            continue;
        print_error("%s is %.10g, not %.10g\n", figures[i].path, item ? item->valuedouble : (double)NAN,
                    figures[i].value);
        wrong++;
    }
    assert_int_equal(wrong, 0);
}

static void every_name_stands_where_it_should(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(texts); i++) {
        const cJSON *item = at(plan, texts[i].path);

        if (!cJSON_IsString(item) || strcmp(item->valuestring, texts[i].value) != 0)
            fail_msg("%s is not \"%s\"", texts[i].path, texts[i].value);
    }
}

/* The worked list is cut short, so that where linalool stands in it is open. */
static void linalool_is_among_the_allergens(void **state)
{
    const cJSON *allergen = NULL;
    double share = 0;

    (void)state;
    cJSON_ArrayForEach(allergen, at(plan, "allergens"))
    {
        if (strcmp(cJSON_GetStringValue(at(allergen, "name")), "Linalool") == 0)
            share = at(allergen, "percent_of_product")->valuedouble;
    }
    assert_true(fabs(share - 1.02) <= 0.005);
}

static void what_is_not_there_is_null_or_empty(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(nulls); i++)
        if (!cJSON_IsNull(at(plan, nulls[i])))
            fail_msg("%s is not null", nulls[i]);
    for (size_t i = 0; i < COUNT(empty); i++)
        if (!cJSON_IsArray(at(plan, empty[i])) || cJSON_GetArraySize(at(plan, empty[i])) != 0)
            fail_msg("%s is not an empty list", empty[i]);
}

/* The chance of 87.7 % is under the 90 % of practice; nothing else of this recipe but its working time is to be told. */
static void the_findings_are_about_the_rosettes_and_not_about_lye(void **state)
{
    const cJSON *finding = NULL;
    int pieces_short = 0;

    (void)state;
    cJSON_ArrayForEach(finding, at(plan, "findings"))
    {
        const char *code = cJSON_GetStringValue(at(finding, "code"));

        assert_string_equal(cJSON_GetStringValue(at(finding, "about")), "rosettes");
        assert_string_equal(cJSON_GetStringValue(at(finding, "level")), "caution");
        pieces_short += strcmp(code, "pieces-short") == 0;
        assert_true(strcmp(code, "pieces-short") == 0 || strcmp(code, "window-short") == 0);
    }
    assert_int_equal(pieces_short, 1);
}

static void the_batter_is_the_sum_of_its_parts(void **state)
{
    double split = at(plan, "jug_residue_g")->valuedouble;
    const cJSON *portion = NULL;

    (void)state;
    cJSON_ArrayForEach(portion, at(plan, "portions"))
    {
        split += at(portion, "batter_g")->valuedouble;
    }
    assert_true(fabs(split - at(plan, "batter_g")->valuedouble) < 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_figure_is_as_worked),
        cmocka_unit_test(every_name_stands_where_it_should),
        cmocka_unit_test(linalool_is_among_the_allergens),
        cmocka_unit_test(what_is_not_there_is_null_or_empty),
        cmocka_unit_test(the_findings_are_about_the_rosettes_and_not_about_lye),
        cmocka_unit_test(the_batter_is_the_sum_of_its_parts),
    };

    return cmocka_run_group_tests(tests, plan_the_example, forget_the_example);
}
