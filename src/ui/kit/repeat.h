/* repeat.h - a key held down counts once, quick presses all count.
 *
 * A terminal does not tell that a key is held: it sends the key, after a pause (mostly a quarter to two thirds of a second) the
 * same key again, and then the same key many times a second, at a steady interval, until it is let go. Without that pause nothing is
 * a repetition, however quick it comes: such presses count at once. A press after such a pause may be the first repetition of
 * a hold; it waits for what comes next:
 *
 *   - the same key sooner than fingers can do it, or twice at one steady interval: it is held, and what waited is dropped;
 *   - the same key at another interval, another key, or none within REPEAT_MS: they were honest presses, and count.
 *
 * What cannot be told apart: a key held for one repetition only, and a key pressed twice (counts as two); presses after such a
 * pause that are as quick or as steady as a machine (count as held, which the desk says).
 */
#ifndef KIT_REPEAT_H
#define KIT_REPEAT_H

#include <stdbool.h>
#include <stdint.h>

#include "ui/kit/key.h"

/* From memory, all of them. */
enum {
    REPEAT_FINGER_MS = 60,  /* quicker than one finger can press again */
    REPEAT_MS = 120,        /* slow keyboards repeat every 92 ms */
    REPEAT_STEADY_MS = 10,  /* by which two intervals of a held key differ at most */
    REPEAT_DELAY_MS = 150,  /* no keyboard waits less before it repeats, */
    REPEAT_PAUSE_MS = 1200, /* and none longer, unless it was set to; */
    REPEAT_DELAY_TIMES = 2  /* and each waits so many of its intervals, or more */
};

/* All zeros to begin with. */
struct repeat {
    struct key last;
    int64_t last_ms;
    int64_t delay_ms; /* the pause after which a key came that may be held; 0: none did */
    int64_t every_ms; /* between the last two since; 0: none yet */
    bool held;        /* it is, */
    bool said;        /* and REPEAT_HELD has said so */
    int waiting;      /* presses of `last` that are not told yet */
};

/* TAKE: counts now. DROP: of a held key. HELD: the same, and the first of this hold. WAIT: not told yet. */
enum repeat_verdict { REPEAT_TAKE, REPEAT_DROP, REPEAT_HELD, REPEAT_WAIT };

/* What to do with a key that came at now_ms (a clock that never jumps). `once` false: it is taken whatever it is, but
 * remembered, so that a key held over a change of views stays held. Ask repeat_honest before. */
enum repeat_verdict repeat_key(struct repeat *repeat, const struct key *key, int64_t now_ms, bool once);

/* How often a key that waited has turned out to be honestly pressed: its time is up, or `next` (NULL: none came) tells. */
int repeat_honest(struct repeat *repeat, const struct key *next, int64_t now_ms, struct key *key);

/* Milliseconds until a waiting key is told; -1: none waits. */
int repeat_left_ms(const struct repeat *repeat, int64_t now_ms);

#endif
