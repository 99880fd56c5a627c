/* plot_words.c - a plot in words and as a table: what the eye reads off it, for those who read rather than look. */
#include <math.h>

#include "base/day.h"
#include "base/text.h"
#include "ui/screens/batches/plot_view.h"
#include "ui/screens/show.h"

enum {
    DAYS_A_SLOPE = 100, /* a line against the day is said for so many */
    NUMBER_WIDTH = 8,
    DAY_WIDTH = 10,
    VALUE_WIDTH = 16,
    VALUE_WIDTH_WIDE = 32, /* for the longest name of a figure with its unit */
    WIDE_COLS = 110,
    DECIMALS_MOST = 6
};

static const char *unit_of(const struct plot_screen *screen, int figure)
{
    return figure == BOOK_FIGURE_COUNT
               ? ""
               : book_figure_unit((enum book_figure)figure, workshop_settings(screen->top.workshop));
}

void plot_axis_name(const struct plot_screen *screen, int figure, char out[AXIS_NAME_BYTES])
{
    const char *unit = unit_of(screen, figure);

    out[0] = '\0';
    text_add(out, AXIS_NAME_BYTES, unit[0] ? "%s, %s" : "%s", figure_name(figure), unit);
}

void plot_day_text(const struct plot_screen *screen, double days, char out[DATE_BYTES])
{
    struct lw_now now = workshop_now(screen->top.workshop);

    date_of(out, now.utc_s + (int64_t)(days * DAY_S), now.offset_s);
}

/* Three digits that count, two of what is under 1. */
static void value_text(char out[SHOW_BYTES], double value)
{
    double size = fabs(value);
    int decimals = size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 || size == 0 ? 2 : 1 - (int)floor(log10(size));

    show_number(out, value, decimals < DECIMALS_MOST ? decimals : DECIMALS_MOST);
}

static void figure_text(const struct plot_screen *screen, int figure, double value, char out[SHOW_BYTES])
{
    if (figure == BOOK_FIGURE_COUNT)
        plot_day_text(screen, value, out);
    else
        value_text(out, value);
}

/* ---- in words: how many points, the line with its spread, the middle of what goes up; a row each */

static void say_count(const struct plot_screen *screen, char *text, size_t size)
{
    const struct points *points = &screen->points;
    int counting = points->n - points->left_out;

    text_add(text, size, "%d point%s", counting, counting == 1 ? "" : "s");
    if (points->least_of > 0)
        text_add(text, size, ", %d of them at least that (^)", points->least_of);
    if (points->left_out > 0)
        text_add(text, size, ", %d do not count (x)", points->left_out);
    if (points->without > 0)
        text_add(text, size, ", %d lack%s a figure", points->without, points->without == 1 ? "s" : "");
    if (points->more)
        text_add(text, size, "; only the newest %d looked at", BOOK_POINTS);
    text_add(text, size, ".");
}

static void say_slope(const struct plot_screen *screen, char *text, size_t size)
{
    const struct line *line = &screen->points.line;
    double by = screen->across == BOOK_FIGURE_COUNT ? DAYS_A_SLOPE : 1;
    char slope[SHOW_BYTES], error[SHOW_BYTES], sd[SHOW_BYTES];

    if (!line->known) {
        text_add(text, size,
                 screen->points.one_x ? "All have the same %s, so there is no line." : "A line wants three points.",
                 figure_name(screen->across));
        return;
    }
    value_text(slope, by * line->slope);
    value_text(error, by * 2 * line->sd_slope);
    value_text(sd, line->sd);
    text_add(text, size, "Line: %s up for %s across, %s either way; points lie %s off.", slope,
             by > 1 ? "100 days" : "1", error, sd);
}

static void say_middle(const struct plot_screen *screen, char *text, size_t size)
{
    const struct points *points = &screen->points;
    char median[SHOW_BYTES], lo[SHOW_BYTES], hi[SHOW_BYTES];

    if (points->n == points->left_out)
        return;
    value_text(median, points->median_y);
    value_text(lo, points->quarter_y);
    value_text(hi, points->three_quarters_y);
    text_add(text, size, "%s: half between %s and %s, the middle %s", figure_name(screen->up), lo, hi, median);
    text_add(text, size,
             points->least_of > 0 && (screen->up == BOOK_UNTIL || screen->up == BOOK_WINDOW) ? ", too low by the ^."
                                                                                             : ".");
}

void plot_paint_words(const struct plot_screen *screen, const struct canvas *words)
{
    static void (*const say[])(const struct plot_screen *, char *, size_t) = {say_count, say_slope, say_middle};

    for (int i = 0; i < PLOT_WORDS_ROWS; i++) {
        char text[POINT_BYTES] = "";

        say[i](screen, text, sizeof text);
        canvas_span(words, i, 0, words->cols, STYLE_PLAIN, text);
    }
}

static const char *least(const struct book_line *line, int figure)
{
    return figure != BOOK_FIGURE_COUNT && book_at_least(line, (enum book_figure)figure) ? "at least " : "";
}

/* *day: when it was made; false, with the sentence in name, where it cannot be read. */
static bool point_line(const struct plot_screen *screen, int index, struct book_line *line, char day[DATE_BYTES])
{
    struct lw_error error = {""};

    if (book_line(workshop_store(screen->top.workshop), screen->points.id[index], line, &error) != LW_OK) {
        *line = (struct book_line){.started_s = 0};
        text_copy(line->name, sizeof line->name, error.text);
        day[0] = '\0';
        return false;
    }
    date_of(day, line->started_s, line->offset_s);
    return true;
}

void plot_say_point(const struct plot_screen *screen, int index, char *text, size_t size)
{
    const struct points *points = &screen->points;
    const char *across = unit_of(screen, screen->across), *up = unit_of(screen, screen->up);
    struct book_line line;
    char x[SHOW_BYTES], y[SHOW_BYTES], day[DATE_BYTES];

    if (!point_line(screen, index, &line, day)) {
        text_copy(text, size, line.name);
        return;
    }
    figure_text(screen, screen->across, points->x[index], x);
    figure_text(screen, screen->up, points->y[index], y);
    text_add(text, size, "%s  %s  made %s:", line.number, line.name, day);
    if (screen->across != BOOK_FIGURE_COUNT)
        text_add(text, size, " across %s%s%s%s,", least(&line, screen->across), x, across[0] ? " " : "", across);
    text_add(text, size, " up %s%s%s%s%s", least(&line, screen->up), y, up[0] ? " " : "", up,
             !points->out[index] ? ""
             : line.left_out     ? ", left out"
                                 : ", still on the bench");
}

/* ---- the same as a table */

static int value_width(int cols)
{
    return cols >= WIDE_COLS ? VALUE_WIDTH_WIDE : VALUE_WIDTH;
}

static int name_width(int cols)
{
    return cols - NUMBER_WIDTH - DAY_WIDTH - 2 * value_width(cols) - 5;
}

static void paint_cells(const struct canvas *line, uint16_t style, const char *const cell[5])
{
    int name = name_width(line->cols), value = value_width(line->cols);
    int col = NUMBER_WIDTH + DAY_WIDTH + name + 3;

    canvas_span(line, 0, 0, NUMBER_WIDTH, style, cell[0]);
    canvas_text(line, 0, NUMBER_WIDTH + 1, STYLE_PLAIN, cell[1]);
    canvas_span(line, 0, NUMBER_WIDTH + DAY_WIDTH + 2, name, STYLE_PLAIN, cell[2]);
    canvas_span_right(line, 0, col, value, STYLE_PLAIN, cell[3]);
    canvas_span_right(line, 0, col + value + 1, value, STYLE_PLAIN, cell[4]);
}

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    const struct plot_screen *screen = context;
    const int figure[2] = {screen->across, screen->up};
    const double value[2] = {screen->points.x[index], screen->points.y[index]};
    struct book_line batch;
    char day[DATE_BYTES], number[NUMBER_WIDTH + 3 + BATCH_NUMBER_BYTES] = "", shown[2][SHOW_BYTES + 16] = {"", ""};

    point_line(screen, index, &batch, day);
    text_add(number, sizeof number, "%s%s", batch.number, screen->points.out[index] ? " x" : "");
    for (int i = 0; i < 2; i++) {
        char text[SHOW_BYTES];

        figure_text(screen, figure[i], value[i], text);
        text_add(shown[i], sizeof shown[i], "%s%s", least(&batch, figure[i]), text);
    }
    paint_cells(line, selected ? STYLE_CURSOR : STYLE_PLAIN,
                (const char *const[5]){number, day, batch.name, shown[0], shown[1]});
}

void plot_paint_table(struct plot_screen *screen, const struct canvas *canvas)
{
    struct canvas head = canvas_part(canvas, 0, 1, 1, canvas->cols - 1);
    char across[AXIS_NAME_BYTES], up[AXIS_NAME_BYTES];

    plot_axis_name(screen, screen->across, across);
    plot_axis_name(screen, screen->up, up);
    paint_cells(&head, STYLE_TITLE, (const char *const[5]){"number", "made", "recipe", across, up});
    screen->drawn = canvas_part(canvas, 1, 0, canvas->rows - 1, canvas->cols);
    list_paint(&screen->list, &screen->drawn, paint_row, screen);
}
