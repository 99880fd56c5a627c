/* table.c - see the header. */
#include "work/table.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"

static void name(char to[LW_NAME_BYTES], const char *from)
{
    text_copy(to, LW_NAME_BYTES, from);
}

static void put_oils(struct recipe *recipe)
{
    static const struct {
        const char *name;
        double share;
    } oils[] = {{"olive", 0.45}, {"coconut", 0.25}, {"palm-high-oleic", 0.22}, {"castor", 0.08}};

    recipe->oils = 4;
    for (int i = 0; i < 4; i++) {
        recipe->oil[i].id = (uint32_t)i + 1;
        recipe->oil[i].amount = oils[i].share;
        name(recipe->oil[i].name, oils[i].name);
    }
}

static void put_portions(struct recipe *recipe)
{
    static const char *const names[] = {"base", "moss", "petals"};
    struct recipe_colourant *green = &recipe->portion[1].colourant[0];

    recipe->portions = 3;
    for (int i = 0; i < 3; i++) {
        recipe->portion[i].id = (uint32_t)i + 1;
        name(recipe->portion[i].name, names[i]);
    }
    recipe->portion[0].demand = DEMAND_REST;
    recipe->portion[1].demand = DEMAND_SHARE;
    recipe->portion[1].amount = 0.25;
    recipe->portion[1].colourants = 1;
    green->id = 1;
    green->by = COLOUR_PER_KG_OILS;
    green->value = 4;
    name(green->name, "chromium-oxide-green");
    recipe->portion[2].demand = DEMAND_PIECES;
    recipe->portion[2].has_pieces = true;
    recipe->portion[2].pieces.count = 40;
    recipe->portion[2].pieces.mass_g = 2.6;
    name(recipe->portion[2].pieces.kind, "quince petals");
}

void table_recipe(struct recipe *recipe)
{
    memset(recipe, 0, sizeof *recipe);
    name(recipe->name, "Quince Orchard");
    recipe->size.by = SIZE_OILS;
    recipe->size.grams = 1000;
    recipe->superfat = 0.05;
    recipe->water.by = WATER_STRENGTH;
    recipe->water.value = 0.33;
    recipe->water.temp_c = 20;
    put_oils(recipe);
    recipe->water.liquids = recipe->additives = recipe->fragrances = 1;
    recipe->water.liquid[0] = (struct recipe_liquid){.id = 1, .share_of_water = 0.5};
    name(recipe->water.liquid[0].name, "milk-goat");
    recipe->additive[0] = (struct recipe_additive){.id = 1, .by = ADDITIVE_OF_OILS, .value = 0.02};
    name(recipe->additive[0].name, "sodium-lactate-60");
    recipe->fragrance[0] = (struct recipe_fragrance){.id = 1, .by = FRAGRANCE_OF_OILS, .value = 0.03};
    name(recipe->fragrance[0].name, "lavender");
    put_portions(recipe);
}

int table_set_up(void **state)
{
    struct table *table = calloc(1, sizeof *table);

    if (!table)
        return -1;
    settings_common(&table->settings);
    table_recipe(&table->recipe);
    *state = table;
    return version_of(&table->recipe, &table->shelf, &table->settings, NULL, &table->version, NULL) == LW_OK ? 0 : -1;
}

int table_tear_down(void **state)
{
    struct table *table = *state;

    version_free(table->version);
    free(table);
    return 0;
}

void table_plan(struct table *table)
{
    struct lw_error error = {""};

    if (version_set(table->version, &table->recipe, &error) != LW_OK)
        fail_msg("%s", error.text);
}

const struct plan *table_plan_of(const struct table *table)
{
    return version_document(table->version)->plan;
}

static struct cell_context context_of(const struct table *table)
{
    return (struct cell_context){.recipe = &table->recipe,
                                 .plan = table_plan_of(table),
                                 .settings = &table->settings,
                                 .follow = table->follow,
                                 .makes_up = table->makes_up};
}

void table_shows(struct table *table, struct cell cell, const char *text)
{
    struct cell_context context = context_of(table);
    char shown[128];

    cell_text(&context, cell, shown, sizeof shown);
    assert_string_equal(shown, text);
}

int table_type(struct table *table, struct cell cell, const char *text)
{
    struct cell_context context = context_of(table);
    struct change changes[EDITOR_CHANGES];
    struct lw_error error = {""};
    int n = 0;

    if (cell_read(&context, cell, text, changes, &n, &error) != LW_OK)
        fail_msg("%s: \"%s\" was refused: %s", cell_name(cell.kind), text, error.text);
    assert_in_range(n, 0, EDITOR_CHANGES);
    for (int i = 0; i < n; i++)
        assert_int_equal(change_apply(&table->recipe, &changes[i], true, &error), LW_OK);
    table_plan(table);
    return n;
}

void table_refuses(struct table *table, struct cell cell, const char *text, const char *part)
{
    struct cell_context context = context_of(table);
    struct change changes[EDITOR_CHANGES];
    struct lw_error error = {""};
    struct recipe before;
    int n = 0;

    memcpy(&before, &table->recipe, sizeof before);
    if (cell_read(&context, cell, text, changes, &n, &error) != LW_INVALID)
        fail_msg("%s: \"%s\" was taken", cell_name(cell.kind), text);
    if (!strstr(error.text, part))
        fail_msg("\"%s\" was refused with: %s", text, error.text);
    assert_memory_equal(&before, &table->recipe, sizeof before);
}
