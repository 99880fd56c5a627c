/* test_facts_units.c - conversion factors against the values of the standards. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "lyeway/facts.h"
#include "near.h"

struct factor {
    const char *symbol, *si_unit;
    double in_si;
};

static void check(const struct factor *factor, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        const struct unit_fact *unit = facts_unit(factor[i].symbol);
        assert_non_null(unit);
        assert_string_equal(unit->si_unit, factor[i].si_unit);
        assert_true(unit->exact);
        assert_near(unit->in_si, factor[i].in_si, 1e-14 * factor[i].in_si);
    }
}

/* Source: NIST Handbook 44 Appendix C: the avoirdupois pound is 453.592 37 g exactly; 16 ounces, 256 drams, 7000 grains. */
static void masses_follow_from_the_pound(void **state)
{
    static const double lb = 453.59237;
    const struct factor factor[] = {
        {"lb", "g", lb},        {"oz", "g", lb / 16},           {"dr", "g", lb / 256},
        {"gr", "g", lb / 7000}, {"oz t", "g", lb / 7000 * 480}, {"st", "g", 14 * lb},
    };

    (void)state;
    check(factor, sizeof factor / sizeof *factor);
}

/* Source: NIST Handbook 44 Appendix C: the inch is 25.4 mm, the US gallon 231 cubic inches, exactly. */
static void volumes_follow_from_the_inch(void **state)
{
    static const double in3 = 2.54 * 2.54 * 2.54;
    const struct factor factor[] = {
        {"in3", "mL", in3},
        {"gal", "mL", 231 * in3},
        {"qt", "mL", 231 * in3 / 4},
        {"pt", "mL", 231 * in3 / 8},
        {"cup", "mL", 231 * in3 / 16},
        {"fl oz", "mL", 231 * in3 / 128},
        {"tbsp", "mL", 231 * in3 / 256},
        {"tsp", "mL", 231 * in3 / 768},
        {"in", "mm", 25.4},
        {"ft", "mm", 304.8},
        {"in2", "cm2", 6.4516},
        {"L", "mL", 1000},
    };

    (void)state;
    check(factor, sizeof factor / sizeof *factor);
}

/* Source: UK Units of Measurement Regulations 1995: the gallon is 4.546 09 dm3 exactly. */
static void imperial_volumes_follow_from_their_gallon(void **state)
{
    const struct factor factor[] = {
        {"imp gal", "mL", 4546.09}, {"imp pt", "mL", 4546.09 / 8}, {"imp fl oz", "mL", 4546.09 / 160}};

    (void)state;
    check(factor, sizeof factor / sizeof *factor);
}

/* Source: NIST SP 811 Appendix B.8: thermochemical calorie 4.184 J, IT calorie 4.1868 J, Btu(IT) 1055.055 852 62 J. */
static void energies_are_those_of_the_guide(void **state)
{
    const struct factor factor[] = {{"cal_th", "J", 4.184},
                                    {"cal_IT", "J", 4.1868},
                                    {"Btu", "J", 1055.05585262},
                                    {"Btu/lb", "J/g", 1055.05585262 / 453.59237},
                                    {"delta F", "delta C", 5.0 / 9}};

    (void)state;
    check(factor, sizeof factor / sizeof *factor);
}

/* An ounce of volume is not an ounce of mass, and a temperature is not converted by a factor. */
static void what_is_easily_confused_is_kept_apart(void **state)
{
    (void)state;
    assert_string_equal(facts_unit("fl oz")->si_unit, "mL");
    assert_string_equal(facts_unit("oz")->si_unit, "g");
    assert_true(facts_unit("F")->in_si == 0);
    assert_true(facts_unit("K")->in_si == 0);
    assert_non_null(strstr(facts_unit("F")->source, "(t_F - 32) / 1.8"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(masses_follow_from_the_pound),
        cmocka_unit_test(volumes_follow_from_the_inch),
        cmocka_unit_test(imperial_volumes_follow_from_their_gallon),
        cmocka_unit_test(energies_are_those_of_the_guide),
        cmocka_unit_test(what_is_easily_confused_is_kept_apart),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
