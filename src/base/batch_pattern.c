/* batch_pattern.c - whether batch numbers can be made by a pattern. */
#include <string.h>

#include "base/utf8.h"
#include "lyeway/batch.h"
#include "lyeway/settings.h"

enum { SERIAL_DIGITS = 9 }; /* that a serial number may come to need */

/* Digits of a conversion of strftime that is used here; 0: it is none of those. */
static size_t digits_of(char conversion)
{
    static const struct {
        char letter;
        size_t digits;
    } known[] = {{'Y', 4}, {'y', 2}, {'m', 2}, {'d', 2}, {'j', 3}};

    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
        if (known[i].letter == conversion)
            return known[i].digits;
    return 0;
}

/* Bytes of the pattern's next piece; *made: the most that become of it, 0 where it cannot be used. */
static size_t next_piece(const char *pattern, size_t *made)
{
    size_t run = strspn(pattern, "#");
    uint32_t point;

    if (run > 0) {
        *made = run <= SERIAL_DIGITS ? SERIAL_DIGITS : 0;
        return run;
    }
    if (*pattern == '%') {
        *made = digits_of(pattern[1]);
        return 2;
    }
    *made = utf8_next(pattern, strlen(pattern), &point);
    if (!utf8_printable(point) || (point == UTF8_BROKEN && *made == 1)) {
        *made = 0;
        return 1;
    }
    return *made;
}

bool batch_pattern_valid(const char *pattern)
{
    size_t length = 0, made = 0;
    int serials = 0;

    while (*pattern) {
        serials += *pattern == '#';

        size_t piece = next_piece(pattern, &made);

        if (made == 0)
            return false;
        length += made;
        pattern += piece;
    }
    return serials == 1 && length < BATCH_NUMBER_BYTES;
}
