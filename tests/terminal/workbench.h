/* workbench.h - the real program on records of its own, for tests that use it as a maker does. What fails prints the screen. */
#ifndef TESTS_WORKBENCH_H
#define TESTS_WORKBENCH_H

#include "terminal/driver.h"

enum { PATH_BYTES = 256 };

/* The state of a test: an empty folder, and where records will be in it. */
struct bench {
    char folder[PATH_BYTES], db[PATH_BYTES + 16];
};

int bench_setup(void **state);
int bench_teardown(void **state);

#define TEST(name) cmocka_unit_test_setup_teardown(name, bench_setup, bench_teardown)

/* How the program is started: size, terminal, with the demo's records or without. */
struct look {
    int rows, cols;
    const char *term, *locale;
    bool demo, no_colour;
};

static const struct look usual = {.rows = 24, .cols = 80};
static const struct look demo = {.rows = 24, .cols = 80, .demo = true};

struct driver *open_at(const struct bench *bench, const struct look *look);

/* Waits until the text is on the screen, or is not. */
void sees(struct driver *driver, const char *text);
void does_not_see(struct driver *driver, const char *text);

void keys(struct driver *driver, const char *typed);

/* To the demo's recipe of three colours. */
void open_quince(struct driver *driver);

/* Back to the top and out; the program ends well. */
void leave(struct driver *driver);

#endif
