/* A recipe with all that it used, kept as a text and read again. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "exchange/plan_json.h"
#include "exchange/recipe_file.h"
#include "work/freeze.h"
#include "work/version.h"

enum { MOST = 1 << 20 };

static void put_plan(const struct version *version, struct buffer *out)
{
    buffer_init(out, MOST);
    plan_json(version_document(version), out);
    assert_false(out->failed);
}

static void tell_first_difference(const char *name, const char *a, const char *b)
{
    size_t at = 0, line = 0;

    while (a[at] && a[at] == b[at]) {
        if (a[at++] == '\n')
            line = at;
    }
    if (a[at] != b[at])
        fail_msg("%s: \"%.*s\" became \"%.*s\"", name, (int)strcspn(a + line, "\n"), a + line,
                 (int)strcspn(b + line, "\n"), b + line);
}

/* Plans a recipe, freezes it, plans what was frozen: every figure of the two plans is the same text. */
static void thaws_to_the_same_plan(const struct recipe *recipe, const struct shelf *shelf)
{
    struct settings settings;
    struct version *before, *after;
    struct frozen *frozen;
    struct buffer text, plan[2];
    struct lw_error error = {""};

    settings_common(&settings);
    if (version_of(recipe, shelf, &settings, NULL, &before, &error) != LW_OK)
        fail_msg("%s: %s", recipe->name, error.text);
    buffer_init(&text, MOST);
    assert_int_equal(freeze(version_document(before)->input, &text, &error), LW_OK);
    if (freeze_read(buffer_text(&text), &frozen, &error) != LW_OK)
        fail_msg("%s: %s", recipe->name, error.text);
    settings.scales = 1; /* the scales of then are in the text */
    if (version_of(&frozen->recipe, &frozen->shelf, &settings, NULL, &after, &error) != LW_OK)
        fail_msg("%s: %s", recipe->name, error.text);
    put_plan(before, &plan[0]);
    put_plan(after, &plan[1]);
    tell_first_difference(recipe->name, buffer_text(&plan[0]), buffer_text(&plan[1]));
    for (int i = 0; i < 2; i++)
        buffer_done(&plan[i]);
    version_free(after);
    version_free(before);
    freeze_free(frozen);
    buffer_done(&text);
}

static const struct shelf nothing;

static void every_recipe_of_the_demo_thaws_to_the_same_plan(void **state)
{
    static char text[MOST];
    FILE *file = fopen("sample-data/recipes.json", "rb");
    struct recipe_file *recipes;
    struct lw_error error;
    size_t n;

    (void)state;
    assert_non_null(file);
    n = fread(text, 1, sizeof text, file);
    fclose(file);
    assert_int_equal(
        recipe_file_read(text, n, "demo", &(struct recipe_file_names){facts_reference()}, &recipes, &error), LW_OK);
    assert_true(recipes->recipes >= 3);
    for (size_t i = 0; i < recipes->recipes; i++)
        thaws_to_the_same_plan(&recipes->recipe[i], &nothing);
    recipe_file_free(recipes);
}

/* 500 g of olive oil to make soap of, with nothing else. */
static struct recipe plain(void)
{
    struct recipe recipe = {.name = "plain",
                            .oils = 1,
                            .oil = {{.id = 1, .name = "olive", .amount = 1}},
                            .size = {.by = SIZE_OILS, .grams = 500},
                            .superfat = 0.05,
                            .water = {.by = WATER_STRENGTH, .value = 0.31, .temp_c = 20}};

    return recipe;
}

static void every_oil_of_the_reference_thaws_to_the_same_plan(void **state)
{
    size_t n;
    const struct oil_fact *oil = facts_oils(&n);

    (void)state;
    for (size_t i = 0; i < n; i++) {
        struct recipe recipe = plain();

        recipe.oils = 2;
        recipe.oil[1].id = 2;
        text_copy(recipe.oil[1].name, LW_NAME_BYTES, oil[i].key);
        recipe.oil[0].amount = 0.6;
        recipe.oil[1].amount = 0.4;
        thaws_to_the_same_plan(&recipe, &nothing);
    }
}

static void every_additive_and_liquid_of_the_reference_thaws_to_the_same_plan(void **state)
{
    size_t n;
    const struct additive_fact *additive = facts_additives(&n);
    const struct liquid_fact *liquid;

    (void)state;
    for (size_t i = 0; i < n; i++) {
        struct recipe recipe = plain();

        recipe.additives = 1;
        recipe.additive[0].by = ADDITIVE_OF_OILS;
        recipe.additive[0].value = 0.01;
        text_copy(recipe.additive[0].name, LW_NAME_BYTES, additive[i].key);
        thaws_to_the_same_plan(&recipe, &nothing);
    }
    liquid = facts_liquids(&n);
    for (size_t i = 0; i < n; i++) {
        struct recipe recipe = plain();

        recipe.water.liquids = 1;
        recipe.water.liquid[0].share_of_water = 0.3;
        text_copy(recipe.water.liquid[0].name, LW_NAME_BYTES, liquid[i].key);
        thaws_to_the_same_plan(&recipe, &nothing);
    }
}

static void every_fragrance_and_colourant_of_the_reference_thaws_to_the_same_plan(void **state)
{
    size_t fragrances, colourants;
    const struct fragrance_fact *fragrance = facts_fragrances(&fragrances);
    const struct colourant_fact *colourant = facts_colourants(&colourants);

    (void)state;
    for (size_t i = 0; i < fragrances || i < colourants; i++) {
        struct recipe recipe = plain();

        recipe.fragrances = 1;
        recipe.fragrance[0].value = 0.02;
        text_copy(recipe.fragrance[0].name, LW_NAME_BYTES, fragrance[i % fragrances].key);
        recipe.portions = 1;
        recipe.portion[0] = (struct recipe_portion){.id = 1, .name = "all", .demand = DEMAND_REST, .scented = true};
        recipe.portion[0].colourants = 1;
        recipe.portion[0].colourant[0] = (struct recipe_colourant){
            .id = 1, .by = COLOUR_PER_KG_OILS, .value = 6, .carrier_ratio = 2, .carrier_reserved = i % 2 == 0};
        text_copy(recipe.portion[0].colourant[0].name, LW_NAME_BYTES, colourant[i % colourants].key);
        text_copy(recipe.portion[0].colourant[0].carrier_oil, LW_NAME_BYTES, i % 2 == 0 ? "olive" : "castor");
        thaws_to_the_same_plan(&recipe, &nothing);
    }
}

/* The maker's own oil, with a density that was not taken at 20 degrees. */
static void what_the_shelf_said_then_is_what_counts(void **state)
{
    struct oil_fact own = *facts_oil("olive");
    struct shelf shelf = {.oils = 1, .oil = &own};
    struct recipe recipe = plain();

    (void)state;
    own.key = own.name = "Olive oil of the co-operative";
    text_copy(recipe.oil[0].name, LW_NAME_BYTES, own.name);
    own.sap_nominal = 191.25;
    own.sap_lo = 190.5;
    own.sap_hi = 192;
    own.density_g_ml = 0.9087;
    own.density_temp_c = 25;
    thaws_to_the_same_plan(&recipe, &shelf);
}

static void a_text_that_is_none_is_damage(void **state)
{
    struct frozen *frozen;
    struct lw_error error = {""};

    (void)state;
    assert_int_equal(freeze_read("{\"lyeway\": 1}", &frozen, &error), LW_CORRUPT);
    assert_null(frozen);
    assert_int_equal(freeze_read("oil", &frozen, &error), LW_CORRUPT);
    assert_true(error.text[0] != '\0');
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_recipe_of_the_demo_thaws_to_the_same_plan),
        cmocka_unit_test(every_oil_of_the_reference_thaws_to_the_same_plan),
        cmocka_unit_test(every_additive_and_liquid_of_the_reference_thaws_to_the_same_plan),
        cmocka_unit_test(every_fragrance_and_colourant_of_the_reference_thaws_to_the_same_plan),
        cmocka_unit_test(what_the_shelf_said_then_is_what_counts),
        cmocka_unit_test(a_text_that_is_none_is_damage),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
