#include "exchange/json_write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/number.h"
#include "base/utf8.h"

/* One character of a text, s not at its end. */
static size_t put_character(struct buffer *out, const char *s)
{
    uint32_t point;
    size_t length = utf8_next(s, strlen(s), &point);

    if (point == '"' || point == '\\')
        buffer_add(out, "\\%c", (int)point);
    else if (point == '\n')
        buffer_add(out, "\\n");
    else if (!utf8_printable(point) || (point == 0xFFFD && length == 1))
        buffer_add(out, "?");
    else
        buffer_add_bytes(out, s, length);
    return length;
}

static void put_text(struct buffer *out, const char *text)
{
    buffer_add(out, "\"");
    while (*text != '\0')
        text += put_character(out, text);
    buffer_add(out, "\"");
}

static void put_number(struct buffer *out, double number, int decimals)
{
    char digits[NUMBER_BYTES];

    if (!isfinite(number) || fabs(number) >= NUMBER_WRITE_BELOW) {
        buffer_add(out, "null");
        return;
    }
    number_write_short(digits, number, decimals);
    buffer_add(out, "%s", digits);
}

/* To where the value begins. */
static void next(struct json_writer *writer, const char *name)
{
    if (writer->depth > 0)
        buffer_add(writer->out, "%s\n%*s", writer->empty ? "" : ",", 2 * writer->depth, "");
    writer->empty = false;
    if (name == NULL)
        return;
    put_text(writer->out, name);
    buffer_add(writer->out, ": ");
}

static void open_bracket(struct json_writer *writer, const char *name, const char *bracket)
{
    next(writer, name);
    buffer_add(writer->out, "%s", bracket);
    writer->depth++;
    writer->empty = true;
}

static void close_bracket(struct json_writer *writer, const char *bracket)
{
    writer->depth--;
    if (!writer->empty)
        buffer_add(writer->out, "\n%*s", 2 * writer->depth, "");
    buffer_add(writer->out, "%s", bracket);
    writer->empty = false;
}

struct json_writer json_writer_begin(struct buffer *out)
{
    return (struct json_writer){out, 0, true};
}

void json_writer_end(struct json_writer *writer)
{
    buffer_add(writer->out, "\n");
}

void json_object(struct json_writer *writer, const char *name)
{
    open_bracket(writer, name, "{");
}

void json_list(struct json_writer *writer, const char *name)
{
    open_bracket(writer, name, "[");
}

void json_end_object(struct json_writer *writer)
{
    close_bracket(writer, "}");
}

void json_end_list(struct json_writer *writer)
{
    close_bracket(writer, "]");
}

void json_text(struct json_writer *writer, const char *name, const char *text)
{
    next(writer, name);
    put_text(writer->out, text);
}

void json_rgb(struct json_writer *writer, const char *name, unsigned rgb)
{
    char text[8];

    snprintf(text, sizeof text, "#%06X", rgb & 0xFFFFFFu);
    json_text(writer, name, text);
}

void json_flag(struct json_writer *writer, const char *name, bool flag)
{
    next(writer, name);
    buffer_add(writer->out, flag ? "true" : "false");
}

void json_null(struct json_writer *writer, const char *name)
{
    next(writer, name);
    buffer_add(writer->out, "null");
}

void json_number(struct json_writer *writer, const char *name, double number, int decimals)
{
    next(writer, name);
    put_number(writer->out, number, decimals);
}

void json_mass(struct json_writer *writer, const char *name, int64_t ug, int64_t division_ug)
{
    char digits[NUMBER_BYTES];

    next(writer, name);
    number_write_mass(digits, ug, division_ug);
    buffer_add(writer->out, "%s", digits);
}

void json_interval(struct json_writer *writer, const char *name, double lo, double hi, int decimals)
{
    next(writer, name);
    buffer_add(writer->out, "[");
    put_number(writer->out, lo, decimals);
    buffer_add(writer->out, ", ");
    put_number(writer->out, hi, decimals);
    buffer_add(writer->out, "]");
}
