/* painted.c - reads cells back. */
#include "kit/painted.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"

void painted_start(struct painted *painted, int rows, int cols)
{
    *painted = (struct painted){.surface = {.cursor_row = -1}};
    assert_true(cols <= PAINTED_COLS);
    assert_true(surface_resize(&painted->surface, rows, cols));
    painted->canvas = canvas_whole(&painted->surface);
}

void painted_done(struct painted *painted)
{
    surface_done(&painted->surface);
}

const char *painted_cell(const struct painted *painted, int row, int col)
{
    return painted->surface.cell[row * painted->surface.cols + col].text;
}

void painted_row(const struct painted *painted, int row, char out[PAINTED_COLS * GLYPH_BYTES])
{
    size_t n;

    out[0] = '\0';
    for (int col = 0; col < painted->surface.cols; col++)
        text_add(out, PAINTED_COLS * GLYPH_BYTES, "%s", painted_cell(painted, row, col));
    for (n = strlen(out); n > 0 && out[n - 1] == ' '; n--)
        out[n - 1] = '\0';
}

/* Whether the cells from there on begin with the text. */
static bool stands(const struct painted *painted, int row, int col, const char *text)
{
    while (*text && col < painted->surface.cols) {
        const char *cell = painted_cell(painted, row, col++);

        if (strncmp(cell, text, strlen(cell)) != 0)
            return false;
        text += strlen(cell);
    }
    return !*text;
}

int painted_find(const struct painted *painted, int from, const char *text, int *col)
{
    for (int row = from; row < painted->surface.rows; row++)
        for (int at = 0; at < painted->surface.cols; at++)
            if (stands(painted, row, at, text)) {
                if (col)
                    *col = at;
                return row;
            }
    return -1;
}
