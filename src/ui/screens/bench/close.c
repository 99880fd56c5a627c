/* close.c - the end of a batch: five questions with a key each, or setting it aside. */
#include <stdio.h>

#include "ui/screens/bench/state.h"

static void ask_next(struct bench_screen *screen);

static void finish(struct bench_screen *screen)
{
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};
    enum lw_status status = run_finish(screen->run, &now, &error);
    int64_t next = 0;

    if (status == LW_OK)
        status = run_save(screen->run, &error);
    if (!bench_done(screen, status, &error))
        return;
    top_read_board(&screen->top);
    if (screen->top.running->board.batches > 0)
        next = screen->top.running->board.line[0].id;
    bench_turn_to(screen, next);
    desk_say(screen->top.desk, STYLE_GOOD, "Finished; its record is kept.");
}

static void take_answer(void *context, int index)
{
    struct bench_screen *screen = context;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    if (index < 0) {
        desk_say(screen->top.desk, STYLE_PLAIN, "The batch is not finished yet; the questions can wait.");
        return;
    }
    if (!bench_done(screen, run_answer(screen->run, &now, run_answered(screen->run), index + 1, &error), &error))
        return;
    ask_next(screen);
}

static void ask_next(struct bench_screen *screen)
{
    int answered = run_answered(screen->run);
    const struct question *question = &run_questions()[answered < QUESTIONS ? answered : 0];
    struct numbered lines = {0};
    char title[40];

    if (answered >= QUESTIONS) {
        finish(screen);
        return;
    }
    for (int i = 0; question->answers[i]; i++)
        numbered_add(&lines, "%s", question->answers[i]);
    snprintf(title, sizeof title, "Question %d of %d", answered + 1, QUESTIONS);
    numbered_open(screen->top.desk, title, question->text, &lines, take_answer, screen);
}

void bench_close(struct bench_screen *screen)
{
    ask_next(screen);
}

static void end_taken(void *context, int index)
{
    if (index == 0)
        bench_close(context);
}

void bench_finish(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    struct numbered lines = {0};

    (void)key;
    numbered_add(&lines, "end it here, with the five questions");
    numbered_add(&lines, "go on");
    numbered_open(screen->top.desk, "End the batch", "Steps are left that were not done.", &lines, end_taken, screen);
}

static const char *const reasons[] = {"lye-heavy", "set before it could be used", "spilled or soiled",
                                      "not what was wanted"};
enum { REASONS = sizeof reasons / sizeof *reasons };

static void aside_taken(void *context, int index)
{
    struct bench_screen *screen = context;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    if (index < 0 || index >= REASONS)
        return;
    if (bench_done(screen, run_set_aside(screen->run, &now, reasons[index], &error), &error))
        desk_say(screen->top.desk, STYLE_CAUTION, "Set aside: label it, and use none of it.");
}

void bench_aside(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    struct numbered lines = {0};

    (void)key;
    for (int i = 0; i < REASONS; i++)
        numbered_add(&lines, "%s", reasons[i]);
    numbered_add(&lines, "do not set it aside");
    numbered_open(screen->top.desk, "Set aside, not to be used", "Why?", &lines, aside_taken, screen);
}
