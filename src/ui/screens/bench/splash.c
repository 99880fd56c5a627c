/* splash.c - lye on somebody: first aid over the whole screen, with the time that is still to be rinsed. */
#include <stdio.h>
#include <stdlib.h>

#include "base/safety.h"
#include "base/text.h"
#include "ui/kit/digits.h"
#include "ui/kit/loop.h"
#include "ui/screens/bench/state.h"

enum { SECOND_MS = 1000, NOTES_ROW = 8, TEXT_COL = 34 };

struct splash {
    struct top top;
    int64_t start_s;
};

static void where(void *state, char *out, size_t size)
{
    (void)state;
    text_copy(out, size, "FIRST AID: lye on somebody");
}

static void paint(void *state, const struct canvas *body)
{
    const struct splash *splash = state;
    struct canvas beside = canvas_part(body, 1, TEXT_COL, DIGITS_ROWS, body->cols - TEXT_COL - 1);
    struct canvas notes = canvas_part(body, NOTES_ROW, 1, body->rows - NOTES_ROW, body->cols - 2);
    int64_t left_s = splash->start_s + RINSE_S - workshop_now(splash->top.workshop).utc_s;
    char clock[16];

    left_s = left_s > 0 ? left_s : 0;
    snprintf(clock, sizeof clock, "%02d:%02d", (int)(left_s / 60) % 100, (int)(left_s % 60));
    digits_paint(body, 1, 2, STYLE_STOP, clock);
    canvas_wrap(&beside, 0, 1, STYLE_STOP, left_s > 0 ? "RINSE WITH RUNNING WATER" : "20 MINUTES HAVE PASSED");
    canvas_wrap(&beside, 2, 3, STYLE_STRONG,
                left_s > 0 ? "Go on rinsing for as long as the clock shows, longer if it is still slippery or sore."
                           : "Go on rinsing if it is still slippery or sore, and get medical help.");
    bench_paint_notes(&notes, 0, safety_first_aid());
}

static int wait_ms(void *state)
{
    const struct splash *splash = state;

    return workshop_now(splash->top.workshop).utc_s < splash->start_s + RINSE_S ? SECOND_MS : LOOP_NEVER;
}

static bool once(void *state, const struct key *key)
{
    (void)state;
    return key->code == KEY_RETURN || key->code == KEY_ESCAPE || key->code == KEY_CHARACTER;
}

static void back(void *state, const struct key *key)
{
    (void)key;
    desk_pop(((struct splash *)state)->top.desk);
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Enter Esc", "back to the batch", "Goes back; the timer of the rinse goes on in the first line.", back, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

/* When the rinse that still runs began (run_splash starts no second one); 0: none does. */
static int64_t rinse_start_s(const struct bench_screen *screen, int64_t now_s)
{
    const struct batch *batch = run_batch(screen->run);

    for (int i = 0; i < batch->timers; i++)
        if (batch->timer[i].length_s == RINSE_S && batch->timer[i].start_s + RINSE_S > now_s)
            return batch->timer[i].start_s;
    return 0;
}

/* The help is on the screen whether or not it could be written down. */
static int64_t stamp(struct bench_screen *screen)
{
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};
    int64_t start_s;

    if (!screen->run || !bench_done(screen, run_splash(screen->run, &now, &error), &error))
        return now.utc_s;
    start_s = rinse_start_s(screen, now.utc_s);
    return start_s ? start_s : now.utc_s;
}

void bench_splash(void *state, const struct key *key)
{
    static const struct view_ops ops = {.title = "First aid",
                                        .where = where,
                                        .paint = paint,
                                        .once = once,
                                        .wait_ms = wait_ms,
                                        .actions = actions_of,
                                        .closed = free};
    struct bench_screen *screen = state;
    struct splash *splash = calloc(1, sizeof *splash);

    (void)key;
    if (!splash) {
        desk_say(screen->top.desk, STYLE_STOP, "Rinse with running water for 20 minutes and get help; no vinegar.");
        return;
    }
    *splash = (struct splash){.top = screen->top, .start_s = stamp(screen)};
    desk_push(screen->top.desk, &ops, splash);
}
