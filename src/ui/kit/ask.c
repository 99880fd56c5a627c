/* ask.c - questions on top of a view. */
#include "ui/kit/ask.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "ui/kit/box.h"
#include "ui/kit/field.h"
#include "ui/kit/list.h"

enum { QUESTION_BYTES = 512, WIDTH = 68, KEY_WIDTH = 6 };

struct ask {
    struct desk *desk;
    const char *title;
    char question[QUESTION_BYTES];
    void *context;
    const struct choice *choices;
    struct list list;
    void (*chosen)(void *context, int index);
    struct field field;
    bool (*check)(void *context, const char *text, char *note, size_t size);
    void (*taken)(void *context, const char *text);
};

static struct ask *ask_new(struct desk *desk, const char *title, const char *question, void *context)
{
    struct ask *ask = calloc(1, sizeof *ask);

    if (!ask) {
        desk_say(desk, STYLE_STOP, "There is no memory left for the question.");
        return NULL;
    }
    ask->desk = desk;
    ask->title = title;
    ask->context = context;
    text_copy(ask->question, sizeof ask->question, question);
    return ask;
}

static void paint_choice(void *context, int index, bool selected, const struct canvas *line)
{
    const struct ask *ask = context;

    (void)selected;
    canvas_span(line, 0, 0, KEY_WIDTH, STYLE_STRONG, ask->choices[index].key);
    canvas_span(line, 0, KEY_WIDTH, line->cols - KEY_WIDTH, STYLE_PLAIN, ask->choices[index].text);
}

static void paint_choices(void *state, const struct canvas *body)
{
    struct ask *ask = state;
    struct canvas inside = box_paint(body, ask->list.count + 5, WIDTH, ask->title);
    int used = canvas_wrap(&inside, 0, 3, STYLE_PLAIN, ask->question);
    struct canvas rows = canvas_part(&inside, used, 0, inside.rows - used, inside.cols);

    list_paint(&ask->list, &rows, paint_choice, ask);
}

/* An answer once given must not answer what comes after it. */
static bool once_for_choice(void *state, const struct key *key)
{
    (void)state;
    return key->code == KEY_RETURN || key->code == KEY_ESCAPE || key->code == KEY_CHARACTER;
}

static bool once_for_line(void *state, const struct key *key)
{
    (void)state;
    return key->code == KEY_RETURN || key->code == KEY_ESCAPE;
}

/* The overlay is gone before the answer is told, so that the answer may open another. */
static void answer(struct ask *ask, int index)
{
    void (*chosen)(void *context, int answer) = ask->chosen;
    void *context = ask->context;

    desk_pop(ask->desk);
    chosen(context, index);
}

static bool choice_key(void *state, const struct key *key)
{
    struct ask *ask = state;

    if (list_key(&ask->list, key))
        return true;
    if (key->code == KEY_ESCAPE) {
        answer(ask, -1);
        return true;
    }
    if (key->code == KEY_RETURN) {
        answer(ask, ask->list.selected);
        return true;
    }
    for (int i = 0; i < ask->list.count; i++)
        if (key_named(key, ask->choices[i].key)) {
            answer(ask, i);
            return true;
        }
    return false;
}

static const struct action *choice_actions(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Enter", "take it", "Takes the choice that is marked.", NULL, NULL},
        {"Esc", "leave as it is", "Closes the question; nothing changes.", NULL, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

void ask_choice(struct desk *desk, const char *title, const char *question, const struct choice *choices, size_t count,
                void (*taken)(void *context, int index), void *context)
{
    static const struct view_ops ops = {.title = "A question",
                                        .paint = paint_choices,
                                        .key = choice_key,
                                        .once = once_for_choice,
                                        .actions = choice_actions,
                                        .closed = free,
                                        .overlay = true};
    struct ask *ask = ask_new(desk, title, question, context);

    if (!ask)
        return;
    ask->choices = choices;
    ask->list.count = (int)count;
    ask->chosen = taken;
    desk_push(desk, &ops, ask);
}

static void paint_line(void *state, const struct canvas *body)
{
    struct ask *ask = state;
    struct canvas inside = box_paint(body, 10, WIDTH, ask->title);
    int used = canvas_wrap(&inside, 0, 4, STYLE_PLAIN, ask->question);
    struct canvas under = canvas_part(&inside, used + 1, 0, inside.rows - used - 1, inside.cols);
    char note[QUESTION_BYTES] = "";

    if (ask->check)
        ask->check(ask->context, ask->field.text, note, sizeof note);
    canvas_wrap(&under, 0, under.rows, STYLE_PLAIN, note);
    field_paint(&ask->field, &inside, used, 0, inside.cols);
}

static void take_line(struct ask *ask)
{
    char note[QUESTION_BYTES] = "";
    struct ask copy = *ask;

    if (ask->check && !ask->check(ask->context, ask->field.text, note, sizeof note))
        return;
    desk_pop(ask->desk);
    copy.taken(copy.context, copy.field.text);
}

static bool line_key(void *state, const struct key *key)
{
    struct ask *ask = state;

    if (key->code == KEY_ESCAPE) {
        desk_pop(ask->desk);
        return true;
    }
    if (key->code == KEY_RETURN) {
        take_line(ask);
        return true;
    }
    if (field_key(&ask->field, key) == FIELD_FULL)
        desk_say(ask->desk, STYLE_PLAIN, "No more fits: at most %zu bytes.", ask->field.limit);
    return true;
}

static const struct action *line_actions(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Enter", "done", "Takes what is in the field.", NULL, NULL},
        {"Esc", "leave as it is", "Closes the field; nothing changes.", NULL, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

void ask_line(struct desk *desk, const char *title, const char *question, const char *text, size_t limit,
              bool (*check)(void *context, const char *text, char *note, size_t size),
              void (*taken)(void *context, const char *text), void *context)
{
    static const struct view_ops ops = {.title = "A field",
                                        .paint = paint_line,
                                        .key = line_key,
                                        .once = once_for_line,
                                        .actions = line_actions,
                                        .closed = free,
                                        .overlay = true};
    struct ask *ask = ask_new(desk, title, question, context);

    if (!ask)
        return;
    field_start(&ask->field, text, limit);
    ask->check = check;
    ask->taken = taken;
    desk_push(desk, &ops, ask);
}
