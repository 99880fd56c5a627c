/* digits.c - a font of three by five squares; a square is two columns wide, since a cell is about twice as high as wide. */
#include "ui/kit/digits.h"

#include <stddef.h>

enum { SQUARE = 2, GAP = 1 };

struct shape {
    char c;
    unsigned char width;            /* squares */
    unsigned char row[DIGITS_ROWS]; /* the leftmost square is the highest of `width` bits */
};

/* clang-format off */
static const struct shape shapes[] = {
    {'0', 3, {7, 5, 5, 5, 7}}, {'1', 3, {2, 6, 2, 2, 7}}, {'2', 3, {7, 1, 7, 4, 7}}, {'3', 3, {7, 1, 7, 1, 7}},
    {'4', 3, {5, 5, 7, 1, 1}}, {'5', 3, {7, 4, 7, 1, 7}}, {'6', 3, {7, 4, 7, 5, 7}}, {'7', 3, {7, 1, 1, 1, 1}},
    {'8', 3, {7, 5, 7, 5, 7}}, {'9', 3, {7, 5, 7, 1, 7}}, {'.', 1, {0, 0, 0, 0, 1}}, {',', 1, {0, 0, 0, 1, 1}},
    {'-', 2, {0, 0, 3, 0, 0}}, {'+', 3, {0, 2, 7, 2, 0}}, {':', 1, {0, 1, 0, 1, 0}}, {' ', 1, {0, 0, 0, 0, 0}},
};
/* clang-format on */

static const struct shape *shape_of(char c)
{
    for (size_t i = 0; i < sizeof shapes / sizeof *shapes; i++)
        if (shapes[i].c == c)
            return &shapes[i];
    return NULL;
}

int digits_columns(const char *text)
{
    int columns = 0;

    for (; *text; text++) {
        const struct shape *shape = shape_of(*text);

        columns += shape ? shape->width * SQUARE + GAP : 0;
    }
    return columns > 0 ? columns - GAP : 0;
}

static void paint_shape(const struct canvas *canvas, int row, int col, uint16_t style, const struct shape *shape)
{
    for (int i = 0; i < DIGITS_ROWS; i++)
        for (int j = 0; j < shape->width; j++)
            if (shape->row[i] >> (shape->width - 1 - j) & 1)
                canvas_fill(canvas, row + i, col + j * SQUARE, SQUARE, style, "\u2588");
}

int digits_paint(const struct canvas *canvas, int row, int col, uint16_t style, const char *text)
{
    for (; *text; text++) {
        const struct shape *shape = shape_of(*text);

        if (!shape)
            continue;
        paint_shape(canvas, row, col, style, shape);
        col += shape->width * SQUARE + (text[1] ? GAP : 0);
    }
    return col;
}
