/* A disk that fails at every point there is: nothing acknowledged is lost, nothing is torn, and each failure is told. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cmocka.h>

#include "fault/faulty_vfs.h"
#include "fault/maker.h"
#include "store/inside.h"

enum { SAVES = 3, POINTS_MOST = 5000, STEADY = 10 };

/* A failure of the disk is told as one, with a sentence. */
static void told(enum lw_status status, const struct lw_error *error)
{
    if (status == LW_OK)
        return;
    if (status != LW_FULL && status != LW_IO)
        fail_msg("status %d: %s", (int)status, error->text);
    assert_true(error->text[0] != '\0' && error->text[strlen(error->text) - 1] == '.');
}

static void save_some(struct maker *maker, const struct lw_now *now)
{
    for (int i = 0; i < SAVES; i++) {
        struct lw_error error = {""};
        enum lw_status status = maker_save(maker, now, &error);

        told(status, &error);
        /* A fault that passes leaves a store that works: the change that waited is saved at the next try. */
        if (status != LW_OK && !faulty_vfs()->forever)
            assert_int_equal(maker_save(maker, now, &error), LW_OK);
    }
}

static void back_up(struct store *store, const char *to)
{
    struct lw_error error = {""};
    enum lw_status status = store_backup(store, to, false, NULL, NULL, &error);

    told(status, &error);
    assert_int_equal(scratch_exists(to), status == LW_OK);
}

/* One session in which operation `at` fails. */
static void session(struct scratch *scratch, struct maker *maker, const char *copy)
{
    struct store_options options = scratch_options(scratch, STORE_CREATE);
    struct lw_error error = {""};
    struct store *store = NULL;
    bool whole;
    enum lw_status status = store_open(scratch->path, &options, &store, &error);

    maker->saved = -1;
    told(status, &error);
    if (status != LW_OK)
        return;
    status = maker_begin(maker, store, &scratch->now, &error);
    told(status, &error);
    if (status == LW_OK) {
        save_some(maker, &scratch->now);
        told(store_checkpoint(store, &whole, &error), &error);
        save_some(maker, &scratch->now);
    }
    back_up(store, copy);
    told(store_close(store, &error), &error);
}

/* A save that was not acknowledged may be there all the same: the disk has taken it and then said that it had not. */
static void nothing_is_lost(struct scratch *scratch, struct maker *maker)
{
    struct store *store = scratch_open(scratch);
    int saved = maker->saved, found = maker_find(maker, store);

    if (found != saved && found != saved + 1)
        fail_msg("save %d was acknowledged, but %d is there (fault at %d, %s)", saved, found, faulty_vfs()->at,
                 faulty_vfs()->forever ? "lasting" : "once");
    scratch_verify(store);
    scratch_close(store);
}

static void copy_is_sound(const struct scratch *scratch, const char *copy)
{
    struct scratch other = *scratch;
    struct store *store;

    if (!scratch_exists(copy))
        return;
    snprintf(other.path, sizeof other.path, "%s", copy);
    store = scratch_open(&other);
    scratch_verify(store);
    scratch_close(store);
}

/* False once nothing failed any more: all points have been visited. */
static bool visit(struct scratch *scratch, int at, bool forever)
{
    struct faulty *faulty = faulty_vfs();
    struct maker *maker = calloc(1, sizeof *maker);
    char copy[SCRATCH_PATH_BYTES];

    assert_non_null(maker);
    snprintf(scratch->path, sizeof scratch->path, "%.180s/%d-%d.lyeway", scratch->folder, at, forever);
    snprintf(copy, sizeof copy, "%.200s.copy", scratch->path);
    *faulty = (struct faulty){.at = at, .forever = forever};
    session(scratch, maker, copy);

    bool fired = faulty->fired;

    faulty->at = 0;
    nothing_is_lost(scratch, maker);
    copy_is_sound(scratch, copy);
    free(maker);
    return fired;
}

static void a_fault_that_passes_loses_nothing_at_any_point(void **state)
{
    int at = 1;

    while (at < POINTS_MOST && visit(*state, at, false))
        at++;
    assert_true(at > 50); /* there was something to visit */
    assert_true(at < POINTS_MOST);
    print_message("%d points of failure, nothing lost\n", at);
}

static void a_fault_that_lasts_loses_nothing_at_any_point(void **state)
{
    int at = 1;

    while (at < POINTS_MOST && visit(*state, at, true))
        at++;
    assert_true(at > 50);
    assert_true(at < POINTS_MOST);
    print_message("%d points of failure, nothing lost\n", at);
}

/* SQLite itself would say nothing of it. */
static void a_log_that_cannot_be_written_back_when_closing_is_told(void **state)
{
    struct scratch *scratch = *state;
    struct maker *maker = calloc(1, sizeof *maker);
    struct store *store = scratch_open(scratch);
    struct faulty *faulty = faulty_vfs();
    struct lw_error error = {""};
    enum lw_status status;

    assert_non_null(maker);
    assert_int_equal(maker_begin(maker, store, &scratch->now, &error), LW_OK);
    *faulty = (struct faulty){.at = 1, .forever = true};
    status = store_close(store, &error);
    faulty->at = 0;
    assert_int_not_equal(status, LW_OK);
    told(status, &error);
    assert_non_null(strstr(error.text, "All is saved"));
    assert_non_null(strstr(error.text, "-wal"));
    nothing_is_lost(scratch, maker);
    free(maker);
}

static void a_save_takes_one_sync(void **state)
{
    struct scratch *scratch = *state;
    struct maker *maker = calloc(1, sizeof *maker);
    struct store *store = scratch_open(scratch);
    struct faulty *faulty = faulty_vfs();
    struct lw_error error = {""};

    assert_non_null(maker);
    assert_int_equal(maker_begin(maker, store, &scratch->now, &error), LW_OK);
    assert_int_equal(maker_save(maker, &scratch->now, &error), LW_OK);
    for (int i = 0; i < STEADY; i++) {
        faulty->syncs = 0;
        assert_int_equal(maker_save(maker, &scratch->now, &error), LW_OK);
        assert_int_equal(faulty->syncs, 1);
    }
    /* So it is after the log was written back when there was time. */
    store->log_pages = STORE_LOG_PAGES;
    assert_int_equal(store_idle(store, &error), LW_OK);
    faulty->syncs = 0;
    assert_int_equal(maker_save(maker, &scratch->now, &error), LW_OK);
    assert_int_equal(faulty->syncs, 1);
    scratch_close(store);
    free(maker);
}

/* A limit on the size of files is what comes nearest to a full disk without being the superuser. */
static void a_full_disk_is_told_and_saving_goes_on_once_there_is_room(void **state)
{
    struct scratch *scratch = *state;
    struct maker *maker = calloc(1, sizeof *maker);
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    struct rlimit before, small;
    enum lw_status status = LW_OK;

    assert_non_null(maker);
    assert_int_equal(maker_begin(maker, store, &scratch->now, &error), LW_OK);
    assert_true(signal(SIGXFSZ, SIG_IGN) != SIG_ERR); /* as the program does: the write fails instead */
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    small = before;
    small.rlim_cur = 400 * 1024;
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    for (int i = 0; status == LW_OK && i < 1000; i++)
        status = maker_save(maker, &scratch->now, &error);
    told(status, &error);
    assert_int_not_equal(status, LW_OK);
    assert_int_not_equal(maker_save(maker, &scratch->now, &error), LW_OK);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
    assert_int_equal(maker_save(maker, &scratch->now, &error), LW_OK);
    scratch_close(store);
    nothing_is_lost(scratch, maker);
    free(maker);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, scratch_setup, scratch_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_fault_that_passes_loses_nothing_at_any_point),
        TEST(a_fault_that_lasts_loses_nothing_at_any_point),
        TEST(a_log_that_cannot_be_written_back_when_closing_is_told),
        TEST(a_save_takes_one_sync),
        TEST(a_full_disk_is_told_and_saving_goes_on_once_there_is_room),
    };

    faulty_vfs();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
