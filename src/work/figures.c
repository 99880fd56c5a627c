/* figures.c - a record summed up. */
#include "work/figures.h"

#include <math.h>
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "calc/pace.h"
#include "calc/pace_stamped.h"
#include "calc/yield.h"
#include "work/curing.h"
#include "work/run_inside.h"

enum { LEFT_MOST = 64 };

static enum book_outcome outcome_of(const struct batch *batch)
{
    static const enum book_outcome said[] = {[OUTCOME_NONE] = BOOK_MADE,
                                             [OUTCOME_RELEASED] = BOOK_RELEASED,
                                             [OUTCOME_ON_HOLD] = BOOK_ON_HOLD,
                                             [OUTCOME_REJECTED] = BOOK_REJECTED};

    if (batch->outcome == OUTCOME_NONE && batch->set_aside)
        return BOOK_SET_ASIDE;
    return batch->finished_s ? said[batch->outcome] : BOOK_RUNNING;
}

/* ---- the pace */

static int waits_for(enum technique technique)
{
    return technique == TECHNIQUE_PIPE ? 2 : technique == TECHNIQUE_LAYER ? 1 : 0;
}

/* The portion that waits for the thickest batter; the earlier of two. */
static const struct plan_portion *leading(const struct plan *plan)
{
    const struct plan_portion *most = &plan->portion[0];

    for (int p = 1; p < plan->portions; p++)
        if (waits_for(plan->portion[p].technique) > waits_for(most->technique))
            most = &plan->portion[p];
    return most;
}

/* When the last portion was poured, into bags or mould; 0: not. */
static int64_t poured_s(const struct batch *batch)
{
    int64_t last_s = 0;

    for (int i = 0; i < batch->steps; i++) {
        const struct batch_step *step = &batch->step[i];

        if ((step->step.kind == STEP_POUR || step->step.kind == STEP_POUR_OUT) && step->done_s > last_s)
            last_s = step->done_s;
    }
    return last_s;
}

static double combined_c(const struct batch *batch)
{
    double lye = batch->lye_temp_c, oil = batch->oil_temp_c;

    return isfinite(lye) && isfinite(oil) ? (lye + oil) / 2 : isfinite(lye) ? lye : oil;
}

static void pace_figures(const struct run *run, struct book_row *row)
{
    const struct plan_portion *portion = leading(&run->charged);
    struct pace_terms terms = pace_terms_of(run_input(run), &run->charged, portion);
    double *figure = row->figure;

    row->technique = terms.technique;
    figure[BOOK_SATURATED] = terms.saturated;
    figure[BOOK_SCENT] = terms.acceleration > ACCELERATION_NONE ? terms.acceleration - ACCELERATION_NONE : 0;
    if (!run->batch.combined_s)
        return;
    figure[BOOK_STRENGTH] = run->charged.water.strength_rounded;
    figure[BOOK_TEMP] = combined_c(&run->batch);
    pace_seen_of(&run->batch, terms.technique, poured_s(&run->batch), &figure[BOOK_FROM], &figure[BOOK_UNTIL],
                 &row->until_least);
    if (figure[BOOK_UNTIL] > figure[BOOK_FROM])
        figure[BOOK_WINDOW] = figure[BOOK_UNTIL] - figure[BOOK_FROM];
}

/* ---- pieces */

/* How many pieces more an event says to have been made of the kind of `portion`. */
static int made_by(const struct batch_event *event, int portion)
{
    if (event->taken_back || event->what.part != PART_PORTION || event->what.index != portion)
        return 0;
    if (event->kind == EVENT_PIECES || event->kind == EVENT_REJECTS)
        return (int)event->number[0];
    return event->kind == EVENT_SCRAPED ? -(int)event->number[0] : 0;
}

/* Pieces of one kind that were counted while they were piped: those after lifting are counted anew. */
static int made_of(const struct run *run, int kind)
{
    int made = 0;

    for (int i = 0; i < run->events; i++)
        made += made_by(&run->event[i], run->batch.pieces[kind].portion);
    return made;
}

/* Weighings of what was left of one kind. */
static int lefts_of(const struct run *run, int kind, struct left_seen left[LEFT_MOST])
{
    int portion = run->batch.pieces[kind].portion, made = 0, n = 0;

    for (int i = 0; i < run->events && n < LEFT_MOST; i++) {
        const struct batch_event *event = &run->event[i];

        made += made_by(event, portion);
        if (!event->taken_back && event->what.part == PART_PORTION && event->what.index == portion &&
            event->kind == EVENT_LEFT && event->number[0] > 0)
            left[n++] = (struct left_seen){event->mass_ug, made};
    }
    return n;
}

static void piece_figures(const struct run *run, struct book_row *row)
{
    double good = 0, rejects = 0, *figure = row->figure;

    for (int kind = 0; kind < run->batch.kinds; kind++) {
        const struct batch_pieces *pieces = &run->batch.pieces[kind];
        struct left_seen left[LEFT_MOST];

        row->kinds += yield_of(run_input(run), &run->charged, &run->batch, kind, left, lefts_of(run, kind, left),
                               row->pieces + row->kinds, BATCH_KINDS - row->kinds);
        good += pieces->good;
        rejects += pieces->rejects - pieces->scraped;
        if (isnan(figure[BOOK_SECONDS]))
            figure[BOOK_SECONDS] = yield_seconds(pieces, made_of(run, kind));
    }
    for (int i = 0; i < row->kinds; i++)
        if (row->pieces[i].made > 0 && text_same(row->pieces[i].kind, row->pieces[0].kind))
            figure[BOOK_EACH] = row->pieces[i].each_g;
    if (good + rejects <= 0)
        return;
    figure[BOOK_PIECES] = good + rejects;
    figure[BOOK_GOOD] = good;
    figure[BOOK_REJECTS] = rejects / (good + rejects);
}

/* ---- the rest */

static void batter_figures(const struct run *run, double figure[])
{
    const struct batch *batch = &run->batch;

    figure[BOOK_OILS] = mass_g(run_plan(run)->oils_ug);
    if (!batch->combined_s)
        return;
    figure[BOOK_BATTER] = mass_g(run->charged.batter_ug);
    figure[BOOK_SUPERFAT] = run->charged.margin.nominal;
    figure[BOOK_JUG_RESIDUE] = batch->residue_g[RESIDUE_JUG];
    figure[BOOK_BAG_RESIDUE] = batch->residue_g[RESIDUE_BAG];
    if (batch->density_g_ml > 0) {
        figure[BOOK_DENSITY] = batch->density_g_ml;
        figure[BOOK_AIR] = fmax(1 - batch->density_g_ml / run->charged.density_g_ml, 0);
    }
}

static void cure_figures(const struct run *run, struct book_row *row)
{
    double *figure = row->figure;
    struct curing curing;

    if (run->batch.bars > 0) {
        figure[BOOK_BARS] = run->batch.bars;
        if (run->batch.lightest_bar_g > 0)
            figure[BOOK_LIGHTEST] = run->batch.lightest_bar_g;
    }
    curing_of(run, NULL, &(struct lw_now){0}, &curing);
    row->want = curing_want(run, &curing, &row->want_s);
    if (curing.from_batches >= 0 || curing.fit.unknown != CURE_KNOWN)
        return;
    figure[BOOK_CURE_LOSS] = 1 - curing.fit.end / curing.fit.start;
    figure[BOOK_CURE_RATE] = curing.fit.rate;
    figure[BOOK_CURED_DAYS] = curing.cured_day;
}

void figures_of(const struct run *run, struct book_row *row)
{
    memset(row, 0, sizeof *row);
    for (int i = 0; i < BOOK_FIGURE_COUNT; i++)
        row->figure[i] = NAN;
    row->batch_id = run->id;
    row->last_event = run->batch.last_event;
    row->outcome = outcome_of(&run->batch);
    row->left_out = run->batch.left_out != 0;
    batter_figures(run, row->figure);
    pace_figures(run, row);
    piece_figures(run, row);
    cure_figures(run, row);
}

/* ---- words */

static void add_words(struct buffer *out, const char *words)
{
    if (words[0])
        buffer_add(out, "%s\n", words);
}

void figures_said(const struct run *run, struct buffer *out)
{
    static const bool speaks[EVENT_KIND_COUNT] = {
        [EVENT_REASON] = true,    [EVENT_NOTE] = true,    [EVENT_PROBLEM] = true,  [EVENT_ANSWER] = true,
        [EVENT_SET_ASIDE] = true, [EVENT_OUTCOME] = true, [EVENT_LEFT_OUT] = true, [EVENT_TESTED] = true,
        [EVENT_PLACED] = true,    [EVENT_SKIPPED] = true,
    };
    const struct plan_input *input = run_input(run);

    add_words(out, run->batch.head.number);
    for (int i = 0; i < input->recipe->oils; i++)
        add_words(out, document_name(input, (struct part_ref){PART_OIL, (int16_t)i, 0}));
    for (int i = 0; i < input->recipe->portions; i++) {
        add_words(out, input->recipe->portion[i].name);
        add_words(out, input->recipe->portion[i].pieces.kind);
    }
    for (int i = 0; i < run->events; i++)
        if (speaks[run->event[i].kind] && !run->event[i].taken_back)
            add_words(out, run->event[i].text);
    for (int i = 0; i < run->steps; i++)
        add_words(out, run->step[i].text);
}

void figures_names(const struct run *run, enum book_in in, struct buffer *out)
{
    const struct plan_input *input = run_input(run);
    const struct recipe *recipe = input->recipe;

    for (int i = 0; in == BOOK_IN_FRAGRANCE && i < recipe->fragrances; i++)
        add_words(out, document_name(input, (struct part_ref){PART_FRAGRANCE, (int16_t)i, 0}));
    for (int p = 0; in == BOOK_IN_COLOURANT && p < recipe->portions; p++)
        for (int c = 0; c < recipe->portion[p].colourants; c++)
            add_words(out, document_name(input, (struct part_ref){PART_COLOURANT, (int16_t)p, (int16_t)c}));
}
