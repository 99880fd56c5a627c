/* ask_text.c - an overlay for a text of several lines. */
#include <stdlib.h>
#include <string.h>

#include "ui/kit/area.h"
#include "ui/kit/ask.h"
#include "ui/kit/box.h"

enum { ROWS = 14, WIDTH = 72 };

struct text_ask {
    struct desk *desk;
    const char *title;
    struct area area;
    bool changed;
    void (*taken)(void *context, const char *text);
    void *context;
};

static void paint(void *state, const struct canvas *body)
{
    struct text_ask *ask = state;
    struct canvas inside = box_paint(body, ROWS, WIDTH, ask->title);

    area_paint(&ask->area, &inside);
}

/* The overlay is gone before the text is told, so that the answer may open another. */
static void take(struct text_ask *ask)
{
    void (*taken)(void *context, const char *text) = ask->taken;
    void *context = ask->context;
    char text[AREA_BYTES];

    memcpy(text, ask->area.text, sizeof text);
    desk_pop(ask->desk);
    taken(context, text);
}

enum { TAKE, DROP };

static void leave_or_not(void *context, int index)
{
    struct text_ask *ask = context;

    if (index == TAKE)
        take(ask);
    else if (index == DROP)
        desk_pop(ask->desk);
}

static void leave(struct text_ask *ask)
{
    static const struct choice choices[] = {
        [TAKE] = {"t", "take it as typed"}, [DROP] = {"d", "drop it: leave the text as it was"}};

    if (ask->changed)
        ask_choice(ask->desk, ask->title, "The text was changed. Esc goes on typing.", choices,
                   sizeof choices / sizeof *choices, leave_or_not, ask);
    else
        desk_pop(ask->desk);
}

static bool take_key(void *state, const struct key *key)
{
    struct text_ask *ask = state;
    enum field_result result;

    if (key->code == KEY_ESCAPE) {
        leave(ask);
        return true;
    }
    if (key->code == KEY_TAB) {
        take(ask);
        return true;
    }
    result = area_key(&ask->area, key);
    ask->changed = ask->changed || result == FIELD_CHANGED || (result == FIELD_FULL && key->code == KEY_PASTE);
    if (result == FIELD_FULL)
        desk_say(ask->desk, STYLE_PLAIN, "No more fits: at most %zu bytes.", ask->area.limit);
    return true;
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Tab", "done", "Takes the text.", NULL, NULL},
        {"Enter", "new line", "Begins a new line.", NULL, NULL},
        {"Esc", "leave as it is", "Closes the text; asks first if it was changed.", NULL, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

void ask_text(struct desk *desk, const char *title, const char *text, size_t limit,
              void (*taken)(void *context, const char *text), void *context)
{
    static const struct view_ops ops = {
        .title = "A text", .paint = paint, .key = take_key, .actions = actions_of, .closed = free, .overlay = true};
    struct text_ask *ask = calloc(1, sizeof *ask);

    if (!ask) {
        desk_say(desk, STYLE_STOP, "There is no memory left for the text.");
        return;
    }
    ask->desk = desk;
    ask->title = title;
    ask->taken = taken;
    ask->context = context;
    area_start(&ask->area, text, limit);
    desk_push(desk, &ops, ask);
}
