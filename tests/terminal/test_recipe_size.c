/* test_recipe_size.c - the size dialog: every way is one key away, says what it comes to, and is taken back by undo. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "terminal/workbench.h"

static void clear_field(struct driver *driver)
{
    keys(driver, "<C-u>");
}

/* The demo's mould is a box; its batter is 1225.34 g of 855 g of oils. */
static void every_line_says_what_it_comes_to(void **state)
{
    static const char *const lines[] = {"oils                      855.00 g oils, 1225.34 g batter",
                                        "mould, a box (now)        855.00 g oils",
                                        "mould, a cylinder         not given yet",
                                        "mould, by volume          not given yet",
                                        "mould, its cavities       not given yet",
                                        "mould, by water           not given yet",
                                        "pieces                    not given yet",
                                        "all of one oil            855.00 g oils",
                                        "whole alkali, less oil    854.00 g oils",
                                        "whole alkali, more oil    856.00 g oils"};
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    keys(driver, "z");
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
        sees(driver, lines[i]);
    keys(driver, "<Esc>");
    does_not_see(driver, "not given yet");
    sees(driver, "119.52");
    leave(driver);
}

/* What each way is typed as, what it is said to make before it is taken, and what the recipe then says of its size. */
static const struct typed {
    const char *key, *text, *oils, *sized;
} typed[] = {
    {"o", "500 g", "This makes 500.00 g of oils", "sized by oils"},
    {"b", "1 kg", "This makes 698.00 g of oils", "sized by batter"},
    {"m", "300 x 165 x 25, 90 %", "This makes 770.00 g of oils", "sized by mould"},
    {"c", "75 x 200", "This makes 612.00 g of oils", "sized by mould"},
    {"v", "883.573 mL", "This makes 612.00 g of oils", "sized by mould"},
    {"k", "4 x 220.893 mL", "This makes 612.00 g of oils", "sized by mould"},
    {"w", "881.98 g", "This makes 612.00 g of oils", "sized by mould"},
    {"p", "44 x 2.6 g, blossom, flower", "This makes 129.42 g of oils", "sized by pieces"},
    {"1", "107 g coconut", "This makes 428.00 g of oils", "sized by oils"},
};

/* A cylinder of 75 by 200 mm holds pi / 4 * 7.5^2 * 20 = 883.573 mL, which is as much as four cavities of 220.893 mL and, at
 * 0.9982 g/mL, 881.98 g of water. Coconut is a quarter of the oils. The demo's box of 1237.5 mL takes 855 g of oils, of which 5.6 g stay
 * in the jug with 8 g of residue: so 883.573 mL take 849.4 * 883.573 / 1237.5 + 5.6 = 612, 90 % of the box 770; 1 kg of batter
 * 855 / 1.22534 = 698. What pieces need is tests/calc/test_pieces.c's. */
static void every_way_is_shown_then_taken_then_undone(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    for (size_t i = 0; i < sizeof typed / sizeof *typed; i++) {
        keys(driver, "z");
        keys(driver, typed[i].key);
        clear_field(driver);
        keys(driver, typed[i].text);
        sees(driver, typed[i].oils);
        keys(driver, "<Enter>");
        does_not_see(driver, "This makes");
        sees(driver, typed[i].sized);
        does_not_see(driver, "119.52");
        keys(driver, "u");
        sees(driver, "119.52");
    }
    leave(driver);
}

static void whole_alkali_is_taken_by_one_key(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    keys(driver, "z-");
    sees(driver, "oils 854.00 g  sized by oils");
    keys(driver, "uz+");
    sees(driver, "oils 856.00 g  sized by oils");
    keys(driver, "u");
    sees(driver, "oils 855.00 g  sized by mould");
    leave(driver);
}

static void what_was_typed_last_is_what_editing_begins_with(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    keys(driver, "zp44 x 2.6 g, blossom, flower, 90 %<Enter>");
    sees(driver, "sized by pieces");
    keys(driver, "zp");
    sees(driver, "[44 x 2.6 g, blossom, flower, 90 %");
    keys(driver, "<Esc>z");
    sees(driver, "pieces (now)");
    leave(driver);
    driver = open_at(*state, &demo);
    open_quince(driver);
    sees(driver, "sized by pieces");
    leave(driver);
}

static void what_cannot_be_read_says_so_and_is_not_taken(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    keys(driver, "zm");
    clear_field(driver);
    keys(driver, "300 x 165");
    sees(driver, "Write 3 numbers with an x between them.");
    keys(driver, "<Enter>");
    sees(driver, "Write 3 numbers with an x between them.");
    keys(driver, "<Esc>z1");
    clear_field(driver);
    keys(driver, "100 g tallow");
    sees(driver, "The recipe has no tallow; it has");
    keys(driver, "<Esc>");
    sees(driver, "119.52");
    keys(driver, "u");
    sees(driver, "There is nothing to undo.");
    leave(driver);
}

static void the_oil_under_the_cursor_is_the_one_that_is_asked_about(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    keys(driver, "<Down>z1");
    sees(driver, " g coconut");
    clear_field(driver);
    keys(driver, "107<Enter>");
    sees(driver, "oils 428.00 g  sized by oils");
    leave(driver);
}

static void a_recipe_without_oils_says_what_is_missing(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    keys(driver, "nEmpty<Enter>z-");
    sees(driver, "There is nothing to size yet: add an oil first.");
    leave(driver);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(every_line_says_what_it_comes_to),
        TEST(every_way_is_shown_then_taken_then_undone),
        TEST(whole_alkali_is_taken_by_one_key),
        TEST(what_was_typed_last_is_what_editing_begins_with),
        TEST(what_cannot_be_read_says_so_and_is_not_taken),
        TEST(the_oil_under_the_cursor_is_the_one_that_is_asked_about),
        TEST(a_recipe_without_oils_says_what_is_missing),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
