/* Masses as a maker types them.
 *
 * Factors: NIST Handbook 44 (2024), Appendix C: avoirdupois ounce 28.349523125 g, pound 453.59237 g, grain 64.79891 mg,
 * exact; troy ounce 31.1034768 g. Kilogram and milligram: SI brochure. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "work/quantity.h"

static void reads_in(const char *text, const char *unit, double expected)
{
    struct lw_error error = {""};
    double g = -1;

    if (quantity_mass(text, unit, &g, &error) != LW_OK)
        fail_msg("\"%s\" was refused: %s", text, error.text);
    if (!(fabs(g - expected) <= expected * 1e-12))
        fail_msg("\"%s\" was read as %.12g g, not %.12g g", text, g, expected);
}

static void reads_as(const char *text, double expected)
{
    reads_in(text, "g", expected);
}

/* Refused, with both parts in the sentence, and nothing stored. */
static void refused(const char *text, const char *why, const char *place)
{
    struct lw_error error = {""};
    double g = -1;

    assert_int_equal(quantity_mass(text, "g", &g, &error), LW_INVALID);
    assert_true(g == -1);
    if (!strstr(error.text, why) || !strstr(error.text, place))
        fail_msg("\"%s\" was refused with: %s", text, error.text);
}

static void numbers_without_a_unit_are_in_the_unit_asked_for(void **state)
{
    (void)state;
    reads_as("500", 500);
    reads_as(" 500 ", 500);
    reads_as("0.25", 0.25);
    reads_as(".5", 0.5);
    reads_as("007", 7);
    reads_in("12", "oz", 12 * 28.349523125);
    reads_in("12 g", "oz", 12);
}

static void units_of_mass_are_those_of_the_handbook(void **state)
{
    (void)state;
    reads_as("500g", 500);
    reads_as("1.2 kg", 1200);
    reads_as("1.2 KG", 1200);
    reads_as("250 mg", 0.25);
    reads_as("12 oz", 340.1942775);
    reads_as("1.5 lb", 680.388555);
    reads_as("2 lbs", 907.18474);
    reads_as("3 pounds", 1360.77711);
    reads_as("1 ounce", 28.349523125);
    reads_as("1 oz t", 31.1034768);
}

static void pounds_and_ounces_are_one_mass(void **state)
{
    (void)state;
    reads_as("1lb 3oz", 453.59237 + 3 * 28.349523125);
    reads_as("1 lb 3.5 oz", 453.59237 + 3.5 * 28.349523125);
    reads_as("2 kg 50 g", 2050);
    reads_as("2 * 1 lb 8 oz", 3 * 453.59237);
    refused("1 lb 3", "smaller unit", "character 6");
    refused("3 oz 1 lb", "smaller unit", "character 6");
    refused("1 lb 1 lb", "smaller unit", "character 6");
}

static void sums_and_products_go_by_the_usual_order(void **state)
{
    (void)state;
    reads_as("250/3", 250.0 / 3);
    reads_as("2+3*4", 14);
    reads_as("(2+3)*4", 20);
    reads_as("20/2/5", 2);
    reads_as("10-4-3", 3);
    reads_as("2 * (150 g + 40 g)", 380);
    reads_as("(1+1) kg", 2000);
    reads_as("1 lb + 100 g", 553.59237);
    reads_as("500 * (300 g / 200 g)", 750);
    reads_in("4 * (300 g / 200 g)", "oz", 6 * 28.349523125); /* a mass by a mass is a plain number */
    reads_as("1 kg / 3", 1000.0 / 3);
}

static void a_single_comma_is_a_decimal_comma(void **state)
{
    (void)state;
    reads_as("1,5", 1.5);
    reads_as("1,5 kg", 1500);
    reads_as("1,50", 1.5);
    reads_as("0,125", 0.125);
    reads_as("1234,567", 1234.567);
    reads_as("1,2345", 1.2345);
    reads_as("1.500", 1.5);
}

static void a_comma_that_could_mark_thousands_is_refused(void **state)
{
    (void)state;
    refused("1,500", "thousands", "character 1");
    refused("2 * 12,500 g", "thousands", "character 5");
    refused("1,500.25", "one decimal", "character 1");
    refused("1.500,25", "one decimal", "character 1");
    refused("1,500,000", "one decimal", "character 1");
}

static void what_is_not_a_mass_is_refused_with_its_place(void **state)
{
    (void)state;
    refused("", "ends where a number", "character 1");
    refused("   ", "ends where a number", "character 4");
    refused("abc", "a number was expected", "character 1");
    refused("12 ox", "\"ox\" is not a unit", "character 4");
    refused("12 gr", "grain", "character 4");
    refused("12 fl oz", "does not measure mass", "character 4");
    refused("12 tsp", "does not measure mass", "character 4");
    refused("1e3", "\"e\" is not a unit", "character 2");
    refused("-5", "a number was expected", "character 1");
    refused("5 +", "ends where a number", "character 4");
    refused("(5", "not closed", "character 1");
    refused("5)", "expected to end", "character 2");
    refused("5 g 500 g", "smaller unit", "character 5");
    refused("5 g g", "expected to end", "character 5");
    refused("(5 g) kg", "has one already", "character 7");
    refused("500 + 12 oz", "the other has none", "character 5");
    refused("2 g * 3 g", "mass times a mass", "character 5");
    refused("2 / 3 g", "divided by a mass", "character 3");
    refused("5/0", "divided by 0", "character 2");
    refused("5 / (2 - 2)", "divided by 0", "character 3");
    refused("\xc3\xa9 5", "a number was expected", "character 1");
    refused("5 \xc3\xa9 5", "expected to end", "character 3");
}

static void no_text_is_too_strange(void **state)
{
    char deep[QUANTITY_MOST_BYTES + 2], digits[QUANTITY_MOST_BYTES + 1], longest[QUANTITY_MOST_BYTES + 2];

    (void)state;
    memset(deep, '(', sizeof deep);
    deep[100] = '\0';
    refused(deep, "nested too deeply", "character 17");
    memset(digits, '9', sizeof digits);
    digits[QUANTITY_MOST_BYTES] = '\0';
    reads_as(digits, 1e128); /* large, but a number; what is too large for a batch is for the caller */
    memset(longest, '9', sizeof longest);
    longest[QUANTITY_MOST_BYTES + 1] = '\0';
    refused(longest, "at most 128 characters", "");
    refused("5 \x1b[31m", "expected to end", "5 ?[31m");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_without_a_unit_are_in_the_unit_asked_for),
        cmocka_unit_test(units_of_mass_are_those_of_the_handbook),
        cmocka_unit_test(pounds_and_ounces_are_one_mass),
        cmocka_unit_test(sums_and_products_go_by_the_usual_order),
        cmocka_unit_test(a_single_comma_is_a_decimal_comma),
        cmocka_unit_test(a_comma_that_could_mark_thousands_is_refused),
        cmocka_unit_test(what_is_not_a_mass_is_refused_with_its_place),
        cmocka_unit_test(no_text_is_too_strange),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
