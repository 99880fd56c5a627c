/* The settings of the bench as rows of words: what a row shows can be typed again, what cannot be used is refused. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "work/settings_row.h"

static const struct settings_row pattern = {SETTING_BATCH_PATTERN, 0}, order = {SETTING_LYE_ORDER, 0},
                                 most = {SETTING_SUPERFAT_MOST, 0}, first_key = {SETTING_KEY, 0},
                                 second_key = {SETTING_KEY, 1}, third_key = {SETTING_KEY, 2};

static void shows(const struct settings *settings, struct settings_row row, const char *text)
{
    char value[SETTING_BYTES];

    settings_row_value(settings, row, value, sizeof value);
    assert_string_equal(value, text);
}

/* Taken, shown as `text`, and taken again as it is shown. */
static void reads(struct settings *settings, struct settings_row row, const char *words, const char *text)
{
    struct lw_error error = {""};
    char value[SETTING_BYTES];

    if (settings_row_read(settings, row, words, &error) != LW_OK)
        fail_msg("\"%s\" was refused: %s", words, error.text);
    shows(settings, row, text);
    settings_row_value(settings, row, value, sizeof value);
    if (settings_row_read(settings, row, value, &error) != LW_OK)
        fail_msg("\"%s\" is shown but refused: %s", value, error.text);
    shows(settings, row, text);
}

static void refuses(struct settings *settings, struct settings_row row, const char *words, const char *part)
{
    struct settings before;
    struct lw_error error = {""};

    memcpy(&before, settings, sizeof before);
    assert_int_equal(settings_row_read(settings, row, words, &error), LW_INVALID);
    assert_memory_equal(settings, &before, sizeof before);
    if (!strstr(error.text, part))
        fail_msg("\"%s\" was refused with: %s", words, error.text);
}

static int rows_of(const struct settings *settings, enum settings_kind kind)
{
    struct settings_row rows[SETTINGS_ROWS];
    int n = settings_rows(settings, rows), found = 0;

    assert_true(n <= SETTINGS_ROWS);
    for (int i = 0; i < n; i++)
        found += rows[i].kind == kind;
    return found;
}

static void each_setting_of_the_bench_has_a_row_with_a_name(void **state)
{
    static const struct settings_row rows[] = {pattern, order, most, first_key};
    static const char *const names[] = {"batch numbers", "order at the bench", "superfat of a batch at most",
                                        "+ key of the bench"};
    struct settings settings;
    char name[SETTING_BYTES];

    (void)state;
    settings_common(&settings);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_int_equal(rows_of(&settings, rows[i].kind), 1);
        settings_row_name(&settings, rows[i], name, sizeof name);
        assert_string_equal(name, names[i]);
    }
}

static void a_pattern_of_batch_numbers_is_taken_if_it_makes_any(void **state)
{
    struct settings settings;

    (void)state;
    settings_common(&settings);
    shows(&settings, pattern, "%y-###");
    reads(&settings, pattern, "Q%y-####", "Q%y-####");
    reads(&settings, pattern, "#", "#");
    refuses(&settings, pattern, "", "serial number");
    refuses(&settings, pattern, "%y", "serial number");
    refuses(&settings, pattern, "a name that is much too long for it ###", "short");
}

static void the_order_at_the_bench_goes_to_and_fro(void **state)
{
    struct settings settings;
    struct lw_error error;

    (void)state;
    settings_common(&settings);
    shows(&settings, order, "dissolve first");
    assert_true(settings_row_next(&settings, order));
    shows(&settings, order, "oils first");
    assert_true(settings_row_next(&settings, order));
    shows(&settings, order, "dissolve first");
    assert_int_equal(settings_row_read(&settings, order, "oils first", &error), LW_INVALID);
    assert_false(settings_row_next(&settings, pattern));
}

static void the_most_superfat_is_the_recipes_until_it_is_set(void **state)
{
    struct settings settings;

    (void)state;
    settings_common(&settings);
    shows(&settings, most, "5 points above what the recipe asks");
    reads(&settings, most, "12", "12 %");
    assert_true(settings.superfat_most == 0.12);
    refuses(&settings, most, "51", "percentage");
    reads(&settings, most, "", "5 points above what the recipe asks");
    assert_true(settings.superfat_most == 0);
}

static void keys_are_added_changed_and_taken_out(void **state)
{
    struct settings settings;

    (void)state;
    settings_common(&settings);
    reads(&settings, first_key, "PgDn for one more", "PgDn for one more");
    assert_int_equal(rows_of(&settings, SETTING_KEY), 2);
    reads(&settings, second_key, "F5 for done", "F5 for done");
    reads(&settings, third_key, "F6 for done", "F6 for done"); /* two keys may do the same */
    assert_string_equal(settings.key[0].key, "PgDn");
    assert_string_equal(settings.key[0].action, "one more");
    assert_int_equal(settings.keys, 3);
    reads(&settings, first_key, "PgUp for one more", "PgUp for one more");
    refuses(&settings, first_key, "F5 for skip", "already");
    reads(&settings, second_key, "", "F6 for done"); /* which moves up */
    assert_int_equal(settings.keys, 2);
    shows(&settings, first_key, "PgUp for one more");
}

static void words_that_are_no_key_are_refused(void **state)
{
    static const char *const bad[] = {"F5", "F5 for ", " for done", "F5 done", "the F5 for done", "for"};
    struct settings settings;

    (void)state;
    settings_common(&settings);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        refuses(&settings, first_key, bad[i], "F5 for done");
    refuses(&settings, first_key, "F5 for what has no word as short as this", "short words");
    refuses(&settings, first_key, "Ctrl-Alt-Shift-F12 for done", "short words");
    assert_int_equal(settings.keys, 0);
}

static void there_is_room_for_all_keys_and_no_more(void **state)
{
    struct settings settings;
    char words[SETTING_BYTES];

    (void)state;
    settings_common(&settings);
    settings.scales = RECIPE_SCALES;
    settings.vessels = SETTINGS_VESSELS;
    for (int i = 0; i < SETTINGS_KEYS; i++) {
        snprintf(words, sizeof words, "F%d for done", i);
        reads(&settings, (struct settings_row){SETTING_KEY, i}, words, words);
    }
    assert_int_equal(rows_of(&settings, SETTING_KEY), SETTINGS_KEYS);
    reads(&settings, (struct settings_row){SETTING_KEY, SETTINGS_KEYS - 1}, "x for skip", "x for skip");
    assert_int_equal(settings.keys, SETTINGS_KEYS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_setting_of_the_bench_has_a_row_with_a_name),
        cmocka_unit_test(a_pattern_of_batch_numbers_is_taken_if_it_makes_any),
        cmocka_unit_test(the_order_at_the_bench_goes_to_and_fro),
        cmocka_unit_test(the_most_superfat_is_the_recipes_until_it_is_set),
        cmocka_unit_test(keys_are_added_changed_and_taken_out),
        cmocka_unit_test(words_that_are_no_key_are_refused),
        cmocka_unit_test(there_is_room_for_all_keys_and_no_more),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
