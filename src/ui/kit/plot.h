/* plot.h - points against two axes with round ticks, and a curve through them.
 *
 * A point is a dot in braille, eight to a cell (a star where the terminal has no UTF-8), or a character of its own, so that classes
 * of points differ by sign and not by colour. The curve is a row of middle dots and lies under the points.
 */
#ifndef KIT_PLOT_H
#define KIT_PLOT_H

#include <stddef.h>

#include "ui/kit/surface.h"

struct plot_axis {
    const char *name; /* "" without */
    double from, to;  /* from < to */
    /* How a value at a tick is written; step: between ticks. NULL: with as many decimals as the step has. */
    void (*label)(const void *context, double value, double step, char *out, size_t size);
};

struct plot {
    struct plot_axis across, up;
    int n;
    const double *x, *y; /* what is not finite or outside of the axes is left out */
    const char *sign;    /* of each point, printable ASCII; 0: a dot. NULL: all are dots */
    int marked;          /* the point that the cursor is on, drawn over all others; -1: none */
    double (*curve)(const void *context, double x); /* NULL: none; NAN: not there */
    double curve_from, curve_to;                    /* drawn between */
    double mark_x;                                  /* an upright line there; NAN: none */
    const void *context;                            /* for label and curve */
};

/* An axis that has low and high in it with a little room around; where they are the same, a stretch about them. */
void plot_reach(struct plot_axis *axis, double low, double high);

/* The least of 1, 2, 5 times a power of ten that divides from..to into at most `most` parts. */
double plot_step(double from, double to, int most);

/* Fills the canvas: the name of `up` above, ticks and labels left and below, the name of `across` last. Less than 4 rows or 16 columns
 * is left blank. */
void plot_paint(const struct plot *plot, const struct canvas *canvas);

/* The point drawn nearest to a cell of the canvas: for a click. -1: none is there. */
int plot_at(const struct plot *plot, const struct canvas *canvas, int row, int col);

#endif
