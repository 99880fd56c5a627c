/* screen.c - the bench: which batch is on it, the step at hand, and what a key does. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "ui/kit/loop.h"
#include "ui/screens/bench/deeds.h"

enum { LOOK_AGAIN_MS = 30000 };

struct lw_now bench_now(const struct bench_screen *screen)
{
    return workshop_now(screen->top.workshop);
}

/* While the rejects are waited for, the good ones that were typed stand large, and no more those of before. */
static void show_kept_count(struct bench_screen *screen)
{
    struct ask *ask = &screen->ask;

    if (screen->at >= 0 && ask->kind == ASK_TWO_COUNTS && ask->large[0] && screen->kept > 0)
        snprintf(ask->large, sizeof ask->large, "%d", (int)screen->number[0]);
}

void bench_look(struct bench_screen *screen)
{
    int before = screen->at;
    struct lw_now now = bench_now(screen);

    screen->at = screen->run ? run_at(screen->run) : -1;
    if (screen->at >= 0)
        run_ask(screen->run, screen->at, &now, &screen->ask);
    screen->notes_due = screen->at >= 0 && screen->ask.safety && run_acknowledge_due(screen->run, &now);
    if (screen->at != before) {
        screen->typing = TYPING_NOTHING;
        screen->kept = 0;
        screen->spent_said = false;
    }
    show_kept_count(screen);
}

bool bench_done(struct bench_screen *screen, enum lw_status status, const struct lw_error *error)
{
    if (status != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error->text);
    bench_look(screen);
    return status == LW_OK;
}

/* Changes when a timer is started or stopped, or the batch ends. */
static int64_t timers_of(const struct run *run)
{
    const struct batch *batch = run_batch(run);
    int64_t sum = batch->finished_s != 0;

    for (int i = 0; i < batch->timers; i++)
        sum = sum * 31 + batch->timer[i].event;
    return sum;
}

static void put_down(struct bench_screen *screen)
{
    run_free(screen->run);
    screen->run = NULL;
    screen->at = -1;
    screen->echo[0] = '\0';
    screen->typing = TYPING_NOTHING;
    screen->kept = 0;
}

static bool save_run(struct bench_screen *screen)
{
    struct lw_error error = {""};

    if (!screen->run || !run_unsaved(screen->run))
        return true;
    if (run_save(screen->run, &error) == LW_OK)
        return true;
    desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
    return false;
}

bool bench_turn_to(struct bench_screen *screen, int64_t batch)
{
    struct lw_error error = {""};
    struct run *run = NULL;

    if (!save_run(screen) || (batch && run_open(screen->top.workshop, batch, &run, &error) != LW_OK)) {
        if (error.text[0])
            desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
        return false;
    }
    put_down(screen);
    screen->run = run;
    screen->top.running->last = batch;
    screen->timers_seen = run ? timers_of(run) : 0;
    bench_look(screen);
    return true;
}

static void where(void *state, char *out, size_t size)
{
    const struct bench_screen *screen = state;

    text_copy(out, size, "Bench");
    if (screen->run)
        text_add(out, size, " > %s   batch %s", run_batch(screen->run)->head.name, run_batch(screen->run)->head.number);
}

static void paint_empty(const struct canvas *body)
{
    struct canvas text = canvas_part(body, 2, 1, body->rows - 2, body->cols - 2);

    canvas_text(&text, 0, 0, STYLE_TITLE, "No batch is on the bench.");
    canvas_wrap(
        &text, 2, 3, STYLE_PLAIN,
        "Open a recipe (2, then Enter) and press b: it asks for the size, the vessels and a number, and lays the "
        "steps out here.");
    canvas_wrap(&text, 6, 2, STYLE_PLAIN, "! shows first aid for lye on somebody, at any time.");
}

static void paint(void *state, const struct canvas *body)
{
    struct bench_screen *screen = state;

    bench_look(screen);
    if (!screen->run)
        paint_empty(body);
    else if (screen->notes_due)
        bench_paint_acknowledge(body);
    else
        bench_paint_ask(screen, body);
}

static bool is_digit(const struct key *key)
{
    return key->code == KEY_CHARACTER && !key->alt && key->point >= '0' && key->point <= '9';
}

static bool take_key(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    char text[2] = {(char)key->point, '\0'};

    if (!screen->run)
        return top_key(&screen->top, key);
    if (screen->typing != TYPING_NOTHING)
        return bench_type_key(screen, key);
    if (!is_digit(key) || screen->notes_due || screen->at < 0)
        return false;
    if (screen->ask.kind == ASK_STAGE)
        bench_stamp(screen, (int)(key->point - '0'));
    else if (bench_takes_number(screen))
        bench_type(screen, TYPING_STEP, text);
    else
        return false;
    return true;
}

/* Digits of a number may be doubled, as in 100. */
static bool once(void *state, const struct key *key)
{
    struct bench_screen *screen = state;

    if (key->code == KEY_CHARACTER)
        return screen->typing == TYPING_NOTHING && !(is_digit(key) && bench_takes_number(screen));
    return key->code == KEY_RETURN || key->code == KEY_ESCAPE || key->code == KEY_FUNCTION ||
           key->code == KEY_PAGE_UP || key->code == KEY_PAGE_DOWN;
}

/* The board knows timers by what is saved. */
static void save(void *state)
{
    struct bench_screen *screen = state;

    if (!screen->run || !run_unsaved(screen->run) || !save_run(screen))
        return;
    if (timers_of(screen->run) != screen->timers_seen) {
        screen->timers_seen = timers_of(screen->run);
        top_read_board(&screen->top);
    }
}

static void news(void *state)
{
    struct bench_screen *screen = state;
    struct lw_error error = {""};

    if (screen->run && run_refresh(screen->run, &error))
        desk_say(screen->top.desk, STYLE_PLAIN, "Another window wrote to this batch; it is shown as it is now.");
    bench_look(screen);
}

/* Forecasts are in minutes, and only of what has been combined. */
static int wait_ms(void *state)
{
    const struct bench_screen *screen = state;

    return screen->run && run_batch(screen->run)->combined_s ? LOOK_AGAIN_MS : LOOP_NEVER;
}

static void closed(void *state)
{
    struct bench_screen *screen = state;

    run_free(screen->run);
    free(screen);
}

/* The batch that was on the screen last, else the one that was started last. */
static int64_t last_used(const struct running *running)
{
    for (int i = 0; i < running->board.batches; i++)
        if (running->board.line[i].id == running->last)
            return running->last;
    return running->board.batches > 0 ? running->board.line[running->board.batches - 1].id : 0;
}

void bench_open(const struct top *top, int64_t batch)
{
    static const struct view_ops ops = {.title = "The bench",
                                        .where = where,
                                        .paint = paint,
                                        .key = take_key,
                                        .once = once,
                                        .wait_ms = wait_ms,
                                        .actions = bench_actions,
                                        .save = save,
                                        .news = news,
                                        .closed = closed};
    struct bench_screen *screen = calloc(1, sizeof *screen);

    if (!screen) {
        desk_say(top->desk, STYLE_STOP, "There is no memory left for the bench.");
        return;
    }
    screen->top = *top;
    screen->at = -1;
    top_read_board(&screen->top);
    bench_turn_to(screen, batch ? batch : last_used(top->running));
    desk_switch(top->desk, &ops, screen);
}
