/* Two versions of a recipe side by side: just the rows that differ, each with what was and what is. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "work/compare.h"
#include "work/table.h"

enum { DIFFERENCES = 40, SAID_BYTES = 2000 };

/* The version before, and the one after, which a test changes. */
struct pair {
    struct shelf shelf; /* empty */
    struct settings settings;
    struct recipe after;
    struct version *before, *version;
};

static int set_up(void **state)
{
    struct pair *pair = calloc(1, sizeof *pair);

    if (!pair)
        return -1;
    settings_common(&pair->settings);
    table_recipe(&pair->after);
    *state = pair;
    return version_of(&pair->after, &pair->shelf, &pair->settings, NULL, &pair->before, NULL) == LW_OK &&
                   version_of(&pair->after, &pair->shelf, &pair->settings, NULL, &pair->version, NULL) == LW_OK
               ? 0
               : -1;
}

static int tear_down(void **state)
{
    struct pair *pair = *state;

    version_free(pair->before);
    version_free(pair->version);
    free(pair);
    return 0;
}

/* "what: before > after", a line each; what rounding makes of them is left out: superfat as rounded, and the likely margin. */
static void compare(struct pair *pair, bool backwards, char said[SAID_BYTES])
{
    struct difference out[DIFFERENCES];
    const struct plan_document *a, *b;
    struct lw_error error = {""};
    int n;

    if (version_set(pair->version, &pair->after, &error) != LW_OK)
        fail_msg("%s", error.text);
    a = version_document(backwards ? pair->version : pair->before);
    b = version_document(backwards ? pair->before : pair->version);
    n = compare_recipes(a->input, a->plan, b->input, b->plan, out, DIFFERENCES);
    assert_in_range(n, 0, DIFFERENCES);
    said[0] = '\0';
    for (int i = 0; i < n; i++)
        if (strcmp(out[i].what, "superfat as rounded") != 0 && strcmp(out[i].what, "likely from") != 0)
            text_add(said, SAID_BYTES, "%s: %s > %s\n", out[i].what, out[i].before, out[i].after);
}

static void differ(struct pair *pair, const char *expected)
{
    char said[SAID_BYTES];

    compare(pair, false, said);
    assert_string_equal(said, expected);
}

static void name(char to[LW_NAME_BYTES], const char *from)
{
    memset(to, 0, LW_NAME_BYTES);
    text_copy(to, LW_NAME_BYTES, from);
}

static void equal_versions_have_no_rows(void **state)
{
    struct pair *pair = *state;
    const struct plan_document *document = version_document(pair->before);
    struct difference out[1];

    differ(pair, "");
    assert_int_equal(compare_recipes(document->input, document->plan, document->input, document->plan, out, 1), 0);
}

static void single_values_are_told_in_the_makers_words(void **state)
{
    struct pair *pair = *state;

    name(pair->after.name, "Hedge Rose");
    pair->after.purpose = PURPOSE_SHAVING;
    pair->after.superfat = 0.075;
    pair->after.water.temp_c = 4;
    pair->after.scent = PUT_IN_BATTER;
    differ(pair, "name: Quince Orchard > Hedge Rose\npurpose: skin > shaving\nsuperfat: 5 % > 7.5 %\n"
                 "water at: 20 C > 4 C\nscent goes into: portions > batter\n");
}

static void alkali_and_its_water_are_told(void **state)
{
    struct pair *pair = *state;

    pair->after.alkali.purity[ALKALI_NAOH] = (struct ranged){true, 0.98, 0.98, 0.98};
    pair->after.alkali.solution_share[ALKALI_KOH] = 0.45;
    differ(pair, "purity of NaOH:  > 98 %\nready-made lye of KOH:  > 45 %\n");
}

static void residue_and_scales_are_told(void **state)
{
    struct pair *pair = *state;
    char said[SAID_BYTES];

    pair->after.residue_by = RESIDUE_SHARE;
    pair->after.residue = 0.02;
    pair->after.scales = 1;
    pair->after.scale[0] = pair->settings.scale[0];
    compare(pair, false, said);
    assert_non_null(strstr(said, "residue in the jug: common practice > 2 % of the batter\n"));
    assert_non_null(strstr(said, "scales: ")); /* those of the bench before */
    assert_non_null(strstr(said, " > 1 g to 5000 g\n"));
}

static void another_size_tells_what_it_changes(void **state)
{
    struct pair *pair = *state;
    char said[SAID_BYTES];

    pair->after.size.grams = 950;
    compare(pair, false, said);
    assert_ptr_equal(strstr(said, "oils: 1000 g > 950 g\n"), said);
    pair->after.size.by = SIZE_BATTER;
    compare(pair, false, said);
    assert_ptr_equal(strstr(said, "sized by: oils > batter\n"), said);
}

static void shares_of_oils_are_told_by_oil(void **state)
{
    struct pair *pair = *state;

    pair->after.oil[0].amount = 0.40;
    pair->after.oil[3].amount = 0.13;
    pair->after.oil[1].sap = (struct ranged){true, 0, 257, 0};
    differ(pair, "share of Olive oil (virgin or refined): 45 % > 40 %\nshare of Castor oil: 8 % > 13 %\n"
                 "saponification value of Coconut oil:  > 257 mg KOH/g\n");
}

static void elements_are_matched_by_their_ids(void **state)
{
    struct pair *pair = *state;
    struct recipe_oil first = pair->after.oil[0];

    memmove(&pair->after.oil[0], &pair->after.oil[1], 3 * sizeof first);
    pair->after.oil[3] = first;
    differ(pair, ""); /* only their order */
}

static void an_oil_that_is_gone_or_new_has_one_side_only(void **state)
{
    struct pair *pair = *state;
    char said[SAID_BYTES];

    pair->after.oil[3].id = 9;
    name(pair->after.oil[3].name, "lard");
    differ(pair, "share of Lard:  > 8 %\nshare of Castor oil: 8 % > \n");
    compare(pair, true, said);
    assert_string_equal(said, "share of Castor oil:  > 8 %\nshare of Lard: 8 % > \n");
}

static void what_takes_the_place_of_another_is_named(void **state)
{
    struct pair *pair = *state;
    char said[SAID_BYTES];

    name(pair->after.fragrance[0].name, "peppermint");
    name(pair->after.portion[1].name, "clay");
    compare(pair, false, said);
    assert_non_null(strstr(said, "fragrance: Lavender > Peppermint\n"));
    assert_non_null(strstr(said, "portion: moss > clay\n"));
}

static void doses_are_told_with_the_way_they_are_meant(void **state)
{
    struct pair *pair = *state;
    char said[SAID_BYTES];

    pair->after.additive[0].by = ADDITIVE_GRAMS; /* 2 % of 1000 g: the same mass, said in another way */
    pair->after.additive[0].value = 20;
    pair->after.fragrance[0].by = FRAGRANCE_OF_BATTER;
    pair->after.fragrance[0].has_limit = true;
    pair->after.fragrance[0].limit_share = 0.02;
    differ(
        pair,
        "dose of Sodium lactate 60 %: 2 % > 20 g\nload of Lavender: 3 % > 3 % of batter\nlimit of Lavender:  > 2 %\n");
    table_recipe(&pair->after);
    pair->after.water.liquid[0].share_of_water = 0.25;
    compare(pair, false, said);
    assert_non_null(strstr(said, "liquid Milk, goat: 50 % of the water > 25 % of the water\n"));
}

static void portions_are_told_with_their_pieces_and_colours(void **state)
{
    struct pair *pair = *state;
    struct recipe_portion *moss = &pair->after.portion[1], *petals = &pair->after.portion[2];
    char said[SAID_BYTES];

    moss->technique = TECHNIQUE_SWIRL;
    moss->colourant[0].value = 3;
    compare(pair, false, said);
    assert_non_null(strstr(said, "portion moss: 25 %, pour > 25 %, swirl\n"));
    assert_non_null(strstr(said, "colour of moss: Chromium oxide green: 4 g/kg > 3 g/kg\n"));
    moss->colourant[0].by = COLOUR_PARTS;
    moss->blend_by = COLOUR_GRAMS;
    moss->blend_value = 2;
    petals->pieces.count = 48;
    compare(pair, false, said);
    assert_non_null(strstr(said, "pieces of petals: 40 of 2.6 g, simple > 48 of 2.6 g, simple\n"));
    assert_non_null(strstr(said, "colour of moss: Chromium oxide green: 4 g/kg > 3 parts of 2 g\n"));
    name(moss->colourant[0].name, "titanium-dioxide");
    compare(pair, false, said);
    assert_non_null(strstr(said, "colour of moss: Titanium dioxide:  > 3 parts of 2 g\n"));
    assert_non_null(strstr(said, "colour of moss: Chromium oxide green: 4 g/kg > \n"));
    moss->colourants = 0;
    compare(pair, false, said);
    assert_null(strstr(said, "Titanium"));
    pair->after.portions = 1;
    compare(pair, false, said);
    assert_non_null(strstr(said, "pieces of petals: 40 of 2.6 g, simple > \n"));
}

static void a_note_is_told_whatever_it_says(void **state)
{
    struct pair *pair = *state;

    text_copy(pair->after.note, LW_NOTE_BYTES, "Too thick.");
    differ(pair, "note:  > is there\n");
    assert_int_equal(version_set(pair->before, &pair->after, NULL), LW_OK);
    text_copy(pair->after.note, LW_NOTE_BYTES, "Too thin.");
    differ(pair, "note: is there > is another\n");
    pair->after.note[0] = '\0';
    differ(pair, "note: is there > \n");
}

/* Whatever a maker can type into a cell and does not stand there yet makes a row. */
static void every_cell_that_is_changed_makes_a_row(void **state)
{
    static const struct {
        struct cell cell;
        const char *text;
    } rows[] = {
        {{CELL_NAME, 0, 0}, "Hedge Rose"},   {{CELL_SUPERFAT, 0, 0}, "6"},        {{CELL_WATER, 0, 0}, "2 to 1"},
        {{CELL_WATER_TEMP, 0, 0}, "15 C"},   {{CELL_POTASSIUM, 0, 0}, "5"},       {{CELL_PURITY_NAOH, 0, 0}, "99"},
        {{CELL_PURITY_KOH, 0, 0}, "88"},     {{CELL_SOLUTION_NAOH, 0, 0}, "50"},  {{CELL_SOLUTION_KOH, 0, 0}, "45"},
        {{CELL_RESIDUE, 0, 0}, "20 g"},      {{CELL_OIL_SHARE, 0, 0}, "40"},      {{CELL_OIL_GRAMS, 0, 0}, "500 g"},
        {{CELL_OIL_SAP, 0, 0}, "191"},       {{CELL_ADDITIVE_DOSE, 0, 0}, "1"},   {{CELL_LIQUID_SHARE, 0, 0}, "20"},
        {{CELL_FRAGRANCE_LOAD, 0, 0}, "2"},  {{CELL_FRAGRANCE_LIMIT, 0, 0}, "2"}, {{CELL_PORTION_NAME, 1, 0}, "clay"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "20"}, {{CELL_PIECES_COUNT, 2, 0}, "30"},   {{CELL_PIECES_MASS, 2, 0}, "2 g"},
        {{CELL_PIECES_KIND, 2, 0}, "leaf"},  {{CELL_COLOUR_DOSE, 1, 0}, "3"},
    };
    struct pair *pair = *state;

    assert_int_equal(sizeof rows / sizeof *rows, CELL_KINDS - 1);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct change changes[EDITOR_CHANGES];
        struct cell_context context = {&pair->after, version_document(pair->before)->plan, &pair->settings,
                                       FOLLOW_RATIO, 0};
        char said[SAID_BYTES];
        int n = 0;

        table_recipe(&pair->after);
        assert_int_equal(cell_read(&context, rows[i].cell, rows[i].text, changes, &n, NULL), LW_OK);
        for (int j = 0; j < n; j++)
            assert_int_equal(change_apply(&pair->after, &changes[j], true, NULL), LW_OK);
        compare(pair, false, said);
        if (said[0] == '\0')
            fail_msg("%s: nothing is told", cell_name(rows[i].cell.kind));
    }
}

static void no_more_rows_are_written_than_there_is_room_for(void **state)
{
    struct pair *pair = *state;
    const struct plan_document *a = version_document(pair->before), *b;
    struct difference out[3];

    memset(out, '#', sizeof out);
    name(pair->after.name, "Hedge Rose");
    pair->after.purpose = PURPOSE_SHAVING;
    pair->after.scent = PUT_IN_BATTER;
    assert_int_equal(version_set(pair->version, &pair->after, NULL), LW_OK);
    b = version_document(pair->version);
    assert_true(compare_recipes(a->input, a->plan, b->input, b->plan, out, 2) >= 3); /* all are counted */
    assert_string_equal(out[1].what, "purpose");
    assert_int_equal(out[2].what[0], '#');
}

#define WITH_PAIR(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_PAIR(equal_versions_have_no_rows),
        WITH_PAIR(single_values_are_told_in_the_makers_words),
        WITH_PAIR(alkali_and_its_water_are_told),
        WITH_PAIR(residue_and_scales_are_told),
        WITH_PAIR(another_size_tells_what_it_changes),
        WITH_PAIR(shares_of_oils_are_told_by_oil),
        WITH_PAIR(elements_are_matched_by_their_ids),
        WITH_PAIR(an_oil_that_is_gone_or_new_has_one_side_only),
        WITH_PAIR(what_takes_the_place_of_another_is_named),
        WITH_PAIR(doses_are_told_with_the_way_they_are_meant),
        WITH_PAIR(portions_are_told_with_their_pieces_and_colours),
        WITH_PAIR(a_note_is_told_whatever_it_says),
        WITH_PAIR(every_cell_that_is_changed_makes_a_row),
        WITH_PAIR(no_more_rows_are_written_than_there_is_room_for),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
