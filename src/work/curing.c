/* curing.c - marker bars to a curve. All markers of a batch dry alike, so their masses are taken as shares of the first of each. */
#include "work/curing.h"

#include <math.h>
#include <string.h>

#include "base/day.h"
#include "base/mass.h"
#include "base/text.h"
#include "store/book.h"
#include "calc/product.h"
#include "work/run_inside.h"

/* The label's mass is under the fitted end by so many standard errors (common practice of a lower 95 % bound). */
static const double LABEL_ERRORS = 1.645;

static double days_between(int64_t from_s, int64_t to_s)
{
    return (double)(to_s - from_s) / DAY_S;
}

static void take_points(const struct batch *batch, struct curing *curing)
{
    int64_t first_ug[BATCH_MARKERS + 1] = {0};

    for (int i = 0; i < batch->cure_weighings; i++) {
        const struct cure_weighing *weighing = &batch->cure[i];
        int marker = weighing->marker;

        if (marker < 1 || marker > BATCH_MARKERS)
            continue;
        if (!first_ug[marker]) {
            first_ug[marker] = weighing->mass_ug;
            curing->markers++;
        }
        curing->marker_of[curing->points] = marker;
        curing->point[curing->points++] = (struct cure_point){days_between(batch->cut_s, weighing->at_s),
                                                              (double)weighing->mass_ug / (double)first_ug[marker]};
    }
}

/* Share of the batter that is water, all of which could go. */
static double water_share(const struct run *run)
{
    double batter = mass_g(run->charged.batter_ug);

    return batter > 0 ? product_water_g(run_input(run), &run->charged) / batter : 0;
}

/* The loss that a batch of this recipe has by practice: its own water down to what a cured bar holds. */
static double practice_loss(const struct run *run)
{
    const struct practice *practice = run_input(run)->reference->practice;
    double batter = mass_g(run->charged.batter_ug);

    return batter > 0 ? 1 - product_cured_g(practice, batter, water_share(run) * batter) / batter
                      : practice->cure_loss_least;
}

static void expect(const struct run *run, const struct lessons *lessons, struct curing *curing)
{
    const struct practice *practice = run_input(run)->reference->practice;
    bool learned = lessons && lessons->cure_loss.batches >= LEARNED_LEAST;

    curing->from_batches = learned ? lessons->cure_loss.batches : 0;
    cure_expected(learned ? lessons->cure_loss.mean : practice_loss(run),
                  learned ? lessons->cure_rate.mean : practice->cure_rate, &curing->fit);
}

static void say_why(enum cure_unknown unknown, int points, struct curing *curing)
{
    curing->why_no_curve[0] = '\0';
    if (unknown == CURE_FEW)
        text_add(curing->why_no_curve, sizeof curing->why_no_curve, "Too few weighings for a curve: %d of %d days",
                 points, CURE_LEAST_POINTS);
    else if (unknown == CURE_STRAIGHT)
        text_add(curing->why_no_curve, sizeof curing->why_no_curve, "It dries as fast as at first: no end to be seen");
    else if (unknown == CURE_RISING)
        text_add(curing->why_no_curve, sizeof curing->why_no_curve, "The weighings do not fall as drying does");
    else if (unknown == CURE_SAME)
        text_add(curing->why_no_curve, sizeof curing->why_no_curve, "The weighings are all the same");
}

static double label_g(const struct run *run, const struct curing *curing)
{
    const struct plan *plan = &run->charged;
    int64_t division_ug = plan->scales > 0 ? plan->scale[0].division_ug : UG_PER_G;
    struct cure_fit of_cut = curing->fit;

    if (!(run->batch.lightest_bar_g > 0) || of_cut.unknown != CURE_KNOWN)
        return 0;
    of_cut.end /= curing->fit.start;
    of_cut.sd_end /= curing->fit.start;
    of_cut.start = 1;
    return cure_label_g(&of_cut, run->batch.lightest_bar_g, LABEL_ERRORS, 1 - water_share(run),
                        fmax(mass_g(division_ug), 1));
}

void curing_of(const struct run *run, const struct lessons *lessons, const struct lw_now *now, struct curing *curing)
{
    const struct batch *batch = &run->batch;
    const struct practice *practice = run_input(run)->reference->practice;

    memset(curing, 0, sizeof *curing);
    curing->least_days = practice->cure_least_days;
    curing->threshold = practice->cure_loss_a_day;
    curing->may_label = batch->outcome == OUTCOME_RELEASED;
    curing->from_batches = -1;
    curing->cured_day = NAN;
    curing->fit.unknown = CURE_FEW;
    if (!batch->cut_s)
        return;
    curing->cut_s = batch->cut_s;
    curing->day = fmax(days_between(batch->cut_s, now->utc_s), 0);
    take_points(batch, curing);
    cure_fit(curing->point, curing->points, 1 - water_share(run), &curing->fit);
    if (curing->fit.unknown != CURE_KNOWN) {
        say_why(curing->fit.unknown, curing->fit.points, curing);
        expect(run, lessons, curing);
    }
    curing->cured_day = cure_cured_day(&curing->fit, curing->least_days, curing->threshold);
    curing->cured = curing->day >= curing->cured_day;
    curing->loss_a_day = cure_loss_a_day(&curing->fit, curing->day);
    curing->label_g = label_g(run, curing);
}

/* ---- a weighing that cannot be */

/* Damp air and an unsteady scale give back a little: share of the mass. */
static const double GAINS_MOST = 0.005;

bool curing_doubt(const struct run *run, int marker, int64_t ug, char *sentence, size_t size)
{
    const struct batch *batch = &run->batch;
    int64_t first_ug = 0, last_ug = 0;
    double g = mass_g(ug), stays = 1 - water_share(run);

    for (int i = 0; i < batch->cure_weighings; i++) {
        if (batch->cure[i].marker != marker)
            continue;
        last_ug = batch->cure[i].mass_ug;
        first_ug = first_ug ? first_ug : last_ug;
    }
    sentence[0] = '\0';
    if (last_ug && g > mass_g(last_ug) * (1 + GAINS_MOST))
        text_add(sentence, size, "Bar %d weighed %s last time, and a drying bar does not gain.", marker,
                 run_mass(run, last_ug, 0).text);
    else if (first_ug && g < stays * mass_g(first_ug))
        text_add(sentence, size, "Bar %d weighed %s at first; with all its water gone it would weigh %s.", marker,
                 run_mass(run, first_ug, 0).text, run_mass(run, mass_ug(stays * mass_g(first_ug)), 0).text);
    else if (!first_ug && batch->lightest_bar_g > 0 && g < stays * batch->lightest_bar_g)
        text_add(sentence, size, "The lightest bar weighed %s at the cut; with all its water gone it would weigh %s.",
                 run_mass(run, mass_ug(batch->lightest_bar_g), 0).text,
                 run_mass(run, mass_ug(stays * batch->lightest_bar_g), 0).text);
    return sentence[0] != '\0';
}

/* ---- what it wants */

enum { HOLD_DAYS = 7, DUE_DAYS = 7, LATE_DAYS = 90 };

/* Days after the cut on which marker bars go on the scale; common practice. */
static const int weighing_days[] = {0, 3, 7, 14, 21, 28, 42, 56};

/* The first of them after the last weighing; below 0: there is none left, or nobody weighs this batch. */
static int next_weighing(const struct curing *curing)
{
    double last = curing->points > 0 ? curing->point[curing->points - 1].day : INFINITY;

    for (size_t i = 0; i < sizeof weighing_days / sizeof *weighing_days; i++)
        if (weighing_days[i] > last + 0.5)
            return weighing_days[i];
    return -1;
}

static int64_t last_test_s(const struct batch *batch)
{
    int64_t last_s = 0;

    for (int i = 0; i < batch->tests; i++)
        if (batch->test[i].test != TEST_LOOK)
            last_s = batch->test[i].at_s;
    return last_s;
}

static int64_t event_s(const struct run *run, int64_t id)
{
    return id >= 1 && id <= run->events ? run->event[id - 1].at_s : 0;
}

enum cure_want curing_want(const struct run *run, const struct curing *curing, int64_t *when_s)
{
    const struct batch *batch = &run->batch;
    int64_t ready_s = batch->cut_s + (int64_t)(curing->least_days * DAY_S), tested_s = last_test_s(batch);
    int weighing = next_weighing(curing);

    *when_s = 0;
    if (!batch->cut_s || !batch->finished_s || batch->set_aside || batch->outcome == OUTCOME_RELEASED ||
        batch->outcome == OUTCOME_REJECTED)
        return WANT_NOTHING;
    if (batch->outcome == OUTCOME_ON_HOLD) {
        *when_s = event_s(run, batch->outcome_event) + HOLD_DAYS * DAY_S;
        return WANT_OUTCOME;
    }
    if (weighing >= 0 && (weighing < curing->least_days || weighing < curing->cured_day)) {
        *when_s = batch->cut_s + weighing * DAY_S;
        return WANT_WEIGHING;
    }
    if (tested_s < ready_s) {
        *when_s = ready_s;
        return WANT_TEST;
    }
    *when_s = tested_s;
    return WANT_OUTCOME;
}

struct due_list {
    struct cure_due *due;
    int n, most;
    int64_t now_s;
};

static void say_due(struct cure_due *due, int64_t now_s)
{
    static const char *const what[WANTS] = {"", "weigh the marker bars", "test for free alkali",
                                            "say what becomes of it"};
    double days = floor((double)(now_s - due->due_s) / DAY_S);

    text_copy(due->text, sizeof due->text, what[due->want]);
    if (days >= 1)
        text_add(due->text, sizeof due->text, ", %d day%s late", (int)days, days >= 2 ? "s" : "");
    else if (days < -1)
        text_add(due->text, sizeof due->text, ", in %d days", (int)-days);
    else
        text_add(due->text, sizeof due->text, days < 0 ? ", tomorrow" : ", today");
}

static bool take_due(void *context, const struct book_line *line)
{
    struct due_list *list = context;
    struct cure_due *due = &list->due[list->n];

    *due = (struct cure_due){.batch_id = line->id, .want = line->want, .due_s = line->want_s};
    text_copy(due->number, sizeof due->number, line->number);
    text_copy(due->name, sizeof due->name, line->name);
    say_due(due, list->now_s);
    return ++list->n < list->most;
}

enum lw_status curing_due(struct workshop *workshop, const struct lw_now *now, struct cure_due due[], int most, int *n,
                          struct lw_error *error)
{
    struct due_list list = {due, 0, most, now->utc_s};
    enum lw_status status = book_wants(workshop_store(workshop), now->utc_s - LATE_DAYS * DAY_S,
                                       now->utc_s + DUE_DAYS * DAY_S, most, take_due, &list, error);

    *n = list.n;
    return status;
}
