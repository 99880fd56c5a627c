/* workbench.h - the real program on a terminal, as tests of whole screens begin and end with it: the clock is fixed, records are in
 * a folder that goes with the test. Where something does not come, the screen is printed and the test fails.
 */
#ifndef TESTS_WORKBENCH_H
#define TESTS_WORKBENCH_H

#include <stdbool.h>

#include "support/scratch.h"
#include "terminal/driver.h"

struct look {
    int rows, cols;
    const char *term, *locale; /* NULL: xterm-256color, C.UTF-8 */
    const char *zone;          /* "TZ=...", NULL: UTC */
    const char *now;           /* "LYEWAY_NOW=...", NULL: 1780000000; with nothing after the sign the clock runs */
    bool demo;                 /* the demo's recipes, and nothing made of them yet */
    bool history;              /* the demo as it is: with its two years of batches */
    bool no_colour;
};

static const struct look usual = {.rows = 24, .cols = 80};
static const struct look demo = {.rows = 24, .cols = 80, .demo = true};

static const struct look history = {.rows = 24, .cols = 80, .history = true};

/* A test whose state is a struct scratch. */
#define TEST(name) cmocka_unit_test_setup_teardown(name, scratch_setup, scratch_teardown)

/* Starts it on the records of the scratch folder and waits for the first frame. leave() ends it. */
struct driver *open_at(const struct scratch *scratch, const struct look *look);

void sees(struct driver *driver, const char *text);
void does_not_see(struct driver *driver, const char *text);
void keys(struct driver *driver, const char *typed);

/* Goes out by the keys; the exit status is 0 and the terminal as it was. */
void leave(struct driver *driver);

/* From a top-level screen of the demo to the recipe of the Quince Orchard, with the cursor in its oils. */
void open_quince(struct driver *driver);

/* From the oils of a recipe to its superfat. */
void to_superfat(struct driver *driver);

#endif
