/* text.h - bounded strings: written into a caller's array, always closed, never cut inside a character. */
#ifndef BASE_TEXT_H
#define BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>

/* Copies as many whole UTF-8 characters of `from` as fit `size` bytes with the closing NUL. False if it was cut. */
bool text_copy(char *to, size_t size, const char *from);

/* Appends in printf form under the same rule. `to` holds a string already. False if it was cut. */
bool text_add(char *to, size_t size, const char *format, ...) __attribute__((format(printf, 3, 4)));

/* Equal without regard to the case of ASCII letters. */
bool text_same(const char *a, const char *b);

/* `word` occurs in `text` without regard to the case of ASCII letters; "" occurs everywhere. */
bool text_has(const char *text, const char *word);

/* Least number of single-character insertions, removals and replacements that make one of the other, ASCII case apart
 * (Levenshtein); at most `most` is looked for and most + 1 returned beyond. Names up to 255 bytes, longer compare as far. */
size_t text_distance(const char *a, const char *b, size_t most);

#endif
