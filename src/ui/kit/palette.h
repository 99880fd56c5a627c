/* palette.h - the terminal's attributes and colours for a style. For term.c only: it needs curses' types. */
#ifndef KIT_PALETTE_H
#define KIT_PALETTE_H

#include <stdbool.h>
#include <stdint.h>

/* After the terminal is started. Without `colour`, or where the terminal has none, styles differ by attributes alone. */
void palette_start(bool colour);

/* Colours in use: 0, 8, 16, 88, 256. */
int palette_colours(void);

/* Attributes (attr_t) and pair of a style. */
void palette_style(uint16_t style, unsigned *attributes, short *pair);

#endif
