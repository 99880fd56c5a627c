/* A batch whose program, disk or log fails: no event that was acknowledged is lost, no append is there by half, and each failure
 * is told. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "fault/faulty_vfs.h"
#include "fault/victim.h"
#include "fault/weigher.h"
#include "store/inside.h"
#include "store/recipes.h"
#include "support/first_version.h"

enum { APPENDS = 3, POINTS_MOST = 5000 };

struct session {
    struct scratch *scratch;
    struct weigher weigher;
};

/* A failure of the disk is told as one, with a sentence. */
static void told(enum lw_status status, const struct lw_error *error)
{
    if (status == LW_OK)
        return;
    if (status != LW_FULL && status != LW_IO)
        fail_msg("status %d: %s", (int)status, error->text);
    assert_true(error->text[0] != '\0' && error->text[strlen(error->text) - 1] == '.');
}

/* Opens it, takes the batch up, or begins it, and appends without end. */
static void append_without_end(void *context, int acknowledge)
{
    struct session *session = context;
    struct weigher *weigher = &session->weigher;
    struct store_options options = scratch_options(session->scratch, STORE_CREATE);
    struct lw_error error = {""};
    struct store *store;

    if (store_open(session->scratch->path, &options, &store, &error) != LW_OK)
        _exit(1);
    weigher->appended = weigher_find(weigher, store);
    if (weigher->appended < 0 && weigher_begin(weigher, store, &session->scratch->now, &error) != LW_OK)
        _exit(2);
    for (;;)
        if (!victim_tell(acknowledge, weigher->appended) || store_idle(store, &error) != LW_OK ||
            weigher_append(weigher, &error) != LW_OK)
            _exit(3);
}

static void no_event_acknowledged_is_lost_when_the_program_is_killed(void **state)
{
    struct session session = {.scratch = *state};
    int found = -1;

    for (int round = 0; victim_goes_on(round, found); round++) {
        int acknowledged = victim_kill(&session.scratch->chance, append_without_end, &session, found);
        struct store *store = scratch_open(session.scratch);

        found = weigher_find(&session.weigher, store);
        if (found < acknowledged || found > acknowledged + 1)
            fail_msg("round %d: append %d was acknowledged, but %d is there", round, acknowledged, found);
        scratch_verify(store);
        scratch_close(store);
    }
    assert_true(found > victim_rounds()); /* it got somewhere */
    print_message("%d rounds, %d appends, none lost\n", victim_rounds(), found);
}

static void append_some(struct weigher *weigher)
{
    for (int i = 0; i < APPENDS; i++) {
        struct lw_error error = {""};
        enum lw_status status = weigher_append(weigher, &error);

        told(status, &error);
        /* A fault that passes leaves a store that works. */
        if (status != LW_OK && !faulty_vfs()->forever)
            assert_int_equal(weigher_append(weigher, &error), LW_OK);
    }
}

/* Work at the bench in which an operation of the disk fails. */
static void work(struct session *session)
{
    struct store_options options = scratch_options(session->scratch, STORE_CREATE);
    struct lw_error error = {""};
    struct store *store = NULL;
    bool whole;
    enum lw_status status = store_open(session->scratch->path, &options, &store, &error);

    session->weigher.appended = -1;
    told(status, &error);
    if (status != LW_OK)
        return;
    status = weigher_begin(&session->weigher, store, &session->scratch->now, &error);
    told(status, &error);
    if (status == LW_OK) {
        append_some(&session->weigher);
        told(store_checkpoint(store, &whole, &error), &error);
        append_some(&session->weigher);
    }
    told(store_close(store, &error), &error);
}

/* An append that was not acknowledged may be there all the same: the disk has taken it and then said that it had not. */
static void nothing_is_lost(struct session *session)
{
    struct store *store = scratch_open(session->scratch);
    int appended = session->weigher.appended, found = weigher_find(&session->weigher, store);

    if (found != appended && found != appended + 1)
        fail_msg("append %d was acknowledged, but %d is there (fault at %d, %s)", appended, found, faulty_vfs()->at,
                 faulty_vfs()->forever ? "lasting" : "once");
    scratch_verify(store);
    scratch_close(store);
}

/* False once nothing failed any more: all points have been visited. */
static bool visit(struct session *session, int at, bool forever)
{
    struct faulty *faulty = faulty_vfs();
    struct scratch *scratch = session->scratch;

    snprintf(scratch->path, sizeof scratch->path, "%.180s/%d-%d.lyeway", scratch->folder, at, forever);
    *faulty = (struct faulty){.at = at, .forever = forever};
    work(session);

    bool fired = faulty->fired;

    faulty->at = 0;
    nothing_is_lost(session);
    return fired;
}

static void a_disk_that_fails_at_any_point_loses_no_event(void **state)
{
    struct session session = {.scratch = *state};

    for (int forever = 0; forever < 2; forever++) {
        int at = 1;

        while (at < POINTS_MOST && visit(&session, at, forever))
            at++;
        assert_true(at > 50); /* there was something to visit */
        assert_true(at < POINTS_MOST);
    }
}

/* A limit on the size of files is what comes nearest to a full disk without being the superuser. */
static void a_full_disk_is_told_and_weighing_goes_on_once_there_is_room(void **state)
{
    struct session session = {.scratch = *state};
    struct weigher *weigher = &session.weigher;
    struct store *store = scratch_open(session.scratch);
    struct lw_error error = {""};
    struct rlimit before, small;
    enum lw_status status = LW_OK;

    assert_int_equal(weigher_begin(weigher, store, &session.scratch->now, &error), LW_OK);
    assert_true(signal(SIGXFSZ, SIG_IGN) != SIG_ERR); /* as the program does: the write fails instead */
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    small = before;
    small.rlim_cur = 600 * 1024;
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    for (int i = 0; status == LW_OK && i < 1000; i++)
        status = weigher_append(weigher, &error);
    told(status, &error);
    assert_int_not_equal(status, LW_OK);
    assert_int_not_equal(weigher_append(weigher, &error), LW_OK);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
    assert_int_equal(weigher_append(weigher, &error), LW_OK);
    scratch_close(store);
    nothing_is_lost(&session);
}

static void an_append_takes_one_sync(void **state)
{
    enum { STEADY = 10 };
    struct session session = {.scratch = *state};
    struct store *store = scratch_open(session.scratch);
    struct faulty *faulty = faulty_vfs();
    struct lw_error error = {""};

    assert_int_equal(weigher_begin(&session.weigher, store, &session.scratch->now, &error), LW_OK);
    for (int i = 0; i < STEADY; i++) {
        faulty->syncs = 0;
        assert_int_equal(weigher_append(&session.weigher, &error), LW_OK);
        assert_int_equal(faulty->syncs, 1);
    }
    scratch_close(store);
}

/* Both work at one batch; who comes second is told, reads what is there, and goes on. */
static int append_against_another(struct session *session, int times)
{
    struct store_options options = scratch_options(session->scratch, STORE_EXISTING);
    struct lw_error error = {""};
    struct store *store;
    int appends = 0;

    if (store_open(session->scratch->path, &options, &store, &error) != LW_OK)
        return 1;
    while (appends < times) {
        enum lw_status status;

        session->weigher.appended = weigher_find(&session->weigher, store);
        status = weigher_append(&session->weigher, &error);
        if (status == LW_OK)
            appends++;
        else if (status != LW_CONFLICT)
            return 2;
    }
    return store_close(store, &error) == LW_OK ? 0 : 3;
}

static void two_programs_append_to_one_batch_without_losing_an_event(void **state)
{
    enum { PROGRAMS = 2, TIMES = 60 };
    struct session session = {.scratch = *state};
    struct store *store = scratch_open(session.scratch);
    struct lw_error error = {""};
    pid_t child[PROGRAMS];
    int exit_status;

    assert_int_equal(weigher_begin(&session.weigher, store, &session.scratch->now, &error), LW_OK);
    scratch_close(store);
    for (int i = 0; i < PROGRAMS; i++) {
        child[i] = fork();
        assert_true(child[i] >= 0);
        if (child[i] == 0)
            _exit(append_against_another(&session, TIMES));
    }
    for (int i = 0; i < PROGRAMS; i++) {
        assert_int_equal(waitpid(child[i], &exit_status, 0), child[i]);
        assert_true(WIFEXITED(exit_status) && WEXITSTATUS(exit_status) == 0);
    }
    store = scratch_open(session.scratch);
    assert_int_equal(weigher_find(&session.weigher, store), PROGRAMS * TIMES);
    scratch_verify(store);
    scratch_close(store);
}

/* A database and its log, as they stood while the program ran. */
struct cut {
    char *bytes, *log;
    size_t n, log_n;
};

static struct cut cut_power(struct scratch *scratch, struct weigher *weigher, int appends)
{
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    struct cut cut;
    char log[SCRATCH_PATH_BYTES + 8];

    assert_int_equal(weigher_begin(weigher, store, &scratch->now, &error), LW_OK);
    for (int i = 0; i < appends; i++)
        assert_int_equal(weigher_append(weigher, &error), LW_OK);
    snprintf(log, sizeof log, "%s-wal", scratch->path);
    cut.bytes = scratch_read(scratch->path, &cut.n);
    cut.log = scratch_read(log, &cut.log_n);
    scratch_close(store);
    return cut;
}

/* How many appends are there when the log holds only its first n bytes. */
static int found_after(struct session *session, const struct cut *cut, size_t n)
{
    struct scratch *scratch = session->scratch;
    char log[SCRATCH_PATH_BYTES + 8];
    struct store *store;
    int found;

    snprintf(scratch->path, sizeof scratch->path, "%.180s/torn.lyeway", scratch->folder);
    snprintf(log, sizeof log, "%s-wal", scratch->path);
    scratch_write(scratch->path, cut->bytes, cut->n);
    scratch_write(log, cut->log, n);
    store = scratch_open(scratch);
    found = weigher_find(&session->weigher, store);
    scratch_verify(store);
    scratch_close(store);
    return found;
}

/* The log by https://www.sqlite.org/fileformat2.html#the_write_ahead_log: 32 bytes, then frames of 24 and a page. */
static void a_record_torn_at_any_place_is_whole_up_to_there(void **state)
{
    enum { MANY = 8, HEADER = 32, FRAME = 24 + 4096 };
    struct session session = {.scratch = *state};
    struct cut cut = cut_power(session.scratch, &session.weigher, MANY);
    int before = -1, steps = 0;

    for (size_t n = HEADER; n <= cut.log_n; n += FRAME / 2) {
        int found = found_after(&session, &cut, n);

        assert_true(found == before || found == before + 1);
        steps += found > before;
        before = found;
    }
    assert_int_equal(steps, MANY + 1);
    assert_int_equal(found_after(&session, &cut, cut.log_n), MANY);
    /* A bit that turned over ends it there. */
    cut.log[cut.log_n - FRAME / 2] ^= 4;
    assert_int_equal(found_after(&session, &cut, cut.log_n), MANY - 1);
    free(cut.bytes);
    free(cut.log);
}

/* One coming from the first version in which operation `at` fails: it has come, or it has not; nothing else. */
static bool visit_migration(struct scratch *scratch, const struct recipe *recipe, int at, bool forever)
{
    struct faulty *faulty = faulty_vfs();
    struct store_options options = scratch_options(scratch, STORE_EXISTING);
    struct recipe *loaded = malloc(sizeof *loaded);
    struct lw_error error = {""};
    struct store *store = NULL;
    int64_t id;

    assert_non_null(loaded);
    snprintf(scratch->path, sizeof scratch->path, "%.180s/old-%d-%d.lyeway", scratch->folder, at, forever);
    faulty->at = 0;
    id = first_version_make(scratch, recipe);
    *faulty = (struct faulty){.at = at, .forever = forever};
    told(store_open(scratch->path, &options, &store, &error), &error);
    store_close(store, NULL);

    bool fired = faulty->fired;

    faulty->at = 0;
    store = scratch_open(scratch);
    assert_int_equal(recipes_load(store, id, 1, loaded, NULL, &error), LW_OK);
    assert_string_equal(loaded->note, recipe->note);
    assert_int_equal(loaded->oils, recipe->oils);
    scratch_verify(store);
    scratch_close(store);
    free(loaded);
    return fired;
}

static void coming_from_an_older_version_loses_nothing_when_the_disk_fails_at_any_point(void **state)
{
    struct recipe *recipe = malloc(sizeof *recipe);
    struct scratch *scratch = *state;

    assert_non_null(recipe);
    random_recipe(&scratch->chance, recipe);
    for (int forever = 0; forever < 2; forever++) {
        int at = 1;

        while (at < POINTS_MOST && visit_migration(scratch, recipe, at, forever))
            at++;
        assert_true(at > 20);
        assert_true(at < POINTS_MOST);
    }
    free(recipe);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, scratch_setup, scratch_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(no_event_acknowledged_is_lost_when_the_program_is_killed),
        TEST(a_disk_that_fails_at_any_point_loses_no_event),
        TEST(a_full_disk_is_told_and_weighing_goes_on_once_there_is_room),
        TEST(an_append_takes_one_sync),
        TEST(two_programs_append_to_one_batch_without_losing_an_event),
        TEST(a_record_torn_at_any_place_is_whole_up_to_there),
        TEST(coming_from_an_older_version_loses_nothing_when_the_disk_fails_at_any_point),
    };

    faulty_vfs();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
