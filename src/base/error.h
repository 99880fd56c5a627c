/* error.h - puts the one sentence of a failure where the caller can show it. */
#ifndef BASE_ERROR_H
#define BASE_ERROR_H

#include "lyeway/status.h"

/* Formats the sentence (printf form) into *error, cut at a whole character if too long, control characters replaced by
 * '?'. error may be NULL. Returns status, so that a failing function can end in `return lw_fail(...)`. */
enum lw_status lw_fail(struct lw_error *error, enum lw_status status, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

#endif
