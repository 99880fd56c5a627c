/* The lines of the bench while pieces are piped: figures as they went in, in the maker's units.
 *
 * Ounces: NIST Handbook 44 (2024), Appendix C: 28.349523125 g, exact. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "work/words_piping.h"

/* The bench as it is sketched in the design: 31 good, 13 to go, batter for 9. */
static struct piping sketched(void)
{
    return (struct piping){.wanted = 44,
                           .good = 31,
                           .to_go = 13,
                           .rejects = 2,
                           .mass_g = 2.6,
                           .left_g = 36.2,
                           .more = 9,
                           .enough = 0,
                           .enough_asked = 0.9,
                           .workable_min = {.median = 26.3, .low = 13.6, .high = 40.4},
                           .need_min = 9.2};
}

static struct piping_help sketched_help(void)
{
    return (struct piping_help){.missing = 4,
                                .scrape = 2,
                                .smaller_g = 2.2462,
                                .smaller = 2,
                                .enough = 0.33,
                                .bars = 20,
                                .second_oils_g = 62.4};
}

static struct piping_words say(struct piping piping, struct piping_help help, enum mass_unit unit)
{
    struct piping_words words;

    memset(&words, '#', sizeof words);
    words_of_piping(&piping, &help, unit, &words);
    return words;
}

static void the_lines_are_those_of_the_sketch(void **state)
{
    struct piping_words words = say(sketched(), sketched_help(), MASS_G);
    (void)state;

    assert_string_equal(words.left, "left in the bag about 36 g: 9 more");
    assert_string_equal(words.workable, "workable for 14 to 40 more minutes (8 times in 10)");
    assert_string_equal(words.need, "13 more take about 9");
    assert_string_equal(words.help, "four short: scrape rejects back (+2) and 2.2 g each (+2) / dress 20 bars");
}

/* 36.2 g are 1.277 oz, 2.2 g 0.0776 oz. */
static void masses_are_in_the_maker_s_unit(void **state)
{
    struct piping_words words = say(sketched(), sketched_help(), MASS_OZ);
    (void)state;

    assert_string_equal(words.left, "left in the bag about 1.28 oz: 9 more");
    assert_non_null(strstr(words.help, "0.0776 oz each (+2)"));
}

static void a_mass_each_is_rounded_down_so_that_it_is_enough(void **state)
{
    struct piping_help help = sketched_help();
    (void)state;

    help.smaller_g = 2.2999;
    assert_non_null(strstr(say(sketched(), help, MASS_G).help, " 2.2 g each"));
    help.smaller_g = 0.1379;
    assert_non_null(strstr(say(sketched(), help, MASS_G).help, " 0.13 g each"));
    help.smaller_g = 2.3; /* the double is a hair below */
    assert_non_null(strstr(say(sketched(), help, MASS_G).help, " 2.3 g each"));
}

static void proposals_that_are_not_possible_are_left_out(void **state)
{
    struct piping_help help = sketched_help();
    (void)state;

    help.scrape = 0;
    assert_string_equal(say(sketched(), help, MASS_G).help,
                        "four short: 2.2 g each (+2) / dress 20 bars / second batter of 62 g oils");
    help.smaller = 0;
    help.smaller_g = 0;
    help.bars = 1;
    assert_string_equal(say(sketched(), help, MASS_G).help, "four short: dress 1 bar / second batter of 62 g oils");
    help.bars = 0;
    help.missing = 27;
    assert_string_equal(say(sketched(), help, MASS_G).help, "27 short: second batter of 62 g oils");
    help.scrape = 27;
    assert_string_equal(say(sketched(), help, MASS_G).help, "27 short: scrape rejects back (+27)");
}

static void a_count_that_may_not_do_is_said_as_a_chance(void **state)
{
    struct piping piping = sketched();
    struct piping_help help = sketched_help();
    (void)state;

    piping.more = 13;
    piping.enough = 0.33;
    help.missing = 0;
    assert_string_equal(say(piping, help, MASS_G).help,
                        "enough about 3 times in 10: scrape rejects back (+2) and 2.2 g each (+2) / dress 20 bars");
}

static void where_all_is_done_nothing_more_is_said(void **state)
{
    struct piping piping = sketched();
    struct piping_help none = {.enough = 1};
    (void)state;

    piping.to_go = 0;
    piping.workable_min = (struct quantiles){0, 0, 0};

    struct piping_words words = say(piping, none, MASS_G);

    assert_string_equal(words.need, "");
    assert_string_equal(words.help, "");
    assert_string_equal(words.workable, "no longer workable by what was stamped");
}

/* The widest figures that there can be: no line is cut. */
static void the_longest_lines_fit(void **state)
{
    struct piping piping = sketched();
    struct piping_help help = sketched_help();
    (void)state;

    piping.more = help.missing = help.scrape = help.smaller = help.bars = piping.to_go = 100000;
    piping.left_g = help.second_oils_g = help.smaller_g = 999999.9;
    piping.workable_min = (struct quantiles){.median = 1234567, .low = 1234567, .high = 1234567};
    help.missing = 300000;

    struct piping_words words = say(piping, help, MASS_LB);

    assert_non_null(strstr(words.workable, "to 1234567 more minutes (8 times in 10)"));
    assert_non_null(strstr(words.help, "dress 100000 bars / second batter of "));
    assert_string_equal(words.help + strlen(words.help) - 5, " oils");
}

/* By hand: 163.83 - 7 - 12.5 - 43.5 = 100.83 g of 38 are 2.6534 g; without the bag 113.33 g of 43 are 2.6356 g. */
static void a_mass_a_piece_can_be_reckoned_again_from_its_line(void **state)
{
    struct piping_terms terms = {.filled_g = 163.83,
                                 .cup_g = 4,
                                 .squeeze_g = 3,
                                 .emptied_g = 12.5,
                                 .emptied = 1,
                                 .left_g = 43.5,
                                 .made = 38,
                                 .each_g = 100.83 / 38};
    char text[PIPING_LINE_BYTES];

    (void)state;
    words_of_own_mass(&terms, "petals", text, sizeof text);
    assert_string_equal(text,
                        "petals: (163.83 filled - 7 cup and squeeze - 12.5 in 1 bag - 43.5 left) / 38 made = 2.65 g");
    terms.emptied = 0;
    terms.emptied_g = 0;
    terms.made = 43;
    terms.each_g = 113.33 / 43;
    words_of_own_mass(&terms, "petals", text, sizeof text);
    assert_string_equal(text, "petals: (163.83 filled - 7 cup and squeeze - 43.5 left) / 43 made = 2.64 g");
    terms.made = 40; /* 116 g of 40 are 2.9 g, as the book has it: 2.90 */
    terms.filled_g = 166.5;
    terms.each_g = 116.0 / 40;
    words_of_own_mass(&terms, "petals", text, sizeof text);
    assert_string_equal(text, "petals: (166.5 filled - 7 cup and squeeze - 43.5 left) / 40 made = 2.90 g");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_lines_are_those_of_the_sketch),
        cmocka_unit_test(masses_are_in_the_maker_s_unit),
        cmocka_unit_test(a_mass_each_is_rounded_down_so_that_it_is_enough),
        cmocka_unit_test(proposals_that_are_not_possible_are_left_out),
        cmocka_unit_test(a_count_that_may_not_do_is_said_as_a_chance),
        cmocka_unit_test(where_all_is_done_nothing_more_is_said),
        cmocka_unit_test(a_mass_a_piece_can_be_reckoned_again_from_its_line),
        cmocka_unit_test(the_longest_lines_fit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
