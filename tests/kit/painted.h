/* painted.h - what was painted into a surface, a row a text, for tests that need no terminal. */
#ifndef TESTS_KIT_PAINTED_H
#define TESTS_KIT_PAINTED_H

#include "ui/kit/surface.h"

enum { PAINTED_ROWS = 24, PAINTED_COLS = 80 };

struct painted {
    struct surface surface;
    struct canvas canvas; /* all of it */
};

/* A blank surface of that size; painted_done frees it. */
void painted_start(struct painted *painted, int rows, int cols);
void painted_done(struct painted *painted);

/* One row without trailing blanks. */
void painted_row(const struct painted *painted, int row, char out[PAINTED_COLS * GLYPH_BYTES]);

/* The first row at or after `from` that has the text; -1. *col (may be NULL): in cells. */
int painted_find(const struct painted *painted, int from, const char *text, int *col);

/* The text of one cell. */
const char *painted_cell(const struct painted *painted, int row, int col);

#endif
