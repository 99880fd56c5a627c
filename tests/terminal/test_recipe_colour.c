/* test_recipe_colour.c - how portions look, on the recipe screen and in the picker of colourants: in colour and in words. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "terminal/workbench.h"

static const struct look tall = {.rows = 36, .cols = 80, .demo = true};

/* The swatch before a text that is that many columns to the right of it. */
static struct driver_cell swatch_before(struct driver *driver, const char *text, int columns)
{
    int row = 0, col = 0;

    sees(driver, text);
    if (!driver_find(driver, text, &row, &col))
        fail_msg("gone: %s", text);
    return driver_cell(driver, row, col - columns);
}

static void a_filled_cell_of(struct driver_cell cell, int colour)
{
    assert_string_equal(cell.text, " ");
    assert_true(cell.reverse);
    assert_int_equal(cell.colour, colour);
}

/* Chromium oxide at 4 g/kg is #718D5E by hand (tests/calc/test_colour.c): in steps of 17 that is 119 136 102. Of the usual cube
 * of 256 colours (0 95 135 175 215 255) 135 135 95 is nearest, 16 + 36 * 2 + 6 * 2 + 1. */
static void portions_show_a_swatch_and_its_word(void **state)
{
    struct driver *driver = open_at(*state, &tall);

    open_quince(driver);
    a_filled_cell_of(swatch_before(driver, "Chromium oxide green", 3), 101);
    sees(driver, "hint: white");
    sees(driver, "hint: grey-green");
    leave(driver);
}

static void where_there_is_no_room_the_word_comes_with_the_cursor(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    a_filled_cell_of(swatch_before(driver, "Chromium oxide green", 3), 101);
    does_not_see(driver, "hint:");
    keys(driver, "<Tab><Tab>");
    sees(driver, "cream: hint: white");
    keys(driver, "<Down>");
    sees(driver, "moss: hint: grey-green");
    keys(driver, "<Right><Right><Right>0");
    sees(driver, "moss: hint: cream");
    keys(driver, "<Enter>");
    sees(driver, "moss: hint: cream");
    keys(driver, "u<S-Tab>");
    does_not_see(driver, "hint:");
    leave(driver);
}

/* By squares of the distances from 119 136 102: yellow (205 205 0) 22561, white (205 each) 22766, green (0 205 0) 29326. */
static void eight_colours_do(void **state)
{
    struct driver *driver = open_at(*state, &(struct look){.rows = 24, .cols = 80, .demo = true, .term = "xterm"});

    open_quince(driver);
    a_filled_cell_of(swatch_before(driver, "Chromium oxide green", 3), 3);
    leave(driver);
}

static void without_colours_the_word_alone_tells(void **state)
{
    static const struct look looks[] = {
        {.rows = 24, .cols = 80, .demo = true, .no_colour = true},
        {.rows = 24, .cols = 80, .demo = true, .term = "vt100", .locale = "C"},
    };

    for (size_t i = 0; i < sizeof looks / sizeof *looks; i++) {
        struct driver *driver = open_at(*state, &looks[i]);
        struct driver_cell cell;

        open_quince(driver);
        cell = swatch_before(driver, "Chromium oxide green", 3);
        assert_string_equal(cell.text, " ");
        assert_false(cell.reverse);
        assert_false(cell.coloured);
        keys(driver, "<Tab><Tab><Down>");
        sees(driver, "moss: hint: grey-green");
        leave(driver);
    }
}

/* Common practice: turmeric turns red-brown in fresh batter and comes back. */
static void a_colourant_that_shifts_shows_both_colours(void **state)
{
    struct driver *driver = open_at(*state, &demo);
    int row = 0, col = 0;

    keys(driver, "nSun<Enter><Enter>olive<Enter>");
    keys(driver, "<Tab><Tab><End><Up><Enter>");
    sees(driver, "hint: cream");
    keys(driver, "cturmeric");
    sees(driver, "base would look about so");
    sees(driver, "hint: red-brown now, comes back to yellow by about day 3");
    sees(driver, "usual 1 to 10 g/kg of oils, in oil/water/lye solution");
    assert_true(driver_find(driver, "base would look", &row, &col));
    assert_true(driver_cell(driver, row + 1, col).reverse);
    assert_true(driver_cell(driver, row + 1, col + 7).reverse);
    assert_int_not_equal(driver_cell(driver, row + 1, col).colour, driver_cell(driver, row + 1, col + 7).colour);
    keys(driver, "<Enter>");
    does_not_see(driver, "would look");
    sees(driver, "hint: red-brown now, comes back to yellow by about day 3");
    keys(driver, "u");
    sees(driver, "hint: cream");
    leave(driver);
}

static void both_colours_of_what_shifts_stand_beside_the_portion(void **state)
{
    struct driver *driver = open_at(*state, &tall);
    struct driver_cell fresh, cured;

    keys(driver, "nSun<Enter><Enter>olive<Enter>");
    keys(driver, "<Tab><Tab><End><Up><Enter>cturmeric<Enter>");
    fresh = swatch_before(driver, "hint: red-brown now, comes back to yellow by about day 3", 3);
    cured = swatch_before(driver, "Turmeric", 3);
    a_filled_cell_of(fresh, fresh.colour);
    a_filled_cell_of(cured, cured.colour);
    assert_true(fresh.colour >= 16 && cured.colour >= 16 && fresh.colour != cured.colour);
    leave(driver);
}

static void the_picker_follows_the_cursor(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    keys(driver, "nSun<Enter><Enter>olive<Enter>");
    keys(driver, "<Tab><Tab><End><Up><Enter>ciron oxide");
    sees(driver, "hint: red-brown");
    keys(driver, "<Down>");
    sees(driver, "hint: yellow");
    keys(driver, "<Esc>");
    sees(driver, "hint: cream");
    leave(driver);
}

static void what_does_not_suit_soap_is_not_guessed(void **state)
{
    struct driver *driver = open_at(*state, &tall);

    keys(driver, "nSun<Enter><Enter>olive<Enter>");
    keys(driver, "<Tab><Tab><End><Up><Enter>cmanganese<Enter>");
    keys(driver, "<Right><Right>2<Enter>");
    sees(driver, "colour not known: one of its colourants has no usual dose");
    leave(driver);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(portions_show_a_swatch_and_its_word),
        TEST(eight_colours_do),
        TEST(without_colours_the_word_alone_tells),
        TEST(a_colourant_that_shifts_shows_both_colours),
        TEST(both_colours_of_what_shifts_stand_beside_the_portion),
        TEST(where_there_is_no_room_the_word_comes_with_the_cursor),
        TEST(the_picker_follows_the_cursor),
        TEST(what_does_not_suit_soap_is_not_guessed),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
