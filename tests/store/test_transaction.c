/* Transactions one inside another: the inner joins the outer, which alone makes anything last. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base/text.h"
#include "store/inside.h"
#include "store/recipes.h"
#include "support/scratch.h"

static void ok(enum lw_status status, const struct lw_error *error)
{
    if (status != LW_OK)
        fail_msg("status %d: %s", (int)status, error->text);
}

/* By recipes_create, which has a transaction of its own. */
static enum lw_status add(struct store *store, struct scratch *scratch, const char *name, double superfat)
{
    struct recipe *recipe = calloc(1, sizeof *recipe);
    enum lw_status status;
    int64_t id;

    assert_non_null(recipe);
    text_copy(recipe->name, sizeof recipe->name, name);
    recipe->superfat = superfat;
    status = recipes_create(store, recipe, &scratch->now, &id, NULL);
    free(recipe);
    return status;
}

/* As another program sees it. */
static bool saved(struct scratch *scratch, const char *name)
{
    struct store *other = scratch_open(scratch);
    int64_t id;
    bool found = recipes_find(other, NULL, name, &id, NULL) == LW_OK;

    scratch_close(other);
    return found;
}

static void nothing_lasts_before_the_outer_one_ends(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};

    ok(store_begin(store, &error), &error);
    ok(add(store, scratch, "Hedge Rose", 0.05), &error);
    ok(add(store, scratch, "Quince Orchard", 0.05), &error);
    assert_false(saved(scratch, "Hedge Rose"));
    ok(store_end(store, LW_OK, &error), &error);
    assert_true(saved(scratch, "Hedge Rose"));
    assert_true(saved(scratch, "Quince Orchard"));
    scratch_close(store);
}

static void an_inner_one_that_fails_is_taken_back_alone(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};

    ok(store_begin(store, &error), &error);
    ok(add(store, scratch, "Hedge Rose", 0.05), &error);
    assert_int_equal(add(store, scratch, "Impossible", 7), LW_INVALID);
    ok(add(store, scratch, "Quince Orchard", 0.05), &error);
    ok(store_end(store, LW_OK, &error), &error);
    assert_true(saved(scratch, "Hedge Rose"));
    assert_false(saved(scratch, "Impossible"));
    assert_true(saved(scratch, "Quince Orchard"));
    scratch_verify(store);
    scratch_close(store);
}

static void an_outer_one_that_fails_takes_back_all(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};

    ok(store_begin(store, &error), &error);
    ok(add(store, scratch, "Hedge Rose", 0.05), &error);
    assert_int_equal(store_end(store, LW_INVALID, &error), LW_INVALID);
    assert_false(saved(scratch, "Hedge Rose"));
    ok(add(store, scratch, "Quince Orchard", 0.05), &error);
    assert_true(saved(scratch, "Quince Orchard"));
    scratch_close(store);
}

/* SQLite itself rolls back on some failures of the disk. */
static void after_the_outer_one_was_lost_nothing_is_saved_without_it(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};

    ok(store_begin(store, &error), &error);
    ok(add(store, scratch, "Hedge Rose", 0.05), &error);
    assert_int_equal(sqlite3_exec(store->db, "ROLLBACK", NULL, NULL, NULL), SQLITE_OK);
    assert_int_equal(add(store, scratch, "Quince Orchard", 0.05), LW_IO);
    assert_int_not_equal(store_end(store, LW_OK, &error), LW_OK);
    assert_false(saved(scratch, "Hedge Rose"));
    assert_false(saved(scratch, "Quince Orchard"));
    ok(add(store, scratch, "Blossoms", 0.05), &error);
    assert_true(saved(scratch, "Blossoms"));
    scratch_close(store);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, scratch_setup, scratch_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(nothing_lasts_before_the_outer_one_ends),
        TEST(an_inner_one_that_fails_is_taken_back_alone),
        TEST(an_outer_one_that_fails_takes_back_all),
        TEST(after_the_outer_one_was_lost_nothing_is_saved_without_it),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
