/* record.h - what the screen of one batch keeps between frames. For the files of this folder. */
#ifndef SCREENS_RECORD_H
#define SCREENS_RECORD_H

#include "ui/screens/batches/page.h"

enum { TEXT_BYTES = 256 };

struct record_screen {
    struct top top; /* first, for top_key */
    struct run *run;
    struct curing curing;
    struct page page;
    struct page_source source;
    int scrolled, rows; /* rows: in view when last painted */
    struct left_out left_out;
    int marker;           /* that is asked for */
    int next_marker;      /* that an empty answer goes on to; 0: none */
    enum batch_test test; /* that is asked for */
    double value;         /* its result */
    enum batch_outcome outcome;
    enum residue_place place;
    int64_t mass_ug;
};

struct lw_now record_now(const struct record_screen *screen);

/* After something was said: saved, then the line in the book found anew. `said` is told where all of it went well. */
void record_settle(struct record_screen *screen, enum lw_status status, struct lw_error *error, const char *said);

/* ---- record_after.c: what is said of a batch after it is made, by actions, and why one cannot be done */

void record_weigh(void *state, const struct key *key);
void record_test(void *state, const struct key *key);
void record_decide(void *state, const struct key *key);
void record_measure(void *state, const struct key *key);
void record_unsay(void *state, const struct key *key);
const char *record_not_cut(void *state);
const char *record_not_finished(void *state);
const char *record_not_combined(void *state);
const char *record_nothing_said(void *state);

#endif
