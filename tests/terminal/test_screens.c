/* test_screens.c - every screen of the demo is reached by its keys, at both sizes. Where LYEWAY_SCREENS names a folder, as `make
 * screens` has it, each is left there as plain text, to look through the whole program in a minute. A new screen is a row. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "terminal/workbench.h"

enum { NAME_BYTES = 64, PATH_BYTES = 512 };

/* Each begins at Today in records of its own. */
struct visit {
    const char *name, *keys, *text;           /* the text must come */
    enum { RECIPES, EMPTY, HISTORY } records; /* the demo's recipes alone, none, or the whole demo */
};

#define QUINCE  "2/quince<Enter><Enter>"
#define COMPARE "4/blossoms<Enter><Down><Down>  c"

static const struct visit visits[] = {
    {"today", "", "A tour of two minutes", RECIPES},
    {"today-empty", "", "Nothing is recorded yet", EMPTY},
    {"today-new-recipe", "n", "What is it called?", RECIPES},
    {"recipes", "2", "3, newest first", RECIPES},
    {"recipes-filtered", "2/quin", "1, newest first", RECIPES},
    {"recipes-empty", "2", "No recipe yet", EMPTY},
    {"recipe-new", "nMorning<Enter>", "Begin with an oil", EMPTY},
    {"recipe-oils", QUINCE, "Recipes > Quince Orchard base", RECIPES},
    {"recipe-lye", QUINCE "<Tab>", ">Lye", RECIPES},
    {"recipe-portions", QUINCE "<Tab><Tab>", ">cream", RECIPES},
    {"recipe-pieces", "2/bloss<Enter><Enter><Tab><Tab>", ">petals", RECIPES},
    {"recipe-typing", QUINCE "<Right>4", "[4", RECIPES},
    {"recipe-findings", QUINCE "f", "take or go there", RECIPES},
    {"recipe-size", QUINCE "z", "By what is this recipe sized?", RECIPES},
    {"recipe-picker", QUINCE "acanola", "It would change", RECIPES},
    {"recipe-revisions", QUINCE "r", "From revision 1 to the draft", RECIPES},
    {"recipe-help", QUINCE "?", "Sizes the recipe by oils, batter, mould or pieces.", RECIPES},
    {"settings", "S", "masses in", RECIPES},
    {"help", "?", "Lists all recipes.", RECIPES},
    {"today-demo", "", "say what becomes of it", HISTORY},
    {"bench-demo", "<Enter>", "left in the bag about", HISTORY},
    {"batches", "4", "126, newest first", HISTORY},
    {"batches-empty", "4", "No batch yet", EMPTY},
    {"batches-filtered", "4/orchard 2026", "of 126, newest first", HISTORY},
    {"batches-nothing", "4/nettle<Enter>", "No batch has all of \"nettle\"", HISTORY},
    {"batches-finding", "4f", "By what?", HISTORY},
    {"batches-help", "4?", "Marks the batch, up to four", HISTORY},
    {"batch", "4/blossoms<Enter><Down><Down><Enter>", "superfat as weighed", HISTORY},
    {"batch-cure", "4/orchard<Enter><Down><Down><Down><Enter><Tab><Tab><Tab>", "% of the mass at the cut", HISTORY},
    {"batch-record", "4/orchard<Enter><Down><Down><Down><Enter><End>", "tongue test: as it should be", HISTORY},
    {"batch-test", "4/orchard<Enter><Down><Down><Enter>t", "tongue test: nothing to feel", HISTORY},
    {"compare", COMPARE, "rows that differ", HISTORY},
    {"compare-figure", COMPARE "f", "Why does which figure differ?", HISTORY},
    {"plot", "4/blossoms<Enter>p", "temperature combined, C", HISTORY},
    {"plot-text", "4/blossoms<Enter>pt", "at least ", HISTORY},
    {"learned", "4L", "quince blossom, petals: mass a piece", HISTORY},
};

static const struct look looks[] = {{.rows = 24, .cols = 80}, {.rows = 40, .cols = 120}};

enum { VISITS = sizeof visits / sizeof *visits, LOOKS = sizeof looks / sizeof *looks };

struct stay {
    const struct visit *visit;
    struct look look;
    char name[NAME_BYTES];
    struct scratch *scratch;
};

static int begin(void **state)
{
    return scratch_setup((void **)&((struct stay *)*state)->scratch);
}

static int end(void **state)
{
    return scratch_teardown((void **)&((struct stay *)*state)->scratch);
}

static void keep(struct driver *driver, const char *name)
{
    const char *folder = getenv("LYEWAY_SCREENS");
    char path[PATH_BYTES];
    FILE *file;

    if (!folder || !folder[0])
        return;
    snprintf(path, sizeof path, "%s/%s.txt", folder, name);
    file = fopen(path, "w");
    if (!file)
        fail_msg("cannot write %s", path);
    driver_print(driver, file);
    assert_int_equal(fclose(file), 0);
}

static void is_reached(void **state)
{
    const struct stay *stay = *state;
    struct driver *driver = open_at(stay->scratch, &stay->look);

    keys(driver, stay->visit->keys);
    sees(driver, stay->visit->text);
    keep(driver, stay->name);
    driver_close(driver);
}

int main(void)
{
    static struct stay stays[VISITS * LOOKS];
    static struct CMUnitTest tests[VISITS * LOOKS];

    for (size_t i = 0; i < VISITS * LOOKS; i++) {
        struct stay *stay = &stays[i];

        stay->visit = &visits[i % VISITS];
        stay->look = looks[i / VISITS];
        stay->look.demo = stay->visit->records == RECIPES;
        stay->look.history = stay->visit->records == HISTORY;
        snprintf(stay->name, sizeof stay->name, "%s.%dx%d", stay->visit->name, stay->look.cols, stay->look.rows);
        tests[i] = (struct CMUnitTest){stay->name, is_reached, begin, end, stay};
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
