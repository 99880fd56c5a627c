/* Editing while the disk or the memory gives out: what was not done is told and has changed nothing, and what waits is saved at
 * the next try. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "fault/faulty_memory.h"
#include "fault/faulty_vfs.h"
#include "support/scratch.h"
#include "work/editor.h"
#include "work/history.h"

enum { POINTS_MOST = 2000, HISTORY_STEPS = 400 };

/* A recipe in a file of its own for each point at which something fails. */
struct desk {
    struct scratch *scratch;
    struct shelf shelf; /* empty */
    struct settings settings;
    struct store *store;
    struct editor *editor;
    int64_t id;
};

static void begin(struct desk *desk, int at, bool forever)
{
    struct recipe recipe;
    struct lw_error error = {""};

    memset(&recipe, 0, sizeof recipe);
    text_copy(recipe.name, LW_NAME_BYTES, "Hedge Rose");
    recipe.oils = 1;
    recipe.oil[0] = (struct recipe_oil){.id = 1, .amount = 1};
    text_copy(recipe.oil[0].name, LW_NAME_BYTES, "olive");
    recipe.size.by = SIZE_OILS;
    recipe.size.grams = 950;
    settings_common(&desk->settings);
    snprintf(desk->scratch->path, SCRATCH_PATH_BYTES, "%.180s/%d-%d.lyeway", desk->scratch->folder, at, forever);
    desk->store = scratch_open(desk->scratch);
    assert_int_equal(recipes_create(desk->store, &recipe, &desk->scratch->now, &desk->id, &error), LW_OK);
    desk->editor = NULL;
}

static enum lw_status open_editor(struct desk *desk, struct lw_error *error)
{
    return editor_open(desk->store, desk->id, &desk->shelf, &desk->settings, NULL, &desk->editor, error);
}

static void end(struct desk *desk)
{
    struct recipe kept;

    if (desk->editor) {
        assert_int_equal(recipes_load(desk->store, desk->id, 0, &kept, NULL, NULL), LW_OK);
        assert_memory_equal(editor_recipe(desk->editor), &kept, sizeof kept);
    }
    editor_free(desk->editor);
    scratch_verify(desk->store);
    scratch_close(desk->store);
}

static struct change another_size(const struct desk *desk, double grams)
{
    struct change change;

    change_begin(editor_recipe(desk->editor), CHANGE_HEAD, 0, &change);
    change.after.head.size.grams = grams;
    return change;
}

static void is_a_sentence(const struct lw_error *error)
{
    assert_true(error->text[0] != '\0' && error->text[strlen(error->text) - 1] == '.');
}

/* False once nothing failed any more. */
static bool disk_fails(struct desk *desk, int at, bool forever)
{
    struct faulty *faulty = faulty_vfs();
    struct lw_error error = {""};
    struct change change;
    enum lw_status status;

    begin(desk, at, forever);
    assert_int_equal(open_editor(desk, &error), LW_OK);
    change = another_size(desk, 1000 + at);
    assert_int_equal(editor_apply(desk->editor, &change, 1, &error), LW_OK);
    *faulty = (struct faulty){.at = at, .forever = forever};
    status = editor_save(desk->editor, &desk->scratch->now, &error);

    bool fired = faulty->fired;

    *faulty = (struct faulty){.at = 0};
    assert_int_equal(editor_unsaved(desk->editor), status != LW_OK);
    assert_true(editor_recipe(desk->editor)->size.grams == 1000 + at);
    if (status != LW_OK) {
        is_a_sentence(&error);
        status = editor_save(desk->editor, &desk->scratch->now, &error);
        /* The disk may have kept the first try although it said that it had not: then it is one of another window. */
        if (status != LW_OK && status != LW_CONFLICT)
            fail_msg("%s", error.text);
    }
    assert_false(editor_unsaved(desk->editor));
    end(desk);
    return fired;
}

static void a_save_that_fails_leaves_the_change_waiting(void **state)
{
    struct desk desk = {.scratch = *state};

    for (int forever = 0; forever < 2; forever++) {
        int at = 1;

        while (at < POINTS_MOST && disk_fails(&desk, at, forever == 1))
            at++;
        assert_in_range(at, 2, POINTS_MOST - 1); /* there was something to visit */
    }
}

/* Done as wanted, or told as a lack of memory, and then the recipe is as it was. `any`: there is a step to make; without one
 * that is told. Returns whether it was done. */
static bool done_or_as_before(const struct desk *desk, const struct recipe *before, bool any, enum lw_status status,
                              const struct lw_error *error)
{
    if (status == LW_OK)
        return true;
    assert_true(status == LW_FULL || (!any && status == LW_NOT_FOUND));
    is_a_sentence(error);
    assert_memory_equal(editor_recipe(desk->editor), before, sizeof *before);
    return false;
}

static void use(struct desk *desk)
{
    struct lw_error error = {""};
    struct recipe before;
    bool made = false;

    for (int i = 0; i < 2 * EDITOR_CHANGES; i++) {
        struct change change = another_size(desk, 100 + i);

        memcpy(&before, editor_recipe(desk->editor), sizeof before);
        made |= done_or_as_before(desk, &before, true, editor_apply(desk->editor, &change, 1, &error), &error);
    }
    memcpy(&before, editor_recipe(desk->editor), sizeof before);
    made = done_or_as_before(desk, &before, made, editor_undo(desk->editor, &error), &error);
    memcpy(&before, editor_recipe(desk->editor), sizeof before);
    done_or_as_before(desk, &before, made, editor_redo(desk->editor, &error), &error);
}

static bool memory_fails(struct desk *desk, int at, bool forever)
{
    struct faulty_memory *faulty = faulty_memory_ours();
    struct lw_error error = {""};
    enum lw_status status;

    begin(desk, at, forever);
    *faulty = (struct faulty_memory){.at = at, .forever = forever};
    status = open_editor(desk, &error);
    assert_int_equal(desk->editor != NULL, status == LW_OK);
    if (status == LW_OK)
        use(desk);
    else
        is_a_sentence(&error);

    bool fired = faulty->fired;

    *faulty = (struct faulty_memory){.at = 0};
    if (desk->editor) {
        if (editor_save(desk->editor, &desk->scratch->now, &error) != LW_OK)
            fail_msg("%s", error.text);
        while (editor_undo(desk->editor, NULL) == LW_OK)
            continue;
        assert_true(editor_recipe(desk->editor)->size.grams == 950);
        assert_int_equal(editor_save(desk->editor, &desk->scratch->now, &error), LW_OK);
    }
    end(desk);
    return fired;
}

static void without_memory_a_step_is_told_and_not_made(void **state)
{
    struct desk desk = {.scratch = *state};

    for (int forever = 0; forever < 2; forever++) {
        int at = 1;

        while (at < POINTS_MOST && memory_fails(&desk, at, forever == 1))
            at++;
        assert_in_range(at, 5, POINTS_MOST - 1); /* editor, history, two versions, what waits, what is remembered */
    }
}

/* What was remembered before memory ran out can still be undone and redone. */
static void a_history_without_memory_keeps_what_it_has(void **state)
{
    struct faulty_memory *faulty = faulty_memory_ours();
    struct history *history = history_new();
    struct lw_error error = {""};
    struct recipe recipe;
    struct change change;
    int steps = 0;

    (void)state;
    assert_non_null(history);
    memset(&recipe, 0, sizeof recipe);
    *faulty = (struct faulty_memory){.at = 2, .forever = true};
    for (; steps < HISTORY_STEPS; steps++) {
        change_begin(&recipe, CHANGE_HEAD, 0, &change);
        change.after.head.size.grams = steps + 1;
        if (history_add(history, &change, 1, &error) != LW_OK)
            break;
        assert_int_equal(change_apply(&recipe, &change, true, NULL), LW_OK);
    }
    assert_true(faulty->fired && steps > 0);
    is_a_sentence(&error);
    for (int i = steps; i > 0; i--)
        assert_int_equal(history_undo(history, &recipe, NULL, NULL, NULL), LW_OK);
    assert_int_equal(history_undo(history, &recipe, NULL, NULL, NULL), LW_NOT_FOUND);
    assert_true(recipe.size.grams == 0);
    for (int i = 0; i < steps; i++)
        assert_int_equal(history_redo(history, &recipe, NULL, NULL, NULL), LW_OK);
    assert_true(recipe.size.grams == steps);
    *faulty = (struct faulty_memory){.at = 0};
    history_free(history);
}

#define TEST(test) cmocka_unit_test_setup_teardown(test, scratch_setup, scratch_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_save_that_fails_leaves_the_change_waiting),
        TEST(without_memory_a_step_is_told_and_not_made),
        TEST(a_history_without_memory_keeps_what_it_has),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
