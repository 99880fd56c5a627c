/* run.c - a batch opened, its state found from its record, and the record written. */
#include "work/run.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"

#include "calc/charged.h"
#include "store/batches.h"
#include "work/run_inside.h"
#include "work/words.h"

const struct plan_document *run_planned(const struct run *run)
{
    return version_document(run->version);
}

const struct plan_input *run_input(const struct run *run)
{
    return run_planned(run)->input;
}

const struct plan *run_plan(const struct run *run)
{
    return run_planned(run)->plan;
}

const struct batch *run_batch(const struct run *run)
{
    return &run->batch;
}

const struct plan *run_charged(const struct run *run)
{
    return &run->charged;
}

const char *run_margin_word(const struct run *run)
{
    return words_of_margin(&run->charged);
}

const struct settings *run_settings(const struct run *run)
{
    return &run->settings;
}

/* An event takes back one before it, so one pass finds all. */
static void mark_taken_back(struct run *run)
{
    for (int i = 0; i < run->events; i++)
        run->event[i].taken_back = false;
    for (int i = 0; i < run->events; i++) {
        int64_t other = run->event[i].other;

        if (run->event[i].kind == EVENT_TAKEN_BACK && other >= 1 && other <= run->events)
            run->event[other - 1].taken_back = true;
    }
}

void run_reckon(struct run *run)
{
    mark_taken_back(run);
    run_fold(run_planned(run), run->step, run->steps, run->event, run->events, &run->batch);
    charged_plan(run_input(run), run_plan(run), &run->batch.charges, &run->charged);
}

int run_at(const struct run *run)
{
    for (int i = 0; i < run->batch.steps; i++)
        if (run->batch.step[i].state == STEP_TODO)
            return i;
    return -1;
}

const struct batch_step *run_here(const struct run *run)
{
    int at = run_at(run);

    return at < 0 ? NULL : &run->batch.step[at];
}

void run_progress(const struct run *run, int *done, int *all)
{
    *all = run->batch.steps;
    *done = 0;
    for (int i = 0; i < run->batch.steps; i++)
        *done += run->batch.step[i].state != STEP_TODO;
}

/* ---- the record in memory */

static bool grow(void **list, int count, int *room, size_t size)
{
    int larger = *room ? *room * 2 : 128;
    void *made;

    if (count < *room)
        return true;
    made = realloc(*list, (size_t)larger * size);
    if (!made)
        return false;
    *list = made;
    *room = larger;
    return true;
}

static bool take_step(void *context, const struct step *step)
{
    struct run *run = context;
    void *list = run->step;
    bool room = grow(&list, run->steps, &run->step_room, sizeof *run->step);

    run->step = list;
    if (room)
        run->step[run->steps++] = *step;
    return room;
}

static bool take_event(void *context, const struct batch_event *event)
{
    struct run *run = context;
    void *list = run->event;
    bool room = grow(&list, run->events, &run->event_room, sizeof *run->event);

    run->event = list;
    if (room)
        run->event[run->events++] = *event;
    return room;
}

struct batch_event run_event(enum event_kind kind)
{
    return (struct batch_event){.kind = kind, .scale = -1};
}

/* Of a batch that is made only what is said after that can be added, or taken back. */
static bool closed_to(const struct run *run, const struct batch_event *event)
{
    enum event_kind kind = event->kind;

    if (kind == EVENT_TAKEN_BACK && event->other >= 1 && event->other <= run->events)
        kind = run->event[event->other - 1].kind;
    if (run->batch.finished_s)
        return !run_said_after(kind);
    return run->batch.set_aside && !run_said_after(kind) && kind != EVENT_FINISHED;
}

enum lw_status run_append(struct run *run, const struct lw_now *now, struct batch_event event, struct lw_error *error)
{
    if (closed_to(run, &event))
        return lw_fail(error, LW_INVALID, "Batch %s is closed; its record does not change any more.",
                       run->batch.head.number);
    event.id = run->events + 1;
    event.at_s = now->utc_s;
    if (!take_event(run, &event))
        return lw_fail(error, LW_FULL, "There is no memory left to note that; nothing was changed.");
    return LW_OK;
}

enum lw_status run_append_step(struct run *run, struct step step, struct lw_error *error)
{
    if (run->steps == BATCH_STEPS)
        return lw_fail(error, LW_FULL, "The batch has as many steps as it can have (%d).", BATCH_STEPS);
    step.id = run->steps + 1;
    if (!take_step(run, &step))
        return lw_fail(error, LW_FULL, "There is no memory left to add a step; nothing was changed.");
    return LW_OK;
}

int run_events(const struct run *run)
{
    return run->events;
}

const struct batch_event *run_event_at(const struct run *run, int index)
{
    return &run->event[index];
}

bool run_unsaved(const struct run *run)
{
    return run->steps > run->steps_saved || run->events > run->events_saved;
}

enum lw_status run_save(struct run *run, struct lw_error *error)
{
    enum lw_status status;

    if (!run_unsaved(run))
        return LW_OK;
    status = batches_append(run->store, run->id, run->step + run->steps_saved, run->steps - run->steps_saved,
                            run->event + run->events_saved, run->events - run->events_saved, error);
    if (status == LW_CONFLICT)
        return run_refresh(run, error) ? run_save(run, error) : status;
    if (status != LW_OK)
        return status;
    run->steps_saved = run->steps;
    run->events_saved = run->events;
    return LW_OK;
}

/* ---- opening */

static enum lw_status read_record(struct run *run, struct lw_error *error)
{
    enum lw_status status;

    run->steps = run->events = 0;
    status = batches_steps(run->store, run->id, take_step, run, error);
    if (status == LW_OK)
        status = batches_events(run->store, run->id, 0, take_event, run, error);
    run->steps_saved = run->steps;
    run->events_saved = run->events;
    return status;
}

/* What waits here goes behind what another window has added meanwhile. */
static bool read_news(struct run *run, struct lw_error *error)
{
    struct run other = {.store = run->store, .id = run->id};
    int steps = run->steps_saved, events = run->events_saved;
    bool good = read_record(&other, error) == LW_OK && (other.steps > steps || other.events > events);
    int64_t step_shift = other.steps - steps, event_shift = other.events - events;

    for (int i = steps; good && i < run->steps; i++) {
        struct step step = run->step[i];

        step.id += step_shift;
        good = take_step(&other, &step);
    }
    for (int i = events; good && i < run->events; i++) {
        struct batch_event event = run->event[i];

        event.id += event_shift;
        if (event.step > steps)
            event.step += step_shift;
        if (event.other > events)
            event.other += event_shift;
        good = take_event(&other, &event);
    }
    if (!good) {
        free(other.step);
        free(other.event);
        return false;
    }
    free(run->step);
    free(run->event);
    run->step = other.step;
    run->steps = other.steps;
    run->step_room = other.step_room;
    run->event = other.event;
    run->events = other.events;
    run->event_room = other.event_room;
    run->steps_saved = other.steps_saved;
    run->events_saved = other.events_saved;
    return true;
}

bool run_refresh(struct run *run, struct lw_error *error)
{
    if (!read_news(run, error))
        return false;
    run_reckon(run);
    return true;
}

static enum lw_status open_frozen(struct run *run, const struct settings *settings, struct lw_error *error)
{
    char *frozen = NULL, *bench = NULL;
    enum lw_status status = batches_load(run->store, run->id, &run->batch.head, &frozen, &bench, error);

    if (status == LW_OK)
        status = freeze_read(frozen, &run->frozen, error);
    run->settings = *settings;
    if (status == LW_OK)
        status = freeze_bench_read(bench, &run->settings, error);
    if (status == LW_OK)
        status = lessons_thaw(bench, &run->lessons, error);
    if (status == LW_OK)
        status = version_of(&run->frozen->recipe, &run->frozen->shelf, &run->settings, &run->lessons, &run->version,
                            error);
    free(frozen);
    free(bench);
    if (status == LW_CORRUPT && run->batch.head.number[0])
        return lw_fail(error, LW_CORRUPT, "What batch %s was made of cannot be read; restore a backup.",
                       run->batch.head.number);
    return status;
}

enum lw_status run_open(struct workshop *workshop, int64_t batch_id, struct run **run, struct lw_error *error)
{
    struct run *made = calloc(1, sizeof *made);
    enum lw_status status;

    *run = NULL;
    if (!made)
        return lw_fail(error, LW_FULL, "There is no memory left to open the batch.");
    made->workshop = workshop;
    made->store = workshop_store(workshop);
    made->id = batch_id;
    status = open_frozen(made, workshop_settings(workshop), error);
    if (status == LW_OK)
        status = read_record(made, error);
    if (status != LW_OK) {
        run_free(made);
        return status;
    }
    run_reckon(made);
    *run = made;
    return LW_OK;
}

void run_free(struct run *run)
{
    if (!run)
        return;
    version_free(run->version);
    freeze_free(run->frozen);
    free(run->step);
    free(run->event);
    free(run);
}
