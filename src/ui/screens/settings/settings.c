/* settings.c - what is set once for the whole bench. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/kit/box.h"
#include "ui/kit/list.h"
#include "ui/screens/bench/deeds.h"
#include "ui/screens/top.h"
#include "work/settings_row.h"

enum { NAME_WIDTH = 34 };

struct settings_screen {
    struct top top;
    struct list list;
    struct settings settings;
    struct settings_row row[SETTINGS_ROWS];
};

static void read_rows(struct settings_screen *screen)
{
    screen->settings = *workshop_settings(screen->top.workshop);
    list_count(&screen->list, settings_rows(&screen->settings, screen->row));
}

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    const struct settings_screen *screen = context;
    struct canvas value = canvas_part(line, 0, NAME_WIDTH + 1, 1, line->cols - NAME_WIDTH - 1);
    char text[SETTING_BYTES];

    settings_row_name(&screen->settings, screen->row[index], text, sizeof text);
    canvas_span(line, 0, 0, NAME_WIDTH, STYLE_PLAIN, text);
    settings_row_value(&screen->settings, screen->row[index], text, sizeof text);
    canvas_text(&value, 0, 0, selected ? STYLE_CURSOR : STYLE_PLAIN, text[0] ? text : "-");
}

static void paint(void *state, const struct canvas *body)
{
    struct settings_screen *screen = state;
    struct canvas inside = box_paint(body, body->rows, body->cols, "Settings");

    list_paint(&screen->list, &inside, paint_row, screen);
}

static bool take_key(void *state, const struct key *key)
{
    return list_key(&((struct settings_screen *)state)->list, key);
}

static void keep(struct settings_screen *screen, const struct settings *settings)
{
    struct lw_error error;

    if (workshop_set(screen->top.workshop, settings, &error) != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
    read_rows(screen);
}

/* A key of the bench is of use only for what the bench can do. */
static bool known_action(const struct settings *settings, struct settings_row row, char *note, size_t size)
{
    if (row.kind != SETTING_KEY || row.index >= settings->keys || deeds_known(settings->key[row.index].action))
        return true;
    text_copy(note, size, "The bench knows: ");
    deeds_words(note + strlen(note), size - strlen(note));
    return false;
}

static bool check(void *context, const char *text, char *note, size_t size)
{
    struct settings_screen *screen = context;
    struct settings trial = screen->settings;
    struct settings_row row = screen->row[screen->list.selected];
    struct lw_error error = {""};

    if (settings_row_read(&trial, row, text, &error) == LW_OK) {
        text_copy(note, size, settings_row_hint(row.kind));
        return known_action(&trial, row, note, size);
    }
    text_copy(note, size, error.text);
    return false;
}

static void taken(void *context, const char *text)
{
    struct settings_screen *screen = context;
    struct settings changed = screen->settings;
    struct lw_error error;

    if (settings_row_read(&changed, screen->row[screen->list.selected], text, &error) == LW_OK)
        keep(screen, &changed);
}

static void enter(void *state, const struct key *key)
{
    struct settings_screen *screen = state;
    struct settings changed = screen->settings;
    struct settings_row row = screen->row[screen->list.selected];
    char name[SETTING_BYTES], value[SETTING_BYTES];

    (void)key;
    if (settings_row_next(&changed, row)) {
        keep(screen, &changed);
        return;
    }
    settings_row_name(&screen->settings, row, name, sizeof name);
    settings_row_value(&screen->settings, row, value, sizeof value);
    ask_line(screen->top.desk, "Settings", name, value, SETTING_BYTES - 1, check, taken, screen);
}

static void close_view(void *state, const struct key *key)
{
    (void)key;
    desk_pop(((struct settings_screen *)state)->top.desk);
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Enter", "change", "Changes the setting, or goes to its next value.", enter, NULL},
        {"Esc q", "back", "Goes back; everything is saved already.", close_view, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

void settings_open(const struct top *top)
{
    static const struct view_ops ops = {
        .title = "Settings", .paint = paint, .key = take_key, .actions = actions_of, .closed = free, .overlay = true};
    struct settings_screen *screen = calloc(1, sizeof *screen);

    if (!screen)
        return;
    screen->top = *top;
    read_rows(screen);
    desk_push(top->desk, &ops, screen);
}
