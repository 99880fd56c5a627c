/* settings_key.h - a key of the bench from words: "F5 for done". */
#ifndef WORK_SETTINGS_KEY_H
#define WORK_SETTINGS_KEY_H

#include "lyeway/settings.h"
#include "lyeway/status.h"

/* Puts what the words say in place of key `index`, or behind the last where index is their number; empty words take it out.
 * LW_INVALID with a sentence: no key and action, words too long, or a key that does something else already. Whether there is such
 * a key and action only the bench's own screen knows. */
enum lw_status settings_key_read(struct settings *settings, int index, const char *text, struct lw_error *error);

#endif
