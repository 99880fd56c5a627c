/* Heat of a plan: what dissolves in which water, what it costs to melt ice, and which way it goes. */
#include "calc/heat.h"

#include "calc/constants.h"
#include "calc/scene.h"

static double end_c(double naoh_mol, double koh_mol, double water_g, double start_c)
{
    struct plan_heat heat;

    heat_of_dissolving(facts_reference(), (const double[]){naoh_mol, koh_mol}, water_g, start_c, &heat);
    assert_true(isfinite(heat.up_to_c) && isfinite(heat.boils_at_c));
    assert_true(heat.up_to_c <= heat.boils_at_c);
    return heat.up_to_c;
}

/* A plan with that much dry NaOH in that much water at 20 C. */
static void lye_scene(struct scene *s, double naoh_g, double water_g)
{
    scene_start(s);
    s->recipe.water.temp_c = 20.0;
    s->plan.water.water.rounded_ug = mass_ug(water_g);
    s->plan.alkali[ALKALI_NAOH].alkali = (struct weighing){.rounded_ug = mass_ug(naoh_g), .division_ug = 10000};
    s->plan.alkali[ALKALI_NAOH].moles = naoh_g / MOLAR_NAOH;
}

/* Worked example of the exchange format: 147.24 g in 299 g of water, up to 108 C. */
static void the_worked_recipe_heats_up_to_108_degrees(void **state)
{
    struct scene s;
    (void)state;

    lye_scene(&s, 147.24, 299.0);
    heat_plan(&s.in, &s.plan);
    assert_true(s.plan.heat.has);
    assert_near(s.plan.heat.up_to_c, 108.0, 0.5);
    assert_false(s.plan.heat.capped);
    assert_false(s.plan.heat.estimate);
    assert_int_equal(s.plan.findings, 0);
}

static void boiling_is_a_caution_with_both_temperatures(void **state)
{
    struct scene s;
    (void)state;

    lye_scene(&s, 100.0, 200.0);
    s.recipe.water.temp_c = 45.0;
    heat_plan(&s.in, &s.plan);
    const struct finding *finding = scene_finding(&s, FINDING_HEAT_BOIL);
    assert_non_null(finding);
    assert_int_equal(finding->level, LEVEL_CAUTION);
    assert_near(finding->number[0], 120.9, 0.1);
    assert_near(finding->number[1], 120.9, 0.1);
    assert_true(finding->number[2] == 0.0);
}

static void ready_made_lye_gives_off_nothing(void **state)
{
    struct scene s;
    (void)state;

    lye_scene(&s, 147.24, 152.0);
    s.plan.alkali[ALKALI_NAOH].solution = (struct weighing){.rounded_ug = mass_ug(294.0), .division_ug = 1000000};
    heat_plan(&s.in, &s.plan);
    assert_false(s.plan.heat.has);
    assert_true(s.plan.heat.up_to_c == 0.0);
    assert_int_equal(s.plan.findings, 0);
}

static void beside_ready_made_lye_only_the_dry_alkali_heats_in_all_of_the_water(void **state)
{
    struct scene s;
    (void)state;

    lye_scene(&s, 40.0, 100.0);
    s.plan.alkali[ALKALI_KOH].alkali.rounded_ug = mass_ug(50.0);
    s.plan.alkali[ALKALI_KOH].moles = 50.0 / MOLAR_KOH;
    s.plan.alkali[ALKALI_KOH].solution = (struct weighing){.rounded_ug = mass_ug(100.0), .division_ug = 1000000};
    heat_plan(&s.in, &s.plan);
    assert_false(s.plan.heat.estimate);
    assert_near(s.plan.heat.up_to_c, end_c(40.0 / MOLAR_NAOH, 0.0, 150.0, 20.0), 1e-9);
}

static void liquids_and_impurity_are_water_to_the_alkali(void **state)
{
    struct scene s;
    (void)state;

    lye_scene(&s, 100.0, 100.0);
    s.recipe.water.liquids = 1;
    s.plan.liquid[0].water_g = 88.0;
    s.plan.alkali[ALKALI_NAOH].moles = 98.0 / MOLAR_NAOH; /* 98 % pure */
    heat_plan(&s.in, &s.plan);
    assert_near(s.plan.heat.up_to_c, end_c(98.0 / MOLAR_NAOH, 0.0, 190.0, 20.0), 1e-9);
}

static void nothing_to_dissolve_or_to_dissolve_in_has_no_heat(void **state)
{
    struct plan_heat heat;
    (void)state;

    heat_of_dissolving(facts_reference(), (const double[]){0.0, 0.0}, 100.0, 20.0, &heat);
    assert_false(heat.has);
    heat_of_dissolving(facts_reference(), (const double[]){1.0, 0.0}, 0.0, 20.0, &heat);
    assert_false(heat.has);
    heat_of_dissolving(facts_reference(), (const double[]){1.0, 0.0}, -5.0, 20.0, &heat);
    assert_false(heat.has);
}

/* 333.6 J/g to melt ice. At 1/3 NaOH the solution has 3.57 J/(g K): ice instead of water of 0 C is 333.6 * 2/3 / 3.57 = 62.3 C
 * less. */
static void ice_takes_its_heat_of_melting(void **state)
{
    double naoh = 100.0 / MOLAR_NAOH;
    (void)state;

    assert_near(end_c(naoh, 0.0, 200.0, 0.0) - end_c(naoh, 0.0, 200.0, -1.0), 62.3, 0.5);
}

static void too_little_alkali_leaves_ice(void **state)
{
    (void)state;
    assert_near(end_c(0.05, 0.0, 1000.0, -5.0), -5.0, 1e-12);
}

/* Two alkalis share the water by moles: at equal shares of each the rise lies between those of either alone. */
static void two_alkalis_heat_between_each_alone(void **state)
{
    double water = 12.0 * MOLAR_WATER, sodium = end_c(1.0, 0.0, water, 20.0), potassium = end_c(0.0, 1.0, water, 20.0);
    double both = end_c(0.5, 0.5, water, 20.0);
    (void)state;

    assert_true(both > fmin(sodium, potassium) && both < fmax(sodium, potassium));
    assert_near(end_c(1.0 - 1e-9, 1e-9, water, 20.0), sodium, 1e-4);
}

static void the_size_of_the_batch_does_not_matter(void **state)
{
    (void)state;
    for (int i = 1; i <= 12; i++) {
        double water = 10.0 * i;

        assert_near(end_c(0.5, 0.2, water, 20.0), end_c(500.0, 200.0, 1000.0 * water, 20.0), 1e-6);
    }
}

/* Property: more alkali in the same water is hotter up to 40 %, beyond which heat per mole falls as fast as moles are added;
 * warmer water is hotter until the lye boils. */
static void stronger_and_warmer_is_hotter(void **state)
{
    int below_the_boil = 0;
    (void)state;

    for (int kind = 0; kind < ALKALIS; kind++) {
        double last = 0.0;

        for (int percent = 5; percent <= 40; percent++) {
            double moles[ALKALIS] = {0};
            struct plan_heat warm;

            moles[kind] = percent / MOLAR_ALKALI[kind];
            double now = end_c(moles[0], moles[1], 100.0 - percent, 20.0);
            heat_of_dissolving(facts_reference(), moles, 100.0 - percent, 25.0, &warm);
            assert_true(now > last);
            assert_true(warm.up_to_c > now || warm.capped);
            below_the_boil += !warm.capped;
            last = now;
        }
    }
    assert_true(below_the_boil > 50);
}

/* Property: any amounts, also far outside the tables, end at a finite temperature at most boiling. */
static void no_amount_gives_a_number_that_is_not_finite(void **state)
{
    static const double amount[] = {1e-9, 1e-3, 1.0, 1e3, 1e9};
    (void)state;

    for (size_t i = 0; i < ROWS(amount); i++)
        for (size_t j = 0; j < ROWS(amount); j++)
            for (double start = -40.0; start <= 120.0; start += 20.0) {
                end_c(amount[i], 0.0, amount[j], start);
                end_c(0.0, amount[i], amount[j], start);
                end_c(amount[i], amount[i], amount[j], start);
            }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_worked_recipe_heats_up_to_108_degrees),
        cmocka_unit_test(boiling_is_a_caution_with_both_temperatures),
        cmocka_unit_test(ready_made_lye_gives_off_nothing),
        cmocka_unit_test(beside_ready_made_lye_only_the_dry_alkali_heats_in_all_of_the_water),
        cmocka_unit_test(liquids_and_impurity_are_water_to_the_alkali),
        cmocka_unit_test(nothing_to_dissolve_or_to_dissolve_in_has_no_heat),
        cmocka_unit_test(ice_takes_its_heat_of_melting),
        cmocka_unit_test(too_little_alkali_leaves_ice),
        cmocka_unit_test(two_alkalis_heat_between_each_alone),
        cmocka_unit_test(the_size_of_the_batch_does_not_matter),
        cmocka_unit_test(stronger_and_warmer_is_hotter),
        cmocka_unit_test(no_amount_gives_a_number_that_is_not_finite),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
