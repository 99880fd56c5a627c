/* Backups, restoring, and coming from an older version. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "base/text.h"
#include "store/migrate.h"
#include "store/named.h"

/* The store at `path` is sound and has the one recipe but not the other (NULL: no matter). */
static void holds(struct scratch *scratch, const char *path, const char *name, const char * not )
{
    struct store_options options = scratch_options(scratch, STORE_EXISTING);
    struct lw_error error = {""};
    struct store *store;

    if (store_open(path, &options, &store, &error) != LW_OK)
        fail_msg("%s", error.text);
    assert_true(has_recipe(store, name));
    assert_true(!not || !has_recipe(store, not ));
    scratch_verify(store);
    scratch_close(store);
}

static void same_bytes(const char *path, const char *bytes, size_t n)
{
    size_t now;
    char *found = scratch_read(path, &now);

    assert_int_equal(now, n);
    assert_memory_equal(found, bytes, n);
    free(found);
}

struct seen {
    int calls, done, all;
};

static void see(void *context, int done, int all)
{
    struct seen *seen = context;

    assert_true(done >= seen->done && done <= all);
    *seen = (struct seen){seen->calls + 1, done, all};
}

static void a_backup_holds_what_was_saved_and_is_the_makers_alone(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    struct seen seen = {0};
    struct stat found;
    char to[SCRATCH_PATH_BYTES];

    path_of(to, scratch, ".copy");
    add_recipe(store, scratch, "Hedge Rose");
    if (store_backup(store, to, false, see, &seen, &error) != LW_OK)
        fail_msg("%s", error.text);
    assert_true(seen.calls > 0 && seen.all > 0);
    assert_int_equal(seen.done, seen.all);
    assert_int_equal(stat(to, &found), 0);
    assert_int_equal(found.st_mode & 0777, 0600);
    add_recipe(store, scratch, "after the backup");
    scratch_close(store);
    assert_int_equal(scratch_files(scratch), 2); /* nothing is left beside them */
    holds(scratch, to, "Hedge Rose", "after the backup");
    holds(scratch, scratch->path, "after the backup", NULL);
}

static void an_existing_file_is_only_replaced_when_asked_for(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    char to[SCRATCH_PATH_BYTES];

    add_recipe(store, scratch, "Hedge Rose");
    path_of(to, scratch, ".copy");
    scratch_write(to, "precious", 8);
    assert_int_equal(store_backup(store, to, false, NULL, NULL, &error), LW_CONFLICT);
    same_bytes(to, "precious", 8);
    assert_int_equal(store_backup(store, to, true, NULL, NULL, &error), LW_OK);
    holds(scratch, to, "Hedge Rose", NULL);
    scratch_close(store);
}

static void a_backup_does_not_take_the_place_of_a_store_in_use(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};

    add_recipe(store, scratch, "Hedge Rose");
    assert_int_equal(store_backup(store, scratch->path, true, NULL, NULL, &error), LW_CONFLICT);
    assert_int_equal(store_backup(store, scratch->folder, true, NULL, NULL, &error), LW_INVALID);
    assert_int_equal(store_backup(store, "/nowhere/at/all", true, NULL, NULL, &error), LW_IO);
    assert_true(has_recipe(store, "Hedge Rose"));
    scratch_close(store);
}

static void a_store_is_put_back_and_what_was_there_is_kept(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    char to[SCRATCH_PATH_BYTES], kept[SCRATCH_PATH_BYTES], kept_again[SCRATCH_PATH_BYTES];

    path_of(to, scratch, ".copy");
    path_of(kept, scratch, ".before-restore");
    path_of(kept_again, scratch, ".before-restore-2");
    add_recipe(store, scratch, "Hedge Rose");
    assert_int_equal(store_backup(store, to, false, NULL, NULL, &error), LW_OK);
    add_recipe(store, scratch, "after the backup");
    scratch_close(store);
    if (store_restore(scratch->path, to, &error) != LW_OK)
        fail_msg("%s", error.text);
    holds(scratch, scratch->path, "Hedge Rose", "after the backup");
    holds(scratch, kept, "after the backup", NULL);

    assert_int_equal(store_restore(scratch->path, to, &error), LW_OK);
    holds(scratch, kept, "after the backup", NULL);
    holds(scratch, kept_again, "Hedge Rose", "after the backup");
    assert_int_equal(unlink(scratch->path), 0);
    assert_int_equal(store_restore(scratch->path, to, &error), LW_OK);
    holds(scratch, scratch->path, "Hedge Rose", NULL);
    assert_int_equal(scratch_files(scratch), 4);
}

static void a_store_that_is_open_is_not_restored(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    char to[SCRATCH_PATH_BYTES];

    path_of(to, scratch, ".copy");
    add_recipe(store, scratch, "Hedge Rose");
    assert_int_equal(store_backup(store, to, false, NULL, NULL, &error), LW_OK);
    assert_int_equal(store_restore(scratch->path, to, &error), LW_BUSY);
    assert_non_null(strstr(error.text, "close it"));
    add_recipe(store, scratch, "and goes on");
    scratch_close(store);
    holds(scratch, scratch->path, "and goes on", NULL);
}

static void a_backup_that_is_damaged_or_none_is_refused(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    char to[SCRATCH_PATH_BYTES], *bytes, *before;
    size_t n, m;

    path_of(to, scratch, ".copy");
    add_recipe(store, scratch, "Hedge Rose");
    assert_int_equal(store_backup(store, to, false, NULL, NULL, &error), LW_OK);
    scratch_close(store);
    before = scratch_read(scratch->path, &m);
    bytes = scratch_read(to, &n);
    for (size_t i = n - 4096; i < n; i++)
        bytes[i] = (char)(bytes[i] ^ 0x55);
    scratch_write(to, bytes, n);
    assert_int_equal(store_restore(scratch->path, to, &error), LW_CORRUPT);
    assert_non_null(strstr(error.text, to));
    scratch_write(to, "Dear all,", 9);
    assert_int_equal(store_restore(scratch->path, to, &error), LW_CORRUPT);
    assert_int_equal(unlink(to), 0);
    assert_int_equal(store_restore(scratch->path, to, &error), LW_NOT_FOUND);
    assert_int_equal(store_restore(scratch->path, scratch->folder, &error), LW_INVALID);
    same_bytes(scratch->path, before, m);
    assert_int_equal(scratch_files(scratch), 1);
    free(bytes);
    free(before);
}

static void a_damaged_store_can_be_restored_over(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    char to[SCRATCH_PATH_BYTES], kept[SCRATCH_PATH_BYTES];

    path_of(to, scratch, ".copy");
    path_of(kept, scratch, ".before-restore");
    add_recipe(store, scratch, "Hedge Rose");
    assert_int_equal(store_backup(store, to, false, NULL, NULL, &error), LW_OK);
    scratch_close(store);
    scratch_write(scratch->path, "garbage", 7);
    assert_int_equal(store_restore(scratch->path, to, &error), LW_OK);
    holds(scratch, scratch->path, "Hedge Rose", NULL);
    same_bytes(kept, "garbage", 7);
}

/* The steps of the program and one of the test's behind them. */
static struct migrations one_more(const char *sql[], const char *step)
{
    struct migrations all = migrations_all();

    for (size_t i = 0; i < all.count; i++)
        sql[i] = all.sql[i];
    sql[all.count] = step;
    return (struct migrations){sql, all.count + 1};
}

enum { STEPS_MOST = 64 };

static void a_migration_is_made_after_a_copy_was_kept(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    const char *sql[STEPS_MOST];
    struct migrations more = one_more(sql, "ALTER TABLE recipe ADD COLUMN extra TEXT; UPDATE recipe SET extra = 'new'");
    char kept[SCRATCH_PATH_BYTES];
    size_t last = migrations_all().count;

    add_recipe(store, scratch, "Hedge Rose");
    assert_true(migrate_is_last(store));
    if (migrate(store, &more, &error) != LW_OK)
        fail_msg("%s", error.text);
    assert_false(migrate_is_last(store));
    assert_int_equal(sqlite3_exec(store->db, "SELECT extra FROM recipe", NULL, NULL, NULL), SQLITE_OK);
    scratch_close(store);
    path_of(kept, scratch, ".before-v");
    text_add(kept, sizeof kept, "%zu", last + 1);
    holds(scratch, kept, "Hedge Rose", NULL);
}

static void a_migration_that_fails_leaves_the_store_as_it_was(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    const char *sql[STEPS_MOST];
    struct migrations more = one_more(sql, "CREATE TABLE extra (id); CREATE TABLE extra (id)");

    add_recipe(store, scratch, "Hedge Rose");
    assert_int_not_equal(migrate(store, &more, &error), LW_OK);
    assert_string_not_equal(error.text, "");
    assert_true(migrate_is_last(store));
    assert_int_equal(sqlite3_exec(store->db, "SELECT * FROM extra", NULL, NULL, NULL), SQLITE_ERROR);
    scratch_close(store);
    holds(scratch, scratch->path, "Hedge Rose", NULL);
}

/* From each version that ever was: made of the first steps alone, then opened by the program. */
static void every_old_version_is_brought_up_to_date(void **state)
{
    struct scratch *scratch = *state;
    struct migrations all = migrations_all();

    for (size_t version = 1; version <= all.count; version++) {
        struct migrations old = {all.sql, version};
        struct lw_error error = {""};
        struct store *store;
        sqlite3 *db;

        snprintf(scratch->path, sizeof scratch->path, "%.200s/v%zu", scratch->folder, version);
        assert_int_equal(sqlite3_open(scratch->path, &db), SQLITE_OK);
        store = store_new(scratch->path, &(struct store_options){.how = STORE_CREATE});
        assert_non_null(store);
        store->db = db;
        assert_int_equal(migrate(store, &old, &error), LW_OK);
        store_free(store);
        store = scratch_open(scratch);
        assert_true(migrate_is_last(store));
        scratch_verify(store);
        scratch_close(store);
    }
}

static void the_readings_for_the_shell_can_be_read(void **state)
{
    static const char *const views[] = {"recipe_reading",     "recipe_oil_reading", "recipe_portion_reading",
                                        "ingredient_reading", "batch_reading",      "event_reading",
                                        "weighing_reading",   "book_reading"};
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    size_t n;
    char *reading = scratch_read("schema/reading.sql", &n);

    add_recipe(store, scratch, "Hedge Rose");
    assert_int_equal(sqlite3_exec(store->db, reading, NULL, NULL, NULL), SQLITE_OK);
    free(reading);
    for (size_t i = 0; i < sizeof views / sizeof views[0]; i++) {
        char *sql = sqlite3_mprintf("SELECT * FROM %s", views[i]);

        assert_int_equal(sqlite3_exec(store->db, sql, NULL, NULL, NULL), SQLITE_OK);
        sqlite3_free(sql);
    }
    scratch_close(store);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, scratch_setup, scratch_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_backup_holds_what_was_saved_and_is_the_makers_alone),
        TEST(an_existing_file_is_only_replaced_when_asked_for),
        TEST(a_backup_does_not_take_the_place_of_a_store_in_use),
        TEST(a_store_is_put_back_and_what_was_there_is_kept),
        TEST(a_store_that_is_open_is_not_restored),
        TEST(a_backup_that_is_damaged_or_none_is_refused),
        TEST(a_damaged_store_can_be_restored_over),
        TEST(a_migration_is_made_after_a_copy_was_kept),
        TEST(a_migration_that_fails_leaves_the_store_as_it_was),
        TEST(every_old_version_is_brought_up_to_date),
        TEST(the_readings_for_the_shell_can_be_read),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
