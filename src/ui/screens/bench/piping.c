/* piping.c - the counter: how many are good, what is left in the bag, and how long it stays workable. */
#include <stdio.h>
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "ui/kit/digits.h"
#include "ui/screens/bench/state.h"
#include "ui/screens/show.h"
#include "work/words.h"

enum { BESIDE = 4, LIST_ROWS = 3, HELP_BYTES = 256 };

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

static void paint_counts(const struct bench_screen *screen, const struct canvas *canvas, int row,
                         const struct piping *piping)
{
    enum mass_unit unit = run_settings(screen->run)->mass_unit;
    char good[16], left[SHOW_BYTES];
    int col;

    snprintf(good, sizeof good, "%d", piping->good);
    col = digits_paint(canvas, row, 2, STYLE_STRONG, good);
    col = (col < 2 + digits_columns("00") ? 2 + digits_columns("00") : col) + BESIDE;
    words_of_mass(piping->left_g, UG_PER_G, unit, left, sizeof left);
    canvas_print(canvas, row, col, STYLE_STRONG, "%d good   %d reject%s   %d to go", piping->good, piping->rejects,
                 piping->rejects == 1 ? "" : "s", piping->to_go);
    canvas_print(canvas, row + 2, col, STYLE_PLAIN, "left in the bag about %s: %d more", left, piping->more);
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

static void paint_time(const struct canvas *canvas, int row, const struct piping *piping)
{
    char still[SHOW_BYTES], low[SHOW_BYTES], high[SHOW_BYTES], need[SHOW_BYTES];
    int col = 2;

    show_number(still, piping->workable_min.median, 0);
    show_number(low, piping->workable_min.low, 0);
    show_number(high, piping->workable_min.high, 0);
    show_number(need, piping->need_min, 0);
    if (piping->workable_min.median > 0)
        col = canvas_print(canvas, row, col, STYLE_PLAIN, "workable for about %s more minutes (%s to %s)", still, low,
                           high);
    else
        col = canvas_print(canvas, row, col, STYLE_CAUTION, "past its workable time (up to %s more minutes)", high);
    if (piping->to_go > 0)
        canvas_print(canvas, row, col + 3, piping->need_min > piping->workable_min.median ? STYLE_CAUTION : STYLE_PLAIN,
                     "%d more take about %s", piping->to_go, need);
}

/* What can be done where it will not be enough, in the order of what costs least. */
static void paint_help(const struct bench_screen *screen, const struct canvas *canvas, int row,
                       const struct piping *piping)
{
    struct lw_now now = bench_now(screen);
    enum mass_unit unit = run_settings(screen->run)->mass_unit;
    char line[HELP_BYTES] = "", mass[SHOW_BYTES];
    struct canvas text = canvas_part(canvas, row, 2, 2, canvas->cols - 3);
    struct piping_help help;

    if (piping->more >= piping->to_go)
        return;
    run_piping_help(screen->run, &now, &help);
    text_add(line, sizeof line, "%d short:", piping->to_go - piping->more);
    if (help.scrape > 0)
        text_add(line, sizeof line, " scrape rejects back (+%d),", help.scrape);
    if (help.smaller > 0) {
        words_of_mass(help.smaller_g, UG_PER_G / 10, unit, mass, sizeof mass);
        text_add(line, sizeof line, " %s each (+%d),", mass, help.smaller);
    }
    if (help.bars > 0)
        text_add(line, sizeof line, " dress %d bars,", help.bars);
    words_of_mass(help.second_oils_g, UG_PER_G, unit, mass, sizeof mass);
    if (help.second_oils_g > 0)
        text_add(line, sizeof line, " a second batter of %s of oils,", mass);
    line[strlen(line) - 1] = '\0';
    canvas_wrap(&text, 0, 2, STYLE_CAUTION, line);
}

void bench_paint_piping(const struct bench_screen *screen, const struct canvas *canvas, int row)
{
    struct lw_now now = bench_now(screen);
    struct canvas line = canvas_part(canvas, row + 11, 2, 1, canvas->cols - 3);
    struct piping piping;

    run_piping(screen->run, &now, &piping);
    paint_counts(screen, canvas, row + 1, &piping);
    paint_bar(canvas, row + 7, &piping);
    paint_time(canvas, row + 8, &piping);
    paint_help(screen, canvas, row + 9, &piping);
    if (screen->typing != TYPING_NOTHING)
        bench_paint_typing(screen, &line);
    for (int i = 0; i < screen->ask.lines && row + 13 + i < canvas->rows - LIST_ROWS; i++)
        canvas_span(canvas, row + 13 + i, 1, canvas->cols - 2, STYLE_PLAIN, screen->ask.line[i]);
    bench_paint_lists(screen, canvas, canvas->rows - LIST_ROWS, LIST_ROWS);
}
