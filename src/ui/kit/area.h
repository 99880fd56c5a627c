/* area.h - several lines of text being edited, broken at blanks where they are too long. */
#ifndef KIT_AREA_H
#define KIT_AREA_H

#include <stddef.h>

#include "ui/kit/surface.h"
#include "ui/kit/typing.h"

enum { AREA_BYTES = 4096 };

struct area {
    char text[AREA_BYTES];
    size_t cursor; /* byte offset, always at the start of a character */
    size_t limit;  /* bytes that text may use, without the NUL; at most AREA_BYTES - 1 */
    int cols, top; /* as last painted */
};

/* Starts with text (cut to the limit at a whole character) and the cursor at its end. */
void area_start(struct area *area, const char *text, size_t limit);

/* Up and Down go by the rows that were last painted. */
enum field_result area_key(struct area *area, const struct key *key);

/* Fills the canvas, scrolled so that the terminal's cursor in the text shows. */
void area_paint(struct area *area, const struct canvas *canvas);

#endif
