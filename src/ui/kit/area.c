/* area.c - rows are found anew from the text whenever they are needed: it is short. */
#include "ui/kit/area.h"

#include <string.h>

#include "base/text.h"

/* One row as it is drawn: text[start .. start + length); the cursor may also stand behind its last character. */
struct row {
    int number;
    size_t start, length, next; /* next: where the row after it starts */
    bool last;
};

void area_start(struct area *area, const char *text, size_t limit)
{
    *area = (struct area){.limit = limit < AREA_BYTES - 1 ? limit : AREA_BYTES - 1};
    text_copy(area->text, area->limit + 1, text);
    area->cursor = strlen(area->text);
}

static struct row row_from(const struct area *area, int number, size_t start)
{
    size_t skip, length = canvas_break(area->text + start, area->cols, &skip);
    size_t next = start + length + skip;

    /* Behind a newline, or a blank that a break stands for, there is always a row, if an empty one. */
    return (struct row){number, start, length, next, skip == 0 && area->text[next] == '\0'};
}

static struct row row_with(const struct area *area, size_t at)
{
    struct row row = row_from(area, 0, 0);

    while (!row.last && row.next <= at)
        row = row_from(area, row.number + 1, row.next);
    return row;
}

static struct row row_numbered(const struct area *area, int number)
{
    struct row row = row_from(area, 0, 0);

    while (!row.last && row.number < number)
        row = row_from(area, row.number + 1, row.next);
    return row;
}

/* To the row that many further down, as near to the column as it goes. */
static enum field_result to_row(struct area *area, int step)
{
    struct row here = row_with(area, area->cursor);
    int column = typing_columns(area->text, here.start, area->cursor);
    struct row there = row_numbered(area, here.number + step > 0 ? here.number + step : 0);
    size_t end = there.start + there.length, at = there.start;

    if (there.number == here.number)
        return FIELD_MOVED;
    while (at < end && typing_columns(area->text, there.start, at) < column)
        at = typing_next(area->text, at);
    area->cursor = at;
    return FIELD_MOVED;
}

enum field_result area_key(struct area *area, const struct key *key)
{
    struct typing typing = {.text = area->text, .cursor = area->cursor, .limit = area->limit, .lines = true};
    enum field_result result;

    if (key->code == KEY_ARROW_UP || key->code == KEY_ARROW_DOWN)
        return to_row(area, key->code == KEY_ARROW_UP ? -1 : 1);
    result = typing_key(&typing, key);
    area->cursor = typing.cursor;
    return result;
}

static void scroll(struct area *area, int rows, int cursor_row)
{
    if (cursor_row < area->top)
        area->top = cursor_row;
    if (cursor_row >= area->top + rows)
        area->top = cursor_row - rows + 1;
}

void area_paint(struct area *area, const struct canvas *canvas)
{
    struct row row, here;

    area->cols = canvas->cols > 2 ? canvas->cols - 1 : 1; /* one column for the cursor behind a full row */
    here = row_with(area, area->cursor);
    scroll(area, canvas->rows, here.number);
    canvas_clear(canvas);
    for (row = row_numbered(area, area->top); row.number < area->top + canvas->rows;
         row = row_from(area, row.number + 1, row.next)) {
        char text[AREA_BYTES];

        memcpy(text, area->text + row.start, row.length);
        text[row.length] = '\0';
        canvas_text(canvas, row.number - area->top, 0, STYLE_PLAIN, text);
        if (row.last)
            break;
    }
    canvas_cursor(canvas, here.number - area->top, typing_columns(area->text, here.start, area->cursor));
}
