/* status.h - how a function that can fail says so.
 *
 * A status is for the program, an error's text for a person: one sentence with what was found, where, and what to do.
 * What a maker should know about a recipe is never an error but a finding (finding.h).
 */
#ifndef LYEWAY_STATUS_H
#define LYEWAY_STATUS_H

enum lw_status {
    LW_OK = 0,
    LW_NOT_FOUND, /* no such name, key, file or record */
    LW_CONFLICT,  /* somebody else changed or holds it */
    LW_INVALID,   /* what was given cannot be used */
    LW_BUSY,      /* held by another for the moment; again later */
    LW_FULL,      /* a named limit is reached, or the disk or memory is full */
    LW_IO,        /* reading or writing failed */
    LW_CORRUPT    /* what was read is damaged */
};

enum { LW_ERROR_BYTES = 512 };

struct lw_error {
    char text[LW_ERROR_BYTES]; /* one sentence, UTF-8, no newline; empty where nothing failed */
};

#endif
