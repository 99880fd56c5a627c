/* run_timers.c - the timers that steps offer, and those that start by themselves. */
#include "base/text.h"
#include "calc/piping.h"
#include "work/run_inside.h"

/* Lengths are common practice, from memory: 5 to 10 minutes until dissolved, an hour until cool on the bench, a look at the trace
 * every 10 minutes, 45 minutes in the freezer, a day in the mould. */
struct step_timer {
    enum step_kind kind;
    const char *name;
    int64_t length_s, repeat_s;
    bool by_itself; /* starts when the step has come up */
};
static const struct step_timer step_timers[] = {
    {STEP_DISSOLVE, "dissolved?", 5 * 60, 5 * 60, false},
    {STEP_COOL, "lye cool?", 60 * 60, 0, false},
    {STEP_MELT, "melted and clear?", 15 * 60, 0, false},
    {STEP_STAND, "look at the trace", 10 * 60, 10 * 60, true},
    {STEP_CHILL, "chilled?", 45 * 60, 0, false},
    {STEP_UNMOULD, "out of the mould?", 24 * 3600, 0, false},
};

static const struct step_timer *timer_of(enum step_kind kind)
{
    for (size_t i = 0; i < sizeof step_timers / sizeof *step_timers; i++)
        if (step_timers[i].kind == kind)
            return &step_timers[i];
    return NULL;
}

bool run_timer_offered(const struct run *run, int step, char name[LW_NAME_BYTES], int64_t *length_s, int64_t *repeat_s)
{
    const struct step_timer *timer = timer_of(run->batch.step[step].step.kind);

    if (!timer)
        return false;
    text_copy(name, LW_NAME_BYTES, timer->name);
    *length_s = timer->length_s;
    *repeat_s = timer->repeat_s;
    return true;
}

static bool runs(const struct batch *batch, int64_t step)
{
    for (int i = 0; i < batch->timers; i++)
        if (batch->timer[i].step == step)
            return true;
    return false;
}

/* Seconds until the first of the portions is too stiff, by the plan. */
static int64_t window_s(const struct plan *plan)
{
    double least = 0;

    for (int p = 0; p < plan->portions; p++)
        if (plan->portion[p].batter_ug > 0 && (least <= 0 || plan->portion[p].pace.until.median < least))
            least = plan->portion[p].pace.until.median;
    return (int64_t)(least * 60);
}

static bool window_runs(const struct batch *batch)
{
    for (int i = 0; i < batch->timers; i++)
        if (text_same(batch->timer[i].name, "workable"))
            return true;
    return false;
}

enum lw_status run_timers_begin(struct run *run, const struct lw_now *now, struct lw_error *error)
{
    const struct batch_step *here = run_here(run);
    const struct step_timer *timer = here ? timer_of(here->step.kind) : NULL;
    int64_t window = window_s(run_plan(run));
    enum lw_status status = LW_OK;

    if (run->batch.combined_s == now->utc_s && window > 0 && !window_runs(&run->batch))
        status = run_timer(run, now, "workable", window, 0, error);
    if (status == LW_OK && timer && timer->by_itself && !runs(&run->batch, here->step.id))
        status = run_timer(run, now, timer->name, timer->length_s, timer->repeat_s, error);
    return status;
}
