/* session.h - the records that a command works on, opened as the command line asks. */
#ifndef APP_SESSION_H
#define APP_SESSION_H

#include "app/command.h"
#include "work/workshop.h"

/* Opens the records of the call: the maker's, those of --db, or the demo's. `create`: made if absent; else LW_NOT_FOUND. On failure
 * says why and returns the exit status for it; COMMAND_DONE with *workshop open otherwise. */
enum command_exit session_open(const struct command_call *call, bool create, struct workshop **workshop);

/* Closes and says what went wrong in it, if anything; `exit` unless closing failed. */
enum command_exit session_close(const struct command_call *call, struct workshop *workshop, enum command_exit exit);

/* Exit status for a failure while working on records. */
enum command_exit session_exit(enum lw_status status);

/* A percentage with `words` (a text) before it on the standard error, where a person looks at it. */
void session_progress(void *words, int done, int all);

/* The path of the records. */
enum lw_status session_path(const struct command_call *call, char *out, size_t size, struct lw_error *error);

#endif
