/* Changes put on top of a recipe that somebody else has changed meanwhile. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "support/random_recipe.h"
#include "work/merge.h"
#include "work/table.h"

enum { WALKS = 150, STEPS = 12 };

static void name(char to[LW_NAME_BYTES], const char *from)
{
    memset(to, 0, LW_NAME_BYTES);
    text_copy(to, LW_NAME_BYTES, from);
}

/* Property: where nobody else changed anything, a merge is the changes themselves. */
static void on_the_same_recipe_changes_stay_what_they_are(void **state)
{
    static struct change changes[STEPS], fitted[STEPS];
    struct chance chance = chance_of(21);
    struct recipe start, applied;

    (void)state;
    for (int i = 0; i < WALKS; i++) {
        random_recipe(&chance, &start);
        memcpy(&applied, &start, sizeof applied);
        for (int step = 0; step < STEPS; step++) {
            random_change(&chance, &applied, &changes[step]);
            assert_int_equal(change_apply(&applied, &changes[step], true, NULL), LW_OK);
        }
        assert_int_equal(merge_changes(&start, changes, STEPS, fitted), STEPS);
        assert_memory_equal(&start, &applied, sizeof applied);
    }
}

/* Property: put on any other recipe, no list grows over its end and no id stands twice, and what was kept leads there. */
static void on_another_recipe_ids_stay_single(void **state)
{
    static struct change changes[STEPS], fitted[STEPS];
    struct chance chance = chance_of(22);
    struct recipe recipe, other, again;
    int kept_of_all = 0;

    (void)state;
    for (int i = 0; i < WALKS; i++) {
        int kept;

        random_recipe(&chance, &recipe);
        random_recipe(&chance, &other);
        memcpy(&again, &other, sizeof again);
        for (int step = 0; step < STEPS; step++) {
            random_change(&chance, &recipe, &changes[step]);
            assert_int_equal(change_apply(&recipe, &changes[step], true, NULL), LW_OK);
        }
        kept = merge_changes(&other, changes, STEPS, fitted);
        kept_of_all += kept;
        for (int step = 0; step < kept; step++)
            assert_int_equal(change_apply(&again, &fitted[step], true, NULL), LW_OK);
        assert_memory_equal(&again, &other, sizeof other);
        for (int a = 0; a < other.oils; a++)
            for (int b = 0; b < a; b++)
                assert_int_not_equal(other.oil[a].id, other.oil[b].id);
        for (int a = 0; a < other.portions; a++) {
            assert_int_not_equal(other.portion[a].id, 0);
            for (int b = 0; b < a; b++)
                assert_int_not_equal(other.portion[a].id, other.portion[b].id);
        }
    }
    assert_in_range(kept_of_all, WALKS * STEPS / 4, WALKS * STEPS - 1);
}

static void members_that_the_change_is_not_about_stay_as_the_other_left_them(void **state)
{
    struct recipe ours, theirs;
    struct change change, fitted;

    (void)state;
    table_recipe(&ours);
    table_recipe(&theirs);
    name(theirs.portion[1].name, "clay");
    theirs.portion[1].technique = TECHNIQUE_LAYER;
    theirs.portion[1].colourant[0].value = 2;
    change_begin(&ours, CHANGE_PORTION, 1, &change);
    change.after.portion.amount = 0.4;
    change.after.portion.scented = true;
    assert_int_equal(merge_changes(&theirs, &change, 1, &fitted), 1);
    assert_string_equal(theirs.portion[1].name, "clay");
    assert_int_equal(theirs.portion[1].technique, TECHNIQUE_LAYER);
    assert_true(theirs.portion[1].colourant[0].value == 2);
    assert_true(theirs.portion[1].amount == 0.4 && theirs.portion[1].scented);
}

static void what_both_changed_is_as_in_the_change(void **state)
{
    struct recipe ours, theirs;
    struct change change, fitted;

    (void)state;
    table_recipe(&ours);
    table_recipe(&theirs);
    theirs.superfat = 0.03;
    change_begin(&ours, CHANGE_HEAD, 0, &change);
    change.after.head.superfat = 0.08;
    assert_int_equal(merge_changes(&theirs, &change, 1, &fitted), 1);
    assert_true(theirs.superfat == 0.08);
}

static void what_is_about_an_element_without_room_is_left_out_with_it(void **state)
{
    struct recipe ours, theirs;
    struct change changes[3], fitted[3];

    (void)state;
    table_recipe(&ours);
    table_recipe(&theirs);
    for (theirs.oils = 0; theirs.oils < RECIPE_OILS; theirs.oils++)
        theirs.oil[theirs.oils] = (struct recipe_oil){.id = (uint32_t)theirs.oils + 1, .amount = 1.0 / RECIPE_OILS};
    memset(changes, 0, sizeof changes);
    changes[0] = (struct change){.part = CHANGE_OIL, .kind = CHANGE_INSERT, .index = 4};
    changes[0].after.oil.id = 5; /* one of theirs has it too */
    assert_int_equal(change_apply(&ours, &changes[0], true, NULL), LW_OK);
    change_begin(&ours, CHANGE_OIL, 4, &changes[1]);
    changes[1].after.oil.amount = 0.9;
    change_begin(&ours, CHANGE_HEAD, 0, &changes[2]);
    changes[2].after.head.superfat = 0.08;
    assert_int_equal(merge_changes(&theirs, changes, 3, fitted), 1);
    assert_int_equal(fitted[0].part, CHANGE_HEAD);
    assert_int_equal(theirs.oils, RECIPE_OILS);
    assert_true(theirs.oil[4].amount == 1.0 / RECIPE_OILS && theirs.superfat == 0.08);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(on_the_same_recipe_changes_stay_what_they_are),
        cmocka_unit_test(on_another_recipe_ids_stay_single),
        cmocka_unit_test(members_that_the_change_is_not_about_stay_as_the_other_left_them),
        cmocka_unit_test(what_both_changed_is_as_in_the_change),
        cmocka_unit_test(what_is_about_an_element_without_room_is_left_out_with_it),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
