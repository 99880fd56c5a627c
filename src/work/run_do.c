/* run_do.c - what a maker does at the bench besides weighing and counting. */
#include <math.h>
#include <string.h>

#include "base/day.h"
#include "base/error.h"
#include "base/text.h"
#include "calc/charged.h"
#include "store/batches.h"
#include "work/run_inside.h"
#include "work/step_fact.h"
#include "work/words.h"
#include "work/words_speech.h"

enum { SPLASH_S = 20 * 60 };

/* Below 0 by no more than this is the noise of adding masses up. */
static const double noise = 1e-9;

static enum lw_status at_step(const struct run *run, const struct batch_step **here, struct lw_error *error)
{
    *here = run_here(run);
    return *here ? LW_OK : lw_fail(error, LW_INVALID, "All steps of this batch are done.");
}

/* Adds one event that belongs to the step at hand, and finds the state anew. */
static enum lw_status record(struct run *run, const struct lw_now *now, struct batch_event event,
                             struct lw_error *error)
{
    const struct batch_step *here = run_here(run);
    enum lw_status status;

    if (here && event.step == 0)
        event.step = here->step.id;
    status = run_append(run, now, event, error);
    if (status == LW_OK)
        run_reckon(run);
    return status;
}

static enum lw_status record_text(struct run *run, const struct lw_now *now, enum event_kind kind, const char *text,
                                  struct lw_error *error)
{
    struct batch_event event = run_event(kind);

    if (!text[0])
        return lw_fail(error, LW_INVALID, "There is nothing to note yet; type some words.");
    text_copy(event.text, sizeof event.text, text);
    return record(run, now, event, error);
}

enum lw_status run_done(struct run *run, const struct lw_now *now, struct lw_error *error)
{
    const struct batch_step *here;
    enum lw_status status = at_step(run, &here, error);

    if (status != LW_OK)
        return status;
    if (here->step.target_ug != 0 || here->step.kind == STEP_POUR_OUT)
        return lw_fail(error, LW_INVALID, "Type what the scale reads.");
    if (here->step.kind == STEP_COMBINE)
        return run_combine(run, now, NAN, NAN, error);
    status = record(run, now, run_event(EVENT_DONE), error);
    return status == LW_OK ? run_timers_begin(run, now, error) : status;
}

/* ---- combining */

/* Every weighing of alkali has a reading of its own. */
static bool alkali_typed(const struct run *run, char *which, size_t size)
{
    for (int i = 0; i < run->batch.steps; i++) {
        const struct batch_step *step = &run->batch.step[i];

        if (step->step.kind == STEP_WEIGH && step->step.what.part == PART_ALKALI && step->state != STEP_DONE) {
            run_title(run, &step->step, which, size);
            return false;
        }
    }
    return true;
}

static const struct batch_step *left_undone(const struct run *run)
{
    for (int i = 0; i < run->batch.steps; i++) {
        const struct batch_step *step = &run->batch.step[i];

        if (step->step.kind == STEP_COMBINE)
            return NULL;
        if (step_fact(step->step.kind)->before_combining && step->state == STEP_TODO)
            return step;
    }
    return NULL;
}

/* A stop about lye, for the batter or for one of its portions. */
static const struct finding *heavy_finding(const struct plan *plan)
{
    for (int i = 0; i < plan->findings; i++)
        if (plan->finding[i].code == FINDING_LYE_HEAVY)
            return &plan->finding[i];
    return NULL;
}

static struct words heavy_words(const struct run *run, const struct finding *finding)
{
    struct words words = {"", ""};

    words_of_finding(run_input(run), &run->charged, finding, run->settings.mass_unit, &words);
    return words;
}

/* What the full jug weighed fits what was weighed into it, if it was weighed at all. */
static enum lw_status jug_fits(const struct run *run, struct lw_error *error)
{
    int64_t expected_ug, tolerance_ug, off_ug;
    const struct charge *jug = &run->batch.jug;

    if (!jug->has)
        return LW_OK;
    charged_jug(run_input(run), run_plan(run), &run->batch, false, &expected_ug, &tolerance_ug);
    off_ug = jug->mass_ug > expected_ug ? jug->mass_ug - expected_ug : expected_ug - jug->mass_ug;
    if (jug->scale >= 0 && tolerance_ug < run_plan(run)->scale[jug->scale].division_ug)
        tolerance_ug = run_plan(run)->scale[jug->scale].division_ug;
    if (off_ug <= tolerance_ug)
        return LW_OK;
    return lw_fail(
        error, LW_INVALID,
        "The full jug held %s, and by its weighings it should be %s: check it again, or say what is really in.",
        run_mass(run, jug->mass_ug, 0).text, run_mass(run, expected_ug, 0).text);
}

/* No batch goes together that is lye-heavy as weighed, or whose alkali nobody typed. */
static enum lw_status may_combine(const struct run *run, struct lw_error *error)
{
    const struct plan *plan = &run->charged;
    const struct practice *practice = run_input(run)->reference->practice;
    double soluble = run_input(run)->recipe->alkali.potassium_share > 0.5 ? practice->koh_soluble_share
                                                                          : practice->naoh_soluble_share;
    char title[160];

    if (!alkali_typed(run, title, sizeof title))
        return lw_fail(error, LW_INVALID, "Weigh first: %s. Nothing is combined before its reading was typed.", title);
    if (left_undone(run)) {
        run_title(run, &left_undone(run)->step, title, sizeof title);
        return lw_fail(error, LW_INVALID, "Not done yet: %s.", title);
    }
    if (!(plan->margin.nominal >= -noise))
        return lw_fail(error, LW_INVALID,
                       "Superfat as weighed is %s: the batch would be lye-heavy. Put it right, or set it aside.",
                       speech_percent(plan->margin.nominal).text);
    if (heavy_finding(plan))
        return lw_fail(error, LW_INVALID, "As weighed it is too likely lye-heavy: %s Put it right, or set it aside.",
                       heavy_words(run, heavy_finding(plan)).what);
    if (plan->water.strength_rounded > soluble)
        return lw_fail(
            error, LW_INVALID,
            "The lye as weighed is %s strong, more than dissolves at 20 C (%s): add water before it is used.",
            speech_percent(plan->water.strength_rounded).text, speech_percent(soluble).text);
    return jug_fits(run, error);
}

enum lw_status run_combine(struct run *run, const struct lw_now *now, double lye_c, double oil_c,
                           struct lw_error *error)
{
    const struct batch_step *here;
    struct batch_event event = run_event(EVENT_COMBINED);
    enum lw_status status = at_step(run, &here, error);

    if (status == LW_OK && here->step.kind != STEP_COMBINE)
        return lw_fail(error, LW_INVALID, "Combining is not the step at hand.");
    if (status == LW_OK)
        status = may_combine(run, error);
    if (status != LW_OK)
        return status;
    event.step = here->step.id;
    event.number[0] = lye_c;
    event.number[1] = oil_c;
    status = run_append(run, now, event, error);
    if (status == LW_OK)
        status = record(run, now, run_event(EVENT_DONE), error);
    if (status == LW_OK)
        status = run_timers_window(run, now, error);
    return status == LW_OK ? run_timers_begin(run, now, error) : status;
}

/* ---- the order of steps */

enum lw_status run_skip(struct run *run, const struct lw_now *now, struct lw_error *error)
{
    const struct batch_step *here;
    enum lw_status status = at_step(run, &here, error);

    if (status != LW_OK)
        return status;
    if (here->step.what.part == PART_ALKALI || here->step.kind == STEP_DISSOLVE)
        return lw_fail(error, LW_INVALID, "Alkali is never skipped; weigh it, or set the batch aside.");
    if (here->step.kind == STEP_COMBINE)
        return lw_fail(error, LW_INVALID, "Combining cannot be skipped; set the batch aside if it is not to be made.");
    status = record(run, now, run_event(EVENT_SKIPPED), error);
    return status == LW_OK ? run_timers_begin(run, now, error) : status;
}

/* Kinds of events that close the step which they belong to. */
static const bool closing[EVENT_KIND_COUNT] = {
    [EVENT_WEIGHED] = true, [EVENT_LYE_POURED] = true, [EVENT_JUG] = true, [EVENT_DONE] = true, [EVENT_SKIPPED] = true,
};

/* The last event that closed a step; 0: none. */
static int64_t last_closing(const struct run *run)
{
    for (int i = run->events - 1; i >= 0; i--) {
        const struct batch_event *event = &run->event[i];

        if (event->taken_back || event->step == 0)
            continue;
        if (closing[event->kind] && !(event->kind == EVENT_SKIPPED && event->number[0] > 0))
            return event->id;
    }
    return 0;
}

static enum lw_status take_back(struct run *run, const struct lw_now *now, int64_t id, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_TAKEN_BACK);

    event.step = run->event[id - 1].step;
    event.other = id;
    return run_append(run, now, event, error);
}

static enum step_kind kind_of_step(const struct run *run, int64_t id)
{
    for (int i = 0; i < run->batch.steps; i++)
        if (run->batch.step[i].step.id == id)
            return run->batch.step[i].step.kind;
    return STEP_OTHER;
}

enum lw_status run_back(struct run *run, const struct lw_now *now, char *echo, size_t size, struct lw_error *error)
{
    int64_t last = last_closing(run);
    int64_t step = last ? run->event[last - 1].step : 0;
    enum lw_status status;

    if (!last)
        return lw_fail(error, LW_INVALID, "This is the first step; there is nothing to go back to.");
    for (int i = 0; i < run->events; i++)
        if (run->event[i].kind == EVENT_COMBINED && run->event[i].step == step && !run->event[i].taken_back)
            return lw_fail(error, LW_INVALID, "What is combined stays combined; it can only be put right now.");
    status = take_back(run, now, last, error);
    if (status == LW_OK && kind_of_step(run, step) == STEP_WEIGH)
        status = run_drop_put_right(run, now, error);
    if (status != LW_OK)
        return status;
    run_reckon(run);
    text_copy(echo, size, "Taken back: ");
    for (int i = 0; i < run->batch.steps; i++)
        if (run->batch.step[i].step.id == step) {
            char title[160];

            run_title(run, &run->batch.step[i].step, title, sizeof title);
            text_add(echo, size, "%s.", title);
        }
    return LW_OK;
}

/* What cannot change places: lye is dissolved of what was weighed, and combined of what is there. */
static bool fixed_order(const struct step *first, const struct step *second)
{
    bool into_lye = first->use == VESSEL_LYE || first->use == VESSEL_ALKALI_CUP;

    if (second->kind == STEP_DISSOLVE)
        return into_lye;
    if (second->kind == STEP_COMBINE)
        return step_fact(first->kind)->before_combining || first->kind == STEP_KEEP_BACK || first->kind == STEP_MELT;
    return first->kind == STEP_COMBINE || first->kind == STEP_DISSOLVE || second->kind == STEP_CUT ||
           (first->kind == STEP_WEIGH && second->kind == STEP_DISPERSE);
}

enum lw_status run_later(struct run *run, const struct lw_now *now, struct lw_error *error)
{
    int at = run_at(run), next = at + 1;
    struct batch_event event = run_event(EVENT_MOVED);
    char title[160];

    if (at < 0)
        return lw_fail(error, LW_INVALID, "All steps of this batch are done.");
    while (next < run->batch.steps && run->batch.step[next].state != STEP_TODO)
        next++;
    if (next == run->batch.steps)
        return lw_fail(error, LW_INVALID, "This is the last step; nothing comes after it.");
    if (fixed_order(&run->batch.step[at].step, &run->batch.step[next].step)) {
        run_title(run, &run->batch.step[next].step, title, sizeof title);
        return lw_fail(error, LW_INVALID, "This has to come before the next step: %s.", title);
    }
    event.step = run->batch.step[at].step.id;
    event.number[0] = next + 1 < run->batch.steps
                          ? (run->batch.step[next].step.place + run->batch.step[next + 1].step.place) / 2
                          : run->batch.step[next].step.place + 1;
    return record(run, now, event, error);
}

enum lw_status run_add_step(struct run *run, const struct lw_now *now, const char *text, struct lw_error *error)
{
    int at = run_at(run);
    struct step step = {.kind = STEP_OTHER, .vessel = -1};
    enum lw_status status;

    (void)now;
    if (!text[0])
        return lw_fail(error, LW_INVALID, "A step needs a few words that say what to do.");
    step.place = at < 0    ? (double)run->batch.steps + 1
                 : at == 0 ? run->batch.step[0].step.place - 1
                           : (run->batch.step[at - 1].step.place + run->batch.step[at].step.place) / 2;
    text_copy(step.text, sizeof step.text, text);
    status = run_append_step(run, step, error);
    if (status == LW_OK)
        run_reckon(run);
    return status;
}

/* ---- stamps, notes, timers */

enum lw_status run_stage(struct run *run, const struct lw_now *now, int stage, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_STAGE);
    enum lw_status status;

    if (!run->batch.combined_s)
        return lw_fail(error, LW_INVALID, "Trace begins when lye and oils are combined.");
    if (stage < 0 || stage > 7)
        return lw_fail(error, LW_INVALID, "Stages go from 0, unmixed, to 7, set up.");
    event.number[0] = stage;
    status = record(run, now, event, error);
    return status == LW_OK ? run_timers_window(run, now, error) : status;
}

enum lw_status run_note(struct run *run, const struct lw_now *now, const char *text, struct lw_error *error)
{
    return record_text(run, now, EVENT_NOTE, text, error);
}

enum lw_status run_problem(struct run *run, const struct lw_now *now, const char *text, struct lw_error *error)
{
    return record_text(run, now, EVENT_PROBLEM, text, error);
}

bool run_acknowledge_due(const struct run *run, const struct lw_now *now)
{
    int64_t stored_s = 0, last_s;

    batches_acknowledged(run->store, &stored_s, NULL);
    last_s = run->batch.acknowledged_s > stored_s ? run->batch.acknowledged_s : stored_s;
    return last_s == 0 || day_number(last_s, now->offset_s) != day_number(now->utc_s, now->offset_s);
}

enum lw_status run_acknowledge(struct run *run, const struct lw_now *now, struct lw_error *error)
{
    return record(run, now, run_event(EVENT_ACKNOWLEDGED), error);
}

static bool rinsing(const struct batch *batch, int64_t now_s)
{
    for (int i = 0; i < batch->timers; i++)
        if (strcmp(batch->timer[i].name, RUN_RINSE) == 0 && now_s < batch->timer[i].start_s + batch->timer[i].length_s)
            return true;
    return false;
}

enum lw_status run_splash(struct run *run, const struct lw_now *now, struct lw_error *error)
{
    enum lw_status status = record(run, now, run_event(EVENT_SPLASH), error);

    if (status != LW_OK || rinsing(&run->batch, now->utc_s))
        return status;
    return run_timer(run, now, RUN_RINSE, SPLASH_S, 0, error);
}

enum lw_status run_going(struct run *run, const struct lw_now *now, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_GOING);
    enum lw_status status;

    if (!run->batch.combined_s)
        return lw_fail(error, LW_INVALID, "Nothing is combined yet, so nothing can be setting.");
    status = run_append(run, now, event, error);
    for (int i = 0; i < run->batch.steps && status == LW_OK; i++)
        if (run->batch.step[i].state == STEP_TODO && step_fact(run->batch.step[i].step.kind)->left_out) {
            event = run_event(EVENT_SKIPPED);
            event.step = run->batch.step[i].step.id;
            text_copy(event.text, sizeof event.text, "it was setting");
            status = run_append(run, now, event, error);
        }
    run_reckon(run);
    return status;
}

enum lw_status run_timer(struct run *run, const struct lw_now *now, const char *name, int64_t length_s,
                         int64_t repeat_s, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_TIMER);

    if (length_s <= 0 || length_s > 7 * 86400)
        return lw_fail(error, LW_INVALID, "A timer runs for a minute up to seven days.");
    if (run->batch.timers == BATCH_TIMERS)
        return lw_fail(error, LW_FULL, "The batch has as many timers as it can have (%d); end one first.",
                       BATCH_TIMERS);
    event.number[0] = (double)length_s;
    event.number[1] = (double)repeat_s;
    text_copy(event.text, LW_NAME_BYTES, name);
    return record(run, now, event, error);
}

enum lw_status run_timer_off(struct run *run, const struct lw_now *now, int64_t event, struct lw_error *error)
{
    struct batch_event off = run_event(EVENT_TIMER_OFF);

    off.other = event;
    return record(run, now, off, error);
}

/* ---- the end */

int run_answered(const struct run *run)
{
    int answered = 0;

    for (int i = 0; i < run->events; i++)
        if (run->event[i].kind == EVENT_ANSWER && !run->event[i].taken_back && run->event[i].number[0] == answered)
            answered++;
    return answered;
}

enum lw_status run_answer(struct run *run, const struct lw_now *now, int question, int answer, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_ANSWER);
    int answers = 0;

    while (question >= 0 && question < QUESTIONS && run_questions()[question].answers[answers])
        answers++;
    if (answer < 1 || answer > answers)
        return lw_fail(error, LW_INVALID, "The answers go from 1 to %d.", answers);
    event.number[0] = question;
    event.number[1] = answer;
    text_copy(event.text, sizeof event.text, run_questions()[question].answers[answer - 1]);
    return record(run, now, event, error);
}

enum lw_status run_finish(struct run *run, const struct lw_now *now, struct lw_error *error)
{
    if (run_here(run) && !run->batch.set_aside)
        return lw_fail(error, LW_INVALID, "There are steps left; do or skip them first, or set the batch aside.");
    return record(run, now, run_event(EVENT_FINISHED), error);
}

enum lw_status run_set_aside(struct run *run, const struct lw_now *now, const char *why, struct lw_error *error)
{
    return record_text(run, now, EVENT_SET_ASIDE, why, error);
}

const struct question *run_questions(void)
{
    static const struct question questions[QUESTIONS] = {
        {"How did it come out?", {"as wanted", "good enough", "not as wanted", "not fit to use", NULL}},
        {"How fast did it go?", {"slower than told", "as told", "faster than told", "it seized", NULL}},
        {"What does the colour look like now?",
         {"as wanted", "paler", "darker", "another colour", "nothing was coloured", NULL}},
        {"Was there trouble?",
         {"none", "ash or streaks", "grains or lumps", "oil or water came out", "it got hot", NULL}},
        {"Would you make it the same again?",
         {"yes", "with less on the scale", "with more on the scale", "another way", NULL}},
    };

    return questions;
}
