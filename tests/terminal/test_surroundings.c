/* test_surroundings.c - the workbench on all kinds of terminals, through what windows and shells do to it, and with hostile names:
 * everything a maker needs stays in view, and nothing that was taken is lost. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>

#include <cmocka.h>

#include "terminal/workbench.h"

static const struct look looks[] = {
    {.rows = 24, .cols = 80, .demo = true},
    {.rows = 40, .cols = 120, .demo = true},
    {.rows = 50, .cols = 160, .demo = true},
    {.rows = 24, .cols = 80, .demo = true, .no_colour = true},
    {.rows = 24, .cols = 80, .demo = true, .term = "vt100"},
    {.rows = 24, .cols = 80, .demo = true, .term = "vt100", .locale = "C"},
    {.rows = 40, .cols = 120, .demo = true, .locale = "C"},
};
enum { LOOKS = sizeof looks / sizeof *looks };

/* What each of the screens has to show, whatever the terminal. */
static const struct {
    const char *keys, *texts[6];
} screens[] = {
    {"", {"Today", "A tour of two minutes", "> 2026-05-28  Blossoms and leaves", "Enter open", "? help"}},
    {"2", {"Recipes", "3, newest first", ">Blossoms and leaves", "Hedge Rose base", "/ filter"}},
    {"/quince<Enter><Enter>", {"> Quince Orchard base", "Lye  ", "|0 ..", "WIDE", "Portions", "1 caution"}},
    {"f", {"Findings", ">caution", "Mix 1.00 g into 9.00 g of oil", "Esc close"}},
    {"<Esc>?", {"A recipe", "Renames the recipe.", "Esc close"}},
    {"<Esc>z", {"By what is this recipe sized?", "mould, a box", "Esc leave as it is"}},
    {"<Esc>r", {"Revisions", "From revision 1 to the draft", "Nothing differs."}},
    {"<Esc>acanola", {"It would change", "iodine value", "Esc leave as it is"}},
    {"<Esc><Esc><Esc>S", {"Settings", "masses in", "Enter change"}},
};

static void every_screen_is_whole_on_every_terminal(void **state)
{
    for (size_t i = 0; i < LOOKS; i++) {
        struct driver *driver = open_at(*state, &looks[i]);

        for (size_t s = 0; s < sizeof screens / sizeof *screens; s++) {
            keys(driver, screens[s].keys);
            for (size_t t = 0; t < 6 && screens[s].texts[t]; t++)
                sees(driver, screens[s].texts[t]);
        }
        leave(driver);
    }
}

static bool is_ascii(struct driver *driver, const struct look *look)
{
    for (int row = 0; row < look->rows; row++)
        for (int col = 0; col < look->cols; col++)
            if (driver_cell(driver, row, col).text[0] & 0x80)
                return false;
    return true;
}

static bool is_coloured(struct driver *driver, const struct look *look)
{
    for (int row = 0; row < look->rows; row++)
        for (int col = 0; col < look->cols; col++)
            if (driver_cell(driver, row, col).coloured)
                return true;
    return false;
}

static void a_terminal_gets_only_the_characters_and_colours_it_has(void **state)
{
    for (size_t i = 0; i < LOOKS; i++) {
        const struct look *look = &looks[i];
        struct driver *driver = open_at(*state, look);
        bool plain = look->no_colour || (look->term && strcmp(look->term, "vt100") == 0);

        open_quince(driver);
        assert_true(is_coloured(driver, look) != plain);
        keys(driver, "z");
        assert_true(is_ascii(driver, look) == (look->locale != NULL));
        sees(driver, look->locale ? "+- Size -" : "\xe2\x94\x8c\xe2\x94\x80 Size \xe2\x94\x80");
        leave(driver);
    }
}

static void the_demo_is_of_today_by_the_makers_own_clock(void **state)
{
    /* 20:26 UTC on 28 May is 06:26 of the next day ten hours further east. */
    struct driver *driver = open_at(*state,
                                    &(struct look){.rows = 24, .cols = 80, .history = true, .zone = "TZ=EAST-10"});

    keys(driver, "4");
    sees(driver, "2026-05-29 26-026 Blossoms and leaves"); /* on the bench */
    sees(driver, "2026-05-04 26-023 Hedge Rose base");     /* 25 days before */
    leave(driver);
}

static void what_is_being_typed_outlives_a_window_that_is_too_small(void **state)
{
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    to_superfat(driver);
    keys(driver, "3");
    sees(driver, "121.49");
    driver_resize(driver, 5, 20);
    sees(driver, "too small");
    driver_resize(driver, 50, 160);
    sees(driver, "121.49");
    sees(driver, "[3 ");
    keys(driver, "<Enter>");
    sees(driver, "3.0 %");
    leave(driver);
}

static void a_number_is_pasted_into_a_field(void **state)
{
    const char paste[] = "\033[200~3\n\033[201~";
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    to_superfat(driver);
    keys(driver, "<Enter><C-u>");
    assert_true(driver_bytes(driver, paste, sizeof paste - 1));
    sees(driver, "121.49");
    keys(driver, "<Enter>");
    sees(driver, "3.0 %");
    keys(driver, "u");
    sees(driver, "119.52");
    leave(driver);
}

static void a_stop_in_the_middle_of_an_edit_gives_the_terminal_back_and_goes_on_after(void **state)
{
    struct driver *driver = open_at(*state, &demo);
    int status = 0;

    open_quince(driver);
    to_superfat(driver);
    keys(driver, "3");
    driver_signal(driver, SIGTSTP);
    assert_int_equal(waitpid(driver_pid(driver), &status, WUNTRACED), driver_pid(driver));
    assert_true(WIFSTOPPED(status));
    assert_true(driver_state(driver).canonical && driver_state(driver).echo);
    assert_false(driver_state(driver).alternate);
    driver_signal(driver, SIGCONT);
    sees(driver, "121.49");
    assert_true(driver_state(driver).alternate);
    keys(driver, "<Enter>");
    sees(driver, "3.0 %");
    leave(driver);
}

/* The shell's way of saying which signal ended a program. */
static void a_program_that_is_told_to_end_has_saved_and_gives_the_terminal_back(void **state)
{
    static const int signals[] = {SIGTERM, SIGHUP};
    static const char *const typed[] = {"3<Enter>", "7<Enter>"}, *const kept[] = {"3.0 %", "7.0 %"};

    for (int i = 0; i < 2; i++) {
        struct driver *driver = open_at(*state, &demo);
        int status = -1;

        open_quince(driver);
        to_superfat(driver);
        keys(driver, typed[i]);
        driver_signal(driver, signals[i]);
        assert_true(driver_ended(driver, 5000, &status));
        assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 128 + signals[i]);
        assert_true(driver_state(driver).canonical && driver_state(driver).echo && driver_state(driver).signals);
        assert_false(driver_state(driver).alternate || driver_state(driver).mouse || driver_state(driver).paste);
        assert_true(driver_state(driver).cursor_shown);
        driver_close(driver);
        driver = open_at(*state, &demo);
        open_quince(driver);
        sees(driver, kept[i]);
        leave(driver);
    }
}

static void nothing_is_lost_when_it_is_killed_again_and_again(void **state)
{
    static const char *const typed[] = {"1<Enter>", "2<Enter>", "3<Enter>", "4<Enter>", "6<Enter>"};
    static const char *const kept[] = {"1.0 %", "2.0 %", "3.0 %", "4.0 %", "6.0 %"};
    struct driver *driver = open_at(*state, &demo);

    for (size_t i = 0; i < sizeof typed / sizeof *typed; i++) {
        open_quince(driver);
        to_superfat(driver);
        keys(driver, typed[i]);
        driver_signal(driver, SIGKILL);
        assert_true(driver_ended(driver, 5000, NULL));
        driver_close(driver);
        driver = open_at(*state, &demo);
        open_quince(driver);
        sees(driver, kept[i]);
        keys(driver, "<Esc>1");
        sees(driver, "Recipes changed last");
    }
    leave(driver);
}

static void two_windows_may_change_the_same_number_and_the_last_one_counts(void **state)
{
    struct driver *one = open_at(*state, &demo), *two;

    open_quince(one);
    two = open_at(*state, &demo);
    open_quince(two);
    to_superfat(one);
    to_superfat(two);
    keys(one, "3<Enter>");
    sees(two, "3.0 %");
    keys(two, "7<Enter>");
    sees(one, "7.0 %");
    /* To undo here would take back what the other window did. */
    keys(one, "u");
    sees(one, "nothing to undo");
    sees(one, "7.0 %");
    leave(two);
    leave(one);
}

/* It must not set the title, clear the screen, turn the row round or begin a control sequence of one byte. */
static void a_hostile_name_is_only_text(void **state)
{
    static const char paste[] = "\033[200~Evil \033]0;title\007\033[2J\033[31m\xe2\x80\xae\xc2\x9b\x31J end\033[201~";
    struct driver *driver = open_at(*state, &demo);

    open_quince(driver);
    keys(driver, "N<C-u>");
    assert_true(driver_bytes(driver, paste, sizeof paste - 1));
    keys(driver, "<Enter>");
    sees(driver, "Recipes > Evil ");
    sees(driver, "119.52");
    keys(driver, "<Esc><Esc>");
    assert_false(driver_sent_raw(driver, "\033]0;"));
    assert_false(driver_sent_raw(driver, "\xe2\x80\xae"));
    assert_false(driver_sent_raw(driver, "\xc2\x9b"));
    sees(driver, "Evil ");
    leave(driver);
}

/* Multiplexers send these, whatever the keyboard in front of them does: the terminfo of screen and tmux, khome and kend. */
static void home_and_end_are_known_as_multiplexers_send_them(void **state)
{
    static const char *const terms[] = {"screen", "xterm-256color", "vt100"};

    for (size_t i = 0; i < sizeof terms / sizeof *terms; i++) {
        struct look look = {.rows = 40, .cols = 120, .history = true, .term = terms[i]};
        struct driver *driver = open_at(*state, &look);

        keys(driver, "4");
        sees(driver, "26-027");
        driver_bytes(driver, "\033[4~", 4);
        sees(driver, "24-001");
        driver_bytes(driver, "\033[1~", 4);
        does_not_see(driver, "24-001");
        leave(driver);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(every_screen_is_whole_on_every_terminal),
        TEST(a_terminal_gets_only_the_characters_and_colours_it_has),
        TEST(the_demo_is_of_today_by_the_makers_own_clock),
        TEST(what_is_being_typed_outlives_a_window_that_is_too_small),
        TEST(a_number_is_pasted_into_a_field),
        TEST(a_stop_in_the_middle_of_an_edit_gives_the_terminal_back_and_goes_on_after),
        TEST(a_program_that_is_told_to_end_has_saved_and_gives_the_terminal_back),
        TEST(nothing_is_lost_when_it_is_killed_again_and_again),
        TEST(two_windows_may_change_the_same_number_and_the_last_one_counts),
        TEST(a_hostile_name_is_only_text),
        TEST(home_and_end_are_known_as_multiplexers_send_them),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
