/* loop.c - the program's only loop. */
#define _DEFAULT_SOURCE
#define _GNU_SOURCE /* ppoll */
#include "ui/kit/loop.h"

#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <stddef.h>
#include <time.h>
#include <unistd.h>

#include "ui/kit/term.h"

/* Written by handlers, read by the loop while they are blocked. */
static volatile sig_atomic_t resized, stop_asked, ended_by;

static const int watched_signals[] = {SIGWINCH, SIGTSTP, SIGINT, SIGTERM, SIGHUP};
enum { WATCHED = sizeof watched_signals / sizeof *watched_signals };

static void on_signal(int number)
{
    if (number == SIGWINCH)
        resized = 1;
    else if (number == SIGTSTP)
        stop_asked = 1;
    else
        ended_by = number;
}

static void take_signals(struct sigaction before[WATCHED], sigset_t *mask_before)
{
    struct sigaction action = {.sa_handler = on_signal};
    sigset_t blocked;

    resized = stop_asked = ended_by = 0;
    sigemptyset(&blocked);
    sigemptyset(&action.sa_mask);
    for (size_t i = 0; i < WATCHED; i++)
        sigaddset(&blocked, watched_signals[i]);
    sigprocmask(SIG_BLOCK, &blocked, mask_before);
    for (size_t i = 0; i < WATCHED; i++)
        sigaction(watched_signals[i], &action, &before[i]);
}

static void give_signals_back(const struct sigaction before[WATCHED], const sigset_t *mask_before)
{
    for (size_t i = 0; i < WATCHED; i++)
        sigaction(watched_signals[i], &before[i], NULL);
    sigprocmask(SIG_SETMASK, mask_before, NULL);
}

static void take_flags(const struct loop_ops *ops, void *context)
{
    if (resized) {
        resized = 0;
        term_resized();
    }
    if (stop_asked) {
        stop_asked = 0;
        term_suspend();
    }
    if (ended_by)
        ops->leave(context);
}

static void take_keys(const struct loop_ops *ops, void *context)
{
    struct key key;

    while (!ops->done(context) && term_key(&key))
        ops->key(context, &key);
}

static bool paint(const struct loop_ops *ops, void *context, struct surface *surface)
{
    struct term_facts facts = term_facts();

    if ((surface->rows != facts.rows || surface->cols != facts.cols || !surface->cell) &&
        !surface_resize(surface, facts.rows, facts.cols))
        return false;
    surface_clear(surface);
    ops->paint(context, surface);
    term_show(surface);
    return true;
}

/* Sleeps until there is a key, a signal, news on watch_fd, or the time is up. */
static void wait_for_news(const struct loop_ops *ops, void *context, int watch_fd, const sigset_t *open_mask)
{
    struct pollfd polled[2] = {{.fd = STDIN_FILENO, .events = POLLIN}, {.fd = watch_fd, .events = POLLIN}};
    int ms = ops->wait_ms(context);
    struct timespec limit = {.tv_sec = ms / 1000, .tv_nsec = (long)(ms % 1000) * 1000000};
    int ready = ppoll(polled, watch_fd >= 0 ? 2 : 1, ms == LOOP_NEVER ? NULL : &limit, open_mask);

    if (ready <= 0)
        return;
    if (polled[0].revents & (POLLHUP | POLLERR | POLLNVAL))
        ended_by = SIGHUP;
    if (watch_fd >= 0 && (polled[1].revents & POLLIN) && ops->watched)
        ops->watched(context);
}

int loop_run(const struct loop_ops *ops, void *context, int watch_fd)
{
    struct sigaction before[WATCHED];
    struct surface surface = {0};
    sigset_t mask_before;

    take_signals(before, &mask_before);
    /* The first frame comes before any key is read: to read one curses brings its own, empty screen up to date first. */
    while (!ops->done(context)) {
        ops->tick(context);
        paint(ops, context, &surface);
        if (ops->after_paint(context))
            paint(ops, context, &surface);
        wait_for_news(ops, context, watch_fd, &mask_before);
        take_flags(ops, context);
        take_keys(ops, context);
    }
    surface_done(&surface);
    give_signals_back(before, &mask_before);
    return ended_by == SIGINT ? 0 : (int)ended_by;
}
