/* The three ways in which the other oils follow when the share or mass of one is changed. Each case is worked here with nothing
 * but shares and grams; the plan is only asked for what the program itself would show. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "near.h"
#include "support/random_recipe.h"
#include "work/table.h"

enum { TRIES = 300 };

static const struct cell olive_share = {CELL_OIL_SHARE, 0, 0}, olive_grams = {CELL_OIL_GRAMS, 0, 0};

static void amounts_are(const struct table *table, double a, double b, double c, double d)
{
    const double expected[] = {a, b, c, d};

    for (int i = 0; i < 4; i++)
        assert_near(table->recipe.oil[i].amount, expected[i], 1e-12 * (1 + expected[i]));
}

/* The recipe by grams: 450, 250, 220 and 80 g. */
static void in_grams(struct table *table)
{
    table->recipe.oils_by = OILS_BY_GRAMS;
    table->recipe.size.by = SIZE_AS_GRAMS;
    for (int i = 0; i < 4; i++)
        table->recipe.oil[i].amount *= 1000;
    table_plan(table);
}

static void the_others_keep_their_ratio(void **state)
{
    struct table *table = *state;

    /* What is left, 34 %, is shared as 25 to 22 to 8, out of 55. */
    table_type(table, olive_share, "66");
    amounts_are(table, 0.66, 0.34 * 25 / 55, 0.34 * 22 / 55, 0.34 * 8 / 55);
    assert_true(table->recipe.size.grams == 1000);
}

static void the_others_keep_their_ratio_in_grams_too(void **state)
{
    struct table *table = *state;

    in_grams(table);
    table_type(table, olive_share, "66");
    amounts_are(table, 660, 340.0 * 25 / 55, 340.0 * 22 / 55, 340.0 * 8 / 55);
    assert_int_equal(table->recipe.size.by, SIZE_AS_GRAMS);
}

static void others_that_are_nothing_share_what_is_left_equally(void **state)
{
    struct table *table = *state;

    table_type(table, olive_share, "100");
    amounts_are(table, 1, 0, 0, 0);
    table_type(table, olive_share, "40");
    amounts_are(table, 0.4, 0.2, 0.2, 0.2);
}

static void others_that_are_nothing_share_grams_equally(void **state)
{
    struct table *table = *state;

    in_grams(table);
    table_type(table, olive_share, "100");
    amounts_are(table, 1000, 0, 0, 0);
    table_type(table, olive_share, "40");
    amounts_are(table, 400, 200, 200, 200);
}

static void the_others_keep_their_grams(void **state)
{
    struct table *table = *state;

    table->follow = FOLLOW_GRAMS;
    /* The others weigh 550 g; olive as a half of all weighs as much. */
    table_type(table, olive_share, "50");
    amounts_are(table, 0.5, 250.0 / 1100, 220.0 / 1100, 80.0 / 1100);
    assert_int_equal(table->recipe.size.by, SIZE_OILS);
    assert_near(table->recipe.size.grams, 1100, 1e-9);
}

static void the_others_keep_their_grams_in_grams_too(void **state)
{
    struct table *table = *state;

    table->follow = FOLLOW_GRAMS;
    in_grams(table);
    table_type(table, olive_share, "50");
    amounts_are(table, 550, 250, 220, 80);
    assert_int_equal(table->recipe.size.by, SIZE_AS_GRAMS);
    /* Made twice as large, the others weigh 1100 g. */
    table->recipe.size.by = SIZE_OILS;
    table->recipe.size.grams = 2200;
    table_plan(table);
    table_type(table, olive_share, "0");
    amounts_are(table, 0, 500, 440, 160);
    assert_near(table->recipe.size.grams, 1100, 1e-9);
}

static void one_oil_makes_up_the_rest(void **state)
{
    struct table *table = *state;

    table->follow = FOLLOW_ONE;
    table->makes_up = 1;
    table_type(table, olive_share, "50");
    amounts_are(table, 0.5, 0.2, 0.22, 0.08);
    table_type(table, olive_share, "70"); /* just possible: coconut is nothing then */
    amounts_are(table, 0.7, 0, 0.22, 0.08);
    table_refuses(table, olive_share, "70.1", "coconut would have to make up less than nothing");
}

static void one_oil_makes_up_the_rest_in_grams_too(void **state)
{
    struct table *table = *state;

    table->follow = FOLLOW_ONE;
    table->makes_up = 1;
    in_grams(table);
    table_type(table, olive_share, "50");
    amounts_are(table, 500, 200, 220, 80);
    table_refuses(table, olive_share, "71", "coconut would have to make up less than nothing");
}

static void an_oil_cannot_make_up_for_itself(void **state)
{
    struct table *table = *state;

    table->follow = FOLLOW_ONE;
    table->makes_up = 0;
    table_type(table, olive_share, "47"); /* then the last one does */
    amounts_are(table, 0.47, 0.25, 0.22, 0.06);
    table->makes_up = 3;
    table_type(table, (struct cell){CELL_OIL_SHARE, 3, 0}, "3"); /* the last one itself: the first does */
    amounts_are(table, 0.5, 0.25, 0.22, 0.03);
    table->makes_up = 17; /* an oil that was taken out */
    table_type(table, olive_share, "51");
    amounts_are(table, 0.51, 0.25, 0.22, 0.02);
}

static void what_cannot_be_gets_a_sentence(void **state)
{
    struct table *table = *state;

    table_refuses(table, olive_share, "101", "0 to 100");
    table->follow = FOLLOW_GRAMS;
    table_refuses(table, olive_share, "100", "cannot be all of the oils");
    table_refuses(table, olive_share, "99.99", "more than 1000 kg");
    table->follow = FOLLOW_RATIO;
    table_type(table, olive_share, "100");
    table->follow = FOLLOW_GRAMS;
    table_refuses(table, olive_share, "40", "no grams to keep");
    table_refuses(table, olive_grams, "0", "needs some oil");
    table->recipe.oils = 1;
    table_plan(table);
    table_refuses(table, olive_share, "50", "only oil is 100 %");
}

static void in_grams_there_is_some_oil_too(void **state)
{
    struct table *table = *state;

    in_grams(table);
    table->recipe.oils = 1;
    table_plan(table);
    table_refuses(table, olive_grams, "0", "needs some oil");
    table->recipe.oils = 2;
    table->recipe.oil[0].amount = table->recipe.oil[1].amount = 0;
    table_plan(table);
    table_refuses(table, olive_share, "50", "weigh nothing yet");
    table_type(table, olive_grams, "300");
    assert_true(table->recipe.oil[0].amount == 300 && table->recipe.oil[1].amount == 0);
}

static void grams_of_one_oil_leave_those_of_the_others(void **state)
{
    struct table *table = *state;

    table_type(table, olive_grams, "700");
    amounts_are(table, 700.0 / 1250, 250.0 / 1250, 220.0 / 1250, 80.0 / 1250);
    assert_near(table->recipe.size.grams, 1250, 1e-9);
    table_type(table, olive_grams, "0");
    amounts_are(table, 0, 250.0 / 550, 220.0 / 550, 80.0 / 550);
    table->settings.mass_unit = MASS_OZ;
    table_type(table, olive_grams, "10"); /* NIST Handbook 44 (2024), Appendix C: 28.349523125 g an ounce */
    assert_near(table->recipe.size.grams, 833.49523125, 1e-9);
}

static void grams_of_one_oil_are_all_that_changes_in_a_recipe_by_grams(void **state)
{
    struct table *table = *state;

    in_grams(table);
    assert_int_equal(table_type(table, olive_grams, "1 lb"), 1);
    amounts_are(table, 453.59237, 250, 220, 80);
    assert_int_equal(table->recipe.size.by, SIZE_AS_GRAMS);
}

/* What is shown has six decimals: taken as it stands, it must not push the other oils about. */
static void a_share_taken_as_it_stands_changes_nothing(void **state)
{
    struct table *table = *state;
    struct cell coconut = {CELL_OIL_SHARE, 1, 0};

    table->recipe.oils = 3;
    for (int i = 0; i < 3; i++)
        table->recipe.oil[i].amount = 1.0 / 3;
    table_plan(table);
    table_shows(table, coconut, "33.333333");
    for (table->follow = FOLLOW_RATIO; table->follow < FOLLOWS; table->follow++)
        assert_int_equal(table_type(table, coconut, "33.333333"), 0);
    table_shows(table, (struct cell){CELL_OIL_GRAMS, 1, 0}, "333.333333 g");
    assert_int_equal(table_type(table, (struct cell){CELL_OIL_GRAMS, 1, 0}, "333.333333 g"), 0);
    assert_int_equal(table_type(table, coconut, "33.333334"), 0 + 3);
}

static void random_amounts(struct table *table, struct chance *chance)
{
    double sum = 0;

    table->recipe.oils = 2 + chance_below(chance, RECIPE_OILS - 1);
    for (int i = 0; i < table->recipe.oils; i++) {
        table->recipe.oil[i] = table->recipe.oil[i % 4];
        table->recipe.oil[i].id = (uint32_t)i + 1;
        table->recipe.oil[i].amount = 1 + chance_below(chance, 1000);
        sum += table->recipe.oil[i].amount;
    }
    table->recipe.oils_by = chance_below(chance, 2) ? OILS_BY_SHARE : OILS_BY_GRAMS;
    table->recipe.size.by = table->recipe.oils_by == OILS_BY_GRAMS ? SIZE_AS_GRAMS : SIZE_OILS;
    for (int i = 0; table->recipe.oils_by == OILS_BY_SHARE && i < table->recipe.oils; i++)
        table->recipe.oil[i].amount /= sum;
    table->recipe.size.grams = 500;
    table_plan(table);
}

/* Property: the oil has the share that was typed, the shares make up a whole, no oil is below nothing, and with FOLLOW_GRAMS no
 * other oil has moved by a thousandth of a gram. */
static void the_sum_is_a_whole_whichever_way_they_follow(void **state)
{
    struct table *table = *state;
    struct chance chance = chance_of(11);

    for (int i = 0; i < TRIES; i++) {
        struct plan before;
        struct cell cell = {CELL_OIL_SHARE, 0, 0};
        int percent = chance_below(&chance, 99);
        char text[16];
        double sum = 0;

        random_amounts(table, &chance);
        memcpy(&before, table_plan_of(table), sizeof before);
        cell.index = chance_below(&chance, table->recipe.oils);
        table->follow = chance_below(&chance, 2) ? FOLLOW_GRAMS : FOLLOW_RATIO;
        snprintf(text, sizeof text, "%d", percent);
        table_type(table, cell, text);
        for (int oil = 0; oil < table->recipe.oils; oil++) {
            assert_true(table->recipe.oil[oil].amount >= 0);
            sum += table->recipe.oil[oil].amount;
            if (table->follow == FOLLOW_GRAMS && oil != cell.index)
                assert_near(table_plan_of(table)->oil[oil].exact_g, before.oil[oil].exact_g, 1e-3);
        }
        if (table->recipe.oils_by == OILS_BY_SHARE)
            assert_near(sum, 1, 1e-12);
        else if (table->follow == FOLLOW_RATIO)
            assert_near(sum, before.oils_exact_g, 1e-9 * sum);
        assert_near(table->recipe.oil[cell.index].amount / sum, percent / 100.0, 1e-12);
    }
}

#define AT_TABLE(test) cmocka_unit_test_setup_teardown(test, table_set_up, table_tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        AT_TABLE(the_others_keep_their_ratio),
        AT_TABLE(the_others_keep_their_ratio_in_grams_too),
        AT_TABLE(others_that_are_nothing_share_what_is_left_equally),
        AT_TABLE(others_that_are_nothing_share_grams_equally),
        AT_TABLE(the_others_keep_their_grams),
        AT_TABLE(the_others_keep_their_grams_in_grams_too),
        AT_TABLE(one_oil_makes_up_the_rest),
        AT_TABLE(one_oil_makes_up_the_rest_in_grams_too),
        AT_TABLE(an_oil_cannot_make_up_for_itself),
        AT_TABLE(what_cannot_be_gets_a_sentence),
        AT_TABLE(in_grams_there_is_some_oil_too),
        AT_TABLE(grams_of_one_oil_leave_those_of_the_others),
        AT_TABLE(grams_of_one_oil_are_all_that_changes_in_a_recipe_by_grams),
        AT_TABLE(a_share_taken_as_it_stands_changes_nothing),
        AT_TABLE(the_sum_is_a_whole_whichever_way_they_follow),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
