/* editor.c - the recipe under the maker's hands. */
#include "work/editor.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "work/history.h"
#include "work/version.h"

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
                                    struct lw_error *error)
{
    enum lw_status status = recipes_load(editor->store, editor->id, 0, &editor->recipe, &editor->draft, error);

    if (status == LW_OK)
        status = version_of(&editor->recipe, shelf, settings, &editor->is, error);
    if (status == LW_OK)
        status = version_of(&editor->recipe, shelf, settings, &editor->would_be, error);
    return status;
}

enum lw_status editor_open(struct store *store, int64_t id, const struct shelf *shelf, const struct settings *settings,
                           struct editor **editor, struct lw_error *error)
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
    status = open_versions(made, shelf, settings, error);
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

const struct plan_document *editor_document(const struct editor *editor)
{
    return version_document(editor->previewing ? editor->would_be : editor->is);
}

bool editor_previewing(const struct editor *editor)
{
    return editor->previewing;
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
    enum lw_status status = apply_all(&recipe, changes, n, error);

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
    editor->previewing = false;
}

enum lw_status editor_apply(struct editor *editor, const struct change changes[], int n, struct lw_error *error)
{
    enum lw_status status = editor_preview(editor, changes, n, error);

    if (status != LW_OK)
        return status;
    if (!room_to_wait(editor, n)) {
        editor->previewing = false;
        return lw_fail(error, LW_FULL, "There is no memory left for this change; nothing was changed.");
    }
    take_preview(editor);
    for (int i = 0; i < n; i++)
        wait_for_save(editor, &changes[i]);
    return history_add(editor->history, changes, n, error);
}

enum lw_status editor_replan(struct editor *editor, struct lw_error *error)
{
    editor->previewing = false;
    return version_set(editor->is, &editor->recipe, error);
}

enum lw_status editor_undo(struct editor *editor, struct lw_error *error)
{
    enum lw_status status;

    if (!room_to_wait(editor, EDITOR_CHANGES))
        return lw_fail(error, LW_FULL, "There is no memory left to undo; nothing was changed.");
    status = history_undo(editor->history, &editor->recipe, wait_for_save, editor, error);
    return status == LW_OK ? editor_replan(editor, error) : status;
}

enum lw_status editor_redo(struct editor *editor, struct lw_error *error)
{
    enum lw_status status;

    if (!room_to_wait(editor, EDITOR_CHANGES))
        return lw_fail(error, LW_FULL, "There is no memory left to redo; nothing was changed.");
    status = history_redo(editor->history, &editor->recipe, wait_for_save, editor, error);
    return status == LW_OK ? editor_replan(editor, error) : status;
}

bool editor_unsaved(const struct editor *editor)
{
    return editor->waiting_count > 0;
}

/* Somebody else saved: their draft, then our changes on top, as far as they still fit. */
static enum lw_status put_on_top(struct editor *editor, struct lw_error *error)
{
    enum lw_status status = recipes_load(editor->store, editor->id, 0, &editor->recipe, &editor->draft, error);
    int kept = 0;

    if (status != LW_OK)
        return status;
    for (int i = 0; i < editor->waiting_count; i++)
        if (change_apply(&editor->recipe, &editor->waiting[i], true, NULL) == LW_OK)
            editor->waiting[kept++] = editor->waiting[i];
    editor->waiting_count = kept;
    return editor_replan(editor, error);
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
    enum lw_status status;

    if (editor->waiting_count == 0)
        return LW_OK;
    status = save_waiting(editor, now, error);
    if (status != LW_CONFLICT)
        return status;
    status = put_on_top(editor, error);
    if (status == LW_OK)
        status = save_waiting(editor, now, error);
    if (status != LW_OK)
        return status;
    return lw_fail(error, LW_CONFLICT, "Another window changed this recipe too; both changes are kept and shown here.");
}

bool editor_refresh(struct editor *editor, struct lw_error *error)
{
    struct recipe recipe;
    int64_t draft;

    if (editor->waiting_count > 0 || recipes_load(editor->store, editor->id, 0, &recipe, &draft, error) != LW_OK ||
        draft == editor->draft)
        return false;
    editor->recipe = recipe;
    editor->draft = draft;
    return editor_replan(editor, error) == LW_OK;
}

enum lw_status editor_seal(struct editor *editor, const struct lw_now *now, int *number, struct lw_error *error)
{
    enum lw_status status = editor_save(editor, now, error);

    if (status != LW_OK && status != LW_CONFLICT)
        return status;
    return recipes_seal(editor->store, editor->id, now, number, error);
}
