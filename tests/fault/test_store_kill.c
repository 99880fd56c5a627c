/* A program that is killed at any moment: what it had acknowledged is there, whole. `make check` has a few rounds of it;
 * LYEWAY_TORTURE=n has n. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "fault/maker.h"
#include "fault/victim.h"

struct session {
    struct scratch *scratch;
    struct maker *maker;
};

/* In the child: opens, makes the recipe if it is not there, and saves without end, telling the number of each save. */
static void save_without_end(void *context, int acknowledge)
{
    struct scratch *scratch = ((struct session *)context)->scratch;
    struct maker *maker = ((struct session *)context)->maker;
    struct store_options options = scratch_options(scratch, STORE_CREATE);
    struct lw_error error = {""};
    struct store *store;

    if (store_open(scratch->path, &options, &store, &error) != LW_OK)
        _exit(1);
    if (recipes_find(store, NULL, "Blossoms and leaves", &maker->id, NULL) == LW_OK) {
        if (recipes_load(store, maker->id, 0, &maker->recipe, &maker->version, &error) != LW_OK)
            _exit(2);
        maker->store = store;
        maker->saved = (int)maker->recipe.residue;
    } else if (maker_begin(maker, store, &scratch->now, &error) != LW_OK) {
        _exit(3);
    }
    for (;;)
        if (!victim_tell(acknowledge, maker->saved) || store_idle(store, &error) != LW_OK ||
            maker_save(maker, &scratch->now, &error) != LW_OK)
            _exit(4);
}

static void nothing_acknowledged_is_lost_when_the_program_is_killed(void **state)
{
    struct scratch *scratch = *state;
    struct maker *maker = calloc(1, sizeof *maker);
    int found = -1;

    assert_non_null(maker);
    for (int round = 0; victim_goes_on(round, found); round++) {
        int acknowledged = victim_kill(&scratch->chance, save_without_end, &(struct session){scratch, maker}, found);
        struct store *store = scratch_open(scratch);

        found = maker_find(maker, store);
        if (found < acknowledged || found > acknowledged + 1)
            fail_msg("round %d: save %d was acknowledged, but %d is there", round, acknowledged, found);
        scratch_verify(store);
        scratch_close(store);
    }
    assert_true(found > victim_rounds()); /* it got somewhere */
    print_message("%d rounds, %d saves, none lost\n", victim_rounds(), found);
    free(maker);
}

/* Stores that are new each time: killed while the tables are made. */
static void a_store_that_was_being_made_can_be_made_again(void **state)
{
    struct scratch *scratch = *state;
    struct maker *maker = calloc(1, sizeof *maker);
    char first[SCRATCH_PATH_BYTES];

    assert_non_null(maker);
    memcpy(first, scratch->path, sizeof first);
    for (int round = 0; round < victim_rounds(); round++) {
        pid_t child;

        snprintf(scratch->path, sizeof scratch->path, "%.200s-%d", first, round);
        child = fork();
        assert_true(child >= 0);
        if (child == 0) {
            struct store_options options = scratch_options(scratch, STORE_CREATE);
            struct store *store;

            store_open(scratch->path, &options, &store, NULL);
            pause();
        }
        victim_wait(&scratch->chance, 0, VICTIM_MORE_MS / 2);
        assert_int_equal(kill(child, SIGKILL), 0);
        assert_int_equal(waitpid(child, NULL, 0), child);

        struct store *store = scratch_open(scratch);

        scratch_verify(store);
        scratch_close(store);
    }
    print_message("%d rounds, each made again whole\n", victim_rounds());
    free(maker);
}

/* Both work on one recipe; who comes second is told, takes what is there, and goes on. */
static int save_against_another(struct scratch *scratch, struct maker *maker, int times)
{
    struct store_options options = scratch_options(scratch, STORE_EXISTING);
    struct lw_error error = {""};
    struct store *store;
    int saves = 0;

    if (store_open(scratch->path, &options, &store, &error) != LW_OK)
        _exit(1);
    maker->store = store;
    while (saves < times) {
        enum lw_status status;

        if (recipes_load(store, maker->id, 0, &maker->recipe, &maker->version, &error) != LW_OK)
            _exit(2);
        maker->saved = (int)maker->recipe.residue;
        status = maker_save(maker, &scratch->now, &error);
        if (status == LW_OK)
            saves++;
        else if (status != LW_CONFLICT)
            _exit(3);
    }
    return store_close(store, &error) == LW_OK ? 0 : 4;
}

static void two_programs_save_without_losing_a_step(void **state)
{
    enum { PROGRAMS = 2, TIMES = 60 };
    struct scratch *scratch = *state;
    struct maker *maker = calloc(1, sizeof *maker);
    struct store *store = scratch_open(scratch);
    struct lw_error error = {""};
    pid_t child[PROGRAMS];
    int exit_status;

    assert_non_null(maker);
    assert_int_equal(maker_begin(maker, store, &scratch->now, &error), LW_OK);
    scratch_close(store);
    for (int i = 0; i < PROGRAMS; i++) {
        child[i] = fork();
        assert_true(child[i] >= 0);
        if (child[i] == 0)
            _exit(save_against_another(scratch, maker, TIMES));
    }
    for (int i = 0; i < PROGRAMS; i++) {
        assert_int_equal(waitpid(child[i], &exit_status, 0), child[i]);
        assert_true(WIFEXITED(exit_status) && WEXITSTATUS(exit_status) == 0);
    }
    store = scratch_open(scratch);
    assert_int_equal(maker_find(maker, store), PROGRAMS * TIMES); /* each save counted one up from what was there */
    assert_int_equal(maker->version, 1 + PROGRAMS * TIMES);
    scratch_verify(store);
    scratch_close(store);
    free(maker);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, scratch_setup, scratch_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(nothing_acknowledged_is_lost_when_the_program_is_killed),
        TEST(a_store_that_was_being_made_can_be_made_again),
        TEST(two_programs_save_without_losing_a_step),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
