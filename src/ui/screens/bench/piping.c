/* piping.c - the counter: how many are good, what is left in the bag, and how long it stays workable. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "ui/kit/digits.h"
#include "ui/screens/bench/state.h"
#include "work/words_piping.h"

enum { BESIDE = 4, LIST_ROWS = 3 };

/* Below and above, a chance in tenths would say more than is known. */
static const double hardly = 0.05, nearly = 0.95;

static void paint_chance(const struct canvas *canvas, int row, int col, const struct piping *piping)
{
    uint16_t style = piping->more < piping->to_go ? STYLE_CAUTION : STYLE_PLAIN;

    if (piping->to_go == 0)
        canvas_text(canvas, row, col, STYLE_GOOD, "all that were wanted are there");
    else if (piping->enough < hardly || piping->enough > nearly)
        canvas_print(canvas, row, col, style, "that is enough %s",
                     piping->enough < hardly ? "hardly ever" : "nearly always");
    else
        canvas_print(canvas, row, col, style, "that is enough about %d times in 10", (int)(piping->enough * 10 + 0.5));
}

static void paint_counts(const struct canvas *canvas, int row, const struct piping *piping,
                         const struct piping_words *words)
{
    char good[16];
    int col;

    snprintf(good, sizeof good, "%d", piping->good);
    col = digits_paint(canvas, row, 2, STYLE_STRONG, good);
    col = (col < 2 + digits_columns("00") ? 2 + digits_columns("00") : col) + BESIDE;
    canvas_print(canvas, row, col, STYLE_STRONG, "%d good   %d reject%s   %d to go", piping->good, piping->rejects,
                 piping->rejects == 1 ? "" : "s", piping->to_go);
    canvas_text(canvas, row + 2, col, STYLE_PLAIN, words->left);
    paint_chance(canvas, row + 4, col, piping);
}

static void paint_bar(const struct canvas *canvas, int row, const struct piping *piping)
{
    int width = canvas->cols - 4, done = width;

    if (piping->wanted > 0 && piping->good < piping->wanted)
        done = width * piping->good / piping->wanted;
    canvas_fill(canvas, row, 2, done, STYLE_PLAIN, "\u2588");
    canvas_fill(canvas, row, 2 + done, width - done, STYLE_PLAIN, "\u00b7");
}

static void paint_time(const struct canvas *canvas, int row, const struct piping *piping,
                       const struct piping_words *words)
{
    const struct quantiles *workable = &piping->workable_min;
    int col = 2;

    col = canvas_print(canvas, row, col, workable->median > 0 ? STYLE_PLAIN : STYLE_CAUTION, "%s", words->workable);
    canvas_text(canvas, row, col + 3, piping->need_min > workable->median ? STYLE_CAUTION : STYLE_PLAIN, words->need);
}

void bench_paint_piping(const struct bench_screen *screen, const struct canvas *canvas, int row)
{
    struct lw_now now = bench_now(screen);
    struct canvas line = canvas_part(canvas, row + 11, 2, 1, canvas->cols - 3);
    struct canvas help_rows = canvas_part(canvas, row + 9, 2, 2, canvas->cols - 3);
    struct piping_words words;
    struct piping_help help;
    struct piping piping;

    run_piping(screen->run, &now, &piping);
    run_piping_help(screen->run, &now, &help);
    words_of_piping(&piping, &help, run_settings(screen->run)->mass_unit, &words);
    paint_counts(canvas, row + 1, &piping, &words);
    paint_bar(canvas, row + 7, &piping);
    paint_time(canvas, row + 8, &piping, &words);
    canvas_wrap(&help_rows, 0, help_rows.rows, STYLE_CAUTION, words.help);
    if (screen->typing != TYPING_NOTHING)
        bench_paint_typing(screen, &line);
    for (int i = 0; i < screen->ask.lines && row + 13 + i < canvas->rows - LIST_ROWS; i++)
        canvas_span(canvas, row + 13 + i, 1, canvas->cols - 2, STYLE_PLAIN, screen->ask.line[i]);
    bench_paint_lists(screen, canvas, canvas->rows - LIST_ROWS, LIST_ROWS);
}
