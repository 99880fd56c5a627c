/* version.c - a recipe and all that is computed of it. */
#include "work/version.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "work/resolve.h"
#include "work/words.h"

struct version {
    const struct shelf *shelf;
    const struct settings *settings;
    const struct lessons *lessons;
    struct recipe recipe;
    struct recipe planned; /* the recipe with the bench's scales where it names none */
    struct recipe_facts facts;
    struct bench bench;
    struct plan_input input;
    struct plan plan;
    struct words words[PLAN_FINDINGS];
    struct plan_document document;
};

static void take_bench_scales(const struct settings *settings, struct recipe *recipe)
{
    if (recipe->scales > 0)
        return;
    recipe->scales = settings->scales;
    memcpy(recipe->scale, settings->scale, sizeof recipe->scale);
}

static void make_document(struct version *version)
{
    version->document = (struct plan_document){.input = &version->input,
                                               .plan = &version->plan,
                                               .words = version->words,
                                               .unit = version->settings->mass_unit,
                                               .margin_word = words_of_margin(&version->plan)};
    for (int i = 0; i < version->plan.findings; i++)
        words_of_finding(&version->input, &version->plan, &version->plan.finding[i], version->document.unit,
                         &version->words[i]);
}

enum lw_status version_set(struct version *version, const struct recipe *recipe, struct lw_error *error)
{
    struct shelf_rows rows = resolve_rows(version->shelf);
    struct recipe_facts facts;
    enum lw_status status = resolve_recipe(recipe, &rows, recipe->name, &facts, error);

    if (status != LW_OK)
        return status;
    version->facts = facts;
    version->recipe = *recipe;
    version->planned = *recipe;
    take_bench_scales(version->settings, &version->planned);
    version->bench = plan_bench_common();
    if (version->lessons)
        lessons_for(version->lessons, recipe, &version->bench.learned);
    version->input = (struct plan_input){.recipe = &version->planned,
                                         .facts = &version->facts,
                                         .reference = facts_reference(),
                                         .bench = &version->bench};
    plan_compute(&version->input, &version->plan);
    make_document(version);
    return LW_OK;
}

enum lw_status version_of(const struct recipe *recipe, const struct shelf *shelf, const struct settings *settings,
                          const struct lessons *lessons, struct version **version, struct lw_error *error)
{
    struct version *made = calloc(1, sizeof *made);
    enum lw_status status;

    *version = NULL;
    if (!made)
        return lw_fail(error, LW_FULL, "There is no memory left to plan the recipe.");
    made->shelf = shelf;
    made->settings = settings;
    made->lessons = lessons;
    status = version_set(made, recipe, error);
    if (status == LW_OK)
        *version = made;
    else
        free(made);
    return status;
}

enum lw_status version_open(struct store *store, int64_t id, int number, const struct shelf *shelf,
                            const struct settings *settings, const struct lessons *lessons, struct version **version,
                            struct lw_error *error)
{
    struct recipe recipe;
    enum lw_status status = recipes_load(store, id, number, &recipe, NULL, error);

    *version = NULL;
    return status == LW_OK ? version_of(&recipe, shelf, settings, lessons, version, error) : status;
}

void version_free(struct version *version)
{
    free(version);
}

const struct recipe *version_recipe(const struct version *version)
{
    return &version->recipe;
}

const struct plan_document *version_document(const struct version *version)
{
    return &version->document;
}
