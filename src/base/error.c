/* error.c - makes one harmless sentence of a failure. */
#include "base/error.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/utf8.h"

/* Whatever a file name or a record brought along must not move the cursor of the terminal that shows the sentence. */
static void make_printable(char *text)
{
    size_t left = strlen(text);
    char *to = text;

    for (const char *from = text; left > 0;) {
        uint32_t point;
        size_t length = utf8_next(from, left, &point);
        bool broken = length == 1 && point == UTF8_BROKEN;

        if (broken || !utf8_printable(point)) {
            *to++ = '?';
        } else {
            memmove(to, from, length);
            to += length;
        }
        from += length;
        left -= length;
    }
    *to = '\0';
}

enum lw_status lw_fail(struct lw_error *error, enum lw_status status, const char *format, ...)
{
    if (!error)
        return status;

    /* Apart from *error, since an argument may be the text that it held before. */
    char text[LW_ERROR_BYTES];
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);

    if (length < 0)
        text[0] = '\0';
    if (length >= (int)sizeof text)
        text[utf8_whole(text, strlen(text))] = '\0';
    make_printable(text);
    memcpy(error->text, text, strlen(text) + 1);
    return status;
}
