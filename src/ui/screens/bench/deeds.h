/* deeds.h - what a maker can do at the bench: one table, from which keys, bottom line, help and the list of `.` are made. */
#ifndef SCREENS_BENCH_DEEDS_H
#define SCREENS_BENCH_DEEDS_H

#include "ui/screens/bench/state.h"

struct deed {
    const char *word; /* settings name it by this to give it a key of the maker's */
    const char *keys, *label, *help;
    void (*run)(void *state, const struct key *key); /* NULL: only told, the screen's `key` does it */
    const char *(*why_not)(void *state);
    unsigned steps; /* bits of enum ask_kind that it belongs to, and those below */
    bool menu;      /* in the list of `.`, since its key is a letter or sign */
};

/* What stands in the place of enum ask_kind: a reading that has to be typed, and places that are no step. */
enum { DEED_AT_ALKALI = 7, DEED_AT_END = 8, DEED_AT_NOTES = 9, DEED_AT_NOTHING = 10, DEED_PLACES = 11 };

/* The table, in the order of use. */
const struct deed *deeds(size_t *n);

/* A word by which settings can give something a key; and all of them: "done, more, ...". */
bool deeds_known(const char *word);
void deeds_words(char *out, size_t size);

/* Where the screen is now: a kind of step or one of the above. */
unsigned deeds_place(const struct bench_screen *screen);

#endif
