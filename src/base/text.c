/* text.c - bounded strings. */
#include "base/text.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base/utf8.h"

enum { DISTANCE_MOST = 255 };

bool text_copy(char *to, size_t size, const char *from)
{
    size_t length = strlen(from);
    bool fits = length < size;

    if (size == 0)
        return false;
    if (!fits)
        length = utf8_whole(from, size - 1);
    memcpy(to, from, length);
    to[length] = '\0';
    return fits;
}

bool text_add(char *to, size_t size, const char *format, ...)
{
    size_t used = strlen(to);
    if (used >= size)
        return false;

    size_t room = size - used;
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(to + used, room, format, arguments);
    va_end(arguments);

    if (length < 0)
        to[used] = '\0';
    if (length >= 0 && (size_t)length < room)
        return true;
    to[utf8_whole(to, strlen(to))] = '\0';
    return false;
}

static unsigned char lower(char c)
{
    return (unsigned char)(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
}

bool text_same(const char *a, const char *b)
{
    while (*a && lower(*a) == lower(*b))
        a++, b++;
    return lower(*a) == lower(*b);
}

static bool begins(const char *text, const char *word)
{
    while (*word && lower(*text) == lower(*word))
        text++, word++;
    return *word == '\0';
}

bool text_has(const char *text, const char *word)
{
    for (; *text; text++) {
        if (begins(text, word))
            return true;
    }
    return *word == '\0';
}

/* The characters of s in lower case; returns their number. */
static size_t characters(const char *s, uint32_t point[DISTANCE_MOST])
{
    size_t left = strlen(s), n = 0;

    if (left > DISTANCE_MOST)
        left = DISTANCE_MOST;
    while (left > 0) {
        size_t length = utf8_next(s, left, &point[n]);
        if (point[n] < 0x80)
            point[n] = lower((char)point[n]);
        s += length;
        left -= length;
        n++;
    }
    return n;
}

static size_t least(size_t a, size_t b, size_t c)
{
    size_t ab = a < b ? a : b;
    return ab < c ? ab : c;
}

/* Wagner and Fischer, "The string-to-string correction problem", J. ACM 21 (1974): one row of their table at a time. */
size_t text_distance(const char *a, const char *b, size_t most)
{
    uint32_t from[DISTANCE_MOST], to[DISTANCE_MOST];
    size_t n = characters(a, from), m = characters(b, to);
    size_t row[DISTANCE_MOST + 1];

    for (size_t j = 0; j <= m; j++)
        row[j] = j;
    for (size_t i = 0; i < n; i++) {
        size_t diagonal = row[0], smallest = i + 1;

        row[0] = i + 1;
        for (size_t j = 0; j < m; j++) {
            size_t replaced = diagonal + (from[i] != to[j]);
            diagonal = row[j + 1];
            row[j + 1] = least(replaced, row[j] + 1, diagonal + 1);
            if (row[j + 1] < smallest)
                smallest = row[j + 1];
        }
        if (smallest > most) /* rows never get smaller again */
            return most + 1;
    }
    return row[m] > most ? most + 1 : row[m];
}
