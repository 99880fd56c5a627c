/* plot.c - from values to cells: the area inside the axes is found first, then everything is drawn into it. */
#include "ui/kit/plot.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/number.h"
#include "base/text.h"
#include "base/utf8.h"

enum {
    LABEL_BYTES = 32,
    LEAST_ROWS = 4,
    LEAST_COLS = 16,
    DOTS_ACROSS = 2, /* of a braille cell */
    DOTS_UP = 4,
    ROWS_A_TICK = 4,
    COLS_A_TICK = 14,
    FAT_POINTS = 200, /* up to here a point takes two by two dots, so that it is seen alone */
    DECIMALS_MOST = 6
};
#define ROOM 0.04 /* of the stretch, on both sides */

struct area {
    struct canvas inside; /* of the axes */
    int labels;           /* columns left of it, with the axis itself */
    bool up_name, across_name;
};

/* ---- axes */

void plot_reach(struct plot_axis *axis, double low, double high)
{
    double stretch = high - low;

    if (!(stretch > 0))
        stretch = fabs(low) > 0 ? fabs(low) : 1;
    axis->from = low - ROOM * stretch;
    axis->to = high + ROOM * stretch;
    if (low >= 0 && axis->from < 0)
        axis->from = 0;
}

double plot_step(double from, double to, int most)
{
    static const double round[] = {1, 2, 5, 10};
    double least = (to - from) / (most > 0 ? most : 1), power;

    if (!(least > 0) || !isfinite(least))
        return 1;
    power = pow(10, floor(log10(least)));
    for (size_t i = 0; i < sizeof round / sizeof *round; i++)
        if (round[i] * power >= least * (1 - 1e-9))
            return round[i] * power;
    return 10 * power;
}

/* An axis whose values differ by less than a double can tell has no ticks. */
static bool usable(const struct plot_axis *axis)
{
    return isfinite(axis->from) && isfinite(axis->to) &&
           axis->to - axis->from > 1e-12 * fmax(fabs(axis->from), fabs(axis->to));
}

/* The multiples of the step on an axis. */
static double tick(const struct plot_axis *axis, double step, int index)
{
    return (ceil(axis->from / step - 1e-9) + index) * step;
}

static int ticks(const struct plot_axis *axis, double step)
{
    return (int)((axis->to - tick(axis, step, 0)) / step + 1e-9) + 1;
}

static void write_label(const struct plot *plot, const struct plot_axis *axis, double value, double step,
                        char out[LABEL_BYTES])
{
    char number[NUMBER_BYTES];
    int decimals = (int)ceil(-log10(step) - 1e-9);

    out[0] = '\0';
    if (axis->label) {
        axis->label(plot->context, value, step, out, LABEL_BYTES);
        return;
    }
    number_write(number, fabs(value) < step / 2 ? 0 : value,
                 decimals < 0               ? 0
                 : decimals > DECIMALS_MOST ? DECIMALS_MOST
                                            : decimals);
    text_copy(out, LABEL_BYTES, number);
}

static int label_columns(const struct plot *plot, double step)
{
    char label[LABEL_BYTES];
    int most = 0;

    for (int i = 0; i < ticks(&plot->up, step); i++) {
        int columns;

        write_label(plot, &plot->up, tick(&plot->up, step, i), step, label);
        columns = (int)utf8_columns(label);
        most = columns > most ? columns : most;
    }
    return most;
}

static double step_up(const struct plot *plot, int rows)
{
    return plot_step(plot->up.from, plot->up.to, rows / ROWS_A_TICK > 1 ? rows / ROWS_A_TICK : 2);
}

static bool lay_out(const struct plot *plot, const struct canvas *canvas, struct area *area)
{
    int rows = canvas->rows - 2;

    if (canvas->rows < LEAST_ROWS || canvas->cols < LEAST_COLS || !usable(&plot->across) || !usable(&plot->up))
        return false;
    area->up_name = plot->up.name[0] && rows > LEAST_ROWS;
    area->across_name = plot->across.name[0] && rows > LEAST_ROWS;
    rows -= area->up_name + area->across_name;
    area->labels = label_columns(plot, step_up(plot, rows)) + 2;
    if (area->labels > canvas->cols / 2)
        area->labels = canvas->cols / 2;
    area->inside = canvas_part(canvas, area->up_name, area->labels, rows, canvas->cols - area->labels);
    return true;
}

static double share_of(const struct plot_axis *axis, double value)
{
    return (value - axis->from) / (axis->to - axis->from);
}

static int cell_of(double share, int cells)
{
    int cell = (int)floor(share * cells);

    return cell < 0 ? 0 : cell >= cells ? cells - 1 : cell;
}

static void paint_up(const struct plot *plot, const struct canvas *canvas, const struct area *area)
{
    double step = step_up(plot, area->inside.rows);
    char label[LABEL_BYTES];

    if (area->up_name)
        canvas_text(canvas, 0, 0, STYLE_FAINT, plot->up.name);
    for (int row = 0; row < area->inside.rows; row++)
        canvas_text(canvas, row + area->up_name, area->labels - 1, STYLE_FAINT, "\u2502");
    for (int i = 0; i < ticks(&plot->up, step); i++) {
        double value = tick(&plot->up, step, i);
        int row = area->inside.rows - 1 - cell_of(share_of(&plot->up, value), area->inside.rows) + area->up_name;

        write_label(plot, &plot->up, value, step, label);
        canvas_span_right(canvas, row, 0, area->labels - 2, STYLE_PLAIN, label);
        canvas_text(canvas, row, area->labels - 1, STYLE_FAINT, "\u253c");
    }
}

static void paint_across(const struct plot *plot, const struct canvas *canvas, const struct area *area)
{
    int most = area->inside.cols / COLS_A_TICK, row = area->up_name + area->inside.rows, free_from = 0;
    double step = plot_step(plot->across.from, plot->across.to, most > 1 ? most : 2);
    char label[LABEL_BYTES];

    canvas_text(canvas, row, area->labels - 1, STYLE_FAINT, "\u2514");
    canvas_fill(canvas, row, area->labels, area->inside.cols, STYLE_FAINT, "\u2500");
    for (int i = 0; i < ticks(&plot->across, step); i++) {
        double value = tick(&plot->across, step, i);
        int col = area->labels + cell_of(share_of(&plot->across, value), area->inside.cols), columns, left;

        write_label(plot, &plot->across, value, step, label);
        canvas_text(canvas, row, col, STYLE_FAINT, "\u253c");
        columns = (int)utf8_columns(label);
        left = col - columns / 2;
        if (left + columns > canvas->cols)
            left = canvas->cols - columns;
        if (left < free_from)
            continue;
        canvas_text(canvas, row + 1, left, STYLE_PLAIN, label);
        free_from = left + columns + 1;
    }
    if (area->across_name)
        canvas_span_right(canvas, row + 2, area->labels, area->inside.cols, STYLE_FAINT, plot->across.name);
}

/* ---- what lies inside */

static bool is_inside(const struct plot *plot, double x, double y)
{
    return isfinite(x) && isfinite(y) && x >= plot->across.from && x <= plot->across.to && y >= plot->up.from &&
           y <= plot->up.to;
}

static void cell_of_point(const struct plot *plot, const struct canvas *inside, int point, int *row, int *col)
{
    *row = inside->rows - 1 - cell_of(share_of(&plot->up, plot->y[point]), inside->rows);
    *col = cell_of(share_of(&plot->across, plot->x[point]), inside->cols);
}

static double x_of_column(const struct plot *plot, int cols, double column)
{
    return plot->across.from + column / cols * (plot->across.to - plot->across.from);
}

/* The row that the curve goes through there, cut to just beyond the canvas; false where it is not there. */
static bool curve_row(const struct plot *plot, const struct canvas *inside, double column, int *row)
{
    double x = x_of_column(plot, inside->cols, column), y, share;

    if (x < plot->curve_from || x > plot->curve_to)
        return false;
    y = plot->curve(plot->context, x);
    if (!isfinite(y))
        return false;
    share = fmin(fmax(share_of(&plot->up, y), -1), 2);
    *row = inside->rows - 1 - (int)floor(share * inside->rows);
    return true;
}

/* Where it is steep, a column has all rows that it goes through. */
static void paint_curve(const struct plot *plot, const struct canvas *inside)
{
    for (int col = 0; plot->curve && col < inside->cols; col++) {
        int begin, middle, end;

        if (!curve_row(plot, inside, col + 0.5, &middle))
            continue;
        if (!curve_row(plot, inside, col, &begin))
            begin = middle;
        if (!curve_row(plot, inside, col + 1, &end))
            end = middle;
        if (abs(begin - end) <= 1)
            begin = end = middle;
        for (int row = begin < end ? begin : end; row <= (begin < end ? end : begin); row++)
            if (row >= 0 && row < inside->rows)
                canvas_text(inside, row, col, STYLE_REMARK, "\u00b7");
    }
}

static void paint_mark(const struct plot *plot, const struct canvas *inside)
{
    if (!isfinite(plot->mark_x) || plot->mark_x < plot->across.from || plot->mark_x > plot->across.to)
        return;
    for (int row = 0; row < inside->rows; row++)
        canvas_text(inside, row, cell_of(share_of(&plot->across, plot->mark_x), inside->cols), STYLE_FAINT, "\u2502");
}

static char sign_of(const struct plot *plot, int point)
{
    return plot->sign ? plot->sign[point] : '\0';
}

/* Bits of a braille pattern by column and row of its dots (Unicode, Braille Patterns). */
static const unsigned char dot_bit[DOTS_ACROSS][DOTS_UP] = {{0x01, 0x02, 0x04, 0x40}, {0x08, 0x10, 0x20, 0x80}};

/* A fat point stays within its cell, so that it does not seem to be two. */
static unsigned dots_of(const struct plot *plot, const struct canvas *inside, int point)
{
    int up = cell_of(share_of(&plot->up, plot->y[point]), inside->rows * DOTS_UP) % DOTS_UP;
    int across = cell_of(share_of(&plot->across, plot->x[point]), inside->cols * DOTS_ACROSS) % DOTS_ACROSS;
    int down = DOTS_UP - 1 - up;

    if (plot->n > FAT_POINTS)
        return dot_bit[across][down];
    if (down == DOTS_UP - 1)
        down--;
    return (unsigned)dot_bit[0][down] | dot_bit[0][down + 1] | dot_bit[1][down] | dot_bit[1][down + 1];
}

static void put_braille(const struct canvas *inside, int row, int col, unsigned dots)
{
    char text[5] = "";

    utf8_put(0x2800u + dots, text);
    canvas_text(inside, row, col, STYLE_STRONG, text);
}

/* All dots of all cells are gathered before they are drawn, for points share cells. Without memory each point is drawn alone. */
static void paint_dots(const struct plot *plot, const struct canvas *inside)
{
    unsigned char *cells = calloc((size_t)inside->rows * (size_t)inside->cols, 1);

    for (int i = 0; i < plot->n; i++) {
        int row, col;
        unsigned dots;

        if (sign_of(plot, i) || !is_inside(plot, plot->x[i], plot->y[i]))
            continue;
        cell_of_point(plot, inside, i, &row, &col);
        dots = dots_of(plot, inside, i);
        if (cells)
            dots = cells[row * inside->cols + col] |= (unsigned char)dots;
        put_braille(inside, row, col, dots);
    }
    free(cells);
}

static void paint_signs(const struct plot *plot, const struct canvas *inside)
{
    for (int i = 0; i < plot->n; i++) {
        char text[2] = {sign_of(plot, i), '\0'};
        int row, col;

        if (!text[0] || !is_inside(plot, plot->x[i], plot->y[i]))
            continue;
        cell_of_point(plot, inside, i, &row, &col);
        canvas_text(inside, row, col, STYLE_PLAIN, text);
    }
}

static void paint_marked(const struct plot *plot, const struct canvas *inside)
{
    int row, col;

    if (plot->marked < 0 || plot->marked >= plot->n || !is_inside(plot, plot->x[plot->marked], plot->y[plot->marked]))
        return;
    cell_of_point(plot, inside, plot->marked, &row, &col);
    canvas_text(inside, row, col - 1, STYLE_STRONG, "(");
    canvas_text(inside, row, col + 1, STYLE_STRONG, ")");
    canvas_text(inside, row, col, STYLE_CURSOR, "@");
}

void plot_paint(const struct plot *plot, const struct canvas *canvas)
{
    struct area area;

    if (!lay_out(plot, canvas, &area))
        return;
    paint_up(plot, canvas, &area);
    paint_across(plot, canvas, &area);
    paint_mark(plot, &area.inside);
    paint_curve(plot, &area.inside);
    paint_dots(plot, &area.inside);
    paint_signs(plot, &area.inside);
    paint_marked(plot, &area.inside);
}

int plot_at(const struct plot *plot, const struct canvas *canvas, int row, int col)
{
    struct area area;
    int best = -1;
    long least = 0;

    if (!lay_out(plot, canvas, &area))
        return -1;
    row -= area.up_name;
    col -= area.labels;
    if (row < 0 || row >= area.inside.rows || col < 0 || col >= area.inside.cols)
        return -1;
    for (int i = 0; i < plot->n; i++) {
        int r, c;
        long away;

        if (!is_inside(plot, plot->x[i], plot->y[i]))
            continue;
        cell_of_point(plot, &area.inside, i, &r, &c);
        away = 4L * (r - row) * (r - row) + (long)(c - col) * (c - col); /* a cell is about twice as high as wide */
        if (best < 0 || away < least) {
            best = i;
            least = away;
        }
    }
    return best;
}
