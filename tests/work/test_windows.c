/* Two windows on one recipe: each sees what the other did, and neither loses a change. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "work/windows.h"

enum { ROUNDS = 120 };

/* Saved, on top of what another window saved meanwhile, and said so. */
static void saves_beside_another(struct windows *windows, struct editor *editor, const char *said)
{
    struct lw_error error = {""};
    struct recipe kept;

    assert_int_equal(editor_save(editor, &windows->scratch->now, &error), LW_CONFLICT);
    if (!strstr(error.text, said))
        fail_msg("\"%s\" does not say \"%s\"", error.text, said);
    assert_false(editor_unsaved(editor));
    load_draft(windows, &kept);
    recipe_is(editor, &kept);
}

static struct change renamed(const struct editor *editor, const char *name)
{
    struct change change;

    change_begin(editor_recipe(editor), CHANGE_HEAD, 0, &change);
    memset(change.after.head.name, 0, LW_NAME_BYTES);
    text_copy(change.after.head.name, LW_NAME_BYTES, name);
    return change;
}

static struct change oil_amount(const struct editor *editor, int index, double amount)
{
    struct change change;

    change_begin(editor_recipe(editor), CHANGE_OIL, index, &change);
    change.after.oil.amount = amount;
    return change;
}

static void has_oils(const struct editor *editor, int n, const char *const names[])
{
    const struct recipe *recipe = editor_recipe(editor);

    assert_int_equal(recipe->oils, n);
    for (int i = 0; i < n; i++) {
        assert_string_equal(recipe->oil[i].name, names[i]);
        for (int other = 0; other < i; other++)
            assert_int_not_equal(recipe->oil[other].id, recipe->oil[i].id);
    }
}

static void another_window_sees_the_change(void **state)
{
    struct windows *windows = *state;
    struct change change = superfat_change(windows->editor[0], 0.07);

    assert_false(editor_refresh(windows->editor[1], NULL));
    editor_applies(windows->editor[0], &change);
    editor_saves(windows, windows->editor[0]);
    assert_true(editor_refresh(windows->editor[1], NULL));
    recipe_is(windows->editor[1], editor_recipe(windows->editor[0]));
    assert_true(editor_document(windows->editor[1])->input->recipe->superfat == 0.07);
    assert_false(editor_refresh(windows->editor[1], NULL));
}

static void both_changes_of_one_part_are_kept(void **state)
{
    struct windows *windows = *state;
    struct change first = superfat_change(windows->editor[0], 0.07), second = renamed(windows->editor[1], "Hedge Rose");

    editor_applies(windows->editor[0], &first);
    editor_applies(windows->editor[1], &second);
    editor_saves(windows, windows->editor[0]);
    assert_false(editor_refresh(windows->editor[1], NULL)); /* it has something of its own to save first */
    saves_beside_another(windows, windows->editor[1], "both changes are kept");
    assert_string_equal(editor_recipe(windows->editor[1])->name, "Hedge Rose");
    assert_true(editor_recipe(windows->editor[1])->superfat == 0.07);
    assert_true(editor_document(windows->editor[1])->input->recipe->superfat == 0.07);
    assert_true(editor_refresh(windows->editor[0], NULL));
    recipe_is(windows->editor[0], editor_recipe(windows->editor[1]));
}

static void a_change_finds_its_oil_where_it_stands_now(void **state)
{
    struct windows *windows = *state;
    struct change first = removed_oil_change(windows->editor[0], 0), second = oil_amount(windows->editor[1], 2, 0.3);

    editor_applies(windows->editor[0], &first);
    editor_saves(windows, windows->editor[0]);
    editor_applies(windows->editor[1], &second);
    saves_beside_another(windows, windows->editor[1], "both changes are kept");
    has_oils(windows->editor[1], 3, (const char *const[]){"coconut", "palm-high-oleic", "castor"});
    assert_true(editor_recipe(windows->editor[1])->oil[1].amount == 0.3);
    assert_true(editor_recipe(windows->editor[1])->oil[2].amount == 0.08);
}

static void oils_that_both_add_stay_two(void **state)
{
    struct windows *windows = *state;
    struct change first = new_oil_change(windows->editor[0], 0, "lard"),
                  second = new_oil_change(windows->editor[1], 4, "neem");

    assert_int_equal(first.after.oil.id, second.after.oil.id);
    editor_applies(windows->editor[0], &first);
    editor_saves(windows, windows->editor[0]);
    editor_applies(windows->editor[1], &second);
    second = oil_amount(windows->editor[1], 4, 0.125); /* what follows means the same oil */
    editor_applies(windows->editor[1], &second);
    saves_beside_another(windows, windows->editor[1], "both changes are kept");
    has_oils(windows->editor[1], 6,
             (const char *const[]){"lard", "olive", "coconut", "palm-high-oleic", "neem", "castor"});
    assert_true(editor_recipe(windows->editor[1])->oil[4].amount == 0.125);
    assert_true(editor_recipe(windows->editor[1])->oil[0].amount == 0);
}

static void a_change_of_what_the_other_took_out_is_told(void **state)
{
    struct windows *windows = *state;
    struct change first = removed_oil_change(windows->editor[0], 1), second = oil_amount(windows->editor[1], 1, 0.3);

    editor_applies(windows->editor[0], &first);
    editor_saves(windows, windows->editor[0]);
    editor_applies(windows->editor[1], &second);
    saves_beside_another(windows, windows->editor[1], "not all that was changed here still fits");
    has_oils(windows->editor[1], 3, (const char *const[]){"olive", "palm-high-oleic", "castor"});
    assert_true(editor_recipe(windows->editor[1])->oil[1].amount == 0.22);
}

/* Undo takes back what was done here, never what the other did. */
static void undo_begins_anew_after_another_window_changed_the_recipe(void **state)
{
    struct windows *windows = *state;
    struct change first = superfat_change(windows->editor[0], 0.07), second = renamed(windows->editor[1], "Hedge Rose");

    editor_applies(windows->editor[0], &first);
    editor_applies(windows->editor[1], &second);
    editor_saves(windows, windows->editor[1]);
    saves_beside_another(windows, windows->editor[0], "both changes are kept");
    assert_int_equal(editor_undo(windows->editor[0], NULL), LW_NOT_FOUND);
    assert_true(editor_refresh(windows->editor[1], NULL));
    assert_int_equal(editor_undo(windows->editor[1], NULL), LW_NOT_FOUND);
    assert_string_equal(editor_recipe(windows->editor[0])->name, "Hedge Rose");
}

/* Property: whatever two windows do, in the end both show the same recipe, and it is that of the file. */
static void two_windows_always_come_to_agree(void **state)
{
    struct windows *windows = *state;
    struct chance chance = chance_of(8);
    struct lw_error error = {""};
    struct recipe kept;
    int conflicts = 0;

    for (int i = 0; i < ROUNDS; i++) {
        struct editor *editor = windows->editor[chance_below(&chance, 2)];

        for (int steps = chance_below(&chance, 3); steps > 0; steps--)
            random_walk(&chance, editor);
        if (chance_below(&chance, 3) == 0) {
            enum lw_status status = editor_save(editor, &windows->scratch->now, &error);

            if (status != LW_OK && status != LW_CONFLICT)
                fail_msg("%s", error.text);
            conflicts += status == LW_CONFLICT;
        }
    }
    assert_true(conflicts > 3);
    for (int i = 0; i < 2; i++) {
        enum lw_status status = editor_save(windows->editor[i], &windows->scratch->now, &error);

        assert_true(status == LW_OK || status == LW_CONFLICT);
    }
    editor_refresh(windows->editor[0], NULL);
    load_draft(windows, &kept);
    recipe_is(windows->editor[0], &kept);
    recipe_is(windows->editor[1], &kept);
    scratch_verify(windows->store[0]);
}

#define IN_WINDOWS(test) cmocka_unit_test_setup_teardown(test, windows_set_up, windows_tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_WINDOWS(another_window_sees_the_change),
        IN_WINDOWS(both_changes_of_one_part_are_kept),
        IN_WINDOWS(a_change_finds_its_oil_where_it_stands_now),
        IN_WINDOWS(oils_that_both_add_stay_two),
        IN_WINDOWS(a_change_of_what_the_other_took_out_is_told),
        IN_WINDOWS(undo_begins_anew_after_another_window_changed_the_recipe),
        IN_WINDOWS(two_windows_always_come_to_agree),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
