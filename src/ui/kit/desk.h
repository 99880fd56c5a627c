/* desk.h - views stacked on one another, the frame around them, and what keys do.
 *
 * A view is a table of functions over a state of its own. Its keys are a table of actions, from which the bottom line and the
 * help are made, so that neither can drift from what the keys do.
 */
#ifndef KIT_DESK_H
#define KIT_DESK_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "ui/kit/key.h"
#include "ui/kit/surface.h"

struct desk;

struct action {
    const char *keys;  /* names as help writes them, parted by blanks: "Enter", "j Down" */
    const char *label; /* a word or two for the bottom line; NULL: only in help */
    const char *help;  /* one sentence */
    void (*run)(void *state, const struct key *key); /* NULL: the view's `key` does it; only told here */
    /* NULL: always possible. Else why it cannot be done now, or NULL when it can. */
    const char *(*why_not)(void *state);
};

struct view_ops {
    const char *title; /* of its help */
    /* Where the maker is, for the first line: "Recipes > Orchard base". NULL for an overlay. */
    void (*where)(void *state, char *out, size_t size);
    void (*paint)(void *state, const struct canvas *body);
    /* Looks at a key before the actions do (while a field is open); true if that was all. May be NULL. */
    bool (*key)(void *state, const struct key *key);
    /* The actions of the moment, most useful first. */
    const struct action *(*actions)(void *state, size_t *count);
    /* This key counts once however long it is held down (repeat.h). NULL: every repetition counts. */
    bool (*once)(void *state, const struct key *key);
    /* Milliseconds until the view changes by itself, LOOP_NEVER. May be NULL. */
    int (*wait_ms)(void *state);
    /* The view is on top again, after the one above it was popped. May be NULL. */
    void (*shown)(void *state);
    /* After each paint, and before the desk ends: writes what waits to be saved. May be NULL. */
    void (*save)(void *state);
    /* Something outside changed what the view shows. May be NULL. */
    void (*news)(void *state);
    /* The view was popped: free its state. May be NULL. */
    void (*closed)(void *state);
    bool overlay; /* the view below is painted first */
};

struct desk_options {
    /* Below, one calm line instead of the views, which no key reaches then; q asks there whether to leave. */
    int least_rows, least_cols;
    /* Texts for the right of the first line (running timers); NULL without. */
    void (*status)(void *context, char *out, size_t size);
    /* Milliseconds until it changes, LOOP_NEVER; NULL without. */
    int (*status_ms)(void *context);
    void (*tick)(void *context);         /* before each paint: what has become due is said; NULL without */
    int64_t (*steady_ms)(void *context); /* a clock that never jumps, for keys held down; NULL: they repeat */
    void (*idle)(void *context); /* after a paint, when all views have saved and none goes on at once; NULL without */
    bool (*watched)(void *context); /* watch_fd has input: true if views are to look for news; NULL without */
    int watch_fd;                   /* -1: none */
    void *context;
};

/* NULL without memory. */
struct desk *desk_new(const struct desk_options *options);
void desk_free(struct desk *desk);

/* Runs until there is no view left or desk_leave; returns as loop_run does. The terminal is started already. */
int desk_run(struct desk *desk);

/* Puts a view on top; its state is the desk's until `closed`. At most 12 deep: false, and `closed` is called. */
bool desk_push(struct desk *desk, const struct view_ops *ops, void *state);

/* Takes the top view off. The last one leaves the desk. */
void desk_pop(struct desk *desk);

/* Takes all views off but the first, then puts this one on (unless ops is NULL). */
void desk_switch(struct desk *desk, const struct view_ops *ops, void *state);

void desk_leave(struct desk *desk);

/* One sentence above the bottom line, until the next key. */
void desk_say(struct desk *desk, uint16_t style, const char *format, ...) __attribute__((format(printf, 3, 4)));

/* Opens the help of the top view: on ?, and on F1 while a field shows the terminal's cursor and takes ? as text. */
void desk_help(struct desk *desk);

#endif
