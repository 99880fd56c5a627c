/* field.c - the line field. */
#include "ui/kit/field.h"

#include <string.h>

#include "base/text.h"
#include "base/utf8.h"

void field_start(struct field *field, const char *text, size_t limit)
{
    field->limit = limit < FIELD_BYTES - 1 ? limit : FIELD_BYTES - 1;
    text_copy(field->text, field->limit + 1, text);
    field->cursor = strlen(field->text);
}

static size_t length_at(const struct field *field, size_t at, uint32_t *point)
{
    return utf8_next(field->text + at, strlen(field->text) - at, point);
}

/* The start of the next character that has a column of its own, or the end. */
static size_t next_stop(const struct field *field, size_t at)
{
    size_t end = strlen(field->text);
    uint32_t point;

    if (at < end)
        at += length_at(field, at, &point);
    while (at < end) {
        size_t bytes = length_at(field, at, &point);

        if (utf8_width(point) > 0)
            break;
        at += bytes;
    }
    return at;
}

static size_t stop_before(const struct field *field, size_t at)
{
    size_t stop = 0;

    for (size_t next = 0; next < at; next = next_stop(field, next))
        stop = next;
    return stop;
}

static enum field_result insert(struct field *field, const char *bytes, size_t n)
{
    size_t length = strlen(field->text);

    if (length + n > field->limit)
        return FIELD_FULL;
    memmove(field->text + field->cursor + n, field->text + field->cursor, length - field->cursor + 1);
    memcpy(field->text + field->cursor, bytes, n);
    field->cursor += n;
    return FIELD_CHANGED;
}

static enum field_result insert_point(struct field *field, uint32_t point)
{
    char bytes[4];

    if (!utf8_printable(point))
        return FIELD_MOVED;
    return insert(field, bytes, utf8_put(point, bytes));
}

static enum field_result insert_paste(struct field *field, const char *text)
{
    enum field_result result = FIELD_MOVED;
    size_t left = strlen(text);

    while (left > 0 && *text != '\n' && *text != '\r') {
        uint32_t point;
        size_t bytes = utf8_next(text, left, &point);
        enum field_result one = insert_point(field, point);

        if (one == FIELD_FULL)
            return FIELD_FULL;
        if (one == FIELD_CHANGED)
            result = one;
        text += bytes;
        left -= bytes;
    }
    return result;
}

static enum field_result remove_between(struct field *field, size_t from, size_t to)
{
    if (from == to)
        return FIELD_MOVED;
    memmove(field->text + from, field->text + to, strlen(field->text) - to + 1);
    field->cursor = from;
    return FIELD_CHANGED;
}

static size_t word_before(const struct field *field)
{
    size_t at = field->cursor;

    while (at > 0 && field->text[at - 1] == ' ')
        at--;
    while (at > 0 && field->text[at - 1] != ' ')
        at--;
    return at;
}

static enum field_result control(struct field *field, uint32_t letter)
{
    switch (letter) {
    case 'a':
        field->cursor = 0;
        return FIELD_MOVED;
    case 'e':
        field->cursor = strlen(field->text);
        return FIELD_MOVED;
    case 'k':
        return remove_between(field, field->cursor, strlen(field->text));
    case 'u':
        return remove_between(field, 0, field->cursor);
    case 'w':
        return remove_between(field, word_before(field), field->cursor);
    default:
        return FIELD_IGNORED;
    }
}

static enum field_result move_to(struct field *field, size_t cursor)
{
    field->cursor = cursor;
    return FIELD_MOVED;
}

enum field_result field_key(struct field *field, const struct key *key)
{
    /* A table would need a function a row for these few; anything not named here is not a field's key. */
    if (key->code == KEY_CHARACTER && !key->alt)
        return insert_point(field, key->point);
    if (key->code == KEY_PASTE)
        return insert_paste(field, key->paste);
    if (key->code == KEY_ERASE)
        return remove_between(field, stop_before(field, field->cursor), field->cursor);
    if (key->code == KEY_DEL)
        return remove_between(field, field->cursor, next_stop(field, field->cursor));
    if (key->code == KEY_ARROW_LEFT)
        return move_to(field, stop_before(field, field->cursor));
    if (key->code == KEY_ARROW_RIGHT)
        return move_to(field, next_stop(field, field->cursor));
    if (key->code == KEY_TO_START)
        return move_to(field, 0);
    if (key->code == KEY_TO_END)
        return move_to(field, strlen(field->text));
    if (key->code == KEY_CONTROL)
        return control(field, key->point);
    return FIELD_IGNORED;
}

static int columns_before(const struct field *field, size_t from, size_t to)
{
    int columns = 0;
    uint32_t point;

    for (size_t at = from; at < to;) {
        size_t bytes = length_at(field, at, &point);

        columns += utf8_width(point);
        at += bytes;
    }
    return columns;
}

void field_paint(const struct field *field, const struct canvas *canvas, int row, int col, int width)
{
    int inside = width - 2;
    struct canvas part = canvas_part(canvas, row, col + 1, 1, inside);
    size_t from = 0;

    if (inside < 1)
        return;
    while (columns_before(field, from, field->cursor) >= inside)
        from = next_stop(field, from);
    canvas_text(canvas, row, col, STYLE_PLAIN, "[");
    canvas_fill(&part, 0, 0, inside, STYLE_PLAIN, " ");
    canvas_text(&part, 0, 0, STYLE_PLAIN, field->text + from);
    canvas_text(canvas, row, col + width - 1, STYLE_PLAIN, "]");
    canvas_cursor(&part, 0, columns_before(field, from, field->cursor));
}
