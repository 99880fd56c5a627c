/* From the first version of the store to that of today, with a maker's records in it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "store/batches.h"
#include "store/migrate.h"
#include "store/named.h"
#include "store/settings_store.h"
#include "store/shelf.h"
#include "support/first_version.h"

struct fixture {
    struct scratch *scratch;
    struct recipe recipe, loaded;
    int64_t id;
};

static int setup(void **state)
{
    struct fixture *fixture = calloc(1, sizeof *fixture);

    if (!fixture || scratch_setup((void **)&fixture->scratch) != 0)
        return -1;
    random_recipe(&fixture->scratch->chance, &fixture->recipe);
    fixture->id = first_version_make(fixture->scratch, &fixture->recipe);
    *state = fixture;
    return 0;
}

static int teardown(void **state)
{
    struct fixture *fixture = *state;

    scratch_teardown((void **)&fixture->scratch);
    free(fixture);
    return 0;
}

static void recipe_is_there(struct fixture *fixture, struct store *store, int number)
{
    struct lw_error error = {""};

    if (recipes_load(store, fixture->id, number, &fixture->loaded, NULL, &error) != LW_OK)
        fail_msg("%s", error.text);
    memcpy(fixture->recipe.uuid, fixture->loaded.uuid, sizeof fixture->recipe.uuid);
    fixture->recipe.revision = number;
    assert_memory_equal(&fixture->recipe, &fixture->loaded, sizeof fixture->recipe);
}

static void settings_are_there(struct store *store)
{
    struct lw_error error = {""};
    struct settings settings;

    assert_int_equal(settings_load(store, &settings, &error), LW_OK);
    assert_true(settings.fahrenheit);
    assert_string_equal(settings.currency, "XTS");
    assert_true(settings.purpose[PURPOSE_SKIN].superfat == 0.07);
    assert_int_equal(settings.scales, 1);
    assert_string_equal(settings.scale[0].name, "pocket");
    assert_int_equal(settings.vessels, 1);
    assert_int_equal(settings.vessel[0].empty_ug, 212000000);
    /* What that version did not know is as in a new store. */
    assert_string_equal(settings.batch_pattern, "%y-###");
    assert_int_equal(settings.keys, 0);
    assert_int_equal(settings_save(store, &settings, &error), LW_OK);
}

static void recipes_shelf_and_settings_of_the_first_version_are_all_there(void **state)
{
    struct fixture *fixture = *state;
    struct store *store = scratch_open(fixture->scratch);
    struct lw_error error = {""};
    struct shelf *shelf = NULL;

    recipe_is_there(fixture, store, 0);
    recipe_is_there(fixture, store, 1);
    settings_are_there(store);
    assert_int_equal(shelf_load(store, facts_reference(), &shelf, &error), LW_OK);
    assert_int_equal(shelf->oils, 1);
    assert_string_equal(shelf->oil[0].name, "Own");
    assert_true(shelf->oil[0].sap_nominal == 185);
    shelf_free(shelf);
    scratch_verify(store);
    scratch_close(store);
}

/* The old tables are found through the copy that was kept. */
static void no_row_of_the_first_version_is_changed(void **state)
{
    struct fixture *fixture = *state;
    struct store *store = scratch_open(fixture->scratch);
    char copy[SCRATCH_PATH_BYTES];
    sqlite3_stmt *tables;
    int compared = 0, rows = 0;

    path_of(copy, fixture->scratch, ".before-v2");
    assert_true(scratch_exists(copy));

    char *attach = sqlite3_mprintf("ATTACH %Q AS old", copy);

    assert_int_equal(sqlite3_exec(store->db, attach, NULL, NULL, NULL), SQLITE_OK);
    sqlite3_free(attach);
    assert_int_equal(
        sqlite3_prepare_v2(store->db, "SELECT name FROM old.sqlite_schema WHERE type = 'table'", -1, &tables, NULL),
        SQLITE_OK);
    while (sqlite3_step(tables) == SQLITE_ROW) {
        const char *name = (const char *)sqlite3_column_text(tables, 0);
        char *sql = sqlite3_mprintf("SELECT (SELECT count(*) FROM old.%w), (SELECT count(*) FROM main.%w),"
                                    " (SELECT count(*) FROM (SELECT * FROM old.%w EXCEPT SELECT * FROM main.%w))",
                                    name, name, name, name);
        sqlite3_stmt *counts;

        assert_int_equal(sqlite3_prepare_v2(store->db, sql, -1, &counts, NULL), SQLITE_OK);
        assert_int_equal(sqlite3_step(counts), SQLITE_ROW);
        assert_int_equal(sqlite3_column_int(counts, 0), sqlite3_column_int(counts, 1));
        assert_int_equal(sqlite3_column_int(counts, 2), 0);
        rows += sqlite3_column_int(counts, 0);
        compared++;
        sqlite3_finalize(counts);
        sqlite3_free(sql);
    }
    sqlite3_finalize(tables);
    assert_true(compared > 10 && rows > 10);
    scratch_close(store);
}

static void the_copy_is_a_store_of_the_first_version_still(void **state)
{
    struct fixture *fixture = *state;
    char copy[SCRATCH_PATH_BYTES];
    size_t n;

    scratch_close(scratch_open(fixture->scratch));
    path_of(copy, fixture->scratch, ".before-v2");

    char *bytes = scratch_read(copy, &n);

    assert_int_equal(bytes[63], 1); /* https://www.sqlite.org/fileformat2.html: user_version at 60 */
    free(bytes);
    /* And it can be put back, from where the way leads here again. */
    struct lw_error error = {""};

    if (store_restore(fixture->scratch->path, copy, &error) != LW_OK)
        fail_msg("%s", error.text);

    struct store *store = scratch_open(fixture->scratch);

    recipe_is_there(fixture, store, 1);
    scratch_verify(store);
    scratch_close(store);
}

static void a_batch_can_be_made_of_a_revision_of_the_first_version(void **state)
{
    struct fixture *fixture = *state;
    struct store *store = scratch_open(fixture->scratch);
    struct batch_head head = {.recipe_id = fixture->id, .revision = 1, .number = "26-001"};
    struct lw_error error = {""};

    if (batches_create(store, &head, 1, "{}", "", NULL, 0, &error) != LW_OK)
        fail_msg("%s", error.text);
    scratch_verify(store);
    scratch_close(store);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(recipes_shelf_and_settings_of_the_first_version_are_all_there),
        TEST(no_row_of_the_first_version_is_changed),
        TEST(the_copy_is_a_store_of_the_first_version_still),
        TEST(a_batch_can_be_made_of_a_revision_of_the_first_version),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
