/* test_sheet.c - the bench sheet. data/sample-base.sheet is the whole sheet of the sample recipe, looked through by a
 * person; what must hold for every sheet is checked one by one.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/utf8.h"
#include "exchange/sheet.h"
#include "files.h"
#include "filled_plan.h"
#include "hostile.h"

/* The sheet as text, to be freed. */
static char *written(const struct filled *filled)
{
    struct buffer out;
    struct lw_error error;
    char *text;

    buffer_init(&out, 1 << 20);
    sheet(&filled->document, &out);
    assert_int_equal(buffer_status(&out, &error), LW_OK);
    text = strdup(buffer_text(&out));
    buffer_done(&out);
    return text;
}

static void the_sample_sheet_is_as_it_was_looked_through(void **state)
{
    struct filled *filled = filled_sample();
    char *text = written(filled), *golden = sample_file("sample-base.sheet");

    (void)state;
    assert_string_equal(text, golden);
    free(golden);
    free(text);
    free(filled);
}

/* No line wider than the paper, none that ends in spaces, nothing that a terminal would act on. */
static void assert_harmless(const char *text)
{
    while (*text != '\0') {
        size_t length = strcspn(text, "\n"), bad;
        char line[2048];

        assert_true(length < sizeof line && text[length] == '\n');
        snprintf(line, sizeof line, "%.*s", (int)length, text);
        assert_true(utf8_valid(line, length, &bad));
        if (utf8_columns(line) > 80)
            fail_msg("%zu columns: %s", utf8_columns(line), line);
        if (length > 0 && line[length - 1] == ' ')
            fail_msg("ends in a space: %s", line);
        for (size_t i = 0; i < length;) {
            uint32_t point;
            i += utf8_next(line + i, length - i, &point);
            if (!utf8_printable(point))
                fail_msg("U+%04X in: %s", (unsigned)point, line);
        }
        text += length + 1;
    }
}

static void check_harmless(const struct filled *filled)
{
    char *text = written(filled);

    assert_harmless(text);
    free(text);
}

static void no_name_leaves_its_place_or_reaches_the_terminal_raw(void **state)
{
    struct filled *filled = filled_sample();

    (void)state;
    for (size_t i = 0; i < HOSTILE_NAMES; i++) {
        snprintf(filled->recipe.name, LW_NAME_BYTES, "%s", hostile_names[i]);
        snprintf(filled->recipe.note, LW_NOTE_BYTES, "%s\n\n%s", hostile_names[i], hostile_names[i]);
        snprintf(filled->recipe.oil[2].name, LW_NAME_BYTES, "%s", hostile_names[i]);
        snprintf(filled->recipe.portion[0].name, LW_NAME_BYTES, "%s", hostile_names[i]);
        snprintf(filled->recipe.portion[2].pieces.kind, LW_NAME_BYTES, "%s", hostile_names[i]);
        snprintf(filled->recipe.fragrance[0].limit_from, LW_NAME_BYTES, "%s", hostile_names[i]);
        snprintf(filled->plan.scale[0].name, LW_NAME_BYTES, "%s", hostile_names[i]);
        snprintf(filled->words[0].what, WORDS_WHAT_BYTES, "About %s.", hostile_names[i]);
        filled->plan.limit.from = LIMIT_CERTIFICATE;
        for (enum mass_unit unit = MASS_G; unit <= MASS_LB; unit++) {
            filled->document.unit = unit;
            check_harmless(filled);
        }
    }
    free(filled);
}

static const char *line_with(const char *text, const char *word)
{
    const char *at = strstr(text, word);

    assert_non_null(at);
    while (at > text && at[-1] != '\n')
        at--;
    return at;
}

/* "450    g" and "147.24 g" under one another: the point, or where it would be, in the same column of every weighing. */
static void weighings_align_on_the_decimal(void **state)
{
    struct filled *filled = filled_sample();
    char *text = written(filled);
    size_t whole = (size_t)(strstr(line_with(text, "] Coconut oil"), "250") + 3 - line_with(text, "] Coconut oil"));

    (void)state;
    assert_int_equal(strcspn(line_with(text, "] NaOH"), "."), whole);
    assert_int_equal(strstr(line_with(text, "] base"), "869") + 3 - line_with(text, "] base"), whole);
    assert_int_equal(strcspn(line_with(text, "] Chromium"), "."), whole);
    free(text);
    free(filled);
}

static void a_portion_of_a_scented_batter_is_never_called_unscented(void **state)
{
    struct filled *filled = filled_sample();
    char *text = written(filled);

    (void)state;
    assert_non_null(strstr(text, "unscented"));
    free(text);
    filled->recipe.scent = PUT_IN_BATTER;
    text = written(filled);
    assert_null(strstr(text, "unscented"));
    assert_non_null(strstr(line_with(text, "] rosettes"), "scented in the jug"));
    free(text);
    free(filled);
}

static void the_jug_ends_at_the_weight_of_the_batter(void **state)
{
    struct filled *filled = filled_sample();
    char *text = written(filled);
    const char *line = line_with(text, "all of the lye");

    (void)state;
    assert_non_null(strstr(line, "456.24 g"));
    assert_true(strstr(line, "1456.24 g") < strchr(line, '\n'));
    free(text);
    free(filled);
}

static void the_safety_notes_stand_on_every_sheet(void **state)
{
    static const char *const needed[] = {"goggles",
                                         "gloves",
                                         "window open",
                                         "Alkali into water",
                                         "aluminium",
                                         "Children and animals out",
                                         "running water",
                                         "Medical help",
                                         "No vinegar",
                                         "do not replace the supplier's certificate",
                                         "Local cosmetics law",
                                         "licensed advice"};
    struct filled *filled = filled_sample();
    char *text;

    (void)state;
    memset(&filled->plan, 0, sizeof filled->plan);
    filled->recipe.fragrances = 0;
    text = written(filled);
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++) {
        if (strstr(text, needed[i]) == NULL)
            fail_msg("no \"%s\"", needed[i]);
    }
    assert_null(strstr(text, "safe to"));
    assert_null(strstr(text, "is safe"));
    assert_null(strstr(text, "lawful"));
    assert_harmless(text);
    free(text);
    free(filled);
}

static void a_stop_is_said_before_anything_is_weighed(void **state)
{
    struct filled *filled = filled_sample();
    char *text;

    (void)state;
    filled->plan.finding[0].level = LEVEL_STOP;
    text = written(filled);
    assert_non_null(strstr(text, "DO NOT START FROM THIS SHEET"));
    assert_true(strstr(text, "DO NOT START") < strstr(text, "WEIGH"));
    assert_non_null(strstr(text, "  STOP     Chromium oxide green is under five"));
    free(text);
    free(filled);
}

static void the_band_shows_the_side_of_the_alkali(void **state)
{
    struct filled *filled = filled_sample();
    char *text;
    const char *band;

    (void)state;
    filled->plan.margin = (struct margin){
        .nominal = -0.02, .likely = {-0.04, 0.01}, .worst = {-0.06, 0.03}, .chance_lye_heavy = 0.9};
    filled->document.margin_word = "LYE-HEAVY";
    text = written(filled);
    band = line_with(text, "alkali ");
    assert_true(strchr(band, '[') < strchr(band, 'o'));
    assert_true(strstr(band + 8, "o") < strchr(band, '|'));
    assert_true(strchr(band, '|') < strchr(band, ']'));
    assert_non_null(strstr(text, "L Y E - H E A V Y"));
    assert_non_null(strstr(text, "Lye-heavy about 9 times in 10"));
    free(text);
    free(filled);
}

static void extreme_figures_stay_on_the_paper(void **state)
{
    struct filled *filled = filled_sample();

    (void)state;
    for (int i = 0; i < 3; i++)
        filled->plan.oil[i] = (struct weighing){999999.99, 999999990000, 10000, 1, 0};
    filled->plan.oils_ug = 2999999970000;
    filled->plan.batter_ug = 3999999990000;
    filled->plan.margin.worst = (struct interval){-25, 0.9};
    for (int i = 0; i < 3; i++) {
        filled->plan.portion[i].batter_ug = 999999990000;
        filled->plan.portion[i].division_ug = 10000;
        filled->plan.portion[i].volume_ml = 1234567;
    }
    filled->plan.portion[2].pieces.to_pipe = 2600;
    filled->plan.portion[2].pieces.bags = 90000;
    filled->plan.portion[2].pace.until.high = 1e6;
    for (enum mass_unit unit = MASS_G; unit <= MASS_LB; unit++) {
        filled->document.unit = unit;
        check_harmless(filled);
    }
    free(filled);
}

static void ounces_stand_beside_what_the_scale_reads(void **state)
{
    struct filled *filled = filled_sample();
    char *text;

    (void)state;
    filled->document.unit = MASS_OZ;
    text = written(filled);
    assert_non_null(
        strstr(line_with(text, "] Coconut oil"), "250    g  8.82 oz")); /* 250 / 28.349523125, NIST Handbook 44 */
    free(text);
    filled->document.unit = MASS_LB;
    text = written(filled);
    assert_non_null(strstr(text, "1000 g of oils (2 lb 3.3 oz)")); /* 35.27 oz */
    free(text);
    free(filled);
}

/* 60 g of the coconut oil are the carrier of the first portion: they come out of the jug, and its portion is poured
 * without them. 1456.24 g of batter are then 1396.24 g in the jug, 869 g of base 809 g from it. */
static void oil_kept_back_is_not_poured_twice(void **state)
{
    struct filled *filled = filled_sample();
    char *text;

    (void)state;
    filled->plan.oil_kept_ug[1] = filled->plan.portion[0].kept_ug = 60000000;
    text = written(filled);
    assert_non_null(strstr(text, "Take 60 g of it out again and keep it back for colour."));
    assert_non_null(strstr(text, "1396.24 g\n"));
    assert_null(strstr(text, "1456.24 g\n"));
    assert_non_null(strstr(text, "pour 809 g from the jug: the other 60 g are its carrier oil"));
    assert_harmless(text);
    free(text);
    free(filled);
}

/* Colour of the whole batter in 60 g of the recipe's oil: it is weighed, and the jug gets no heavier by it. */
static void oil_of_the_batter_is_not_put_in_twice(void **state)
{
    struct filled *filled = filled_sample();
    char *text;

    (void)state;
    filled->recipe.colour = PUT_IN_BATTER;
    filled->recipe.portion[0].colourant[0].carrier_reserved = true;
    strcpy(filled->recipe.portion[0].colourant[0].carrier_oil, "coconut");
    filled->plan.portion[0].colourant[0].carrier = (struct weighing){60, 60000000, 1000000, 0, 0};
    text = written(filled);
    assert_non_null(strstr(text, "in coconut, of the above"));
    assert_null(strstr(text, "1520.21 g\n")); /* 1456.24 and 2.98, 0.99 of colour, and 60 */
    assert_non_null(strstr(text, "1460.21 g\n"));
    assert_harmless(text);
    free(text);
    free(filled);
}

static void common_practice_is_said_where_no_batches_speak(void **state)
{
    struct filled *filled = filled_sample();
    char *text = written(filled);

    (void)state;
    assert_non_null(strstr(text, "common practice, no batch of yours speaks"));
    free(text);
    for (int i = 0; i < 3; i++)
        filled->plan.portion[i].pace.batches = 4;
    text = written(filled);
    assert_null(strstr(text, "no batches of yours"));
    assert_non_null(strstr(text, "from 4 of your batches"));
    free(text);
    free(filled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_sample_sheet_is_as_it_was_looked_through),
        cmocka_unit_test(no_name_leaves_its_place_or_reaches_the_terminal_raw),
        cmocka_unit_test(weighings_align_on_the_decimal),
        cmocka_unit_test(a_portion_of_a_scented_batter_is_never_called_unscented),
        cmocka_unit_test(the_jug_ends_at_the_weight_of_the_batter),
        cmocka_unit_test(the_safety_notes_stand_on_every_sheet),
        cmocka_unit_test(a_stop_is_said_before_anything_is_weighed),
        cmocka_unit_test(the_band_shows_the_side_of_the_alkali),
        cmocka_unit_test(extreme_figures_stay_on_the_paper),
        cmocka_unit_test(ounces_stand_beside_what_the_scale_reads),
        cmocka_unit_test(oil_kept_back_is_not_poured_twice),
        cmocka_unit_test(oil_of_the_batter_is_not_put_in_twice),
        cmocka_unit_test(common_practice_is_said_where_no_batches_speak),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
