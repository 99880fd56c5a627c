/* lines.h - a batch of the book as a line of columns, as wide as the window lets it be. */
#ifndef SCREENS_BATCH_LINES_H
#define SCREENS_BATCH_LINES_H

#include "ui/kit/surface.h"
#include "work/book.h"

enum { LINES_ABOUT_ROWS = 2 };

/* The heads of the columns, over the whole width of the window. */
void lines_heading(const struct canvas *canvas, const struct settings *settings);

/* One line of a list (list.h): the window less its gutter. marked: chosen to be compared, a sign before the day. */
void lines_paint(const struct canvas *line, const struct book_line *batch, const struct settings *settings,
                 bool selected, bool marked);

/* What the columns cut or have no room for, in LINES_ABOUT_ROWS. */
void lines_about(const struct canvas *canvas, const struct book_line *line, const struct settings *settings);

#endif
