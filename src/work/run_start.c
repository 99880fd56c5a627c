/* run_start.c - from a recipe to a batch: what it would be, whether it may start, and its first record. */
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "store/batches.h"
#include "work/run_inside.h"

enum { FROZEN_MOST_BYTES = 1 << 20 };

/* The draft, or the revision that is asked for, at the size that is asked. */
static enum lw_status load_recipe(struct workshop *workshop, const struct run_choice *choice, struct recipe *recipe,
                                  struct lw_error *error)
{
    const struct plan_size *size = &choice->size;
    enum lw_status status = recipes_load(workshop_store(workshop), choice->recipe_id, choice->revision, recipe, NULL,
                                         error);

    if (status == LW_OK)
        status = plan_size_check(size, error);
    if (status != LW_OK || size->by == PLAN_SIZE_OWN)
        return status;
    recipe->size.by = size->by == PLAN_SIZE_OILS ? SIZE_OILS : SIZE_BATTER;
    recipe->size.grams = size->grams;
    return LW_OK;
}

enum lw_status run_choose(struct workshop *workshop, int64_t recipe_id, struct run_choice *choice,
                          struct lw_error *error)
{
    const struct settings *settings = workshop_settings(workshop);
    struct lw_now now = workshop_now(workshop);

    *choice = (struct run_choice){.recipe_id = recipe_id, .order = settings->lye_order, .lye_vessel = -1, .jug = -1};
    return run_next_number(workshop_store(workshop), settings->batch_pattern, &now, choice->number, error);
}

/* The first finding that stands against a start; NULL where none does. A stop of any kind does; of cautions, that about lye
 * wants a reason. */
static const struct words *against(const struct plan_document *document, bool *stopped, bool *reason_wanted)
{
    *stopped = *reason_wanted = false;
    for (int i = 0; i < document->plan->findings; i++)
        if (document->plan->finding[i].level == LEVEL_STOP) {
            *stopped = true;
            return &document->words[i];
        }
    for (int i = 0; i < document->plan->findings; i++)
        if (document->plan->finding[i].code == FINDING_LYE_LIKELY &&
            document->plan->finding[i].level == LEVEL_CAUTION) {
            *reason_wanted = true;
            return &document->words[i];
        }
    return NULL;
}

enum lw_status run_preview(struct workshop *workshop, const struct run_choice *choice, struct version **version,
                           bool *stopped, bool *reason_wanted, struct lw_error *error)
{
    struct recipe recipe;
    const struct words *words;
    enum lw_status status = load_recipe(workshop, choice, &recipe, error);

    *version = NULL;
    *stopped = *reason_wanted = false;
    if (status == LW_OK && recipe.oils == 0)
        return lw_fail(error, LW_INVALID, "%s has no oils yet; add some before a batch is made of it.", recipe.name);
    if (status == LW_OK)
        status = version_of(&recipe, workshop_shelf(workshop), workshop_settings(workshop), workshop_lessons(workshop),
                            version, error);
    if (status != LW_OK)
        return status;
    words = against(version_document(*version), stopped, reason_wanted);
    if (words)
        lw_fail(error, LW_INVALID, "%s", words->what);
    return LW_OK;
}

static bool take_line(void *context, const struct recipe_line *line)
{
    struct recipe_line *wanted = context;

    if (line->id != wanted->id)
        return true;
    *wanted = *line;
    return false;
}

enum lw_status run_revision(struct workshop *workshop, const struct run_choice *choice, int *number, bool *kept,
                            struct lw_error *error)
{
    struct recipe_line line = {.id = choice->recipe_id, .changed = true};
    enum lw_status status = LW_OK;

    if (choice->revision == 0)
        status = recipes_each(workshop_store(workshop), "", true, RECIPES_BY_NAME, take_line, &line, error);
    *kept = choice->revision > 0 || !line.changed;
    *number = choice->revision > 0 ? choice->revision : line.revisions + line.changed;
    return status;
}

static int take_vessel(const struct settings *settings, int chosen, struct batch_head *head)
{
    if (chosen < 0 || chosen >= settings->vessels)
        return -1;
    text_copy(head->vessel[head->vessels].name, LW_NAME_BYTES, settings->vessel[chosen].name);
    head->vessel[head->vessels].empty_ug = settings->vessel[chosen].empty_ug;
    return head->vessels++;
}

static enum lw_status seal(struct workshop *workshop, int64_t recipe_id, const struct lw_now *now, int *number,
                           struct lw_error *error)
{
    enum lw_status status = recipes_seal(workshop_store(workshop), recipe_id, now, number, error);

    return status == LW_CONFLICT ? recipes_newest(workshop_store(workshop), recipe_id, number, error) : status;
}

static enum lw_status create(struct workshop *workshop, const struct run_choice *choice,
                             const struct plan_document *document, const struct lw_now *now, struct batch_head *head,
                             struct lw_error *error)
{
    struct step *steps = calloc(BATCH_STEPS, sizeof *steps);
    const struct settings *settings = workshop_settings(workshop);
    struct layout_choice layout = {.order = choice->order};
    struct buffer frozen, bench;
    enum lw_status status = LW_OK;
    int n = 0;

    buffer_init(&frozen, FROZEN_MOST_BYTES);
    buffer_init(&bench, FROZEN_MOST_BYTES);
    if (!steps)
        status = lw_fail(error, LW_FULL, "There is no memory left to start the batch.");
    layout.lye_vessel = take_vessel(settings, choice->lye_vessel, head);
    layout.jug = take_vessel(settings, choice->jug, head);
    if (status == LW_OK) {
        n = run_layout(document, &layout, steps);
        status = freeze(document->input, &frozen, error);
    }
    if (status == LW_OK) {
        freeze_bench(settings, &bench);
        lessons_freeze(workshop_lessons(workshop), document->input->recipe, &bench);
        status = buffer_status(&bench, error);
    }
    if (status == LW_OK)
        status = choice->revision > 0 ? LW_OK : seal(workshop, choice->recipe_id, now, &head->revision, error);
    if (status == LW_OK)
        status = batches_create(workshop_store(workshop), head, document->plan->oils_ug, buffer_text(&frozen),
                                buffer_text(&bench), steps, n, error);
    buffer_done(&frozen);
    buffer_done(&bench);
    free(steps);
    return status;
}

static enum lw_status note_reason(struct workshop *workshop, const struct run_choice *choice, const struct lw_now *now,
                                  int64_t id, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_REASON);

    if (!choice->reason[0])
        return LW_OK;
    event.id = 1;
    event.at_s = now->utc_s;
    text_copy(event.text, sizeof event.text, choice->reason);
    return batches_append(workshop_store(workshop), id, NULL, 0, &event, 1, error);
}

/* Everything in one transaction, so that a batch is there whole or not at all. */
static enum lw_status start(struct workshop *workshop, const struct run_choice *choice,
                            const struct plan_document *document, struct batch_head *head, struct lw_error *error)
{
    struct store *store = workshop_store(workshop);
    struct lw_now now = workshop_now(workshop);
    enum lw_status status = store_begin(store, error);

    if (status != LW_OK)
        return status;
    head->started_s = now.utc_s;
    head->offset_s = now.offset_s;
    status = create(workshop, choice, document, &now, head, error);
    if (status == LW_OK)
        status = note_reason(workshop, choice, &now, head->id, error);
    return store_end(store, status, error);
}

enum lw_status run_start(struct workshop *workshop, const struct run_choice *choice, int64_t *batch_id,
                         struct lw_error *error)
{
    struct batch_head head = {.recipe_id = choice->recipe_id, .revision = choice->revision};
    struct version *version;
    bool stopped, reason_wanted;
    enum lw_status status = run_preview(workshop, choice, &version, &stopped, &reason_wanted, error);

    if (status != LW_OK)
        return status;
    if (stopped || (reason_wanted && !choice->reason[0])) {
        version_free(version);
        return LW_INVALID; /* run_preview has said why */
    }
    text_copy(head.name, sizeof head.name, version_recipe(version)->name);
    text_copy(head.number, sizeof head.number, choice->number);
    status = start(workshop, choice, version_document(version), &head, error);
    version_free(version);
    *batch_id = head.id;
    return status;
}
