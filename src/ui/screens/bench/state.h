/* state.h - what the bench screen keeps between frames. For the files of this folder. */
#ifndef SCREENS_BENCH_STATE_H
#define SCREENS_BENCH_STATE_H

#include "ui/kit/desk.h"
#include "ui/kit/field.h"
#include "ui/kit/numbered.h"
#include "ui/screens/top.h"
#include "work/run.h"

enum { BENCH_ACTIONS = 40, BENCH_KEYS_BYTES = 32, ECHO_BYTES = 160, STAGES = 8, RINSE_S = 20 * 60 };

/* What the digits that are typed are for. */
enum typed_what {
    TYPING_NOTHING,
    TYPING_STEP, /* what the step at hand asks for */
    TYPING_LEFT  /* what the rest in the bag weighs */
};

struct deed;

struct bench_screen {
    struct top top;      /* first, for top_key */
    struct run *run;     /* NULL: no batch is on the bench */
    int at;              /* the step at hand; -1: none is left */
    struct ask ask;      /* about it */
    bool notes_due;      /* the safety notes are to be acknowledged before anything else */
    int64_t timers_seen; /* what the board knows of the batch's timers */
    enum typed_what typing;
    struct field field;
    int kept; /* numbers that were typed for a step that asks for two */
    double number[2];
    bool spent_said;       /* that more pieces are counted than what is left in the bag should give */
    char echo[ECHO_BYTES]; /* of the last weighing */
    struct part_ref off;   /* the part that is being put right */
    int64_t reading_ug;    /* of it, while it is asked whether it is so */
    struct slip slip;      /* what it then most likely is */
    int remedies;
    struct remedy remedy[REMEDIES];
    struct words remedy_words[REMEDIES];
    int parts; /* that a list offers */
    struct part_ref part[NUMBERED_LINES];
    int64_t id[NUMBERED_LINES];                /* batches or timers that a list offers */
    struct pieces_line source[NUMBERED_LINES]; /* what is on the shelf, by line */
    const struct deed *menu[NUMBERED_LINES];
    struct action action[BENCH_ACTIONS];
    char keys[BENCH_ACTIONS][BENCH_KEYS_BYTES];
};

/* ---- screen.c */

struct lw_now bench_now(const struct bench_screen *screen);

/* Looks at the step at hand anew, after something happened. What was half typed for another step is gone. */
void bench_look(struct bench_screen *screen);

/* Says the sentence of what was refused, and looks anew; true where it was done. */
bool bench_done(struct bench_screen *screen, enum lw_status status, const struct lw_error *error);

/* Puts another batch on the screen; 0: none. */
bool bench_turn_to(struct bench_screen *screen, int64_t batch);

/* ---- ask.c, piping.c, lists.c: painting */

void bench_paint_ask(const struct bench_screen *screen, const struct canvas *body);
void bench_paint_piping(const struct bench_screen *screen, const struct canvas *canvas, int row);
void bench_paint_acknowledge(const struct canvas *body);

/* The name, spaced so that it is large, and the line "step 9 of 31   coconut oil into jug B"; returns the row after. */
int bench_paint_head(const struct bench_screen *screen, const struct canvas *body);

/* Notes one after the other, each on its own lines where there is room, else in one run; returns the row after. */
int bench_paint_notes(const struct canvas *canvas, int row, const char *const notes[]);

/* The last weighings, the next steps and in the last row the margin as weighed, in `rows` rows from `row`. */
void bench_paint_lists(const struct bench_screen *screen, const struct canvas *canvas, int row, int rows);
/* The same at length, with the timeline and the findings, for a wide window. */
void bench_paint_side(const struct bench_screen *screen, const struct canvas *canvas);

/* ---- typing.c: digits, units and arithmetic */

bool bench_takes_number(const struct bench_screen *screen);
void bench_type(struct bench_screen *screen, enum typed_what typing, const char *text);
bool bench_type_key(struct bench_screen *screen, const struct key *key);
void bench_paint_typing(const struct bench_screen *screen, const struct canvas *line);

/* ---- deeds.c: what a maker does, one function each */

const struct action *bench_actions(void *state, size_t *n);

/* ---- steps.c: what Enter and a number mean at each kind of step */

void bench_enter(void *state, const struct key *key);
/* Of the kind of pieces at hand. */
bool bench_nothing_counted(const struct bench_screen *screen);
/* Counts pieces, and says it once where they become more than the batter should give. */
void bench_count(struct bench_screen *screen, enum event_kind what, int how_many);
void bench_take_number(struct bench_screen *screen, double number);
void bench_stamp(struct bench_screen *screen, int stage);

/* ---- right.c: a reading that is off, and what can be done */

void bench_weigh(struct bench_screen *screen, int64_t reading_ug);
void bench_put_right(void *state, const struct key *key);
void bench_correct(void *state, const struct key *key);
/* A mass in the batch's unit where none is typed. */
enum lw_status bench_read_mass(const struct bench_screen *screen, const char *text, double *g, struct lw_error *error);

/* ---- others */

void bench_menu(void *state, const struct key *key);     /* menu.c */
void bench_splash(void *state, const struct key *key);   /* splash.c */
void bench_timers(void *state, const struct key *key);   /* timers.c */
void bench_leftover(void *state, const struct key *key); /* leftover.c */
void bench_finish(void *state, const struct key *key);   /* close.c */
void bench_close(struct bench_screen *screen);           /* close.c: the five questions */
void bench_aside(void *state, const struct key *key);    /* close.c */

#endif
