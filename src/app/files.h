/* files.h - reading a whole file, and writing to standard output so that a failure is noticed. */
#ifndef APP_FILES_H
#define APP_FILES_H

#include <stdbool.h>

#include "base/buffer.h"
#include "lyeway/status.h"

/* Appends all of the file `name` to *out, "-" is standard input; out->limit is the most that is read. LW_NOT_FOUND, LW_IO or
 * LW_FULL with a sentence that names the file. */
enum lw_status files_read(const char *name, struct buffer *out, struct lw_error *error);

/* Something of that name is there: a file, a pipe, or a folder (which files_read refuses with its own sentence). */
bool files_exist(const char *name);

/* Writes text to standard output and sees it through to the system. LW_IO or LW_FULL with a sentence. */
enum lw_status files_print(const char *text, struct lw_error *error);

#endif
