/* timers.c - a timer for the step, or of a length of one's own; and stopping those that run. */
#include <stdio.h>

#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/screens/bench/state.h"
#include "work/quantity.h"

enum { MINUTE_S = 60, LONGEST_MIN = 7 * 24 * 60 };

static void started(struct bench_screen *screen, const char *name, int64_t length_s, int64_t repeat_s)
{
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    if (bench_done(screen, run_timer(screen->run, &now, name, length_s, repeat_s, &error), &error))
        desk_say(screen->top.desk, STYLE_PLAIN, "Timer started: %s, %d min %02d s.", name, (int)(length_s / MINUTE_S),
                 (int)(length_s % MINUTE_S));
}

static bool good_minutes(void *context, const char *text, char *note, size_t size)
{
    struct lw_error error = {""};
    double minutes = 0;
    bool good = quantity_number(text, &minutes, &error) == LW_OK && minutes > 0 && minutes <= LONGEST_MIN;

    (void)context;
    text_copy(note, size, good ? "Enter starts it." : "Minutes, more than 0, up to a week.");
    return good;
}

static void minutes_typed(void *context, const char *text)
{
    struct lw_error error = {""};
    double minutes = 0;

    if (quantity_number(text, &minutes, &error) == LW_OK)
        started(context, "timer", (int64_t)(minutes * MINUTE_S), 0);
}

static void stop(struct bench_screen *screen, int64_t event)
{
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    if (bench_done(screen, run_timer_off(screen->run, &now, event, &error), &error))
        desk_say(screen->top.desk, STYLE_PLAIN, "Timer stopped.");
}

/* The lines stand for a timer to stop by its event, 0: the one offered, -1: a length of one's own. */
static void taken(void *context, int index)
{
    struct bench_screen *screen = context;
    char name[LW_NAME_BYTES];
    int64_t length_s, repeat_s;

    if (index < 0)
        return;
    if (screen->id[index] > 0)
        stop(screen, screen->id[index]);
    else if (screen->id[index] < 0)
        ask_line(screen->top.desk, "A timer", "How many minutes?", "", FIELD_BYTES - 1, good_minutes, minutes_typed,
                 screen);
    else if (run_timer_offered(screen->run, screen->at, name, &length_s, &repeat_s))
        started(screen, name, length_s, repeat_s);
}

void bench_timers(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    const struct batch *batch = run_batch(screen->run);
    struct numbered lines = {0};
    char name[LW_NAME_BYTES];
    int64_t length_s, repeat_s;

    (void)key;
    if (run_timer_offered(screen->run, screen->at, name, &length_s, &repeat_s)) {
        screen->id[lines.count] = 0;
        numbered_add(&lines, "start: %s, %d min %02d s%s", name, (int)(length_s / MINUTE_S), (int)(length_s % MINUTE_S),
                     repeat_s > 0 ? ", again and again" : "");
    }
    for (int i = 0; i < batch->timers; i++) {
        screen->id[lines.count] = batch->timer[i].event;
        numbered_add(&lines, "stop: %s", batch->timer[i].name);
    }
    screen->id[lines.count] = -1;
    numbered_add(&lines, "another length");
    numbered_open(screen->top.desk, "Timers", "", &lines, taken, screen);
}
