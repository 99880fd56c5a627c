/* workshop.c - store, shelf and settings in one hand. */
#include "work/workshop.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "store/settings_store.h"
#include "work/book.h"
#include "work/lessons.h"

struct workshop {
    struct store *store;
    struct shelf *shelf;
    struct settings settings;
    struct lessons lessons;
    bool learned; /* once at least */
    void (*now)(void *context, struct lw_now *now);
    void *context;
};

enum lw_status workshop_reload(struct workshop *workshop, struct lw_error *error)
{
    struct shelf *shelf;
    enum lw_status status = shelf_load(workshop->store, facts_reference(), &shelf, error);

    if (status != LW_OK)
        return status;
    shelf_free(workshop->shelf);
    workshop->shelf = shelf;
    return settings_load(workshop->store, &workshop->settings, error);
}

enum lw_status workshop_open(const struct workshop_options *options, struct workshop **workshop, struct lw_error *error)
{
    struct workshop *made = calloc(1, sizeof *made);
    enum lw_status status;

    *workshop = NULL;
    if (!made)
        return lw_fail(error, LW_FULL, "There is no memory left to open the records.");
    made->now = options->now;
    made->context = options->context;
    status = store_open(options->path, &options->store, &made->store, error);
    if (status == LW_OK)
        status = workshop_reload(made, error);
    if (status != LW_OK) {
        workshop_close(made, NULL);
        return status;
    }
    *workshop = made;
    return LW_OK;
}

enum lw_status workshop_close(struct workshop *workshop, struct lw_error *error)
{
    enum lw_status status;

    if (!workshop)
        return LW_OK;
    shelf_free(workshop->shelf);
    status = store_close(workshop->store, error);
    free(workshop);
    return status;
}

struct store *workshop_store(const struct workshop *workshop)
{
    return workshop->store;
}

const struct shelf *workshop_shelf(const struct workshop *workshop)
{
    return workshop->shelf;
}

const struct settings *workshop_settings(const struct workshop *workshop)
{
    return &workshop->settings;
}

const struct lessons *workshop_lessons(const struct workshop *workshop)
{
    return &workshop->lessons;
}

enum lw_status workshop_learn(struct workshop *workshop, struct lw_error *error)
{
    struct lessons *lessons;
    enum lw_status status, caught;
    int64_t due;
    int n = 0;

    status = book_due(workshop->store, &due, 1, &n, error);
    if (status != LW_OK || (n == 0 && workshop->learned))
        return status;
    lessons = malloc(sizeof *lessons);
    if (!lessons)
        return lw_fail(error, LW_FULL, "There is no memory left to learn from the batches.");
    caught = book_catch_up(workshop, NULL, NULL, error);
    status = caught == LW_OK || caught == LW_CORRUPT ? lessons_read(workshop, lessons, error) : caught;
    if (status == LW_OK) {
        workshop->lessons = *lessons;
        workshop->learned = true;
    }
    free(lessons);
    return status == LW_OK ? caught : status;
}

struct lw_now workshop_now(const struct workshop *workshop)
{
    struct lw_now now = {0};

    workshop->now(workshop->context, &now);
    return now;
}

enum lw_status workshop_set(struct workshop *workshop, const struct settings *settings, struct lw_error *error)
{
    enum lw_status status = settings_save(workshop->store, settings, error);

    if (status == LW_OK)
        workshop->settings = *settings;
    return status;
}

enum lw_status workshop_verify(struct workshop *workshop, void (*each)(void *context, const char *sentence),
                               void *context, int *found, struct lw_error *error)
{
    return store_verify(workshop->store, each, context, found, error);
}

enum lw_status workshop_backup(struct workshop *workshop, const char *to,
                               void (*progress)(void *context, int done, int all), void *context,
                               struct lw_error *error)
{
    return store_backup(workshop->store, to, false, progress, context, error);
}

enum lw_status workshop_restore(const char *path, const char *from, struct lw_error *error)
{
    return store_restore(path, from, error);
}

void workshop_new_recipe(const struct workshop *workshop, const char *name, struct recipe *recipe)
{
    const struct purpose_defaults *defaults = &workshop->settings.purpose[PURPOSE_SKIN];

    memset(recipe, 0, sizeof *recipe);
    text_copy(recipe->name, sizeof recipe->name, name);
    recipe->purpose = PURPOSE_SKIN;
    recipe->oils_by = OILS_BY_SHARE;
    recipe->size.by = SIZE_OILS;
    recipe->size.grams = 1000;
    recipe->superfat = defaults->superfat;
    recipe->water.by = WATER_STRENGTH;
    recipe->water.value = defaults->water_strength;
    recipe->water.temp_c = 20;
}
