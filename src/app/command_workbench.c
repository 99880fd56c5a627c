/* command_workbench.c - opens the workbench on the terminal. */
#include <unistd.h>

#include "app/machine.h"
#include "app/session.h"
#include "base/error.h"
#include "ui/screens/shell.h"

enum command_exit command_workbench(const struct command_call *call)
{
    struct shell_options options = {.colour = !machine_no_colour(), .demo = call->demo};
    struct workshop *workshop;
    struct lw_error error = {""};
    int ended_by = 0;
    enum command_exit exit;

    /* Before records are made for nothing. */
    if (!isatty(STDIN_FILENO) || !isatty(STDOUT_FILENO)) {
        lw_fail(&error, LW_INVALID, "The workbench needs a terminal; lyeway --help lists the commands that do not.");
        return command_fail(call, COMMAND_REFUSED, &error);
    }
    exit = session_open(call, true, &workshop);
    if (exit != COMMAND_DONE)
        return exit;
    if (shell_run(workshop, &options, &ended_by, &error) != LW_OK)
        exit = command_fail(call, COMMAND_REFUSED, &error);
    exit = session_close(call, workshop, exit);
    return ended_by ? (enum command_exit)(128 + ended_by) : exit;
}
