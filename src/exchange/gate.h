/* gate.h - the first look at text from outside: is it JSON as RFC 8259 has it, and nothing that could surprise?
 *
 * One pass over the bytes, no recursion, no allocation, time linear in the text. What passes is one JSON value in
 * valid UTF-8 without a byte order mark; numbers are finite and have at most GATE_NUMBER_BYTES characters; no object
 * names a member twice, whichever way the name is escaped; every character of a text, escaped or not, may be shown on
 * a terminal (utf8_printable), newline and tab only as \n and \t and never in a member's name.
 */
#ifndef EXCHANGE_GATE_H
#define EXCHANGE_GATE_H

#include <stddef.h>

#include "lyeway/status.h"

enum {
    GATE_DEPTH = 32,        /* objects and lists inside one another, the outermost counted */
    GATE_MEMBERS = 256,     /* of one object */
    GATE_NUMBER_BYTES = 63, /* more than a double can tell apart */
    GATE_VALUES = 4000000   /* in all: bounds the memory of the tree that is built next */
};

/* Checks n bytes. LW_INVALID with a sentence that names `name`, line and column (both from 1, columns in characters),
 * what was found and what was expected. */
enum lw_status gate_check(const char *text, size_t n, const char *name, struct lw_error *error);

#endif
