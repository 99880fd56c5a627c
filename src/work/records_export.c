/* records_export.c - out of the records: as an exchange file, or as a plan. */
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "exchange/plan_json.h"
#include "exchange/recipe_json.h"
#include "exchange/sheet.h"
#include "work/plan_file.h"
#include "work/records.h"
#include "store/book.h"
#include "work/run.h"
#include "work/version.h"

struct chosen {
    struct recipe **recipe;
    size_t count, room;
    int64_t *id;
};

static void free_chosen(struct chosen *chosen)
{
    for (size_t i = 0; chosen->recipe && i < chosen->count; i++)
        free(chosen->recipe[i]);
    free(chosen->recipe);
    free(chosen->id);
}

static bool remember(void *context, const struct recipe_line *line)
{
    struct chosen *chosen = context;

    if (line->archived)
        return true;
    if (chosen->count == chosen->room) {
        size_t room = chosen->room ? chosen->room * 2 : 32;
        int64_t *id = realloc(chosen->id, room * sizeof *id);

        if (!id)
            return false;
        chosen->id = id;
        chosen->room = room;
    }
    chosen->id[chosen->count++] = line->id;
    return true;
}

/* A name as it is written, or else in any case, where only one recipe is called so. */
struct named {
    const char *name;
    int64_t id;
    int found;
};

static bool take_named(void *context, const struct recipe_line *line)
{
    struct named *named = context;

    if (text_same(line->name, named->name)) {
        named->id = line->id;
        named->found++;
    }
    return true;
}

static enum lw_status find_name(struct workshop *workshop, const char *name, int64_t *id, struct lw_error *error)
{
    struct named named = {.name = name};
    enum lw_status status = recipes_find(workshop_store(workshop), NULL, name, id, error);

    if (status != LW_NOT_FOUND)
        return status;
    if (recipes_each(workshop_store(workshop), name, true, RECIPES_BY_NAME, take_named, &named, NULL) != LW_OK ||
        named.found != 1)
        return status;
    *id = named.id;
    return LW_OK;
}

static enum lw_status find_names(struct workshop *workshop, const struct records_choice *choice, struct chosen *chosen,
                                 struct lw_error *error)
{
    enum lw_status status = LW_OK;

    chosen->id = calloc(choice->count, sizeof *chosen->id);
    if (!chosen->id)
        return lw_fail(error, LW_FULL, "There is no memory left to export.");
    for (size_t i = 0; i < choice->count && status == LW_OK; i++)
        status = find_name(workshop, choice->names[i], &chosen->id[chosen->count++], error);
    return status;
}

/* The newest revision, after what was not kept yet is sealed. */
static enum lw_status load_sealed(struct workshop *workshop, int64_t id, struct recipe **out, struct lw_error *error)
{
    struct store *store = workshop_store(workshop);
    struct lw_now now = workshop_now(workshop);
    struct recipe *recipe = calloc(1, sizeof *recipe);
    int number = 0;
    enum lw_status status;

    *out = recipe;
    if (!recipe)
        return lw_fail(error, LW_FULL, "There is no memory left to export.");
    status = recipes_seal(store, id, &now, &number, error);
    if (status != LW_OK && status != LW_CONFLICT)
        return status;
    status = recipes_newest(store, id, &number, error);
    return status == LW_OK ? recipes_load(store, id, number, recipe, NULL, error) : status;
}

static enum lw_status load_all(struct workshop *workshop, struct chosen *chosen, struct lw_error *error)
{
    enum lw_status status = LW_OK;

    chosen->recipe = calloc(chosen->count ? chosen->count : 1, sizeof(struct recipe *));
    if (!chosen->recipe)
        return lw_fail(error, LW_FULL, "There is no memory left to export.");
    for (size_t i = 0; i < chosen->count && status == LW_OK; i++)
        status = load_sealed(workshop, chosen->id[i], &chosen->recipe[i], error);
    return status;
}

static void write_all(const struct workshop *workshop, const struct records_choice *choice, const struct chosen *chosen,
                      struct buffer *out)
{
    const struct shelf *shelf = workshop_shelf(workshop);
    struct recipe_json what = {.recipes = chosen->count,
                               .recipe = (const struct recipe *const *)chosen->recipe,
                               .reference = facts_reference()};

    if (choice->shelf) {
        what.oils = shelf->oils;
        what.oil = shelf->oil;
        what.additives = shelf->additives;
        what.additive = shelf->additive;
        what.liquids = shelf->liquids;
        what.liquid = shelf->liquid;
        what.colourants = shelf->colourants;
        what.colourant = shelf->colourant;
        what.fragrances = shelf->fragrances;
        what.fragrance = shelf->fragrance;
    }
    recipe_json(&what, out);
}

enum lw_status records_export(struct workshop *workshop, const struct records_choice *choice, struct buffer *out,
                              struct lw_error *error)
{
    struct chosen chosen = {0};
    enum lw_status status = LW_OK;

    if (choice->recipes && choice->count > 0)
        status = find_names(workshop, choice, &chosen, error);
    else if (choice->recipes)
        status = recipes_each(workshop_store(workshop), "", false, RECIPES_BY_NAME, remember, &chosen, error);
    if (status == LW_OK)
        status = load_all(workshop, &chosen, error);
    if (status == LW_OK) {
        write_all(workshop, choice, &chosen, out);
        status = buffer_status(out, error);
    }
    free_chosen(&chosen);
    return status;
}

static void set_size(struct recipe *recipe, const struct plan_size *size)
{
    if (size->by == PLAN_SIZE_OWN)
        return;
    recipe->size.by = size->by == PLAN_SIZE_OILS ? SIZE_OILS : SIZE_BATTER;
    recipe->size.grams = size->grams;
}

static enum lw_status plan_one(struct workshop *workshop, int64_t id, const struct plan_size *size, bool json,
                               struct buffer *out, bool *stop, struct lw_error *error)
{
    struct version *version = NULL;
    struct recipe recipe;
    enum finding_level worst = LEVEL_REMARK;
    int count[3];
    enum lw_status status = recipes_load(workshop_store(workshop), id, 0, &recipe, NULL, error);

    if (status != LW_OK)
        return status;
    set_size(&recipe, size);
    status = version_of(&recipe, workshop_shelf(workshop), workshop_settings(workshop), workshop_lessons(workshop),
                        &version, error);
    if (status != LW_OK)
        return status;
    *stop |= plan_worst(version_document(version)->plan, &worst, count) && worst == LEVEL_STOP;
    if (json)
        plan_json(version_document(version), out);
    else
        sheet(version_document(version), out);
    version_free(version);
    return buffer_status(out, error);
}

static enum lw_status plan_all(struct workshop *workshop, const struct plan_size *size, struct buffer *out, bool *stop,
                               struct lw_error *error)
{
    struct chosen chosen = {0};
    enum lw_status status = recipes_each(workshop_store(workshop), "", false, RECIPES_BY_NAME, remember, &chosen,
                                         error);

    for (size_t i = 0; i < chosen.count && status == LW_OK; i++) {
        if (i > 0)
            buffer_add(out, "\n");
        status = plan_one(workshop, chosen.id[i], size, false, out, stop, error);
    }
    free_chosen(&chosen);
    return status;
}

enum lw_status records_plan(struct workshop *workshop, const char *name, const struct plan_size *size, bool json,
                            struct buffer *out, bool *stop, struct lw_error *error)
{
    enum lw_status status;
    int64_t id;

    *stop = false;
    if (!name && json)
        return lw_fail(error, LW_INVALID, "JSON is of one recipe, so one has to be named.");
    workshop_learn(workshop, NULL); /* where the book cannot be read the plan stands on practice, and says so */
    if (!name)
        return plan_all(workshop, size, out, stop, error);
    status = find_name(workshop, name, &id, error);
    return status == LW_OK ? plan_one(workshop, id, size, json, out, stop, error) : status;
}

static enum lw_status batch_sheet(struct workshop *workshop, int64_t id, struct buffer *out, struct lw_error *error)
{
    struct run *run = NULL;
    enum lw_status status = run_open(workshop, id, &run, error);

    if (status == LW_OK) {
        buffer_add(out, "Batch %s\n", run_batch(run)->head.number);
        sheet(run_planned(run), out);
        status = buffer_status(out, error);
    }
    run_free(run);
    return status;
}

enum lw_status records_sheet(struct workshop *workshop, const char *called, struct buffer *out, struct lw_error *error)
{
    bool stop;
    int64_t id;
    enum lw_status status = records_plan(workshop, called, &(struct plan_size){0}, false, out, &stop, error);

    if (status != LW_NOT_FOUND)
        return status;
    status = book_find(workshop_store(workshop), called, &id, error);
    if (status == LW_OK)
        return batch_sheet(workshop, id, out, error);
    return status != LW_NOT_FOUND
               ? status
               : lw_fail(error, status, "There is neither a recipe nor a batch \"%s\" in the records.", called);
}
