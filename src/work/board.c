/* board.c - all timers of the bench in one list, so that every screen can show and ring them. */
#include "work/board.h"

#include <string.h>

#include "base/day.h"
#include "base/text.h"
#include "work/run.h"

enum { CLOCK_BYTES = 32, NAME_BYTES = 24 };

static bool take_line(void *context, const struct batch_line *line)
{
    struct board *board = context;

    board->line[board->batches++] = *line;
    return board->batches < BOARD_BATCHES;
}

static int64_t rung_before(const struct board *board, int64_t batch, int64_t event)
{
    for (int i = 0; i < board->timers; i++)
        if (board->timer[i].batch == batch && board->timer[i].timer.event == event)
            return board->timer[i].rung_s;
    return 0;
}

static void take_timers(struct board *board, const struct board *before, const struct batch *batch)
{
    for (int i = 0; i < batch->timers && board->timers < BOARD_TIMERS; i++) {
        struct board_timer *timer = &board->timer[board->timers++];

        *timer = (struct board_timer){.batch = batch->head.id, .timer = batch->timer[i]};
        timer->rung_s = rung_before(before, timer->batch, timer->timer.event);
        text_copy(timer->batch_name, sizeof timer->batch_name, batch->head.name);
    }
}

enum lw_status board_read(struct board *board, struct workshop *workshop, const struct lw_now *now,
                          struct lw_error *error)
{
    struct board before = *board;
    enum lw_status status;

    (void)now;
    memset(board, 0, sizeof *board);
    status = batches_each(workshop_store(workshop), BATCHES_RUNNING, take_line, board, error);
    for (int i = 0; i < board->batches && status == LW_OK; i++) {
        struct run *run;

        status = run_open(workshop, board->line[i].id, &run, error);
        if (status != LW_OK)
            break;
        take_timers(board, &before, run_batch(run));
        run_free(run);
    }
    return status;
}

/* The moment at which it is due next, or was due last if it does not repeat. */
static int64_t due_s(const struct batch_timer *timer, int64_t now_s)
{
    int64_t first = timer->start_s + timer->length_s;

    if (timer->repeat_s <= 0 || now_s <= first)
        return first;
    return first + (now_s - first + timer->repeat_s - 1) / timer->repeat_s * timer->repeat_s;
}

int64_t board_left_s(const struct batch_timer *timer, int64_t now_s)
{
    return due_s(timer, now_s) - now_s;
}

static void write_clock(int64_t left_s, char out[CLOCK_BYTES])
{
    int64_t s = left_s < 0 ? -left_s : left_s;

    out[0] = '\0';
    if (left_s < 0)
        text_add(out, CLOCK_BYTES, "+");
    if (s >= 3600)
        text_add(out, CLOCK_BYTES, "%lld:%02lld:%02lld", (long long)(s / 3600), (long long)(s / 60 % 60),
                 (long long)(s % 60));
    else
        text_add(out, CLOCK_BYTES, "%02lld:%02lld", (long long)(s / 60), (long long)(s % 60));
}

/* Rinsing comes first, whatever else is due: a day before it, so to say. */
static int64_t order_s(const struct board_timer *timer, int64_t now_s)
{
    int64_t left = board_left_s(&timer->timer, now_s);

    return strcmp(timer->timer.name, RUN_RINSE) == 0 ? left - 30 * DAY_S : left;
}

/* The timer that comes next after `after` by that order, then by place; -1: no more. */
static int next_timer(const struct board *board, int64_t now_s, int64_t after_left, int after)
{
    int best = -1;
    int64_t best_left = 0;

    for (int i = 0; i < board->timers; i++) {
        int64_t left = order_s(&board->timer[i], now_s);
        bool behind = left > after_left || (left == after_left && i > after);

        if (behind && (best < 0 || left < best_left)) {
            best = i;
            best_left = left;
        }
    }
    return best;
}

void board_status(const struct board *board, int64_t now_s, int columns, char *out, size_t size)
{
    int used = 0, at = -1;
    int64_t left = INT64_MIN;

    out[0] = '\0';
    while ((at = next_timer(board, now_s, left, at)) >= 0) {
        const struct board_timer *timer = &board->timer[at];
        char clock[CLOCK_BYTES], name[NAME_BYTES], piece[CLOCK_BYTES + 2 * NAME_BYTES + 8] = "";

        left = order_s(timer, now_s);
        write_clock(board_left_s(&timer->timer, now_s), clock);
        if (board->batches > 1) {
            text_copy(name, sizeof name, timer->batch_name);
            text_add(piece, sizeof piece, "%s: ", name);
        }
        text_add(piece, sizeof piece, "%s %s", timer->timer.name, clock);
        if (used > 0 && used + 3 + (int)strlen(piece) > columns)
            break;
        text_add(out, size, "%s%s", used > 0 ? "   " : "", piece);
        used = (int)strlen(out);
    }
}

int board_status_ms(const struct board *board, const struct lw_now *now)
{
    return board->timers == 0 ? -1 : (int)(1000 - now->steady_ms % 1000);
}

bool board_due(struct board *board, int64_t now_s, char *sentence, size_t size)
{
    for (int i = 0; i < board->timers; i++) {
        struct board_timer *timer = &board->timer[i];
        int64_t first = timer->timer.start_s + timer->timer.length_s, last = first;

        if (now_s < first)
            continue;
        if (timer->timer.repeat_s > 0)
            last += (now_s - first) / timer->timer.repeat_s * timer->timer.repeat_s;
        if (timer->rung_s >= last)
            continue;
        timer->rung_s = last;
        sentence[0] = '\0';
        text_add(sentence, size, "%s: %s", timer->batch_name, timer->timer.name);
        return true;
    }
    return false;
}
