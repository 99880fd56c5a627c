/* gate.c - one pass over JSON text. A stack of open objects and lists stands in for recursion; what may come next is a
 * state, and each state is one function.
 */
#include "exchange/gate.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base/error.h"
#include "base/number.h"
#include "base/utf8.h"
#include "exchange/hex.h"

enum state { WANT_VALUE, WANT_VALUE_OR_CLOSE, WANT_NAME, WANT_NAME_OR_CLOSE, WANT_COMMA_OR_CLOSE, WANT_NOTHING };

struct member_name {
    uint64_t hash;        /* of the decoded characters */
    size_t offset, bytes; /* as written, without the quotes */
};

struct level {
    bool object;
    size_t first_name; /* in gate.name, of an object */
};

struct gate {
    const char *text;
    size_t n, at;
    const char *file;
    struct lw_error *error;
    enum state state;
    size_t depth, values, names;
    struct level level[GATE_DEPTH];
    struct member_name name[GATE_DEPTH * GATE_MEMBERS];
};

static bool refuse_at(const struct gate *gate, size_t at, const char *found, const char *expected)
{
    size_t line = 1, start = 0, column = 1;
    uint32_t point;

    for (size_t i = 0; i < at; i++) {
        if (gate->text[i] == '\n') {
            line++;
            start = i + 1;
        }
    }
    for (size_t i = start; i < at; column++)
        i += utf8_next(gate->text + i, gate->n - i, &point);
    lw_fail(gate->error, LW_INVALID, "%s: line %zu, column %zu: found %s, expected %s.", gate->file, line, column,
            found, expected);
    return false;
}

/* Refuses what stands at the current place. */
static bool refuse(const struct gate *gate, const char *expected)
{
    char found[32] = "the end of the text";
    uint32_t point;

    if (gate->at < gate->n) {
        size_t length = utf8_next(gate->text + gate->at, gate->n - gate->at, &point);
        if (point == 0xFFFD && length == 1)
            snprintf(found, sizeof found, "the byte 0x%02X", (unsigned)(unsigned char)gate->text[gate->at]);
        else if (!utf8_printable(point))
            snprintf(found, sizeof found, "the character U+%04X", (unsigned)point);
        else
            snprintf(found, sizeof found, "'%.*s'", (int)length, gate->text + gate->at);
    }
    return refuse_at(gate, gate->at, found, expected);
}

static void skip_space(struct gate *gate)
{
    while (gate->at < gate->n && gate->text[gate->at] != '\0' && strchr(" \t\r\n", gate->text[gate->at]) != NULL)
        gate->at++;
}

static bool hex4(const char *s, size_t n, uint32_t *value)
{
    *value = 0;
    if (n < 4)
        return false;
    for (size_t i = 0; i < 4; i++) {
        if (hex_digit(s[i]) < 0)
            return false;
        *value = *value * 16U + (uint32_t)hex_digit(s[i]);
    }
    return true;
}

/* One character of a text as written at s (n > 0): its code point, and 0 or how many bytes it takes. 0: broken. */
static size_t escape_next(const char *s, size_t n, uint32_t *point)
{
    static const char letters[] = "\"\\/bfnrt", meant[] = "\"\\/\b\f\n\r\t";
    uint32_t low;

    if (n < 2 || s[1] == '\0')
        return 0;
    if (s[1] != 'u') {
        const char *letter = strchr(letters, s[1]);
        *point = letter == NULL ? 0 : (uint32_t)meant[letter - letters];
        return letter == NULL ? 0 : 2;
    }
    if (!hex4(s + 2, n - 2, point) || (*point >= 0xDC00 && *point <= 0xDFFF))
        return 0;
    if (*point < 0xD800 || *point > 0xDBFF)
        return 6;
    if (n < 12 || s[6] != '\\' || s[7] != 'u' || !hex4(s + 8, n - 8, &low) || low < 0xDC00 || low > 0xDFFF)
        return 0;
    *point = 0x10000 + ((*point - 0xD800) << 10) + (low - 0xDC00);
    return 12;
}

static size_t text_next(const char *s, size_t n, uint32_t *point)
{
    size_t length;

    if (*s == '\\')
        return escape_next(s, n, point);
    length = utf8_next(s, n, point);
    return *point == 0xFFFD && length == 1 ? 0 : length;
}

static bool refuse_character(const struct gate *gate, size_t length, uint32_t point)
{
    char found[48];

    if (length == 0 && gate->text[gate->at] == '\\')
        return refuse_at(gate, gate->at, "a broken escape in a text",
                         "\\\", \\\\, \\/, \\b, \\f, \\n, \\r, \\t or \\u with a whole character");
    if (length == 0) {
        snprintf(found, sizeof found, "the byte 0x%02X", (unsigned)(unsigned char)gate->text[gate->at]);
        return refuse_at(gate, gate->at, found, "well-formed UTF-8");
    }
    snprintf(found, sizeof found, "the control character U+%04X in a text", (unsigned)point);
    return refuse_at(gate, gate->at, found, "characters that can be shown");
}

/* A text from its opening quote; *span is what stands between the quotes, with the hash of what it means. */
static bool text_pass(struct gate *gate, bool breaks, struct member_name *span)
{
    uint32_t point = 0;

    span->hash = 14695981039346656037U; /* FNV-1a, 64 bits, by code point */
    span->offset = ++gate->at;
    while (gate->at < gate->n && gate->text[gate->at] != '"') {
        size_t length = text_next(gate->text + gate->at, gate->n - gate->at, &point);
        bool escaped_break = breaks && length == 2 && gate->text[gate->at] == '\\' && (point == '\n' || point == '\t');
        if (length == 0 || !(utf8_printable(point) || escaped_break))
            return refuse_character(gate, length, point);
        span->hash = (span->hash ^ point) * 1099511628211U;
        gate->at += length;
    }
    if (gate->at == gate->n)
        return refuse(gate, "the closing quote of a text");
    span->bytes = gate->at++ - span->offset;
    return true;
}

/* Both have passed text_pass. */
static bool same_name(const char *text, const struct member_name *a, const struct member_name *b)
{
    size_t i = 0, j = 0;
    uint32_t one = 0, other = 0;

    if (a->hash != b->hash)
        return false;
    while (i < a->bytes && j < b->bytes) {
        i += text_next(text + a->offset + i, a->bytes - i, &one);
        j += text_next(text + b->offset + j, b->bytes - j, &other);
        if (one != other)
            return false;
    }
    return i == a->bytes && j == b->bytes;
}

static bool count_value(struct gate *gate)
{
    if (++gate->values <= GATE_VALUES)
        return true;
    return refuse_at(gate, gate->at, "one value more", "at most 4000000 values");
}

static void value_done(struct gate *gate)
{
    gate->state = gate->depth == 0 ? WANT_NOTHING : WANT_COMMA_OR_CLOSE;
}

static bool open_level(struct gate *gate, bool object)
{
    if (gate->depth == GATE_DEPTH)
        return refuse(gate, "at most 32 objects and lists inside one another");
    gate->level[gate->depth++] = (struct level){object, gate->names};
    gate->state = object ? WANT_NAME_OR_CLOSE : WANT_VALUE_OR_CLOSE;
    gate->at++;
    return true;
}

static void close_level(struct gate *gate)
{
    gate->depth--;
    gate->names = gate->level[gate->depth].first_name;
    gate->at++;
    value_done(gate);
}

static bool number_pass(struct gate *gate)
{
    size_t start = gate->at, bytes;
    char found[GATE_NUMBER_BYTES + 3];
    double value;

    while (gate->at < gate->n && gate->text[gate->at] != '\0' &&
           strchr("+-.0123456789eE", gate->text[gate->at]) != NULL)
        gate->at++;
    bytes = gate->at - start;
    if (bytes > GATE_NUMBER_BYTES)
        return refuse_at(gate, start, "a longer number", "a number of at most 63 characters");
    snprintf(found, sizeof found, "'%.*s'", (int)bytes, gate->text + start);
    if (!number_read(gate->text + start, bytes, &value))
        return refuse_at(gate, start, found, "a finite number as JSON writes it");
    value_done(gate);
    return true;
}

static bool word_pass(struct gate *gate)
{
    static const char *const words[] = {"true", "false", "null"};
    size_t start = gate->at, end = start;

    while (end < gate->n && ((gate->text[end] | 32) >= 'a' && (gate->text[end] | 32) <= 'z'))
        end++;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        if (strlen(words[i]) == end - start && memcmp(words[i], gate->text + start, end - start) == 0) {
            gate->at = end;
            value_done(gate);
            return true;
        }
    }
    return refuse(gate, "a value: an object, a list, a text in double quotes, a number, true, false or null");
}

static bool want_value(struct gate *gate)
{
    struct member_name ignored;
    char c = gate->at < gate->n ? gate->text[gate->at] : '\0';

    if (!count_value(gate))
        return false;
    if (c == '{' || c == '[')
        return open_level(gate, c == '{');
    if (c == '-' || (c >= '0' && c <= '9'))
        return number_pass(gate);
    if (c != '"')
        return word_pass(gate);
    if (!text_pass(gate, true, &ignored))
        return false;
    value_done(gate);
    return true;
}

static bool want_value_or_close(struct gate *gate)
{
    if (gate->at == gate->n || gate->text[gate->at] != ']')
        return want_value(gate);
    close_level(gate);
    return true;
}

static bool keep_name(struct gate *gate, const struct member_name *name)
{
    size_t first = gate->level[gate->depth - 1].first_name;

    if (gate->names - first == GATE_MEMBERS)
        return refuse_at(gate, name->offset - 1, "one member more", "at most 256 members in an object");
    for (size_t i = first; i < gate->names; i++) {
        if (same_name(gate->text, &gate->name[i], name))
            return refuse_at(gate, name->offset - 1, "a member that this object has already", "each name once");
    }
    gate->name[gate->names++] = *name;
    return true;
}

static bool want_name(struct gate *gate)
{
    struct member_name name;

    if (gate->at == gate->n || gate->text[gate->at] != '"')
        return refuse(gate, "a member's name in double quotes");
    if (!text_pass(gate, false, &name) || !keep_name(gate, &name))
        return false;
    skip_space(gate);
    if (gate->at == gate->n || gate->text[gate->at] != ':')
        return refuse(gate, "':' after a member's name");
    gate->at++;
    gate->state = WANT_VALUE;
    return true;
}

static bool want_name_or_close(struct gate *gate)
{
    if (gate->at < gate->n && gate->text[gate->at] == '"')
        return want_name(gate);
    if (gate->at == gate->n || gate->text[gate->at] != '}')
        return refuse(gate, "a member's name in double quotes or '}'");
    close_level(gate);
    return true;
}

static bool want_comma_or_close(struct gate *gate)
{
    bool object = gate->level[gate->depth - 1].object;
    char c = gate->at < gate->n ? gate->text[gate->at] : '\0';

    if (c == ',') {
        gate->at++;
        gate->state = object ? WANT_NAME : WANT_VALUE;
        return true;
    }
    if (c != (object ? '}' : ']'))
        return refuse(gate, object ? "',' or '}'" : "',' or ']'");
    close_level(gate);
    return true;
}

enum lw_status gate_check(const char *text, size_t n, const char *name, struct lw_error *error)
{
    static bool (*const step[])(struct gate *) = {
        [WANT_VALUE] = want_value,
        [WANT_VALUE_OR_CLOSE] = want_value_or_close,
        [WANT_NAME] = want_name,
        [WANT_NAME_OR_CLOSE] = want_name_or_close,
        [WANT_COMMA_OR_CLOSE] = want_comma_or_close,
    };
    struct gate gate;

    /* Not initialised as a whole: the room for names is large and filled as it is used. */
    gate.text = text;
    gate.n = n;
    gate.file = name;
    gate.error = error;
    gate.state = WANT_VALUE;
    gate.at = gate.depth = gate.values = gate.names = 0;

    if (n >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) {
        refuse_at(&gate, 0, "a byte order mark", "UTF-8 that begins with '{'");
        return LW_INVALID;
    }
    skip_space(&gate);
    while (gate.state != WANT_NOTHING) {
        if (!step[gate.state](&gate))
            return LW_INVALID;
        skip_space(&gate);
    }
    if (gate.at < n) {
        refuse(&gate, "nothing after the end");
        return LW_INVALID;
    }
    return LW_OK;
}
