/* typing.h - what keys do to a text that is being edited; the line field and the area of several lines share it.
 *
 * UTF-8; combining marks stay with their letter.
 */
#ifndef KIT_TYPING_H
#define KIT_TYPING_H

#include <stdbool.h>
#include <stddef.h>

#include "ui/kit/key.h"

enum field_result {
    FIELD_IGNORED, /* not a key for a text */
    FIELD_MOVED,   /* the cursor moved, or nothing changed */
    FIELD_CHANGED, /* the text changed */
    FIELD_FULL     /* the limit is reached; nothing changed, or as much of a paste as fitted was put in */
};

struct typing {
    char *text;    /* has room for limit bytes and the NUL */
    size_t cursor; /* byte offset, always at the start of a character */
    size_t limit;
    bool
        lines; /* Enter begins a new line; Home, End and what deletes to an end keep to the line; a paste keeps its lines */
};

/* A paste into a single line puts in its first line; characters that are not printable are left out. */
enum field_result typing_key(struct typing *typing, const struct key *key);

/* The start of the next character that has a column of its own, or the end. */
size_t typing_next(const char *text, size_t at);

/* Columns that the bytes take up. */
int typing_columns(const char *text, size_t from, size_t to);

#endif
