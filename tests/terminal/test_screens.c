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
    const char *name, *keys, *text; /* the text must come */
    bool empty;                     /* records without the demo */
};

#define QUINCE "2/quince<Enter><Enter>"

static const struct visit visits[] = {
    {"today", "", "A tour of two minutes", false},
    {"today-empty", "", "Nothing is recorded yet", true},
    {"today-new-recipe", "n", "What is it called?", false},
    {"recipes", "2", "3, newest first", false},
    {"recipes-filtered", "2/quin", "1, newest first", false},
    {"recipes-empty", "2", "No recipe yet", true},
    {"recipe-new", "nMorning<Enter>", "Begin with an oil", true},
    {"recipe-oils", QUINCE, "Recipes > Quince Orchard base", false},
    {"recipe-lye", QUINCE "<Tab>", ">Lye", false},
    {"recipe-portions", QUINCE "<Tab><Tab>", ">cream", false},
    {"recipe-pieces", "2/bloss<Enter><Enter><Tab><Tab>", ">petals", false},
    {"recipe-typing", QUINCE "<Right>4", "[4", false},
    {"recipe-findings", QUINCE "f", "take or go there", false},
    {"recipe-size", QUINCE "z", "By what is this recipe sized?", false},
    {"recipe-picker", QUINCE "acanola", "It would change", false},
    {"recipe-revisions", QUINCE "r", "From revision 1 to the draft", false},
    {"recipe-help", QUINCE "?", "Sizes the recipe by oils, batter, mould or pieces.", false},
    {"settings", "S", "masses in", false},
    {"help", "?", "Lists all recipes.", false},
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
        stay->look.demo = !stay->visit->empty;
        snprintf(stay->name, sizeof stay->name, "%s.%dx%d", stay->visit->name, stay->look.cols, stay->look.rows);
        tests[i] = (struct CMUnitTest){stay->name, is_reached, begin, end, stay};
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
