/* lists.c - what was weighed, what comes next, and the margin as weighed; at length where the window is wide. */
#include <stdio.h>
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "base/utf8.h"
#include "ui/screens/bench/state.h"
#include "ui/screens/show.h"
#include "work/words.h"

enum { LINE_BYTES = 512, LABEL_COLS = 10, LIST_MOST = 4, MINUTE_S = 60, WORD_STYLES = 3, SIDE_DONE = 9, SIDE_NEXT = 9 };

/* What went in of a part; NULL for parts that are not weighed. */
static const struct charge *charge_of(const struct batch *batch, struct part_ref what)
{
    switch (what.part) {
    case PART_OIL:
        return &batch->charges.oil[what.index];
    case PART_ALKALI:
        return what.sub ? &batch->charges.added_lye[what.index] : &batch->charges.alkali[what.index];
    case PART_WATER:
        return &batch->charges.water;
    case PART_LIQUID:
        return &batch->charges.liquid[what.index];
    case PART_ADDITIVE:
        return &batch->charges.additive[what.index];
    case PART_PORTION:
        return &batch->poured[what.index];
    case PART_COLOURANT:
        return &batch->colourant[what.index][what.sub];
    case PART_CARRIER:
        return &batch->carrier[what.index][what.sub];
    case PART_FRAGRANCE:
        return &batch->fragrance[what.sub][what.index];
    case PART_BATTER:
    case PART_CONSTITUENT:
    case PART_SIZE:
        break;
    }
    return NULL;
}

static void add_mass(const struct bench_screen *screen, char *out, size_t size, int64_t ug, int scale)
{
    const struct plan *plan = run_planned(screen->run)->plan;
    char mass[SHOW_BYTES];

    words_of_mass(mass_g(ug), scale >= 0 && scale < plan->scales ? plan->scale[scale].division_ug : 0,
                  run_settings(screen->run)->mass_unit, mass, sizeof mass);
    text_add(out, size, "%s", mass);
}

/* "Olive oil 451 g (450 g)" of a weighing that was made, "Olive oil 450 g" of one to come, else what the step is. */
static void add_step(const struct bench_screen *screen, int index, char *out, size_t size)
{
    const struct batch_step *step = &run_batch(screen->run)->step[index];
    const struct charge *charge = charge_of(run_batch(screen->run), step->step.what);
    struct lw_now now = bench_now(screen);
    struct ask ask;

    if (step->step.kind != STEP_WEIGH || !charge) {
        run_ask(screen->run, index, &now, &ask);
        text_add(out, size, "%s", ask.title);
        return;
    }
    text_add(out, size, "%s ", document_name(run_planned(screen->run)->input, step->step.what));
    if (step->state == STEP_DONE && charge->has) {
        add_mass(screen, out, size, charge->mass_ug, charge->scale);
        text_add(out, size, " (");
        add_mass(screen, out, size, step->step.target_ug, charge->scale);
        text_add(out, size, ")");
    } else
        add_mass(screen, out, size, step->step.target_ug, -1);
}

/* The step before or after it in that state, -1: none. */
static int step_from(const struct bench_screen *screen, int from, int by, enum step_state state)
{
    const struct batch *batch = run_batch(screen->run);

    for (int i = from; i >= 0 && i < batch->steps; i += by)
        if (batch->step[i].state == state)
            return i;
    return -1;
}

static int here(const struct bench_screen *screen)
{
    return screen->at >= 0 ? screen->at : run_batch(screen->run)->steps;
}

static uint16_t style_of(const char *word)
{
    static const struct {
        const char *word;
        uint16_t style;
    } styles[WORD_STYLES] = {{"LYE-HEAVY", STYLE_STOP}, {"TIGHT", STYLE_CAUTION}, {"WIDE", STYLE_GOOD}};

    for (int i = 0; i < WORD_STYLES; i++)
        if (strcmp(word, styles[i].word) == 0)
            return styles[i].style;
    return STYLE_PLAIN;
}

static void paint_margin(const struct bench_screen *screen, const struct canvas *canvas, int row)
{
    const struct margin *margin = &run_charged(screen->run)->margin;
    const char *word = run_margin_word(screen->run);
    char nominal[SHOW_BYTES], low[SHOW_BYTES], high[SHOW_BYTES];
    int col;

    show_percent(nominal, margin->nominal, 1);
    show_percent(low, margin->likely.lo, 1);
    show_percent(high, margin->likely.hi, 1);
    col = canvas_print(canvas, row, 1, STYLE_PLAIN, "superfat as weighed %s %%   likely %s to %s   ", nominal, low,
                       high);
    canvas_text(canvas, row, col, style_of(word), word);
}

/* The step at index, with the label where it is the first of its list. */
static void paint_line(const struct bench_screen *screen, const struct canvas *canvas, int row, const char *label,
                       int index)
{
    char line[LINE_BYTES] = "";

    add_step(screen, index, line, sizeof line);
    canvas_text(canvas, row, 1, STYLE_PLAIN, label);
    canvas_span(canvas, row, LABEL_COLS, canvas->cols - LABEL_COLS - 1, STYLE_PLAIN, line);
}

/* The last weighing before a step; -1: none. */
static int weighed_before(const struct bench_screen *screen, int index)
{
    while ((index = step_from(screen, index - 1, -1, STEP_DONE)) >= 0)
        if (run_batch(screen->run)->step[index].step.kind == STEP_WEIGH)
            return index;
    return -1;
}

/* Up to `rows` weighings, the last at the bottom. */
static void paint_weighed(const struct bench_screen *screen, const struct canvas *canvas, int row, int rows)
{
    int last[LIST_MOST], count = 0, at = here(screen);

    while (count < rows && count < LIST_MOST && (at = weighed_before(screen, at)) >= 0)
        last[count++] = at;
    for (int i = 0; i < count; i++)
        paint_line(screen, canvas, row + rows - 1 - i, i == count - 1 ? "weighed" : "", last[i]);
}

static void paint_next(const struct bench_screen *screen, const struct canvas *canvas, int row, int rows)
{
    int at = here(screen);

    for (int i = 0; i < rows && (at = step_from(screen, at + 1, 1, STEP_TODO)) >= 0; i++)
        paint_line(screen, canvas, row + i, i == 0 ? "next" : "", at);
}

void bench_paint_lists(const struct bench_screen *screen, const struct canvas *canvas, int row, int rows)
{
    int listed = rows - 1 < 2 * LIST_MOST ? rows - 1 : 2 * LIST_MOST, next = (listed + 1) / 2;

    row += rows - 1 - listed;
    paint_weighed(screen, canvas, row, listed - next);
    paint_next(screen, canvas, row + listed - next, next);
    paint_margin(screen, canvas, row + listed);
}

/* A heading and up to `most` steps, from the step at hand on or back. */
static int paint_steps(const struct bench_screen *screen, const struct canvas *canvas, int row, int by, int most)
{
    int at = here(screen);

    canvas_text(canvas, row++, 0, STYLE_TITLE, by < 0 ? "Done, the last first" : "To come");
    for (int i = 0; i < most; i++) {
        char line[LINE_BYTES] = "";

        at = step_from(screen, at + by, by, by < 0 ? STEP_DONE : STEP_TODO);
        if (at < 0)
            break;
        add_step(screen, at, line, sizeof line);
        canvas_span(canvas, row++, 1, canvas->cols - 2, STYLE_PLAIN, line);
    }
    return row + 1;
}

static int paint_timeline(const struct bench_screen *screen, const struct canvas *canvas, int row)
{
    const struct batch *batch = run_batch(screen->run);

    if (!batch->combined_s)
        return row;
    canvas_text(canvas, row++, 0, STYLE_TITLE, "Since combining");
    for (int i = 0; i < STAGES; i++)
        if (batch->stage_s[i])
            canvas_print(canvas, row++, 1, STYLE_PLAIN, "%3d min   %s",
                         (int)((batch->stage_s[i] - batch->combined_s) / MINUTE_S), run_stage_name(i));
    for (int i = 0; i < batch->kinds; i++)
        if (batch->pieces[i].first_s)
            canvas_print(canvas, row++, 1, STYLE_PLAIN, "%3d min   first piece",
                         (int)((batch->pieces[i].first_s - batch->combined_s) / MINUTE_S));
    return row + 1;
}

static void paint_findings(const struct bench_screen *screen, const struct canvas *canvas, int row)
{
    static const uint16_t styles[] = {STYLE_STOP, STYLE_CAUTION, STYLE_REMARK};
    const struct plan_document *planned = run_planned(screen->run);

    if (planned->plan->findings == 0)
        return;
    canvas_text(canvas, row++, 0, STYLE_TITLE, "Findings of the plan");
    for (int i = 0; i < planned->plan->findings && row < canvas->rows; i++) {
        struct canvas text = canvas_part(canvas, row, 1, canvas->rows - row, canvas->cols - 2);

        row += canvas_wrap(&text, 0, text.rows, styles[planned->plan->finding[i].level], planned->words[i].what);
    }
}

void bench_paint_side(const struct bench_screen *screen, const struct canvas *canvas)
{
    int most = canvas->rows > 30 ? SIDE_DONE : SIDE_DONE / 2;
    int row = paint_steps(screen, canvas, 1, 1, most);

    row = paint_steps(screen, canvas, row, -1, most);
    row = paint_timeline(screen, canvas, row);
    paint_findings(screen, canvas, row);
}
