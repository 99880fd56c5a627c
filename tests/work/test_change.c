/* The smallest step of editing: what it does to a list, that it goes back to the same bytes, and what it refuses. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "support/random_recipe.h"
#include "work/change.h"

enum { RECIPES = 40, CHANGES = 60 };

static struct recipe three_oils(void)
{
    static const char *const names[] = {"olive", "coconut", "castor"};
    struct recipe recipe;

    memset(&recipe, 0, sizeof recipe);
    recipe.oils = 3;
    for (int i = 0; i < 3; i++) {
        recipe.oil[i].id = (uint32_t)(10 + i);
        recipe.oil[i].amount = 0.25 * (i + 1);
        text_copy(recipe.oil[i].name, LW_NAME_BYTES, names[i]);
    }
    return recipe;
}

static struct change oil_change(enum change_kind kind, int index, uint32_t id)
{
    struct change change;

    memset(&change, 0, sizeof change);
    change.part = CHANGE_OIL;
    change.kind = kind;
    change.index = index;
    change.after.oil.id = id;
    return change;
}

static void applies(struct recipe *recipe, const struct change *change, bool forward)
{
    struct lw_error error = {""};

    if (change_apply(recipe, change, forward, &error) != LW_OK)
        fail_msg("%s", error.text);
}

/* The ids of the oils in their order. */
static void oils_are(const struct recipe *recipe, int n, const uint32_t ids[])
{
    assert_int_equal(recipe->oils, n);
    for (int i = 0; i < n; i++)
        assert_int_equal(recipe->oil[i].id, ids[i]);
}

static void an_insert_moves_those_behind_it_up(void **state)
{
    struct recipe recipe = three_oils();
    struct change first = oil_change(CHANGE_INSERT, 0, 20), last = oil_change(CHANGE_INSERT, 4, 21);

    (void)state;
    applies(&recipe, &first, true);
    applies(&recipe, &last, true);
    oils_are(&recipe, 5, (const uint32_t[]){20, 10, 11, 12, 21});
    assert_string_equal(recipe.oil[2].name, "coconut");
    assert_true(recipe.oil[3].amount == 0.75);
}

static void a_removal_moves_them_down_and_leaves_nothing_behind(void **state)
{
    static const struct recipe_oil nothing;
    struct recipe recipe = three_oils();
    struct change change = oil_change(CHANGE_REMOVE, 1, 0);

    (void)state;
    applies(&recipe, &change, true);
    oils_are(&recipe, 2, (const uint32_t[]){10, 12});
    assert_string_equal(recipe.oil[1].name, "castor");
    assert_memory_equal(&recipe.oil[2], &nothing, sizeof nothing);
}

static void a_replacement_begins_with_what_is_there(void **state)
{
    struct recipe recipe = three_oils();
    struct change change;

    (void)state;
    change_begin(&recipe, CHANGE_OIL, 2, &change);
    assert_int_equal(change.kind, CHANGE_REPLACE);
    assert_int_equal(change.index, 2);
    assert_string_equal(change.before.oil.name, "castor");
    assert_memory_equal(&change.before, &change.after, sizeof change.before);
    change.after.oil.amount = 0.5;
    applies(&recipe, &change, true);
    assert_true(recipe.oil[2].amount == 0.5 && recipe.oil[1].amount == 0.5 && recipe.oil[0].amount == 0.25);
}

/* Everything but uuid, revision, note and lists. */
static void the_head_is_all_that_is_no_list_and_no_note(void **state)
{
    struct chance chance = chance_of(3);
    struct recipe from, to;
    struct change change;

    (void)state;
    for (int i = 0; i < RECIPES; i++) {
        random_recipe(&chance, &from);
        random_recipe(&chance, &to);
        change_begin(&from, CHANGE_HEAD, 0, &change);
        applies(&to, &change, true);
        memcpy(from.uuid, to.uuid, sizeof from.uuid);
        from.revision = to.revision;
        memcpy(from.note, to.note, sizeof from.note);
        from.oils = to.oils;
        memcpy(from.oil, to.oil, sizeof from.oil);
        from.water.liquids = to.water.liquids;
        memcpy(from.water.liquid, to.water.liquid, sizeof from.water.liquid);
        from.additives = to.additives;
        memcpy(from.additive, to.additive, sizeof from.additive);
        from.fragrances = to.fragrances;
        memcpy(from.fragrance, to.fragrance, sizeof from.fragrance);
        from.portions = to.portions;
        memcpy(from.portion, to.portion, sizeof from.portion);
        from.scales = to.scales;
        memcpy(from.scale, to.scale, sizeof from.scale);
        assert_memory_equal(&from, &to, sizeof from);
    }
}

/* Property: whatever the recipe and the change, forward and back gives the same bytes, and forward again what it gave first. */
static void forward_and_back_gives_the_same_bytes(void **state)
{
    struct chance chance = chance_of(1);
    struct recipe recipe, start, changed;
    int moved = 0;

    (void)state;
    for (int i = 0; i < RECIPES * CHANGES; i++) {
        struct change change;

        if (i % CHANGES == 0)
            random_recipe(&chance, &recipe);
        random_change(&chance, &recipe, &change);
        memcpy(&start, &recipe, sizeof start);
        applies(&recipe, &change, true);
        memcpy(&changed, &recipe, sizeof changed);
        moved += memcmp(&start, &changed, sizeof start) != 0;
        applies(&recipe, &change, false);
        assert_memory_equal(&recipe, &start, sizeof start);
        applies(&recipe, &change, true);
        assert_memory_equal(&recipe, &changed, sizeof changed);
    }
    assert_true(moved > RECIPES * CHANGES * 9 / 10);
}

/* Property: all changes of a walk taken back in reverse order lead to its start. */
static void a_walk_taken_back_leads_to_its_start(void **state)
{
    static struct change walk[CHANGES];
    struct chance chance = chance_of(2);
    struct recipe recipe, start;

    (void)state;
    random_recipe(&chance, &recipe);
    memcpy(&start, &recipe, sizeof start);
    for (int i = 0; i < CHANGES; i++) {
        random_change(&chance, &recipe, &walk[i]);
        applies(&recipe, &walk[i], true);
    }
    assert_memory_not_equal(&recipe, &start, sizeof start);
    for (int i = CHANGES - 1; i >= 0; i--)
        applies(&recipe, &walk[i], false);
    assert_memory_equal(&recipe, &start, sizeof start);
}

/* Refused with that status and a sentence that has `part`, and nothing has changed. */
static void refused(struct recipe *recipe, const struct change *change, bool forward, enum lw_status status,
                    const char *part)
{
    struct lw_error error = {""};
    struct recipe before;

    memcpy(&before, recipe, sizeof before);
    assert_int_equal(change_apply(recipe, change, forward, &error), status);
    assert_memory_equal(recipe, &before, sizeof before);
    if (!strstr(error.text, part))
        fail_msg("\"%s\" does not say \"%s\"", error.text, part);
}

static void a_full_list_takes_no_more(void **state)
{
    static const struct {
        enum change_part part;
        const char *said;
    } lists[] = {
        {CHANGE_OIL, "32 oils"},           {CHANGE_LIQUID, "4 liquids"},
        {CHANGE_ADDITIVE, "16 additives"}, {CHANGE_FRAGRANCE, "8 fragrances"},
        {CHANGE_PORTION, "16 portions"},   {CHANGE_SCALE, "8 scales"},
    };
    struct recipe recipe;

    (void)state;
    memset(&recipe, 0, sizeof recipe);
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        struct change change;
        int n = 0;

        memset(&change, 0, sizeof change);
        change.part = lists[i].part;
        while (change_apply(&recipe, &change, true, NULL) == LW_OK)
            assert_int_equal(change_count(&recipe, lists[i].part), ++n);
        refused(&recipe, &change, true, LW_FULL, lists[i].said);
    }
}

static void what_does_not_fit_is_refused_and_changes_nothing(void **state)
{
    struct recipe recipe = three_oils();
    struct change change = oil_change(CHANGE_INSERT, 4, 20);

    (void)state;
    refused(&recipe, &change, true, LW_INVALID, "no place 5 among the 3 oils");
    change.index = -1;
    refused(&recipe, &change, true, LW_INVALID, "no place 0");
    change.index = 3;
    refused(&recipe, &change, false, LW_INVALID, "nothing at place 4"); /* taking back an insert is a removal */
    change = oil_change(CHANGE_REMOVE, 3, 0);
    refused(&recipe, &change, true, LW_INVALID, "nothing at place 4");
    change = oil_change(CHANGE_REPLACE, -1, 0);
    refused(&recipe, &change, true, LW_INVALID, "nothing at place 0");
    change.part = CHANGE_NOTE;
    change.kind = CHANGE_INSERT;
    refused(&recipe, &change, true, LW_INVALID, "only be replaced");
    change.part = CHANGE_HEAD;
    change.kind = CHANGE_REMOVE;
    refused(&recipe, &change, true, LW_INVALID, "only be replaced");
}

static void a_free_id_is_one_that_no_element_has(void **state)
{
    struct recipe recipe = three_oils();

    (void)state;
    assert_int_equal(change_free_id(&recipe, CHANGE_OIL), 13);
    assert_int_equal(change_free_id(&recipe, CHANGE_PORTION), 1);
    recipe.oil[0].id = 40;
    assert_int_equal(change_free_id(&recipe, CHANGE_OIL), 41);
    recipe.oil[1].id = UINT32_MAX; /* a store can hold any */
    assert_int_not_equal(change_free_id(&recipe, CHANGE_OIL), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_insert_moves_those_behind_it_up),
        cmocka_unit_test(a_removal_moves_them_down_and_leaves_nothing_behind),
        cmocka_unit_test(a_replacement_begins_with_what_is_there),
        cmocka_unit_test(the_head_is_all_that_is_no_list_and_no_note),
        cmocka_unit_test(forward_and_back_gives_the_same_bytes),
        cmocka_unit_test(a_walk_taken_back_leads_to_its_start),
        cmocka_unit_test(a_full_list_takes_no_more),
        cmocka_unit_test(what_does_not_fit_is_refused_and_changes_nothing),
        cmocka_unit_test(a_free_id_is_one_that_no_element_has),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
