/* editor.h - one recipe being changed: its value, its plan, undo and redo, and what is still to be saved.
 *
 * A key that types makes a preview: the plan of the recipe as it would be. Enter applies: the recipe changes, the step is
 * remembered, and the changes wait until editor_save writes them, which the loop calls after the paint. A save that fails
 * leaves them waiting and says so.
 */
#ifndef WORK_EDITOR_H
#define WORK_EDITOR_H

#include "lyeway/document.h"
#include "lyeway/now.h"
#include "lyeway/settings.h"
#include "store/recipes.h"
#include "store/shelf.h"
#include "work/lessons.h"
#include "work/change.h"

struct editor;

enum { EDITOR_CHANGES = 40 }; /* at most in one step */

/* The store, shelf, settings and lessons (NULL: practice alone) stay the caller's and must outlive the editor. */
enum lw_status editor_open(struct store *store, int64_t id, const struct shelf *shelf, const struct settings *settings,
                           const struct lessons *lessons, struct editor **editor, struct lw_error *error);
void editor_free(struct editor *editor);

int64_t editor_id(const struct editor *editor);
const struct recipe *editor_recipe(const struct editor *editor);

/* The plan of the recipe as it is, also while there is a preview: what cells are read against (cell.h). */
const struct plan *editor_plan(const struct editor *editor);

/* The plan to show: of the preview while there is one, else of the recipe. With its words. */
const struct plan_document *editor_document(const struct editor *editor);

/* Plans the recipe as n changes would make it; replaces the preview before. A name that is not known or a full list: a
 * sentence, and the preview is gone. */
enum lw_status editor_preview(struct editor *editor, const struct change changes[], int n, struct lw_error *error);
void editor_preview_end(struct editor *editor);

/* Makes the changes; ends the preview. All or none. */
enum lw_status editor_apply(struct editor *editor, const struct change changes[], int n, struct lw_error *error);

enum lw_status editor_undo(struct editor *editor, struct lw_error *error);
enum lw_status editor_redo(struct editor *editor, struct lw_error *error);

bool editor_unsaved(const struct editor *editor);

/* Writes what waits in one transaction; LW_OK where nothing does. Where somebody else saved meanwhile, their draft is read and
 * ours put on top of it (merge.h): LW_CONFLICT with a sentence tells that it was saved and that the recipe on the screen has
 * changed. Undo begins anew then: steps made on another recipe would take back what somebody else did. On any other failure
 * everything is as it was, and waits. */
enum lw_status editor_save(struct editor *editor, const struct lw_now *now, struct lw_error *error);

/* Reads the draft again if somebody else changed it; true if the recipe is another than before. Undo begins anew then. */
bool editor_refresh(struct editor *editor, struct lw_error *error);

/* Shelf or settings were changed: resolve and plan anew. With a name that is not known any more the plan stays as it was. */
enum lw_status editor_replan(struct editor *editor, struct lw_error *error);

/* Keeps the draft as a revision; saves before. */
enum lw_status editor_seal(struct editor *editor, const struct lw_now *now, int *number, struct lw_error *error);

#endif
