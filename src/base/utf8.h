/* utf8.h - checking and measuring text from outside. Width is by the program's own table, not by the locale. */
#ifndef BASE_UTF8_H
#define BASE_UTF8_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { UTF8_BROKEN = 0xFFFD };

/* Next character of s (n bytes left, n > 0): stores its code point and returns its length, 1 to 4 bytes. Broken UTF-8
 * (overlong, surrogate, above U+10FFFF, cut off) gives UTF8_BROKEN and length 1; a real U+FFFD has length 3. */
size_t utf8_next(const char *s, size_t n, uint32_t *point);

/* Writes the code point, 1 to 4 bytes, no NUL; returns the length. */
size_t utf8_put(uint32_t point, char out[4]);

/* All of s is well-formed. *bad is the offset of the first byte that is not. */
bool utf8_valid(const char *s, size_t n, size_t *bad);

/* Length of s without the beginning of a character that is cut off at its end: n, or up to 3 less. */
size_t utf8_whole(const char *s, size_t n);

/* A code point that may stand in a name or note: no C0, DEL or C1 control, no bidirectional control (U+202A-202E,
 * U+2066-2069, U+061C, U+200E, U+200F), no noncharacter. A newline and tab only where notes allow them: not here. */
bool utf8_printable(uint32_t point);

/* Columns of a terminal: 0 combining or zero width, 2 wide or fullwidth, 1 others. */
int utf8_width(uint32_t point);

/* Columns of a whole string; characters that are not printable count as the one '?' they are drawn as. */
size_t utf8_columns(const char *s);

/* Copies s so that it is harmless on a terminal: what is not printable becomes '?', more than 4 combining marks in a row
 * are dropped. Cut to `columns` columns, with an ellipsis in the middle where it was longer, and to whole characters. */
void utf8_clean(char *out, size_t size, const char *s, size_t columns);

#endif
