/* test_practice.c - the figures of the craft: common practice or memory, but for the solubilities, which were read. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "lyeway/facts.h"

struct expected {
    const char *member;
    size_t offset;
    double value;
    enum standing standing;
};

#define ROW(member, value, standing)                                           \
    {                                                                          \
#member, offsetof(struct practice, member), value, STANDING_##standing \
    }

/* clang-format off */
static const struct expected expected[] = {
    ROW(jug_residue_g, 8, PRACTICE),
    ROW(jug_residue_most_share, 0.05, PRACTICE),
    ROW(cup_residue_g, 4, MEMORY),
    ROW(bag_fill_g, 175, PRACTICE),
    ROW(bag_residue_g, 12, MEMORY),
    ROW(first_squeeze_g, 3, MEMORY),
    ROW(piece_within_share, 0.15, MEMORY),
    ROW(piece_between_share, 0.05, MEMORY),
    ROW(reject_simple_a, 2, PRACTICE),
    ROW(reject_simple_b, 24, PRACTICE),
    ROW(reject_flower_a, 3, PRACTICE),
    ROW(reject_flower_b, 22, PRACTICE),
    ROW(reject_first_a, 4, PRACTICE),
    ROW(reject_first_b, 16, PRACTICE),
    ROW(reject_weight_most, 60, MEMORY),
    ROW(piece_chance, 0.9, MEMORY),
    ROW(simple_seconds, 45, MEMORY),
    ROW(flower_seconds, 60, MEMORY),
    ROW(bag_change_minutes, 3, MEMORY),
    ROW(colour_minutes, 3, MEMORY),
    ROW(sap_own_half_range, 0.01, MEMORY),
    ROW(sap_far_share, 0.05, MEMORY),
    ROW(naoh_purity_lo, 0.985, PRACTICE),
    ROW(naoh_purity_nominal, 1, PRACTICE),
    ROW(naoh_purity_hi, 1, PRACTICE),
    ROW(koh_purity_lo, 0.85, PRACTICE),
    ROW(koh_purity_nominal, 0.9, PRACTICE),
    ROW(koh_purity_hi, 0.95, PRACTICE),
    ROW(oil_density_g_ml, 0.91, MEMORY),
    ROW(oil_density_temp_c, 20, MEMORY),
    ROW(oil_density_slope, -0.00068, MEMORY),
    ROW(batter_temp_c, 35, PRACTICE),
    ROW(naoh_soluble_share, 0.522, SEEN),
    ROW(koh_soluble_share, 0.528, SEEN),
    ROW(strength_high, 0.4, PRACTICE),
    ROW(strength_low, 0.25, PRACTICE),
    ROW(sugar_boil_share, 0.01, MEMORY),
    ROW(water_in_bar, 0.1, MEMORY),
    ROW(cure_loss_least, 0.05, MEMORY),
    ROW(cure_least_days, 28, PRACTICE),
    ROW(cure_loss_a_day, 0.001, MEMORY),
    ROW(cure_rate, 0.05, MEMORY),
    ROW(rancid_share, 0.15, PRACTICE),
    ROW(pace_from_pour, 5, PRACTICE),
    ROW(pace_from_layer, 15, PRACTICE),
    ROW(pace_from_pipe, 45, PRACTICE),
    ROW(pace_until_pour, 30, PRACTICE),
    ROW(pace_until_layer, 45, PRACTICE),
    ROW(pace_until_pipe, 75, PRACTICE),
    ROW(pace_strength, 0.75, PRACTICE),
    ROW(pace_temp, 0.65, PRACTICE),
    ROW(pace_saturated, 0.8, PRACTICE),
    ROW(pace_some, 0.6, PRACTICE),
    ROW(pace_strong, 0.2, PRACTICE),
    ROW(pace_long_blend, 0.6, PRACTICE),
    ROW(pace_half_mass, 1.15, PRACTICE),
    ROW(pace_factor_spread, 0.5, MEMORY),
    ROW(pace_factor_least, 0.1, MEMORY),
    ROW(pace_offset_spread, 0.3, MEMORY),
    ROW(pace_shape, 6, MEMORY),
    ROW(pace_scale, 0.8, MEMORY),
    ROW(pace_ref_strength, 0.33, PRACTICE),
    ROW(pace_ref_temp_c, 35, PRACTICE),
    ROW(pace_ref_saturated, 0.45, PRACTICE),
    ROW(pace_ref_oils_g, 500, PRACTICE),
    ROW(stage_1, -0.4446, MEMORY),
    ROW(stage_2, 0, MEMORY),
    ROW(stage_3, 0.4057, MEMORY),
    ROW(stage_4, 0.6616, MEMORY),
    ROW(stage_5, 0.8114, MEMORY),
    ROW(stage_6, 1, MEMORY),
    ROW(stage_7, 1.256, MEMORY),
    ROW(stage_spread, 0.3, MEMORY),
    ROW(plain_red, 240, MEMORY),
    ROW(plain_green, 230, MEMORY),
    ROW(plain_blue, 207, MEMORY),
};
/* clang-format on */

enum { EXPECTED = sizeof expected / sizeof *expected };

static double value_at(size_t offset)
{
    double value;

    memcpy(&value, (const char *)facts_reference()->practice + offset, sizeof value);
    return value;
}

static void every_figure_has_its_value_standing_and_source(void **state)
{
    (void)state;
    assert_int_equal(EXPECTED * sizeof(double), sizeof(struct practice));
    for (size_t i = 0; i < EXPECTED; i++) {
        enum standing standing;
        const char *source;
        if (!facts_practice_source(expected[i].member, &standing, &source))
            fail_msg("%s has no source", expected[i].member);
        if (value_at(expected[i].offset) != expected[i].value || standing != expected[i].standing)
            fail_msg("%s is %g of standing %d", expected[i].member, value_at(expected[i].offset), (int)standing);
        assert_true(*source != '\0');
    }
}

/* Source: 112 g of KOH in 100 g of water at 20 C (Great Soviet Encyclopedia, potassium hydroxide). */
static void the_solubility_of_potassium_hydroxide_is_that_of_the_handbook(void **state)
{
    (void)state;
    assert_true(value_at(offsetof(struct practice, koh_soluble_share)) > 111.5 / 211.5);
    assert_true(value_at(offsetof(struct practice, koh_soluble_share)) < 112.5 / 212.5);
}

static void what_is_no_figure_has_no_source(void **state)
{
    enum standing standing = STANDING_OWN;
    const char *source = "untouched";

    (void)state;
    assert_false(facts_practice_source("no_such_member", &standing, &source));
    assert_false(facts_practice_source("", &standing, &source));
    assert_int_equal(standing, STANDING_OWN);
    assert_string_equal(source, "untouched");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_figure_has_its_value_standing_and_source),
        cmocka_unit_test(the_solubility_of_potassium_hydroxide_is_that_of_the_handbook),
        cmocka_unit_test(what_is_no_figure_has_no_source),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
