/* setting.c - see the header. */
#include "bench/setting.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "store/recipes.h"
#include "support/random_recipe.h"

enum { SETTLE_MS = 10000 };

static const struct lw_now now = {.utc_s = 1709200000};

void setting_need(bool sound, const char *what)
{
    if (sound)
        return;
    fprintf(stderr, "The benchmark cannot go on: %s.\n", what);
    exit(1);
}

static void make_store(const char *path)
{
    struct chance chance = chance_of(20240229);
    struct store_options options = {.how = STORE_CREATE, .random = chance_bytes, .context = &chance};
    struct lw_error error = {""};
    struct store *store;
    enum lw_status status = store_open(path, &options, &store, &error);

    setting_need(status == LW_OK, error.text);
    status = store_begin(store, &error);
    for (int i = 0; i < SETTING_RECIPES && status == LW_OK; i++) {
        struct recipe recipe = {0};
        struct lw_now then = {.utc_s = now.utc_s + i};
        int64_t id;

        snprintf(recipe.name, sizeof recipe.name, "Hedge Rose %d", i);
        recipe.oils = 12;
        status = recipes_create(store, &recipe, &then, &id, &error);
    }
    status = store_end(store, status, &error);
    setting_need(status == LW_OK, error.text);
    setting_need(store_close(store, &error) == LW_OK, error.text);
}

void setting_begin(struct setting *setting)
{
    snprintf(setting->folder, sizeof setting->folder, "/tmp/lyeway-bench-XXXXXX");
    setting_need(mkdtemp(setting->folder) != NULL, "no folder can be made in /tmp");
    snprintf(setting->store, sizeof setting->store, "%s/store", setting->folder);
    snprintf(setting->screen, sizeof setting->screen, "%s/screen", setting->folder);
    make_store(setting->store);
}

void setting_end(const struct setting *setting)
{
    static const char *const parts[] = {"", "-wal", "-shm"};
    char path[SETTING_PATH_BYTES + 32];

    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        snprintf(path, sizeof path, "%s%s", setting->store, parts[i]);
        unlink(path);
    }
    unlink(setting->screen);
    rmdir(setting->folder);
}

struct driver *setting_open(const struct setting *setting, enum subject subject, const struct view *view)
{
    static const char *const env[] = {"LYEWAY_NOW=1709200000", NULL};
    const char *lyeway = getenv("LYEWAY"), *folder = getenv("LYEWAY_OBJ");
    char mini[2][SETTING_PATH_BYTES * 2];
    struct driver *driver;

    setting_need(lyeway && folder, "LYEWAY and LYEWAY_OBJ are not set; use make bench");
    snprintf(mini[0], sizeof mini[0], "%s/tests/bench/probe_mini", folder);
    snprintf(mini[1], sizeof mini[1], "%s/tests/bench/probe_minidb", folder);

    const char *const argv[SUBJECTS][4] = {
        [SUBJECT_LYEWAY] = {lyeway, "--db", setting->store, NULL},
        [SUBJECT_DEMO] = {lyeway, "--demo", NULL},
        [SUBJECT_MINI] = {mini[0], setting->screen, NULL},
        [SUBJECT_MINIDB] = {mini[1], setting->screen, setting->store, NULL},
    };

    driver = driver_open(argv[subject], &(struct driver_options){
                                            .rows = view->rows, .cols = view->cols, .env = env, .blind = view->blind});
    setting_need(driver && driver_settle(driver, SETTLE_MS), "a program did not start");
    return driver;
}

void setting_take_screen(const struct setting *setting, const struct view *view, const char *keys)
{
    struct driver *driver = setting_open(setting, SUBJECT_DEMO, &(struct view){view->rows, view->cols, false});
    FILE *file = fopen(setting->screen, "w");

    setting_need(file && driver_keys(driver, keys), "the screen was not reached");
    driver_print(driver, file);
    setting_need(fclose(file) == 0, "the screen was not written");
    driver_close(driver);
}
