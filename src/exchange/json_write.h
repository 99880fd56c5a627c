/* json_write.h - writes JSON: a member or element a line, two spaces a level, numbers short and without regard to the
 * locale.
 *
 * `name` is NULL for an element of a list. What is written passes gate_check: a character that may not be shown
 * becomes '?'.
 */
#ifndef EXCHANGE_JSON_WRITE_H
#define EXCHANGE_JSON_WRITE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/buffer.h"

struct json_writer {
    struct buffer *out;
    int depth;
    bool empty; /* nothing yet in the innermost object or list */
};

struct json_writer json_writer_begin(struct buffer *out);
void json_writer_end(struct json_writer *writer);

void json_object(struct json_writer *writer, const char *name);
void json_list(struct json_writer *writer, const char *name);
void json_end_object(struct json_writer *writer);
void json_end_list(struct json_writer *writer);

void json_text(struct json_writer *writer, const char *name, const char *text);

/* A colour 0xRRGGBB as "#RRGGBB". */
void json_rgb(struct json_writer *writer, const char *name, unsigned rgb);
void json_flag(struct json_writer *writer, const char *name, bool flag);
void json_null(struct json_writer *writer, const char *name);

/* At most that many decimals, trailing zeros left out; a number that is not finite is null. */
void json_number(struct json_writer *writer, const char *name, double number, int decimals);

/* Micrograms as grams, with the decimals that the division shows; division 0: as many as it takes. */
void json_mass(struct json_writer *writer, const char *name, int64_t ug, int64_t division_ug);

/* [lo, hi] on one line. */
void json_interval(struct json_writer *writer, const char *name, double lo, double hi, int decimals);

#endif
