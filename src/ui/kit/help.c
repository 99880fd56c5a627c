/* help.c - the help overlay. */
#include "ui/kit/help.h"

#include <stdlib.h>

#include "ui/kit/box.h"
#include "ui/kit/list.h"

enum { KEYS_WIDTH = 10, BOX_WIDTH = 76 };

struct help {
    struct desk *desk;
    const char *title;
    const struct action *actions;
    struct list list;
};

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    const struct help *help = context;
    const struct action *action = &help->actions[index];

    (void)selected;
    canvas_span(line, 0, 0, KEYS_WIDTH, STYLE_STRONG, action->keys);
    canvas_span(line, 0, KEYS_WIDTH + 1, line->cols - KEYS_WIDTH - 1, STYLE_PLAIN, action->help);
}

static void paint(void *state, const struct canvas *body)
{
    struct help *help = state;
    struct canvas inside = box_paint(body, help->list.count + 2, BOX_WIDTH, help->title ? help->title : "Keys");

    list_paint(&help->list, &inside, paint_row, help);
}

/* A narrow window cuts sentences; the one that is marked stands whole in the line below. */
static void say_whole(const struct help *help)
{
    if (help->list.count > 0)
        desk_say(help->desk, STYLE_PLAIN, "%s", help->actions[help->list.selected].help);
}

static bool take_key(void *state, const struct key *key)
{
    struct help *help = state;

    if (list_key(&help->list, key)) {
        say_whole(help);
        return true;
    }
    desk_pop(help->desk);
    return true;
}

static void close_help(void *state, const struct key *key)
{
    (void)key;
    desk_pop(((struct help *)state)->desk);
}

static const struct action *actions_of_help(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Esc", "close", "Closes the help.", close_help, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

void help_open(struct desk *desk, const char *title, const struct action *actions, size_t count)
{
    static const struct view_ops ops = {
        .title = "Help", .paint = paint, .key = take_key, .actions = actions_of_help, .closed = free, .overlay = true};
    struct help *help = calloc(1, sizeof *help);

    if (!help) {
        desk_say(desk, STYLE_STOP, "There is no memory left for the help.");
        return;
    }
    *help = (struct help){.desk = desk, .title = title, .actions = actions, .list = {.count = (int)count}};
    say_whole(help);
    desk_push(desk, &ops, help);
}
