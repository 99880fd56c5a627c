/* strip.h - a bar drawn to scale in parts: where a whole goes. */
#ifndef KIT_STRIP_H
#define KIT_STRIP_H

#include <stddef.h>
#include <stdint.h>

#include "ui/kit/surface.h"

enum { STRIP_PARTS = 40 };

struct strip_part {
    const char *name; /* drawn before its cells where there is room, cut short or left out where not */
    double amount;    /* >= 0 */
    uint16_t style;
};

/* Draws one row: parts in proportion to their amounts over the whole width, each with its own pattern, so that they can be told
 * apart without colour. `whole` scales the row (amounts that sum to less leave it open on the right); every part above 0 has
 * at least one cell while there is room. Amounts that are not finite count as 0. */
void strip_paint(const struct canvas *canvas, int row, double whole, const struct strip_part parts[], size_t count);

#endif
