/* timeline.c - labels are hung from the right to the left, each in the highest row where it is free.
 *
 * What is placed already stands right of what is still to come, so that a row is free where its leftmost occupied column is beyond
 * the label's end; the thread that a label hangs on passes all rows above it at its own column and takes no more.
 */
#include "ui/kit/timeline.h"

#include <math.h>

#include "base/number.h"
#include "base/utf8.h"
#include "ui/kit/plot.h"

enum { SCALE_ROWS = 2, LABEL_ROWS = 12, COLS_A_TICK = 10, SIGN = 1 };

static int label_columns(const struct timeline_event *event)
{
    return SIGN + (int)utf8_columns(event->label);
}

/* Columns that the whole time takes, so that every label has room at its right; at least half of what there is. */
static double length_of(int cols, const struct timeline_event events[], int n)
{
    double end = events[n - 1].at, length = cols - 1;

    for (int i = 0; i < n; i++)
        if (events[i].at > 0)
            length = fmin(length, (cols - label_columns(&events[i])) * end / events[i].at);
    return fmax(length, (cols - 1) / 2.0);
}

static void paint_scale(const struct canvas *canvas, double end, double length, const char *unit)
{
    double step = plot_step(0, end, (int)length / COLS_A_TICK > 1 ? (int)length / COLS_A_TICK : 1);
    int col = 0;

    canvas_fill(canvas, 1, 0, (int)lround(length) + 1, STYLE_FAINT, "\u2500");
    for (int i = 0; i * step <= end * (1 + 1e-9); i++) {
        double at = i * step;
        char number[NUMBER_BYTES];
        int from = (int)lround(end > 0 ? at / end * length : 0);

        number_write_short(number, at, 2);
        canvas_text(canvas, 1, from, STYLE_FAINT, "\u253c");
        if (from > col || at == 0)
            col = canvas_text(canvas, 0, from, STYLE_PLAIN, number);
    }
    canvas_text(canvas, 0, col + 1, STYLE_PLAIN, unit);
}

static int free_row(const int leftmost[LABEL_ROWS], int rows, int col, int columns)
{
    for (int row = 0; row < rows; row++)
        if (col + columns < leftmost[row])
            return row;
    return -1;
}

static void hang(const struct canvas *labels, int leftmost[LABEL_ROWS], int row, int col, int columns,
                 const char *label)
{
    for (int above = 0; above < row; above++)
        if (leftmost[above] > col) {
            canvas_text(labels, above, col, STYLE_FAINT, "\u2502");
            leftmost[above] = col;
        }
    canvas_text(labels, row, col, STYLE_FAINT, "\u2514");
    canvas_span(labels, row, col + SIGN, columns - SIGN, STYLE_PLAIN, label);
    leftmost[row] = col;
}

int timeline_paint(const struct canvas *canvas, const struct timeline_event events[], int n, const char *unit,
                   int *rows)
{
    struct canvas labels = canvas_part(canvas, SCALE_ROWS, 0, canvas->rows - SCALE_ROWS, canvas->cols);
    int leftmost[LABEL_ROWS], room = labels.rows < LABEL_ROWS ? labels.rows : LABEL_ROWS, out = 0, used = 0;
    double end, length;

    if (rows)
        *rows = 0;
    if (n <= 0 || canvas->rows < SCALE_ROWS)
        return n > 0 ? n : 0;
    end = events[n - 1].at;
    length = length_of(canvas->cols, events, n);
    paint_scale(canvas, end, length, unit);
    for (int row = 0; row < LABEL_ROWS; row++)
        leftmost[row] = canvas->cols + 1;
    for (int i = n - 1; i >= 0; i--) {
        int col = (int)lround(end > 0 ? events[i].at / end * length : 0);
        int columns = label_columns(&events[i]), row;

        if (col + columns > canvas->cols)
            columns = canvas->cols - col;
        row = free_row(leftmost, room, col, columns);
        if (row < 0) {
            out++;
            continue;
        }
        hang(&labels, leftmost, row, col, columns, events[i].label);
        used = row + 1 > used ? row + 1 : used;
    }
    if (rows)
        *rows = SCALE_ROWS + used;
    return out;
}
