/* timeline.h - what happened when, on a line drawn to scale: labels hang under it and never lie over one another. */
#ifndef KIT_TIMELINE_H
#define KIT_TIMELINE_H

#include "ui/kit/surface.h"

enum { TIMELINE_EVENTS = 48, TIMELINE_LABEL_BYTES = 64 };

struct timeline_event {
    double at; /* in the line's unit, 0 or more; rising */
    char label[TIMELINE_LABEL_BYTES];
};

/* The line with its scale in the two upper rows, the labels in those below. Returns how many events had no room (the earliest are
 * left out first), and in *rows (may be NULL) the rows used. */
int timeline_paint(const struct canvas *canvas, const struct timeline_event events[], int n, const char *unit,
                   int *rows);

#endif
