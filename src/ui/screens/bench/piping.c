/* piping.c - the counter: how many are good, what is left in the bag, and how long it stays workable. */
#include <stdio.h>

#include "base/mass.h"
#include "base/text.h"
#include "ui/kit/digits.h"
#include "ui/screens/bench/state.h"
#include "ui/screens/show.h"
#include "work/words.h"

enum { BESIDE = 4, LIST_ROWS = 4 };

static void paint_counts(const struct bench_screen *screen, const struct canvas *canvas, int row,
                         const struct piping *piping)
{
    enum mass_unit unit = run_settings(screen->run)->mass_unit;
    char good[16], left[SHOW_BYTES];
    int col;

    snprintf(good, sizeof good, "%d", piping->good);
    col = digits_paint(canvas, row, 2, STYLE_STRONG, good) + BESIDE;
    words_of_mass(piping->left_g, UG_PER_G, unit, left, sizeof left);
    canvas_print(canvas, row, col, STYLE_STRONG, "%d good   %d rejects   %d to go", piping->good, piping->rejects,
                 piping->to_go);
    canvas_print(canvas, row + 2, col, STYLE_PLAIN, "left in the bag about %s: %d more", left, piping->more);
    canvas_print(canvas, row + 4, col, piping->more < piping->to_go ? STYLE_CAUTION : STYLE_PLAIN,
                 piping->to_go == 0 ? "all that were wanted are there" : "enough about %d times in 10",
                 (int)(piping->enough * 10 + 0.5));
}

static void paint_bar(const struct canvas *canvas, int row, const struct piping *piping)
{
    int width = canvas->cols - 4, done = width;

    if (piping->wanted > 0 && piping->good < piping->wanted)
        done = width * piping->good / piping->wanted;
    canvas_fill(canvas, row, 2, done, STYLE_PLAIN, "\u2588");
    canvas_fill(canvas, row, 2 + done, width - done, STYLE_PLAIN, "\u00b7");
}

static void paint_time(const struct canvas *canvas, int row, const struct piping *piping)
{
    char still[SHOW_BYTES], low[SHOW_BYTES], high[SHOW_BYTES], need[SHOW_BYTES];
    int col = 2;

    show_number(still, piping->workable_min.median, 0);
    show_number(low, piping->workable_min.low, 0);
    show_number(high, piping->workable_min.high, 0);
    show_number(need, piping->need_min, 0);
    if (piping->workable_min.median > 0)
        col = canvas_print(canvas, row, col, STYLE_PLAIN, "workable for about %s more minutes (%s to %s)", still, low, high);
    else
        col = canvas_print(canvas, row, col, STYLE_CAUTION, "past its workable time (up to %s more minutes)", high);
    if (piping->to_go > 0)
        canvas_print(canvas, row, col + 3, piping->need_min > piping->workable_min.median ? STYLE_CAUTION : STYLE_PLAIN,
                     "%d more take about %s", piping->to_go, need);
}

void bench_paint_piping(const struct bench_screen *screen, const struct canvas *canvas, int row)
{
    struct lw_now now = bench_now(screen);
    struct canvas line = canvas_part(canvas, row + 10, 2, 1, canvas->cols - 3);
    struct piping piping;

    run_piping(screen->run, &now, &piping);
    paint_counts(screen, canvas, row + 1, &piping);
    paint_bar(canvas, row + 7, &piping);
    paint_time(canvas, row + 8, &piping);
    if (screen->typing != TYPING_NOTHING)
        bench_paint_typing(screen, &line);
    for (int i = 0; i < screen->ask.lines && row + 12 + i < canvas->rows - LIST_ROWS; i++)
        canvas_span(canvas, row + 12 + i, 1, canvas->cols - 2, STYLE_PLAIN, screen->ask.line[i]);
    bench_paint_lists(screen, canvas, canvas->rows - LIST_ROWS, LIST_ROWS);
}
