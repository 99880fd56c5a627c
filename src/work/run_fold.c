/* run_fold.c - reads the record of a batch from its first event to its last. What an event means stands here alone. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "work/run_inside.h"
#include "work/step_fact.h"

enum { STAGES = 8, THIN_TRACE = 2 };

struct fold {
    const struct plan_document *document;
    struct batch *batch;
};

static struct batch_step *step_of(const struct fold *fold, int64_t id)
{
    for (int i = 0; i < fold->batch->steps; i++)
        if (fold->batch->step[i].step.id == id)
            return &fold->batch->step[i];
    return NULL;
}

static struct charge *lye_charge(struct charges *charges, struct part_ref what)
{
    if (what.index < 0 || what.index >= ALKALIS)
        return NULL;
    return what.sub == 0 ? &charges->alkali[what.index] : what.sub == 1 ? &charges->added_lye[what.index] : NULL;
}

struct charge *run_charge_in(struct charges *charges, struct part_ref what)
{
    int i = what.index;

    switch (what.part) {
    case PART_OIL: /* what is kept back is still the batch's: it goes in with its colourant */
        return i >= 0 && i < RECIPE_OILS && what.sub == 0 ? &charges->oil[i] : NULL;
    case PART_ALKALI:
        return lye_charge(charges, what);
    case PART_WATER:
        return &charges->water;
    case PART_LIQUID:
        return i >= 0 && i < RECIPE_LIQUIDS ? &charges->liquid[i] : NULL;
    case PART_ADDITIVE:
        return i >= 0 && i < RECIPE_ADDITIVES ? &charges->additive[i] : NULL;
    case PART_BATTER:
    case PART_FRAGRANCE:
    case PART_PORTION:
    case PART_COLOURANT:
    case PART_CONSTITUENT:
    case PART_SIZE:
    case PART_CARRIER:
        break;
    }
    return NULL;
}

static struct charge *dose_charge(struct batch *batch, struct part_ref what)
{
    int i = what.index, sub = what.sub;

    if (i < 0 || i >= RECIPE_PORTIONS || sub < 0 || sub >= PORTION_COLOURANTS)
        return NULL;
    return what.part == PART_CARRIER ? &batch->carrier[i][sub] : &batch->colourant[i][sub];
}

static struct charge *charge_of(struct batch *batch, struct part_ref what)
{
    int i = what.index, sub = what.sub;

    if (what.part == PART_PORTION)
        return i >= 0 && i < PLAN_PORTIONS ? &batch->poured[i] : NULL;
    if (what.part == PART_FRAGRANCE)
        return i >= 0 && i < RECIPE_FRAGRANCES && sub >= 0 && sub <= PLAN_PORTIONS ? &batch->fragrance[sub][i] : NULL;
    if (what.part == PART_COLOURANT || what.part == PART_CARRIER)
        return dose_charge(batch, what);
    return run_charge_in(&batch->charges, what);
}

const struct charge *run_charge(const struct batch *batch, struct part_ref what)
{
    return charge_of((struct batch *)batch, what);
}

static void take_weighing(struct fold *fold, const struct batch_event *event)
{
    const struct plan *plan = fold->document->plan;
    struct charge *charge = charge_of(fold->batch, event->what);

    if (event->what.part == PART_OIL && event->what.sub == 1 && event->what.index >= 0 &&
        event->what.index < RECIPE_OILS)
        fold->batch->kept_ug[event->what.index] -= event->mass_ug;
    if (!charge)
        return;
    if (!charge->has)
        charge->scale = -1;
    charge->has = true;
    charge->mass_ug += event->mass_ug;
    if (event->scale < 0 || event->scale >= plan->scales)
        return;
    charge->scale = event->scale;
    charge->half_ug += plan->scale[event->scale].division_ug * (event->number[0] > 1 ? 2 : 1) / 2;
}

static void set_state(struct fold *fold, const struct batch_event *event, enum step_state state)
{
    struct batch_step *step = step_of(fold, event->step);

    if (!step)
        return;
    step->state = state;
    step->done_s = state == STEP_DONE ? event->at_s : 0;
}

/* Index of the kind of pieces that portion `what` belongs to; -1 for none. */
static int kind_of(const struct fold *fold, struct part_ref what)
{
    for (int i = 0; i < fold->batch->kinds; i++)
        if (fold->batch->pieces[i].portion == what.index)
            return i;
    return -1;
}

/* Of pieces that were not piped there are none to count after lifting. */
static void take_none_piped(struct fold *fold, struct part_ref what)
{
    int kind = kind_of(fold, what);

    if (kind < 0 || fold->batch->pieces[kind].good + fold->batch->pieces[kind].rejects > 0)
        return;
    for (int i = 0; i < fold->batch->steps; i++) {
        struct batch_step *step = &fold->batch->step[i];

        if (step->step.kind == STEP_RECOUNT && step->step.what.index == what.index && step->state == STEP_TODO)
            step->state = STEP_SKIPPED;
    }
}

/* What is skipped is not in the batch: it counts as weighed, with nothing. */
static void take_skip(struct fold *fold, const struct batch_step *step)
{
    struct charge *charge = step->step.kind == STEP_WEIGH ? charge_of(fold->batch, step->step.what) : NULL;

    if (charge && !charge->has)
        *charge = (struct charge){.has = true, .scale = -1};
    if (step->step.kind == STEP_PIPE)
        take_none_piped(fold, step->step.what);
}

static void take_pieces(struct fold *fold, const struct batch_event *event)
{
    int kind = kind_of(fold, event->what), n = (int)event->number[0];
    struct batch_pieces *pieces;

    if (kind < 0)
        return;
    pieces = &fold->batch->pieces[kind];
    if (event->kind == EVENT_PIECES)
        pieces->good += n;
    else if (event->kind == EVENT_REJECTS)
        pieces->rejects += n;
    else
        pieces->scraped += n;
    pieces->piped += event->kind == EVENT_SCRAPED ? -n : n;
    if (!pieces->first_s)
        pieces->first_s = event->at_s;
    pieces->last_s = event->at_s;
}

static void take_left(struct fold *fold, const struct batch_event *event)
{
    int kind = kind_of(fold, event->what);
    struct batch_pieces *pieces;

    if (kind < 0)
        return;
    pieces = &fold->batch->pieces[kind];
    pieces->left_ug = event->mass_ug;
    pieces->left_weighed = event->number[0] > 0;
    pieces->good_then = pieces->good + pieces->rejects - pieces->scraped;
}

static void take_recount(struct fold *fold, const struct batch_event *event)
{
    int kind = kind_of(fold, event->what);

    if (kind < 0)
        return;
    fold->batch->pieces[kind].good = (int)event->number[0];
    fold->batch->pieces[kind].rejects = (int)event->number[1];
    fold->batch->pieces[kind].scraped = 0;
    fold->batch->pieces[kind].recounted = true;
}

static void take_stage(struct fold *fold, const struct batch_event *event)
{
    int stage = (int)event->number[0];

    if (stage < 0 || stage >= STAGES)
        return;
    fold->batch->stage = stage;
    if (!fold->batch->stage_s[stage])
        fold->batch->stage_s[stage] = event->at_s;
}

static void start_timer(struct fold *fold, const struct batch_event *event)
{
    struct batch_timer *timer;

    if (fold->batch->timers == BATCH_TIMERS)
        return;
    timer = &fold->batch->timer[fold->batch->timers++];
    *timer = (struct batch_timer){.event = event->id,
                                  .step = event->step,
                                  .start_s = event->at_s,
                                  .length_s = (int64_t)event->number[0],
                                  .repeat_s = (int64_t)event->number[1]};
    text_copy(timer->name, sizeof timer->name, event->text);
}

static void end_timer(struct batch *batch, int at)
{
    memmove(&batch->timer[at], &batch->timer[at + 1], (size_t)(batch->timers - at - 1) * sizeof batch->timer[0]);
    batch->timers--;
}

/* A check that repeats ends with the step that it belongs to. */
static void end_timers_of(struct fold *fold, int64_t step)
{
    for (int i = fold->batch->timers - 1; i >= 0; i--)
        if (fold->batch->timer[i].step == step && fold->batch->timer[i].repeat_s > 0)
            end_timer(fold->batch, i);
}

static void end_timer_of(struct fold *fold, int64_t event)
{
    for (int i = fold->batch->timers - 1; i >= 0; i--)
        if (fold->batch->timer[i].event == event)
            end_timer(fold->batch, i);
}

static void take_combined(struct fold *fold, const struct batch_event *event)
{
    fold->batch->combined_s = event->at_s;
    fold->batch->lye_temp_c = event->number[0];
    fold->batch->oil_temp_c = event->number[1];
}

static void take_done(struct fold *fold, const struct batch_event *event)
{
    set_state(fold, event, STEP_DONE);
    end_timers_of(fold, event->step);
}

static void take_skipped(struct fold *fold, const struct batch_event *event)
{
    const struct batch_step *step = step_of(fold, event->step);

    set_state(fold, event, STEP_SKIPPED);
    end_timers_of(fold, event->step);
    if (step)
        take_skip(fold, step);
}

static void take_weighed(struct fold *fold, const struct batch_event *event)
{
    take_weighing(fold, event);
    set_state(fold, event, STEP_DONE);
}

static void take_reopened(struct fold *fold, const struct batch_event *event)
{
    set_state(fold, event, STEP_TODO);
}

static void take_moved(struct fold *fold, const struct batch_event *event)
{
    struct batch_step *step = step_of(fold, event->step);

    if (step)
        step->step.place = event->number[0];
}

static void take_jug(struct fold *fold, const struct batch_event *event)
{
    fold->batch->jug = (struct charge){.has = true, .mass_ug = event->mass_ug, .scale = event->scale};
    set_state(fold, event, STEP_DONE);
}

static void take_lye_poured(struct fold *fold, const struct batch_event *event)
{
    fold->batch->charges.lye_used = event->number[0];
    set_state(fold, event, STEP_DONE);
}

static void take_timer_off(struct fold *fold, const struct batch_event *event)
{
    end_timer_of(fold, event->other);
}

static void take_going(struct fold *fold, const struct batch_event *event)
{
    (void)event;
    fold->batch->going = true;
}

static void take_set_aside(struct fold *fold, const struct batch_event *event)
{
    (void)event;
    fold->batch->set_aside = true;
}

static void take_finished(struct fold *fold, const struct batch_event *event)
{
    fold->batch->finished_s = event->at_s;
}

static void take_acknowledged(struct fold *fold, const struct batch_event *event)
{
    fold->batch->acknowledged_s = event->at_s;
}

static void take_cut(struct fold *fold, const struct batch_event *event)
{
    fold->batch->bars = (int)event->number[0];
    fold->batch->lightest_bar_g = event->number[1];
    fold->batch->cut_s = event->at_s;
    set_state(fold, event, STEP_DONE);
}

static void take_cure_weighed(struct fold *fold, const struct batch_event *event)
{
    struct batch *batch = fold->batch;

    if (batch->cure_weighings < CURE_WEIGHINGS)
        batch->cure[batch->cure_weighings++] = (struct cure_weighing){event->id, event->at_s, (int)event->number[0],
                                                                      event->mass_ug};
}

static void take_tested(struct fold *fold, const struct batch_event *event)
{
    struct batch *batch = fold->batch;

    if (batch->tests == BATCH_TESTS)
        memmove(batch->test, batch->test + 1, (size_t)--batch->tests * sizeof batch->test[0]);
    batch->test[batch->tests++] = (struct test_result){event->id, event->at_s, (enum batch_test)event->number[0],
                                                       event->number[1]};
}

static void take_outcome(struct fold *fold, const struct batch_event *event)
{
    fold->batch->outcome = (enum batch_outcome)event->number[0];
    fold->batch->outcome_event = event->id;
}

static void take_left_out(struct fold *fold, const struct batch_event *event)
{
    fold->batch->left_out = event->id;
}

static void take_residue(struct fold *fold, const struct batch_event *event)
{
    int place = (int)event->number[0];

    if (place >= 0 && place < RESIDUES && event->number[1] >= 1)
        fold->batch->residue_g[place] = mass_g(event->mass_ug) / event->number[1];
}

static void take_density(struct fold *fold, const struct batch_event *event)
{
    if (event->number[0] > 0)
        fold->batch->density_g_ml = mass_g(event->mass_ug) / event->number[0];
}

/* Events without a row here are for reading, and change nothing: notes, reasons, answers, what was placed. */
typedef void taker(struct fold *fold, const struct batch_event *event);
static taker *const takers[EVENT_KIND_COUNT] = {
    [EVENT_WEIGHED] = take_weighed,
    [EVENT_LYE_POURED] = take_lye_poured,
    [EVENT_JUG] = take_jug,
    [EVENT_DONE] = take_done,
    [EVENT_SKIPPED] = take_skipped,
    [EVENT_REOPENED] = take_reopened,
    [EVENT_MOVED] = take_moved,
    [EVENT_COMBINED] = take_combined,
    [EVENT_STAGE] = take_stage,
    [EVENT_TIMER] = start_timer,
    [EVENT_TIMER_OFF] = take_timer_off,
    [EVENT_PIECES] = take_pieces,
    [EVENT_REJECTS] = take_pieces,
    [EVENT_SCRAPED] = take_pieces,
    [EVENT_LEFT] = take_left,
    [EVENT_RECOUNTED] = take_recount,
    [EVENT_GOING] = take_going,
    [EVENT_ACKNOWLEDGED] = take_acknowledged,
    [EVENT_SET_ASIDE] = take_set_aside,
    [EVENT_FINISHED] = take_finished,
    [EVENT_CUT] = take_cut,
    [EVENT_CURE_WEIGHED] = take_cure_weighed,
    [EVENT_TESTED] = take_tested,
    [EVENT_OUTCOME] = take_outcome,
    [EVENT_LEFT_OUT] = take_left_out,
    [EVENT_RESIDUE] = take_residue,
    [EVENT_DENSITY] = take_density,
};

static int by_place(const void *a, const void *b)
{
    const struct batch_step *one = a, *two = b;

    if (one->step.place != two->step.place)
        return one->step.place < two->step.place ? -1 : 1;
    return one->step.id < two->step.id ? -1 : 1;
}

/* One kind of pieces for all portions that name it. */
static void begin_pieces(const struct plan_input *input, const struct plan *plan, struct batch *batch)
{
    const struct recipe *recipe = input->recipe;

    for (int p = 0; p < recipe->portions; p++) {
        bool known = !plan->portion[p].has_pieces;

        for (int i = 0; i < batch->kinds && !known; i++)
            known = recipe->portion[p].pieces.kind[0] &&
                    text_same(recipe->portion[batch->pieces[i].portion].pieces.kind, recipe->portion[p].pieces.kind);
        if (!known)
            batch->pieces[batch->kinds++] = (struct batch_pieces){.portion = p, .left_ug = -1};
    }
}

static enum batch_phase phase_of(const struct batch *batch)
{
    bool split = batch->stage > THIN_TRACE, mixed = false;

    for (int i = 0; i < batch->steps; i++) {
        bool done = batch->step[i].state == STEP_DONE;

        split |= done && step_fact(batch->step[i].step.kind)->splits;
        mixed |= done && batch->step[i].step.kind == STEP_DISSOLVE;
    }
    if (batch->combined_s)
        return split ? PHASE_SPLIT : PHASE_COMBINED;
    return mixed ? PHASE_LYE_MIXED : PHASE_APART;
}

void run_fold(const struct plan_document *document, const struct step steps[], int n_steps,
              const struct batch_event events[], int n_events, struct batch *batch)
{
    struct batch_head head = batch->head;
    struct fold fold = {.document = document, .batch = batch};

    memset(batch, 0, sizeof *batch);
    batch->head = head;
    batch->stage = -1;
    batch->charges.lye_used = 1;
    batch->lye_temp_c = batch->oil_temp_c = NAN;
    for (int i = 0; i < RESIDUES; i++)
        batch->residue_g[i] = NAN;
    for (int i = 0; i < n_steps && batch->steps < BATCH_STEPS; i++)
        batch->step[batch->steps++] = (struct batch_step){.step = steps[i]};
    begin_pieces(document->input, document->plan, batch);
    for (int i = 0; i < n_events; i++) {
        if (takers[events[i].kind] && !events[i].taken_back)
            takers[events[i].kind](&fold, &events[i]);
        batch->last_event = events[i].id;
    }
    qsort(batch->step, (size_t)batch->steps, sizeof batch->step[0], by_place);
    batch->phase = phase_of(batch);
}
