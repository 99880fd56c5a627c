/* Opening: a store is made and found again; whatever else stands in its place is left alone, with a sentence each. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "base/text.h"
#include "store/migrate.h"
#include "store/named.h"

/* Offsets in the header: https://www.sqlite.org/fileformat2.html, section 1.3. */
enum { WRITE_VERSION = 18, READ_VERSION = 19, PAGE_SIZE = 16, USER_VERSION = 60, APPLICATION_ID = 68, PAGE = 4096 };
enum { NOBODY = 65534 };

static bool wholly_printable(const char *text)
{
    for (; *text; text++)
        if ((unsigned char)*text < ' ')
            return false;
    return true;
}

/* Neither way of opening takes it: `status` and a sentence with `words`; the file has the same bytes after. */
static void refused(struct scratch *scratch, enum lw_status status, const char *words)
{
    size_t before, after;
    char *bytes = scratch_read(scratch->path, &before);

    for (int how = STORE_CREATE; how <= STORE_EXISTING; how++) {
        struct store_options options = scratch_options(scratch, (enum store_how)how);
        struct lw_error error = {""};
        struct store *store = NULL;

        assert_int_equal(store_open(scratch->path, &options, &store, &error), status);
        assert_null(store);
        if (!strstr(error.text, words) || !strstr(error.text, scratch->path) || !wholly_printable(error.text))
            fail_msg("\"%s\" does not hold \"%s\" and the path", error.text, words);

        char *now = scratch_read(scratch->path, &after);

        assert_int_equal(before, after);
        assert_memory_equal(bytes, now, before);
        free(now);
    }
    free(bytes);
}

static void a_new_store_is_for_the_maker_alone(void **state)
{
    struct scratch *scratch = *state;
    struct stat found;
    char folder[SCRATCH_PATH_BYTES];

    umask(0);
    snprintf(folder, sizeof folder, "%.150s/deep/down", scratch->folder);
    snprintf(scratch->path, sizeof scratch->path, "%.200s/bench.lyeway", folder);

    struct store *store = scratch_open(scratch);

    add_recipe(store, scratch, "Hedge Rose");
    assert_int_equal(stat(folder, &found), 0);
    assert_int_equal(found.st_mode & 0777, 0700);
    assert_int_equal(stat(scratch->path, &found), 0);
    assert_int_equal(found.st_mode & 0777, 0600);
    path_of(folder, scratch, "-wal");
    assert_int_equal(stat(folder, &found), 0);
    assert_int_equal(found.st_mode & 0777, 0600);
    assert_string_equal(store_path(store), scratch->path);
    scratch_close(store);
}

static void what_was_saved_is_there_when_it_is_opened_again(void **state)
{
    struct scratch *scratch = *state;
    size_t n;
    char log[SCRATCH_PATH_BYTES];
    struct store *store;

    free(make_store(scratch, &n));
    path_of(log, scratch, "-wal");
    assert_false(scratch_exists(log)); /* closing leaves one file */
    store = scratch_open(scratch);
    assert_true(has_recipe(store, "Hedge Rose"));
    scratch_verify(store);
    scratch_close(store);
}

/* architecture.md, Store; magic number "LYEW" in ASCII. */
static void the_file_says_whose_it_is_before_the_log_is_written_back(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    size_t n;
    char *bytes = scratch_read(scratch->path, &n);

    assert_memory_equal(bytes + APPLICATION_ID, "LYEW", 4);
    assert_int_equal(bytes[USER_VERSION + 3], migrations_all().count);
    assert_int_equal(bytes[READ_VERSION], 2); /* a log */
    free(bytes);
    scratch_close(store);
}

static void the_settings_of_the_connection_are_those_that_lose_nothing(void **state)
{
    static const struct {
        const char *pragma;
        int value;
    } expected[] = {{"PRAGMA synchronous", 2},
                    {"PRAGMA foreign_keys", 1},
                    {"PRAGMA secure_delete", 0},
                    {"PRAGMA busy_timeout", 5000},
                    {"PRAGMA trusted_schema", 0}};
    struct store *store = scratch_open(*state);

    for (size_t i = 0; i < sizeof expected / sizeof expected[0]; i++) {
        sqlite3_stmt *statement;

        assert_int_equal(sqlite3_prepare_v2(store->db, expected[i].pragma, -1, &statement, NULL), SQLITE_OK);
        assert_int_equal(sqlite3_step(statement), SQLITE_ROW);
        assert_int_equal(sqlite3_column_int(statement, 0), expected[i].value);
        sqlite3_finalize(statement);
    }
    scratch_close(store);
}

static void a_missing_store_is_only_made_when_asked_for(void **state)
{
    struct scratch *scratch = *state;
    struct store_options options = scratch_options(scratch, STORE_EXISTING);
    struct lw_error error = {""};
    struct store *store;

    assert_int_equal(store_open(scratch->path, &options, &store, &error), LW_NOT_FOUND);
    assert_non_null(strstr(error.text, scratch->path));
    assert_false(scratch_exists(scratch->path));
}

static void an_empty_file_is_new_only_when_asked_for(void **state)
{
    struct scratch *scratch = *state;
    struct store_options options = scratch_options(scratch, STORE_EXISTING);
    struct lw_error error = {""};
    struct store *store;

    scratch_write(scratch->path, "", 0);
    assert_int_equal(store_open(scratch->path, &options, &store, &error), LW_CORRUPT);
    assert_non_null(strstr(error.text, "is empty"));
    scratch_close(scratch_open(scratch));
}

static void a_log_without_its_store_is_not_thrown_away(void **state)
{
    struct scratch *scratch = *state;
    struct store_options options = scratch_options(scratch, STORE_CREATE);
    struct lw_error error = {""};
    struct store *store;
    char log[SCRATCH_PATH_BYTES];

    path_of(log, scratch, "-wal");
    scratch_write(log, "records", 7);
    assert_int_equal(store_open(scratch->path, &options, &store, &error), LW_CORRUPT);
    assert_non_null(strstr(error.text, "-wal"));
    scratch_write(scratch->path, "", 0);
    refused(scratch, LW_CORRUPT, "-wal");
    assert_true(scratch_exists(log));
}

static void a_folder_is_not_a_store(void **state)
{
    struct scratch *scratch = *state;
    struct store_options options = scratch_options(scratch, STORE_CREATE);
    struct lw_error error = {""};
    struct store *store;

    assert_int_equal(store_open(scratch->folder, &options, &store, &error), LW_IO);
    assert_non_null(strstr(error.text, "is a folder"));
}

/* To open a pipe would wait for somebody to write to it. */
static void a_pipe_is_not_a_store(void **state)
{
    struct scratch *scratch = *state;
    struct store_options options = scratch_options(scratch, STORE_CREATE);
    struct lw_error error = {""};
    struct store *store;

    assert_int_equal(mkfifo(scratch->path, 0600), 0);
    assert_int_equal(store_open(scratch->path, &options, &store, &error), LW_IO);
    assert_non_null(strstr(error.text, "not a plain file"));
}

static void text_and_noise_are_not_stores(void **state)
{
    struct scratch *scratch = *state;
    uint8_t noise[8192];

    scratch_write(scratch->path, "Dear all,\n", 10);
    refused(scratch, LW_CORRUPT, "is not a store of Lyeway");
    chance_bytes(&scratch->chance, noise, sizeof noise);
    scratch_write(scratch->path, noise, sizeof noise);
    refused(scratch, LW_CORRUPT, "is not a store of Lyeway");
}

static void a_database_of_another_program_is_not_a_store(void **state)
{
    struct scratch *scratch = *state;
    sqlite3 *db;

    assert_int_equal(sqlite3_open(scratch->path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, "PRAGMA application_id = 7; CREATE TABLE recipe (id)", NULL, NULL, NULL),
                     SQLITE_OK);
    sqlite3_close(db);
    refused(scratch, LW_CORRUPT, "of another program");
}

static void a_damaged_header_is_seen(void **state)
{
    struct scratch *scratch = *state;
    static const struct {
        int at;
        unsigned char value;
    } damage[] = {{READ_VERSION, 3}, {WRITE_VERSION, 3}, {READ_VERSION, 0}, {PAGE_SIZE, 0x13}};
    size_t n;
    char *bytes = make_store(scratch, &n);

    for (size_t i = 0; i < sizeof damage / sizeof damage[0]; i++) {
        char was = bytes[damage[i].at];

        bytes[damage[i].at] = (char)damage[i].value;
        scratch_write(scratch->path, bytes, n);
        refused(scratch, LW_CORRUPT, "is damaged");
        bytes[damage[i].at] = was;
    }
    free(bytes);
}

static void a_store_that_was_cut_off_is_seen(void **state)
{
    struct scratch *scratch = *state;
    size_t n;
    char *bytes = make_store(scratch, &n);

    scratch_write(scratch->path, bytes, n - PAGE);
    refused(scratch, LW_CORRUPT, "is shorter than it should be");
    scratch_write(scratch->path, bytes, n - 1);
    refused(scratch, LW_CORRUPT, "is shorter than it should be");
    scratch_write(scratch->path, bytes, 60);
    refused(scratch, LW_CORRUPT, "is not a store of Lyeway");
    free(bytes);
}

static void a_newer_store_is_left_to_the_newer_program(void **state)
{
    struct scratch *scratch = *state;
    size_t n;
    char *bytes = make_store(scratch, &n);

    bytes[USER_VERSION + 3]++;
    scratch_write(scratch->path, bytes, n);
    refused(scratch, LW_CONFLICT, "newer Lyeway");
    free(bytes);
}

/* Database and log as a power cut leaves them, copied while the store is open, become scratch->path. */
static void cut_power(struct scratch *scratch, struct store *store)
{
    char log[SCRATCH_PATH_BYTES];
    size_t n, m;

    path_of(log, scratch, "-wal");

    char *bytes = scratch_read(scratch->path, &n), *records = scratch_read(log, &m);

    scratch_close(store);
    snprintf(scratch->path, sizeof scratch->path, "%.200s/copy.lyeway", scratch->folder);
    path_of(log, scratch, "-wal");
    scratch_write(scratch->path, bytes, n);
    scratch_write(log, records, m);
    free(bytes);
    free(records);
}

/* The version is then in the log alone, and closing must not bring it home. */
static void a_newer_version_in_the_log_is_seen(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);
    size_t n;
    char *bytes, newer[64];

    snprintf(newer, sizeof newer, "PRAGMA user_version = %zu", migrations_all().count + 1);
    assert_int_equal(sqlite3_exec(store->db, newer, NULL, NULL, NULL), SQLITE_OK);
    cut_power(scratch, store);
    bytes = scratch_read(scratch->path, &n);
    assert_int_equal(bytes[USER_VERSION + 3], migrations_all().count);
    free(bytes);
    refused(scratch, LW_CONFLICT, "newer Lyeway");
}

static void a_log_left_over_is_taken_in(void **state)
{
    struct scratch *scratch = *state;
    struct store *store = scratch_open(scratch);

    add_recipe(store, scratch, "Only in the log");
    cut_power(scratch, store);
    store = scratch_open(scratch);
    assert_true(has_recipe(store, "Only in the log"));
    scratch_verify(store);
    scratch_close(store);
}

/* Runs in a child without the rights of the superuser, for whom nothing is read-only. Tells what store_open said. */
static enum lw_status open_as_anybody(struct scratch *scratch, struct lw_error *error)
{
    int pipes[2], exit_status;
    pid_t child;

    assert_int_equal(pipe(pipes), 0);
    child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        struct store_options options = scratch_options(scratch, STORE_CREATE);
        struct lw_error found = {""};
        struct store *store = NULL;

        if (geteuid() == 0 && setuid(NOBODY) != 0)
            _exit(99);

        enum lw_status status = store_open(scratch->path, &options, &store, &found);

        if (write(pipes[1], &found, sizeof found) != (ssize_t)sizeof found)
            _exit(99);
        _exit((int)status);
    }
    close(pipes[1]);
    assert_int_equal(read(pipes[0], error, sizeof *error), sizeof *error);
    close(pipes[0]);
    assert_int_equal(waitpid(child, &exit_status, 0), child);
    assert_true(WIFEXITED(exit_status));
    return (enum lw_status)WEXITSTATUS(exit_status);
}

static void a_file_or_folder_that_cannot_be_written_to_is_said(void **state)
{
    struct scratch *scratch = *state;
    struct lw_error error = {""};
    size_t n, m;
    char *bytes = make_store(scratch, &n), *after;

    if (geteuid() == 0)
        assert_int_equal(chown(scratch->folder, NOBODY, NOBODY) | chown(scratch->path, NOBODY, NOBODY), 0);
    chmod(scratch->path, 0400);
    assert_int_equal(open_as_anybody(scratch, &error), LW_IO);
    assert_non_null(strstr(error.text, "cannot be written to"));
    chmod(scratch->path, 0000);
    assert_int_equal(open_as_anybody(scratch, &error), LW_IO);
    assert_non_null(strstr(error.text, "cannot be opened"));
    chmod(scratch->path, 0600);
    chmod(scratch->folder, 0500);
    assert_int_equal(open_as_anybody(scratch, &error), LW_IO);
    assert_non_null(strstr(error.text, "folder"));
    assert_non_null(strstr(error.text, "cannot be written to"));
    chmod(scratch->folder, 0700);
    assert_int_equal(open_as_anybody(scratch, &error), LW_OK);
    after = scratch_read(scratch->path, &m);
    assert_int_equal(n, m);
    assert_memory_equal(bytes, after, n);
    free(bytes);
    free(after);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, scratch_setup, scratch_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_new_store_is_for_the_maker_alone),
        TEST(what_was_saved_is_there_when_it_is_opened_again),
        TEST(the_file_says_whose_it_is_before_the_log_is_written_back),
        TEST(the_settings_of_the_connection_are_those_that_lose_nothing),
        TEST(a_missing_store_is_only_made_when_asked_for),
        TEST(an_empty_file_is_new_only_when_asked_for),
        TEST(a_log_without_its_store_is_not_thrown_away),
        TEST(a_folder_is_not_a_store),
        TEST(a_pipe_is_not_a_store),
        TEST(text_and_noise_are_not_stores),
        TEST(a_database_of_another_program_is_not_a_store),
        TEST(a_damaged_header_is_seen),
        TEST(a_store_that_was_cut_off_is_seen),
        TEST(a_newer_store_is_left_to_the_newer_program),
        TEST(a_newer_version_in_the_log_is_seen),
        TEST(a_log_left_over_is_taken_in),
        TEST(a_file_or_folder_that_cannot_be_written_to_is_said),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
