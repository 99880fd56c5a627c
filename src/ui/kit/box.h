/* box.h - the frame of an overlay. */
#ifndef KIT_BOX_H
#define KIT_BOX_H

#include "ui/kit/surface.h"

/* Draws an empty box of at most that size in the middle of `body` (smaller where there is no room), its title in the upper edge,
 * and returns its inside. */
struct canvas box_paint(const struct canvas *body, int rows, int cols, const char *title);

#endif
