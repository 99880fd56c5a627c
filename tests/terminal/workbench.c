/* workbench.c - see the header. */
#include "terminal/workbench.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include <cmocka.h>

enum { ROW_BYTES = 1024 };

static const char *program(void)
{
    const char *path = getenv("LYEWAY");

    return path ? path : "build/debug/lyeway";
}

static const char *clock_of(const struct look *look)
{
    return look->now ? look->now : "LYEWAY_NOW=1780000000";
}

/* Records with the demo's recipes alone, so that a test begins on an empty bench. */
static void bring_in_recipes(const struct scratch *scratch, const struct look *look)
{
    char command[ROW_BYTES];

    if (access(scratch->path, F_OK) == 0)
        return; /* it was opened before */
    snprintf(command, sizeof command, "%s %s --db %s import sample-data/recipes.json > %s.log", clock_of(look),
             program(), scratch->path, scratch->path);
    assert_int_equal(system(command), 0);
}

struct driver *open_at(const struct scratch *scratch, const struct look *look)
{
    const char *const env[] = {clock_of(look), look->no_colour ? "NO_COLOR=1" : "NO_COLOR=", look->zone, NULL};
    const char *const argv[] = {program(), "--db", scratch->path, look->demo || look->history ? "--demo" : NULL, NULL};
    if (look->demo)
        bring_in_recipes(scratch, look);

    struct driver *driver = driver_open(
        argv, &(struct driver_options){
                  .rows = look->rows, .cols = look->cols, .term = look->term, .locale = look->locale, .env = env});

    assert_non_null(driver);
    if (!driver_wait(driver, look->rows < 24 || look->cols < 80 ? "too small" : "? help", 5000)) {
        driver_print(driver, stderr);
        fail_msg("the first frame did not come");
    }
    driver_settle(driver, 2000);
    return driver;
}

void sees(struct driver *driver, const char *text)
{
    if (driver_wait(driver, text, 2000))
        return;
    driver_print(driver, stderr);
    fail_msg("not on the screen: %s", text);
}

void does_not_see(struct driver *driver, const char *text)
{
    if (driver_wait_gone(driver, text, 2000))
        return;
    driver_print(driver, stderr);
    fail_msg("on the screen: %s", text);
}

void keys(struct driver *driver, const char *typed)
{
    if (driver_keys(driver, typed))
        return;
    driver_print(driver, stderr);
    fail_msg("did not take: %s", typed);
}

void leave(struct driver *driver)
{
    int status = -1;

    for (int i = 0; i < 4 && !driver_ended(driver, 0, NULL); i++)
        driver_keys(driver, i < 3 ? "<Esc>" : "q");
    driver_keys(driver, "q");
    assert_true(driver_ended(driver, 5000, &status));
    assert_int_equal(status, 0);
    assert_false(driver_state(driver).alternate);
    driver_close(driver);
}

void open_quince(struct driver *driver)
{
    keys(driver, "2/quince<Enter><Enter>");
    sees(driver, "Recipes > Quince Orchard base");
}

/* To the superfat: Lye is the second region, four numbers down from its purpose. */
void to_superfat(struct driver *driver)
{
    keys(driver, "<Tab>");
    for (int i = 0; i < 12; i++) {
        char line[ROW_BYTES];
        int row;

        if (driver_find(driver, ">superfat", &row, NULL))
            return;
        keys(driver, "<Down>");
        driver_row(driver, 0, line, sizeof line);
    }
    driver_print(driver, stderr);
    fail_msg("the superfat was not reached");
}
