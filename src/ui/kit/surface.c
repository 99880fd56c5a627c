/* surface.c - cells and clipped drawing. */
#include "ui/kit/surface.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"

enum { PRINT_BYTES = 1024 };

static const struct glyph blank = {.text = " ", .width = 1, .style = STYLE_PLAIN};

bool surface_resize(struct surface *surface, int rows, int cols)
{
    size_t count = (size_t)rows * (size_t)cols;
    struct glyph *cell = calloc(count ? count : 1, sizeof *cell);
    struct surface fresh;

    if (!cell)
        return false;
    fresh = (struct surface){.rows = rows, .cols = cols, .cell = cell};
    surface_clear(&fresh);
    free(surface->cell);
    *surface = fresh;
    return true;
}

void surface_done(struct surface *surface)
{
    free(surface->cell);
    *surface = (struct surface){.cursor_row = -1};
}

void surface_clear(struct surface *surface)
{
    size_t count = (size_t)surface->rows * (size_t)surface->cols;

    for (size_t i = 0; i < count; i++)
        surface->cell[i] = blank;
    surface->cursor_row = -1;
    surface->cursor_col = 0;
}

void canvas_show(const struct canvas *canvas, const struct surface *from, int row)
{
    int cols = canvas->cols < from->cols ? canvas->cols : from->cols;

    for (int i = 0; i < canvas->rows && row + i < from->rows; i++)
        for (int col = 0; col < cols; col++) {
            const struct glyph *glyph = &from->cell[(size_t)(row + i) * (size_t)from->cols + (size_t)col];
            bool cut = glyph->width == 2 && col + 1 == cols; /* half of it would stand outside */

            canvas->surface->cell[(size_t)(canvas->row + i) * (size_t)canvas->surface->cols +
                                  (size_t)(canvas->col + col)] = cut ? blank : *glyph;
        }
}

struct canvas canvas_whole(struct surface *surface)
{
    return (struct canvas){.surface = surface, .rows = surface->rows, .cols = surface->cols};
}

static int clamp(int value, int lo, int hi)
{
    return value < lo ? lo : value > hi ? hi : value;
}

struct canvas canvas_part(const struct canvas *canvas, int row, int col, int rows, int cols)
{
    int top = clamp(row, 0, canvas->rows), left = clamp(col, 0, canvas->cols);
    int bottom = clamp(row + rows, top, canvas->rows), right = clamp(col + cols, left, canvas->cols);

    return (struct canvas){.surface = canvas->surface,
                           .row = canvas->row + top,
                           .col = canvas->col + left,
                           .rows = bottom - top,
                           .cols = right - left};
}

static struct glyph *cell_at(const struct canvas *canvas, int row, int col)
{
    return &canvas->surface
                ->cell[(size_t)(canvas->row + row) * (size_t)canvas->surface->cols + (size_t)(canvas->col + col)];
}

/* A cell about to be overwritten may be one half of a wide character: the other half must not stay behind alone. */
static void unpair(const struct canvas *canvas, int row, int col)
{
    struct surface *surface = canvas->surface;
    int at = canvas->col + col;
    struct glyph *cell = cell_at(canvas, row, col);

    if (cell->width == 0 && at > 0)
        cell[-1] = blank;
    if (cell->width == 2 && at + 1 < surface->cols)
        cell[1] = blank;
}

static void put(const struct canvas *canvas, int row, int col, uint16_t style, const char *text, size_t bytes,
                int width)
{
    struct glyph *cell;

    if (col < 0 || col + width > canvas->cols) {
        if (width == 2 && col == canvas->cols - 1)
            put(canvas, row, col, style, " ", 1, 1);
        return;
    }
    unpair(canvas, row, col);
    if (width == 2)
        unpair(canvas, row, col + 1);
    cell = cell_at(canvas, row, col);
    *cell = (struct glyph){.width = (uint8_t)width, .style = style};
    memcpy(cell->text, text, bytes);
    if (width == 2)
        cell[1] = (struct glyph){.width = 0, .style = style};
}

/* Marks join the character before them while its cell has room; then they are dropped. */
static void join(const struct canvas *canvas, int row, int col, const char *mark, size_t bytes)
{
    struct glyph *cell;
    size_t used;

    if (col < 0 || col >= canvas->cols)
        return;
    cell = cell_at(canvas, row, col);
    if (cell->width == 0 && col > 0)
        cell--;
    used = strlen(cell->text);
    if (used + bytes < GLYPH_BYTES)
        memcpy(cell->text + used, mark, bytes);
}

int canvas_text(const struct canvas *canvas, int row, int col, uint16_t style, const char *text)
{
    size_t left = strlen(text);

    if (row < 0 || row >= canvas->rows)
        return col;
    while (left > 0) {
        uint32_t point;
        size_t bytes = utf8_next(text, left, &point);
        int width = utf8_width(point);

        if (point == 0xFFFD || !utf8_printable(point))
            put(canvas, row, col++, style, "?", 1, 1);
        else if (width == 0)
            join(canvas, row, col - 1, text, bytes);
        else {
            put(canvas, row, col, style, text, bytes, width);
            col += width;
        }
        text += bytes;
        left -= bytes;
    }
    return col;
}

int canvas_print(const struct canvas *canvas, int row, int col, uint16_t style, const char *format, ...)
{
    char text[PRINT_BYTES];
    va_list list;

    va_start(list, format);
    vsnprintf(text, sizeof text, format, list);
    va_end(list);
    return canvas_text(canvas, row, col, style, text);
}

void canvas_fill(const struct canvas *canvas, int row, int col, int width, uint16_t style, const char *character)
{
    for (int i = 0; i < width; i++)
        canvas_text(canvas, row, col + i, style, character);
}

void canvas_span(const struct canvas *canvas, int row, int col, int width, uint16_t style, const char *text)
{
    char shown[PRINT_BYTES];
    int end;

    if (width <= 0)
        return;
    utf8_clean(shown, sizeof shown, text, (size_t)width);
    end = canvas_text(canvas, row, col, style, shown);
    canvas_fill(canvas, row, end, col + width - end, style, " ");
}

void canvas_span_right(const struct canvas *canvas, int row, int col, int width, uint16_t style, const char *text)
{
    char shown[PRINT_BYTES];
    int lead;

    if (width <= 0)
        return;
    utf8_clean(shown, sizeof shown, text, (size_t)width);
    lead = width - (int)utf8_columns(shown);
    canvas_fill(canvas, row, col, lead, style, " ");
    canvas_text(canvas, row, col + lead, style, shown);
}

void canvas_clear(const struct canvas *canvas)
{
    for (int row = 0; row < canvas->rows; row++)
        canvas_fill(canvas, row, 0, canvas->cols, STYLE_PLAIN, " ");
}

void canvas_cursor(const struct canvas *canvas, int row, int col)
{
    if (row < 0 || row >= canvas->rows || col < 0 || col >= canvas->cols)
        return;
    canvas->surface->cursor_row = canvas->row + row;
    canvas->surface->cursor_col = canvas->col + col;
}

size_t canvas_break(const char *text, int cols, size_t *skip)
{
    size_t n = strlen(text), at = 0, space = 0;
    int used = 0;

    *skip = 0;
    while (at < n) {
        uint32_t point;
        size_t bytes = utf8_next(text + at, n - at, &point);

        if (point == '\n') {
            *skip = 1;
            return at;
        }
        if (point == ' ')
            space = at;
        used += utf8_width(point);
        if (used > cols) {
            *skip = space ? 1 : 0;
            return space ? space : at ? at : bytes;
        }
        at += bytes;
    }
    return n;
}

int canvas_wrapped(const struct canvas *canvas, const char *text)
{
    int used = 0;

    while (*text && used < canvas->rows) {
        size_t skip, length = canvas_break(text, canvas->cols, &skip);

        used++;
        text += length + skip;
    }
    return used;
}

int canvas_wrap(const struct canvas *canvas, int row, int rows, uint16_t style, const char *text)
{
    int used = 0;

    while (*text && used < rows) {
        char line[PRINT_BYTES];
        size_t skip, length = canvas_break(text, canvas->cols, &skip);

        if (used == rows - 1 && text[length + skip]) {
            utf8_clean(line, sizeof line, text, (size_t)canvas->cols);
        } else {
            if (length >= sizeof line)
                length = sizeof line - 1;
            memcpy(line, text, length);
            line[length] = '\0';
        }
        canvas_text(canvas, row + used, 0, style, line);
        used++;
        text += length + skip;
    }
    return used;
}
