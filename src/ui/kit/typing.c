/* typing.c - inserting, deleting and moving in a text. */
#include "ui/kit/typing.h"

#include <string.h>

#include "base/utf8.h"

static size_t length_at(const char *text, size_t at, uint32_t *point)
{
    return utf8_next(text + at, strnlen(text + at, 4), point);
}

size_t typing_next(const char *text, size_t at)
{
    uint32_t point;

    if (text[at] != '\0')
        at += length_at(text, at, &point);
    while (text[at] != '\0') {
        size_t bytes = length_at(text, at, &point);

        if (point == '\n' || utf8_width(point) > 0)
            break;
        at += bytes;
    }
    return at;
}

static size_t stop_before(const struct typing *typing, size_t at)
{
    size_t stop = 0;

    for (size_t next = 0; next < at; next = typing_next(typing->text, next))
        stop = next;
    return stop;
}

static enum field_result insert(struct typing *typing, const char *bytes, size_t n)
{
    size_t length = strlen(typing->text);

    if (length + n > typing->limit)
        return FIELD_FULL;
    memmove(typing->text + typing->cursor + n, typing->text + typing->cursor, length - typing->cursor + 1);
    memcpy(typing->text + typing->cursor, bytes, n);
    typing->cursor += n;
    return FIELD_CHANGED;
}

static enum field_result insert_point(struct typing *typing, uint32_t point)
{
    char bytes[4];

    if (typing->lines && (point == '\n' || point == '\r'))
        return insert(typing, "\n", 1);
    if (!utf8_printable(point))
        return FIELD_MOVED;
    return insert(typing, bytes, utf8_put(point, bytes));
}

static enum field_result insert_paste(struct typing *typing, const char *text)
{
    enum field_result result = FIELD_MOVED;
    size_t left = strlen(text);

    while (left > 0 && (typing->lines || (*text != '\n' && *text != '\r'))) {
        uint32_t point;
        size_t bytes = utf8_next(text, left, &point);
        enum field_result one = insert_point(typing, point);

        if (one == FIELD_FULL)
            return FIELD_FULL;
        if (one == FIELD_CHANGED)
            result = one;
        text += bytes;
        left -= bytes;
    }
    return result;
}

static enum field_result remove_between(struct typing *typing, size_t from, size_t to)
{
    if (from == to)
        return FIELD_MOVED;
    memmove(typing->text + from, typing->text + to, strlen(typing->text) - to + 1);
    typing->cursor = from;
    return FIELD_CHANGED;
}

/* A text of one line has no newline to stop at. */
static size_t line_start(const struct typing *typing)
{
    size_t at = typing->cursor;

    while (at > 0 && typing->text[at - 1] != '\n')
        at--;
    return at;
}

static size_t line_end(const struct typing *typing)
{
    return typing->cursor + strcspn(typing->text + typing->cursor, "\n");
}

static size_t word_before(const struct typing *typing)
{
    size_t at = typing->cursor;

    while (at > 0 && typing->text[at - 1] == ' ')
        at--;
    while (at > 0 && typing->text[at - 1] != ' ' && typing->text[at - 1] != '\n')
        at--;
    return at;
}

static enum field_result control(struct typing *typing, uint32_t letter)
{
    switch (letter) {
    case 'a':
        typing->cursor = line_start(typing);
        return FIELD_MOVED;
    case 'e':
        typing->cursor = line_end(typing);
        return FIELD_MOVED;
    case 'k':
        return remove_between(typing, typing->cursor, line_end(typing));
    case 'u':
        return remove_between(typing, line_start(typing), typing->cursor);
    case 'w':
        return remove_between(typing, word_before(typing), typing->cursor);
    default:
        return FIELD_IGNORED;
    }
}

static enum field_result move_to(struct typing *typing, size_t cursor)
{
    typing->cursor = cursor;
    return FIELD_MOVED;
}

enum field_result typing_key(struct typing *typing, const struct key *key)
{
    /* A table would need a function a row for these few; anything not named here is not a text's key. */
    if (key->code == KEY_CHARACTER && !key->alt)
        return insert_point(typing, key->point);
    if (key->code == KEY_RETURN && typing->lines)
        return insert(typing, "\n", 1);
    if (key->code == KEY_PASTE)
        return insert_paste(typing, key->paste);
    if (key->code == KEY_ERASE)
        return remove_between(typing, stop_before(typing, typing->cursor), typing->cursor);
    if (key->code == KEY_DEL)
        return remove_between(typing, typing->cursor, typing_next(typing->text, typing->cursor));
    if (key->code == KEY_ARROW_LEFT)
        return move_to(typing, stop_before(typing, typing->cursor));
    if (key->code == KEY_ARROW_RIGHT)
        return move_to(typing, typing_next(typing->text, typing->cursor));
    if (key->code == KEY_TO_START)
        return move_to(typing, line_start(typing));
    if (key->code == KEY_TO_END)
        return move_to(typing, line_end(typing));
    if (key->code == KEY_CONTROL)
        return control(typing, key->point);
    return FIELD_IGNORED;
}

int typing_columns(const char *text, size_t from, size_t to)
{
    int columns = 0;
    uint32_t point;

    for (size_t at = from; at < to;) {
        size_t bytes = length_at(text, at, &point);

        columns += utf8_width(point);
        at += bytes;
    }
    return columns;
}
