/* Recipes in the store: nothing of them is lost, only what was changed is written, what is sealed stays. */
#include <math.h>
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
#include "lyeway/names.h"
#include "store/recipes.h"
#include "support/scratch.h"
#include "work/change.h"

enum { RECIPES = 40, STEPS = 300, GROUP = 4 };

/* One of each, since a recipe is too large for the stack to have many. */
struct fixture {
    struct scratch *scratch;
    struct store *store;
    struct recipe recipe, loaded;
    struct change change[GROUP];
    struct lw_error error;
};

static int setup(void **state)
{
    struct fixture *fixture = calloc(1, sizeof *fixture);

    if (!fixture || scratch_setup((void **)&fixture->scratch) != 0)
        return -1;
    fixture->store = scratch_open(fixture->scratch);
    *state = fixture;
    return 0;
}

static int teardown(void **state)
{
    struct fixture *fixture = *state;

    scratch_close(fixture->store);
    scratch_teardown((void **)&fixture->scratch);
    free(fixture);
    return 0;
}

static void ok(struct fixture *fixture, enum lw_status status)
{
    if (status != LW_OK)
        fail_msg("status %d: %s", (int)status, fixture->error.text);
}

static int64_t create(struct fixture *fixture)
{
    int64_t id;

    ok(fixture, recipes_create(fixture->store, &fixture->recipe, &fixture->scratch->now, &id, &fixture->error));
    return id;
}

static int64_t create_named(struct fixture *fixture, const char *name)
{
    memset(&fixture->recipe, 0, sizeof fixture->recipe);
    text_copy(fixture->recipe.name, sizeof fixture->recipe.name, name);
    return create(fixture);
}

/* Loads it and compares all but the uuid, byte by byte: what is between the members is 0 in both. */
static int64_t same_as_loaded(struct fixture *fixture, int64_t id, int number)
{
    int64_t version = 0;

    ok(fixture, recipes_load(fixture->store, id, number, &fixture->loaded, &version, &fixture->error));
    memcpy(fixture->recipe.uuid, fixture->loaded.uuid, sizeof fixture->recipe.uuid);
    assert_int_equal(fixture->loaded.revision, number);
    fixture->recipe.revision = number;
    assert_memory_equal(&fixture->recipe, &fixture->loaded, sizeof fixture->recipe);
    return version;
}

/* Makes it n oils, empty ones where there were fewer. */
static void keep_oils(struct recipe *recipe, int n)
{
    recipe->oils = n;
    memset(&recipe->oil[n], 0, sizeof recipe->oil[0] * (size_t)(RECIPE_OILS - n));
}

static void every_member_of_a_recipe_comes_back(void **state)
{
    struct fixture *fixture = *state;

    for (int i = 0; i < RECIPES; i++) {
        random_recipe(&fixture->scratch->chance, &fixture->recipe);
        same_as_loaded(fixture, create(fixture), 0);
    }
    scratch_verify(fixture->store);
}

static void a_full_recipe_comes_back(void **state)
{
    struct fixture *fixture = *state;
    struct recipe *recipe = &fixture->recipe;

    for (int part = CHANGE_OIL; part < CHANGE_PARTS; part++) {
        struct change *change = &fixture->change[0];

        while (change_count(recipe, (enum change_part)part) >= 0) {
            memset(change, 0, sizeof *change);
            change->part = (enum change_part)part;
            change->kind = CHANGE_INSERT;
            change->after.portion.colourants = part == CHANGE_PORTION ? PORTION_COLOURANTS : 0;
            if (change_apply(recipe, change, true, NULL) == LW_FULL)
                break;
        }
    }
    assert_int_equal(recipe->portions, RECIPE_PORTIONS);
    memset(recipe->note, 'n', sizeof recipe->note - 1);
    same_as_loaded(fixture, create(fixture), 0);
}

static void changes_saved_row_by_row_give_the_recipe_in_memory(void **state)
{
    struct fixture *fixture = *state;
    struct chance *chance = &fixture->scratch->chance;
    int64_t id, version;

    random_recipe(chance, &fixture->recipe);
    id = create(fixture);
    version = same_as_loaded(fixture, id, 0);
    for (int step = 0; step < STEPS; step++) {
        int n = 1 + chance_below(chance, GROUP);

        for (int i = 0; i < n; i++) {
            random_change(chance, &fixture->recipe, &fixture->change[i]);
            ok(fixture, change_apply(&fixture->recipe, &fixture->change[i], true, &fixture->error));
        }
        ok(fixture,
           recipes_save(fixture->store, id, &version, fixture->change, n, &fixture->scratch->now, &fixture->error));
        assert_int_equal(same_as_loaded(fixture, id, 0), version);
    }
    scratch_verify(fixture->store);
}

static void a_replaced_oil_writes_its_row_and_no_other(void **state)
{
    struct fixture *fixture = *state;
    struct scratch *scratch = fixture->scratch;
    struct change *change = fixture->change;
    int64_t id, version;
    sqlite3 *db;
    sqlite3_stmt *rows;

    random_recipe(&scratch->chance, &fixture->recipe);
    keep_oils(&fixture->recipe, 20);
    id = create(fixture);
    version = same_as_loaded(fixture, id, 0);
    /* A trigger of the test counts what is written to any list. */
    assert_int_equal(sqlite3_open(scratch->path, &db), SQLITE_OK);
    assert_int_equal(
        sqlite3_exec(
            db,
            "CREATE TABLE seen (what TEXT);"
            "CREATE TRIGGER t1 AFTER UPDATE ON revision_oil BEGIN INSERT INTO seen VALUES ('oil ' || NEW.position); "
            "END;"
            "CREATE TRIGGER t2 AFTER UPDATE ON revision_portion BEGIN INSERT INTO seen VALUES ('portion'); END;"
            "CREATE TRIGGER t3 AFTER UPDATE ON revision_scale BEGIN INSERT INTO seen VALUES ('scale'); END;"
            "CREATE TRIGGER t4 AFTER INSERT ON revision_oil BEGIN INSERT INTO seen VALUES ('insert'); END;"
            "CREATE TRIGGER t5 AFTER DELETE ON revision_oil BEGIN INSERT INTO seen VALUES ('delete'); END;",
            NULL, NULL, NULL),
        SQLITE_OK);
    change_begin(&fixture->recipe, CHANGE_OIL, 7, change);
    change->after.oil.amount = 0.125;
    ok(fixture, recipes_save(fixture->store, id, &version, change, 1, &scratch->now, &fixture->error));
    assert_int_equal(sqlite3_prepare_v2(db, "SELECT group_concat(what) FROM seen", -1, &rows, NULL), SQLITE_OK);
    assert_int_equal(sqlite3_step(rows), SQLITE_ROW);
    assert_string_equal((const char *)sqlite3_column_text(rows, 0), "oil 7");
    sqlite3_finalize(rows);
    sqlite3_close(db);
}

static void a_change_that_does_not_fit_is_refused_whole(void **state)
{
    struct fixture *fixture = *state;
    int64_t id, version;

    random_recipe(&fixture->scratch->chance, &fixture->recipe);
    keep_oils(&fixture->recipe, 3);
    id = create(fixture);
    version = same_as_loaded(fixture, id, 0);
    change_begin(&fixture->recipe, CHANGE_OIL, 0, &fixture->change[0]);
    fixture->change[0].after.oil.amount = 0.5;
    fixture->change[1] = fixture->change[0];
    fixture->change[1].index = 3;
    assert_int_equal(
        recipes_save(fixture->store, id, &version, fixture->change, 2, &fixture->scratch->now, &fixture->error),
        LW_INVALID);
    assert_int_equal(same_as_loaded(fixture, id, 0), version);
    /* Out of the range that calculation relies on, and not a number. */
    fixture->change[0].after.oil.amount = -1;
    assert_int_equal(
        recipes_save(fixture->store, id, &version, fixture->change, 1, &fixture->scratch->now, &fixture->error),
        LW_INVALID);
    fixture->change[0].after.oil.amount = (double)NAN;
    assert_int_equal(
        recipes_save(fixture->store, id, &version, fixture->change, 1, &fixture->scratch->now, &fixture->error),
        LW_INVALID);
    assert_int_equal(same_as_loaded(fixture, id, 0), version);
}

static void a_save_on_an_old_version_is_a_conflict(void **state)
{
    struct fixture *fixture = *state;
    struct store *other = scratch_open(fixture->scratch);
    int64_t id = create_named(fixture, "Blossoms"), version = same_as_loaded(fixture, id, 0), theirs = version;

    change_begin(&fixture->recipe, CHANGE_HEAD, 0, fixture->change);
    fixture->change->after.head.superfat = 0.03;
    ok(fixture, recipes_save(other, id, &theirs, fixture->change, 1, &fixture->scratch->now, &fixture->error));
    fixture->change->after.head.superfat = 0.08;
    assert_int_equal(
        recipes_save(fixture->store, id, &version, fixture->change, 1, &fixture->scratch->now, &fixture->error),
        LW_CONFLICT);
    ok(fixture, recipes_load(fixture->store, id, 0, &fixture->loaded, &version, &fixture->error));
    assert_int_equal(version, theirs);
    assert_true(fixture->loaded.superfat == 0.03);
    ok(fixture,
       recipes_save(fixture->store, id, &version, fixture->change, 1, &fixture->scratch->now, &fixture->error));
    scratch_close(other);
}

static void sealing_keeps_the_draft_and_its_version(void **state)
{
    struct fixture *fixture = *state;
    int64_t id, version;
    int number = 0;

    random_recipe(&fixture->scratch->chance, &fixture->recipe);
    id = create(fixture);
    version = same_as_loaded(fixture, id, 0);
    ok(fixture, recipes_seal(fixture->store, id, &fixture->scratch->now, &number, &fixture->error));
    assert_int_equal(number, 1);
    assert_int_equal(same_as_loaded(fixture, id, 0), version);
    same_as_loaded(fixture, id, 1);
    assert_int_equal(recipes_seal(fixture->store, id, &fixture->scratch->now, &number, &fixture->error), LW_CONFLICT);
    assert_non_null(strstr(fixture->error.text, "revision 1"));

    fixture->loaded = fixture->recipe;
    change_begin(&fixture->recipe, CHANGE_NOTE, 0, fixture->change);
    text_copy(fixture->change->after.note, LW_NOTE_BYTES, "changed after it was sealed");
    ok(fixture,
       recipes_save(fixture->store, id, &version, fixture->change, 1, &fixture->scratch->now, &fixture->error));
    same_as_loaded(fixture, id, 1);
    ok(fixture, recipes_seal(fixture->store, id, &fixture->scratch->now, &number, &fixture->error));
    assert_int_equal(number, 2);
    change_apply(&fixture->recipe, fixture->change, true, NULL);
    same_as_loaded(fixture, id, 2);
    scratch_verify(fixture->store);
}

static bool take_line(void *context, const struct recipe_line *line)
{
    *(struct recipe_line *)context = *line;
    return false;
}

static struct recipe_line first_line(struct fixture *fixture)
{
    struct recipe_line line = {0};

    ok(fixture, recipes_each(fixture->store, "", false, RECIPES_NEWEST, take_line, &line, &fixture->error));
    return line;
}

static void a_draft_counts_as_changed_only_while_it_differs(void **state)
{
    struct fixture *fixture = *state;
    struct change *change = fixture->change;
    int64_t id, version;
    int number;

    random_recipe(&fixture->scratch->chance, &fixture->recipe);
    id = create(fixture);
    version = same_as_loaded(fixture, id, 0);
    assert_true(first_line(fixture).changed);
    ok(fixture, recipes_seal(fixture->store, id, &fixture->scratch->now, &number, &fixture->error));
    assert_false(first_line(fixture).changed);
    change_begin(&fixture->recipe, CHANGE_HEAD, 0, &change[0]);
    change[0].after.head.water_temp_c = 21.5;
    ok(fixture, recipes_save(fixture->store, id, &version, change, 1, &fixture->scratch->now, &fixture->error));
    assert_true(first_line(fixture).changed);
    change[0].after = change[0].before;
    ok(fixture, recipes_save(fixture->store, id, &version, change, 1, &fixture->scratch->now, &fixture->error));
    assert_false(first_line(fixture).changed);
    assert_int_equal(recipes_seal(fixture->store, id, &fixture->scratch->now, &number, &fixture->error), LW_CONFLICT);
}

/* Whoever writes, and whichever way. */
static void a_sealed_revision_cannot_be_changed_by_sql(void **state)
{
    static const char *const statements[] = {
        "UPDATE revision SET superfat = 0.01 WHERE number = 1",
        "UPDATE revision SET sealed_s = NULL WHERE number = 1",
        "DELETE FROM revision WHERE number = 1",
        "INSERT OR REPLACE INTO revision SELECT * FROM revision WHERE number = 1",
        "UPDATE OR REPLACE revision SET number = 1 WHERE number IS NULL",
        "UPDATE OR REPLACE revision SET id = (SELECT id FROM revision WHERE number = 1) WHERE number IS NULL",
        "UPDATE revision_oil SET amount = 1 WHERE revision_id = (SELECT id FROM revision WHERE number = 1)",
        "UPDATE OR REPLACE revision_oil SET revision_id = (SELECT id FROM revision WHERE number = 1)",
        "DELETE FROM revision_oil",
        "INSERT OR REPLACE INTO revision_oil SELECT * FROM revision_oil",
        "UPDATE revision_liquid SET name = 'x'",
        "DELETE FROM revision_liquid",
        "INSERT OR REPLACE INTO revision_liquid SELECT * FROM revision_liquid",
        "UPDATE revision_additive SET value = 1",
        "DELETE FROM revision_additive",
        "INSERT OR REPLACE INTO revision_additive SELECT * FROM revision_additive",
        "UPDATE revision_fragrance SET value = 1",
        "DELETE FROM revision_fragrance",
        "INSERT OR REPLACE INTO revision_fragrance SELECT * FROM revision_fragrance",
        "UPDATE revision_portion SET amount = 1",
        "DELETE FROM portion_colourant",
        "INSERT OR REPLACE INTO revision_portion SELECT * FROM revision_portion",
        "UPDATE OR REPLACE revision_portion SET revision_id = (SELECT id FROM revision WHERE number = 1)",
        "INSERT OR REPLACE INTO portion_colourant SELECT * FROM portion_colourant",
        "UPDATE portion_colourant SET value = 1",
        "UPDATE revision_scale SET vessel_ug = 0",
        "DELETE FROM revision_scale",
        "INSERT OR REPLACE INTO revision_scale SELECT * FROM revision_scale",
    };
    struct fixture *fixture = *state;
    sqlite3 *db;
    int64_t id;
    int number;

    do {
        random_recipe(&fixture->scratch->chance, &fixture->recipe);
    } while (!fixture->recipe.oils || !fixture->recipe.water.liquids || !fixture->recipe.additives ||
             !fixture->recipe.fragrances || !fixture->recipe.portions || !fixture->recipe.portion[0].colourants ||
             !fixture->recipe.scales);
    id = create(fixture);
    ok(fixture, recipes_seal(fixture->store, id, &fixture->scratch->now, &number, &fixture->error));
    assert_int_equal(sqlite3_open(fixture->scratch->path, &db), SQLITE_OK);
    for (size_t i = 0; i < sizeof statements / sizeof statements[0]; i++) {
        if (sqlite3_exec(db, statements[i], NULL, NULL, NULL) != SQLITE_CONSTRAINT ||
            strstr(sqlite3_errmsg(db), "sealed") == NULL)
            fail_msg("not refused as sealed: %s (%s)", statements[i], sqlite3_errmsg(db));
        same_as_loaded(fixture, id, 1);
    }
    sqlite3_close(db);
}

struct names {
    char text[512];
    int most;
};

static bool add_name(void *context, const struct recipe_line *line)
{
    struct names *names = context;

    text_add(names->text, sizeof names->text, "%s%s", names->text[0] ? ", " : "", line->name);
    return --names->most != 0;
}

static void listed(struct fixture *fixture, const char *filter, bool archived, enum recipes_order order,
                   const char *expected)
{
    struct names names = {"", -1};

    ok(fixture, recipes_each(fixture->store, filter, archived, order, add_name, &names, &fixture->error));
    assert_string_equal(names.text, expected);
}

static void recipes_are_listed_by_name_or_newest_and_filtered_by_words(void **state)
{
    struct fixture *fixture = *state;
    int64_t quince = create_named(fixture, "quince Orchard");
    struct names first = {"", 1};

    fixture->scratch->now.utc_s++;
    create_named(fixture, "Hedge Rose");
    fixture->scratch->now.utc_s++;
    create_named(fixture, "Blossoms and leaves");
    listed(fixture, "", false, RECIPES_BY_NAME, "Blossoms and leaves, Hedge Rose, quince Orchard");
    listed(fixture, NULL, false, RECIPES_NEWEST, "Blossoms and leaves, Hedge Rose, quince Orchard");
    listed(fixture, " LEAV  bloss", false, RECIPES_BY_NAME, "Blossoms and leaves");
    listed(fixture, "rose leaves", false, RECIPES_BY_NAME, "");
    ok(fixture, recipes_each(fixture->store, "", false, RECIPES_BY_NAME, add_name, &first, &fixture->error));
    assert_string_equal(first.text, "Blossoms and leaves");

    fixture->scratch->now.utc_s++;
    ok(fixture, recipes_archive(fixture->store, quince, true, &fixture->scratch->now, &fixture->error));
    listed(fixture, "", false, RECIPES_BY_NAME, "Blossoms and leaves, Hedge Rose");
    listed(fixture, "", true, RECIPES_NEWEST, "quince Orchard, Blossoms and leaves, Hedge Rose");
    ok(fixture, recipes_archive(fixture->store, quince, false, &fixture->scratch->now, &fixture->error));
    listed(fixture, "orchard", false, RECIPES_BY_NAME, "quince Orchard");
    assert_int_equal(recipes_archive(fixture->store, 999, true, &fixture->scratch->now, &fixture->error), LW_NOT_FOUND);
}

static void a_line_says_what_the_recipe_has(void **state)
{
    struct fixture *fixture = *state;
    struct recipe_line line;
    int number;

    random_recipe(&fixture->scratch->chance, &fixture->recipe);
    fixture->recipe.purpose = PURPOSE_SHAVING;

    int64_t id = create(fixture);

    ok(fixture, recipes_seal(fixture->store, id, &fixture->scratch->now, &number, &fixture->error));
    same_as_loaded(fixture, id, 0);
    line = first_line(fixture);
    assert_int_equal(line.id, id);
    assert_memory_equal(line.uuid, fixture->recipe.uuid, LW_UUID_BYTES);
    assert_string_equal(line.name, fixture->recipe.name);
    assert_int_equal(line.revisions, 1);
    assert_int_equal(line.purpose, PURPOSE_SHAVING);
    assert_int_equal(line.oils, fixture->recipe.oils);
    assert_int_equal(line.portions, fixture->recipe.portions);
    assert_int_equal(line.changed_s, fixture->scratch->now.utc_s);
    assert_false(line.archived);
}

static void recipes_are_found_by_uuid_then_by_exact_name(void **state)
{
    struct fixture *fixture = *state;
    int64_t first = create_named(fixture, "Hedge Rose"), second = create_named(fixture, "Hedge rose"), found = 0;
    uint8_t unknown[LW_UUID_BYTES] = {1};

    ok(fixture, recipes_load(fixture->store, second, 0, &fixture->loaded, NULL, &fixture->error));
    ok(fixture, recipes_find(fixture->store, fixture->loaded.uuid, "Hedge Rose", &found, &fixture->error));
    assert_int_equal(found, second);
    ok(fixture, recipes_find(fixture->store, unknown, "Hedge Rose", &found, &fixture->error));
    assert_int_equal(found, first);
    ok(fixture, recipes_find(fixture->store, NULL, "Hedge rose", &found, &fixture->error));
    assert_int_equal(found, second);
    assert_int_equal(recipes_find(fixture->store, NULL, "hedge rose", &found, &fixture->error), LW_NOT_FOUND);
    ok(fixture, recipes_archive(fixture->store, first, true, &fixture->scratch->now, &fixture->error));
    assert_int_equal(recipes_find(fixture->store, NULL, "Hedge Rose", &found, &fixture->error), LW_NOT_FOUND);
}

/* RFC 9562, section 5.4: the version is 4, the variant 10 in binary. */
static void a_recipe_without_uuid_gets_one_and_none_comes_twice(void **state)
{
    struct fixture *fixture = *state;
    int64_t id = create_named(fixture, "Hedge Rose"), other;

    ok(fixture, recipes_load(fixture->store, id, 0, &fixture->loaded, NULL, &fixture->error));
    assert_int_equal(fixture->loaded.uuid[6] >> 4, 4);
    assert_int_equal(fixture->loaded.uuid[8] >> 6, 2);
    assert_int_equal(recipes_create(fixture->store, &fixture->loaded, &fixture->scratch->now, &other, &fixture->error),
                     LW_CONFLICT);
    listed(fixture, "", true, RECIPES_BY_NAME, "Hedge Rose");
}

static bool add_number(void *context, const struct revision_line *line)
{
    struct names *names = context;

    text_add(names->text, sizeof names->text, "%d at %lld;", line->number, (long long)line->sealed_s);
    return --names->most != 0;
}

static void revisions_are_listed_with_the_moment_of_sealing(void **state)
{
    struct fixture *fixture = *state;
    int64_t id = create_named(fixture, "Hedge Rose"), version = same_as_loaded(fixture, id, 0);
    struct names names = {"", -1};
    int number;

    fixture->scratch->now.utc_s = 100;
    ok(fixture, recipes_seal(fixture->store, id, &fixture->scratch->now, &number, &fixture->error));
    change_begin(&fixture->recipe, CHANGE_HEAD, 0, fixture->change);
    fixture->change->after.head.superfat = 0.07;
    ok(fixture,
       recipes_save(fixture->store, id, &version, fixture->change, 1, &fixture->scratch->now, &fixture->error));
    fixture->scratch->now.utc_s = 200;
    ok(fixture, recipes_seal(fixture->store, id, &fixture->scratch->now, &number, &fixture->error));
    ok(fixture, recipes_revisions(fixture->store, id, add_number, &names, &fixture->error));
    assert_string_equal(names.text, "1 at 100;2 at 200;");
}

static void what_is_not_there_is_said(void **state)
{
    struct fixture *fixture = *state;
    int64_t id = create_named(fixture, "Hedge Rose"), version = 1;
    int number;

    assert_int_equal(recipes_load(fixture->store, id, 1, &fixture->loaded, NULL, &fixture->error), LW_NOT_FOUND);
    assert_non_null(strstr(fixture->error.text, "revision 1"));
    assert_int_equal(recipes_load(fixture->store, id + 1, 0, &fixture->loaded, NULL, &fixture->error), LW_NOT_FOUND);
    same_as_loaded(fixture, id, 0);
    change_begin(&fixture->recipe, CHANGE_HEAD, 0, fixture->change);
    assert_int_equal(
        recipes_save(fixture->store, id + 1, &version, fixture->change, 1, &fixture->scratch->now, &fixture->error),
        LW_NOT_FOUND);
    assert_int_equal(recipes_seal(fixture->store, id + 1, &fixture->scratch->now, &number, &fixture->error),
                     LW_NOT_FOUND);
}

static void the_words_in_the_tables_are_those_of_the_model(void **state)
{
    struct fixture *fixture = *state;
    sqlite3 *db;
    sqlite3_stmt *row;

    memset(&fixture->recipe, 0, sizeof fixture->recipe);
    fixture->recipe.purpose = PURPOSE_LIQUID;
    fixture->recipe.scent = PUT_IN_BATTER;
    fixture->recipe.size.pieces.class = PIECE_FLOWER;
    fixture->recipe.portions = 5;
    for (int i = 0; i < 5; i++)
        fixture->recipe.portion[i].technique = (enum technique)i;
    create(fixture);
    assert_int_equal(sqlite3_open(fixture->scratch->path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_prepare_v2(db,
                                        "SELECT revision.purpose, scent, revision.piece_class, technique FROM revision,"
                                        " revision_portion ORDER BY position",
                                        -1, &row, NULL),
                     SQLITE_OK);
    for (int i = 0; i < 5; i++) {
        assert_int_equal(sqlite3_step(row), SQLITE_ROW);
        assert_string_equal((const char *)sqlite3_column_text(row, 0), name_of_purpose(PURPOSE_LIQUID));
        assert_string_equal((const char *)sqlite3_column_text(row, 1), name_of_put_in(PUT_IN_BATTER));
        assert_string_equal((const char *)sqlite3_column_text(row, 2), name_of_class(PIECE_FLOWER));
        assert_string_equal((const char *)sqlite3_column_text(row, 3), name_of_technique((enum technique)i));
    }
    sqlite3_finalize(row);
    sqlite3_close(db);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(every_member_of_a_recipe_comes_back, setup, teardown),
        cmocka_unit_test_setup_teardown(a_full_recipe_comes_back, setup, teardown),
        cmocka_unit_test_setup_teardown(changes_saved_row_by_row_give_the_recipe_in_memory, setup, teardown),
        cmocka_unit_test_setup_teardown(a_replaced_oil_writes_its_row_and_no_other, setup, teardown),
        cmocka_unit_test_setup_teardown(a_change_that_does_not_fit_is_refused_whole, setup, teardown),
        cmocka_unit_test_setup_teardown(a_save_on_an_old_version_is_a_conflict, setup, teardown),
        cmocka_unit_test_setup_teardown(sealing_keeps_the_draft_and_its_version, setup, teardown),
        cmocka_unit_test_setup_teardown(a_draft_counts_as_changed_only_while_it_differs, setup, teardown),
        cmocka_unit_test_setup_teardown(a_sealed_revision_cannot_be_changed_by_sql, setup, teardown),
        cmocka_unit_test_setup_teardown(recipes_are_listed_by_name_or_newest_and_filtered_by_words, setup, teardown),
        cmocka_unit_test_setup_teardown(a_line_says_what_the_recipe_has, setup, teardown),
        cmocka_unit_test_setup_teardown(recipes_are_found_by_uuid_then_by_exact_name, setup, teardown),
        cmocka_unit_test_setup_teardown(a_recipe_without_uuid_gets_one_and_none_comes_twice, setup, teardown),
        cmocka_unit_test_setup_teardown(revisions_are_listed_with_the_moment_of_sealing, setup, teardown),
        cmocka_unit_test_setup_teardown(what_is_not_there_is_said, setup, teardown),
        cmocka_unit_test_setup_teardown(the_words_in_the_tables_are_those_of_the_model, setup, teardown),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
