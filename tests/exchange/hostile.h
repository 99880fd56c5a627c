/* hostile.h - names that would move a terminal's cursor, hide text or shift columns, and some that are only long or
 * wide. */
#ifndef TESTS_EXCHANGE_HOSTILE_H
#define TESTS_EXCHANGE_HOSTILE_H

/* clang-format off */
static const char *const hostile_names[] = {
    "A\033[31mB\033]0;x\007", "A\nB", "A\tB", "A\rB", "A\b\bB", "\xC2\x9B" "31m", "\xFF\xFE", "\xC0\xAF", "\xE2\x80\xAE" "evil", "a\xE2\x80\x8B" "b",
    "a\xE2\x80\x8D" "b", "e\xCC\x81\xCC\x81\xCC\x81\xCC\x81\xCC\x81\xCC\x81\xCC\x81", "\xE6\xBC\xA2\xF0\x9F\x8D\x8B",
    "\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2"
    "\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2\xE6\xBC\xA2",
    "\"quoted\\\" \\u0000 </script>", "%s%n%d", "",
    "12345678901234567890123456789012345678901234567890123456789012345678901234567890123456789012345",
    "a name with many words that goes on and on and on until there is no more room for it to go on",
};
/* clang-format on */

enum { HOSTILE_NAMES = sizeof hostile_names / sizeof hostile_names[0] };

#endif
