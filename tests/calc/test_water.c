/* Water that goes with the alkali. */
#include "kitchen.h"

#include <math.h>

#include "calc/constants.h"

/* A recipe that asks for that much pure sodium hydroxide, on a scale to a milligram. */
static struct kitchen *recipe_of_naoh(double naoh_g)
{
    struct kitchen *k = kitchen_new();

    kitchen_scale(k, 0.001, 100000, 0);
    kitchen_own(k, "oils", naoh_g / 0.95 / MOLAR_NAOH * MOLAR_KOH / 0.2, 199, 200, 201);
    return k;
}

/* W = A (1 - c) / c: 140.00 g NaOH at 25, 30, 33.3333 and 40 % want 420.00, 326.67, 280.00 and 210.00 g. */
static void water_follows_from_the_strength(void **state)
{
    static const struct {
        double strength, water_g;
    } worked[] = {{0.25, 420.00}, {0.30, 326.67}, {1 / 3.0, 280.00}, {0.40, 210.00}};

    (void)state;
    for (size_t i = 0; i < sizeof worked / sizeof worked[0]; i++) {
        struct kitchen *k = recipe_of_naoh(140);

        k->recipe.water.value = worked[i].strength;
        kitchen_plan(k);
        assert_near(k->plan.water.water.exact_g, worked[i].water_g, 0.01);
        assert_near(k->plan.water.strength, worked[i].strength, 1e-9);
        assert_int_equal(k->plan.findings, 0);
    }
}

/* 1000 g oils, 380 g water, 135.45 g NaOH: 26.278 %, 2.805 to 1. */
static void water_of_the_oils_gives_strength_and_ratio(void **state)
{
    struct kitchen *k = kitchen_new();
    double sap = 135.45 / MOLAR_NAOH * MOLAR_KOH;

    (void)state;
    k->recipe.superfat = 0;
    k->recipe.water.by = WATER_OF_OILS;
    k->recipe.water.value = 0.38;
    kitchen_own(k, "oils", 1000, sap - 1, sap, sap + 1);
    kitchen_plan(k);
    assert_near(k->plan.water.strength, 0.26278, 1e-5);
    assert_near(k->plan.water.ratio, 2.805, 1e-3);
    assert_near(k->plan.water.of_oils, 0.38, 1e-9);
    assert_near(k->plan.water.total_g, 380, 1e-9);
}

static void a_ratio_is_kept(void **state)
{
    struct kitchen *k = recipe_of_naoh(100);

    (void)state;
    k->recipe.water.by = WATER_RATIO;
    k->recipe.water.value = 2.2;
    kitchen_plan(k);
    assert_near(k->plan.water.water.exact_g, 220, 1e-9);
    assert_near(k->plan.water.ratio, 2.2, 1e-9);
}

/* Diluting a 50 % stock: 140 g NaOH at 33.3333 % are 280.00 g of stock and 140.00 g of water. */
static void ready_made_lye_brings_part_of_the_water(void **state)
{
    struct kitchen *k = recipe_of_naoh(140);

    (void)state;
    k->recipe.water.value = 1 / 3.0;
    k->recipe.alkali.solution_share[ALKALI_NAOH] = 0.5;
    kitchen_plan(k);
    assert_near(k->plan.alkali[ALKALI_NAOH].solution.exact_g, 280.00, 0.01);
    assert_near(k->plan.water.water.exact_g, 140.00, 0.01);
    assert_near(k->plan.water.total_g, 280.00, 0.01);
    assert_near(k->plan.water.strength_rounded, 1 / 3.0, 1e-5);
    assert_int_equal(k->plan.batter_ug, k->plan.oils_ug + k->plan.alkali[ALKALI_NAOH].solution.rounded_ug +
                                            k->plan.water.water.rounded_ug);
}

/* On a 1 g scale: 281.7 g of 50 % stock read 281, in which are 140.5 g. */
static void ready_made_lye_is_rounded_down_and_its_alkali_follows(void **state)
{
    struct kitchen *k = recipe_of_naoh(140.85);

    (void)state;
    k->recipe.scale[0].division_ug = mass_ug(1);
    k->recipe.alkali.solution_share[ALKALI_NAOH] = 0.5;
    kitchen_plan(k);
    assert_int_equal(k->plan.alkali[ALKALI_NAOH].solution.rounded_ug, 281000000);
    assert_int_equal(k->plan.alkali[ALKALI_NAOH].alkali.rounded_ug, 140500000);
}

/* 140 g NaOH as 30 % stock come with 326.67 g of water, more than the 210 g that 40 % wants; 30 % is all that can be
 * had. */
static void lye_that_is_too_weak_is_a_stop_with_the_strength_it_reaches(void **state)
{
    struct kitchen *k = recipe_of_naoh(140);
    const struct finding *found;

    (void)state;
    k->recipe.water.value = 0.40;
    k->recipe.alkali.solution_share[ALKALI_NAOH] = 0.3;
    kitchen_plan(k);
    found = kitchen_found(k, FINDING_SOLUTION_WEAK);
    assert_non_null(found);
    assert_int_equal(found->level, LEVEL_STOP);
    assert_near(found->number[0], 210.00, 0.01);
    assert_near(found->number[1], 326.67, 0.01);
    assert_near(found->number[2], 0.30, 1e-9);
    assert_int_equal(k->plan.water.water.rounded_ug, 0);
    assert_near(k->plan.water.strength, 0.30, 1e-9);
}

/* Acetic acid, 60.052 g/mol: 200 g of 5 % vinegar take 6.660 g NaOH and bring 190.0 g of water. */
static void vinegar_brings_water_and_takes_up_alkali(void **state)
{
    struct kitchen *k = recipe_of_naoh(140);
    double total_g;

    (void)state;
    k->recipe.water.by = WATER_OF_OILS;
    k->recipe.water.value = 0.38;
    kitchen_plan(k);
    total_g = k->plan.water.total_g;
    kitchen_liquid(k, &VINEGAR, NULL, 190.0 / total_g);
    kitchen_plan(k);
    assert_near(k->plan.liquid[0].liquid.exact_g, 200, 1e-6);
    assert_near(naoh_exact(&k->plan) - 140, 6.660, 0.005);
    assert_near(k->plan.water.water.exact_g, total_g - 190, 1e-6);
}

/* Milk raises the alkali, that the water, that the milk: the closed form is where repeating it to rest leads. */
static void milk_for_all_the_water_is_what_passes_converge_to(void **state)
{
    struct kitchen *k = kitchen_new();
    double milk_g = 0, naoh_g = 0, water_g = 0;

    (void)state;
    kitchen_oil(k, &OLIVE, 1000);
    kitchen_liquid(k, &COCONUT_MILK, &COCONUT, 1);
    for (int pass = 0; pass < 200; pass++) {
        naoh_g = (0.95 * (1000 * 0.190 + milk_g * 0.21 * 0.255) / MOLAR_KOH + milk_g * 0.00001) * MOLAR_NAOH;
        water_g = naoh_g * 0.67 / 0.33;
        milk_g = water_g / 0.72;
    }
    kitchen_plan(k);
    assert_near(naoh_exact(&k->plan), naoh_g, 1e-9);
    assert_near(k->plan.liquid[0].liquid.exact_g, milk_g, 1e-9);
    assert_int_equal(k->plan.water.water.rounded_ug, 0);
    assert_null(kitchen_found(k, FINDING_SOLUTION_WEAK));
    assert_true(naoh_g > 1.1 * 0.95 * 190 / MOLAR_KOH * MOLAR_NAOH); /* by more than a tenth */
}

/* 40 g of 60 % lactate hold 16 g of water (common practice). */
static void water_in_an_additive_counts(void **state)
{
    struct kitchen *k = recipe_of_naoh(140);
    double without;

    (void)state;
    kitchen_plan(k);
    without = k->plan.water.water.exact_g;
    kitchen_additive(k, &LACTATE, 40);
    kitchen_plan(k);
    assert_near(without - k->plan.water.water.exact_g, 16, 1e-9);
    assert_near(k->plan.water.strength, 0.33, 1e-9);
}

static void water_beyond_what_was_asked_is_weak_without_ready_made_lye_too(void **state)
{
    struct kitchen *k = recipe_of_naoh(10);

    (void)state;
    kitchen_additive(k, &LACTATE, 100); /* 40 g of water where 20.3 g are asked */
    kitchen_plan(k);
    assert_non_null(kitchen_found(k, FINDING_SOLUTION_WEAK));
    assert_near(kitchen_found(k, FINDING_SOLUTION_WEAK)->number[2], 10 / 50.0, 1e-9);
    assert_int_equal(k->plan.water.water.rounded_ug, 0);
}

/* At 4 % strength, coconut milk for all the water takes up more alkali than its water carries: there is no answer. */
static void a_liquid_that_asks_for_more_than_it_carries_is_a_stop(void **state)
{
    struct kitchen *k = kitchen_new();
    const struct finding *found;

    (void)state;
    k->recipe.water.value = 0.04;
    kitchen_oil(k, &OLIVE, 1000);
    kitchen_liquid(k, &COCONUT_MILK, &COCONUT, 1);
    kitchen_plan(k);
    found = kitchen_found(k, FINDING_SOLUTION_WEAK);
    assert_non_null(found);
    assert_true(isfinite(naoh_exact(&k->plan)) && naoh_exact(&k->plan) > 0);
    assert_true(found->number[2] > 0.04 && found->number[2] < 0.10);
}

/* Solubility at 20 C as in the tables of solubility: 52.2 % NaOH, 52.8 % KOH. 25 and 40 %: common practice. */
static void strength_is_looked_at_against_solubility_and_practice(void **state)
{
    static const struct {
        double strength, potassium;
        enum finding_code code;
    } worked[] = {
        {0.523, 0, FINDING_STRENGTH_OVER},
        {0.523, 1, FINDING_STRENGTH_HIGH},
        {0.524, 0.5, FINDING_STRENGTH_HIGH},
        {0.526, 0.5, FINDING_STRENGTH_OVER},
        {0.529, 1, FINDING_STRENGTH_OVER},
        {0.401, 0, FINDING_STRENGTH_HIGH},
        {0.40, 0, FINDING_COUNT},
        {0.25, 0, FINDING_COUNT},
        {0.249, 0, FINDING_STRENGTH_LOW},
    };
    static const enum finding_level level[] = {[FINDING_STRENGTH_OVER] = LEVEL_STOP,
                                               [FINDING_STRENGTH_HIGH] = LEVEL_CAUTION,
                                               [FINDING_STRENGTH_LOW] = LEVEL_REMARK};

    (void)state;
    for (size_t i = 0; i < sizeof worked / sizeof worked[0]; i++) {
        struct kitchen *k = recipe_of_naoh(140);

        k->recipe.water.value = worked[i].strength;
        k->recipe.alkali.potassium_share = worked[i].potassium;
        kitchen_plan(k);
        if (worked[i].code == FINDING_COUNT) {
            assert_int_equal(k->plan.findings, 0);
            continue;
        }
        assert_int_equal(k->plan.findings, 1);
        assert_int_equal(k->plan.finding[0].code, worked[i].code);
        assert_int_equal(k->plan.finding[0].level, level[worked[i].code]);
        assert_near(k->plan.finding[0].number[0], worked[i].strength, 1e-9);
    }
}

/* 40 % asked is not above 40 %, 25 % not below 25 %, whatever the last bits of the masses say. */
static void a_strength_on_a_threshold_is_not_beyond_it(void **state)
{
    (void)state;
    for (int naoh_g = 1; naoh_g <= 300; naoh_g++) {
        struct kitchen *k = recipe_of_naoh(naoh_g);

        k->recipe.water.value = naoh_g % 2 ? 0.40 : 0.25;
        kitchen_plan(k);
        assert_null(kitchen_found(k, FINDING_STRENGTH_HIGH));
        assert_null(kitchen_found(k, FINDING_STRENGTH_LOW));
    }
}

/* Nor are liquids that share all of the water more than all of it. */
static void liquids_for_all_of_the_water_are_not_too_much(void **state)
{
    (void)state;
    for (int tenths = 1; tenths <= 8; tenths++)
        for (int naoh_g = 1; naoh_g <= 50; naoh_g++) {
            struct kitchen *k = recipe_of_naoh(naoh_g);

            kitchen_liquid(k, &VINEGAR, NULL, tenths / 10.0);
            kitchen_liquid(k, &COCONUT_MILK, &COCONUT, 0.1);
            kitchen_liquid(k, &COCONUT_MILK, &COCONUT, 1 - tenths / 10.0 - 0.1);
            kitchen_plan(k);
            assert_null(kitchen_found(k, FINDING_SOLUTION_WEAK));
        }
}

/* Sugar over 1 % of the oils heats a batter (memory): 300 g of water as coconut milk bring 13.75 g of sugar. */
static void sugar_of_the_liquids_brings_a_caution_about_heat(void **state)
{
    struct kitchen *k = kitchen_new();
    const struct finding *found;

    (void)state;
    k->recipe.water.by = WATER_OF_OILS;
    k->recipe.water.value = 0.3;
    kitchen_oil(k, &OLIVE, 1000);
    kitchen_liquid(k, &COCONUT_MILK, &COCONUT, 0.1);
    kitchen_plan(k);
    assert_null(kitchen_found(k, FINDING_HEAT_BOIL));
    k->recipe.water.liquid[0].share_of_water = 1;
    kitchen_plan(k);
    found = kitchen_found(k, FINDING_HEAT_BOIL);
    assert_non_null(found);
    assert_int_equal(found->level, LEVEL_CAUTION);
    assert_near(found->number[2], 0.01375, 1e-4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CHECK(water_follows_from_the_strength),
        CHECK(water_of_the_oils_gives_strength_and_ratio),
        CHECK(a_ratio_is_kept),
        CHECK(ready_made_lye_brings_part_of_the_water),
        CHECK(ready_made_lye_is_rounded_down_and_its_alkali_follows),
        CHECK(lye_that_is_too_weak_is_a_stop_with_the_strength_it_reaches),
        CHECK(vinegar_brings_water_and_takes_up_alkali),
        CHECK(milk_for_all_the_water_is_what_passes_converge_to),
        CHECK(water_in_an_additive_counts),
        CHECK(water_beyond_what_was_asked_is_weak_without_ready_made_lye_too),
        CHECK(a_liquid_that_asks_for_more_than_it_carries_is_a_stop),
        CHECK(strength_is_looked_at_against_solubility_and_practice),
        CHECK(a_strength_on_a_threshold_is_not_beyond_it),
        CHECK(liquids_for_all_of_the_water_are_not_too_much),
        CHECK(sugar_of_the_liquids_brings_a_caution_about_heat),
    };

    return cmocka_run_group_tests_name("water", tests, NULL, NULL);
}
