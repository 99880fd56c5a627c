/* arguments.h - takes the words of a command apart: options in any place, "--" ends them, "-" is an operand. */
#ifndef APP_ARGUMENTS_H
#define APP_ARGUMENTS_H

#include <stdbool.h>
#include <stddef.h>

#include "lyeway/status.h"

/* An option as its command declares it, and what was given for it. */
struct option {
    const char *name; /* "--oils" */
    bool takes_value;
    bool given;
    const char *value; /* NULL unless given and takes_value; borrowed from argv */
};

enum { OPERANDS_MOST = 16 };

struct arguments {
    struct option *option; /* the caller's, `options` of them, not given yet */
    size_t options;
    int operands;
    const char *operand[OPERANDS_MOST];
};

/* Reads argv[0] to argv[argc - 1], the words after the command's name. A value follows its option as the next word or after
 * "=". LW_INVALID with a sentence for an option that is unknown, given twice, without its value or with one it does not
 * take, and for too many operands. */
enum lw_status arguments_read(struct arguments *arguments, int argc, char *const argv[], struct lw_error *error);

#endif
