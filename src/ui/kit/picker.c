/* picker.c - a filter field over a list, and a pane. */
#include "ui/kit/picker.h"

#include <stdlib.h>
#include <string.h>

#include "ui/kit/box.h"
#include "ui/kit/field.h"
#include "ui/kit/list.h"

enum { NAME_BYTES = 128, WIDE = 100, PANE_BESIDE = 44, PANE_UNDER = 6 };

struct picker {
    struct desk *desk;
    const char *title;
    const struct picker_source *source;
    void *context;
    struct field field;
    struct list list;
    bool answered; /* `closed` is called after the answer, not with the view */
    int index[PICKER_ROWS];
};

static void find(struct picker *picker)
{
    size_t count = picker->source->find(picker->context, picker->field.text, picker->index, PICKER_ROWS);

    picker->list.selected = picker->list.top = 0;
    list_count(&picker->list, (int)count);
}

static void paint_row(void *context, int at, bool selected, const struct canvas *line)
{
    const struct picker *picker = context;
    char name[NAME_BYTES] = "", remark[NAME_BYTES] = "";
    int right = line->cols / 3;

    picker->source->row(picker->context, picker->index[at], name, sizeof name, remark, sizeof remark);
    canvas_span(line, 0, 0, line->cols - right, selected ? STYLE_CURSOR : STYLE_PLAIN, name);
    canvas_span_right(line, 0, line->cols - right + 1, right - 1, STYLE_PLAIN, remark);
}

static void paint_none(const struct picker *picker, const struct canvas *rows)
{
    if (picker->source->made && picker->field.text[0])
        canvas_print(rows, 0, 1, STYLE_PLAIN, "Nothing has that name. Enter: %s.", picker->source->made_text);
    else
        canvas_text(rows, 0, 1, STYLE_PLAIN, "Nothing has that name.");
}

static void paint(void *state, const struct canvas *body)
{
    struct picker *picker = state;
    struct canvas inside = box_paint(body, body->rows, body->cols > WIDE + 20 ? WIDE + 20 : body->cols, picker->title);
    bool beside = inside.cols >= WIDE;
    int pane_cols = beside ? PANE_BESIDE : inside.cols, pane_rows = beside ? inside.rows - 2 : PANE_UNDER;
    struct canvas rows = canvas_part(&inside, 2, 0, inside.rows - 2 - (beside ? 0 : PANE_UNDER + 1),
                                     beside ? inside.cols - PANE_BESIDE - 2 : inside.cols);
    struct canvas pane = canvas_part(&inside, inside.rows - pane_rows, inside.cols - pane_cols, pane_rows, pane_cols);

    if (picker->list.count == 0)
        paint_none(picker, &rows);
    else
        list_paint(&picker->list, &rows, paint_row, picker);
    if (picker->source->about && picker->list.count > 0)
        picker->source->about(picker->context, picker->index[picker->list.selected], &pane);
    field_paint(&picker->field, &inside, 0, 0, inside.cols);
}

static void tell_closed(const struct picker *picker)
{
    if (picker->source->closed)
        picker->source->closed(picker->context);
}

static void take(struct picker *picker)
{
    struct picker copy = *picker;

    if (copy.list.count == 0 && (!copy.source->made || !copy.field.text[0]))
        return;
    picker->answered = true;
    desk_pop(copy.desk);
    if (copy.list.count > 0)
        copy.source->taken(copy.context, copy.index[copy.list.selected]);
    else
        copy.source->made(copy.context, copy.field.text);
    tell_closed(&copy);
}

static bool take_key(void *state, const struct key *key)
{
    struct picker *picker = state;

    if (key->code == KEY_ESCAPE)
        desk_pop(picker->desk);
    else if (key->code == KEY_RETURN)
        take(picker);
    else if (key->code != KEY_TO_START && key->code != KEY_TO_END && list_key(&picker->list, key))
        return true;
    else if (field_key(&picker->field, key) == FIELD_CHANGED)
        find(picker);
    return true;
}

static const struct action *picker_actions(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Enter", "take it", "Takes the one that is marked.", NULL, NULL},
        {"Up", NULL, "Moves up; Down, PgUp and PgDn likewise.", NULL, NULL},
        {"Esc", "leave as it is", "Closes the picker; nothing changes.", NULL, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

static void picker_closed(void *state)
{
    struct picker *picker = state;

    if (!picker->answered)
        tell_closed(picker);
    free(picker);
}

void picker_open(struct desk *desk, const char *title, const struct picker_source *source, void *context)
{
    static const struct view_ops ops = {.title = "Finding by name",
                                        .paint = paint,
                                        .key = take_key,
                                        .actions = picker_actions,
                                        .closed = picker_closed,
                                        .overlay = true};
    struct picker *picker = calloc(1, sizeof *picker);

    if (!picker) {
        desk_say(desk, STYLE_STOP, "There is no memory left for the list.");
        return;
    }
    *picker = (struct picker){.desk = desk, .title = title, .source = source, .context = context};
    field_start(&picker->field, "", NAME_BYTES - 1);
    find(picker);
    desk_push(desk, &ops, picker);
}
