/* kitchen_bench.c - see kitchen_bench.h. */
#include "kitchen_bench.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "work/records.h"

enum { STEPS_MOST = 200 };

static void clock_of(void *context, struct lw_now *now)
{
    *now = ((struct kitchen *)context)->now;
}

static void open_workshop(struct kitchen *kitchen)
{
    struct workshop_options options = {.path = kitchen->scratch->path,
                                       .store = scratch_options(kitchen->scratch, STORE_CREATE),
                                       .now = clock_of,
                                       .context = kitchen};
    struct lw_error error = {""};

    if (workshop_open(&options, &kitchen->workshop, &error) != LW_OK)
        fail_msg("%s", error.text);
}

int kitchen_setup(void **state)
{
    struct kitchen *kitchen = calloc(1, sizeof *kitchen);
    struct records_count count;
    struct lw_error error = {""};
    void *scratch = NULL;
    char *text;
    size_t n;

    assert_non_null(kitchen);
    scratch_setup(&scratch);
    kitchen->scratch = scratch;
    kitchen->now = (struct lw_now){.utc_s = 1773486000, .steady_ms = 1000}; /* 2026-03-14, 11:00 */
    open_workshop(kitchen);
    text = scratch_read("sample-data/recipes.json", &n);
    if (records_import(kitchen->workshop, &(struct records_source){"demo", text, n}, 1, &count, &error) != LW_OK)
        fail_msg("%s", error.text);
    free(text);
    *state = kitchen;
    return 0;
}

int kitchen_teardown(void **state)
{
    struct kitchen *kitchen = *state;
    void *scratch = kitchen->scratch;
    struct lw_error error = {""};

    assert_int_equal(workshop_close(kitchen->workshop, &error), LW_OK);
    scratch_teardown(&scratch);
    free(kitchen);
    return 0;
}

void kitchen_reopen(struct kitchen *kitchen)
{
    struct lw_error error = {""};

    assert_int_equal(workshop_close(kitchen->workshop, &error), LW_OK);
    open_workshop(kitchen);
}

void kitchen_wait(struct kitchen *kitchen, int seconds)
{
    kitchen->now.utc_s += seconds;
    kitchen->now.steady_ms += seconds * INT64_C(1000);
}

struct run_choice kitchen_choice(struct kitchen *kitchen, const char *name)
{
    struct run_choice choice;
    struct lw_error error = {""};
    int64_t id = 0;

    if (recipes_find(workshop_store(kitchen->workshop), NULL, name, &id, &error) != LW_OK ||
        run_choose(kitchen->workshop, id, &choice, &error) != LW_OK)
        fail_msg("%s", error.text);
    return choice;
}

struct run *kitchen_open(struct kitchen *kitchen, int64_t id)
{
    struct run *run = NULL;
    struct lw_error error = {""};

    if (run_open(kitchen->workshop, id, &run, &error) != LW_OK)
        fail_msg("%s", error.text);
    return run;
}

struct run *kitchen_start(struct kitchen *kitchen, const char *name)
{
    struct run_choice choice = kitchen_choice(kitchen, name);
    struct lw_error error = {""};
    int64_t id = 0;

    if (run_start(kitchen->workshop, &choice, &id, &error) != LW_OK)
        fail_msg("%s", error.text);
    return kitchen_open(kitchen, id);
}

const struct step *kitchen_at(const struct run *run)
{
    int at = run_at(run);

    assert_true(at >= 0);
    return &run_batch(run)->step[at].step;
}

void kitchen_weigh(struct kitchen *kitchen, struct run *run, int64_t reading_ug)
{
    char echo[256];
    struct lw_error error = {""};

    if (run_weigh(run, &kitchen->now, reading_ug, echo, sizeof echo, &error) != LW_OK)
        fail_msg("%s", error.text);
}

static enum lw_status do_step(struct kitchen *kitchen, struct run *run, struct lw_error *error)
{
    struct ask ask;
    char echo[256];

    run_ask(run, run_at(run), &kitchen->now, &ask);
    switch (ask.kind) {
    case ASK_READING:
        return run_weigh(run, &kitchen->now, ask.reading_ug, echo, sizeof echo, error);
    case ASK_TEMPERATURES:
        return run_combine(run, &kitchen->now, 35, 37, error);
    case ASK_TWO_COUNTS:
        return kitchen_at(run)->kind == STEP_CUT ? run_cut(run, &kitchen->now, 10, 80.5, error)
                                                 : run_recount(run, &kitchen->now, 44, 2, error);
    case ASK_ENTER:
    case ASK_COUNT:
    case ASK_STAGE:
    case ASK_PIECES:
        break;
    }
    return run_done(run, &kitchen->now, error);
}

void kitchen_step(struct kitchen *kitchen, struct run *run)
{
    struct lw_error error = {""};

    kitchen_wait(kitchen, 60);
    if (do_step(kitchen, run, &error) != LW_OK)
        fail_msg("%s", error.text);
    if (run_save(run, &error) != LW_OK)
        fail_msg("%s", error.text);
}

void kitchen_until(struct kitchen *kitchen, struct run *run, enum step_kind kind)
{
    for (int i = 0; i < STEPS_MOST; i++) {
        if (kitchen_at(run)->kind == kind)
            return;
        kitchen_step(kitchen, run);
    }
    fail_msg("no such step came up");
}

static void same_charges(const struct charge *a, const struct charge *b, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        assert_int_equal(a[i].has, b[i].has);
        assert_int_equal(a[i].mass_ug, b[i].mass_ug);
        assert_int_equal(a[i].half_ug, b[i].half_ug);
        assert_int_equal(a[i].scale, b[i].scale);
    }
}

static void same_steps(const struct batch *a, const struct batch *b)
{
    assert_int_equal(a->steps, b->steps);
    for (int i = 0; i < a->steps; i++) {
        assert_int_equal(a->step[i].step.id, b->step[i].step.id);
        assert_int_equal(a->step[i].state, b->step[i].state);
        assert_int_equal(a->step[i].done_s, b->step[i].done_s);
        assert_int_equal(a->step[i].step.target_ug, b->step[i].step.target_ug);
    }
}

static void same_counts(const struct batch *a, const struct batch *b)
{
    assert_int_equal(a->kinds, b->kinds);
    for (int i = 0; i < a->kinds; i++) {
        assert_int_equal(a->pieces[i].good, b->pieces[i].good);
        assert_int_equal(a->pieces[i].rejects, b->pieces[i].rejects);
        assert_int_equal(a->pieces[i].scraped, b->pieces[i].scraped);
        assert_int_equal(a->pieces[i].piped, b->pieces[i].piped);
        assert_int_equal(a->pieces[i].left_ug, b->pieces[i].left_ug);
        assert_int_equal(a->pieces[i].last_s, b->pieces[i].last_s);
    }
    assert_int_equal(a->timers, b->timers);
    for (int i = 0; i < a->timers; i++) {
        assert_int_equal(a->timer[i].event, b->timer[i].event);
        assert_int_equal(a->timer[i].start_s, b->timer[i].start_s);
        assert_string_equal(a->timer[i].name, b->timer[i].name);
    }
}

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

void kitchen_same(const struct run *one, const struct run *two)
{
    const struct batch *a = run_batch(one), *b = run_batch(two);

    same_steps(a, b);
    same_counts(a, b);
    same_charges(a->charges.oil, b->charges.oil, COUNT(a->charges.oil));
    same_charges(a->charges.alkali, b->charges.alkali, COUNT(a->charges.alkali));
    same_charges(a->charges.added_lye, b->charges.added_lye, COUNT(a->charges.added_lye));
    same_charges(&a->charges.water, &b->charges.water, 1);
    same_charges(a->charges.liquid, b->charges.liquid, COUNT(a->charges.liquid));
    same_charges(a->charges.additive, b->charges.additive, COUNT(a->charges.additive));
    same_charges(a->poured, b->poured, COUNT(a->poured));
    assert_true(a->charges.lye_used == b->charges.lye_used);
    assert_int_equal(a->phase, b->phase);
    assert_int_equal(a->combined_s, b->combined_s);
    assert_int_equal(a->stage, b->stage);
    assert_int_equal(a->finished_s, b->finished_s);
    assert_int_equal(a->last_event, b->last_event);
    assert_true(run_charged(one)->margin.nominal == run_charged(two)->margin.nominal);
    assert_true(run_charged(one)->margin.worst.lo == run_charged(two)->margin.worst.lo);
    assert_int_equal(run_charged(one)->batter_ug, run_charged(two)->batter_ug);
}

void kitchen_refuses(enum lw_status status, const struct lw_error *error, const char *part)
{
    assert_int_equal(status, LW_INVALID);
    if (!strstr(error->text, part))
        fail_msg("\"%s\" does not say \"%s\"", error->text, part);
}

struct ask kitchen_asked(struct kitchen *kitchen, const struct run *run)
{
    struct ask ask;

    run_ask(run, run_at(run), &kitchen->now, &ask);
    return ask;
}
