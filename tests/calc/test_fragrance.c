/* Fragrance of a plan: doses, shares in the product, allergens, and what speeds a batter up. */
#include "calc/fragrance_sample.h"
#include "calc/product.h"

/* Worked example of the exchange format: lavender at 3 % of the oils. */
static void lavender_in_the_worked_recipe_comes_out_as_printed(void **state)
{
    struct scene s;
    (void)state;

    scene_worked_recipe(&s);
    scene_fragrance(&s, &lavender, 0.03);
    plan_fragrance(&s);

    assert_int_equal(s.plan.portion[0].fragrance_ug, 17900000);
    assert_int_equal(s.plan.portion[1].fragrance_ug, 7460000);
    assert_int_equal(s.plan.portion[2].fragrance_ug, 0);
    assert_int_equal(s.plan.fragrance[0].rounded_ug, 25360000);
    assert_near(s.plan.portion[0].filled_g, 889.88, 1e-9);
    assert_near(s.plan.portion[1].filled_g, 370.45, 1e-9);
    assert_near(s.plan.portion[0].volume_ml, 884.0, 0.5);
    assert_near(s.plan.portion[1].volume_ml, 368.0, 0.5);
    assert_int_equal(s.plan.worst_portion, 1);
    assert_near(100.0 * s.plan.fragrance[0].share_of_product, 2.27, 0.005);
    assert_false(s.plan.fragrance[0].has_limit);
    assert_int_equal(s.plan.limit.from, LIMIT_NOT_BINDING);
    assert_false(s.plan.limit.unknown);
    assert_int_equal(s.plan.findings, 0);
}

static void linalool_of_the_worked_recipe_is_named_with_its_share(void **state)
{
    struct scene s;
    double share[PLAN_ALLERGENS] = {0};
    (void)state;

    scene_worked_recipe(&s);
    scene_fragrance(&s, &lavender, 0.03);
    plan_fragrance(&s);

    for (int i = 0; i < s.plan.allergens; i++) {
        share[s.plan.allergen[i].allergen] = s.plan.allergen[i].share;
        if (i > 0)
            assert_true(s.plan.allergen[i].share <= s.plan.allergen[i - 1].share);
    }
    assert_near(100.0 * share[0], 1.02, 0.005);
    assert_int_equal(s.plan.allergens, 7); /* the whole oil and all but coumarin */
    assert_int_equal(s.plan.allergen[0].allergen, 10);
}

static void each_way_of_dosing_gives_its_grams(void **state)
{
    struct recipe_fragrance of_oils = {.by = FRAGRANCE_OF_OILS, .value = 0.03};
    struct recipe_fragrance of_batter = {.by = FRAGRANCE_OF_BATTER, .value = 0.03};
    struct recipe_fragrance per_kg = {.by = FRAGRANCE_PER_KG_OILS, .value = 30.0};
    (void)state;

    assert_near(fragrance_dose_g(&of_oils, 700.0, 1000.0), 21.0, 1e-12);
    assert_near(fragrance_dose_g(&of_batter, 700.0, 1000.0), 30.0, 1e-12);
    assert_near(fragrance_dose_g(&per_kg, 700.0, 1000.0), 21.0, 1e-12);
}

static void fragrance_of_the_whole_batter_is_weighed_once_and_reaches_every_portion(void **state)
{
    struct scene s;
    (void)state;

    scene_start(&s);
    s.recipe.scent = PUT_IN_BATTER;
    s.plan.oils_ug = mass_ug(1000.0);
    s.plan.batter_ug = mass_ug(1500.0);
    scene_fragrance(&s, &lavender, 0.03);
    assert_near(fragrance_batter_g(&s.in, 1000.0, 1500.0), 30.0, 1e-12);
    fragrance_into_batter(&s.in, &s.plan);
    assert_int_equal(s.plan.batter_ug, mass_ug(1530.0));
    scene_portion(&s, 510.0, false, TECHNIQUE_POUR);
    scene_portion(&s, 1020.0, false, TECHNIQUE_POUR);
    fragrance_doses(&s.in, &s.plan);
    fragrance_plan(&s.in, &s.plan);

    assert_int_equal(s.plan.batter_fragrance[0].rounded_ug, mass_ug(30.0));
    assert_int_equal(s.plan.fragrance[0].rounded_ug, mass_ug(30.0));
    assert_int_equal(s.plan.portion[0].fragrance_ug, mass_ug(10.0));
    assert_int_equal(s.plan.portion[1].fragrance_ug, mass_ug(20.0));
    assert_int_equal(s.plan.portion[0].fragrance[0].rounded_ug, 0);
    assert_near(s.plan.portion[0].filled_g, 510.0, 1e-12);
    assert_near(s.plan.fragrance[0].share_of_product, 10.0 / s.plan.portion[0].cured_g, 1e-12);
}

static void fragrance_for_portions_leaves_the_batter_alone(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &lavender, 0.03);
    assert_true(fragrance_batter_g(&s.in, 700.0, 1000.0) == 0.0);
    fragrance_into_batter(&s.in, &s.plan);
    assert_int_equal(s.plan.batter_ug, mass_ug(1000.0));
}

/* Method of section 9: the recipe's water down to 10 % of the bar, at least 5 % of the mass; common practice. */
static void the_lighter_bar_of_both_rules_counts(void **state)
{
    (void)state;
    assert_near(product_cured_g(facts_reference()->practice, 1000.0, 190.0), 900.0, 1e-9);
    assert_near(product_cured_g(facts_reference()->practice, 1000.0, 120.0), 950.0, 1e-9);
    assert_near(product_cured_g(facts_reference()->practice, 1000.0, 0.0), 950.0, 1e-9);
    assert_true(product_cured_g(facts_reference()->practice, 0.0, 0.0) == 0.0);
}

static void water_of_every_kind_dries_out_of_the_bar(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    s.recipe.water.liquids = 1;
    s.plan.liquid[0].water_g = 40.0;
    s.recipe.additives = 1;
    s.plan.additive[0].water_g = 5.0;
    s.plan.alkali[ALKALI_NAOH].solution = (struct weighing){.rounded_ug = mass_ug(200.0), .division_ug = 1000000};
    s.plan.alkali[ALKALI_NAOH].alkali.rounded_ug = mass_ug(100.0);
    s.plan.alkali[ALKALI_KOH].alkali.rounded_ug = mass_ug(30.0);
    assert_near(product_water_g(&s.in, &s.plan), 200.0 + 40.0 + 5.0 + 100.0, 1e-9);
}

static void unscented_pieces_do_not_dilute_the_scented_base(void **state)
{
    struct scene with, without;
    (void)state;

    one_portion(&without, TECHNIQUE_POUR);
    scene_fragrance(&without, &lavender, 0.03);
    plan_fragrance(&without);

    one_portion(&with, TECHNIQUE_POUR);
    scene_portion(&with, 500.0, false, TECHNIQUE_PIPE);
    scene_fragrance(&with, &lavender, 0.03);
    plan_fragrance(&with);

    assert_true(with.plan.fragrance[0].share_of_product == without.plan.fragrance[0].share_of_product);
    assert_int_equal(with.plan.worst_portion, 0);
}

static void without_scented_portions_there_is_no_worst_one(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    s.recipe.portion[0].scented = false;
    scene_fragrance(&s, &clove, 0.03);
    plan_fragrance(&s);
    assert_int_equal(s.plan.worst_portion, -1);
    assert_int_equal(s.plan.limit.from, LIMIT_NONE_KNOWN);
    assert_int_equal(s.plan.allergens, 0);
    assert_int_equal(s.plan.findings, 0);
    assert_true(s.plan.portion[0].cured_g > 0.0);
}

/* Regulation (EU) 2023/1545: alpha- and beta-pinene are named together as Pinene. */
static void isomers_are_summed_before_the_threshold(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &pine, 0.0003);
    plan_fragrance(&s);
    double share = s.plan.fragrance[0].share_of_product;
    assert_true(share * 0.3 < 0.0001 && share * 0.6 > 0.0001);
    assert_int_equal(s.plan.allergens, 1);
    assert_near(s.plan.allergen[0].share, share * 0.6, 1e-15);
}

static void an_oil_listed_as_a_whole_counts_once(void **state)
{
    static const struct constituent whole[] = {{SAMPLE_LAVANDULA, 1, 1}};
    static const struct fragrance_fact absolute = {.allergen = 10, CONSTITUENTS(whole)};
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &absolute, 0.01);
    plan_fragrance(&s);
    assert_int_equal(s.plan.allergens, 1);
    assert_near(s.plan.allergen[0].share, s.plan.fragrance[0].share_of_product, 1e-15);
}

/* --- behaviour --- */

static int fast_findings(const struct fragrance_fact *fact, enum technique technique, int colourants, int portions)
{
    struct scene s;

    scene_start(&s);
    s.plan.oils_ug = mass_ug(700.0);
    s.plan.batter_ug = mass_ug(1000.0);
    for (int p = 0; p < portions; p++)
        scene_portion(&s, 1000.0 / portions, p == 0, technique);
    s.recipe.portion[0].colourants = colourants;
    scene_certify(&s, scene_fragrance(&s, fact, 0.02), 0.5);
    plan_fragrance(&s);
    return scene_count(&s, FINDING_FRAGRANCE_FAST);
}

static void only_strong_acceleration_where_it_hurts_is_found(void **state)
{
    (void)state;
    assert_int_equal(fast_findings(&clove, TECHNIQUE_PIPE, 0, 1), 1);
    assert_int_equal(fast_findings(&clove, TECHNIQUE_POUR, 3, 1), 1);
    assert_int_equal(fast_findings(&clove, TECHNIQUE_SWIRL, 1, 2), 1);
    assert_int_equal(fast_findings(&clove, TECHNIQUE_LAYER, 1, 2), 1);
    assert_int_equal(fast_findings(&clove, TECHNIQUE_SWIRL, 1, 1), 0);
    assert_int_equal(fast_findings(&clove, TECHNIQUE_POUR, 2, 2), 0);
    assert_int_equal(fast_findings(&lemongrass, TECHNIQUE_PIPE, 3, 2), 0);
}

static void odd_recipes_leave_only_finite_numbers(void **state)
{
    struct scene s;
    (void)state;

    scene_start(&s);
    scene_fragrance(&s, &clove, 1.0);
    scene_portion(&s, 0.0, true, TECHNIQUE_PIPE);
    s.plan.portion[0].oils_g = 0.0;
    plan_fragrance(&s);
    assert_int_equal(s.plan.worst_portion, -1);
    assert_true(isfinite(s.plan.limit.scale) && isfinite(s.plan.portion[0].cured_g));

    one_portion(&s, TECHNIQUE_PIPE); /* more water than the portion weighs */
    s.plan.water.water.rounded_ug = mass_ug(5000.0);
    scene_fragrance(&s, &clove, 1.0);
    plan_fragrance(&s);
    assert_true(isfinite(s.plan.fragrance[0].share_of_product));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lavender_in_the_worked_recipe_comes_out_as_printed),
        cmocka_unit_test(linalool_of_the_worked_recipe_is_named_with_its_share),
        cmocka_unit_test(each_way_of_dosing_gives_its_grams),
        cmocka_unit_test(fragrance_of_the_whole_batter_is_weighed_once_and_reaches_every_portion),
        cmocka_unit_test(fragrance_for_portions_leaves_the_batter_alone),
        cmocka_unit_test(the_lighter_bar_of_both_rules_counts),
        cmocka_unit_test(water_of_every_kind_dries_out_of_the_bar),
        cmocka_unit_test(unscented_pieces_do_not_dilute_the_scented_base),
        cmocka_unit_test(without_scented_portions_there_is_no_worst_one),
        cmocka_unit_test(isomers_are_summed_before_the_threshold),
        cmocka_unit_test(an_oil_listed_as_a_whole_counts_once),
        cmocka_unit_test(only_strong_acceleration_where_it_hurts_is_found),
        cmocka_unit_test(odd_recipes_leave_only_finite_numbers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
