/* editor.c - the recipe under the maker's hands. */
#include "work/editor.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "work/history.h"
#include "work/merge.h"
#include "work/version.h"

/* Others who save in the very moment between reading their draft and writing ours. */
enum { MERGES_MOST = 3 };

struct editor {
    struct store *store;
    int64_t id, draft; /* draft: its version number in the store */
    struct recipe recipe;
    struct version *is, *would_be; /* what the recipe is; what it would be, while typing */
    bool previewing;
    struct history *history;
    struct change *waiting; /* to be saved, oldest first */
    int waiting_count, waiting_size;
};

static enum lw_status open_versions(struct editor *editor, const struct shelf *shelf, const struct settings *settings,
                                    const struct lessons *lessons, struct lw_error *error)
{
    enum lw_status status = recipes_load(editor->store, editor->id, 0, &editor->recipe, &editor->draft, error);

    if (status == LW_OK)
        status = version_of(&editor->recipe, shelf, settings, lessons, &editor->is, error);
    if (status == LW_OK)
        status = version_of(&editor->recipe, shelf, settings, lessons, &editor->would_be, error);
    return status;
}

enum lw_status editor_open(struct store *store, int64_t id, const struct shelf *shelf, const struct settings *settings,
                           const struct lessons *lessons, struct editor **editor, struct lw_error *error)
{
    struct editor *made = calloc(1, sizeof *made);
    enum lw_status status;

    *editor = NULL;
    if (!made || !(made->history = history_new())) {
        free(made);
        return lw_fail(error, LW_FULL, "There is no memory left to open the recipe.");
    }
    made->store = store;
    made->id = id;
    status = open_versions(made, shelf, settings, lessons, error);
    if (status == LW_OK)
        *editor = made;
    else
        editor_free(made);
    return status;
}

void editor_free(struct editor *editor)
{
    if (!editor)
        return;
    version_free(editor->is);
    version_free(editor->would_be);
    history_free(editor->history);
    free(editor->waiting);
    free(editor);
}

int64_t editor_id(const struct editor *editor)
{
    return editor->id;
}

const struct recipe *editor_recipe(const struct editor *editor)
{
    return &editor->recipe;
}

const struct plan *editor_plan(const struct editor *editor)
{
    return version_document(editor->is)->plan;
}

const struct plan_document *editor_document(const struct editor *editor)
{
    return version_document(editor->previewing ? editor->would_be : editor->is);
}

void editor_preview_end(struct editor *editor)
{
    editor->previewing = false;
}

static enum lw_status apply_all(struct recipe *recipe, const struct change changes[], int n, struct lw_error *error)
{
    for (int i = 0; i < n; i++) {
        enum lw_status status = change_apply(recipe, &changes[i], true, error);

        if (status != LW_OK)
            return status;
    }
    return LW_OK;
}

enum lw_status editor_preview(struct editor *editor, const struct change changes[], int n, struct lw_error *error)
{
    struct recipe recipe = editor->recipe;
    enum lw_status status = n <= EDITOR_CHANGES
                                ? apply_all(&recipe, changes, n, error)
                                : lw_fail(error, LW_FULL, "One step has at most %d changes.", EDITOR_CHANGES);

    if (status == LW_OK)
        status = version_set(editor->would_be, &recipe, error);
    editor->previewing = status == LW_OK;
    return status;
}

static bool room_to_wait(struct editor *editor, int n)
{
    int size = editor->waiting_size ? editor->waiting_size : EDITOR_CHANGES;
    struct change *waiting;

    while (size < editor->waiting_count + n)
        size *= 2;
    if (size == editor->waiting_size)
        return true;
    waiting = realloc(editor->waiting, (size_t)size * sizeof *waiting);
    if (!waiting)
        return false;
    editor->waiting = waiting;
    editor->waiting_size = size;
    return true;
}

/* Callers have made room for a whole step. */
static void wait_for_save(void *context, const struct change *change)
{
    struct editor *editor = context;

    editor->waiting[editor->waiting_count++] = *change;
}

/* The preview holds exactly what the recipe is to become: the two change places. */
static void take_preview(struct editor *editor)
{
    struct version *before = editor->is;

    editor->is = editor->would_be;
    editor->would_be = before;
    editor->recipe = *version_recipe(editor->is);
}

enum lw_status editor_apply(struct editor *editor, const struct change changes[], int n, struct lw_error *error)
{
    enum lw_status status = editor_preview(editor, changes, n, error);

    if (status != LW_OK)
        return status;
    if (!room_to_wait(editor, n))
        status = lw_fail(error, LW_FULL, "There is no memory left for this change; nothing was changed.");
    else
        status = history_add(editor->history, changes, n, error);
    editor->previewing = false;
    if (status != LW_OK)
        return status;
    take_preview(editor);
    for (int i = 0; i < n; i++)
        wait_for_save(editor, &changes[i]);
    return LW_OK;
}

enum lw_status editor_replan(struct editor *editor, struct lw_error *error)
{
    editor->previewing = false;
    return version_set(editor->is, &editor->recipe, error);
}

typedef enum lw_status (*step)(struct history *history, struct recipe *recipe,
                               void (*each)(void *context, const struct change *change), void *context,
                               struct lw_error *error);

/* A step through the history; where the recipe there cannot be planned, as one that names what is not on the shelf any more,
 * the opposite step leads back. */
static enum lw_status go(struct editor *editor, step there, step back, struct lw_error *error)
{
    int waiting = editor->waiting_count;
    enum lw_status status;

    if (!room_to_wait(editor, EDITOR_CHANGES))
        return lw_fail(error, LW_FULL, "There is no memory left for this step; nothing was changed.");
    status = there(editor->history, &editor->recipe, wait_for_save, editor, error);
    if (status != LW_OK)
        return status;
    status = editor_replan(editor, error);
    if (status == LW_OK)
        return LW_OK;
    back(editor->history, &editor->recipe, NULL, NULL, NULL);
    editor->waiting_count = waiting;
    return status;
}

enum lw_status editor_undo(struct editor *editor, struct lw_error *error)
{
    return go(editor, history_undo, history_redo, error);
}

enum lw_status editor_redo(struct editor *editor, struct lw_error *error)
{
    return go(editor, history_redo, history_undo, error);
}

bool editor_unsaved(const struct editor *editor)
{
    return editor->waiting_count > 0;
}

/* Takes over a recipe that somebody else had a hand in, if it can be planned. */
static enum lw_status take_foreign(struct editor *editor, const struct recipe *recipe, int64_t draft,
                                   struct lw_error *error)
{
    enum lw_status status = version_set(editor->is, recipe, error);

    if (status != LW_OK)
        return status;
    editor->recipe = *recipe;
    editor->draft = draft;
    editor->previewing = false;
    history_clear(editor->history);
    return LW_OK;
}

/* Somebody else saved: their draft, then our changes on top, as far as they still fit. */
static enum lw_status put_on_top(struct editor *editor, struct lw_error *error)
{
    struct change *fitted = malloc((size_t)editor->waiting_size * sizeof *fitted);
    struct recipe recipe;
    int64_t draft;
    int kept;
    enum lw_status status;

    if (!fitted)
        return lw_fail(error, LW_FULL, "There is no memory left to save beside another window; the changes wait.");
    status = recipes_load(editor->store, editor->id, 0, &recipe, &draft, error);
    if (status == LW_OK) {
        kept = merge_changes(&recipe, editor->waiting, editor->waiting_count, fitted);
        status = take_foreign(editor, &recipe, draft, error);
    }
    if (status != LW_OK) {
        free(fitted);
        return status;
    }
    free(editor->waiting);
    editor->waiting = fitted;
    editor->waiting_count = kept;
    return LW_OK;
}

static enum lw_status save_waiting(struct editor *editor, const struct lw_now *now, struct lw_error *error)
{
    enum lw_status status = recipes_save(editor->store, editor->id, &editor->draft, editor->waiting,
                                         editor->waiting_count, now, error);

    if (status == LW_OK)
        editor->waiting_count = 0;
    return status;
}

enum lw_status editor_save(struct editor *editor, const struct lw_now *now, struct lw_error *error)
{
    int waited = editor->waiting_count, merged = 0;
    bool all = true;
    enum lw_status status = LW_OK;

    if (waited > 0)
        status = save_waiting(editor, now, error);
    for (; status == LW_CONFLICT && merged < MERGES_MOST; merged++) {
        status = put_on_top(editor, error);
        if (status != LW_OK)
            return status;
        all = all && editor->waiting_count == waited;
        if (editor->waiting_count > 0)
            status = save_waiting(editor, now, error);
    }
    if (status != LW_OK || merged == 0)
        return status;
    return lw_fail(error, LW_CONFLICT, "Another window changed this recipe too; %s.",
                   all ? "both changes are kept and shown here"
                       : "not all that was changed here still fits, so look it over");
}

bool editor_refresh(struct editor *editor, struct lw_error *error)
{
    struct recipe recipe;
    int64_t draft;

    if (editor->waiting_count > 0 || recipes_load(editor->store, editor->id, 0, &recipe, &draft, error) != LW_OK ||
        draft == editor->draft)
        return false;
    return take_foreign(editor, &recipe, draft, error) == LW_OK;
}

enum lw_status editor_seal(struct editor *editor, const struct lw_now *now, int *number, struct lw_error *error)
{
    enum lw_status status = editor_save(editor, now, error);

    if (status != LW_OK && status != LW_CONFLICT)
        return status;
    return recipes_seal(editor->store, editor->id, now, number, error);
}
