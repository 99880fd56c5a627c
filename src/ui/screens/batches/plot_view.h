/* plot_view.h - what the screen of one figure against another keeps between frames. For the files of this folder. */
#ifndef SCREENS_PLOT_VIEW_H
#define SCREENS_PLOT_VIEW_H

#include "ui/kit/list.h"
#include "ui/screens/batches/batches.h"
#include "ui/screens/dates.h"

enum { PLOT_WORDS_ROWS = 3, AXIS_NAME_BYTES = 64, POINT_BYTES = 320 };

struct plot_screen {
    struct top top; /* first, for top_key */
    char filter[FILTER_BYTES];
    int across, up; /* figures; BOOK_FIGURE_COUNT: the day */
    struct points points;
    char *sign; /* of each point */
    int at;     /* the point that the cursor is on; -1: there is none */
    bool table;
    struct list list;
    struct canvas drawn; /* where plot or table was drawn last; no rows: nowhere */
};

/* ---- plot_words.c: the same in words */

/* "mass a piece, g". */
void plot_axis_name(const struct plot_screen *screen, int figure, char out[AXIS_NAME_BYTES]);

/* The day that is so many days from now. */
void plot_day_text(const struct plot_screen *screen, double days, char out[DATE_BYTES]);

/* The batch of a point and its figures, in one line. */
void plot_say_point(const struct plot_screen *screen, int index, char *text, size_t size);

/* How many points, the line with its spread, the middle of what goes up: a row each. */
void plot_paint_words(const struct plot_screen *screen, const struct canvas *words);

/* All points, a row each, with the cursor where it is in the plot. */
void plot_paint_table(struct plot_screen *screen, const struct canvas *canvas);

#endif
