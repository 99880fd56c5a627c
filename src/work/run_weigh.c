/* run_weigh.c - readings: what went in by them, whether that is right, and what can be done where it is not. */
#include <string.h>

#include "base/error.h"
#include "base/mass.h"
#include "base/text.h"
#include "calc/charged.h"
#include "work/run_inside.h"
#include "work/words_put_right.h"
#include "work/words_speech.h"

/* A reading as it is taken: with what was there before, or with that tared away. */
struct taken {
    int64_t mass_ug;
    int readings; /* that the mass is the difference of */
};

static int64_t apart(int64_t a, int64_t b)
{
    return a > b ? a - b : b - a;
}

static struct taken take(const struct on_scale *on, int64_t reading_ug)
{
    bool tared = on->before_ug > 0 && on->target_ug > 0 && apart(reading_ug, on->target_ug) <= on->tolerance_ug &&
                 apart(reading_ug, on->reading_ug) > on->tolerance_ug;

    if (tared || reading_ug < on->empty_ug || (on->target_ug > 0 && reading_ug < on->before_ug))
        return (struct taken){reading_ug, 1};
    return (struct taken){reading_ug - on->before_ug, on->before_ug > 0 ? 2 : 1};
}

static bool is_weighing(const struct step *step)
{
    return step->target_ug != 0 || step->kind == STEP_POUR_OUT;
}

static bool is_share(const struct step *step)
{
    return step->kind == STEP_PUT_RIGHT && step->what.part == PART_ALKALI && step->what.sub == 2;
}

static double share_of_lye(const struct run *run, int64_t mass_ug)
{
    const struct step lye = {.use = VESSEL_LYE, .vessel = -1};
    int64_t all_ug = run_content(run, &lye);

    return all_ug > 0 && mass_ug < all_ug ? (double)mass_ug / (double)all_ug : 1;
}

static enum lw_status at_weighing(const struct run *run, const struct batch_step **here, struct lw_error *error)
{
    *here = run_here(run);
    if (!*here || (!is_weighing(&(*here)->step) && (*here)->step.kind != STEP_JUG_CHECK))
        return lw_fail(error, LW_INVALID, "Nothing is weighed at this step.");
    return LW_OK;
}

static enum lw_status check_reading(const struct run *run, const struct on_scale *on, int64_t reading_ug,
                                    struct lw_error *error)
{
    if (reading_ug < 0)
        return lw_fail(error, LW_INVALID,
                       "A scale with a vessel on it does not read below 0; tare it empty and try again.");
    if (reading_ug > on->capacity_ug)
        return lw_fail(error, LW_INVALID, "%s is more than the scale holds (%s).",
                       run_mass(run, reading_ug, on->division_ug).text,
                       run_mass(run, on->capacity_ug, on->division_ug).text);
    return LW_OK;
}

/* The plan as it would be with this weighing in it. */
static void plan_with(const struct run *run, const struct step *step, const struct on_scale *on, int64_t mass_ug,
                      struct plan *plan)
{
    struct charges charges = run->batch.charges;
    struct charge *charge = run_charge_in(&charges, step->what);

    if (charge) {
        charge->has = true;
        charge->mass_ug += mass_ug;
        charge->half_ug += on->division_ug / (on->before_ug > 0 ? 1 : 2);
        charge->scale = on->scale;
    }
    charged_plan(run_input(run), run_plan(run), &charges, plan);
}

static void add_slip(const struct run *run, const struct slip_told *told, struct judgement *judgement)
{
    char words[WORDS_WHAT_BYTES];

    judgement->slip = told->slip;
    words_of_slip(run_input(run), run_plan(run), told, run->settings.mass_unit, words, sizeof words);
    if (words[0])
        text_add(judgement->what, sizeof judgement->what, " %s", words);
}

static const char *vessel_name(const struct run *run, const struct step *step)
{
    return step->vessel >= 0 ? run->batch.head.vessel[step->vessel].name : NULL;
}

/* What the reading most likely is: of this batch, or meant for one beside it. */
static void diagnose(const struct run *run, const struct step *step, const struct on_scale *on,
                     struct judgement *judgement)
{
    struct other_target others[OTHERS_MOST];
    int64_t other_ug[OTHERS_MOST];
    int n = run_other_targets(run, step->what, others);
    enum alkali which = (enum alkali)(step->what.part == PART_ALKALI ? step->what.index : 0);
    struct slip_told told = {.what = step->what,
                             .target_ug = on->target_ug,
                             .read_ug = judgement->mass_ug,
                             .vessel_ug = on->empty_ug > 0 ? on->empty_ug : run_plan(run)->scale[on->scale].vessel_ug,
                             .vessel = vessel_name(run, step)};

    for (int i = 0; i < n; i++)
        other_ug[i] = others[i].target_ug;
    told.slip = put_right_slip(on->target_ug, judgement->mass_ug, told.vessel_ug, on->tolerance_ug,
                               step->what.part == PART_ALKALI, which, other_ug, n);
    if (told.slip.kind == SLIP_OTHER_BATCH)
        told.batch = others[told.slip.batch].name;
    add_slip(run, &told, judgement);
}

static void say_off(const struct run *run, const struct step *step, const struct on_scale *on,
                    struct judgement *judgement)
{
    struct plan plan;

    text_add(judgement->what, sizeof judgement->what, "%s went in by that reading, %s %s than it should be.",
             run_mass(run, judgement->mass_ug, on->division_ug).text,
             run_mass(run, apart(judgement->mass_ug, on->target_ug), on->division_ug).text,
             judgement->mass_ug > on->target_ug ? "more" : "less");
    if (step->what.part != PART_OIL && step->what.part != PART_ALKALI)
        return;
    plan_with(run, step, on, judgement->mass_ug, &plan);
    text_add(judgement->what, sizeof judgement->what, " Superfat would be %s (likely %s to %s).",
             speech_percent(plan.margin.nominal).text, speech_percent(plan.margin.likely.lo).text,
             speech_percent(plan.margin.likely.hi).text);
}

static enum lw_status judge_jug(const struct run *run, const struct on_scale *on, int64_t reading_ug,
                                struct judgement *judgement)
{
    struct slip_told told = {.what = {PART_BATTER, 0, 0}};
    int64_t expected_ug, tolerance_ug;

    charged_jug(run_input(run), run_plan(run), &run->batch, false, &expected_ug, &tolerance_ug);
    judgement->mass_ug = reading_ug - on->empty_ug;
    if (tolerance_ug < on->tolerance_ug)
        tolerance_ug = on->tolerance_ug;
    judgement->fine = apart(judgement->mass_ug, expected_ug) <= tolerance_ug;
    if (judgement->fine)
        return LW_OK;
    text_add(judgement->what, sizeof judgement->what, "The jug holds %s, and by its weighings it should be %s.",
             run_mass(run, judgement->mass_ug, on->division_ug).text, run_mass(run, expected_ug, on->division_ug).text);
    told.slip = put_right_jug(run_input(run), run_plan(run), &run->batch, false, judgement->mass_ug);
    told.target_ug = expected_ug;
    told.read_ug = judgement->mass_ug;
    add_slip(run, &told, judgement);
    return LW_OK;
}

enum lw_status run_judge(const struct run *run, int64_t reading_ug, struct judgement *judgement, struct lw_error *error)
{
    const struct batch_step *here;
    struct on_scale on;
    enum lw_status status = at_weighing(run, &here, error);

    memset(judgement, 0, sizeof *judgement);
    if (status != LW_OK)
        return status;
    on = run_on_scale(run, &here->step);
    status = check_reading(run, &on, reading_ug, error);
    if (status != LW_OK)
        return status;
    if (here->step.kind == STEP_JUG_CHECK)
        return judge_jug(run, &on, reading_ug, judgement);
    judgement->mass_ug = take(&on, reading_ug).mass_ug;
    judgement->fine = apart(judgement->mass_ug, on.target_ug) <= on.tolerance_ug;
    if (judgement->fine)
        return LW_OK;
    say_off(run, &here->step, &on, judgement);
    diagnose(run, &here->step, &on, judgement);
    return LW_OK;
}

enum lw_status run_weigh(struct run *run, const struct lw_now *now, int64_t reading_ug, char *echo, size_t size,
                         struct lw_error *error)
{
    const struct batch_step *here;
    struct on_scale on;
    struct batch_event event = run_event(EVENT_WEIGHED);
    char title[160];
    enum lw_status status = at_weighing(run, &here, error);

    if (status != LW_OK)
        return status;
    on = run_on_scale(run, &here->step);
    status = check_reading(run, &on, reading_ug, error);
    if (status != LW_OK)
        return status;
    run_title(run, &here->step, title, sizeof title);
    event.kind = here->step.kind == STEP_JUG_CHECK ? EVENT_JUG
                 : is_share(&here->step)           ? EVENT_LYE_POURED
                                                   : EVENT_WEIGHED;
    event.step = here->step.id;
    event.what = here->step.what;
    event.scale = on.scale;
    event.reading_ug = reading_ug;
    event.planned_ug = on.target_ug;
    event.mass_ug = reading_ug - on.empty_ug;
    if (event.kind == EVENT_WEIGHED) {
        struct taken taken = take(&on, reading_ug);

        event.mass_ug = taken.mass_ug;
        event.number[0] = taken.readings;
    } else if (event.kind == EVENT_LYE_POURED)
        event.number[0] = share_of_lye(run, event.mass_ug);
    status = run_append(run, now, event, error);
    if (status != LW_OK)
        return status;
    echo[0] = '\0';
    text_add(echo, size, "%s: %s", run_mass(run, event.mass_ug, on.division_ug).text, title);
    run_reckon(run);
    return LW_OK;
}

/* ---- putting right */

/* Nothing is in its vessel but this. */
static bool stands_alone(const struct run *run, struct part_ref what, enum vessel_use use)
{
    const struct charge *charge = run_charge(&run->batch, what);
    struct step step = {.use = use, .vessel = -1, .kind = STEP_PUT_RIGHT, .what = what};

    return charge && charge->has && run_content(run, &step) == charge->mass_ug;
}

static struct put_right_input question(const struct run *run, struct part_ref what)
{
    struct put_right_input input = {.in = run_input(run),
                                    .plan = run_plan(run),
                                    .charges = &run->batch.charges,
                                    .phase = run->batch.phase,
                                    .what = what};
    bool ready_made = what.part == PART_ALKALI && run_plan(run)->alkali[what.index].solution.division_ug > 0;

    input.superfat_most = put_right_most(run->settings.superfat_most, run_input(run)->recipe);
    input.alone[0] = what.part == PART_ALKALI && !ready_made && run->batch.phase == PHASE_APART;
    input.alone[1] = what.part == PART_OIL && stands_alone(run, what, VESSEL_JUG);
    input.alone[2] = what.part == PART_WATER && stands_alone(run, what, VESSEL_LYE);
    input.alone[3] = (what.part == PART_LIQUID || what.part == PART_ADDITIVE) &&
                     (stands_alone(run, what, VESSEL_LYE) || stands_alone(run, what, VESSEL_JUG));
    return input;
}

int run_remedies(const struct run *run, struct part_ref what, struct remedy remedies[REMEDIES],
                 struct words words[REMEDIES])
{
    struct put_right_input input;
    int n;

    if (!run_charge_in(&(struct charges){0}, what))
        return 0; /* a dose or a pour: nothing hangs on it but what follows, and that follows already */
    input = question(run, what);
    n = put_right(&input, remedies);

    for (int i = 0; words && i < n; i++)
        words_of_remedy(&input, &remedies[i], run->settings.mass_unit, &words[i]);
    return n;
}

/* A place before the step at hand, behind everything that is done. */
static double place_before_here(const struct run *run)
{
    int at = run_at(run);
    double after = at > 0 ? run->batch.step[at - 1].step.place : 0;

    if (at < 0)
        return run->batch.steps > 0 ? run->batch.step[run->batch.steps - 1].step.place + 1 : 1;
    return (after + run->batch.step[at].step.place) / 2;
}

static enum vessel_use use_for(const struct run *run, struct part_ref what)
{
    if (run->batch.combined_s)
        return VESSEL_JUG;
    switch (what.part) {
    case PART_OIL:
        return VESSEL_JUG;
    case PART_ALKALI:
        return run->batch.phase == PHASE_APART && run_plan(run)->alkali[what.index].solution.division_ug == 0
                   ? VESSEL_ALKALI_CUP
                   : VESSEL_LYE;
    case PART_WATER:
    case PART_LIQUID:
        return VESSEL_LYE;
    case PART_BATTER:
    case PART_ADDITIVE:
    case PART_FRAGRANCE:
    case PART_PORTION:
    case PART_COLOURANT:
    case PART_CONSTITUENT:
    case PART_SIZE:
    case PART_CARRIER:
        break;
    }
    return VESSEL_CUP;
}

static int vessel_for(const struct run *run, enum vessel_use use)
{
    for (int i = 0; i < run->batch.steps; i++)
        if (run->batch.step[i].step.use == use && run->batch.step[i].step.vessel >= 0)
            return run->batch.step[i].step.vessel;
    return -1;
}

static enum lw_status add_weighing(struct run *run, struct part_ref what, int64_t mass_ug, struct lw_error *error)
{
    enum vessel_use use = use_for(run, what);

    return run_append_step(run,
                           (struct step){.kind = STEP_PUT_RIGHT,
                                         .place = place_before_here(run),
                                         .what = what,
                                         .use = use,
                                         .vessel = vessel_for(run, use),
                                         .target_ug = mass_ug},
                           error);
}

static enum lw_status add_oils(struct run *run, const struct remedy *remedy, struct lw_error *error)
{
    enum lw_status status = LW_OK;

    for (int i = 0; i < run_input(run)->recipe->oils && status == LW_OK; i++)
        if (remedy->oil_ug[i] > 0)
            status = add_weighing(run, (struct part_ref){PART_OIL, (int16_t)i, 0}, remedy->oil_ug[i], error);
    return status;
}

/* Weighed out like everything else: the margin changes with its reading. */
static enum lw_status pour_share(struct run *run, const struct remedy *remedy, struct lw_error *error)
{
    struct step step = {.kind = STEP_PUT_RIGHT,
                        .place = place_before_here(run),
                        .what = {PART_ALKALI, 0, 2},
                        .use = VESSEL_CUP,
                        .vessel = -1,
                        .target_ug = remedy->mass_ug};

    text_copy(step.text, sizeof step.text, "only so much of the lye");
    return run_append_step(run, step, error);
}

static enum lw_status set_aside(struct run *run, const struct lw_now *now, const char *words, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_SET_ASIDE);

    text_copy(event.text, sizeof event.text, words ? words : "");
    return run_append(run, now, event, error);
}

static enum lw_status carry_out(struct run *run, const struct lw_now *now, const struct remedy *remedy,
                                const char *words, struct lw_error *error)
{
    switch (remedy->kind) {
    case REMEDY_LEAVE:
        break;
    case REMEDY_TAKE_OUT:
        return add_weighing(run, remedy->what, -remedy->mass_ug, error);
    case REMEDY_ADD:
    case REMEDY_ADD_OIL:
        return add_weighing(run, remedy->what, remedy->mass_ug, error);
    case REMEDY_POUR_SHARE:
        return pour_share(run, remedy, error);
    case REMEDY_ADD_OILS:
        return add_oils(run, remedy, error);
    case REMEDY_ADD_LYE:
        return add_weighing(run, (struct part_ref){PART_ALKALI, remedy->what.index, 1}, remedy->mass_ug, error);
    case REMEDY_SET_ASIDE:
        return set_aside(run, now, words, error);
    }
    return LW_OK;
}

enum lw_status run_put_right(struct run *run, const struct lw_now *now, const struct remedy *remedy, const char *words,
                             struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_NOTE);
    enum lw_status status = LW_OK;

    text_copy(event.text, sizeof event.text, words ? words : "");
    if (event.text[0] && remedy->kind != REMEDY_SET_ASIDE)
        status = run_append(run, now, event, error);
    if (status == LW_OK)
        status = carry_out(run, now, remedy, words, error);
    run_reckon(run);
    return status;
}

enum lw_status run_drop_put_right(struct run *run, const struct lw_now *now, struct lw_error *error)
{
    enum lw_status status = LW_OK;

    for (int i = 0; i < run->batch.steps && status == LW_OK; i++) {
        struct batch_event event = run_event(EVENT_SKIPPED);

        if (run->batch.step[i].step.kind != STEP_PUT_RIGHT || run->batch.step[i].state != STEP_TODO)
            continue;
        event.step = run->batch.step[i].step.id;
        event.number[0] = 1;
        text_copy(event.text, sizeof event.text, "what it was for was said anew");
        status = run_append(run, now, event, error);
    }
    return status;
}

static int64_t largest_scale(const struct run *run)
{
    int64_t largest = 0;

    for (int i = 0; i < run_plan(run)->scales; i++)
        if (run_plan(run)->scale[i].capacity_ug > largest)
            largest = run_plan(run)->scale[i].capacity_ug;
    return largest;
}

enum lw_status run_correct(struct run *run, const struct lw_now *now, struct part_ref what, int64_t mass_ug,
                           struct lw_error *error)
{
    const struct charge *charge = run_charge(&run->batch, what);
    struct batch_event event = run_event(EVENT_WEIGHED);
    enum lw_status status;

    if (!charge || !charge->has)
        return lw_fail(error, LW_INVALID, "That has not been weighed yet, so there is nothing to correct.");
    if (mass_ug < 0)
        return lw_fail(error, LW_INVALID, "No less than nothing can be in; type 0 for what was forgotten.");
    if (mass_ug > largest_scale(run))
        return lw_fail(error, LW_INVALID, "%s is more than any scale here holds; type what is really in.",
                       run_mass(run, mass_ug, 0).text);
    event.what = what;
    event.mass_ug = mass_ug - charge->mass_ug;
    event.number[0] = 1;
    status = run_append(run, now, event, error);
    if (status == LW_OK)
        status = run_drop_put_right(run, now, error);
    if (status == LW_OK)
        run_reckon(run);
    return status;
}
