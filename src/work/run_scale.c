/* run_scale.c - what stands on the scale at a step, and what it should show.
 *
 * A vessel whose empty mass is known stays on the scale with all that is in it; of any other the reading begins at 0, once,
 * with the empty vessel. Targets run on what is in it by its weighings, not by the plan.
 */
#include "base/mass.h"
#include "calc/charged.h"
#include "work/run_inside.h"

/* By how much a weighing may be off before it is asked about: common practice of small makers' records. */
static const double alkali_tolerance = 0.005, oil_tolerance = 0.01, dose_tolerance = 0.02;

static enum vessel_use use_of(const struct run *run, const struct batch_event *event)
{
    for (int i = 0; i < run->batch.steps; i++)
        if (run->batch.step[i].step.id == event->step)
            return run->batch.step[i].step.use;
    switch (event->what.part) { /* stated later, without a step */
    case PART_OIL:
        return VESSEL_JUG;
    case PART_WATER:
    case PART_LIQUID:
        return VESSEL_LYE;
    case PART_BATTER:
    case PART_ALKALI:
    case PART_ADDITIVE:
    case PART_FRAGRANCE:
    case PART_PORTION:
    case PART_COLOURANT:
    case PART_CONSTITUENT:
    case PART_SIZE:
    case PART_CARRIER:
        break;
    }
    return VESSEL_NONE;
}

static int64_t put_into(const struct run *run, enum vessel_use use)
{
    int64_t sum = 0;

    for (int i = 0; i < run->events; i++)
        if (run->event[i].kind == EVENT_WEIGHED && !run->event[i].taken_back && use_of(run, &run->event[i]) == use)
            sum += run->event[i].mass_ug;
    return sum;
}

static bool done(const struct batch *batch, enum step_kind kind)
{
    for (int i = 0; i < batch->steps; i++)
        if (batch->step[i].step.kind == kind && batch->step[i].state == STEP_DONE)
            return true;
    return false;
}

static int64_t poured_out(const struct batch *batch)
{
    int64_t sum = 0;

    for (int p = 0; p < PLAN_PORTIONS; p++)
        sum += batch->poured[p].mass_ug;
    return sum;
}

static int64_t lye_content(const struct run *run)
{
    int64_t sum = put_into(run, VESSEL_LYE);

    return done(&run->batch, STEP_DISSOLVE) ? sum + put_into(run, VESSEL_ALKALI_CUP) : sum;
}

int64_t run_content(const struct run *run, const struct step *step)
{
    const struct batch *batch = &run->batch;
    const struct charge *charge = run_charge(batch, step->what);

    switch (step->use) {
    case VESSEL_LYE:
        return lye_content(run);
    case VESSEL_JUG:
        if (!batch->combined_s)
            return put_into(run, VESSEL_JUG);
        return put_into(run, VESSEL_JUG) + (int64_t)((double)lye_content(run) * batch->charges.lye_used) -
               poured_out(batch);
    case VESSEL_ALKALI_CUP:
    case VESSEL_CUP: /* only what is taken out again stands on what is in */
        return charge && step->kind == STEP_PUT_RIGHT ? charge->mass_ug : 0;
    case VESSEL_NONE:
    case VESSEL_BAG:
        break;
    }
    return 0;
}

/* The finest scale that holds it; the largest where none does. */
static int scale_for(const struct plan *plan, int64_t load_ug, bool vessel_known)
{
    int best = -1, largest = 0;

    for (int i = 0; i < plan->scales; i++) {
        const struct scale *scale = &plan->scale[i];

        if (scale->capacity_ug > plan->scale[largest].capacity_ug)
            largest = i;
        if (scale->capacity_ug < load_ug + (vessel_known ? 0 : scale->vessel_ug))
            continue;
        if (best < 0 || scale->division_ug < plan->scale[best].division_ug)
            best = i;
    }
    return best < 0 ? largest : best;
}

static double tolerance_share(enum part part)
{
    switch (part) {
    case PART_ALKALI:
        return alkali_tolerance;
    case PART_FRAGRANCE:
    case PART_COLOURANT:
    case PART_CARRIER:
        return dose_tolerance;
    case PART_BATTER:
    case PART_OIL:
    case PART_WATER:
    case PART_LIQUID:
    case PART_ADDITIVE:
    case PART_PORTION:
    case PART_CONSTITUENT:
    case PART_SIZE:
        break;
    }
    return oil_tolerance;
}

/* What is still to go in: of a portion, what the split has left for it. */
static int64_t target_of(const struct run *run, const struct step *step)
{
    int64_t target_ug[PLAN_PORTIONS];

    if (step->kind != STEP_POUR_OUT)
        return step->target_ug;
    charged_split(run_input(run), &run->charged, run->batch.poured, target_ug);
    return target_ug[step->what.index];
}

struct on_scale run_on_scale(const struct run *run, const struct step *step)
{
    const struct plan *plan = run_plan(run);
    bool known = step->vessel >= 0;
    struct on_scale on = {.target_ug = target_of(run, step),
                          .empty_ug = known ? run->batch.head.vessel[step->vessel].empty_ug : 0};
    int64_t exact;

    on.before_ug = on.empty_ug + run_content(run, step);
    on.scale = scale_for(plan, on.before_ug + (on.target_ug > 0 ? on.target_ug : 0), known);
    on.division_ug = plan->scale[on.scale].division_ug;
    on.capacity_ug = plan->scale[on.scale].capacity_ug;
    exact = on.before_ug + on.target_ug;
    if (exact < 0)
        exact = 0;
    on.reading_ug = step->what.part == PART_ALKALI ? mass_down(exact, on.division_ug)
                                                   : mass_nearest(exact, on.division_ug);
    on.target_ug = on.reading_ug - on.before_ug;
    on.tolerance_ug = mass_down(
        (int64_t)(tolerance_share(step->what.part) * (double)(on.target_ug < 0 ? -on.target_ug : on.target_ug)),
        on.division_ug);
    if (on.tolerance_ug < on.division_ug)
        on.tolerance_ug = on.division_ug;
    return on;
}
