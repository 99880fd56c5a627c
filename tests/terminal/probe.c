/* probe.c - a small program on the kit alone, which the terminal tests drive: one of every widget, nothing of soap. */
#define _XOPEN_SOURCE 700
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/kit/band.h"
#include "ui/kit/desk.h"
#include "ui/kit/list.h"
#include "ui/kit/loop.h"
#include "ui/kit/picker.h"
#include "ui/kit/strip.h"
#include "ui/kit/term.h"

enum { ROWS = 60 };

struct probe {
    struct desk *desk;
    struct list list;
    char name[ROWS][64];
    int saves;
    int seconds;
};

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    struct probe *probe = context;

    struct canvas name = canvas_part(line, 0, 0, 1, 20);

    canvas_text(&name, 0, 0, selected ? STYLE_CURSOR : STYLE_PLAIN, probe->name[index]);
    canvas_text(line, 0, 21, STYLE_PLAIN, "next");
}

static void paint(void *state, const struct canvas *body)
{
    struct probe *probe = state;
    struct canvas rows = canvas_part(body, 0, 0, body->rows - 4, body->cols);
    const struct strip_part parts[] = {{"base", 60, style_swatch(0xF3EBDD)},
                                       {"moss", 25, style_swatch(0x507050)},
                                       {"pink", 14, style_swatch(0xC08080)},
                                       {"", 1, STYLE_PLAIN}};
    const struct band band = {.from = -2,
                              .to = 12,
                              .mark = 0,
                              .worst_lo = 1.7,
                              .worst_hi = 9.8,
                              .likely_lo = 3.8,
                              .likely_hi = 8.0,
                              .point = 5,
                              .mark_name = "0",
                              .left = "alkali",
                              .right = "oil"};

    list_paint(&probe->list, &rows, paint_row, probe);
    strip_paint(body, body->rows - 3, 100, parts, 4);
    band_paint(body, body->rows - 2, &band, STYLE_GOOD);
    canvas_print(body, body->rows - 1, 1, STYLE_PLAIN, "selected %d", probe->list.selected);
}

static bool take_key(void *state, const struct key *key)
{
    return list_key(&((struct probe *)state)->list, key);
}

static void renamed(void *context, const char *text)
{
    struct probe *probe = context;

    text_copy(probe->name[probe->list.selected], sizeof probe->name[0], text);
}

static bool check_name(void *context, const char *text, char *note, size_t size)
{
    (void)context;
    snprintf(note, size, "%s", text[0] ? "Enter takes the name." : "A name needs at least one character.");
    return text[0] != '\0';
}

static void rename_row(void *state, const struct key *key)
{
    struct probe *probe = state;

    (void)key;
    ask_line(probe->desk, "Rename", "What is it to be called?", probe->name[probe->list.selected], 63, check_name,
             renamed, probe);
}

static void leave_chosen(void *context, int index)
{
    if (index == 0)
        desk_leave(((struct probe *)context)->desk);
}

static void quit(void *state, const struct key *key)
{
    static const struct choice choices[] = {{"y", "leave"}, {"n", "stay"}};

    (void)key;
    ask_choice(((struct probe *)state)->desk, "Leave", "Leave the probe?", choices, 2, leave_chosen, state);
}

static size_t find(void *context, const char *filter, int index[], size_t most)
{
    struct probe *probe = context;
    size_t count = 0;

    for (int i = 0; i < ROWS && count < most; i++)
        if (text_has(probe->name[i], filter))
            index[count++] = i;
    return count;
}

static void row_text(void *context, int index, char *name, size_t name_size, char *remark, size_t remark_size)
{
    text_copy(name, name_size, ((struct probe *)context)->name[index]);
    text_copy(remark, remark_size, "a remark");
}

static void about(void *context, int index, const struct canvas *pane)
{
    canvas_print(pane, 0, 0, STYLE_PLAIN, "About %s", ((struct probe *)context)->name[index]);
}

static void picked(void *context, int index)
{
    struct probe *probe = context;

    probe->list.selected = index;
    desk_say(probe->desk, STYLE_PLAIN, "Picked %s.", probe->name[index]);
}

static void made(void *context, const char *name)
{
    renamed(context, name);
}

static void pick(void *state, const struct key *key)
{
    static const struct picker_source source = {
        .find = find, .row = row_text, .about = about, .taken = picked, .made = made, .made_text = "call this row so"};

    (void)key;
    picker_open(((struct probe *)state)->desk, "Pick a row", &source, state);
}

static void fall(void *state, const struct key *key)
{
    (void)state;
    (void)key;
    abort();
}

static void tick(void *state, const struct key *key)
{
    (void)key;
    ((struct probe *)state)->seconds = 1;
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Enter r", "rename", "Renames the row.", rename_row, NULL},
        {"/", "pick", "Finds a row by its name.", pick, NULL},
        {"t", "timer", "Starts the timer in the first line.", tick, NULL},
        {"X", NULL, "Ends the program by a fault.", fall, NULL},
        {"q", "leave", "Leaves.", quit, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

static void where(void *state, char *out, size_t size)
{
    (void)state;
    text_copy(out, size, "Probe > rows");
}

static void status(void *context, char *out, size_t size)
{
    struct probe *probe = context;

    if (probe->seconds)
        snprintf(out, size, "timer %d", probe->seconds++);
}

static int status_ms(void *context)
{
    return ((struct probe *)context)->seconds ? 1000 : LOOP_NEVER;
}

static void count_frame(void *context)
{
    ((struct probe *)context)->saves++;
}

int main(void)
{
    static const struct view_ops ops = {
        .title = "Rows", .where = where, .paint = paint, .key = take_key, .actions = actions_of};
    struct probe *probe = calloc(1, sizeof *probe);
    struct term_options options = {.colour = getenv("NO_COLOR") == NULL};
    struct lw_error error = {""};

    setlocale(LC_CTYPE, "");
    for (int i = 0; probe && i < ROWS; i++)
        snprintf(probe->name[i], sizeof probe->name[i], "row number %d", i);
    if (!probe || term_start(&options, &error) != LW_OK) {
        fprintf(stderr, "%s\n", error.text);
        return 1;
    }
    text_copy(probe->name[1], sizeof probe->name[1], "漢字🍋 caf\u00e9 e\u0301");
    text_copy(probe->name[2], sizeof probe->name[2], "A\033[31mB\a\r\nC");
    list_count(&probe->list, ROWS);
    probe->desk = desk_new(&(struct desk_options){.least_rows = 24,
                                                  .least_cols = 80,
                                                  .status = status,
                                                  .status_ms = status_ms,
                                                  .idle = count_frame,
                                                  .watch_fd = -1,
                                                  .context = probe});
    desk_push(probe->desk, &ops, probe);
    int ended = desk_run(probe->desk);
    term_stop();
    desk_free(probe->desk);
    free(probe);
    return ended ? 128 + ended : 0;
}
