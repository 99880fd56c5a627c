/* test_kit.c - the terminal toolkit as a person meets it, through the probe program. Bytes are exact, so they are demanded;
 * times are not. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <signal.h>
#include <sys/wait.h>

#include <cmocka.h>

#include "terminal/driver.h"

static struct driver *start(int rows, int cols, const char *term, const char *locale, const char *const *env)
{
    const char *path = getenv("LYEWAY_PROBE");
    const char *const argv[] = {path ? path : "build/debug/tests/terminal/probe", NULL};
    struct driver *driver = driver_open(
        argv, &(struct driver_options){.rows = rows, .cols = cols, .term = term, .locale = locale, .env = env});

    assert_non_null(driver);
    if (!driver_wait(driver, rows >= 24 && cols >= 80 ? "? help" : "too small", 5000)) {
        driver_print(driver, stderr);
        fail_msg("the first frame did not come");
    }
    driver_settle(driver, 1000);
    return driver;
}

static struct driver *usual(void)
{
    return start(24, 80, NULL, NULL, NULL);
}

static void must_see(struct driver *driver, const char *text)
{
    if (driver_wait(driver, text, 2000))
        return;
    driver_print(driver, stderr);
    fail_msg("not on the screen: %s", text);
}

static void must_not_see(struct driver *driver, const char *text)
{
    if (driver_wait_gone(driver, text, 2000))
        return;
    driver_print(driver, stderr);
    fail_msg("still on the screen: %s", text);
}

static void a_wide_and_a_marked_name_do_not_shift_the_next_column(void **state)
{
    struct driver *driver = usual();
    int col;

    (void)state;
    for (int row = 1; row < 5; row++) {
        char line[256];

        driver_row(driver, row, line, sizeof line);
        assert_non_null(strstr(line, "next"));
        for (col = 0; col < 80 && strcmp(driver_cell(driver, row, col).text, "n") != 0; col++)
            if (col == 22)
                break;
        assert_string_equal(driver_cell(driver, row, 22).text, "n");
    }
    driver_close(driver);
}

static void control_characters_of_a_name_never_reach_the_terminal(void **state)
{
    struct driver *driver = usual();

    (void)state;
    must_see(driver, "A?[31mB???C");
    assert_false(driver_sent_raw(driver, "\033[31mB"));
    driver_close(driver);
}

static void esc_closes_an_overlay_without_waiting_for_more(void **state)
{
    struct driver *driver = usual();

    (void)state;
    assert_true(driver_keys(driver, "r"));
    must_see(driver, "What is it to be called?");
    assert_true(driver_keys(driver, "<Esc>"));
    must_not_see(driver, "What is it to be called?");
    must_see(driver, "row number 9");
    driver_close(driver);
}

static void help_lists_every_action_and_only_those(void **state)
{
    struct driver *driver = usual();

    (void)state;
    assert_true(driver_keys(driver, "?"));
    must_see(driver, "Renames the row.");
    must_see(driver, "Finds a row by its name.");
    must_see(driver, "Ends the program by a fault.");
    assert_true(driver_keys(driver, "<Esc>"));
    must_not_see(driver, "Renames the row.");
    driver_close(driver);
}

static void a_key_that_means_nothing_says_so(void **state)
{
    struct driver *driver = usual();

    (void)state;
    assert_true(driver_keys(driver, "z"));
    must_see(driver, "That key does nothing here.");
    driver_close(driver);
}

static void the_picker_filters_as_one_types_and_takes_what_is_marked(void **state)
{
    struct driver *driver = usual();

    (void)state;
    assert_true(driver_keys(driver, "/4"));
    must_see(driver, "row number 14");
    must_not_see(driver, "row number 15");
    assert_true(driver_keys(driver, "4<Enter>"));
    must_see(driver, "Picked row number 44.");
    must_see(driver, "selected 44");
    driver_close(driver);
}

static void a_field_takes_the_question_mark_and_f1_is_its_help(void **state)
{
    static const char *const fields[] = {"/", "r<C-u>"}; /* of a picker, and alone */
    struct driver *driver = usual();

    (void)state;
    for (size_t i = 0; i < 2; i++) {
        assert_true(driver_keys(driver, fields[i]));
        must_see(driver, "F1 help");
        must_not_see(driver, "? help");
        assert_true(driver_keys(driver, "?"));
        must_see(driver, "[? ");
        assert_true(driver_keys(driver, "<F1>"));
        must_see(driver, i == 0 ? "Takes the one that is marked." : "Takes what is in the field.");
        assert_true(driver_keys(driver, "<Esc>"));
        must_see(driver, "[? ");
        assert_true(driver_keys(driver, "<Esc>"));
        must_see(driver, "? help");
        must_not_see(driver, "F1 help");
    }
    driver_close(driver);
}

static void a_paste_is_text_in_a_field_and_nothing_elsewhere(void **state)
{
    struct driver *driver = usual();
    const char paste[] = "\033[200~qXq\rX\033[201~";

    (void)state;
    assert_true(driver_bytes(driver, paste, sizeof paste - 1));
    must_see(driver, "A paste goes into a field");
    must_not_see(driver, "Leave the probe?");
    assert_true(driver_keys(driver, "r<C-u>"));
    assert_true(driver_bytes(driver, paste, sizeof paste - 1));
    must_see(driver, "[qXq ");
    driver_close(driver);
}

static void backspace_takes_a_letter_with_its_marks(void **state)
{
    struct driver *driver = usual();

    (void)state;
    assert_true(driver_keys(driver, "r<C-u>ae\xcc\x81z<BS><BS>"));
    must_see(driver, "[a ");
    driver_close(driver);
}

static void a_field_refuses_nothing_and_says_why(void **state)
{
    struct driver *driver = usual();

    (void)state;
    assert_true(driver_keys(driver, "r<C-u><Enter>"));
    must_see(driver, "A name needs at least one character.");
    assert_true(driver_keys(driver, "new<Enter>"));
    must_not_see(driver, "What is it to be called?");
    must_see(driver, ">new");
    driver_close(driver);
}

/* Budget of bytes: a terminal behind a slow line must keep up with a typist. */
static void typing_a_character_sends_at_most_6_bytes(void **state)
{
    struct driver *driver = usual();
    uint64_t before;

    (void)state;
    assert_true(driver_keys(driver, "r<C-u>abc"));
    before = driver_sent(driver);
    assert_true(driver_keys(driver, "d"));
    assert_in_range(driver_sent(driver) - before, 1, 6);
    driver_close(driver);
}

static void moving_the_selection_sends_at_most_90_bytes(void **state)
{
    struct driver *driver = usual();
    uint64_t before;

    (void)state;
    assert_true(driver_keys(driver, "<Down><Down><Down><Down>"));
    before = driver_sent(driver);
    assert_true(driver_keys(driver, "<Down>"));
    assert_in_range(driver_sent(driver) - before, 1, 90);
    driver_close(driver);
}

static void an_idle_program_sends_nothing(void **state)
{
    struct driver *driver = usual();
    uint64_t before = driver_sent(driver);

    (void)state;
    assert_false(driver_wait(driver, "this never comes", 700));
    assert_int_equal(driver_sent(driver) - before, 0);
    driver_close(driver);
}

static void a_running_timer_sends_only_its_digits(void **state)
{
    struct driver *driver = usual();
    uint64_t before;

    (void)state;
    assert_true(driver_keys(driver, "t"));
    must_see(driver, "timer 1");
    before = driver_sent(driver);
    assert_true(driver_wait(driver, "timer 2", 3000));
    assert_in_range(driver_sent(driver) - before, 1, 40);
    driver_close(driver);
}

static void shrinking_to_nothing_and_growing_back_restores_the_screen(void **state)
{
    static const int sizes[][2] = {{5, 20}, {1, 1}, {50, 200}, {3, 200}, {24, 80}};
    struct driver *driver = usual();

    (void)state;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        driver_resize(driver, sizes[i][0], sizes[i][1]);
        driver_settle(driver, 2000);
    }
    assert_true(driver_wait(driver, "? help", 2000));
    must_see(driver, "selected 0");
    must_see(driver, "row number 16");
    driver_close(driver);
}

static void the_probe_runs_without_colour_and_on_a_vt100(void **state)
{
    static const char *const no_colour[] = {"NO_COLOR=1", NULL};
    struct driver *driver = start(24, 80, NULL, NULL, no_colour);

    (void)state;
    assert_false(driver_cell(driver, 19, 10).coloured);
    driver_close(driver);
    driver = start(24, 80, "vt100", "C", NULL);
    assert_true(driver_keys(driver, "r"));
    must_see(driver, "+- Rename ---");
    assert_false(driver_sent_raw(driver, "\033[?2004h"));
    driver_close(driver);
}

static void must_be_restored(struct driver *driver)
{
    struct driver_state state = driver_state(driver);

    assert_false(state.alternate);
    assert_true(state.cursor_shown);
    assert_false(state.mouse);
    assert_false(state.paste);
    assert_true(state.canonical);
    assert_true(state.echo);
    assert_true(state.signals);
}

static void leaving_gives_the_terminal_back(void **state)
{
    struct driver *driver = usual();
    int status;

    (void)state;
    assert_true(driver_state(driver).alternate);
    assert_true(driver_keys(driver, "q"));
    driver_keys(driver, "y");
    assert_true(driver_ended(driver, 3000, &status));
    assert_int_equal(status, 0);
    must_be_restored(driver);
    driver_close(driver);
}

static void every_signal_that_ends_it_gives_the_terminal_back(void **state)
{
    static const int numbers[] = {SIGINT, SIGTERM, SIGHUP, SIGSEGV, SIGABRT};

    (void)state;
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        struct driver *driver = usual();

        driver_signal(driver, numbers[i]);
        assert_true(driver_ended(driver, 5000, NULL));
        must_be_restored(driver);
        driver_close(driver);
    }
}

static void a_fault_of_its_own_gives_the_terminal_back_and_tells_the_shell(void **state)
{
    struct driver *driver = usual();
    int status;

    (void)state;
    driver_keys(driver, "X");
    assert_true(driver_ended(driver, 5000, &status));
    assert_true(WIFSIGNALED(status) || WEXITSTATUS(status) != 0);
    must_be_restored(driver);
    driver_close(driver);
}

static void a_stop_gives_the_terminal_back_and_a_continue_takes_it_again(void **state)
{
    struct driver *driver = usual();

    (void)state;
    driver_signal(driver, SIGTSTP);
    for (int i = 0; i < 200 && driver_state(driver).alternate; i++)
        driver_wait(driver, "this never comes", 10);
    assert_false(driver_state(driver).alternate);
    assert_true(driver_state(driver).canonical);
    driver_signal(driver, SIGCONT);
    for (int i = 0; i < 200 && !driver_state(driver).alternate; i++)
        driver_wait(driver, "this never comes", 10);
    assert_true(driver_wait(driver, "? help", 3000));
    assert_true(driver_state(driver).alternate);
    assert_true(driver_keys(driver, "<Down>"));
    must_see(driver, "selected 1");
    driver_close(driver);
}

static void a_burst_of_keys_ends_where_single_keys_would(void **state)
{
    struct driver *driver = usual();
    char burst[30 * 3 + 1] = "";

    (void)state;
    for (int i = 0; i < 30; i++)
        strcat(burst, "\033OB");
    assert_true(driver_bytes(driver, burst, strlen(burst)));
    must_see(driver, "selected 30");
    driver_close(driver);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_wide_and_a_marked_name_do_not_shift_the_next_column),
        cmocka_unit_test(control_characters_of_a_name_never_reach_the_terminal),
        cmocka_unit_test(esc_closes_an_overlay_without_waiting_for_more),
        cmocka_unit_test(help_lists_every_action_and_only_those),
        cmocka_unit_test(a_key_that_means_nothing_says_so),
        cmocka_unit_test(the_picker_filters_as_one_types_and_takes_what_is_marked),
        cmocka_unit_test(a_field_takes_the_question_mark_and_f1_is_its_help),
        cmocka_unit_test(a_paste_is_text_in_a_field_and_nothing_elsewhere),
        cmocka_unit_test(backspace_takes_a_letter_with_its_marks),
        cmocka_unit_test(a_field_refuses_nothing_and_says_why),
        cmocka_unit_test(typing_a_character_sends_at_most_6_bytes),
        cmocka_unit_test(moving_the_selection_sends_at_most_90_bytes),
        cmocka_unit_test(an_idle_program_sends_nothing),
        cmocka_unit_test(a_running_timer_sends_only_its_digits),
        cmocka_unit_test(shrinking_to_nothing_and_growing_back_restores_the_screen),
        cmocka_unit_test(the_probe_runs_without_colour_and_on_a_vt100),
        cmocka_unit_test(leaving_gives_the_terminal_back),
        cmocka_unit_test(every_signal_that_ends_it_gives_the_terminal_back),
        cmocka_unit_test(a_fault_of_its_own_gives_the_terminal_back_and_tells_the_shell),
        cmocka_unit_test(a_stop_gives_the_terminal_back_and_a_continue_takes_it_again),
        cmocka_unit_test(a_burst_of_keys_ends_where_single_keys_would),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
