/* after.c - the weeks after. Figures are invented, near common practice. */
#include "after.h"

#include <math.h>
#include <string.h>

#include "base/day.h"
#include "base/mass.h"

static const double AIR = 0.015, LOSS = 0.12, RATE = 0.05;

/* By which a residue is weighed off: what clings to the scraper. */
static const double JUG_OFF_G = 0.2, BAG_OFF_G = 0.1;

enum { QUESTION_COUNT = QUESTIONS, MARKERS = 2 };

void after_answers(struct maker *maker, struct run *run, enum story story)
{
    struct lw_error error = {""};
    int answer[QUESTION_COUNT] = {1, 2, 1, 1, 1};

    if (story == STORY_WARM || maker_chance(maker) < 0.2)
        answer[1] = 3;
    if (story == STORY_COOL || story == STORY_EARLY)
        answer[1] = 1;
    if (story == STORY_BROWN)
        answer[2] = 4;
    if (maker_chance(maker) < 0.15)
        answer[0] = 2, answer[3] = 2;
    if (story == STORY_HOLD)
        answer[0] = 3, answer[3] = 3;
    for (int i = 0; i < QUESTION_COUNT; i++)
        must(run_answer(run, &maker->now, i, answer[i], &error), &error);
}

struct shelf_list {
    struct pieces_line *line;
    int n, most;
};

static bool take_line(void *context, const struct pieces_line *line)
{
    struct shelf_list *list = context;

    list->line[list->n++] = *line;
    return list->n < list->most;
}

int after_shelf(struct maker *maker, struct pieces_line lines[], int most)
{
    struct shelf_list list = {lines, 0, most};
    struct lw_error error = {""};

    must(batches_pieces(workshop_store(maker->workshop), take_line, &list, &error), &error);
    return list.n;
}

/* ---- on the day */

static void weigh_residues(struct maker *maker, struct run *run)
{
    struct lw_error error = {""};

    if (!run_batch(run)->combined_s || maker_chance(maker) < 0.45)
        return;
    must(run_residue(run, &maker->now, RESIDUE_JUG,
                     mass_ug(round(10 * (maker->jug_g + JUG_OFF_G * maker_normal(maker))) / 10), 1, &error),
         &error);
    if (run_batch(run)->kinds > 0)
        must(run_residue(run, &maker->now, RESIDUE_BAG,
                         mass_ug(round(20 * (maker->bag_g + BAG_OFF_G * maker_normal(maker))) / 10), 2, &error),
             &error);
}

static void measure_density(struct maker *maker, struct run *run)
{
    double density = run_charged(run)->density_g_ml * (1 - AIR * (1 + 0.4 * maker_normal(maker)));
    struct lw_error error = {""};

    if (maker_chance(maker) < 0.3 && !run_batch(run)->set_aside)
        must(run_density(run, &maker->now, mass_ug(round(1000 * density) / 10), 100, &error), &error);
}

/* ---- weeks after */

struct drying {
    double first_g[MARKERS], loss, rate;
};

static void at_day(struct maker *maker, const struct batch *batch, int day)
{
    int64_t at_s = batch->cut_s + (int64_t)day * DAY_S + (int64_t)(3600 * maker_chance(maker));

    if (at_s > maker->now.utc_s)
        maker->now.utc_s = at_s;
}

static bool weigh_markers(struct maker *maker, struct run *run, const struct drying *drying, int day)
{
    const struct batch *batch = run_batch(run);
    struct lw_error error = {""};

    if (batch->cut_s + (int64_t)(day + 1) * DAY_S > maker->end_s)
        return false;
    at_day(maker, batch, day);
    for (int i = 0; i < MARKERS; i++) {
        double share = 1 - drying->loss * (1 - exp(-drying->rate * day));
        double g = drying->first_g[i] * share + 0.05 * maker_normal(maker);

        must(run_cure_weigh(run, &maker->now, i + 1, mass_ug(round(10 * g) / 10), &error), &error);
    }
    return true;
}

static void dry(struct maker *maker, struct run *run)
{
    static const int days[] = {0, 3, 7, 14, 21, 28, 42, 56};
    double lightest_g = run_batch(run)->lightest_bar_g;
    struct drying drying = {{lightest_g * 1.01, lightest_g * 1.04},
                            LOSS + 0.007 * maker_normal(maker),
                            RATE * exp(0.12 * maker_normal(maker))};

    if (maker_chance(maker) < 0.35) /* nobody had time */
        return;
    for (size_t i = 0; i < sizeof days / sizeof *days; i++)
        if (!weigh_markers(maker, run, &drying, days[i]))
            return;
}

static void test(struct maker *maker, struct run *run, int day)
{
    struct lw_error error = {""};

    at_day(maker, run_batch(run), day);
    must(run_tested(run, &maker->now, TEST_TONGUE, 1, "", &error), &error);
    if (maker_chance(maker) < 0.5)
        must(run_tested(run, &maker->now, TEST_PH, round(10 * (9.4 + 0.2 * maker_normal(maker))) / 10, "strip", &error),
             &error);
}

static void decide(struct maker *maker, struct run *run, enum story story, const char *note)
{
    struct lw_error error = {""};

    if (story == STORY_HOLD)
        must(run_outcome(run, &maker->now, OUTCOME_ON_HOLD, note, &error), &error);
    else if (story == STORY_REJECTED)
        must(run_outcome(run, &maker->now, OUTCOME_REJECTED, note, &error), &error);
    else
        must(run_outcome(run, &maker->now, OUTCOME_RELEASED, "", &error), &error);
}

static void cure(struct maker *maker, struct run *run, enum story story, const char *note)
{
    int day = 29 + (int)(20 * maker_chance(maker));

    dry(maker, run);
    if (run_batch(run)->cut_s + (int64_t)day * DAY_S > maker->end_s)
        return;
    test(maker, run, day);
    decide(maker, run, story, note);
}

/* Pieces go onto a soap within days, and are cured and tested as a part of it. */
static void pass_pieces(struct maker *maker, struct run *run)
{
    struct lw_error error = {""};

    if (maker->now.utc_s + 3 * DAY_S > maker->end_s)
        return;
    maker->now.utc_s += 2 * DAY_S;
    must(run_outcome(run, &maker->now, OUTCOME_RELEASED, "pieces: cured and tested on their soap", &error), &error);
}

void after_said(struct maker *maker, struct run *run, enum story story, const char *note)
{
    struct lw_error error = {""};

    weigh_residues(maker, run);
    measure_density(maker, run);
    if (note[0] && !run_batch(run)->set_aside && story != STORY_HOLD && story != STORY_REJECTED &&
        story != STORY_COMPLAINT)
        must(run_note(run, &maker->now, note, &error), &error);
    if (story == STORY_OUT)
        must(run_leave_out(run, &maker->now, note, &error), &error);
    if (run_batch(run)->set_aside)
        return;
    if (run_batch(run)->cut_s)
        cure(maker, run, story, note);
    else
        pass_pieces(maker, run);
    if (story == STORY_COMPLAINT)
        must(run_note(run, &maker->now, note, &error), &error);
}
