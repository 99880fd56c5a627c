/* settings_lists.h - scales, vessels and keys of the settings from words, as settings_row.h shows them. */
#ifndef WORK_SETTINGS_LISTS_H
#define WORK_SETTINGS_LISTS_H

#include "lyeway/settings.h"
#include "lyeway/status.h"

/* Puts what the words say in place of element `index`, or behind the last where index is their number; empty words take it out.
 * LW_INVALID with a sentence. */
enum lw_status settings_set_scale(struct settings *settings, int index, const char *text, struct lw_error *error);
enum lw_status settings_set_vessel(struct settings *settings, int index, const char *text, struct lw_error *error);
enum lw_status settings_set_key(struct settings *settings, int index, const char *text, struct lw_error *error);

#endif
