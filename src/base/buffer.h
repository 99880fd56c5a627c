/* buffer.h - a growing text with a hard limit. Failure is kept and looked at once, at the end. */
#ifndef BASE_BUFFER_H
#define BASE_BUFFER_H

#include <stdbool.h>
#include <stddef.h>

#include "lyeway/status.h"

struct buffer {
    char *data;    /* NULL until something is added; closed by NUL */
    size_t length; /* without the NUL */
    size_t size, limit;
    bool failed; /* out of memory or over the limit: nothing more is added */
};

/* Empty, at most `limit` bytes. */
void buffer_init(struct buffer *buffer, size_t limit);
void buffer_done(struct buffer *buffer);

/* Appends in printf form, or n bytes as they are. */
void buffer_add(struct buffer *buffer, const char *format, ...) __attribute__((format(printf, 2, 3)));
void buffer_add_bytes(struct buffer *buffer, const char *bytes, size_t n);

/* The text so far, "" where there is none. */
const char *buffer_text(const struct buffer *buffer);

/* LW_FULL with a sentence if it failed, else LW_OK. */
enum lw_status buffer_status(const struct buffer *buffer, struct lw_error *error);

#endif
