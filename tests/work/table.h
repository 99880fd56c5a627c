/* table.h - a recipe on a maker's table: planned, and changed through its cells. */
#ifndef WORK_TESTS_TABLE_H
#define WORK_TESTS_TABLE_H

#include "work/cell.h"
#include "work/editor.h"
#include "work/version.h"

/* Four oils by shares (olive 45 %, coconut 25 %, palm-high-oleic 22 %, castor 8 %) of 1000 g, and one or more of every list:
 * the base of the demo scenario, with a liquid, an additive, a fragrance, and portions base (rest), moss (25 %, chromium oxide
 * green, 4 g per kg of oils) and petals (pieces, 40 of 2.6 g). Superfat 5 %, strength 33 %, water of 20 degrees. */
void table_recipe(struct recipe *recipe);

struct table {
    struct shelf shelf; /* empty */
    struct settings settings;
    struct recipe recipe;
    struct version *version; /* of the recipe */
    enum follow follow;
    int makes_up;
};

/* The table with that recipe. As cmocka wants them: *state becomes a struct table. */
int table_set_up(void **state);
int table_tear_down(void **state);

/* Plans the recipe after a test has changed it. */
void table_plan(struct table *table);
const struct plan *table_plan_of(const struct table *table);

/* The text of a cell. */
void table_shows(struct table *table, struct cell cell, const char *text);

/* Types a text into a cell and takes over what it changes; the test fails where it is refused. Returns how many changes. */
int table_type(struct table *table, struct cell cell, const char *text);

/* Types a text that is to be refused with a sentence that has `part`; nothing has changed. */
void table_refuses(struct table *table, struct cell cell, const char *text, const char *part);

#endif
