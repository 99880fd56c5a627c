/* Heat of dissolving against published figures and against a reckoning of the same road done outside the program. */
#include "calc/near.h"

#include "calc/constants.h"
#include "calc/heat.h"

/* 100 g of solution at that share of pure alkali. */
static struct plan_heat dissolve(enum alkali alkali, double share, double start_c)
{
    double moles[ALKALIS] = {0};
    struct plan_heat heat;

    moles[alkali] = 100.0 * share / MOLAR_ALKALI[alkali];
    heat_of_dissolving(facts_reference(), moles, 100.0 * (1.0 - share), start_c, &heat);
    return heat;
}

/* Source: worked outside the program with the tables of the NBS (1982 scale) and the enthalpies of Olsson and others 1997;
 * 3 C is from one model to the other, and a real open jug reads 5 to 20 C lower. */
static void sodium_hydroxide_heats_as_worked_outside(void **state)
{
    static const struct {
        double percent, start_c, end_c;
    } row[] = {
        {25, 20, 92.4},      {28, 20, 99.1},       {30, 20, 103.0},    {33.3333, 20, 108.4}, {40, 20, 114.7},
        {50, 20, 113.6},     {25, 5, 77.5},        {33.3333, 5, 94.3}, {40, 5, 100.9},       {25, 10, 82.5},
        {33.3333, 10, 99.0}, {40, 10, 105.5},      {25, 30, 102.1},    {33.3333, 30, 117.8}, {40, 30, 123.8},
        {25, 40, 111.8},     {33.3333, 40, 120.9}, {40, 40, 130.1},
    };
    (void)state;

    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct plan_heat heat = dissolve(ALKALI_NAOH, row[i].percent / 100.0, row[i].start_c);

        assert_true(heat.has);
        assert_false(heat.estimate);
        assert_near(heat.up_to_c, row[i].end_c, 3.0);
    }
}

/* Same source: boiling at 120.9 and 130.1 C; without the cap they would reach 127.0 and 132.9. */
static void warm_water_brings_strong_lye_to_the_boil(void **state)
{
    struct plan_heat heat = dissolve(ALKALI_NAOH, 0.333333, 40.0);
    (void)state;

    assert_true(heat.capped);
    assert_near(heat.boils_at_c, 120.9, 0.1);
    assert_true(heat.up_to_c == heat.boils_at_c);
    heat = dissolve(ALKALI_NAOH, 0.40, 40.0);
    assert_true(heat.capped);
    assert_near(heat.boils_at_c, 130.1, 0.1);
    assert_false(dissolve(ALKALI_NAOH, 0.25, 20.0).capped);
    assert_near(dissolve(ALKALI_NAOH, 0.25, 20.0).boils_at_c, 112.0, 0.1);
}

/* Source: an estimate (no published table at hand), 8 C; at 30 and 33.3 % it boils at 113.4 and 116.6 C. */
static void potassium_hydroxide_is_an_estimate(void **state)
{
    static const struct {
        double percent, end_c;
    } row[] = {{20, 80}, {25, 98}, {30, 113}, {33.3333, 117}};
    (void)state;

    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct plan_heat heat = dissolve(ALKALI_KOH, row[i].percent / 100.0, 20.0);

        assert_true(heat.estimate);
        assert_near(heat.up_to_c, row[i].end_c, 8.0);
    }
    assert_true(dissolve(ALKALI_KOH, 0.333333, 20.0).capped);
}

/* Source: a general chemistry textbook's calorimeter: 6.50 g NaOH in 100.0 g of water go from 21.6 to 37.8 C (44.4 kJ/mol with
 * 4.18 J/(g K)). The 1982 scale gives 38.6 C for it. */
static void a_calorimeter_reads_what_the_model_gives(void **state)
{
    const double moles[ALKALIS] = {6.50 / MOLAR_NAOH, 0.0};
    struct plan_heat heat;
    (void)state;

    heat_of_dissolving(facts_reference(), moles, 100.0, 21.6, &heat);
    assert_near(heat.up_to_c, 37.8, 1.0);
    assert_near(heat.up_to_c, 38.6, 0.3);
    assert_near(106.5 * 4.18 * (heat.up_to_c - 21.6) / moles[ALKALI_NAOH] / 1000.0, 44.4, 2.5);
}

/* Source: Felder and Rousseau, Elementary Principles of Chemical Processes, problem 8.83: 20 mol NaOH and 80 mol water at
 * -34.43 kJ/mol (NBS Circular 500 scale) give 688.6 kJ, 132.1 Btu per pound of solution (printed 132.3). With a heat capacity
 * of 3.5 everywhere the rise from 25 C is that heat. */
static void heat_at_four_moles_of_water_is_that_of_the_textbook(void **state)
{
    static const struct heat_point circular_500[] = {{.water_mol = 3, .heat_j_mol = -28886},
                                                     {.water_mol = 4, .heat_j_mol = -34430},
                                                     {.water_mol = 5, .heat_j_mol = -37761}};
    static const struct lye_point capacity = {.share = 0.3, .temp_c = 25, .value = 3.5};
    static const struct lye_point boiling = {.share = 0.3, .value = 1000.0};
    const struct reference reference = {.heat = circular_500,
                                        .heats = 3,
                                        .heat_capacity = &capacity,
                                        .heat_capacities = 1,
                                        .boiling = &boiling,
                                        .boilings = 1,
                                        .solid_heat_capacity = {1.49, 1.17}};
    const double moles[ALKALIS] = {20.0, 0.0}, mass = 20.0 * MOLAR_NAOH + 80.0 * MOLAR_WATER;
    const double joule_per_gram_of_btu_per_lb = 2.326; /* exact: international table Btu, pound */
    struct plan_heat heat;
    (void)state;

    heat_of_dissolving(&reference, moles, 80.0 * MOLAR_WATER, 25.0, &heat);
    double per_gram = 3.5 * (heat.up_to_c - 25.0);
    assert_near(per_gram * mass / 1000.0, 688.6, 0.1);
    assert_near(per_gram / joule_per_gram_of_btu_per_lb, 132.1, 0.1);
    assert_near(per_gram / joule_per_gram_of_btu_per_lb, 132.3, 0.3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sodium_hydroxide_heats_as_worked_outside),
        cmocka_unit_test(warm_water_brings_strong_lye_to_the_boil),
        cmocka_unit_test(potassium_hydroxide_is_an_estimate),
        cmocka_unit_test(a_calorimeter_reads_what_the_model_gives),
        cmocka_unit_test(heat_at_four_moles_of_water_is_that_of_the_textbook),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
