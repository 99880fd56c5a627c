/* surface.h - a screen's worth of cells in memory, and drawing into rectangles of it.
 *
 * A view paints all of its state into a surface at every frame; the terminal (term.h) compares the surface with the one
 * before and sends only the cells that differ. So no widget has to remember what it drew, an overlay uncovers what was
 * below it by not being painted, and nothing blinks.
 */
#ifndef KIT_SURFACE_H
#define KIT_SURFACE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* What a text means; the terminal picks attributes for it. No meaning hangs on colour alone. */
enum style {
    STYLE_PLAIN,
    STYLE_STRONG,
    STYLE_FAINT,
    STYLE_TITLE,
    STYLE_CURSOR, /* the one highlighted cell of a selection */
    STYLE_STOP,
    STYLE_CAUTION,
    STYLE_REMARK,
    STYLE_GOOD,
    STYLE_COUNT,
    STYLE_SWATCH = 0x1000, /* + 0xRGB, four bits a channel: drawn in the nearest colour the terminal has */
    STYLE_FILL = 0x2000    /* the same, but the cell is filled with it; as plain where the terminal has no colours */
};

/* Style for text in about that colour, 0xRRGGBB. */
static inline uint16_t style_swatch(unsigned rgb)
{
    unsigned red = rgb >> 16 & 0xffu, green = rgb >> 8 & 0xffu, blue = rgb & 0xffu;

    return (uint16_t)(STYLE_SWATCH | (red + 8) / 17 << 8 | (green + 8) / 17 << 4 | (blue + 8) / 17);
}

/* Style for blanks that are to show about that colour. */
static inline uint16_t style_fill(unsigned rgb)
{
    return (uint16_t)(STYLE_FILL | (style_swatch(rgb) & 0xfffu));
}

enum { GLYPH_BYTES = 13 };

/* One column of the screen: a character with its combining marks, or the right half of a wide one (text[0] == 0). */
struct glyph {
    char text[GLYPH_BYTES]; /* UTF-8, closed by NUL */
    uint8_t width;          /* 1 or 2; 0: right half of the cell before */
    uint16_t style;
};

struct surface {
    int rows, cols;
    struct glyph *cell;         /* rows * cols */
    int cursor_row, cursor_col; /* where the terminal's cursor is shown; row -1: hidden */
};

/* False without memory; the surface is then as it was. */
bool surface_resize(struct surface *surface, int rows, int cols);
void surface_done(struct surface *surface);

/* All blank, cursor hidden. */
void surface_clear(struct surface *surface);

/* A rectangle of a surface. Drawing outside of it is cut off; coordinates count from its corner. */
struct canvas {
    struct surface *surface;
    int row, col, rows, cols;
};

struct canvas canvas_whole(struct surface *surface);

/* Part of a canvas, cut to it. Negative rows or cols come out as 0. */
struct canvas canvas_part(const struct canvas *canvas, int row, int col, int rows, int cols);

/* Draws text from col on; what is not printable becomes '?'. A wide character that would stand half outside is a blank.
 * Returns the column after the last one drawn. */
int canvas_text(const struct canvas *canvas, int row, int col, uint16_t style, const char *text);

/* The same in printf form, at most 1 KiB. */
int canvas_print(const struct canvas *canvas, int row, int col, uint16_t style, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* Text in a span of `width` columns: cut with an ellipsis in the middle, or padded with blanks on the right. */
void canvas_span(const struct canvas *canvas, int row, int col, int width, uint16_t style, const char *text);

/* The same, against the right edge of the span. */
void canvas_span_right(const struct canvas *canvas, int row, int col, int width, uint16_t style, const char *text);

/* Repeats one character over a span. */
void canvas_fill(const struct canvas *canvas, int row, int col, int width, uint16_t style, const char *character);

/* Blanks the whole canvas: what an overlay does before it draws itself. */
void canvas_clear(const struct canvas *canvas);

/* Copies rows of another surface, from `row` of it on, into the canvas, as far as both reach. */
void canvas_show(const struct canvas *canvas, const struct surface *from, int row);

/* Shows the terminal's cursor there, if it is inside. */
void canvas_cursor(const struct canvas *canvas, int row, int col);

/* Bytes of the longest head of a text that fits `cols` columns, broken at a newline, else at a space where there is one. *skip:
 * bytes of the newline or space that the break stands for. */
size_t canvas_break(const char *text, int cols, size_t *skip);

/* Rows that canvas_wrap would take for the text, at most those of the canvas. */
int canvas_wrapped(const struct canvas *canvas, const char *text);

/* Draws text with spaces where lines break, in at most `rows` rows from `row`; returns the rows used. What is too long for them is cut in
 * the middle of the last, as canvas_span cuts. */
int canvas_wrap(const struct canvas *canvas, int row, int rows, uint16_t style, const char *text);

#endif
