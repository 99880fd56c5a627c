/* records_import.c - exchange files into the records: all or nothing. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "exchange/recipe_file.h"
#include "exchange/recipe_json.h"
#include "work/change.h"
#include "work/records.h"
#include "work/resolve.h"

enum { CONTENT_MOST_BYTES = 4 * 1024 * 1024, WHERE_BYTES = 320 };

struct import {
    struct workshop *workshop;
    struct lw_now now;
    struct records_count *counted;
};

static enum lw_status put_shelf(struct import *import, const struct recipe_file *file, struct lw_error *error)
{
    struct store *store = workshop_store(import->workshop);
    const struct reference *reference = facts_reference();
    enum lw_status status = LW_OK;

    for (size_t i = 0; i < file->oils && status == LW_OK; i++)
        status = shelf_put_oil(store, &file->oil[i], &import->now, error);
    for (size_t i = 0; i < file->additives && status == LW_OK; i++)
        status = shelf_put_additive(store, &file->additive[i], &import->now, error);
    for (size_t i = 0; i < file->liquids && status == LW_OK; i++)
        status = shelf_put_liquid(store, &file->liquid[i], &import->now, error);
    for (size_t i = 0; i < file->colourants && status == LW_OK; i++)
        status = shelf_put_colourant(store, &file->colourant[i], &import->now, error);
    for (size_t i = 0; i < file->fragrances && status == LW_OK; i++)
        status = shelf_put_fragrance(store, &file->fragrance[i], reference, &import->now, error);
    import->counted->shelf += (int)(file->oils + file->additives + file->liquids + file->colourants + file->fragrances);
    return status;
}

static bool same_content(const struct recipe *a, const struct recipe *b)
{
    struct buffer text[2];
    bool same;

    buffer_init(&text[0], CONTENT_MOST_BYTES);
    buffer_init(&text[1], CONTENT_MOST_BYTES);
    recipe_json_content(a, &text[0]);
    recipe_json_content(b, &text[1]);
    same = !text[0].failed && !text[1].failed && strcmp(buffer_text(&text[0]), buffer_text(&text[1])) == 0;
    buffer_done(&text[0]);
    buffer_done(&text[1]);
    return same;
}

/* Replaces the draft by another recipe, part by part: lists are emptied from their ends and filled again. */
static enum lw_status replace_draft(struct import *import, int64_t id, const struct recipe *now_there, int64_t version,
                                    const struct recipe *recipe, struct lw_error *error)
{
    struct store *store = workshop_store(import->workshop);
    enum lw_status status = LW_OK;

    for (enum change_part part = CHANGE_HEAD; part < CHANGE_PARTS && status == LW_OK; part++) {
        bool list = part != CHANGE_HEAD && part != CHANGE_NOTE;
        struct change change = {.part = part, .kind = list ? CHANGE_REMOVE : CHANGE_REPLACE};

        for (int i = change_count(now_there, part) - 1; list && i >= 0 && status == LW_OK; i--) {
            change.index = i;
            change_read(now_there, part, i, &change.before);
            status = recipes_save(store, id, &version, &change, 1, &import->now, error);
        }
        change.kind = list ? CHANGE_INSERT : CHANGE_REPLACE;
        for (int i = 0; i < change_count(recipe, part) && status == LW_OK; i++) {
            change.index = i;
            change_read(list ? recipe : now_there, part, i, &change.before);
            change_read(recipe, part, i, &change.after);
            status = recipes_save(store, id, &version, &change, 1, &import->now, error);
        }
    }
    return status;
}

static enum lw_status seal(struct import *import, int64_t id, struct lw_error *error)
{
    int number;
    enum lw_status status = recipes_seal(workshop_store(import->workshop), id, &import->now, &number, error);

    return status == LW_CONFLICT ? LW_OK : status; /* nothing differs from the newest */
}

static enum lw_status put_recipe(struct import *import, const struct recipe *recipe, struct lw_error *error)
{
    struct store *store = workshop_store(import->workshop);
    static const uint8_t none[LW_UUID_BYTES] = {0};
    bool has_uuid = memcmp(recipe->uuid, none, sizeof none) != 0;
    struct recipe there;
    int64_t id, version;
    enum lw_status status = recipes_find(store, has_uuid ? recipe->uuid : NULL, recipe->name, &id, NULL);

    if (status == LW_NOT_FOUND) {
        import->counted->new ++;
        status = recipes_create(store, recipe, &import->now, &id, error);
        return status == LW_OK ? seal(import, id, error) : status;
    }
    if (status == LW_OK)
        status = recipes_load(store, id, 0, &there, &version, error);
    if (status != LW_OK)
        return status;
    if (same_content(&there, recipe)) {
        import->counted->unchanged++;
        return seal(import, id, error);
    }
    import->counted->changed++;
    /* What the maker was at is kept as a revision of its own before the other one takes its place. */
    status = seal(import, id, error);
    if (status == LW_OK)
        status = replace_draft(import, id, &there, version, recipe, error);
    return status == LW_OK ? seal(import, id, error) : status;
}

/* Names are looked up with the shelf as it is after the file's own entries were put on it. */
static enum lw_status put_recipes(struct import *import, const struct recipe_file *file, const char *name,
                                  struct lw_error *error)
{
    struct shelf *shelf = NULL;
    struct shelf_rows rows;
    enum lw_status status = shelf_load(workshop_store(import->workshop), facts_reference(), &shelf, error);

    if (status != LW_OK)
        return status;
    rows = resolve_rows(shelf);
    for (size_t i = 0; i < file->recipes && status == LW_OK; i++) {
        struct recipe_facts facts;
        char where[WHERE_BYTES];

        snprintf(where, sizeof where, "%.200s: /recipes/%zu", name, i);
        status = resolve_recipe(&file->recipe[i], &rows, where, &facts, error);
        if (status == LW_OK)
            status = put_recipe(import, &file->recipe[i], error);
    }
    shelf_free(shelf);
    return status;
}

static enum lw_status put_file(struct import *import, const struct records_source *source, struct lw_error *error)
{
    const struct recipe_file_names names = {facts_reference()};
    struct recipe_file *file = NULL;
    enum lw_status status = recipe_file_read(source->text, source->bytes, source->name, &names, &file, error);

    if (status == LW_OK)
        status = put_shelf(import, file, error);
    if (status == LW_OK)
        status = put_recipes(import, file, source->name, error);
    recipe_file_free(file);
    return status;
}

enum lw_status records_import(struct workshop *workshop, const struct records_source sources[], size_t count,
                              struct records_count *counted, struct lw_error *error)
{
    struct import import = {.workshop = workshop, .now = workshop_now(workshop)};
    enum lw_status status = store_begin(workshop_store(workshop), error);

    *counted = (struct records_count){0};
    import.counted = counted;
    if (status != LW_OK)
        return status;
    for (size_t i = 0; i < count && status == LW_OK; i++)
        status = put_file(&import, &sources[i], error);
    status = store_end(workshop_store(workshop), status, error);
    return status == LW_OK ? workshop_reload(workshop, error) : status;
}
