/* run_after.c - what is said of a batch once it is made: bars on the scale, tests, its outcome, what was left and measured. */
#include <math.h>
#include <string.h>

#include "base/day.h"
#include "base/error.h"
#include "base/mass.h"
#include "base/text.h"
#include "work/run_inside.h"

enum { DOUBT_REASON_BYTES = 80 /* of what was said when it was held back */ };

static const double ph_most = 14, batter_lightest_g_ml = 0.2, batter_heaviest_g_ml = 2;

static enum lw_status record(struct run *run, const struct lw_now *now, struct batch_event event,
                             struct lw_error *error)
{
    enum lw_status status = run_append(run, now, event, error);

    if (status == LW_OK)
        run_reckon(run);
    return status;
}

bool run_said_after(enum event_kind kind)
{
    static const bool after[EVENT_KIND_COUNT] = {
        [EVENT_NOTE] = true,     [EVENT_CURE_WEIGHED] = true, [EVENT_TESTED] = true,  [EVENT_OUTCOME] = true,
        [EVENT_LEFT_OUT] = true, [EVENT_RESIDUE] = true,      [EVENT_DENSITY] = true,
    };

    return after[kind];
}

/* A bar that joins later would begin at its full mass in the middle of the curve. */
static bool joins_late(const struct run *run, const struct lw_now *now, int marker)
{
    const struct batch *batch = &run->batch;

    for (int i = 0; i < batch->cure_weighings; i++)
        if (batch->cure[i].marker == marker)
            return false;
    return batch->cure_weighings > 0 && now->utc_s - batch->cure[0].at_s > DAY_S;
}

enum lw_status run_cure_may(const struct run *run, const struct lw_now *now, int marker, int64_t mass_ug,
                            struct lw_error *error)
{
    if (marker < 1 || marker > BATCH_MARKERS)
        return lw_fail(error, LW_INVALID, "Marker bars are numbered 1 to %d.", BATCH_MARKERS);
    if (!run->batch.cut_s)
        return lw_fail(error, LW_INVALID, "The batch is not cut yet; a bar is weighed from the cut on.");
    if (mass_ug <= 0 || mass_ug > run->charged.batter_ug)
        return lw_fail(error, LW_INVALID, "A bar weighs more than nothing and less than the batter (%s).",
                       run_mass(run, run->charged.batter_ug, 0).text);
    if (joins_late(run, now, marker))
        return lw_fail(error, LW_INVALID,
                       "Bar %d is none of the marker bars; those are the ones weighed on the first day.", marker);
    return LW_OK;
}

enum lw_status run_cure_weigh(struct run *run, const struct lw_now *now, int marker, int64_t mass_ug,
                              struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_CURE_WEIGHED);
    enum lw_status status = run_cure_may(run, now, marker, mass_ug, error);

    if (status != LW_OK)
        return status;
    event.number[0] = marker;
    event.mass_ug = mass_ug;
    return record(run, now, event, error);
}

enum lw_status run_tested(struct run *run, const struct lw_now *now, enum batch_test test, double value,
                          const char *text, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_TESTED);

    if (!run->batch.combined_s)
        return lw_fail(error, LW_INVALID, "There is nothing to test before lye and oils are combined.");
    if (test == TEST_PH && !(value >= 0 && value <= ph_most))
        return lw_fail(error, LW_INVALID, "A pH goes from 0 to 14.");
    event.number[0] = test;
    event.number[1] = test == TEST_PH ? value : value != 0;
    text_copy(event.text, sizeof event.text, text);
    return record(run, now, event, error);
}

/* ---- the outcome */

/* The last result of each test speaks; -1: there is none. */
static int last_test(const struct batch *batch, enum batch_test test)
{
    for (int i = batch->tests - 1; i >= 0; i--)
        if (batch->test[i].test == test)
            return i;
    return -1;
}

static bool test_failed(const struct batch *batch, enum batch_test test)
{
    int last = last_test(batch, test);

    return last >= 0 && test != TEST_PH && batch->test[last].value == 0;
}

bool run_release_doubt(const struct run *run, const struct lw_now *now, char *sentence, size_t size)
{
    const struct batch *batch = &run->batch;
    double least = run_input(run)->reference->practice->cure_least_days;
    int64_t from = batch->cut_s ? batch->cut_s : batch->finished_s;
    double days = (double)(now->utc_s - from) / DAY_S;

    sentence[0] = '\0';
    if (batch->set_aside)
        text_add(sentence, size, "It was set aside on the bench as not to be used. ");
    if (batch->outcome == OUTCOME_ON_HOLD || batch->outcome == OUTCOME_REJECTED)
        text_add(sentence, size, "It is %s: %.*s. ", batch->outcome == OUTCOME_ON_HOLD ? "on hold" : "rejected",
                 DOUBT_REASON_BYTES, run->event[batch->outcome_event - 1].text);
    if (test_failed(batch, TEST_TONGUE))
        text_add(sentence, size, "The last tongue test was not as it should be. ");
    if (test_failed(batch, TEST_LOOK))
        text_add(sentence, size, "The last look at it was not as it should be. ");
    if (last_test(batch, TEST_TONGUE) < 0 && last_test(batch, TEST_PH) < 0)
        text_add(sentence, size, "No test for free alkali is on record: neither a tongue test nor a pH. ");
    if (days < least)
        text_add(sentence, size, "It is %d days old; the usual least is %d. ", (int)days, (int)least);
    if (sentence[0])
        sentence[strlen(sentence) - 1] = '\0';
    return sentence[0] != '\0';
}

enum lw_status run_outcome(struct run *run, const struct lw_now *now, enum batch_outcome outcome, const char *why,
                           struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_OUTCOME);
    char doubt[RUN_DOUBT_BYTES];

    if (!run->batch.finished_s)
        return lw_fail(error, LW_INVALID, "The batch is not finished yet; its outcome is said after that.");
    if (outcome != OUTCOME_RELEASED && !why[0])
        return lw_fail(error, LW_INVALID, "Say why it is %s; the reason stays with the batch.",
                       outcome == OUTCOME_ON_HOLD ? "on hold" : "rejected");
    if (outcome == OUTCOME_RELEASED && !why[0] && run_release_doubt(run, now, doubt, sizeof doubt))
        return lw_fail(error, LW_INVALID, "%s Say why it is released all the same.", doubt);
    event.number[0] = outcome;
    text_copy(event.text, sizeof event.text, why);
    return record(run, now, event, error);
}

/* ---- what it teaches */

enum lw_status run_leave_out(struct run *run, const struct lw_now *now, const char *why, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_LEFT_OUT);

    if (run->batch.left_out)
        return lw_fail(error, LW_INVALID, "The batch is left out already.");
    if (!why[0])
        return lw_fail(error, LW_INVALID, "Say why it is left out; the reason stays with the batch.");
    text_copy(event.text, sizeof event.text, why);
    return record(run, now, event, error);
}

enum lw_status run_count_again(struct run *run, const struct lw_now *now, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_TAKEN_BACK);

    if (!run->batch.left_out)
        return lw_fail(error, LW_INVALID, "The batch counts already.");
    event.other = run->batch.left_out;
    return record(run, now, event, error);
}

/* ---- taking back */

const struct batch_event *run_last_said(const struct run *run)
{
    for (int i = run->events - 1; run->batch.finished_s && i >= 0 && run->event[i].kind != EVENT_FINISHED; i--)
        if (run_said_after(run->event[i].kind) && !run->event[i].taken_back)
            return &run->event[i];
    return NULL;
}

enum lw_status run_unsay(struct run *run, const struct lw_now *now, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_TAKEN_BACK);
    const struct batch_event *last = run_last_said(run);

    if (!last)
        return lw_fail(error, LW_INVALID, "Nothing was said of it since it was finished.");
    event.other = last->id;
    return record(run, now, event, error);
}

/* ---- what was left and measured */

enum lw_status run_residue(struct run *run, const struct lw_now *now, enum residue_place place, int64_t mass_ug,
                           int vessels, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_RESIDUE);

    if (!run->batch.combined_s)
        return lw_fail(error, LW_INVALID, "There is no batter yet that could be left.");
    if (vessels < 1 || vessels > 1000)
        return lw_fail(error, LW_INVALID, "Say how many were weighed together, 1 to 1000.");
    if (mass_ug < 0 || mass_ug > run->charged.batter_ug)
        return lw_fail(error, LW_INVALID, "What is left is between nothing and the whole batter (%s).",
                       run_mass(run, run->charged.batter_ug, 0).text);
    event.number[0] = place;
    event.number[1] = vessels;
    event.mass_ug = mass_ug;
    return record(run, now, event, error);
}

enum lw_status run_density(struct run *run, const struct lw_now *now, int64_t mass_ug, double ml,
                           struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_DENSITY);

    if (!run->batch.combined_s)
        return lw_fail(error, LW_INVALID, "There is no batter yet that could be measured.");
    if (!(ml > 0) || mass_ug <= 0 || mass_g(mass_ug) < batter_lightest_g_ml * ml ||
        mass_g(mass_ug) > batter_heaviest_g_ml * ml)
        return lw_fail(error, LW_INVALID,
                       "A mL of batter weighs about a gram; give the mass of the batter alone and its mL.");
    event.number[0] = ml;
    event.mass_ug = mass_ug;
    return record(run, now, event, error);
}
