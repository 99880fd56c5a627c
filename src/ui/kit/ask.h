/* ask.h - small overlays that ask one thing: yes or no, one of a few, or a line of text. */
#ifndef KIT_ASK_H
#define KIT_ASK_H

#include <stddef.h>

#include "ui/kit/desk.h"

/* What may be chosen: the key that takes it, and what it does in words. */
struct choice {
    const char *key;
    const char *text;
};

/* Shows the question and the choices; `taken` gets the index, or -1 for Esc. The choices must stay until the question is gone. */
void ask_choice(struct desk *desk, const char *title, const char *question, const struct choice *choices, size_t count,
                void (*taken)(void *context, int index), void *context);

/* A line of text, starting with `text`. `check` (may be NULL) looks at every version of it: it may write a sentence to show under
 * the field, and returns whether Enter may take the text. Then `taken` is called, the overlay being gone already. */
void ask_line(struct desk *desk, const char *title, const char *question, const char *text, size_t limit,
              bool (*check)(void *context, const char *text, char *note, size_t size),
              void (*taken)(void *context, const char *text), void *context);

/* Several lines of text, starting with `text`; Enter begins a new line, Tab is done. Then `taken` is called, the overlay being gone
 * already. What was typed is not thrown away without asking. At most AREA_BYTES - 1 bytes (area.h). */
void ask_text(struct desk *desk, const char *title, const char *text, size_t limit,
              void (*taken)(void *context, const char *text), void *context);

#endif
