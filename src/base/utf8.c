/* utf8.c - checking, measuring and cleaning text from outside. Well-formedness: Unicode Standard, table 3-7. */
#include "base/utf8.h"

#include <string.h>

enum { MARKS_MOST = 4, ELLIPSIS = 0x2026 };

/* What a first byte promises: length, and the range of the second byte, which is narrower than 80..BF where a wider one
 * would let in overlong forms, surrogates or more than U+10FFFF. */
struct lead {
    unsigned char first, last;
    unsigned char length;
    unsigned char second_lo, second_hi;
};

static const struct lead leads[] = {
    {0x00, 0x7F, 1, 0x00, 0x00}, {0xC2, 0xDF, 2, 0x80, 0xBF}, {0xE0, 0xE0, 3, 0xA0, 0xBF},
    {0xE1, 0xEC, 3, 0x80, 0xBF}, {0xED, 0xED, 3, 0x80, 0x9F}, {0xEE, 0xEF, 3, 0x80, 0xBF},
    {0xF0, 0xF0, 4, 0x90, 0xBF}, {0xF1, 0xF3, 4, 0x80, 0xBF}, {0xF4, 0xF4, 4, 0x80, 0x8F},
};

static const struct lead *lead_of(unsigned char byte)
{
    for (size_t i = 0; i < sizeof leads / sizeof leads[0]; i++) {
        if (byte >= leads[i].first && byte <= leads[i].last)
            return &leads[i];
    }
    return NULL;
}

static size_t broken(uint32_t *point)
{
    *point = UTF8_BROKEN;
    return 1;
}

size_t utf8_next(const char *s, size_t n, uint32_t *point)
{
    const unsigned char *byte = (const unsigned char *)s;

    if (byte[0] < 0x80) {
        *point = byte[0];
        return 1;
    }
    const struct lead *lead = lead_of(byte[0]);
    if (!lead || n < lead->length || byte[1] < lead->second_lo || byte[1] > lead->second_hi)
        return broken(point);

    uint32_t value = byte[0] & (0x7FU >> lead->length);
    for (size_t i = 1; i < lead->length; i++) {
        if ((byte[i] & 0xC0) != 0x80)
            return broken(point);
        value = value << 6 | (byte[i] & 0x3F);
    }
    *point = value;
    return lead->length;
}

size_t utf8_put(uint32_t point, char out[4])
{
    static const unsigned char mark[] = {0, 0x00, 0xC0, 0xE0, 0xF0};
    size_t length = point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;

    for (size_t i = length - 1; i > 0; i--) {
        out[i] = (char)(0x80 | (point & 0x3F));
        point >>= 6;
    }
    out[0] = (char)(mark[length] | point);
    return length;
}

bool utf8_valid(const char *s, size_t n, size_t *bad)
{
    for (size_t at = 0; at < n;) {
        uint32_t point;
        size_t length = utf8_next(s + at, n - at, &point);

        if (length == 1 && point == UTF8_BROKEN) {
            *bad = at;
            return false;
        }
        at += length;
    }
    return true;
}

size_t utf8_whole(const char *s, size_t n)
{
    /* A cut character has at most 3 bytes left, the first of which promises more than there are. */
    for (size_t back = 1; back <= 3 && back <= n; back++) {
        unsigned char byte = (unsigned char)s[n - back];
        if ((byte & 0xC0) == 0x80)
            continue;
        const struct lead *lead = lead_of(byte);
        return lead && lead->length > back ? n - back : n;
    }
    return n;
}

static bool within(uint32_t point, uint32_t first, uint32_t last)
{
    return point >= first && point <= last;
}

bool utf8_printable(uint32_t point)
{
    static const struct {
        uint32_t first, last;
    } refused[] = {
        {0x0000, 0x001F}, {0x007F, 0x009F},                                     /* C0, DEL, C1 */
        {0x061C, 0x061C}, {0x200E, 0x200F}, {0x202A, 0x202E}, {0x2066, 0x2069}, /* bidirectional controls */
        {0xD800, 0xDFFF},                                                       /* surrogates */
        {0xFDD0, 0xFDEF},                                                       /* noncharacters */
    };

    if (within(point, 0x0020, 0x007E)) /* nearly all there is to draw */
        return true;
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        if (within(point, refused[i].first, refused[i].last))
            return false;
    }
    return point <= 0x10FFFF && (point & 0xFFFE) != 0xFFFE;
}

/* A text as it will be drawn, one character after the other. */
struct walk {
    const char *s;
    size_t left;
    int marks; /* combining marks since the last character that takes a column */
};

static struct walk walk_begin(const char *s)
{
    return (struct walk){.s = s, .left = strlen(s)};
}

/* Next character to draw and its columns; false at the end. */
static bool walk_next(struct walk *walk, uint32_t *point, size_t *columns)
{
    while (walk->left > 0) {
        size_t length = utf8_next(walk->s, walk->left, point);
        bool bad = length == 1 && *point == UTF8_BROKEN;

        walk->s += length;
        walk->left -= length;
        if (bad || !utf8_printable(*point))
            *point = '?';
        *columns = (size_t)utf8_width(*point);
        walk->marks = *columns > 0 ? 0 : walk->marks + 1;
        if (walk->marks <= MARKS_MOST)
            return true;
    }
    return false;
}

size_t utf8_columns(const char *s)
{
    struct walk walk = walk_begin(s);
    size_t sum = 0, columns;
    uint32_t point;

    while (walk_next(&walk, &point, &columns))
        sum += columns;
    return sum;
}

/* Where the cleaned text goes. */
struct sink {
    char *out;
    size_t size, length;
    bool full;
};

static void sink_put(struct sink *sink, uint32_t point)
{
    char bytes[4];
    size_t length = utf8_put(point, bytes);

    if (sink->full || sink->length + length >= sink->size) {
        sink->full = true;
        return;
    }
    memcpy(sink->out + sink->length, bytes, length);
    sink->length += length;
}

/* Puts the first characters that together take at most `columns`. */
static void put_head(struct sink *sink, const char *s, size_t columns)
{
    struct walk walk = walk_begin(s);
    size_t used = 0, width;
    uint32_t point;

    while (walk_next(&walk, &point, &width) && used + width <= columns) {
        sink_put(sink, point);
        used += width;
    }
}

/* Puts what follows the first `skip` columns, from a character that takes a column itself. */
static void put_tail(struct sink *sink, const char *s, size_t skip)
{
    struct walk walk = walk_begin(s);
    size_t passed = 0, width;
    uint32_t point;
    bool begun = false;

    while (walk_next(&walk, &point, &width)) {
        begun = begun || (passed >= skip && width > 0);
        if (begun)
            sink_put(sink, point);
        passed += width;
    }
}

void utf8_clean(char *out, size_t size, const char *s, size_t columns)
{
    struct sink sink = {.out = out, .size = size};
    size_t all = utf8_columns(s);

    if (size == 0)
        return;
    if (all <= columns) {
        put_head(&sink, s, columns);
    } else if (columns > 0) {
        size_t tail = (columns - 1) / 2;
        put_head(&sink, s, columns - 1 - tail);
        sink_put(&sink, ELLIPSIS);
        put_tail(&sink, s, all - tail);
    }
    out[sink.length] = '\0';
}
