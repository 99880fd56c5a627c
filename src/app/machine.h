/* machine.h - what only the app may ask of the machine: the time, randomness, and where the maker's records are. */
#ifndef APP_MACHINE_H
#define APP_MACHINE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "lyeway/now.h"
#include "lyeway/status.h"

/* The clocks. LYEWAY_NOW, seconds since 1970 UTC, stands in for the day's clock where it is set: for tests and for screens that
 * must look the same every day. */
void machine_now(void *context, struct lw_now *now);

/* Ends the program where the system has no randomness to give: nothing could be stored then. */
void machine_random(void *context, uint8_t *bytes, size_t n);

/* Where records are kept: `given` unless NULL, else $LYEWAY_DB, else lyeway/lyeway.db in $XDG_DATA_HOME or ~/.local/share; an empty
 * variable counts as unset. LW_NOT_FOUND with a sentence where there is no place. */
enum lw_status machine_records(const char *given, char *out, size_t size, struct lw_error *error);

/* The maker wants no colour: NO_COLOR is set and not empty. */
bool machine_no_colour(void);

#endif
