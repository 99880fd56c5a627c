/* history.h - every change since the recipe was opened, so that undo and redo have no limit but memory. */
#ifndef WORK_HISTORY_H
#define WORK_HISTORY_H

#include "work/change.h"

struct history;

/* NULL without memory. */
struct history *history_new(void);
void history_free(struct history *history);

/* Forgets everything. */
void history_clear(struct history *history);

/* Remembers n changes as one group; what was undone before is forgotten. LW_FULL without memory: the history is as it was, and
 * the changes must not be made, since the steps before them could not be taken back any more. */
enum lw_status history_add(struct history *history, const struct change changes[], int n, struct lw_error *error);

/* Takes the last group back, or does it again, by change_apply. `each` (may be NULL) is called after each applied change, with
 * the change as it would have to be done forward to get there. LW_NOT_FOUND where there is none. */
enum lw_status history_undo(struct history *history, struct recipe *recipe,
                            void (*each)(void *context, const struct change *change), void *context,
                            struct lw_error *error);
enum lw_status history_redo(struct history *history, struct recipe *recipe,
                            void (*each)(void *context, const struct change *change), void *context,
                            struct lw_error *error);

#endif
