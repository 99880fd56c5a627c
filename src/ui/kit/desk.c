/* desk.c - the stack of views and the frame: first line where you are, last line what the keys do. */
#include "ui/kit/desk.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "base/utf8.h"
#include "ui/kit/help.h"
#include "ui/kit/loop.h"
#include "ui/kit/repeat.h"
#include "ui/kit/term.h"

enum { VIEWS = 12, LINE_BYTES = 256, MESSAGE_BYTES = 512, MESSAGE_ROWS = 4 };

struct view {
    const struct view_ops *ops;
    void *state;
};

struct desk {
    struct desk_options options;
    struct view view[VIEWS];
    int views;
    bool left;
    bool small;   /* the window had no room for the views when last painted */
    bool leaving; /* it is small, and its line asks whether to leave */
    bool typing;  /* the terminal's cursor was in a field: there ? is a letter, and F1 alone is help */
    struct repeat repeat;
    bool unseen; /* what was said last is not painted yet */
    uint16_t message_style;
    char message[MESSAGE_BYTES];
};

static const struct view *top_view(const struct desk *desk)
{
    return &desk->view[desk->views - 1];
}

struct desk *desk_new(const struct desk_options *options)
{
    struct desk *desk = calloc(1, sizeof *desk);

    if (desk)
        desk->options = *options;
    return desk;
}

static void close_view(const struct view *view)
{
    if (view->ops->closed)
        view->ops->closed(view->state);
}

void desk_free(struct desk *desk)
{
    if (!desk)
        return;
    while (desk->views > 0)
        close_view(&desk->view[--desk->views]);
    free(desk);
}

bool desk_push(struct desk *desk, const struct view_ops *ops, void *state)
{
    struct view view = {ops, state};

    if (desk->views == VIEWS) {
        close_view(&view);
        return false;
    }
    desk->view[desk->views++] = view;
    return true;
}

void desk_pop(struct desk *desk)
{
    if (desk->views > 0)
        close_view(&desk->view[--desk->views]);
    if (desk->views == 0)
        desk->left = true;
    else if (top_view(desk)->ops->shown)
        top_view(desk)->ops->shown(top_view(desk)->state);
}

void desk_switch(struct desk *desk, const struct view_ops *ops, void *state)
{
    while (desk->views > 1)
        close_view(&desk->view[--desk->views]);
    if (ops)
        desk_push(desk, ops, state);
    else if (top_view(desk)->ops->shown)
        top_view(desk)->ops->shown(top_view(desk)->state);
}

void desk_leave(struct desk *desk)
{
    desk->left = true;
}

void desk_say(struct desk *desk, uint16_t style, const char *format, ...)
{
    va_list list;

    desk->message_style = style;
    desk->unseen = true;
    va_start(list, format);
    vsnprintf(desk->message, sizeof desk->message, format, list);
    va_end(list);
}

static const struct action *actions_of(const struct view *view, size_t *count)
{
    *count = 0;
    return view->ops->actions ? view->ops->actions(view->state, count) : NULL;
}

void desk_help(struct desk *desk)
{
    const struct view *view = top_view(desk);
    size_t count;
    const struct action *actions = actions_of(view, &count);

    help_open(desk, view->ops->title, actions, count);
}

/* One of the names in `keys`, parted by blanks, is this key's. */
static bool is_one_of(const struct key *key, const char *keys)
{
    char name[16];

    while (*keys) {
        size_t length = strcspn(keys, " ");

        if (length < sizeof name) {
            memcpy(name, keys, length);
            name[length] = '\0';
            if (key_named(key, name))
                return true;
        }
        keys += length;
        keys += strspn(keys, " ");
    }
    return false;
}

static void run_action(struct desk *desk, const struct view *view, const struct action *action, const struct key *key)
{
    const char *reason = action->why_not ? action->why_not(view->state) : NULL;

    if (reason)
        desk_say(desk, STYLE_PLAIN, "%s", reason);
    else
        action->run(view->state, key);
}

/* Nobody sees what a key would do to a view, so none gets one. Leaving asks: a field may be open there. */
static void take_key_unseen(struct desk *desk, const struct key *key)
{
    if (desk->leaving && key_is(key, 'y'))
        desk_leave(desk);
    desk->leaving = key_is(key, 'q');
}

static void take_key(struct desk *desk, const struct key *key)
{
    struct view view;
    size_t count;
    const struct action *actions;

    if (desk->views == 0)
        return;
    if (desk->small) {
        take_key_unseen(desk, key);
        return;
    }
    view = *top_view(desk);
    desk->message[0] = '\0';
    if (desk->typing && key_named(key, "F1")) {
        desk_help(desk);
        return;
    }
    if (view.ops->key && view.ops->key(view.state, key))
        return;
    actions = actions_of(&view, &count);
    for (size_t i = 0; i < count; i++)
        if (actions[i].run && is_one_of(key, actions[i].keys)) {
            run_action(desk, &view, &actions[i], key);
            return;
        }
    if (key_is(key, '?') || key_named(key, "F1"))
        desk_help(desk);
    else if (key->code == KEY_PASTE)
        desk_say(desk, STYLE_PLAIN, "A paste goes into a field; open one first. Nothing was changed.");
    else if (key->code != KEY_CLICK && key->code != KEY_WHEEL_UP && key->code != KEY_WHEEL_DOWN)
        desk_say(desk, STYLE_PLAIN, "That key does nothing here. ? lists the keys that do.");
}

static int64_t steady_ms(const struct desk *desk)
{
    return desk->options.steady_ms ? desk->options.steady_ms(desk->options.context) : 0;
}

/* A key that looked like a held one and was not. */
static void take_honest_key(struct desk *desk, const struct key *next)
{
    struct key waited;

    for (int n = repeat_honest(&desk->repeat, next, steady_ms(desk), &waited); n > 0; n--)
        take_key(desk, &waited);
}

/* After what the key itself has brought to be said, which may be why it was refused. */
static void say_held(struct desk *desk)
{
    text_add(desk->message, sizeof desk->message, "%sA key held down counts once; let it go to press it again.",
             desk->message[0] ? " " : "");
    desk->unseen = true;
}

static bool counts_once(const struct desk *desk, const struct key *key)
{
    const struct view *view;

    if (desk->views == 0 || !desk->options.steady_ms)
        return false;
    view = top_view(desk);
    return view->ops->once && view->ops->once(view->state, key);
}

static void on_key(void *context, const struct key *key)
{
    struct desk *desk = context;

    enum repeat_verdict verdict;

    take_honest_key(desk, key);
    verdict = repeat_key(&desk->repeat, key, steady_ms(desk), counts_once(desk, key));
    if (verdict == REPEAT_TAKE)
        take_key(desk, key);
    else if (verdict == REPEAT_HELD)
        say_held(desk);
}

static void on_tick(void *context)
{
    struct desk *desk = context;

    take_honest_key(desk, NULL);
    if (desk->options.tick)
        desk->options.tick(desk->options.context);
}

static const struct view *where_view(const struct desk *desk)
{
    int i = desk->views - 1;

    while (i > 0 && !desk->view[i].ops->where)
        i--;
    return &desk->view[i];
}

static void paint_first_line(struct desk *desk, const struct canvas *whole)
{
    char where[LINE_BYTES] = "", status[LINE_BYTES] = "";
    const struct view *view = where_view(desk);
    int right;

    if (view->ops->where)
        view->ops->where(view->state, where, sizeof where);
    if (desk->options.status)
        desk->options.status(desk->options.context, status, sizeof status);
    right = (int)utf8_columns(status);
    canvas_span(whole, 0, 1, whole->cols - 2 - (right ? right + 1 : 0), STYLE_TITLE, where);
    if (right)
        canvas_span_right(whole, 0, whole->cols - 1 - right, right, STYLE_STRONG, status);
}

/* "Enter open  / filter  ? help": as many as fit, help always. */
static void paint_last_line(struct desk *desk, const struct canvas *whole)
{
    size_t count;
    const struct view *view = top_view(desk);
    const struct action *actions = actions_of(view, &count);
    const char *help = desk->typing ? "F1" : "?";
    int row = whole->rows - 1, col = 1, room = whole->cols - 1 - (int)(strlen(help) + sizeof " help");

    for (size_t i = 0; i < count; i++) {
        char key[32];
        size_t length = strcspn(actions[i].keys, " ");

        if (!actions[i].label || length >= sizeof key)
            continue;
        memcpy(key, actions[i].keys, length);
        key[length] = '\0';
        if (col + (int)(utf8_columns(key) + 1 + utf8_columns(actions[i].label)) > room)
            continue;
        col = canvas_text(whole, row, col, STYLE_STRONG, key);
        col = canvas_text(whole, row, col + 1, STYLE_PLAIN, actions[i].label) + 2;
    }
    col = canvas_text(whole, row, col, STYLE_STRONG, help);
    canvas_text(whole, row, col + 1, STYLE_PLAIN, "help");
}

/* The line above the last; a longer sentence takes lines from the view, so that it can be read to its end. */
static void paint_message(const struct desk *desk, const struct canvas *whole)
{
    struct canvas rows = canvas_part(whole, whole->rows - 1 - MESSAGE_ROWS, 1, MESSAGE_ROWS, whole->cols - 2);
    int used = canvas_wrapped(&rows, desk->message);

    for (int i = MESSAGE_ROWS - used; i < MESSAGE_ROWS; i++)
        canvas_fill(whole, whole->rows - 1 - MESSAGE_ROWS + i, 0, whole->cols, STYLE_PLAIN, " ");
    canvas_wrap(&rows, MESSAGE_ROWS - used, used, desk->message_style, desk->message);
}

static void paint_too_small(const struct desk *desk, const struct canvas *whole)
{
    char line[LINE_BYTES];

    if (desk->leaving)
        text_copy(line, sizeof line, "Leave? What is typed in a field is lost. y leaves, another key stays.");
    else
        snprintf(line, sizeof line, "Window too small: %d x %d is needed. q leaves.", desk->options.least_cols,
                 desk->options.least_rows);
    canvas_wrap(whole, 0, whole->rows, STYLE_PLAIN, line);
}

static void on_paint(void *context, struct surface *surface)
{
    struct desk *desk = context;
    struct canvas whole = canvas_whole(surface), body = canvas_part(&whole, 1, 0, whole.rows - 3, whole.cols);
    int first = desk->views - 1;

    desk->unseen = false;
    if (desk->views == 0)
        return;
    desk->small = whole.rows < desk->options.least_rows || whole.cols < desk->options.least_cols;
    desk->leaving = desk->small && desk->leaving;
    if (desk->small) {
        paint_too_small(desk, &whole);
        return;
    }
    while (first > 0 && desk->view[first].ops->overlay)
        first--;
    for (int i = first; i < desk->views; i++) {
        surface->cursor_row = -1; /* only the top view's cursor is shown */
        desk->view[i].ops->paint(desk->view[i].state, &body);
    }
    desk->typing = surface->cursor_row >= 0;
    paint_first_line(desk, &whole);
    paint_message(desk, &whole);
    paint_last_line(desk, &whole);
}

static int sooner(int a, int b)
{
    return a == LOOP_NEVER || (b != LOOP_NEVER && b < a) ? b : a;
}

static int on_wait(void *context)
{
    struct desk *desk = context;
    int ms = desk->options.status_ms ? desk->options.status_ms(desk->options.context) : LOOP_NEVER;

    ms = sooner(ms, repeat_left_ms(&desk->repeat, steady_ms(desk)));
    if (desk->views > 0 && top_view(desk)->ops->wait_ms)
        ms = sooner(ms, top_view(desk)->ops->wait_ms(top_view(desk)->state));
    return ms;
}

/* What could not be saved has to be seen: a message that came up asks for one more frame. */
static bool on_after_paint(void *context)
{
    struct desk *desk = context;

    for (int i = desk->views - 1; i >= 0; i--)
        if (desk->view[i].ops->save)
            desk->view[i].ops->save(desk->view[i].state);
    if (desk->options.idle && on_wait(desk) != 0) /* a view that goes on at once has no leisure */
        desk->options.idle(desk->options.context);
    return desk->unseen;
}

static void on_watched(void *context)
{
    struct desk *desk = context;

    if (!desk->options.watched || !desk->options.watched(desk->options.context))
        return;
    for (int i = 0; i < desk->views; i++)
        if (desk->view[i].ops->news)
            desk->view[i].ops->news(desk->view[i].state);
}

static bool on_done(void *context)
{
    return ((struct desk *)context)->left;
}

static void on_leave(void *context)
{
    desk_leave(context);
}

int desk_run(struct desk *desk)
{
    static const struct loop_ops ops = {.key = on_key,
                                        .tick = on_tick,
                                        .paint = on_paint,
                                        .after_paint = on_after_paint,
                                        .wait_ms = on_wait,
                                        .watched = on_watched,
                                        .done = on_done,
                                        .leave = on_leave};
    int result = loop_run(&ops, desk, desk->options.watch_fd);

    on_after_paint(desk);
    return result;
}
