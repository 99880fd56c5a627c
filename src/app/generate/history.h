/* history.h - runs while building: the demo's two years, from a table of what was made when. */
#ifndef GENERATE_HISTORY_H
#define GENERATE_HISTORY_H

#include "maker.h"

/* A row of the table: so many days before the day of the demo. */
struct happening {
    int days;
    char recipe[LW_NAME_BYTES];
    enum story story;
    char note[EVENT_TEXT_BYTES];
};

/* Takes the next row from *text and moves it on; false at the end. Lines that begin with '#' and the head line are passed over. What
 * is wrong ends the tool with a sentence. */
bool history_next(const char **text, struct happening *happening);

/* The two batches that are on the bench when the demo is opened: the pieces in the middle of their piping, and the base at its alkali.
 * Returns when the last was said of them, UTC s. */
int64_t history_present(struct maker *maker);

#endif
