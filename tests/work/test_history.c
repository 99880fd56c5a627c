/* Undo and redo, against a list of snapshots that the test keeps itself. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "support/random_recipe.h"
#include "work/history.h"

enum { STEPS = 200, GROUP_MOST = 6 };

/* A recipe with its history, and what it was after each step. */
struct walk {
    struct chance chance;
    struct recipe recipe, mirror; /* mirror: kept by the changes that undo and redo tell of */
    struct recipe *snapshot;      /* STEPS + 1 */
    int at, last;
    struct history *history;
};

static int set_up(void **state)
{
    struct walk *walk = calloc(1, sizeof *walk);

    if (!walk)
        return -1;
    walk->chance = chance_of(7);
    walk->snapshot = calloc(STEPS + 1, sizeof *walk->snapshot);
    walk->history = history_new();
    random_recipe(&walk->chance, &walk->recipe);
    memcpy(&walk->mirror, &walk->recipe, sizeof walk->recipe);
    memcpy(&walk->snapshot[0], &walk->recipe, sizeof walk->recipe);
    *state = walk;
    return walk->snapshot && walk->history ? 0 : -1;
}

static int tear_down(void **state)
{
    struct walk *walk = *state;

    history_free(walk->history);
    free(walk->snapshot);
    free(walk);
    return 0;
}

static void follow(void *context, const struct change *change)
{
    struct walk *walk = context;

    assert_int_equal(change_apply(&walk->mirror, change, true, NULL), LW_OK);
}

static void step(struct walk *walk)
{
    struct change changes[GROUP_MOST];
    struct lw_error error = {""};
    int n = 1 + chance_below(&walk->chance, GROUP_MOST);

    for (int i = 0; i < n; i++) {
        random_change(&walk->chance, &walk->recipe, &changes[i]);
        assert_int_equal(change_apply(&walk->recipe, &changes[i], true, &error), LW_OK);
        follow(walk, &changes[i]);
    }
    assert_int_equal(history_add(walk->history, changes, n, &error), LW_OK);
    walk->last = ++walk->at;
    memcpy(&walk->snapshot[walk->at], &walk->recipe, sizeof walk->recipe);
}

static void stands_at(const struct walk *walk, int at)
{
    assert_memory_equal(&walk->recipe, &walk->snapshot[at], sizeof walk->recipe);
    assert_memory_equal(&walk->mirror, &walk->snapshot[at], sizeof walk->recipe);
}

static void undo(struct walk *walk)
{
    assert_int_equal(history_undo(walk->history, &walk->recipe, follow, walk, NULL), LW_OK);
    stands_at(walk, --walk->at);
}

static void redo(struct walk *walk)
{
    assert_int_equal(history_redo(walk->history, &walk->recipe, follow, walk, NULL), LW_OK);
    stands_at(walk, ++walk->at);
}

/* Nothing is left to take back, or to do again; the recipe stays as it is. */
static void at_the_start(struct walk *walk)
{
    struct lw_error error = {""};

    assert_int_equal(history_undo(walk->history, &walk->recipe, follow, walk, &error), LW_NOT_FOUND);
    assert_string_equal(error.text, "There is nothing to undo.");
    stands_at(walk, walk->at);
}

static void at_the_end(struct walk *walk)
{
    struct lw_error error = {""};

    assert_int_equal(history_redo(walk->history, &walk->recipe, follow, walk, &error), LW_NOT_FOUND);
    assert_string_equal(error.text, "There is nothing to redo.");
    stands_at(walk, walk->at);
}

/* Property: every step on the way back and forth is the recipe as it was, to the byte. */
static void undo_of_everything_returns_to_the_start_and_redo_to_the_end(void **state)
{
    struct walk *walk = *state;

    for (int i = 0; i < STEPS; i++)
        step(walk);
    at_the_end(walk);
    while (walk->at > 0)
        undo(walk);
    at_the_start(walk);
    while (walk->at < STEPS)
        redo(walk);
    at_the_end(walk);
}

static void a_new_step_forgets_what_was_undone(void **state)
{
    struct walk *walk = *state;

    for (int i = 0; i < 5; i++)
        step(walk);
    for (int i = 0; i < 3; i++)
        undo(walk);
    step(walk);
    at_the_end(walk);
    assert_int_equal(walk->at, 3);
    while (walk->at > 0)
        undo(walk);
    at_the_start(walk);
}

/* Property: any order of steps, undo and redo. */
static void steps_undo_and_redo_go_in_any_order(void **state)
{
    struct walk *walk = *state;

    for (int i = 0; i < 5 * STEPS; i++) {
        int what = chance_below(&walk->chance, 5);

        if (what == 0 && walk->at < STEPS)
            step(walk);
        else if (what < 3 && walk->at > 0)
            undo(walk);
        else if (what >= 3 && walk->at < walk->last)
            redo(walk);
    }
    while (walk->at > 0)
        undo(walk);
    at_the_start(walk);
}

static void an_empty_history_has_nothing_to_undo_or_redo(void **state)
{
    at_the_start(*state);
    at_the_end(*state);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(undo_of_everything_returns_to_the_start_and_redo_to_the_end, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_new_step_forgets_what_was_undone, set_up, tear_down),
        cmocka_unit_test_setup_teardown(steps_undo_and_redo_go_in_any_order, set_up, tear_down),
        cmocka_unit_test_setup_teardown(an_empty_history_has_nothing_to_undo_or_redo, set_up, tear_down),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
