/* term.h - the terminal itself: started, fed with surfaces, read for keys, and left as it was found. The only part of the
 * program that knows curses.
 *
 * There is one terminal to a process, so its state is the module's own. Nothing here is called from a signal handler but the
 * restoring of a crash, which uses only functions that POSIX allows there.
 */
#ifndef KIT_TERM_H
#define KIT_TERM_H

#include <stdbool.h>
#include <stdint.h>

#include "lyeway/status.h"
#include "ui/kit/key.h"
#include "ui/kit/surface.h"

struct term_options {
    bool colour; /* false: attributes only (NO_COLOR) */
};

struct term_facts {
    int rows, cols;
    bool utf8;   /* false: box characters and the like are drawn in ASCII */
    int colours; /* 0, 8, 16, 256 ... that are used */
};

/* Takes over the terminal on standard input and output. LW_NOT_FOUND where there is none or its type is not known. */
enum lw_status term_start(const struct term_options *options, struct lw_error *error);

/* Gives it back as it was. Harmless when not started. */
void term_stop(void);

struct term_facts term_facts(void);

/* Asks the window for its size again, after a SIGWINCH; the next frame is painted whole. */
void term_resized(void);

/* Gives the terminal back, stops the process as a shell expects of ^Z, and takes it over again when continued. */
void term_suspend(void);

/* Sends what differs from the frame before. */
void term_show(const struct surface *surface);

/* Rings and flashes, as far as the terminal can. */
void term_bell(void);

/* The next key that is there already; false where there is none. Never waits, but 25 ms after a lone Esc. */
bool term_key(struct key *key);

#endif
