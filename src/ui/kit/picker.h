/* picker.h - finds one of many by typing any part of a name, with a pane about the one under the cursor. */
#ifndef KIT_PICKER_H
#define KIT_PICKER_H

#include <stdbool.h>
#include <stddef.h>

#include "ui/kit/desk.h"

/* Where the picker gets its rows. Indices are the source's own and stay the same while it is open. */
struct picker_source {
    /* The indices that fit the filter, best first, at most `most`; returns how many there are. */
    size_t (*find)(void *context, const char *filter, int index[], size_t most);
    /* One row: a name, and a short remark for its right end ("" for none). */
    void (*row)(void *context, int index, char *name, size_t name_size, char *remark, size_t remark_size);
    /* Draws what is to be said about it, beside or under the rows. May be NULL. */
    void (*about)(void *context, int index, const struct canvas *pane);
    /* It was taken; the picker is gone already. */
    void (*taken)(void *context, int index);
    /* What was typed is to become a new one; NULL where that cannot be. The picker is gone already. */
    void (*made)(void *context, const char *name);
    void (*closed)(void *context); /* last of all, however it ended: free what it needed; may be NULL */
    const char *made_text;         /* "make a new oil of it" */
};

enum { PICKER_ROWS = 512 };

/* `source` must stay until the picker is gone. */
void picker_open(struct desk *desk, const char *title, const struct picker_source *source, void *context);

#endif
