/* loop.h - waits for what happens, hands it on, paints, and lets work be saved after the paint.
 *
 * One round: what has become due is told (`tick`), then one frame is painted, then `after_paint` runs (the draft is saved
 * there), then the process sleeps in ppoll, then all keys that are there are handed on. So a burst of keys costs one frame, a save
 * never delays the paint, and an idle program does nothing at all. Signals are blocked but in ppoll.
 */
#ifndef KIT_LOOP_H
#define KIT_LOOP_H

#include <stdbool.h>
#include <stdint.h>

#include "ui/kit/key.h"
#include "ui/kit/surface.h"

enum { LOOP_NEVER = -1 };

struct loop_ops {
    void (*key)(void *context, const struct key *key);
    /* Before each frame: what has become due. */
    void (*tick)(void *context);
    void (*paint)(void *context, struct surface *surface);
    /* True asks for one more frame at once: something is to be told. */
    bool (*after_paint)(void *context);
    /* Milliseconds until the screen changes by itself (a running timer), LOOP_NEVER if it does not. */
    int (*wait_ms)(void *context);
    /* Something happened on the watched descriptor. May be NULL. */
    void (*watched)(void *context);
    /* Ends the loop when true; looked at after each key and signal. */
    bool (*done)(void *context);
    /* The terminal is gone or the process was asked to end: `done` must soon be true. */
    void (*leave)(void *context);
};

/* Runs until done; watch_fd is polled for input, -1 for none. Returns 0, or the signal that ended it (SIGHUP, SIGTERM). */
int loop_run(const struct loop_ops *ops, void *context, int watch_fd);

#endif
