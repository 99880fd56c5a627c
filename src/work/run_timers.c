/* run_timers.c - the timers that steps offer, and those that start by themselves. */
#include "base/text.h"
#include "work/run_inside.h"
#include "work/step_fact.h"

bool run_timer_offered(const struct run *run, int step, char name[LW_NAME_BYTES], int64_t *length_s, int64_t *repeat_s)
{
    const struct step_fact *fact = step_fact(run->batch.step[step].step.kind);

    if (!fact->timer.name)
        return false;
    text_copy(name, LW_NAME_BYTES, fact->timer.name);
    *length_s = fact->timer.length_s;
    *repeat_s = fact->timer.repeat_s;
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
    const struct step_fact *fact = here ? step_fact(here->step.kind) : NULL;
    int64_t window = window_s(run_plan(run));
    enum lw_status status = LW_OK;

    if (run->batch.combined_s == now->utc_s && window > 0 && !window_runs(&run->batch))
        status = run_timer(run, now, "workable", window, 0, error);
    if (status == LW_OK && fact && fact->timer.by_itself && !runs(&run->batch, here->step.id))
        status = run_timer(run, now, fact->timer.name, fact->timer.length_s, fact->timer.repeat_s, error);
    return status;
}
