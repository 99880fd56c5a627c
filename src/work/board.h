/* board.h - the batches on the bench and all of their running timers, for every screen. */
#ifndef WORK_BOARD_H
#define WORK_BOARD_H

#include "lyeway/batch.h"
#include "store/batches.h"
#include "work/workshop.h"

enum { BOARD_BATCHES = 16, BOARD_TIMERS = 48 };

struct board_timer {
    int64_t batch;
    char batch_name[LW_NAME_BYTES];
    struct batch_timer timer;
    int64_t rung_s; /* UTC second up to which it has rung; what is due after it rings */
};

struct board {
    int batches;
    struct batch_line line[BOARD_BATCHES]; /* oldest first */
    int timers;
    struct board_timer timer[BOARD_TIMERS];
};

/* Reads both anew; timers that rang stay rung. What was due before the program was there to ring rings once, late. */
enum lw_status board_read(struct board *board, struct workshop *workshop, const struct lw_now *now,
                          struct lw_error *error);

/* Seconds until the timer is due next (of a repeating one, the next time); below 0: it is over since so long. */
int64_t board_left_s(const struct batch_timer *timer, int64_t now_s);

/* "Blossoms: stand 03:12   chill 12:40", the soonest first, as many as fit in `columns`; "" without timers. One that is over counts up
 * with a sign: "chill +00:20". */
void board_status(const struct board *board, int64_t now_s, int columns, char *out, size_t size);

/* Milliseconds until that text changes; -1 without timers. */
int board_status_ms(const struct board *board, const struct lw_now *now);

/* The next timer that has become due and has not rung yet, which counts as rung then; false where none has. *sentence: "Blossoms
 * and leaves: look at the trace." */
bool board_due(struct board *board, int64_t now_s, char *sentence, size_t size);

#endif
