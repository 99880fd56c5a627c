/* editor.c - the recipe under the maker's hands. */
#include "work/editor.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "work/history.h"
#include "work/resolve.h"
#include "work/words.h"

/* A recipe with all that is computed of it. Two of them: what is, and what would be while typing. */
struct version {
    struct recipe recipe;
    struct recipe planned; /* the recipe with the bench's scales where it names none */
    struct recipe_facts facts;
    struct plan_input input;
    struct plan plan;
    struct words words[PLAN_FINDINGS];
    struct plan_document document;
};

struct editor {
    struct store *store;
    int64_t id, draft; /* draft: its version in the store */
    const struct shelf *shelf;
    const struct settings *settings;
    struct bench bench;
    struct version is, would_be;
    bool previewing;
    struct history *history;
    struct change *waiting; /* to be saved, oldest first */
    int waiting_count, waiting_size;
};

static struct shelf_rows rows_of(const struct shelf *shelf)
{
    if (!shelf)
        return (struct shelf_rows){0};
    return (struct shelf_rows){.oils = shelf->oils,
                               .additives = shelf->additives,
                               .liquids = shelf->liquids,
                               .colourants = shelf->colourants,
                               .fragrances = shelf->fragrances,
                               .oil = shelf->oil,
                               .additive = shelf->additive,
                               .liquid = shelf->liquid,
                               .colourant = shelf->colourant,
                               .fragrance = shelf->fragrance};
}

static void take_bench_scales(const struct settings *settings, struct recipe *recipe)
{
    if (recipe->scales > 0)
        return;
    recipe->scales = settings->scales;
    memcpy(recipe->scale, settings->scale, sizeof recipe->scale);
}

static void make_words(struct version *version)
{
    for (int i = 0; i < version->plan.findings; i++)
        words_of_finding(&version->input, &version->plan, &version->plan.finding[i], version->document.unit,
                         &version->words[i]);
    version->document.margin_word = words_of_margin(&version->plan);
}

static enum lw_status plan_version(const struct editor *editor, struct version *version, struct lw_error *error)
{
    struct shelf_rows rows = rows_of(editor->shelf);
    enum lw_status status = resolve_recipe(&version->recipe, &rows, "", &version->facts, error);

    if (status != LW_OK)
        return status;
    version->planned = version->recipe;
    take_bench_scales(editor->settings, &version->planned);
    version->input = (struct plan_input){.recipe = &version->planned,
                                         .facts = &version->facts,
                                         .reference = facts_reference(),
                                         .bench = &editor->bench};
    plan_compute(&version->input, &version->plan);
    version->document = (struct plan_document){.input = &version->input,
                                               .plan = &version->plan,
                                               .words = version->words,
                                               .unit = editor->settings->mass_unit};
    make_words(version);
    return LW_OK;
}

enum lw_status editor_open(struct store *store, int64_t id, const struct shelf *shelf, const struct settings *settings,
                           struct editor **editor, struct lw_error *error)
{
    struct editor *made = calloc(1, sizeof *made);
    enum lw_status status = LW_FULL;

    *editor = NULL;
    if (!made || !(made->history = history_new())) {
        free(made);
        return lw_fail(error, LW_FULL, "There is no memory left to open the recipe.");
    }
    made->store = store;
    made->id = id;
    made->shelf = shelf;
    made->settings = settings;
    made->bench = plan_bench_common();
    status = recipes_load(store, id, 0, &made->is.recipe, &made->draft, error);
    if (status == LW_OK)
        status = plan_version(made, &made->is, error);
    if (status != LW_OK) {
        editor_free(made);
        return status;
    }
    *editor = made;
    return LW_OK;
}

void editor_free(struct editor *editor)
{
    if (!editor)
        return;
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
    return &editor->is.recipe;
}

const struct plan_document *editor_document(const struct editor *editor)
{
    return editor->previewing ? &editor->would_be.document : &editor->is.document;
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
    enum lw_status status;

    editor->previewing = false;
    editor->would_be.recipe = editor->is.recipe;
    status = apply_all(&editor->would_be.recipe, changes, n, error);
    if (status == LW_OK)
        status = plan_version(editor, &editor->would_be, error);
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

/* The preview holds exactly what the recipe is to become: it is taken over as it is. */
static void take_preview(struct editor *editor)
{
    editor->is = editor->would_be;
    editor->is.input.recipe = &editor->is.planned;
    editor->is.input.facts = &editor->is.facts;
    editor->is.document.input = &editor->is.input;
    editor->is.document.plan = &editor->is.plan;
    editor->is.document.words = editor->is.words;
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
    return plan_version(editor, &editor->is, error);
}

enum lw_status editor_undo(struct editor *editor, struct lw_error *error)
{
    enum lw_status status;

    if (!room_to_wait(editor, EDITOR_CHANGES))
        return lw_fail(error, LW_FULL, "There is no memory left to undo; nothing was changed.");
    status = history_undo(editor->history, &editor->is.recipe, wait_for_save, editor, error);
    return status == LW_OK ? editor_replan(editor, error) : status;
}

enum lw_status editor_redo(struct editor *editor, struct lw_error *error)
{
    enum lw_status status;

    if (!room_to_wait(editor, EDITOR_CHANGES))
        return lw_fail(error, LW_FULL, "There is no memory left to redo; nothing was changed.");
    status = history_redo(editor->history, &editor->is.recipe, wait_for_save, editor, error);
    return status == LW_OK ? editor_replan(editor, error) : status;
}

bool editor_unsaved(const struct editor *editor)
{
    return editor->waiting_count > 0;
}

/* Somebody else saved: their draft, then our changes on top, as far as they still fit. */
static enum lw_status put_on_top(struct editor *editor, struct lw_error *error)
{
    enum lw_status status = recipes_load(editor->store, editor->id, 0, &editor->is.recipe, &editor->draft, error);
    int kept = 0;

    if (status != LW_OK)
        return status;
    for (int i = 0; i < editor->waiting_count; i++)
        if (change_apply(&editor->is.recipe, &editor->waiting[i], true, NULL) == LW_OK)
            editor->waiting[kept++] = editor->waiting[i];
    editor->waiting_count = kept;
    return editor_replan(editor, error);
}

static enum lw_status save_waiting(struct editor *editor, const struct lw_now *now, struct lw_error *error)
{
    enum lw_status status =
        recipes_save(editor->store, editor->id, &editor->draft, editor->waiting, editor->waiting_count, now, error);

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
    editor->is.recipe = recipe;
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
