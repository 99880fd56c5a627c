/* repeat.h - a key held down counts once.
 *
 * A terminal does not tell that a key is held: it sends the key, after a pause (mostly a quarter to two thirds of a second) the
 * same key again, and then the same key many times a second until it is let go. So the same key hard upon the one before is a
 * repetition or a bouncing contact, and is dropped. The first one after the pause looks like an honest second press until
 * the next one comes: it waits REPEAT_MS, and counts if nothing follows. A first press and any other key count at once.
 *
 * What cannot be told apart: a key held for just one repetition, and a key pressed twice. It counts as two.
 */
#ifndef KIT_REPEAT_H
#define KIT_REPEAT_H

#include <stdbool.h>
#include <stdint.h>

#include "ui/kit/key.h"

enum {
    REPEAT_MS = 120,       /* slow keyboards repeat every 92 ms; fingers need about 150 (memory) */
    REPEAT_HELD_MS = 300,  /* a hold that has shown itself bears a pause of the line */
    REPEAT_PAUSE_MS = 1200 /* no keyboard waits longer before it repeats, unless it was set to (memory) */
};

/* All zeros to begin with. */
struct repeat {
    struct key last;
    int64_t last_ms;
    bool held;
    bool waiting; /* `last` came after a pause and is not told yet */
};

enum repeat_verdict { REPEAT_TAKE, REPEAT_DROP, REPEAT_WAIT };

/* What to do with a key that came at now_ms (a clock that never jumps). `once` false: it is taken whatever it is, but
 * remembered, so that a key held over a change of views stays held. Ask repeat_honest before. */
enum repeat_verdict repeat_key(struct repeat *repeat, const struct key *key, int64_t now_ms, bool once);

/* A key that waited has turned out an honest press: its time is up, or `next` (NULL: none came) is another key. */
bool repeat_honest(struct repeat *repeat, const struct key *next, int64_t now_ms, struct key *key);

/* Milliseconds until a waiting key is told; -1: none waits. */
int repeat_left_ms(const struct repeat *repeat, int64_t now_ms);

#endif
