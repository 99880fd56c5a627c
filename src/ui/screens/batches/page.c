/* page.c - what was planned and done: head, yield, window, timeline, weighings, notes, and every event at the end. */
#include "ui/screens/batches/page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "lyeway/names.h"
#include "ui/kit/band.h"
#include "ui/kit/strip.h"
#include "ui/kit/timeline.h"
#include "ui/screens/dates.h"
#include "ui/screens/show.h"
#include "work/words.h"
#include "work/words_piping.h"

enum {
    ROWS_MOST = 1600,
    LINE_BYTES = 512,
    TIME_BYTES = 24,
    TIMELINE_ROWS = 8,
    MARGIN = 1,
    CELL_COLS = 37, /* of a figure with its name */
    MASS_COLS = 10,
    MASSES_COLS = 3 * (MASS_COLS + 1) + 2, /* planned, weighed, off, and their unit */
    TWO_COLS = 120                         /* from here on the page has two columns */
};

struct drawing {
    const struct page_source *source;
    struct page *page;
    struct canvas canvas;
    int first; /* row of the column */
    int row;
};

/* ---- rows */

static void section(struct drawing *drawing, const char *title)
{
    struct page *page = drawing->page;

    if (drawing->row > drawing->first)
        drawing->row++;
    if (page->sections < PAGE_SECTIONS)
        page->section[page->sections++] = drawing->row;
    canvas_text(&drawing->canvas, drawing->row++, MARGIN, STYLE_TITLE, title);
}

static void line(struct drawing *drawing, uint16_t style, const char *text)
{
    struct canvas rest = canvas_part(&drawing->canvas, drawing->row, MARGIN + 1, ROWS_MOST - drawing->row,
                                     drawing->canvas.cols - MARGIN - 2);

    drawing->row += canvas_wrap(&rest, 0, 6, style, text);
}

static bool taken(const struct drawing *drawing, enum book_figure figure)
{
    return isfinite(drawing->source->line.figure[figure]);
}

static bool any_taken(const struct drawing *drawing, const enum book_figure list[], int n)
{
    bool any = false;

    for (int i = 0; i < n; i++)
        any |= taken(drawing, list[i]);
    return any;
}

/* Those that were taken, a cell each with the name and the value under one another. */
static void figures(struct drawing *drawing, const enum book_figure list[], int n)
{
    int in_row = (drawing->canvas.cols - 2 * MARGIN) / CELL_COLS, at = 0;

    for (int i = 0; i < n; i++) {
        int col = MARGIN + 1 + at % in_row * CELL_COLS;
        const char *name = book_figure_name(list[i]);
        char value[48];

        if (!taken(drawing, list[i]))
            continue;
        if (at > 0 && at % in_row == 0)
            drawing->row++;
        book_figure_text(&drawing->source->line, list[i], workshop_settings(drawing->source->workshop), true, value,
                         sizeof value);
        canvas_span(&drawing->canvas, drawing->row, col, CELL_COLS - 2, STYLE_PLAIN, name);
        canvas_span_right(&drawing->canvas, drawing->row, col + CELL_COLS - 2 - (int)strlen(value), (int)strlen(value),
                          STYLE_STRONG, value);
        at++;
    }
    drawing->row += at > 0;
}

#define COUNT(list) ((int)(sizeof(list) / sizeof(list)[0]))

/* ---- the head */

static const char *said_at(const struct run *run, int64_t event)
{
    return event >= 1 && event <= run_events(run) ? run_event_at(run, (int)event - 1)->text : "";
}

static void head(struct drawing *drawing)
{
    const struct run *run = drawing->source->run;
    const struct batch *batch = run_batch(run);
    char text[LINE_BYTES] = "", day[DATE_BYTES];

    date_of(day, batch->head.started_s, batch->head.offset_s);
    text_add(text, sizeof text, "%s, revision %d, made %s: %s", batch->head.name, batch->head.revision, day,
             name_of_outcome(drawing->source->line.outcome));
    if (batch->outcome_event && said_at(run, batch->outcome_event)[0])
        text_add(text, sizeof text, " (%s)", said_at(run, batch->outcome_event));
    line(drawing, STYLE_STRONG, text);
    if (batch->left_out) {
        text[0] = '\0';
        text_add(text, sizeof text, "Left out of what is learned: %s", said_at(run, batch->left_out));
        line(drawing, STYLE_CAUTION, text);
    }
}

static void margin(struct drawing *drawing)
{
    const struct run *run = drawing->source->run;
    const struct margin *as_weighed = &run_charged(run)->margin;
    char text[LINE_BYTES] = "", nominal[SHOW_BYTES], lo[SHOW_BYTES], hi[SHOW_BYTES], asked[SHOW_BYTES];
    struct canvas band;

    show_percent(asked, run_planned(run)->input->recipe->superfat, 1);
    show_percent(nominal, as_weighed->nominal, 2);
    show_percent(lo, as_weighed->likely.lo, 1);
    show_percent(hi, as_weighed->likely.hi, 1);
    text_add(text, sizeof text, "superfat as weighed %s %%, asked %s %%, likely %s to %s %%   %s", nominal, asked, lo,
             hi, run_margin_word(run));
    line(drawing, STYLE_PLAIN, text);
    band = canvas_part(&drawing->canvas, drawing->row, MARGIN + 1, 1, drawing->canvas.cols - 2 * MARGIN - 2);
    band_paint(&band, 0,
               &(struct band){.from = fmin(-0.01, as_weighed->worst.lo - 0.01),
                              .to = fmax(0.12, as_weighed->worst.hi + 0.01),
                              .mark = 0,
                              .worst_lo = as_weighed->worst.lo,
                              .worst_hi = as_weighed->worst.hi,
                              .likely_lo = as_weighed->likely.lo,
                              .likely_hi = as_weighed->likely.hi,
                              .point = as_weighed->nominal,
                              .mark_name = "0",
                              .left = "lye ",
                              .right = " oil"},
               STYLE_PLAIN);
    drawing->row++;
}

/* Where the batter went, to scale. */
static void strip(struct drawing *drawing)
{
    const struct plan_document *planned = run_planned(drawing->source->run);
    const struct plan *plan = run_charged(drawing->source->run);
    struct canvas row = canvas_part(&drawing->canvas, drawing->row, MARGIN + 1, 1,
                                    drawing->canvas.cols - 2 * MARGIN - 2);
    struct strip_part parts[PLAN_PORTIONS + 1];
    size_t n = 0;

    if (plan->portions < 2)
        return;
    for (int i = 0; i < plan->portions; i++) {
        int source = plan->portion[i].source;

        parts[n++] = (struct strip_part){source >= 0 ? planned->input->recipe->portion[source].name : "leftover",
                                         mass_g(plan->portion[i].batter_ug), STYLE_PLAIN};
    }
    parts[n++] = (struct strip_part){"", mass_g(plan->residue_ug), STYLE_PLAIN};
    strip_paint(&row, 0, mass_g(plan->batter_ug), parts, n);
    drawing->row++;
}

static void batter(struct drawing *drawing)
{
    static const enum book_figure list[] = {BOOK_OILS, BOOK_BATTER, BOOK_STRENGTH, BOOK_TEMP, BOOK_DENSITY, BOOK_AIR};

    figures(drawing, list, COUNT(list));
    if (!run_batch(drawing->source->run)->combined_s)
        return;
    margin(drawing);
    strip(drawing);
}

/* ---- yield */

static const struct recipe_portion *portion_of(const struct run *run, const struct batch_pieces *pieces)
{
    return &run_planned(run)->input->recipe->portion[pieces->portion];
}

/* "quince blossom"; pieces without a kind are called as their portion. */
static const char *kind_of(const struct run *run, const struct batch_pieces *pieces)
{
    const struct recipe_portion *portion = portion_of(run, pieces);

    return portion->pieces.kind[0] ? portion->pieces.kind : portion->name;
}

/* So that a maker can reckon it again. */
static void own_mass(struct drawing *drawing, int kind)
{
    const struct run *run = drawing->source->run;
    const struct recipe *recipe = run_planned(run)->input->recipe;
    struct piping_terms terms;
    char text[LINE_BYTES];

    if (!run_own_mass(run, kind, &terms))
        return;
    words_of_own_mass(&terms, recipe->portion[terms.portion].name, text, sizeof text);
    line(drawing, STYLE_PLAIN, text);
}

static void kinds(struct drawing *drawing)
{
    const struct run *run = drawing->source->run;
    const struct batch *batch = run_batch(run);

    for (int k = 0; k < batch->kinds; k++) {
        const struct batch_pieces *pieces = &batch->pieces[k];
        char text[LINE_BYTES] = "";

        text_add(text, sizeof text, "%s: %d good of %d, %d wanted%s", kind_of(run, pieces), pieces->good,
                 pieces->good + pieces->rejects - pieces->scraped, portion_of(run, pieces)->pieces.count,
                 pieces->recounted ? "; counted after lifting" : "");
        line(drawing, STYLE_PLAIN, text);
        own_mass(drawing, k);
    }
}

static void yield(struct drawing *drawing)
{
    static const enum book_figure list[] = {BOOK_EACH,        BOOK_REJECTS, BOOK_SECONDS, BOOK_JUG_RESIDUE,
                                            BOOK_BAG_RESIDUE, BOOK_BARS,    BOOK_LIGHTEST};

    if (!any_taken(drawing, list, COUNT(list)) && run_batch(drawing->source->run)->kinds == 0)
        return;
    section(drawing, "Yield");
    kinds(drawing);
    figures(drawing, list, COUNT(list));
}

/* ---- the clock */

static void add_event(struct timeline_event events[], int *n, double at_min, const char *label)
{
    int i = *n;

    if (*n == TIMELINE_EVENTS)
        return;
    for (; i > 0 && events[i - 1].at > at_min; i--)
        events[i] = events[i - 1];
    events[i].at = at_min;
    text_copy(events[i].label, sizeof events[i].label, label);
    ++*n;
}

/* Minutes from combining until the batter was used up or too stiff. */
static int moments(const struct run *run, struct timeline_event events[])
{
    static const enum step_kind steps[] = {STEP_POUR, STEP_CHILL};
    static const char *const names[] = {"poured", "chilled"};
    const struct batch *batch = run_batch(run);
    int n = 0;

    for (int stage = 1; stage < 8; stage++)
        if (batch->stage_s[stage] >= batch->combined_s && batch->stage_s[stage])
            add_event(events, &n, (double)(batch->stage_s[stage] - batch->combined_s) / 60, run_stage_name(stage));
    for (int k = 0; k < batch->kinds; k++)
        if (batch->pieces[k].first_s) {
            const struct batch_pieces *pieces = &batch->pieces[k];
            char first[TIMELINE_LABEL_BYTES] = "", last[TIMELINE_LABEL_BYTES] = "";

            text_add(first, sizeof first, "first %s", kind_of(run, pieces));
            text_add(last, sizeof last, "last %s", kind_of(run, pieces));
            add_event(events, &n, (double)(pieces->first_s - batch->combined_s) / 60, first);
            add_event(events, &n, (double)(pieces->last_s - batch->combined_s) / 60, last);
        }
    for (int i = 0; i < batch->steps; i++)
        for (int k = 0; k < COUNT(steps); k++)
            if (batch->step[i].step.kind == steps[k] && batch->step[i].done_s > batch->combined_s)
                add_event(events, &n, (double)(batch->step[i].done_s - batch->combined_s) / 60, names[k]);
    return n;
}

static void clock_of(struct drawing *drawing)
{
    static const enum book_figure list[] = {BOOK_FROM, BOOK_UNTIL, BOOK_WINDOW};
    const struct batch *batch = run_batch(drawing->source->run);
    struct timeline_event events[TIMELINE_EVENTS];
    struct canvas canvas;
    int n, rows = 0;

    if (!batch->combined_s)
        return;
    section(drawing, "Minutes from combining");
    if (any_taken(drawing, list, COUNT(list)))
        canvas_print(&drawing->canvas, drawing->row - 1, MARGIN + 24, STYLE_PLAIN, "technique: %s",
                     name_of_technique(drawing->source->line.technique));
    figures(drawing, list, COUNT(list));
    n = moments(drawing->source->run, events);
    canvas = canvas_part(&drawing->canvas, drawing->row, MARGIN + 1, TIMELINE_ROWS,
                         drawing->canvas.cols - 2 * MARGIN - 2);
    if (n > 0)
        timeline_paint(&canvas, events, n, "min", &rows);
    drawing->row += rows;
}

/* ---- planned against actual */

struct amounts {
    int64_t planned_ug, actual_ug, division_ug;
};

static void weighing_row(struct drawing *drawing, const char *name, const struct amounts *amounts)
{
    const struct settings *settings = run_settings(drawing->source->run);
    int64_t off_ug = amounts->actual_ug - amounts->planned_ug;
    int right = drawing->canvas.cols - MARGIN - MASSES_COLS;
    int off_at = right + 2 * (MASS_COLS + 1);
    char planned[SHOW_BYTES], actual[SHOW_BYTES], off[SHOW_BYTES];

    show_mass(planned, amounts->planned_ug, amounts->division_ug, settings);
    show_mass(actual, amounts->actual_ug, amounts->division_ug, settings);
    show_mass(off, off_ug < 0 ? -off_ug : off_ug, amounts->division_ug, settings);
    canvas_span(&drawing->canvas, drawing->row, MARGIN + 1, right - 2, STYLE_PLAIN, name);
    canvas_span_right(&drawing->canvas, drawing->row, right, MASS_COLS, STYLE_PLAIN, planned);
    canvas_span_right(&drawing->canvas, drawing->row, right + MASS_COLS + 1, MASS_COLS, STYLE_PLAIN, actual);
    if (off_ug != 0) {
        canvas_span_right(&drawing->canvas, drawing->row, off_at, MASS_COLS, STYLE_PLAIN, off);
        canvas_text(&drawing->canvas, drawing->row, off_at, STYLE_STRONG, off_ug < 0 ? "-" : "+");
    }
    drawing->row++;
}

/* What went in of a step's part, all of its weighings together. */
static bool amounts_of(const struct run *run, const struct batch_step *step, struct amounts *amounts)
{
    const struct plan *plan = run_planned(run)->plan;
    int64_t actual = 0;
    int scale = -1;
    bool any = false;

    for (int i = 0; i < run_events(run); i++) {
        const struct batch_event *event = run_event_at(run, i);

        if (event->kind != EVENT_WEIGHED || event->taken_back || event->step != step->step.id)
            continue;
        actual += event->mass_ug;
        scale = event->scale;
        any = true;
    }
    *amounts = (struct amounts){step->step.target_ug, actual,
                                scale >= 0 && scale < plan->scales ? plan->scale[scale].division_ug : 0};
    return any;
}

static void weighings(struct drawing *drawing)
{
    const struct run *run = drawing->source->run;
    const struct batch *batch = run_batch(run);
    int right = drawing->canvas.cols - MARGIN - MASSES_COLS;

    section(drawing, "Planned against actual");
    drawing->row--;
    canvas_span_right(&drawing->canvas, drawing->row, right, MASS_COLS - 3, STYLE_PLAIN, "planned");
    canvas_span_right(&drawing->canvas, drawing->row, right + MASS_COLS + 1, MASS_COLS - 3, STYLE_PLAIN, "weighed");
    canvas_span_right(&drawing->canvas, drawing->row, right + 2 * (MASS_COLS + 1), MASS_COLS - 3, STYLE_PLAIN, "off");
    canvas_text(&drawing->canvas, drawing->row, right + 3 * (MASS_COLS + 1), STYLE_PLAIN, show_unit(run_settings(run)));
    drawing->row++;
    for (int i = 0; i < batch->steps && drawing->row < ROWS_MOST - 1; i++) {
        const struct batch_step *step = &batch->step[i];
        struct amounts amounts;
        struct ask ask;

        if (!amounts_of(run, step, &amounts))
            continue;
        run_ask(run, i, &(struct lw_now){0}, &ask);
        weighing_row(drawing, ask.title, &amounts);
    }
}

/* ---- what was said, and everything */

static void event_time(const struct batch *batch, const struct batch_event *event, char out[TIME_BYTES])
{
    char day[DATE_BYTES];
    int64_t local = event->at_s + batch->head.offset_s;
    int minute = (int)(((local % 86400) + 86400) % 86400 / 60);

    date_of(day, event->at_s, batch->head.offset_s);
    snprintf(out, TIME_BYTES, "%s %02d:%02d", day, minute / 60, minute % 60);
}

static void event_rows(struct drawing *drawing, const char *title, const bool kinds_shown[EVENT_KIND_COUNT])
{
    const struct run *run = drawing->source->run;
    bool begun = false;

    for (int i = 0; i < run_events(run) && drawing->row < ROWS_MOST - 3; i++) {
        const struct batch_event *event = run_event_at(run, i);
        char time[TIME_BYTES], words[LINE_BYTES], text[LINE_BYTES + TIME_BYTES] = "";

        if (kinds_shown && (!kinds_shown[event->kind] || event->taken_back))
            continue;
        if (!begun)
            section(drawing, title);
        begun = true;
        event_time(run_batch(run), event, time);
        run_event_words(run, event, words, sizeof words);
        text_add(text, sizeof text, "%s  %s%s", time, words, event->taken_back ? "   (taken back)" : "");
        line(drawing, event->taken_back ? STYLE_FAINT : STYLE_PLAIN, text);
    }
}

/* ---- the page */

static void cure(struct drawing *drawing)
{
    if (!drawing->source->curing->cut_s)
        return;
    section(drawing, "Cure");
    drawing->row = page_cure(drawing->source, &drawing->canvas, drawing->row);
}

/* Two columns side by side, where there is room for them: what went in at the left, what came of it at the right. */
static void beside(struct drawing *drawing, int cols)
{
    struct canvas whole = drawing->canvas;
    int left;

    drawing->first = drawing->row;
    drawing->canvas = canvas_part(&whole, 0, 0, whole.rows, cols / 2);
    batter(drawing);
    weighings(drawing);
    left = drawing->row;
    drawing->row = drawing->first;
    drawing->canvas = canvas_part(&whole, 0, cols / 2, whole.rows, cols - cols / 2);
    yield(drawing);
    clock_of(drawing);
    cure(drawing);
    drawing->row = drawing->row > left ? drawing->row : left;
    drawing->canvas = whole;
}

static void under(struct drawing *drawing)
{
    batter(drawing);
    yield(drawing);
    clock_of(drawing);
    cure(drawing);
}

static void sort_sections(struct page *page)
{
    for (int i = 1; i < page->sections; i++)
        for (int j = i; j > 0 && page->section[j - 1] > page->section[j]; j--) {
            int kept = page->section[j];

            page->section[j] = page->section[j - 1];
            page->section[j - 1] = kept;
        }
}

bool page_draw(struct page *page, const struct page_source *source, int cols)
{
    static const bool notes[EVENT_KIND_COUNT] = {
        [EVENT_NOTE] = true,   [EVENT_PROBLEM] = true,   [EVENT_REASON] = true,
        [EVENT_ANSWER] = true, [EVENT_SET_ASIDE] = true, [EVENT_GOING] = true,
        [EVENT_SPLASH] = true, [EVENT_PLACED] = true,    [EVENT_LEFTOVER] = true};
    struct drawing drawing = {.source = source, .page = page, .row = 0};
    bool two = cols >= TWO_COLS;

    if (page->surface.cols != cols && !surface_resize(&page->surface, ROWS_MOST, cols))
        return false;
    surface_clear(&page->surface);
    drawing.canvas = canvas_whole(&page->surface);
    page->sections = 0;
    head(&drawing);
    if (two)
        beside(&drawing, cols);
    else
        under(&drawing);
    event_rows(&drawing, "Notes", notes);
    if (!two)
        weighings(&drawing);
    event_rows(&drawing, "All that was recorded", NULL);
    sort_sections(page);
    page->rows = drawing.row;
    return true;
}

void page_done(struct page *page)
{
    surface_done(&page->surface);
}
