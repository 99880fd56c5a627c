/* Names to facts: shelf before reference, any name with its own value, and what is said about a name that is not known. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "work/near.h"
#include "work/resolve.h"

static const struct shelf_rows no_shelf;

static struct recipe *fresh_recipe(void)
{
    static struct recipe recipe;

    memset(&recipe, 0, sizeof recipe);
    return &recipe;
}

static void add_oil(struct recipe *recipe, const char *name, double sap)
{
    struct recipe_oil *oil = &recipe->oil[recipe->oils++];

    text_copy(oil->name, sizeof oil->name, name);
    oil->sap = (struct ranged){sap > 0, 0, sap, 0};
}

static struct recipe_colourant *add_colourant(struct recipe *recipe, const char *name)
{
    struct recipe_portion *portion = &recipe->portion[0];
    struct recipe_colourant *colourant = &portion->colourant[portion->colourants++];

    recipe->portions = 1;
    text_copy(colourant->name, sizeof colourant->name, name);
    return colourant;
}

static struct recipe_facts *resolved(const struct recipe *recipe, const struct shelf_rows *shelf)
{
    static struct recipe_facts facts;
    struct lw_error error = {""};

    if (resolve_recipe(recipe, shelf, "test.json: /recipes/0", &facts, &error) != LW_OK)
        fail_msg("refused: %s", error.text);
    return &facts;
}

/* The sentence begins with `place` and holds `nearest`. */
static void refused(const struct recipe *recipe, const struct shelf_rows *shelf, const char *place, const char *nearest)
{
    static struct recipe_facts facts;
    struct lw_error error = {""};

    assert_int_equal(resolve_recipe(recipe, shelf, "test.json: /recipes/0", &facts, &error), LW_NOT_FOUND);
    if (strncmp(error.text, place, strlen(place)) != 0 || !strstr(error.text, nearest))
        fail_msg("\"%s\" does not begin with \"%s\" and hold \"%s\"", error.text, place, nearest);
}

static void keys_names_and_synonyms_lead_to_the_same_fact(void **state)
{
    struct recipe *recipe = fresh_recipe();

    (void)state;
    add_oil(recipe, "rapeseed-low-erucic", 0);
    add_oil(recipe, "Canola", 0);
    add_oil(recipe, "Olive oil (virgin or refined)", 0);

    struct recipe_facts *facts = resolved(recipe, &no_shelf);

    assert_string_equal(facts->oil[0]->key, "rapeseed-low-erucic");
    assert_ptr_equal(facts->oil[0], facts->oil[1]);
    assert_string_equal(facts->oil[2]->key, "olive");
}

static void an_oil_with_its_own_value_may_have_any_name(void **state)
{
    struct recipe *recipe = fresh_recipe();

    (void)state;
    add_oil(recipe, "House blend", 196.5);
    add_oil(recipe, "olive", 190);

    struct recipe_facts *facts = resolved(recipe, &no_shelf);

    assert_null(facts->oil[0]);
    assert_string_equal(facts->oil[1]->key, "olive"); /* known, so its acids and density are used beside the value */
}

static void the_shelf_goes_before_the_reference(void **state)
{
    static const struct oil_fact own[] = {{.key = "Olive", .name = "Olive", .sap_nominal = 189}};
    static const struct colourant_fact red[] = {{.key = "Barn red", .name = "Barn red"}};
    struct shelf_rows shelf = {.oils = 1, .oil = own, .colourants = 1, .colourant = red};
    struct recipe *recipe = fresh_recipe();

    (void)state;
    add_oil(recipe, "olive", 0);
    add_oil(recipe, "coconut", 0);
    text_copy(add_colourant(recipe, "barn RED")->carrier_oil, LW_NAME_BYTES, "olive");

    struct recipe_facts *facts = resolved(recipe, &shelf);

    assert_ptr_equal(facts->oil[0], &own[0]);
    assert_string_equal(facts->oil[1]->key, "coconut");
    assert_ptr_equal(facts->colourant[0][0], &red[0]);
    assert_ptr_equal(facts->carrier[0][0], &own[0]);
}

static void fat_of_liquids_and_additives_counts_as_an_oil(void **state)
{
    struct recipe *recipe = fresh_recipe();

    (void)state;
    recipe->additives = 2;
    text_copy(recipe->additive[0].name, LW_NAME_BYTES, "goat-milk-powder");
    text_copy(recipe->additive[1].name, LW_NAME_BYTES, "citric-acid");
    recipe->water.liquids = 2;
    text_copy(recipe->water.liquid[0].name, LW_NAME_BYTES, "coconut-milk");
    text_copy(recipe->water.liquid[1].name, LW_NAME_BYTES, "aloe-juice");

    struct recipe_facts *facts = resolved(recipe, &no_shelf);

    assert_string_equal(facts->additive_fat[0]->key, "butterfat");
    assert_null(facts->additive_fat[1]);
    assert_string_equal(facts->liquid_fat[0]->key, "coconut");
    assert_null(facts->liquid_fat[1]);
}

static void an_unknown_name_is_refused_with_its_place_and_the_three_nearest(void **state)
{
    struct recipe *recipe = fresh_recipe();

    (void)state;
    add_oil(recipe, "coconut", 0);
    add_oil(recipe, "oliv", 0);
    refused(recipe, &no_shelf,
            "test.json: /recipes/0/oils/1/oil: \"oliv\" is not an oil that is known here; nearest are olive, ",
            "olive-pomace");
}

static void every_part_that_has_a_name_is_looked_up(void **state)
{
    struct recipe *recipe = fresh_recipe();

    (void)state;
    recipe->additives = 1;
    text_copy(recipe->additive[0].name, LW_NAME_BYTES, "citric acd");
    refused(recipe, &no_shelf, "test.json: /recipes/0/additives/0/additive: ", "citric-acid");

    recipe = fresh_recipe();
    recipe->water.liquids = 1;
    text_copy(recipe->water.liquid[0].name, LW_NAME_BYTES, "coconut mlk");
    refused(recipe, &no_shelf, "test.json: /recipes/0/water/liquids/0/liquid: ", "coconut-milk");

    recipe = fresh_recipe();
    recipe->fragrances = 1;
    text_copy(recipe->fragrance[0].name, LW_NAME_BYTES, "lavendr");
    refused(recipe, &no_shelf, "test.json: /recipes/0/fragrance/0/fragrance: ", "are lavender, ");

    recipe = fresh_recipe();
    add_colourant(recipe, "titanium-dioxide");
    add_colourant(recipe, "titanum");
    refused(recipe, &no_shelf, "test.json: /recipes/0/portions/0/colourants/1/colourant: ", "nearest are ");

    recipe = fresh_recipe();
    text_copy(add_colourant(recipe, "titanium-dioxide")->carrier_oil, LW_NAME_BYTES, "almonds");
    refused(recipe, &no_shelf, "test.json: /recipes/0/portions/0/colourants/0/carrier_oil: ", "almond-sweet");
}

static void the_nearest_may_stand_on_the_shelf(void **state)
{
    static const struct oil_fact own[] = {{.key = "House blend", .name = "House blend"}};
    struct shelf_rows shelf = {.oils = 1, .oil = own};
    struct recipe *recipe = fresh_recipe();

    (void)state;
    add_oil(recipe, "hose blend", 0);
    refused(recipe, &shelf, "test.json: /recipes/0/oils/0/oil: ", "nearest are House blend, ");
}

static void a_hostile_name_is_shown_without_its_control_characters(void **state)
{
    static struct recipe_facts facts;
    struct lw_error error = {""};
    struct recipe *recipe = fresh_recipe();

    (void)state;
    add_oil(recipe,
            "\x1b[2J\xe2\x80\xae"
            "oil",
            0);
    assert_int_equal(resolve_recipe(recipe, &no_shelf, "", &facts, &error), LW_NOT_FOUND);
    assert_non_null(strstr(error.text, "\"?[2J?oil\""));
}

static void nearest_are_few_sorted_and_each_key_once(void **state)
{
    struct near near;
    char list[LW_NAME_BYTES * NEAR_NAMES];

    (void)state;
    near_init(&near, "oliv");
    near_list(&near, list, sizeof list);
    assert_string_equal(list, "");
    near_offer(&near, "Olive oil", "olive");
    near_offer(&near, "walnut", "walnut");
    near_offer(&near, "olive", "olive");
    near_offer(&near, "olein", "palm-olein");
    near_offer(&near, "maize", "maize");
    near_list(&near, list, sizeof list);
    assert_string_equal(list, "olive, palm-olein and maize");
    near_offer(&near, "olivi", "maize"); /* a nearer name of a key that is there moves it up */
    near_list(&near, list, sizeof list);
    assert_string_equal(list, "maize, olive and palm-olein");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keys_names_and_synonyms_lead_to_the_same_fact),
        cmocka_unit_test(an_oil_with_its_own_value_may_have_any_name),
        cmocka_unit_test(the_shelf_goes_before_the_reference),
        cmocka_unit_test(fat_of_liquids_and_additives_counts_as_an_oil),
        cmocka_unit_test(an_unknown_name_is_refused_with_its_place_and_the_three_nearest),
        cmocka_unit_test(every_part_that_has_a_name_is_looked_up),
        cmocka_unit_test(the_nearest_may_stand_on_the_shelf),
        cmocka_unit_test(a_hostile_name_is_shown_without_its_control_characters),
        cmocka_unit_test(nearest_are_few_sorted_and_each_key_once),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
