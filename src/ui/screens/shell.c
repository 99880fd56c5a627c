/* shell.c - the workbench on the desk. */
#include "ui/screens/shell.h"

#include "base/error.h"
#include "base/text.h"
#include "ui/kit/desk.h"
#include "ui/kit/loop.h"
#include "ui/kit/term.h"
#include "ui/screens/top.h"

enum { LEAST_ROWS = 24, LEAST_COLS = 80, STATUS_COLS = 44, RING_BYTES = 256 };

static bool look_for_news(void *context)
{
    struct top *top = context;

    if (!store_changed_elsewhere(workshop_store(top->workshop)))
        return false;
    top_read_board(top);
    return true;
}

static void status(void *context, char *out, size_t size)
{
    struct top *top = context;

    board_status(&top->running->board, workshop_now(top->workshop).utc_s, STATUS_COLS, out, size);
}

static int status_ms(void *context)
{
    struct top *top = context;
    struct lw_now now = workshop_now(top->workshop);

    return board_status_ms(&top->running->board, &now);
}

/* Timers that have become due, whatever screen is open. */
static void ring(void *context)
{
    struct top *top = context;
    char sentence[RING_BYTES], all[2 * RING_BYTES] = "";

    while (board_due(&top->running->board, workshop_now(top->workshop).utc_s, sentence, sizeof sentence))
        text_add(all, sizeof all, "%s%s", all[0] ? " " : "", sentence);
    if (!all[0])
        return;
    desk_say(top->desk, STYLE_CAUTION, "%s", all);
    term_bell();
}

static int64_t steady_ms(void *context)
{
    return workshop_now(((struct top *)context)->workshop).steady_ms;
}

static void idle(void *context)
{
    struct top *top = context;
    struct lw_error error = {""};

    if (store_idle(workshop_store(top->workshop), &error) != LW_OK)
        desk_say(top->desk, STYLE_STOP, "%s", error.text);
}

enum lw_status shell_run(struct workshop *workshop, const struct shell_options *options, int *ended_by,
                         struct lw_error *error)
{
    struct running running = {.last = 0};
    struct top top = {.workshop = workshop, .demo = options->demo, .running = &running};
    struct desk_options desk_options = {.least_rows = LEAST_ROWS,
                                        .least_cols = LEAST_COLS,
                                        .status = status,
                                        .status_ms = status_ms,
                                        .tick = ring,
                                        .steady_ms = steady_ms,
                                        .idle = idle,
                                        .watched = look_for_news,
                                        .watch_fd = store_watch_fd(workshop_store(workshop)),
                                        .context = &top};
    enum lw_status result;

    top.desk = desk_new(&desk_options);
    if (!top.desk)
        return lw_fail(error, LW_FULL, "There is no memory left to open the workbench.");
    result = term_start(&(struct term_options){.colour = options->colour}, error);
    if (result == LW_OK) {
        top_read_board(&top);
        today_open(&top);
        *ended_by = desk_run(top.desk);
        term_stop();
    }
    desk_free(top.desk);
    return result;
}
