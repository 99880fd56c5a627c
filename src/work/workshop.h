/* workshop.h - everything a screen or command needs of the maker's records, opened together. */
#ifndef WORK_WORKSHOP_H
#define WORK_WORKSHOP_H

#include "lyeway/now.h"
#include "lyeway/settings.h"
#include "store/recipes.h"
#include "store/shelf.h"
#include "store/store.h"

struct workshop;

struct workshop_options {
    const char *path;
    struct store_options store;
    void (*now)(void *context, struct lw_now *now);
    void *context;
};

/* Opens the store and reads shelf and settings. */
enum lw_status workshop_open(const struct workshop_options *options, struct workshop **workshop,
                             struct lw_error *error);
enum lw_status workshop_close(struct workshop *workshop, struct lw_error *error);

struct store *workshop_store(const struct workshop *workshop);
const struct shelf *workshop_shelf(const struct workshop *workshop);
const struct settings *workshop_settings(const struct workshop *workshop);
struct lw_now workshop_now(const struct workshop *workshop);

/* What the batches have taught, as last brought up to date; nothing before the first time. */
struct lessons;
const struct lessons *workshop_lessons(const struct workshop *workshop);

/* Brings the book and the lessons up to date; quick where no batch has changed. On failure the lessons are as they were. */
enum lw_status workshop_learn(struct workshop *workshop, struct lw_error *error);

/* Saves the settings and uses them from here on. */
enum lw_status workshop_set(struct workshop *workshop, const struct settings *settings, struct lw_error *error);

/* Reads shelf and settings again, after somebody changed them. */
enum lw_status workshop_reload(struct workshop *workshop, struct lw_error *error);

/* For the command line: store_verify, store_backup and store_restore. */
enum lw_status workshop_verify(struct workshop *workshop, void (*each)(void *context, const char *sentence),
                               void *context, int *found, struct lw_error *error);
enum lw_status workshop_backup(struct workshop *workshop, const char *to,
                               void (*progress)(void *context, int done, int all), void *context,
                               struct lw_error *error);
enum lw_status workshop_restore(const char *path, const char *from, struct lw_error *error);

/* The default recipe that a new one begins with: purpose skin, the settings' superfat and strength, 1000 g of oils, no oil yet. */
void workshop_new_recipe(const struct workshop *workshop, const char *name, struct recipe *recipe);

#endif
