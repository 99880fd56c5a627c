/* The preview of colours against figures worked by hand, published properties of the relation, and random mixes.
 *
 * Kubelka-Munk: K/S = (1 - R)^2 / 2R, and its root R = 1 + q - sqrt(q^2 + 2q) (Kubelka and Munk 1931, as every text on
 * colour of paint and paper gives them). sRGB: IEC 61966-2-1. Swatches and doses stand here and not in the program's
 * tables, so that a check does not move when a row is corrected; they are judged by eye.
 */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

#include "calc/colour.h"
#include "calc/scene.h"
#include "calc/srgb.h"
#include "support/random_recipe.h"

static const struct practice PLAIN = {.plain_red = 240, .plain_green = 230, .plain_blue = 207};
static const struct colourant_fact RED = {.dose_lo = 0.5, .dose_hi = 5, .swatch_rgb = 0xA4503C};
static const struct colourant_fact GREEN = {.dose_lo = 0.5, .dose_hi = 5, .swatch_rgb = 0x7F9A6B};
static const struct colourant_fact BLACK = {.dose_lo = 0.2, .dose_hi = 2, .swatch_rgb = 0x3A3836};
static const struct colourant_fact TURMERIC = {
    .dose_lo = 1, .dose_hi = 10, .swatch_rgb = 0xDDB45B, .fresh_rgb = 0x9C4A2C, .behaviour = ALKALI_SHIFTS_RETURNS};
static const struct colourant_fact TITANIUM = {.dose_lo = 2, .dose_hi = 10, .swatch_rgb = 0xFAF7F0, .whitens = true};
static const struct colourant_fact KAOLIN = {.dose_lo = 5, .dose_hi = 30, .swatch_rgb = 0xF4EFE4, .whitens = true};
static const struct colourant_fact UNSUITED = {.swatch_rgb = 0xB79A6C};

struct added {
    const struct colourant_fact *fact;
    double g_per_kg;
};

static struct plan_colour look(size_t n, const struct added added[])
{
    struct colour_mix mix;

    colour_start(&PLAIN, &mix);
    for (size_t i = 0; i < n; i++)
        colour_add(&mix, added[i].fact, added[i].g_per_kg);
    return colour_seen(&mix);
}

static int channel(unsigned rgb, int c)
{
    return (int)(rgb >> (16 - 8 * c) & 0xFF);
}

/* Each within a code, which is what two ways of rounding to codes may differ by. */
static void same_colour(unsigned found, unsigned expected)
{
    for (int c = 0; c < COLOUR_CHANNELS; c++)
        if (abs(channel(found, c) - channel(expected, c)) > 1)
            fail_msg("#%06X, by hand #%06X", found, expected);
}

/* A uniform black over white: R = 0.5 has K/S 0.25, R = 0.2 has 1.6, R = 0.25 has 1.125. */
static void absorption_is_that_of_the_published_relation(void **state)
{
    static const double table[][2] = {{0.5, 0.25}, {0.2, 1.6}, {0.25, 1.125}, {0.8, 0.025}, {0.1, 4.05}};

    (void)state;
    for (size_t i = 0; i < ROWS(table); i++) {
        assert_near(colour_absorption(table[i][0]), table[i][1], 1e-12);
        assert_near(colour_reflectance(table[i][1]), table[i][0], 1e-12);
    }
}

static void reflectance_is_the_other_form_of_the_same_root(void **state)
{
    (void)state;
    for (double q = 1e-4; q < 45; q *= 1.07)
        assert_near(colour_reflectance(q), 1 + q - sqrt(q * q + 2 * q), 1e-11);
}

static void reflectance_stays_within_its_bounds(void **state)
{
    (void)state;
    assert_near(colour_reflectance(0), 0.99, 0);
    assert_near(colour_reflectance(1e300), 0.01, 0);
    assert_near(colour_absorption(0), colour_absorption(0.01), 0);
    assert_near(colour_absorption(1), colour_absorption(0.99), 0);
}

/* IEC 61966-2-1, by powers. */
static void codes_are_those_of_srgb(void **state)
{
    (void)state;
    for (unsigned code = 0; code < 256; code++) {
        double c = code / 255.0, light = c <= 0.04045 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4);

        assert_near(srgb_light(code), light, 1e-8);
        assert_int_equal(srgb_code(light), code);
        assert_int_equal(srgb_code(light + (code < 255 ? 0.4 * (srgb_light(code + 1) - light) : 1)), code);
    }
    assert_int_equal(srgb_code(NAN), 0);
    assert_int_equal(srgb_code(-1), 0);
}

/* By hand, channel by channel (red, green, blue):
 *   plain #F0E6CF   light 0.871367 0.791298 0.623960   q 0.009495 0.027522 0.113313
 *   red   #A4503C   light 0.371238 0.080220 0.045186   q 0.532465 5.272984 10.087917
 * 1 g/kg of a middle dose of 2.75 adds 0.363636 of the difference: q 0.199666 1.934963 3.740442, light 0.537 0.175 0.107, #C2745C.
 * Titanium dioxide, sum of q 0.150330 plain and 0.013134 as its swatch: its 6 g/kg scatter 10.4459 on top of 1, so of
 * the mix above q 0.017444 0.169055 0.326797: #EBC6B4. */
static void mixes_are_those_worked_by_hand(void **state)
{
    static const struct {
        struct added added[2];
        unsigned cured;
    } table[] = {
        {{{&RED, 1}, {&RED, 0}}, 0xC2745C},           {{{&RED, 1}, {&TITANIUM, 6}}, 0xEBC6B4},
        {{{&GREEN, 4}, {&GREEN, 0}}, 0x718D5E},       {{{&BLACK, 2}, {&BLACK, 0}}, 0x2B2928},
        {{{&TURMERIC, 5}, {&RED, 0}}, 0xDEB75E},      {{{&KAOLIN, 17.5}, {&RED, 0}}, 0xF6F1E2},
        {{{&TITANIUM, 6}, {&TITANIUM, 0}}, 0xFAF7F0},
    };

    (void)state;
    for (size_t i = 0; i < ROWS(table); i++)
        same_colour(look(2, table[i].added).cured_rgb, table[i].cured);
}

static void a_plain_batter_has_the_colour_of_practice(void **state)
{
    struct plan_colour plain = look(0, NULL);

    (void)state;
    assert_true(plain.known);
    assert_int_equal(plain.cured_rgb, 0xF0E6CF);
    assert_int_equal(plain.fresh_rgb, 0xF0E6CF);
}

static void a_middle_dose_has_the_colour_of_the_swatch(void **state)
{
    (void)state;
    same_colour(look(1, &(struct added){&RED, 2.75}).cured_rgb, RED.swatch_rgb);
    same_colour(look(1, &(struct added){&BLACK, 1.1}).cured_rgb, BLACK.swatch_rgb);
    same_colour(look(1, &(struct added){&TURMERIC, 5.5}).cured_rgb, TURMERIC.swatch_rgb);
    same_colour(look(1, &(struct added){&TURMERIC, 5.5}).fresh_rgb, TURMERIC.fresh_rgb);
}

/* Common practice: turmeric is red-brown in fresh batter and comes back to yellow. */
static void only_what_shifts_looks_another_colour_on_the_bench(void **state)
{
    struct plan_colour turmeric = look(1, &(struct added){&TURMERIC, 5}), red = look(1, &(struct added){&RED, 5});

    (void)state;
    same_colour(turmeric.fresh_rgb, 0x9F4D2E);
    assert_true(channel(turmeric.fresh_rgb, 1) < channel(turmeric.cured_rgb, 1) - 40);
    assert_int_equal(red.fresh_rgb, red.cured_rgb);
}

static void what_has_no_usual_dose_is_not_guessed(void **state)
{
    (void)state;
    assert_false(look(1, &(struct added){&UNSUITED, 1}).known);
    assert_true(look(1, &(struct added){&UNSUITED, 0}).known);
    assert_true(look(1, &(struct added){&RED, -1}).known);
    assert_int_equal(look(1, &(struct added){&RED, -1}).cured_rgb, 0xF0E6CF);
    assert_int_equal(look(1, &(struct added){&RED, NAN}).cured_rgb, 0xF0E6CF);
    assert_false(look(1, &(struct added){&RED, INFINITY}).known);
}

/* From a thousandth of a gram to a kilogram. */
static double random_dose(struct chance *chance)
{
    return exp((chance_below(chance, 1401) - 700) / 100.0);
}

static size_t random_added(struct chance *chance, struct added added[8])
{
    static const struct colourant_fact *const facts[] = {&RED, &GREEN, &BLACK, &TURMERIC, &TITANIUM, &KAOLIN};
    size_t n = (size_t)chance_below(chance, 8);

    for (size_t i = 0; i < n; i++)
        added[i] = (struct added){facts[chance_below(chance, (int)ROWS(facts))], random_dose(chance)};
    return n;
}

static void never_lighter(unsigned before, unsigned after)
{
    for (int c = 0; c < COLOUR_CHANNELS; c++)
        if (channel(after, c) > channel(before, c))
            fail_msg("#%06X became #%06X", before, after);
}

/* Property: whatever is in it, more of a colourant makes no channel lighter, more of a whitener none darker. */
static void more_colourant_is_never_lighter_and_more_whitener_never_darker(void **state)
{
    struct chance chance = chance_of(20);

    (void)state;
    for (int i = 0; i < 4000; i++) {
        struct added added[8];
        size_t n = random_added(&chance, added);
        struct plan_colour before = look(n, added), after;

        added[n] = (struct added){i % 2 ? &TITANIUM : i % 4 ? &TURMERIC : &BLACK, random_dose(&chance)};
        after = look(n + 1, added);
        assert_true(after.known);
        never_lighter(i % 2 ? after.cured_rgb : before.cured_rgb, i % 2 ? before.cured_rgb : after.cured_rgb);
        never_lighter(i % 2 ? after.fresh_rgb : before.fresh_rgb, i % 2 ? before.fresh_rgb : after.fresh_rgb);
    }
}

/* Property: the order in which colourants are named does not matter, nor in how many parts a dose is given. */
static void order_and_parts_do_not_matter(void **state)
{
    struct chance chance = chance_of(21);

    (void)state;
    for (int i = 0; i < 2000; i++) {
        struct added added[8], turned[16];
        size_t n = random_added(&chance, added);

        for (size_t k = 0; k < n; k++) {
            turned[2 * (n - 1 - k)] = (struct added){added[k].fact, added[k].g_per_kg / 4};
            turned[2 * (n - 1 - k) + 1] = (struct added){added[k].fact, added[k].g_per_kg * 3 / 4};
        }
        same_colour(look(2 * n, turned).cured_rgb, look(n, added).cured_rgb);
    }
}

/* Whatever the rows of the program say, every channel is a number within 0 and 255. */
static void every_row_gives_a_colour(void **state)
{
    size_t n;
    const struct colourant_fact *fact = facts_colourants(&n);

    (void)state;
    for (size_t i = 0; i < n; i++)
        for (double dose = 1e-9; dose < 1e12; dose *= 10) {
            struct plan_colour seen = look(1, &(struct added){&fact[i], dose});

            assert_true(seen.cured_rgb <= 0xFFFFFF && seen.fresh_rgb <= 0xFFFFFF);
            assert_int_equal(seen.known, fact[i].dose_hi > 0);
        }
}

/* Two portions of 500 g of oils each: 1 g/kg is 0.5 g. */
static void two_portions(struct scene *scene, enum put_in where)
{
    scene_start(scene);
    scene->recipe.colour = where;
    scene->plan.oils_ug = mass_ug(1000);
    scene->plan.batter_ug = mass_ug(1450);
    scene_portion(scene, 725, false, TECHNIQUE_POUR);
    scene_portion(scene, 725, false, TECHNIQUE_POUR);
    scene->plan.portion[scene->plan.portions++] = (struct plan_portion){.source = -1};
    scene->recipe.portion[0].colourants = 1;
    scene->facts.colourant[0][0] = &RED;
    scene->plan.portion[0].colourant[0].colourant.exact_g = where == PUT_IN_BATTER ? 1 : 0.5;
    colour_plan(&scene->in, &scene->plan);
}

static void a_portion_has_the_colour_of_its_own_dose(void **state)
{
    struct scene scene;

    (void)state;
    two_portions(&scene, PUT_IN_PORTIONS);
    same_colour(scene.plan.portion[0].colour.cured_rgb, 0xC2745C);
    assert_int_equal(scene.plan.portion[1].colour.cured_rgb, 0xF0E6CF);
    assert_int_equal(scene.plan.portion[2].colour.cured_rgb, 0xF0E6CF);
    assert_true(scene.plan.portion[2].colour.known);
}

static void a_batter_that_is_coloured_whole_is_one_colour(void **state)
{
    struct scene scene;

    (void)state;
    two_portions(&scene, PUT_IN_BATTER);
    for (int i = 0; i < scene.plan.portions; i++)
        same_colour(scene.plan.portion[i].colour.cured_rgb, 0xC2745C);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(absorption_is_that_of_the_published_relation),
        cmocka_unit_test(reflectance_is_the_other_form_of_the_same_root),
        cmocka_unit_test(reflectance_stays_within_its_bounds),
        cmocka_unit_test(codes_are_those_of_srgb),
        cmocka_unit_test(mixes_are_those_worked_by_hand),
        cmocka_unit_test(a_plain_batter_has_the_colour_of_practice),
        cmocka_unit_test(a_middle_dose_has_the_colour_of_the_swatch),
        cmocka_unit_test(only_what_shifts_looks_another_colour_on_the_bench),
        cmocka_unit_test(what_has_no_usual_dose_is_not_guessed),
        cmocka_unit_test(more_colourant_is_never_lighter_and_more_whitener_never_darker),
        cmocka_unit_test(order_and_parts_do_not_matter),
        cmocka_unit_test(every_row_gives_a_colour),
        cmocka_unit_test(a_portion_has_the_colour_of_its_own_dose),
        cmocka_unit_test(a_batter_that_is_coloured_whole_is_one_colour),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
