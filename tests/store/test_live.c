/* A store that is open: shared with other programs, in memory, with a log that grows, and looked over for damage. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "base/text.h"
#include "store/named.h"

enum { PAGE = 4096 };

static void a_store_held_by_another_is_waited_for_and_then_said(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct recipe *recipe = calloc(1, sizeof *recipe);
    struct lw_error error = {""};
    int64_t id;
    sqlite3 *db;

    assert_non_null(recipe);
    assert_int_equal(sqlite3_open(scratch->path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, "BEGIN IMMEDIATE", NULL, NULL, NULL), SQLITE_OK);
    assert_int_equal(recipes_create(store, recipe, &scratch->now, &id, &error), LW_BUSY);
    assert_non_null(strstr(error.text, "Another program"));
    assert_int_equal(sqlite3_exec(db, "COMMIT", NULL, NULL, NULL), SQLITE_OK);
    assert_int_equal(recipes_create(store, recipe, &scratch->now, &id, &error), LW_OK);
    sqlite3_close(db);
    free(recipe);
    scratch_close(store);
}

static bool readable(int fd)
{
    struct pollfd at = {.fd = fd, .events = POLLIN};

    return poll(&at, 1, 0) == 1;
}

static void each_of_two_programs_learns_of_the_other(void **state)
{
    struct scratch *scratch = *state;
    struct store *one = scratch_open(scratch), *other = scratch_open(scratch);

    assert_false(store_changed_elsewhere(one));
    add_recipe(one, scratch, "mine");
    assert_false(store_changed_elsewhere(one));
    assert_true(store_changed_elsewhere(other));
    assert_false(store_changed_elsewhere(other));
    add_recipe(other, scratch, "theirs");
    assert_true(store_changed_elsewhere(one));
    assert_true(has_recipe(one, "theirs"));
    scratch_close(other);
    add_recipe(one, scratch, "after the other left");
    scratch_close(one);
}

#ifdef __linux__
static void the_descriptor_is_readable_after_a_write_until_it_was_looked_at(void **state)
{
    struct scratch *scratch = *state;
    struct store *one = scratch_open(scratch), *other = scratch_open(scratch);
    int fd = store_watch_fd(one);

    assert_true(fd >= 0);
    store_changed_elsewhere(one);
    assert_false(readable(fd));
    add_recipe(other, scratch, "theirs");
    assert_true(readable(fd));
    assert_true(store_changed_elsewhere(one));
    assert_false(readable(fd));
    scratch_close(other);
    scratch_close(one);
}
#endif

static void an_image_is_opened_in_memory_and_stays_as_it_was(void **state)
{
    struct scratch *scratch = *state;
    size_t n;
    char *bytes = make_store(scratch, &n), *copy = scratch_read(scratch->path, &n);
    struct store_options options = scratch_options(scratch, STORE_IMAGE);
    struct lw_error error = {""};
    struct store *store;

    options.image = (unsigned char *)bytes;
    options.image_bytes = n;
    if (store_open("", &options, &store, &error) != LW_OK)
        fail_msg("%s", error.text);
    assert_true(has_recipe(store, "Hedge Rose"));
    for (int i = 0; i < 100; i++) /* it can grow */
        add_recipe(store, scratch, "only in memory");
    assert_int_equal(store_watch_fd(store), -1);
    assert_int_equal(store_idle(store, &error), LW_OK);
    scratch_verify(store);
    scratch_close(store);
    assert_memory_equal(bytes, copy, n);
    bytes[0] = 'x';
    assert_int_equal(store_open("", &options, &store, &error), LW_CORRUPT);
    free(bytes);
    free(copy);
}

static void a_log_that_has_grown_is_written_back_when_there_is_time(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    size_t before, after;
    char name[LW_NAME_BYTES];

    free(scratch_read(scratch->path, &before));
    for (int i = 0; i < 400; i++) {
        snprintf(name, sizeof name, "recipe %d", i);
        add_recipe(store, scratch, name);
    }
    free(scratch_read(scratch->path, &after));
    assert_int_equal(before, after);
    assert_int_equal(store_idle(store, &error), LW_OK);
    free(scratch_read(scratch->path, &after));
    assert_true(after > before);
    assert_int_equal(store_idle(store, &error), LW_OK);
    scratch_close(store);
}

static void closing_nothing_is_fine(void **state)
{
    (void)state;
    assert_int_equal(store_close(NULL, NULL), LW_OK);
}

/* Scribbles over every page that holds the text. */
static void damage_pages_with(char *bytes, size_t n, const char *text)
{
    int pages = 0;

    for (size_t page = 0; page < n; page += PAGE) {
        bool holds = false;

        for (size_t i = page; i <= page + PAGE - strlen(text); i++)
            holds = holds || memcmp(bytes + i, text, strlen(text)) == 0;
        pages += holds;
        for (size_t i = page; holds && i < page + PAGE; i++)
            bytes[i] = (char)(bytes[i] ^ 0x55);
    }
    assert_true(pages > 0);
}

static void damage_in_the_pages_is_found(void **state)
{
    struct scratch *scratch = *state;
    size_t n;
    char *bytes = make_store(scratch, &n);
    struct lw_error error = {""};
    struct store *store;
    int found = 0;

    damage_pages_with(bytes, n, "Hedge Rose");
    scratch_write(scratch->path, bytes, n);
    store = scratch_open(scratch);
    assert_int_equal(store_verify(store, NULL, NULL, &found, &error), LW_OK);
    assert_true(found > 0);
    assert_int_equal(recipes_find(store, NULL, "Hedge Rose", &(int64_t){0}, &error), LW_CORRUPT);
    assert_non_null(strstr(error.text, "put a backup"));
    store_close(store, NULL);
    free(bytes);
}

static void keep_sentence(void *context, const char *sentence)
{
    text_copy(context, LW_ERROR_BYTES, sentence);
}

static void rows_that_make_no_recipe_are_found(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    char sentence[LW_ERROR_BYTES] = "";
    int found = 0;
    sqlite3 *db;

    add_recipe(store, scratch, "Hedge Rose");
    assert_int_equal(sqlite3_open(scratch->path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, "INSERT INTO revision_oil SELECT id, 1, 1, 'olive', 1, 0, 0, 0, 0 FROM revision",
                                  NULL, NULL, NULL),
                     SQLITE_OK);
    assert_int_equal(store_verify(store, keep_sentence, sentence, &found, &error), LW_OK);
    assert_int_equal(found, 1);
    assert_non_null(strstr(sentence, "Hedge Rose"));
    assert_int_equal(sqlite3_exec(db, "UPDATE revision_oil SET position = 0; DELETE FROM revision", NULL, NULL, NULL),
                     SQLITE_OK);
    assert_int_equal(store_verify(store, keep_sentence, sentence, &found, &error), LW_OK);
    assert_int_equal(found, 1);
    assert_non_null(strstr(sentence, "revision_oil"));
    sqlite3_close(db);
    scratch_close(store);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, scratch_setup, scratch_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_store_held_by_another_is_waited_for_and_then_said),
        TEST(each_of_two_programs_learns_of_the_other),
#ifdef __linux__
        TEST(the_descriptor_is_readable_after_a_write_until_it_was_looked_at),
#endif
        TEST(an_image_is_opened_in_memory_and_stays_as_it_was),
        TEST(a_log_that_has_grown_is_written_back_when_there_is_time),
        TEST(closing_nothing_is_fine),
        TEST(damage_in_the_pages_is_found),
        TEST(rows_that_make_no_recipe_are_found),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
