/* Settings as rows of words: what a row shows can be typed again, and what cannot be is refused with a sentence. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "near.h"
#include "work/settings_row.h"

static const struct settings_row scale_1 = {SETTING_SCALE, 0}, scale_2 = {SETTING_SCALE, 1},
                                 new_scale = {SETTING_SCALE, 2}, first_vessel = {SETTING_VESSEL, 0},
                                 second_vessel = {SETTING_VESSEL, 1};

static struct settings common(void)
{
    struct settings settings;

    memset(&settings, 0, sizeof settings);
    settings_common(&settings);
    return settings;
}

static void shows(const struct settings *settings, struct settings_row row, const char *text)
{
    char value[SETTING_BYTES];

    settings_row_value(settings, row, value, sizeof value);
    assert_string_equal(value, text);
}

static void reads(struct settings *settings, struct settings_row row, const char *text)
{
    struct lw_error error = {""};

    if (settings_row_read(settings, row, text, &error) != LW_OK)
        fail_msg("\"%s\" was refused: %s", text, error.text);
}

/* Refused with a sentence that has `part`; the settings are as they were. */
static void refuses(struct settings *settings, struct settings_row row, const char *text, const char *part)
{
    struct lw_error error = {""};
    struct settings before;

    memcpy(&before, settings, sizeof before);
    assert_int_equal(settings_row_read(settings, row, text, &error), LW_INVALID);
    assert_memory_equal(settings, &before, sizeof before);
    if (!strstr(error.text, part))
        fail_msg("\"%s\" was refused with: %s", text, error.text);
}

static void a_new_store_begins_with_common_practice(void **state)
{
    struct settings settings = common();

    (void)state;
    shows(&settings, (struct settings_row){SETTING_MASS_UNIT, 0}, "grams");
    shows(&settings, (struct settings_row){SETTING_TEMPERATURE, 0}, "degrees Celsius");
    shows(&settings, (struct settings_row){SETTING_SUPERFAT, PURPOSE_SKIN}, "5 %");
    shows(&settings, (struct settings_row){SETTING_SUPERFAT, PURPOSE_CLEANING}, "0.5 %");
    shows(&settings, (struct settings_row){SETTING_STRENGTH, PURPOSE_LIQUID}, "25 %");
}

static void every_row_has_a_name_and_there_is_one_more_scale_and_vessel(void **state)
{
    struct settings settings = common();
    struct settings_row rows[SETTINGS_ROWS];
    int n = settings_rows(&settings, rows), scales = 0, vessels = 0;
    char name[SETTING_BYTES];

    (void)state;
    for (int i = 0; i < n; i++) {
        scales += rows[i].kind == SETTING_SCALE;
        vessels += rows[i].kind == SETTING_VESSEL;
        settings_row_name(&settings, rows[i], name, sizeof name);
        assert_true(name[0] != '\0');
    }
    assert_int_equal(scales, settings.scales + 1);
    assert_int_equal(vessels, settings.vessels + 1);
    settings_row_name(&settings, new_scale, name, sizeof name);
    assert_string_equal(name, "+ scale");
    settings_row_name(&settings, (struct settings_row){SETTING_SUPERFAT, PURPOSE_SHAVING}, name, sizeof name);
    assert_string_equal(name, "superfat of new recipes, shaving");
    settings.scales = RECIPE_SCALES;
    settings.vessels = SETTINGS_VESSELS;
    n = settings_rows(&settings, rows); /* full: no more can be added */
    assert_int_equal(n,
                     RECIPE_SCALES + SETTINGS_VESSELS + 2 * PURPOSES + 5 + 3 + 1); /* of the bench: 3 and a new key */
}

/* Property: the value of every row, typed again, gives the settings as they are. */
static void what_a_row_shows_can_be_typed_again(void **state)
{
    struct settings settings = common(), again;
    struct settings_row rows[SETTINGS_ROWS];
    int n;

    (void)state;
    reads(&settings, scale_2, "0.01 g to 200 g, accurate to 0.02 g, vessel 30 g, fine scale");
    reads(&settings, first_vessel, "212.5 g, jug B, blue, 2 L");
    reads(&settings, (struct settings_row){SETTING_CURRENCY, 0}, "gbp");
    reads(&settings, (struct settings_row){SETTING_MAKER, 0}, "Fennock Bench");
    reads(&settings, (struct settings_row){SETTING_ADDRESS, 0}, "The Boathouse, Fennock");
    memcpy(&again, &settings, sizeof again);
    n = settings_rows(&settings, rows);
    for (int i = 0; i < n; i++) {
        char value[SETTING_BYTES];

        settings_row_value(&settings, rows[i], value, sizeof value);
        if (value[0] && rows[i].kind != SETTING_MASS_UNIT && rows[i].kind != SETTING_TEMPERATURE &&
            rows[i].kind != SETTING_LYE_ORDER)
            reads(&again, rows[i], value);
    }
    assert_memory_equal(&again, &settings, sizeof again);
}

static void a_scale_is_read_with_all_that_is_known_of_it(void **state)
{
    struct settings settings = common();

    (void)state;
    reads(&settings, new_scale, "0.1 g to 2 kg, vessel 120 g , accurate to 0.3 g, kitchen");
    assert_int_equal(settings.scales, 3);
    assert_int_equal(settings.scale[2].division_ug, 100000);
    assert_int_equal(settings.scale[2].capacity_ug, 2000000000);
    assert_int_equal(settings.scale[2].accuracy_ug, 300000);
    assert_int_equal(settings.scale[2].vessel_ug, 120000000);
    assert_string_equal(settings.scale[2].name, "kitchen");
    reads(&settings, scale_1, "2 g to 5000 g");
    assert_int_equal(settings.scale[0].accuracy_ug, 2000000); /* one division: common practice */
    assert_string_equal(settings.scale[0].name, "");
    shows(&settings, scale_1, "2 g to 5000 g, accurate to 2 g, vessel 0 g");
    assert_int_equal(settings.scales, 3);
}

static void a_scale_that_cannot_be_is_refused(void **state)
{
    struct settings settings = common();
    char longest[120] = "1 g to 2 g, ";

    (void)state;
    memset(longest + strlen(longest), 'x', 100);
    refuses(&settings, scale_1, "1 g", "0.01 g to 200 g");
    refuses(&settings, scale_1, "0 g to 200 g", "above 0");
    refuses(&settings, scale_1, "300 g to 200 g", "not more than the greatest");
    refuses(&settings, scale_1, "1 g to 2000 kg", "0 to 1000 kg");
    refuses(&settings, scale_1, "1 mL to 200 g", "does not measure mass");
    refuses(&settings, scale_1, "1 g to 200 g, accurate to much", "a number was expected");
    refuses(&settings, scale_1, longest, "95 bytes");
}

static void a_decimal_comma_is_one_and_a_half_here_too(void **state)
{
    struct settings settings = common();

    (void)state;
    reads(&settings, scale_2, "0,01 g to 200,5 g, accurate to 0,02 g");
    assert_int_equal(settings.scale[1].division_ug, 10000);
    assert_int_equal(settings.scale[1].capacity_ug, 200500000);
    assert_int_equal(settings.scale[1].accuracy_ug, 20000);
    reads(&settings, first_vessel, "212,5 g, jug B");
    assert_int_equal(settings.vessel[0].empty_ug, 212500000);
    assert_string_equal(settings.vessel[0].name, "jug B");
    reads(&settings, (struct settings_row){SETTING_SUPERFAT, PURPOSE_SKIN}, "4,5 %");
    assert_near(settings.purpose[PURPOSE_SKIN].superfat, 0.045, 1e-15);
    refuses(&settings, first_vessel, "1,500 g, jug B", "decimal comma or mark thousands");
    refuses(&settings, scale_1, "1 g to 1,500 g", "decimal comma or mark thousands");
}

static void an_empty_text_takes_a_scale_or_vessel_out(void **state)
{
    struct settings settings = common();
    struct scale second;

    (void)state;
    assert_int_equal(settings.scales, 2);
    second = settings.scale[1];
    reads(&settings, new_scale, ""); /* none was begun */
    assert_int_equal(settings.scales, 2);
    reads(&settings, scale_1, "");
    assert_int_equal(settings.scales, 1);
    assert_int_equal(settings.scale[0].division_ug, second.division_ug);
    refuses(&settings, scale_1, "", "at least one scale");
    reads(&settings, scale_2, "");
    assert_int_equal(settings.scales, 1);
    reads(&settings, first_vessel, "100 g, cup");
    reads(&settings, second_vessel, "12 oz, pail"); /* NIST Handbook 44 (2024), Appendix C: 28.349523125 g an ounce */
    assert_int_equal(settings.vessel[1].empty_ug, 340194278);
    reads(&settings, first_vessel, "");
    assert_int_equal(settings.vessels, 1);
    assert_string_equal(settings.vessel[0].name, "pail");
    reads(&settings, second_vessel, "");
    assert_int_equal(settings.vessels, 1);
}

static void a_vessel_has_a_mass_and_a_name(void **state)
{
    struct settings settings = common();

    (void)state;
    refuses(&settings, first_vessel, "212 g", "needs a name");
    refuses(&settings, first_vessel, "212 g,  ", "needs a name");
    refuses(&settings, first_vessel, "jug B, 212 g", "a number was expected");
    refuses(&settings, first_vessel, "2000 kg, tub", "0 to 1000 kg");
}

static void percentages_and_the_currency_have_their_limits(void **state)
{
    struct settings settings = common();
    struct settings_row superfat = {SETTING_SUPERFAT, PURPOSE_SKIN}, strength = {SETTING_STRENGTH, PURPOSE_SKIN},
                        currency = {SETTING_CURRENCY, 0};

    (void)state;
    reads(&settings, superfat, "7.5");
    reads(&settings, strength, "30 %");
    assert_near(settings.purpose[PURPOSE_SKIN].superfat, 0.075, 1e-15);
    assert_near(settings.purpose[PURPOSE_SKIN].water_strength, 0.30, 1e-15);
    refuses(&settings, superfat, "51", "0 to 50");
    refuses(&settings, superfat, "5 % or 6", "behind the percent sign");
    refuses(&settings, superfat, "", "ends where a number");
    refuses(&settings, strength, "0", "1 to 99");
    refuses(&settings, strength, "100 %", "1 to 99");
    reads(&settings, currency, "eur");
    assert_string_equal(settings.currency, "EUR");
    refuses(&settings, currency, "EU", "three letters");
    refuses(&settings, currency, "EURO", "three letters");
    refuses(&settings, currency, "E1R", "three letters");
}

static void a_text_that_is_too_long_is_refused_and_not_cut(void **state)
{
    struct settings settings = common();
    char text[SETTING_BYTES];

    (void)state;
    memset(text, 'x', sizeof text);
    text[LW_NAME_BYTES] = '\0';
    refuses(&settings, (struct settings_row){SETTING_MAKER, 0}, text, "95 bytes");
    reads(&settings, (struct settings_row){SETTING_ADDRESS, 0}, text);
    text[LW_NAME_BYTES] = 'x';
    text[2 * LW_NAME_BYTES] = '\0';
    refuses(&settings, (struct settings_row){SETTING_ADDRESS, 0}, text, "191 bytes");
}

static void a_row_of_few_values_goes_round(void **state)
{
    static const char *const units[] = {"ounces", "pounds and ounces", "grams"};
    struct settings settings = common();
    struct settings_row mass = {SETTING_MASS_UNIT, 0}, temperature = {SETTING_TEMPERATURE, 0};

    (void)state;
    for (int i = 0; i < 3; i++) {
        assert_true(settings_row_next(&settings, mass));
        shows(&settings, mass, units[i]);
    }
    assert_true(settings_row_next(&settings, temperature));
    shows(&settings, temperature, "degrees Fahrenheit");
    assert_true(settings_row_next(&settings, temperature));
    assert_false(settings.fahrenheit);
    assert_false(settings_row_next(&settings, scale_1));
    refuses(&settings, mass, "ounces", "Enter goes to the next value");
}

static void what_is_typed_freely_has_a_hint(void **state)
{
    (void)state;
    assert_non_null(strstr(settings_row_hint(SETTING_SCALE), "0.01 g to 200 g"));
    assert_null(strstr(settings_row_hint(SETTING_SCALE), "  "));
    assert_non_null(strstr(settings_row_hint(SETTING_VESSEL), "212 g, jug B"));
    assert_non_null(strstr(settings_row_hint(SETTING_CURRENCY), "ISO 4217"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_new_store_begins_with_common_practice),
        cmocka_unit_test(every_row_has_a_name_and_there_is_one_more_scale_and_vessel),
        cmocka_unit_test(what_a_row_shows_can_be_typed_again),
        cmocka_unit_test(a_scale_is_read_with_all_that_is_known_of_it),
        cmocka_unit_test(a_scale_that_cannot_be_is_refused),
        cmocka_unit_test(a_decimal_comma_is_one_and_a_half_here_too),
        cmocka_unit_test(an_empty_text_takes_a_scale_or_vessel_out),
        cmocka_unit_test(a_vessel_has_a_mass_and_a_name),
        cmocka_unit_test(percentages_and_the_currency_have_their_limits),
        cmocka_unit_test(a_text_that_is_too_long_is_refused_and_not_cut),
        cmocka_unit_test(a_row_of_few_values_goes_round),
        cmocka_unit_test(what_is_typed_freely_has_a_hint),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
