/* Settings in the store. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "base/text.h"
#include "store/settings_store.h"
#include "support/scratch.h"

/* What a new store begins with, by lyeway/settings.h: common practice. */
static void a_new_store_has_the_settings_of_common_practice(void **state)
{
    struct store *store = scratch_open(*state);
    struct lw_error error = {""};
    struct settings settings;

    assert_int_equal(settings_load(store, &settings, &error), LW_OK);
    assert_int_equal(settings.mass_unit, MASS_G);
    assert_false(settings.fahrenheit);
    assert_int_equal(settings.scales, 2);
    assert_int_equal(settings.scale[0].division_ug, 1000000);
    assert_int_equal(settings.scale[0].capacity_ug, INT64_C(5000000000));
    assert_int_equal(settings.scale[0].accuracy_ug, 1000000);
    assert_int_equal(settings.scale[1].division_ug, 10000);
    assert_int_equal(settings.scale[1].capacity_ug, 200000000);
    assert_int_equal(settings.scale[1].accuracy_ug, 10000);
    assert_true(settings.purpose[PURPOSE_SKIN].superfat == 0.05);
    assert_true(settings.purpose[PURPOSE_SHAVING].superfat == 0.03);
    assert_true(settings.purpose[PURPOSE_CLEANING].superfat == 0.005);
    assert_true(settings.purpose[PURPOSE_LIQUID].superfat == 0.02);
    for (int i = 0; i < PURPOSES; i++)
        assert_true(settings.purpose[i].water_strength == (i == PURPOSE_LIQUID ? 0.25 : 0.33));
    assert_int_equal(settings.vessels, 0);
    assert_false(settings.tour_seen);
    assert_string_equal(settings.batch_pattern, "%y-###");
    assert_int_equal(settings.lye_order, ORDER_DISSOLVE_FIRST);
    assert_true(settings.superfat_most == 0);
    assert_int_equal(settings.keys, 0);
    scratch_close(store);
}

static void make_other_settings(struct settings *settings)
{
    memset(settings, 0, sizeof *settings);
    settings->mass_unit = MASS_LB;
    settings->fahrenheit = true;
    settings->scales = 1;
    settings->scale[0] = (struct scale){.division_ug = 5, .capacity_ug = 6, .accuracy_ug = 7, .vessel_ug = 8};
    text_copy(settings->scale[0].name, LW_NAME_BYTES, "pocket");
    settings->vessels = SETTINGS_VESSELS;
    for (int i = 0; i < SETTINGS_VESSELS; i++) {
        settings->vessel[i].empty_ug = 1000 + i;
        text_add(settings->vessel[i].name, LW_NAME_BYTES, "jug %d", i);
    }
    text_copy(settings->currency, sizeof settings->currency, "XTS"); /* ISO 4217: the code for tests */
    text_copy(settings->maker_name, sizeof settings->maker_name, "Fennock Bench");
    text_copy(settings->maker_address, sizeof settings->maker_address, "The boathouse");
    for (int i = 0; i < PURPOSES; i++)
        settings->purpose[i] = (struct purpose_defaults){0.01 + 0.01 * i, 0.3 + 0.01 * i};
    settings->tour_seen = true;
    text_copy(settings->batch_pattern, sizeof settings->batch_pattern, "Q%y-###");
    settings->lye_order = ORDER_OILS_FIRST;
    settings->superfat_most = 0.12;
    settings->keys = SETTINGS_KEYS;
    for (int i = 0; i < SETTINGS_KEYS; i++) {
        text_add(settings->key[i].action, sizeof settings->key[i].action, "action %d", i);
        text_add(settings->key[i].key, sizeof settings->key[i].key, "F%d", i);
    }
}

static void all_settings_come_back_after_closing(void **state)
{
    struct store *store = scratch_open(*state);
    struct lw_error error = {""};
    struct settings saved, loaded;

    make_other_settings(&saved);
    assert_int_equal(settings_save(store, &saved, &error), LW_OK);
    scratch_close(store);
    store = scratch_open(*state);
    assert_int_equal(settings_load(store, &loaded, &error), LW_OK);
    assert_memory_equal(&saved, &loaded, sizeof saved);
    scratch_close(store);
}

static void a_bench_may_have_no_scale_once_it_was_set(void **state)
{
    struct store *store = scratch_open(*state);
    struct lw_error error = {""};
    struct settings settings;

    settings_common(&settings);
    settings.scales = 0;
    assert_int_equal(settings_save(store, &settings, &error), LW_OK);
    assert_int_equal(settings_load(store, &settings, &error), LW_OK);
    assert_int_equal(settings.scales, 0);
    scratch_close(store);
}

static void what_was_never_set_is_as_in_common_practice(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    struct settings settings;
    sqlite3 *db;

    make_other_settings(&settings);
    assert_int_equal(settings_save(store, &settings, &error), LW_OK);
    assert_int_equal(sqlite3_open(scratch->path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, "DELETE FROM setting WHERE key = 'superfat:skin'", NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(db);
    assert_int_equal(settings_load(store, &settings, &error), LW_OK);
    assert_true(settings.purpose[PURPOSE_SKIN].superfat == 0.05);
    assert_true(settings.purpose[PURPOSE_SHAVING].superfat == 0.02);
    scratch_close(store);
}

static void settings_that_do_not_fit_leave_the_old_ones(void **state)
{
    struct store *store = scratch_open(*state);
    struct lw_error error = {""};
    struct settings settings, loaded;

    make_other_settings(&settings);
    assert_int_equal(settings_save(store, &settings, &error), LW_OK);
    settings.scale[0].division_ug = 0;
    assert_int_equal(settings_save(store, &settings, &error), LW_INVALID);
    make_other_settings(&settings);
    settings.superfat_most = 0.51;
    assert_int_equal(settings_save(store, &settings, &error), LW_INVALID);
    make_other_settings(&settings);
    settings.lye_order = (enum lye_order)2;
    assert_int_equal(settings_save(store, &settings, &error), LW_INVALID);
    make_other_settings(&settings);
    settings.key[3].key[0] = '\0';
    assert_int_equal(settings_save(store, &settings, &error), LW_INVALID);
    make_other_settings(&settings);
    text_copy(settings.batch_pattern, sizeof settings.batch_pattern, "no serial");
    assert_int_equal(settings_save(store, &settings, &error), LW_INVALID);
    assert_non_null(strstr(error.text, "no serial"));
    assert_int_equal(settings_load(store, &loaded, &error), LW_OK);
    make_other_settings(&settings);
    assert_memory_equal(&settings, &loaded, sizeof settings);
    scratch_close(store);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_new_store_has_the_settings_of_common_practice, scratch_setup,
                                        scratch_teardown),
        cmocka_unit_test_setup_teardown(all_settings_come_back_after_closing, scratch_setup, scratch_teardown),
        cmocka_unit_test_setup_teardown(a_bench_may_have_no_scale_once_it_was_set, scratch_setup, scratch_teardown),
        cmocka_unit_test_setup_teardown(what_was_never_set_is_as_in_common_practice, scratch_setup, scratch_teardown),
        cmocka_unit_test_setup_teardown(settings_that_do_not_fit_leave_the_old_ones, scratch_setup, scratch_teardown),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
