/* run_timers.c - the timers that steps offer, and those that start by themselves. */
#include <string.h>

#include "base/text.h"
#include "calc/pace_stamped.h"
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

/* Seconds from now until the first of the portions is too stiff, by all that was stamped; 0: it is. */
static int64_t window_s(const struct run *run, const struct lw_now *now)
{
    const struct plan *plan = &run->charged;
    double least = -1, gone = pace_elapsed_min(&run->batch, now->utc_s);

    for (int p = 0; p < plan->portions; p++) {
        struct quantiles from, until;

        if (plan->portion[p].batter_ug == 0)
            continue;
        pace_stamped(run_input(run), plan, &plan->portion[p], &run->batch, now->utc_s, &from, &until);
        if (least < 0 || until.median - gone < least)
            least = until.median - gone;
    }
    return least > 0 ? (int64_t)(least * 60) : 0;
}

static const char *const window_name = "workable";

static int64_t window_timer(const struct batch *batch)
{
    for (int i = 0; i < batch->timers; i++)
        if (strcmp(batch->timer[i].name, window_name) == 0)
            return batch->timer[i].event;
    return 0;
}

enum lw_status run_timers_window(struct run *run, const struct lw_now *now, struct lw_error *error)
{
    int64_t running = window_timer(&run->batch), left = window_s(run, now);
    enum lw_status status = LW_OK;

    if (running)
        status = run_timer_off(run, now, running, error);
    return status == LW_OK && left > 0 ? run_timer(run, now, window_name, left, 0, error) : status;
}

enum lw_status run_timers_begin(struct run *run, const struct lw_now *now, struct lw_error *error)
{
    const struct batch_step *here = run_here(run);
    const struct step_fact *fact = here ? step_fact(here->step.kind) : NULL;

    if (!fact || !fact->timer.by_itself || runs(&run->batch, here->step.id))
        return LW_OK;
    return run_timer(run, now, fact->timer.name, fact->timer.length_s, fact->timer.repeat_s, error);
}
