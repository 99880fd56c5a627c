/* numbered.c - lines under digits, a page at a time. */
#include "ui/kit/numbered.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/text.h"
#include "ui/kit/box.h"

enum { QUESTION_BYTES = 1024, QUESTION_ROWS = 6, WIDTH = 76, NUMBER_WIDTH = 3, DIGITS = 9, FRAME = 2 };

struct overlay {
    struct desk *desk;
    char title[80], question[QUESTION_BYTES];
    struct numbered numbered;
    void (*taken)(void *context, int index);
    void *context;
    int first, shown; /* of the page as last painted */
    int marked;       /* -1: none, until an arrow marks one */
};

void numbered_add(struct numbered *numbered, const char *format, ...)
{
    va_list list;

    if (numbered->count == NUMBERED_LINES)
        return;
    va_start(list, format);
    vsnprintf(numbered->line[numbered->count++], NUMBERED_BYTES, format, list);
    va_end(list);
}

static int rows_of(const struct overlay *overlay, const struct canvas *inside, int index)
{
    struct canvas text = canvas_part(inside, 0, NUMBER_WIDTH, inside->rows, inside->cols - NUMBER_WIDTH);

    return canvas_wrapped(&text, overlay->numbered.line[index]);
}

/* Lines from `first` on that fit the rows; one is kept for "0 more" where they are not the last. */
static int page_length(const struct overlay *overlay, const struct canvas *inside, int rows, int *used)
{
    int count = 0, left = overlay->numbered.count - overlay->first;

    *used = 0;
    while (count < left && count < DIGITS) {
        int needed = rows_of(overlay, inside, overlay->first + count);
        bool last = overlay->first == 0 && count + 1 == left;

        if (count > 0 && *used + needed + (last ? 0 : 1) > rows)
            break;
        *used += needed;
        count++;
    }
    return count;
}

static void paint_page(const struct overlay *overlay, const struct canvas *inside, int row)
{
    for (int i = 0; i < overlay->shown; i++) {
        int index = overlay->first + i;
        struct canvas text = canvas_part(inside, row, NUMBER_WIDTH, inside->rows - row, inside->cols - NUMBER_WIDTH);

        canvas_print(inside, row, 0, index == overlay->marked ? STYLE_CURSOR : STYLE_STRONG, "%d", i + 1);
        row += canvas_wrap(&text, 0, text.rows, STYLE_PLAIN, overlay->numbered.line[index]);
    }
    if (overlay->shown < overlay->numbered.count) {
        canvas_text(inside, row, 0, STYLE_STRONG, "0");
        canvas_text(inside, row, NUMBER_WIDTH, STYLE_PLAIN, "more");
    }
}

static void paint(void *state, const struct canvas *body)
{
    struct overlay *overlay = state;
    struct canvas room = canvas_part(body, 0, 0, body->rows - FRAME, WIDTH < body->cols ? WIDTH - 4 : body->cols - 4);
    int question = canvas_wrapped(&room, overlay->question), used;

    question = question < QUESTION_ROWS ? question : QUESTION_ROWS;
    overlay->shown = page_length(overlay, &room, room.rows - question - 1, &used);
    used += question + 1 + (overlay->shown < overlay->numbered.count);

    struct canvas inside = box_paint(body, used + FRAME, WIDTH, overlay->title);

    canvas_wrap(&inside, 0, question, STYLE_STRONG, overlay->question);
    paint_page(overlay, &inside, question + 1);
}

/* The overlay is gone before the line is told, so that the answer may open another. */
static void take(struct overlay *overlay, int index)
{
    void (*taken)(void *context, int answer) = overlay->taken;
    void *context = overlay->context;

    desk_pop(overlay->desk);
    taken(context, index);
}

static void take_digit(struct overlay *overlay, uint32_t digit)
{
    int next = overlay->first + overlay->shown;

    if (digit == 0 && overlay->shown < overlay->numbered.count)
        overlay->first = next < overlay->numbered.count ? next : 0;
    else if (digit >= 1 && (int)digit <= overlay->shown)
        take(overlay, overlay->first + (int)digit - 1);
    else
        desk_say(overlay->desk, STYLE_PLAIN, "No line here has the number %u.", (unsigned)digit);
}

static void mark(struct overlay *overlay, int step)
{
    int last = overlay->first + overlay->shown - 1;

    if (overlay->marked < overlay->first || overlay->marked > last)
        overlay->marked = step > 0 ? overlay->first : last;
    else if (overlay->marked + step >= overlay->first && overlay->marked + step <= last)
        overlay->marked += step;
}

static bool take_key(void *state, const struct key *key)
{
    struct overlay *overlay = state;

    if (key->code == KEY_CHARACTER && !key->alt && key->point >= '0' && key->point <= '9')
        take_digit(overlay, key->point - '0');
    else if (key->code == KEY_ESCAPE || key_is(key, '.') || key_is(key, '-'))
        take(overlay, -1);
    else if (key->code == KEY_ARROW_UP || key->code == KEY_ARROW_DOWN)
        mark(overlay, key->code == KEY_ARROW_UP ? -1 : 1);
    else if (key->code == KEY_RETURN && overlay->marked >= 0)
        take(overlay, overlay->marked);
    else if (key->code == KEY_RETURN)
        desk_say(overlay->desk, STYLE_PLAIN, "Press the number of a line.");
    else
        return false;
    return true;
}

static bool once(void *state, const struct key *key)
{
    (void)state;
    return key->code == KEY_CHARACTER || key->code == KEY_RETURN || key->code == KEY_ESCAPE;
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"1-9", "take a line", "Takes the line of that number.", NULL, NULL},
        {"0", NULL, "Shows the next lines where there are more.", NULL, NULL},
        {"Up Down", NULL, "Mark a line, which Enter then takes.", NULL, NULL},
        {". Esc -", "close", "Closes the list; nothing changes.", NULL, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

void numbered_open(struct desk *desk, const char *title, const char *question, const struct numbered *numbered,
                   void (*taken)(void *context, int index), void *context)
{
    static const struct view_ops ops = {.title = "A list with numbers",
                                        .paint = paint,
                                        .key = take_key,
                                        .actions = actions_of,
                                        .once = once,
                                        .closed = free,
                                        .overlay = true};
    struct overlay *overlay = calloc(1, sizeof *overlay);

    if (!overlay) {
        desk_say(desk, STYLE_STOP, "There is no memory left for the list.");
        return;
    }
    overlay->desk = desk;
    overlay->numbered = *numbered;
    overlay->taken = taken;
    overlay->context = context;
    overlay->marked = -1;
    text_copy(overlay->title, sizeof overlay->title, title);
    text_copy(overlay->question, sizeof overlay->question, question);
    desk_push(desk, &ops, overlay);
}
