/* band.c - the interval on its axis. */
#include "ui/kit/band.h"

#include <math.h>

#include "base/utf8.h"

static int column(const struct band *band, int cols, double value)
{
    double share = (value - band->from) / (band->to - band->from);

    if (!(share > 0))
        return 0;
    return share >= 1 ? cols - 1 : (int)lround(share * (cols - 1));
}

static void span(const struct canvas *axis, const struct band *band, double lo, double hi, uint16_t style,
                 const char *sign)
{
    int first = column(band, axis->cols, lo), last = column(band, axis->cols, hi);

    canvas_fill(axis, 0, first, last - first + 1, style, sign);
}

void band_paint(const struct canvas *canvas, int row, const struct band *band, uint16_t style)
{
    int left = (int)utf8_columns(band->left), right = (int)utf8_columns(band->right);
    struct canvas axis = canvas_part(canvas, row, left + 1, 1, canvas->cols - left - right - 2);
    int last = axis.cols - 1;

    canvas_text(canvas, row, 0, STYLE_PLAIN, band->left);
    canvas_text(canvas, row, canvas->cols - right, STYLE_PLAIN, band->right);
    if (axis.cols < 8 || !(band->to > band->from))
        return;
    span(&axis, band, band->worst_lo, band->worst_hi, STYLE_PLAIN, ".");
    span(&axis, band, band->likely_lo, band->likely_hi, style, "=");
    canvas_text(&axis, 0, column(band, axis.cols, band->likely_lo), style, "[");
    canvas_text(&axis, 0, column(band, axis.cols, band->likely_hi), style, "]");
    canvas_print(&axis, 0, column(band, axis.cols, band->mark), STYLE_STRONG, "|%s", band->mark_name);
    canvas_text(&axis, 0, column(band, axis.cols, band->point), STYLE_STRONG, "o");
    if (band->worst_lo < band->from)
        canvas_text(&axis, 0, 0, STYLE_STRONG, "<");
    if (band->worst_hi > band->to)
        canvas_text(&axis, 0, last, STYLE_STRONG, ">");
}
