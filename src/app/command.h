/* command.h - what every command of the command line is given, and what it answers with. */
#ifndef APP_COMMAND_H
#define APP_COMMAND_H

#include <stdbool.h>

#include "lyeway/status.h"

/* Exit statuses; part of the program's interface. */
enum command_exit {
    COMMAND_DONE = 0,
    COMMAND_REFUSED = 1, /* with a sentence on standard error */
    COMMAND_USAGE = 2,   /* wrong usage */
    COMMAND_RECORDS = 3, /* trouble with the records */
    COMMAND_STOP = 4     /* a stop finding under --strict */
};

struct command_call {
    const struct command *command;
    bool demo;      /* on demo records */
    const char *db; /* the records of --db; NULL: the usual ones */
    int argc;       /* the words after the command's name */
    char *const *argv;
};

struct command {
    const char *name, *usage, *summary;
    enum command_exit (*run)(const struct command_call *call);
};

/* Says the sentence on standard error; for COMMAND_USAGE the command's usage as well. Returns exit. */
enum command_exit command_fail(const struct command_call *call, enum command_exit exit, const struct lw_error *error);

enum command_exit command_plan(const struct command_call *call);
enum command_exit command_sheet(const struct command_call *call);
enum command_exit command_import(const struct command_call *call);
enum command_exit command_export(const struct command_call *call);
enum command_exit command_batches(const struct command_call *call);
enum command_exit command_verify(const struct command_call *call);
enum command_exit command_backup(const struct command_call *call);
enum command_exit command_restore(const struct command_call *call);

/* The workbench itself: no command at all. */
enum command_exit command_workbench(const struct command_call *call);

#endif
