/* buffer.c - a growing text with a hard limit. */
#include "base/buffer.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/error.h"

enum { FIRST_SIZE = 256 };

void buffer_init(struct buffer *buffer, size_t limit)
{
    *buffer = (struct buffer){.limit = limit};
}

void buffer_done(struct buffer *buffer)
{
    free(buffer->data);
    *buffer = (struct buffer){.limit = buffer->limit};
}

/* Makes room for n more bytes and the closing NUL. */
static bool reserve(struct buffer *buffer, size_t n)
{
    if (buffer->failed)
        return false;
    if (n > buffer->limit - buffer->length) {
        buffer->failed = true;
        return false;
    }
    size_t need = buffer->length + n + 1;
    if (need <= buffer->size)
        return true;

    size_t size = buffer->size ? buffer->size : FIRST_SIZE;
    while (size < need)
        size = size > SIZE_MAX / 2 ? need : size * 2;
    char *data = realloc(buffer->data, size);
    if (!data) {
        buffer->failed = true;
        return false;
    }
    buffer->data = data;
    buffer->size = size;
    return true;
}

void buffer_add_bytes(struct buffer *buffer, const char *bytes, size_t n)
{
    if (!reserve(buffer, n))
        return;
    if (n > 0)
        memcpy(buffer->data + buffer->length, bytes, n);
    buffer->length += n;
    buffer->data[buffer->length] = '\0';
}

void buffer_add(struct buffer *buffer, const char *format, ...)
{
    va_list arguments, again;
    va_start(arguments, format);
    va_copy(again, arguments);

    /* Most pieces fit what is left of the room, so that they are formatted once. */
    size_t room = buffer->size - buffer->length;
    int length = vsnprintf(buffer->data ? buffer->data + buffer->length : NULL, room, format, arguments);
    if (length < 0)
        buffer->failed = true;
    else if (reserve(buffer, (size_t)length) && (size_t)length >= room)
        vsnprintf(buffer->data + buffer->length, (size_t)length + 1, format, again);

    if (!buffer->failed)
        buffer->length += (size_t)length;
    if (buffer->data)
        buffer->data[buffer->length] = '\0';
    va_end(again);
    va_end(arguments);
}

const char *buffer_text(const struct buffer *buffer)
{
    return buffer->data ? buffer->data : "";
}

enum lw_status buffer_status(const struct buffer *buffer, struct lw_error *error)
{
    if (!buffer->failed)
        return LW_OK;
    return lw_fail(error, LW_FULL, "The text grew past %zu bytes or memory is full; make it smaller.", buffer->limit);
}
