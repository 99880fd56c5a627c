/* run_inside.h - what the files of a run share. */
#ifndef WORK_RUN_INSIDE_H
#define WORK_RUN_INSIDE_H

#include "work/freeze.h"
#include "work/lessons.h"
#include "work/run.h"
#include "work/version.h"

struct run {
    struct workshop *workshop;
    struct store *store;
    int64_t id;
    struct frozen *frozen;
    struct settings settings; /* as the bench is set now, with units and bounds as they were when it started */
    struct lessons lessons;   /* as they were when it started */
    struct version *version;  /* the plan as it was */
    struct plan charged;
    struct batch batch;
    struct step *step; /* as laid out and added */
    int steps, step_room, steps_saved;
    struct batch_event *event;
    int events, event_room, events_saved;
};

const struct plan_input *run_input(const struct run *run);
const struct plan *run_plan(const struct run *run);

/* run.c: finds the state anew from the record. To be called after each change of it. */
void run_reckon(struct run *run);

/* run.c: adds to the record. The event's id and moment are filled in, and its step where it is 0 and `here`. */
struct batch_event run_event(enum event_kind kind);
enum lw_status run_append(struct run *run, const struct lw_now *now, struct batch_event event, struct lw_error *error);
enum lw_status run_append_step(struct run *run, struct step step, struct lw_error *error);

/* run_after.c: events of that kind are said of a batch that is made, too. */
bool run_said_after(enum event_kind kind);

/* The step at hand; NULL where none is left. */
const struct batch_step *run_here(const struct run *run);

/* run_layout.c: the steps of a batch in the trade's order; their number. */
struct layout_choice {
    enum lye_order order;
    int lye_vessel, jug; /* index of batch_head.vessel, or -1 */
};
int run_layout(const struct plan_document *document, const struct layout_choice *choice,
               struct step steps[BATCH_STEPS]);

/* run_fold.c: what the events say of a batch with those steps. */
void run_fold(const struct plan_document *document, const struct step steps[], int n_steps,
              const struct batch_event events[], int n_events, struct batch *batch);

/* The charge that a weighing of that part goes to; NULL for one that has none. */
const struct charge *run_charge(const struct batch *batch, struct part_ref what);
struct charge *run_charge_in(struct charges *charges, struct part_ref what); /* of what the superfat hangs on */

/* run_scale.c: what is in the step's vessel now, without it: ug. Cups and bags are empty. */
int64_t run_content(const struct run *run, const struct step *step);

/* run_scale.c: the scale that the step is weighed on, what it shows before, and what it should show after. */
struct on_scale {
    int scale;
    int64_t division_ug, before_ug, reading_ug, target_ug, tolerance_ug, empty_ug, capacity_ug;
};
struct on_scale run_on_scale(const struct run *run, const struct step *step);

/* run_weigh.c: what was still to be put right is dropped, since what it was for is no more. */
enum lw_status run_drop_put_right(struct run *run, const struct lw_now *now, struct lw_error *error);

/* run_others.c: what the other batches on the bench ask of the same ingredient; how many. */
enum { OTHERS_MOST = 16 };
struct other_target {
    char name[LW_NAME_BYTES]; /* of the batch */
    int64_t target_ug;
};
int run_other_targets(const struct run *run, struct part_ref what, struct other_target others[OTHERS_MOST]);

/* run_number.c: the next batch number by the settings' pattern. */
enum lw_status run_next_number(struct store *store, const char *pattern, const struct lw_now *now,
                               char number[BATCH_NUMBER_BYTES], struct lw_error *error);

/* run_texts.c: what a step is called, "coconut oil into jug B". */
void run_title(const struct run *run, const struct step *step, char *out, size_t size);
/* The kind of piece that a portion is a part of, else the portion. */
void run_kind_name(const struct run *run, int portion, char *out, size_t size);

/* run_timers.c: starts what runs by itself when that step has come up or is done. */
enum lw_status run_timers_begin(struct run *run, const struct lw_now *now, struct lw_error *error);
/* Starts the timer of how long the batter stays workable, by what is known now, in place of the one that runs. */
enum lw_status run_timers_window(struct run *run, const struct lw_now *now, struct lw_error *error);

/* A mass in the maker's units. */
struct mass_text {
    char text[48];
};
struct mass_text run_mass(const struct run *run, int64_t ug, int64_t division_ug);

#endif
