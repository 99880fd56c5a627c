/* From older versions of the store to that of today, with a maker's records in it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "base/text.h"
#include "store/batches.h"
#include "store/book.h"
#include "store/inside.h"
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

/* So many rows, of which none is another: the old tables are found through the copy that was kept. */
static int table_is_the_same(sqlite3 *db, const char *name)
{
    char *sql = sqlite3_mprintf("SELECT (SELECT count(*) FROM old.%w), (SELECT count(*) FROM main.%w),"
                                " (SELECT count(*) FROM (SELECT * FROM old.%w EXCEPT SELECT * FROM main.%w))",
                                name, name, name, name);
    sqlite3_stmt *counts;
    int rows;

    assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &counts, NULL), SQLITE_OK);
    assert_int_equal(sqlite3_step(counts), SQLITE_ROW);
    rows = sqlite3_column_int(counts, 0);
    assert_int_equal(rows, sqlite3_column_int(counts, 1));
    assert_int_equal(sqlite3_column_int(counts, 2), 0);
    sqlite3_finalize(counts);
    sqlite3_free(sql);
    return rows;
}

static void all_tables_are_the_same(struct scratch *scratch, struct store *store)
{
    char copy[SCRATCH_PATH_BYTES];
    sqlite3_stmt *tables;
    int compared = 0, rows = 0;

    path_of(copy, scratch, ".before-v4");
    assert_true(scratch_exists(copy));

    char *attach = sqlite3_mprintf("ATTACH %Q AS old", copy);

    assert_int_equal(sqlite3_exec(store->db, attach, NULL, NULL, NULL), SQLITE_OK);
    sqlite3_free(attach);
    assert_int_equal(
        sqlite3_prepare_v2(store->db, "SELECT name FROM old.sqlite_schema WHERE type = 'table'", -1, &tables, NULL),
        SQLITE_OK);
    for (; sqlite3_step(tables) == SQLITE_ROW; compared++)
        rows += table_is_the_same(store->db, (const char *)sqlite3_column_text(tables, 0));
    sqlite3_finalize(tables);
    assert_true(compared > 10 && rows > 10);
}

static void no_row_of_the_first_version_is_changed(void **state)
{
    struct fixture *fixture = *state;
    struct store *store = scratch_open(fixture->scratch);

    all_tables_are_the_same(fixture->scratch, store);
    scratch_close(store);
}

static void the_copy_is_a_store_of_the_first_version_still(void **state)
{
    struct fixture *fixture = *state;
    char copy[SCRATCH_PATH_BYTES];
    size_t n;

    scratch_close(scratch_open(fixture->scratch));
    path_of(copy, fixture->scratch, ".before-v4");

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

/* ---- from the second version */

enum { BATCHES = 3, OLD_KINDS = EVENT_FINISHED + 1 };

/* An event of each kind of that version, and every one that may be is taken back. */
static void add_all_events(struct store *store, int64_t batch_id, bool take_back)
{
    struct lw_error error = {""};
    int64_t id = 0;

    for (int kind = 0; kind < OLD_KINDS; kind++) {
        struct batch_event event = {
            .id = ++id, .at_s = 100 + id, .kind = (enum event_kind)kind, .step = 1, .scale = -1};

        event.number[0] = event.number[1] = 1;
        event.other = kind == EVENT_TIMER_OFF || kind == EVENT_TAKEN_BACK ? 1 : 0;
        if (batches_append(store, batch_id, NULL, 0, &event, 1, &error) != LW_OK)
            fail_msg("%s", error.text);
        if (!take_back || kind == EVENT_TAKEN_BACK)
            continue;
        event = (struct batch_event){
            .id = ++id, .at_s = 100 + id, .kind = EVENT_TAKEN_BACK, .scale = -1, .other = id - 1};
        if (batches_append(store, batch_id, NULL, 0, &event, 1, &error) != LW_OK)
            fail_msg("%s", error.text);
    }
}

/* One batch finished and set aside, one with all of it taken back, one without events. */
static void make_batches(struct fixture *fixture, size_t version, int64_t batch[BATCHES])
{
    const struct step step = {.id = 1, .kind = STEP_OTHER, .vessel = -1};
    struct store *store = old_version_open(fixture->scratch, version);
    struct lw_error error = {""};
    int64_t id;
    int number;

    assert_int_equal(recipes_create(store, &fixture->recipe, &fixture->scratch->now, &id, &error), LW_OK);
    assert_int_equal(recipes_seal(store, id, &fixture->scratch->now, &number, &error), LW_OK);
    for (int i = 0; i < BATCHES; i++) {
        struct batch_head head = {.recipe_id = id, .revision = number, .started_s = 100};

        snprintf(head.number, sizeof head.number, "26-%03d", i + 1);
        if (batches_create(store, &head, 1, "{}", "", &step, 1, &error) != LW_OK)
            fail_msg("%s", error.text);
        batch[i] = head.id;
        if (i < 2)
            add_all_events(store, head.id, i == 1);
    }
    store_free(store);
}

static int second_setup(void **state)
{
    struct fixture *fixture = calloc(1, sizeof *fixture);

    if (!fixture || scratch_setup((void **)&fixture->scratch) != 0)
        return -1;
    random_recipe(&fixture->scratch->chance, &fixture->recipe);
    *state = fixture;
    return 0;
}

static void no_row_of_the_second_version_is_changed(void **state)
{
    struct fixture *fixture = *state;
    int64_t batch[BATCHES];

    make_batches(fixture, 2, batch);

    struct store *store = scratch_open(fixture->scratch);

    scratch_verify(store);
    all_tables_are_the_same(fixture->scratch, store);
    scratch_close(store);
}

static bool add_state(void *context, const struct batch_line *line)
{
    text_add(context, LW_ERROR_BYTES, "%s%s%s ", line->number, line->finished_s > 0 ? " finished" : "",
             line->set_aside ? " aside" : "");
    return true;
}

static void batches_of_the_second_version_are_due_in_the_book_and_go_on(void **state)
{
    struct fixture *fixture = *state;
    int64_t batch[BATCHES], due[BATCHES + 1];
    struct lw_error error = {""};
    char states[LW_ERROR_BYTES] = "";
    int n;

    make_batches(fixture, 2, batch);

    struct store *store = scratch_open(fixture->scratch);
    struct batch_event event = {.id = OLD_KINDS + 1, .kind = EVENT_OUTCOME, .scale = -1, .number = {OUTCOME_RELEASED}};

    assert_int_equal(book_due(store, due, BATCHES + 1, &n, &error), LW_OK);
    assert_int_equal(n, BATCHES);
    assert_memory_equal(due, batch, sizeof batch);
    assert_int_equal(batches_append(store, batch[0], NULL, 0, &event, 1, &error), LW_OK);
    assert_int_equal(batches_each(store, BATCHES_ALL, add_state, states, &error), LW_OK);
    assert_string_equal(states, "26-003 26-002 26-001 finished aside ");
    scratch_verify(store);
    scratch_close(store);
}

/* By whatever program: a table made anew has lost nothing that guards it. */
static void records_of_the_second_version_are_guarded_as_before(void **state)
{
    static const char *const wrong[] = {
        "UPDATE batch_event SET mass_ug = 1",
        "DELETE FROM batch_event",
        "INSERT INTO batch_event SELECT batch_id, 99, at_s, kind, step, part, part_index, part_sub, mass_ug, "
        "planned_ug,"
        " reading_ug, scale, number_1, number_2, other, text FROM batch_event WHERE id = 1",
        "UPDATE batch SET finished_s = 7",
    };
    struct fixture *fixture = *state;
    int64_t batch[BATCHES];
    struct lw_error error = {""};

    make_batches(fixture, 2, batch);

    struct store *store = scratch_open(fixture->scratch);
    struct batch_event back = {.id = 1, .kind = EVENT_TAKEN_BACK, .scale = -1, .other = 1};

    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        assert_int_equal(store_run(store, wrong[i], &error), LW_INVALID);
    /* What it names must be there. */
    assert_int_equal(batches_append(store, batch[2], NULL, 0, &back, 1, &error), LW_INVALID);
    scratch_verify(store);
    scratch_close(store);
}

/* Their rows were found by rules that are better now. */
static void batches_of_the_third_version_are_read_into_the_book_anew(void **state)
{
    struct fixture *fixture = *state;
    int64_t batch[BATCHES], due[BATCHES + 1];
    struct store *store;
    struct lw_error error = {""};
    sqlite3 *db;
    int n;

    make_batches(fixture, 3, batch);
    assert_int_equal(sqlite3_open(fixture->scratch->path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, "DELETE FROM book_due WHERE batch_id > 1", NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(db);
    store = scratch_open(fixture->scratch);
    assert_int_equal(book_due(store, due, BATCHES + 1, &n, &error), LW_OK);
    assert_int_equal(n, BATCHES);
    assert_memory_equal(due, batch, sizeof batch);
    scratch_verify(store);
    scratch_close(store);
}

#define TEST(name)   cmocka_unit_test_setup_teardown(name, setup, teardown)
#define SECOND(name) cmocka_unit_test_setup_teardown(name, second_setup, teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(recipes_shelf_and_settings_of_the_first_version_are_all_there),
        TEST(no_row_of_the_first_version_is_changed),
        TEST(the_copy_is_a_store_of_the_first_version_still),
        TEST(a_batch_can_be_made_of_a_revision_of_the_first_version),
        SECOND(no_row_of_the_second_version_is_changed),
        SECOND(batches_of_the_second_version_are_due_in_the_book_and_go_on),
        SECOND(records_of_the_second_version_are_guarded_as_before),
        SECOND(batches_of_the_third_version_are_read_into_the_book_anew),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
