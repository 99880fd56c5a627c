/* command.c - how a command says that it failed. */
#include "app/command.h"

#include <stdio.h>

enum command_exit command_fail(const struct command_call *call, enum command_exit exit, const struct lw_error *error)
{
    fprintf(stderr, "lyeway: %s\n", error->text);
    if (exit == COMMAND_USAGE)
        fprintf(stderr, "usage: lyeway %s\n", call->command->usage);
    return exit;
}
