/* digits.h - figures that can be read from two metres: five rows high, in blocks (in '#' where there are no blocks). */
#ifndef KIT_DIGITS_H
#define KIT_DIGITS_H

#include "ui/kit/surface.h"

enum { DIGITS_ROWS = 5 };

/* Columns that the text takes. Digits, point, comma, minus, plus, colon and blank have a shape; others are left out. */
int digits_columns(const char *text);

/* Draws the text with its upper left corner there; returns the column after it. */
int digits_paint(const struct canvas *canvas, int row, int col, uint16_t style, const char *text);

#endif
