/* test_recipe_note.c - the note beside a recipe: written in several lines, shown, saved, taken back. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "terminal/workbench.h"

/* High enough that a note of some lines is in view. */
static const struct look high = {.rows = 34, .cols = 80};

static struct driver *open_small(void **state)
{
    struct driver *driver = open_at(*state, &high);

    keys(driver, "nMorning<Enter><Enter>olive<Enter>");
    sees(driver, "128.67");
    sees(driver, "+ note");
    return driver;
}

static void a_note_is_written_shown_and_saved(void **state)
{
    struct driver *driver = open_small(state);

    keys(driver, "nPoured at 34.<Enter>Moss a little late.<Tab>");
    sees(driver, "note  Poured at 34.");
    sees(driver, "      Moss a little late.");
    does_not_see(driver, "+ note");
    leave(driver);
    driver = open_at(*state, &high);
    keys(driver, "<Enter>");
    sees(driver, "note  Poured at 34.");
    sees(driver, "      Moss a little late.");
    leave(driver);
}

static void undo_takes_a_note_back_as_one_step_and_redo_brings_it(void **state)
{
    struct driver *driver = open_small(state);

    keys(driver, "nfirst<Tab>");
    keys(driver, "n and more<Enter>second<Tab>");
    sees(driver, "note  first and more");
    keys(driver, "u");
    does_not_see(driver, "second");
    sees(driver, "note  first");
    keys(driver, "u");
    sees(driver, "+ note");
    keys(driver, "UU");
    sees(driver, "      second");
    leave(driver);
}

static void what_was_typed_is_not_thrown_away_without_asking(void **state)
{
    struct driver *driver = open_small(state);

    keys(driver, "nkeep me<Esc>");
    sees(driver, "The text was changed.");
    /* Another key between: the same one at once counts as held. */
    keys(driver, "<Down><Esc>");
    does_not_see(driver, "The text was changed.");
    keys(driver, "!<Esc>t");
    sees(driver, "note  keep me!");
    keys(driver, "nx<Esc>d");
    does_not_see(driver, "The text was changed.");
    sees(driver, "note  keep me!");
    does_not_see(driver, "keep me!x");
    keys(driver, "n<Esc>");
    sees(driver, "Enter change");
    leave(driver);
}

static void a_note_left_as_it_was_is_no_change(void **state)
{
    struct driver *driver = open_small(state);

    keys(driver, "nshort<Tab>");
    sees(driver, "note  short");
    keys(driver, "n <Enter><Tab>n<Tab>u");
    sees(driver, "+ note");
    sees(driver, "128.67");
    leave(driver);
}

static void enter_on_the_note_opens_it(void **state)
{
    struct driver *driver = open_small(state);

    keys(driver, "<Tab><Tab><End>");
    for (int i = 0; i < 6 && !driver_find(driver, ">+ note", NULL, NULL); i++)
        keys(driver, "<Up>");
    sees(driver, ">+ note");
    keys(driver, "<Enter>Soft at first.<Tab>");
    sees(driver, ">note  Soft at first.");
    leave(driver);
}

static void a_long_note_says_that_there_is_more(void **state)
{
    struct driver *driver = open_at(*state, &(struct look){.rows = 40, .cols = 120});

    keys(driver, "nMorning<Enter><Enter>olive<Enter>n");
    keys(driver, "one<Enter>two<Enter>three<Enter>four<Tab>");
    sees(driver, "note  one");
    sees(driver, "      three");
    sees(driver, "and more");
    does_not_see(driver, "four");
    leave(driver);
}

/* A note holds 4095 bytes; the letter is two bytes long. */
static void any_language_is_taken_up_to_the_limit(void **state)
{
    struct driver *driver = open_small(state);
    static char paste[8 * 1024];
    size_t n;

    n = (size_t)snprintf(paste, sizeof paste, "\033[200~");
    for (int i = 0; i < 3000; i++) {
        memcpy(paste + n, "\xc3\xa9", 2);
        n += 2;
    }
    memcpy(paste + n, "\033[201~", 6);
    keys(driver, "n\xe6\xbc\xa2 ");
    assert_true(driver_bytes(driver, paste, n + 6));
    sees(driver, "No more fits: at most 4095 bytes.");
    keys(driver, "<Tab>");
    sees(driver, "note  \xe6\xbc\xa2");
    sees(driver, "and more");
    leave(driver);
    driver = open_at(*state, &high);
    keys(driver, "<Enter>");
    sees(driver, "note  \xe6\xbc\xa2");
    leave(driver);
}

static void a_plain_terminal_does(void **state)
{
    static const struct look looks[] = {
        {.rows = 24, .cols = 80, .no_colour = true},
        {.rows = 24, .cols = 80, .term = "vt100", .locale = "C"},
    };

    for (size_t i = 0; i < sizeof looks / sizeof *looks; i++) {
        struct driver *driver = open_at(*state, &looks[i]);

        keys(driver, i == 0 ? "nMorning<Enter><Enter>olive<Enter>n" : "<Enter>n");
        keys(driver, "line<Enter><Tab>");
        sees(driver, i == 0 ? "note  line" : "note  lineline");
        leave(driver);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_note_is_written_shown_and_saved),
        TEST(undo_takes_a_note_back_as_one_step_and_redo_brings_it),
        TEST(what_was_typed_is_not_thrown_away_without_asking),
        TEST(a_note_left_as_it_was_is_no_change),
        TEST(enter_on_the_note_opens_it),
        TEST(a_long_note_says_that_there_is_more),
        TEST(any_language_is_taken_up_to_the_limit),
        TEST(a_plain_terminal_does),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
