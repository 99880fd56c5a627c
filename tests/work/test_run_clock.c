/* Timers, stages of trace, pieces, and what else is stamped at the bench. Recipes are the demo's. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/mass.h"
#include "kitchen_bench.h"

static void timers_start_with_combining_and_go_on_after_the_program_was_ended(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    int64_t id = run_batch(run)->head.id, combined;

    kitchen_until(kitchen, run, STEP_STAND);
    combined = run_batch(run)->combined_s;
    run_free(run);
    kitchen_reopen(kitchen);
    run = kitchen_open(kitchen, id);
    assert_int_equal(run_batch(run)->timers, 2);
    assert_string_equal(run_batch(run)->timer[0].name, "workable");
    assert_int_equal(run_batch(run)->timer[0].start_s, combined);
    assert_int_equal(run_batch(run)->timer[1].repeat_s, 600);
    kitchen_step(kitchen, run); /* standing is over, and with it the looking */
    assert_int_equal(run_batch(run)->timers, 1);
    run_free(run);
}

static void a_stamp_moves_the_forecast_and_ends_what_can_be_put_right(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;
    struct ask before, after;

    assert_int_equal(run_stage(run, &kitchen->now, 2, &error), LW_INVALID);
    kitchen_until(kitchen, run, STEP_EMULSIFY);
    assert_int_equal(run_batch(run)->phase, PHASE_COMBINED);
    assert_int_equal(run_stage(run, &kitchen->now, 4, &error), LW_OK);
    assert_int_equal(run_batch(run)->phase, PHASE_SPLIT); /* past thin trace */
    kitchen_until(kitchen, run, STEP_STAND);
    before = kitchen_asked(kitchen, run);
    assert_int_equal(run_stage(run, &kitchen->now, 5, &error), LW_OK);
    after = kitchen_asked(kitchen, run);
    /* The last line says whose word it is; the forecast is before it. */
    assert_string_not_equal(before.line[before.lines - 2], after.line[after.lines - 2]);
    assert_int_equal(run_batch(run)->stage_s[5], kitchen->now.utc_s);
    run_free(run);
}

static const struct batch_timer *window_of(const struct run *run)
{
    for (int i = 0; i < run_batch(run)->timers; i++)
        if (strcmp(run_batch(run)->timer[i].name, "workable") == 0)
            return &run_batch(run)->timer[i];
    return NULL;
}

static void a_batter_that_thickens_early_has_less_time_left(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;
    int64_t end;

    kitchen_until(kitchen, run, STEP_STAND);
    end = window_of(run)->start_s + window_of(run)->length_s;
    assert_int_equal(run_stage(run, &kitchen->now, 4, &error), LW_OK); /* thick some ten minutes after combining */
    assert_non_null(window_of(run));
    assert_true(window_of(run)->start_s + window_of(run)->length_s < end - 1800);
    assert_int_equal(run_stage(run, &kitchen->now, 7, &error), LW_OK); /* set up: there is none left */
    assert_null(window_of(run));
    run_free(run);
}

static void pieces_are_counted_one_by_one_and_taken_back(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct piping piping;
    struct lw_error error;

    kitchen_until(kitchen, run, STEP_PIPE);
    kitchen_refuses(run_count(run, &kitchen->now, EVENT_PIECES, -1, &error), &error, "none to take back");
    kitchen_refuses(run_count(run, &kitchen->now, EVENT_SCRAPED, 1, &error), &error, "no more rejects");
    for (int i = 0; i < 31; i++) {
        kitchen_wait(kitchen, 50);
        assert_int_equal(run_count(run, &kitchen->now, EVENT_PIECES, 1, &error), LW_OK);
    }
    assert_int_equal(run_count(run, &kitchen->now, EVENT_REJECTS, 2, &error), LW_OK);
    assert_int_equal(run_count(run, &kitchen->now, EVENT_SCRAPED, 1, &error), LW_OK);
    assert_int_equal(run_count(run, &kitchen->now, EVENT_PIECES, -1, &error), LW_OK);
    assert_int_equal(run_left(run, &kitchen->now, mass_ug(36), true, &error), LW_OK);
    run_piping(run, &kitchen->now, &piping);
    assert_int_equal(piping.good, 30);
    assert_int_equal(piping.rejects, 1);
    assert_int_equal(piping.wanted, 44);
    assert_int_equal(piping.to_go, 14);
    assert_true(piping.more > 0 && piping.more < 20); /* 36 g less what stays in a bag, at 2.6 g a piece */
    assert_string_equal(kitchen_asked(kitchen, run).large, "30");
    assert_int_equal(run_done(run, &kitchen->now, &error), LW_OK);
    kitchen_until(kitchen, run, STEP_RECOUNT);
    assert_int_equal(run_recount(run, &kitchen->now, 28, 3, &error), LW_OK);
    assert_int_equal(run_batch(run)->pieces[0].good, 28);
    assert_true(run_batch(run)->pieces[0].recounted);
    assert_int_equal(run_batch(run)->pieces[0].piped, 31); /* 30 good ones and the reject that was not scraped back */
    run_free(run);
}

static enum step_state recount_of_blossoms(const struct run *run)
{
    const struct batch *batch = run_batch(run);

    for (int i = 0; i < batch->steps; i++)
        if (batch->step[i].step.kind == STEP_RECOUNT && batch->step[i].step.what.index == batch->pieces[0].portion)
            return batch->step[i].state;
    fail();
    return STEP_DONE;
}

/* And as soon as the piping is to be done after all, they are to be counted as well. */
static void pieces_that_were_not_piped_are_not_counted_after_lifting(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error = {""};
    char echo[256];

    kitchen_until(kitchen, run, STEP_PIPE);
    assert_int_equal(run_skip(run, &kitchen->now, &error), LW_OK);
    assert_int_equal(recount_of_blossoms(run), STEP_SKIPPED);
    assert_int_equal(run_back(run, &kitchen->now, echo, sizeof echo, &error), LW_OK);
    assert_int_equal(recount_of_blossoms(run), STEP_TODO);
    assert_int_equal(run_count(run, &kitchen->now, EVENT_PIECES, 1, &error), LW_OK);
    assert_int_equal(run_skip(run, &kitchen->now, &error), LW_OK);
    assert_int_equal(recount_of_blossoms(run), STEP_TODO);
    run_free(run);
}

static bool take_pieces(void *context, const struct pieces_line *line)
{
    *(struct pieces_line *)context = *line;
    return true;
}

static int on_shelf(struct kitchen *kitchen, struct pieces_line *line)
{
    struct lw_error error = {""};

    memset(line, 0, sizeof *line);
    if (batches_pieces(workshop_store(kitchen->workshop), take_pieces, line, &error) != LW_OK)
        fail_msg("%s", error.text);
    return line->on_shelf;
}

static void pieces_go_onto_the_shelf_when_they_are_counted_and_from_there_onto_a_loaf(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *blossoms = kitchen_start(kitchen, BLOSSOMS), *base;
    struct pieces_line line;
    struct lw_error error = {""};
    char echo[256];

    kitchen_until(kitchen, blossoms, STEP_RECOUNT);
    assert_int_equal(on_shelf(kitchen, &line), 0); /* piped, but not lifted yet */
    assert_int_equal(run_recount(blossoms, &kitchen->now, 40, 4, &error), LW_OK);
    assert_int_equal(run_save(blossoms, &error), LW_OK);
    assert_int_equal(on_shelf(kitchen, &line), 40);
    assert_string_equal(line.kind, "quince blossom");
    assert_int_equal(line.made_s, kitchen->now.utc_s);
    assert_int_equal(run_back(blossoms, &kitchen->now, echo, sizeof echo, &error), LW_OK);
    assert_int_equal(run_recount(blossoms, &kitchen->now, 38, 6, &error), LW_OK); /* counted once more */
    assert_int_equal(run_save(blossoms, &error), LW_OK);
    assert_int_equal(on_shelf(kitchen, &line), 38);
    base = kitchen_start(kitchen, "Quince Orchard base");
    kitchen_until(kitchen, base, STEP_PLACE);
    kitchen_refuses(run_place(base, &kitchen->now, 39, &line, &error), &error, "38 on the shelf");
    assert_int_equal(run_place(base, &kitchen->now, 24, &line, &error), LW_OK);
    assert_int_equal(kitchen_at(base)->kind, STEP_PLACE); /* there may be leaves too */
    assert_int_equal(run_save(base, &error), LW_OK);
    assert_int_equal(on_shelf(kitchen, &line), 14);
    run_free(base);
    run_free(blossoms);
}

static void when_it_is_going_what_can_be_left_out_is(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    assert_int_equal(run_going(run, &kitchen->now, &error), LW_INVALID);
    kitchen_until(kitchen, run, STEP_POUR_OUT);
    assert_int_equal(run_going(run, &kitchen->now, &error), LW_OK);
    assert_true(run_batch(run)->going);
    assert_int_equal(kitchen_at(run)->kind, STEP_FILL_BAGS);
    run_free(run);
}

static void safety_notes_are_acknowledged_once_a_day_for_all_batches(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *one = kitchen_start(kitchen, BLOSSOMS), *two = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    assert_true(run_acknowledge_due(one, &kitchen->now));
    assert_int_equal(run_acknowledge(one, &kitchen->now, &error), LW_OK);
    assert_int_equal(run_save(one, &error), LW_OK);
    assert_false(run_acknowledge_due(two, &kitchen->now));
    kitchen_wait(kitchen, 86400);
    assert_true(run_acknowledge_due(two, &kitchen->now));
    run_free(one);
    run_free(two);
}

static void a_splash_starts_twenty_minutes_of_rinsing_once(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    assert_int_equal(run_splash(run, &kitchen->now, &error), LW_OK);
    kitchen_wait(kitchen, 60);
    assert_int_equal(run_splash(run, &kitchen->now, &error), LW_OK);
    assert_int_equal(run_batch(run)->timers, 1);
    assert_int_equal(run_batch(run)->timer[0].length_s, 1200);
    run_free(run);
}

static void a_batch_set_aside_takes_nothing_more(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    kitchen_until(kitchen, run, STEP_EMULSIFY);
    assert_int_equal(run_set_aside(run, &kitchen->now, "oil forgotten", &error), LW_OK);
    kitchen_refuses(run_done(run, &kitchen->now, &error), &error, "is closed");
    assert_int_equal(run_note(run, &kitchen->now, "kept for rebatching", &error), LW_OK);
    run_free(run);
}

static void own_steps_come_before_the_one_at_hand(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    kitchen_step(kitchen, run);
    assert_int_equal(run_add_step(run, &kitchen->now, "light the stove", &error), LW_OK);
    assert_int_equal(kitchen_at(run)->kind, STEP_OTHER);
    assert_string_equal(kitchen_asked(kitchen, run).title, "light the stove");
    assert_int_equal(run_add_step(run, &kitchen->now, "", &error), LW_INVALID);
    kitchen_step(kitchen, run);
    assert_int_equal(kitchen_at(run)->kind, STEP_WEIGH);
    run_free(run);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, kitchen_setup, kitchen_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(timers_start_with_combining_and_go_on_after_the_program_was_ended),
        TEST(a_stamp_moves_the_forecast_and_ends_what_can_be_put_right),
        TEST(a_batter_that_thickens_early_has_less_time_left),
        TEST(pieces_are_counted_one_by_one_and_taken_back),
        TEST(pieces_that_were_not_piped_are_not_counted_after_lifting),
        TEST(pieces_go_onto_the_shelf_when_they_are_counted_and_from_there_onto_a_loaf),
        TEST(when_it_is_going_what_can_be_left_out_is),
        TEST(safety_notes_are_acknowledged_once_a_day_for_all_batches),
        TEST(a_splash_starts_twenty_minutes_of_rinsing_once),
        TEST(a_batch_set_aside_takes_nothing_more),
        TEST(own_steps_come_before_the_one_at_hand),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
