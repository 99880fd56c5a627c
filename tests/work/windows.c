/* windows.c - see the header. */
#include "work/windows.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "work/table.h"

enum { GROUP_MOST = 4 };

static struct editor *opened(struct windows *windows, int window)
{
    struct lw_error error = {""};
    struct editor *editor = NULL;

    if (editor_open(windows->store[window], windows->id, &windows->shelf, &windows->settings, NULL, &editor, &error) !=
        LW_OK)
        fail_msg("%s", error.text);
    return editor;
}

int windows_set_up(void **state)
{
    struct windows *windows = calloc(1, sizeof *windows);
    struct recipe recipe;
    void *scratch = NULL;

    if (!windows || scratch_setup(&scratch) != 0)
        return -1;
    windows->scratch = scratch;
    settings_common(&windows->settings);
    table_recipe(&recipe);
    windows->store[0] = scratch_open(windows->scratch);
    windows->store[1] = scratch_open(windows->scratch);
    if (recipes_create(windows->store[0], &recipe, &windows->scratch->now, &windows->id, NULL) != LW_OK)
        return -1;
    windows->editor[0] = opened(windows, 0);
    windows->editor[1] = opened(windows, 1);
    memcpy(&windows->first, editor_recipe(windows->editor[0]), sizeof windows->first);
    *state = windows;
    return 0;
}

int windows_tear_down(void **state)
{
    struct windows *windows = *state;
    void *scratch = windows->scratch;

    for (int i = 0; i < 2; i++) {
        editor_free(windows->editor[i]);
        scratch_close(windows->store[i]);
    }
    free(windows);
    return scratch_teardown(&scratch);
}

void recipe_is(const struct editor *editor, const struct recipe *recipe)
{
    assert_memory_equal(editor_recipe(editor), recipe, sizeof *recipe);
}

/* The draft in the file. */
void load_draft(struct windows *windows, struct recipe *recipe)
{
    struct lw_error error = {""};

    if (recipes_load(windows->store[0], windows->id, 0, recipe, NULL, &error) != LW_OK)
        fail_msg("%s", error.text);
}

void editor_applies(struct editor *editor, const struct change *change)
{
    struct lw_error error = {""};

    if (editor_apply(editor, change, 1, &error) != LW_OK)
        fail_msg("%s", error.text);
}

void editor_saves(struct windows *windows, struct editor *editor)
{
    struct lw_error error = {""};

    if (editor_save(editor, &windows->scratch->now, &error) != LW_OK)
        fail_msg("%s", error.text);
    assert_false(editor_unsaved(editor));
}

struct change superfat_change(const struct editor *editor, double share)
{
    struct change change;

    change_begin(editor_recipe(editor), CHANGE_HEAD, 0, &change);
    change.after.head.superfat = share;
    return change;
}

struct change new_oil_change(const struct editor *editor, int index, const char *name)
{
    struct change change;

    memset(&change, 0, sizeof change);
    change.part = CHANGE_OIL;
    change.kind = CHANGE_INSERT;
    change.index = index;
    change.after.oil.id = change_free_id(editor_recipe(editor), CHANGE_OIL);
    text_copy(change.after.oil.name, LW_NAME_BYTES, name);
    return change;
}

struct change removed_oil_change(const struct editor *editor, int index)
{
    struct change change;

    change_begin(editor_recipe(editor), CHANGE_OIL, index, &change);
    change.kind = CHANGE_REMOVE;
    memset(&change.after, 0, sizeof change.after);
    return change;
}

/* A random change of a recipe that can be resolved, and in which no portion is more than all of the batter. */
static void random_step(struct chance *chance, const struct recipe *recipe, struct change *change)
{
    static const char *const names[CHANGE_PARTS] = {[CHANGE_OIL] = "olive",
                                                    [CHANGE_LIQUID] = "milk-goat",
                                                    [CHANGE_ADDITIVE] = "honey",
                                                    [CHANGE_FRAGRANCE] = "lavender"};
    const char *name;

    random_change(chance, recipe, change);
    name = names[change->part];
    if (change->kind == CHANGE_REMOVE)
        return;
    if (name) {
        memset(change->after.oil.name, 0, LW_NAME_BYTES); /* every element has its name behind its id */
        text_copy(change->after.oil.name, LW_NAME_BYTES, name);
    }
    if (change->part == CHANGE_PORTION)
        change->after.portion.amount /= 1e6;
    for (int i = 0; change->part == CHANGE_PORTION && i < change->after.portion.colourants; i++) {
        struct recipe_colourant *colourant = &change->after.portion.colourant[i];

        memset(colourant->name, 0, LW_NAME_BYTES);
        text_copy(colourant->name, LW_NAME_BYTES, "titanium-dioxide");
        memset(colourant->carrier_oil, 0, LW_NAME_BYTES);
    }
}

void random_walk(struct chance *chance, struct editor *editor)
{
    struct change changes[GROUP_MOST];
    struct recipe recipe;
    struct lw_error error = {""};
    int n = 1 + chance_below(chance, GROUP_MOST);

    memcpy(&recipe, editor_recipe(editor), sizeof recipe);
    for (int i = 0; i < n; i++) {
        random_step(chance, &recipe, &changes[i]);
        assert_int_equal(change_apply(&recipe, &changes[i], true, NULL), LW_OK);
    }
    if (editor_apply(editor, changes, n, &error) != LW_OK)
        fail_msg("%s", error.text);
    recipe_is(editor, &recipe);
}
