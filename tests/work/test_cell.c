/* The cells of a recipe: every kind reads back what it wrote, in the maker's units, and refuses what it cannot hold.
 *
 * Ounce and pound: NIST Handbook 44 (2024), Appendix C: 28.349523125 g and 453.59237 g, exact. Fahrenheit: NIST SP 811 (2008),
 * appendix B: t/C = (t/F - 32)/1.8. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "near.h"
#include "work/table.h"

#define OUNCE_G 28.349523125
#define POUND_G 453.59237

/* Where in the recipe a cell's number is kept. */
#define AT(member) offsetof(struct recipe, member)

struct typed {
    struct cell cell;
    const char *text;
    size_t at;
    double value;      /* as kept */
    const char *shown; /* from then on */
};

static double number_at(const struct recipe *recipe, size_t at)
{
    double value;

    memcpy(&value, (const char *)recipe + at, sizeof value);
    return value;
}

/* Types it, and then types what is shown: the recipe has the value, and the second time changes nothing. */
static void holds(struct table *table, const struct typed *typed)
{
    struct recipe once;

    table_type(table, typed->cell, typed->text);
    assert_near(number_at(&table->recipe, typed->at), typed->value, 1e-9 * (1 + fabs(typed->value)));
    table_shows(table, typed->cell, typed->shown);
    memcpy(&once, &table->recipe, sizeof once);
    table_type(table, typed->cell, typed->shown);
    assert_near(number_at(&table->recipe, typed->at), typed->value, 1e-5 * (1 + fabs(typed->value)));
    table_shows(table, typed->cell, typed->shown);
}

static void all_hold(struct table *table, const struct typed typed[], size_t n)
{
    for (size_t i = 0; i < n; i++)
        holds(table, &typed[i]);
}

#define ALL_HOLD(table, rows) all_hold(table, rows, sizeof(rows) / sizeof *(rows))

static void percentages_are_kept_as_shares(void **state)
{
    static const struct typed rows[] = {
        {{CELL_SUPERFAT, 0, 0}, "5.5", AT(superfat), 0.055, "5.5"},
        {{CELL_SUPERFAT, 0, 0}, "3 %", AT(superfat), 0.03, "3"},
        {{CELL_SUPERFAT, 0, 0}, "0", AT(superfat), 0, "0"},
        {{CELL_POTASSIUM, 0, 0}, "60", AT(alkali.potassium_share), 0.6, "60"},
        {{CELL_SOLUTION_NAOH, 0, 0}, "50", AT(alkali.solution_share[ALKALI_NAOH]), 0.5, "50"},
        {{CELL_SOLUTION_KOH, 0, 0}, "45 %", AT(alkali.solution_share[ALKALI_KOH]), 0.45, "45"},
        {{CELL_PURITY_NAOH, 0, 0}, "98.5", AT(alkali.purity[ALKALI_NAOH].nominal), 0.985, "98.5"},
        {{CELL_PURITY_KOH, 0, 0}, "88", AT(alkali.purity[ALKALI_KOH].nominal), 0.88, "88"},
        {{CELL_LIQUID_SHARE, 0, 0}, "40", AT(water.liquid[0].share_of_water), 0.4, "40"},
        {{CELL_FRAGRANCE_LIMIT, 0, 0}, "2.5", AT(fragrance[0].limit_share), 0.025, "2.5"},
        {{CELL_OIL_SAP, 0, 0}, "189", AT(oil[0].sap.nominal), 189, "189"},
    };
    struct table *table = *state;

    ALL_HOLD(table, rows);
    assert_true(table->recipe.alkali.purity[ALKALI_NAOH].given);
    assert_true(table->recipe.alkali.purity[ALKALI_NAOH].lo == 0.985);
    assert_true(table->recipe.alkali.purity[ALKALI_NAOH].hi == 0.985);
    assert_true(table->recipe.oil[0].sap.given && table->recipe.fragrance[0].has_limit);
}

/* The sign says which way is meant, whatever the way was; a number alone keeps the way. */
static void a_sign_says_how_a_number_is_meant(void **state)
{
    static const struct typed rows[] = {
        {{CELL_WATER, 0, 0}, "35", AT(water.value), 0.35, "35 %"},
        {{CELL_WATER, 0, 0}, "2 to 1", AT(water.value), 2, "2 to 1"},
        {{CELL_WATER, 0, 0}, "2.2", AT(water.value), 2.2, "2.2 to 1"},
        {{CELL_WATER, 0, 0}, "1.9:1", AT(water.value), 1.9, "1.9 to 1"},
        {{CELL_WATER, 0, 0}, "38 % of oils", AT(water.value), 0.38, "38 % of oils"},
        {{CELL_WATER, 0, 0}, "30", AT(water.value), 0.3, "30 % of oils"},
        {{CELL_WATER, 0, 0}, "33 %", AT(water.value), 0.33, "33 %"},
        {{CELL_FRAGRANCE_LOAD, 0, 0}, "2 % of batter", AT(fragrance[0].value), 0.02, "2 % of batter"},
        {{CELL_FRAGRANCE_LOAD, 0, 0}, "2.5", AT(fragrance[0].value), 0.025, "2.5 % of batter"},
        {{CELL_FRAGRANCE_LOAD, 0, 0}, "3 %", AT(fragrance[0].value), 0.03, "3 %"},
        {{CELL_FRAGRANCE_LOAD, 0, 0}, "28 g/kg", AT(fragrance[0].value), 28, "28 g/kg"},
        {{CELL_FRAGRANCE_LOAD, 0, 0}, "30", AT(fragrance[0].value), 30, "30 g/kg"},
        {{CELL_FRAGRANCE_LOAD, 0, 0}, "3 % of oils", AT(fragrance[0].value), 0.03, "3 %"},
        {{CELL_ADDITIVE_DOSE, 0, 0}, "1.5", AT(additive[0].value), 0.015, "1.5 %"},
        {{CELL_ADDITIVE_DOSE, 0, 0}, "20 g", AT(additive[0].value), 20, "20 g"},
        {{CELL_ADDITIVE_DOSE, 0, 0}, "25", AT(additive[0].value), 25, "25 g"},
        {{CELL_ADDITIVE_DOSE, 0, 0}, "3 %", AT(additive[0].value), 0.03, "3 %"},
        {{CELL_RESIDUE, 0, 0}, "12.5 g", AT(residue), 12.5, "12.5 g"},
        {{CELL_RESIDUE, 0, 0}, "2 %", AT(residue), 0.02, "2 %"},
        {{CELL_RESIDUE, 0, 0}, "10", AT(residue), 10, "10 g"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "30", AT(portion[1].amount), 0.3, "30 %"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "150 g", AT(portion[1].amount), 150, "150 g"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "140", AT(portion[1].amount), 140, "140 g"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "10 mm", AT(portion[1].amount), 10, "10 mm"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "12", AT(portion[1].amount), 12, "12 mm"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "REST", AT(portion[1].amount), 0, "rest"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "20", AT(portion[1].amount), 0.2, "20 %"},
        {{CELL_COLOUR_DOSE, 1, 0}, "3", AT(portion[1].colourant[0].value), 3, "3 g/kg"},
        {{CELL_COLOUR_DOSE, 1, 0}, "1.5 g", AT(portion[1].colourant[0].value), 1.5, "1.5 g"},
        {{CELL_COLOUR_DOSE, 1, 0}, "0.5 %", AT(portion[1].colourant[0].value), 0.005, "0.5 %"},
        {{CELL_COLOUR_DOSE, 1, 0}, "5 G/KG", AT(portion[1].colourant[0].value), 5, "5 g/kg"},
        {{CELL_COLOUR_DOSE, 1, 0}, "2 parts", AT(portion[1].colourant[0].value), 2, "2 parts"},
        {{CELL_COLOUR_DOSE, 1, 0}, "3", AT(portion[1].colourant[0].value), 3, "3 parts"},
    };

    ALL_HOLD(*state, rows);
}

static void masses_are_in_the_makers_unit_or_in_the_one_typed(void **state)
{
    static const struct typed ounces[] = {
        {{CELL_PIECES_MASS, 2, 0}, "32", AT(portion[2].pieces.mass_g), 32 * OUNCE_G, "907.18474 g"},
        {{CELL_PIECES_MASS, 2, 0},
         "2 lb 3 oz",
         AT(portion[2].pieces.mass_g),
         2 * POUND_G + 3 * OUNCE_G,
         "992.233309 g"},
        {{CELL_PIECES_MASS, 2, 0}, "1 kg", AT(portion[2].pieces.mass_g), 1000, "1000 g"},
        {{CELL_PIECES_MASS, 2, 0}, "0.1", AT(portion[2].pieces.mass_g), 0.1 * OUNCE_G, "2.834952 g"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "5 oz", AT(portion[1].amount), 5 * OUNCE_G, "141.747616 g"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "4", AT(portion[1].amount), 4 * OUNCE_G, "113.398093 g"},
        {{CELL_ADDITIVE_DOSE, 0, 0}, "1 oz", AT(additive[0].value), OUNCE_G, "28.349523 g"},
        {{CELL_RESIDUE, 0, 0}, "0.5", AT(residue), OUNCE_G / 2, "14.174762 g"},
    };
    static const struct typed pounds[] = {
        {{CELL_PIECES_MASS, 2, 0}, "2", AT(portion[2].pieces.mass_g), 2 * POUND_G, "907.18474 g"},
        {{CELL_PIECES_MASS, 2, 0}, "2 lb 8 oz", AT(portion[2].pieces.mass_g), 2.5 * POUND_G, "1133.980925 g"},
        {{CELL_PIECES_MASS, 2, 0}, "250 g/3", AT(portion[2].pieces.mass_g), 250.0 / 3, "83.333333 g"},
    };
    struct table *table = *state;

    table->settings.mass_unit = MASS_OZ;
    ALL_HOLD(table, ounces);
    table->settings.mass_unit = MASS_LB;
    ALL_HOLD(table, pounds);
}

static void temperatures_are_in_the_makers_unit_or_in_the_one_typed(void **state)
{
    static const struct typed celsius[] = {
        {{CELL_WATER_TEMP, 0, 0}, "25", AT(water.temp_c), 25, "25"},
        {{CELL_WATER_TEMP, 0, 0}, "25 C", AT(water.temp_c), 25, "25"},
        {{CELL_WATER_TEMP, 0, 0}, "50 F", AT(water.temp_c), 10, "10"},
        {{CELL_WATER_TEMP, 0, 0}, "-5", AT(water.temp_c), -5, "-5"},
        {{CELL_WATER_TEMP, 0, 0}, "-20", AT(water.temp_c), -20, "-20"},
        {{CELL_WATER_TEMP, 0, 0}, "95", AT(water.temp_c), 95, "95"},
    };
    static const struct typed fahrenheit[] = {
        {{CELL_WATER_TEMP, 0, 0}, "68", AT(water.temp_c), 20, "68"},
        {{CELL_WATER_TEMP, 0, 0}, "100 f", AT(water.temp_c), 340.0 / 9, "100"},
        {{CELL_WATER_TEMP, 0, 0}, "10 c", AT(water.temp_c), 10, "50"},
        {{CELL_WATER_TEMP, 0, 0}, "-4", AT(water.temp_c), -20, "-4"},
        {{CELL_WATER_TEMP, 0, 0}, "203", AT(water.temp_c), 95, "203"},
    };
    struct table *table = *state;

    ALL_HOLD(table, celsius);
    table_refuses(table, (struct cell){CELL_WATER_TEMP, 0, 0}, "-21", "-20 to 95, and this is -21");
    table_refuses(table, (struct cell){CELL_WATER_TEMP, 0, 0}, "96", "-20 to 95");
    table_refuses(table, (struct cell){CELL_WATER_TEMP, 0, 0}, "--5", "a number was expected");
    table->settings.fahrenheit = true;
    ALL_HOLD(table, fahrenheit);
    table_refuses(table, (struct cell){CELL_WATER_TEMP, 0, 0}, "204", "-4 to 203");
}

static void one_comma_five_is_one_and_a_half(void **state)
{
    static const struct typed rows[] = {
        {{CELL_SUPERFAT, 0, 0}, "1,5", AT(superfat), 0.015, "1.5"},
        {{CELL_PIECES_MASS, 2, 0}, "1,5 kg", AT(portion[2].pieces.mass_g), 1500, "1500 g"},
        {{CELL_WATER, 0, 0}, "2,25 to 1", AT(water.value), 2.25, "2.25 to 1"},
        {{CELL_WATER_TEMP, 0, 0}, "20,5", AT(water.temp_c), 20.5, "20.5"},
        {{CELL_COLOUR_DOSE, 1, 0}, "4,5 g/kg", AT(portion[1].colourant[0].value), 4.5, "4.5 g/kg"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "12,5 %", AT(portion[1].amount), 0.125, "12.5 %"},
    };

    ALL_HOLD(*state, rows);
}

static void one_comma_five_hundred_is_asked_back(void **state)
{
    static const struct cell cells[] = {
        {CELL_SUPERFAT, 0, 0},       {CELL_WATER, 0, 0},          {CELL_WATER_TEMP, 0, 0},   {CELL_RESIDUE, 0, 0},
        {CELL_OIL_SHARE, 0, 0},      {CELL_OIL_GRAMS, 0, 0},      {CELL_OIL_SAP, 0, 0},      {CELL_ADDITIVE_DOSE, 0, 0},
        {CELL_FRAGRANCE_LOAD, 0, 0}, {CELL_PORTION_AMOUNT, 1, 0}, {CELL_PIECES_COUNT, 2, 0}, {CELL_PIECES_MASS, 2, 0},
        {CELL_COLOUR_DOSE, 1, 0},
    };

    for (size_t i = 0; i < sizeof cells / sizeof *cells; i++)
        table_refuses(*state, cells[i], "1,500", "could be a decimal comma or mark thousands");
}

static void names_are_kept_as_typed_and_are_never_blank(void **state)
{
    char longest[LW_NAME_BYTES + 1];
    struct table *table = *state;

    memset(longest, 'x', sizeof longest);
    longest[LW_NAME_BYTES] = '\0';
    table_type(table, (struct cell){CELL_NAME, 0, 0}, "H\xc3\xa4gro");
    assert_string_equal(table->recipe.name, "H\xc3\xa4gro");
    table_shows(table, (struct cell){CELL_NAME, 0, 0}, "H\xc3\xa4gro");
    for (size_t i = strlen(table->recipe.name); i < sizeof table->recipe.name; i++)
        assert_int_equal(table->recipe.name[i], 0); /* nothing of the longer one before is left */
    table_type(table, (struct cell){CELL_PORTION_NAME, 1, 0}, "clay");
    assert_string_equal(table->recipe.portion[1].name, "clay");
    table_type(table, (struct cell){CELL_PIECES_KIND, 2, 0}, "leaf");
    table_shows(table, (struct cell){CELL_PIECES_KIND, 2, 0}, "leaf");
    table_type(table, (struct cell){CELL_PIECES_KIND, 2, 0}, "");
    assert_string_equal(table->recipe.portion[2].pieces.kind, ""); /* a kind need not be named */
    table_refuses(table, (struct cell){CELL_NAME, 0, 0}, "", "at least one character");
    table_refuses(table, (struct cell){CELL_NAME, 0, 0}, "  ", "at least one character");
    table_refuses(table, (struct cell){CELL_NAME, 0, 0}, longest, "95 bytes");
    table_refuses(table, (struct cell){CELL_PIECES_KIND, 2, 0}, longest, "95 bytes");
    table_refuses(table, (struct cell){CELL_PIECES_KIND, 1, 0}, "leaf", "has no pieces yet");
}

static void an_empty_text_goes_back_to_what_is_published_or_practice(void **state)
{
    struct table *table = *state;

    table_type(table, (struct cell){CELL_OIL_SAP, 0, 0}, "185");
    table_type(table, (struct cell){CELL_OIL_SAP, 0, 0}, "");
    assert_false(table->recipe.oil[0].sap.given);
    table_shows(table, (struct cell){CELL_OIL_SAP, 0, 0}, "190"); /* olive: CXS 33-1981, middle of 184 to 196 */
    table_type(table, (struct cell){CELL_PURITY_KOH, 0, 0}, "85");
    table_type(table, (struct cell){CELL_PURITY_KOH, 0, 0}, "");
    assert_false(table->recipe.alkali.purity[ALKALI_KOH].given);
    table_shows(table, (struct cell){CELL_PURITY_KOH, 0, 0}, "90"); /* common practice */
    table_type(table, (struct cell){CELL_RESIDUE, 0, 0}, "20 g");
    table_type(table, (struct cell){CELL_RESIDUE, 0, 0}, "");
    assert_int_equal(table->recipe.residue_by, RESIDUE_PRACTICE);
    table_type(table, (struct cell){CELL_FRAGRANCE_LIMIT, 0, 0}, "2");
    assert_string_equal(table->recipe.fragrance[0].limit_from, "supplier's certificate");
    table_type(table, (struct cell){CELL_FRAGRANCE_LIMIT, 0, 0}, "");
    assert_false(table->recipe.fragrance[0].has_limit);
    assert_true(table->recipe.fragrance[0].limit_share == 0);
    assert_string_equal(table->recipe.fragrance[0].limit_from, "");
    table_shows(table, (struct cell){CELL_FRAGRANCE_LIMIT, 0, 0}, "");
}

static void pieces_are_counted_whole_and_nought_takes_them_off(void **state)
{
    struct cell count = {CELL_PIECES_COUNT, 2, 0}, mass = {CELL_PIECES_MASS, 1, 0};
    struct table *table = *state;

    table_shows(table, count, "40");
    table_type(table, count, "4*12");
    assert_int_equal(table->recipe.portion[2].pieces.count, 48);
    table_refuses(table, count, "4.5", "whole numbers");
    table_refuses(table, count, "2001", "0 to 2000");
    table_type(table, count, "0");
    assert_false(table->recipe.portion[2].has_pieces);
    assert_int_equal(table->recipe.portion[2].demand, DEMAND_REST);
    table_refuses(table, (struct cell){CELL_PORTION_AMOUNT, 2, 0}, "pieces", "how many and how heavy");
    table_type(table, mass, "2.6");
    assert_true(table->recipe.portion[1].has_pieces && table->recipe.portion[1].pieces.count == 1);
    table_type(table, (struct cell){CELL_PORTION_AMOUNT, 1, 0}, "pieces");
    assert_int_equal(table->recipe.portion[1].demand, DEMAND_PIECES);
    assert_true(table->recipe.portion[1].amount == 0);
    table_shows(table, (struct cell){CELL_PORTION_AMOUNT, 1, 0}, "pieces");
}

/* A colourant dosed by parts has the dose of the blend: the first one brings its own into it. */
static void a_blend_begins_with_the_dose_that_was_there(void **state)
{
    struct table *table = *state;
    int64_t before = table_plan_of(table)->portion[1].colourant[0].colourant.rounded_ug;

    assert_true(before > 0);
    table_type(table, (struct cell){CELL_COLOUR_DOSE, 1, 0}, "2 parts");
    assert_int_equal(table->recipe.portion[1].blend_by, COLOUR_PER_KG_OILS);
    assert_true(table->recipe.portion[1].blend_value == 4);
    assert_int_equal(table_plan_of(table)->portion[1].colourant[0].colourant.rounded_ug, before);
    table->recipe.portion[1].blend_value = 3;
    table_type(table, (struct cell){CELL_COLOUR_DOSE, 1, 0}, "1 parts");
    assert_true(table->recipe.portion[1].blend_value == 3);
}

static void what_a_cell_cannot_hold_is_refused_with_its_limits(void **state)
{
    static const struct {
        struct cell cell;
        const char *text, *part;
    } rows[] = {
        {{CELL_NONE, 0, 0}, "5", "nothing here to change"},
        {{CELL_SUPERFAT, 0, 0}, "51", "The superfat is a number from 0 to 50, and this is 51."},
        {{CELL_SUPERFAT, 0, 0}, "five", "a number was expected"},
        {{CELL_SUPERFAT, 0, 0}, "5 g", "has a unit of mass"},
        {{CELL_POTASSIUM, 0, 0}, "101", "0 to 100"},
        {{CELL_SOLUTION_NAOH, 0, 0}, "100", "0 to 99"},
        {{CELL_PURITY_NAOH, 0, 0}, "0", "1 to 100"},
        {{CELL_PURITY_KOH, 0, 0}, "101", "1 to 100"},
        {{CELL_WATER, 0, 0}, "0", "some water"},
        {{CELL_WATER, 0, 0}, "100", "0 to 99"},
        {{CELL_WATER, 0, 0}, "2 to 3", "not a unit"},
        {{CELL_OIL_SAP, 0, 0}, "0", "above 0"},
        {{CELL_OIL_SAP, 0, 0}, "401", "0 to 400"},
        {{CELL_PIECES_MASS, 2, 0}, "0", "above 0 and at most 1000 kg"},
        {{CELL_PIECES_MASS, 2, 0}, "1001 kg", "at most 1000 kg"},
        {{CELL_PIECES_MASS, 2, 0}, "12 mL", "does not measure mass"},
        {{CELL_ADDITIVE_DOSE, 0, 0}, "101 %", "0 to 100"},
        {{CELL_LIQUID_SHARE, 0, 0}, "101", "0 to 100"},
        {{CELL_FRAGRANCE_LOAD, 0, 0}, "101 %", "0 to 100"},
        {{CELL_FRAGRANCE_LOAD, 0, 0}, "1001 g/kg", "0 to 1000"},
        {{CELL_FRAGRANCE_LIMIT, 0, 0}, "101", "0 to 100"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "101 %", "0 to 100"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "1001 mm", "0 to 1000"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "some", "a number was expected"},
        {{CELL_PIECES_MASS, 2, 0}, "0", "above 0"},
        {{CELL_COLOUR_DOSE, 1, 0}, "1001 g/kg", "0 to 1000"},
        {{CELL_COLOUR_DOSE, 1, 0}, "", "a number was expected"},
    };
    char endless[200];

    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        table_refuses(*state, rows[i].cell, rows[i].text, rows[i].part);
    memset(endless, '1', sizeof endless);
    endless[sizeof endless - 1] = '\0';
    table_refuses(*state, (struct cell){CELL_SUPERFAT, 0, 0}, endless, "at most 127 characters");
}

static void every_cell_has_a_name_and_a_text(void **state)
{
    struct table *table = *state;

    for (enum cell_kind kind = CELL_NAME; kind < CELL_KINDS; kind++) {
        bool pieces = kind == CELL_PIECES_COUNT || kind == CELL_PIECES_MASS || kind == CELL_PIECES_KIND;
        struct cell cell = {kind, pieces ? 2 : kind == CELL_COLOUR_DOSE || kind == CELL_PORTION_AMOUNT ? 1 : 0, 0};
        struct cell_context context = {&table->recipe, table_plan_of(table), &table->settings, FOLLOW_RATIO, 0};
        char text[128];

        assert_true(strlen(cell_name(kind)) > 0);
        for (enum cell_kind other = CELL_NAME; other < kind; other++)
            assert_string_not_equal(cell_name(kind), cell_name(other));
        cell_text(&context, cell, text, sizeof text);
        assert_int_equal(text[0] == '\0', kind == CELL_FRAGRANCE_LIMIT); /* no certificate says one yet */
    }
}

#define AT_TABLE(test) cmocka_unit_test_setup_teardown(test, table_set_up, table_tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        AT_TABLE(percentages_are_kept_as_shares),
        AT_TABLE(a_sign_says_how_a_number_is_meant),
        AT_TABLE(masses_are_in_the_makers_unit_or_in_the_one_typed),
        AT_TABLE(temperatures_are_in_the_makers_unit_or_in_the_one_typed),
        AT_TABLE(one_comma_five_is_one_and_a_half),
        AT_TABLE(one_comma_five_hundred_is_asked_back),
        AT_TABLE(names_are_kept_as_typed_and_are_never_blank),
        AT_TABLE(an_empty_text_goes_back_to_what_is_published_or_practice),
        AT_TABLE(pieces_are_counted_whole_and_nought_takes_them_off),
        AT_TABLE(a_blend_begins_with_the_dose_that_was_there),
        AT_TABLE(what_a_cell_cannot_hold_is_refused_with_its_limits),
        AT_TABLE(every_cell_has_a_name_and_a_text),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
