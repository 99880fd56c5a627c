/* step_fact.h - what is known of each kind of step, a row each: adding one is adding a row, and its word in lyeway/batch.h. */
#ifndef WORK_STEP_FACT_H
#define WORK_STEP_FACT_H

#include "work/run.h"

enum { STEP_LINES = 6 };

struct step_fact {
    const char *title;            /* "%s" stands for what it is about */
    const char *line[STEP_LINES]; /* what there is to do, one thing a line; NULL-ended */
    enum ask_kind ask;            /* of a step without a mass to weigh */
    bool before_combining;        /* has to be over before lye meets oil */
    bool splits;                  /* done, it leaves no whole batter to put anything into */
    bool left_out;                /* what a batter that is setting does without */
    struct {
        const char *name; /* NULL: none is offered */
        int length_s, repeat_s;
        bool by_itself; /* starts when the step has come up */
    } timer;
};

const struct step_fact *step_fact(enum step_kind kind);

#endif
