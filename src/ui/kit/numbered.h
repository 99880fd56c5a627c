/* numbered.h - an overlay whose lines are taken by one digit: for a number pad, wet gloves and a screen two metres away. */
#ifndef KIT_NUMBERED_H
#define KIT_NUMBERED_H

#include "ui/kit/desk.h"

enum { NUMBERED_LINES = 32, NUMBERED_BYTES = 680 };

struct numbered {
    int count;
    char line[NUMBERED_LINES][NUMBERED_BYTES];
};

/* Adds a line in printf form; beyond NUMBERED_LINES it is left out. */
void numbered_add(struct numbered *numbered, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Shows the question and the lines, which are copied. Keys 1 to 9 take a line, 0 shows the next ones where there are more than
 * fit; arrows mark one for Enter. Esc, `.` and `-` close. `taken` gets the index, or -1; the overlay is gone already. */
void numbered_open(struct desk *desk, const char *title, const char *question, const struct numbered *numbered,
                   void (*taken)(void *context, int index), void *context);

#endif
