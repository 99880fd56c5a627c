/* field.h - one line of text being edited: UTF-8, combining marks stay with their letter, the value is live at every key. */
#ifndef KIT_FIELD_H
#define KIT_FIELD_H

#include <stdbool.h>
#include <stddef.h>

#include "ui/kit/key.h"
#include "ui/kit/surface.h"
#include "ui/kit/typing.h"

enum { FIELD_BYTES = 256 };

struct field {
    char text[FIELD_BYTES];
    size_t cursor; /* byte offset, always at the start of a character */
    size_t limit;  /* bytes that text may use, without the NUL; at most FIELD_BYTES - 1 */
};

/* Starts with text (cut to the limit at a whole character) and the cursor at its end. */
void field_start(struct field *field, const char *text, size_t limit);

/* A paste puts in its first line; characters that are not printable are left out. */
enum field_result field_key(struct field *field, const struct key *key);

/* Draws "[text]" in `width` columns with the terminal's cursor in it, scrolled so that the cursor shows. */
void field_paint(const struct field *field, const struct canvas *canvas, int row, int col, int width);

#endif
