/* workbench.c - records in a folder of their own, and the steps that every test of the workbench begins and ends with. */
#define _GNU_SOURCE
#include "terminal/workbench.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

static const char *program(void)
{
    const char *path = getenv("LYEWAY");

    return path ? path : "build/debug/lyeway";
}

int bench_setup(void **state)
{
    struct bench *bench = calloc(1, sizeof *bench);

    if (!bench)
        return -1;
    strcpy(bench->folder, "/tmp/lyeway-terminal-XXXXXX");
    if (!mkdtemp(bench->folder))
        return -1;
    snprintf(bench->db, sizeof bench->db, "%s/bench.db", bench->folder);
    *state = bench;
    return 0;
}

int bench_teardown(void **state)
{
    struct bench *bench = *state;
    static const char *const parts[] = {"", "-wal", "-shm"};
    char path[PATH_BYTES + 32];

    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        snprintf(path, sizeof path, "%s%s", bench->db, parts[i]);
        unlink(path);
    }
    rmdir(bench->folder);
    free(bench);
    return 0;
}

struct driver *open_at(const struct bench *bench, const struct look *look)
{
    static const char *const plain[] = {"LYEWAY_NOW=1780000000", NULL};
    static const char *const colourless[] = {"LYEWAY_NOW=1780000000", "NO_COLOR=1", NULL};
    const char *const argv[] = {program(), "--db", bench->db, look->demo ? "--demo" : NULL, NULL};
    struct driver *driver = driver_open(argv, &(struct driver_options){.rows = look->rows,
                                                                       .cols = look->cols,
                                                                       .term = look->term,
                                                                       .locale = look->locale,
                                                                       .env = look->no_colour ? colourless : plain});

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
