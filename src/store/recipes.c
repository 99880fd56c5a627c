/* recipes.c - recipes as a whole: listed, found, made, loaded, sealed, archived. */
#include "store/recipes.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "store/recipe_revision.h"

enum { FILTER_BYTES = 256 };

/* Two recipes are too large to stand on the stack beside each other. */
struct pair {
    struct recipe draft, sealed;
};

/* Every word of the filter, which are parted by spaces, is in the name. */
static bool holds_words(const char *name, const char *filter)
{
    char words[FILTER_BYTES], *word = words;

    text_copy(words, sizeof words, filter);
    while (*word) {
        size_t length = strcspn(word, " ");
        bool last = word[length] == '\0';

        word[length] = '\0';
        if (!text_has(name, word))
            return false;
        word += last ? length : length + 1;
    }
    return true;
}

/* Whether the draft says anything else than sealed revision `number`. */
static enum lw_status compare(struct store *store, int64_t id, int number, bool *same, struct lw_error *error)
{
    struct pair *pair = malloc(sizeof *pair);
    enum lw_status status;

    if (!pair)
        return store_failed(store->path, SQLITE_NOMEM, error);
    status = recipes_load(store, id, 0, &pair->draft, NULL, error);
    if (status == LW_OK)
        status = recipes_load(store, id, number, &pair->sealed, NULL, error);
    *same = status == LW_OK && revision_same(&pair->draft, &pair->sealed);
    free(pair);
    return status;
}

/* Reads a row of the list. A draft that was saved since it was sealed may have been changed and changed back. */
static enum lw_status read_line(struct query *query, struct recipe_line *line, struct lw_error *error)
{
    char purpose[16];
    const struct member_words *purposes = recipe_head_members()->member[1].words;
    int64_t version, sealed_version;
    bool same = false;
    enum lw_status status = LW_OK;

    line->id = query_int(query);
    query_bytes(query, line->uuid, sizeof line->uuid);
    text_copy(line->name, sizeof line->name, query_text(query));
    text_copy(purpose, sizeof purpose, query_text(query));
    line->purpose = (enum purpose)member_value(purposes, purpose);
    line->archived = query_int(query) != 0;
    line->changed_s = query_int(query);
    version = query_int(query);
    sealed_version = query_int(query);
    line->revisions = (int)query_int(query);
    line->oils = (int)query_int(query);
    line->portions = (int)query_int(query);
    if (version != sealed_version && line->revisions > 0)
        status = compare(query->store, line->id, line->revisions, &same, error);
    line->changed = version != sealed_version && !same;
    return status;
}

enum lw_status recipes_each(struct store *store, const char *filter, bool archived, enum recipes_order order,
                            bool (*each)(void *context, const struct recipe_line *line), void *context,
                            struct lw_error *error)
{
    struct query query;
    enum lw_status status = LW_OK;
    bool more = true;

    query_begin(&query, store, order == RECIPES_NEWEST ? SQL_RECIPES_NEWEST : SQL_RECIPES_BY_NAME);
    query_bind_int(&query, archived);
    while (more && status == LW_OK && query_row(&query)) {
        struct recipe_line line = {0};

        status = read_line(&query, &line, error);
        if (status == LW_OK && holds_words(line.name, filter ? filter : ""))
            more = each(context, &line);
    }
    enum lw_status ended = query_end(&query, status == LW_OK ? error : NULL);

    return status == LW_OK ? ended : status;
}

static enum lw_status read_uuid(struct store *store, int64_t id, struct recipe *recipe, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_RECIPE_UUID);
    query_bind_int(&query, id);
    if (query_row(&query))
        query_bytes(&query, recipe->uuid, sizeof recipe->uuid);
    return query_end(&query, error);
}

enum lw_status recipes_load(struct store *store, int64_t id, int number, struct recipe *recipe, int64_t *version,
                            struct lw_error *error)
{
    int64_t revision_id;
    enum lw_status status = store_read_begin(store, error);

    if (status != LW_OK)
        return status;
    status = revision_find(store, id, number, &revision_id, version, error);
    if (status == LW_OK)
        status = revision_read(store, revision_id, recipe, error);
    if (status == LW_OK)
        status = read_uuid(store, id, recipe, error);
    recipe->revision = number;
    return store_read_end(store, status, error);
}

static enum lw_status find_uuid(struct store *store, const uint8_t *uuid, int64_t *id, bool *found,
                                struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_RECIPE_BY_UUID);
    query_bind_bytes(&query, uuid, LW_UUID_BYTES);
    *found = query_row(&query);
    if (*found)
        *id = query_int(&query);
    return query_end(&query, error);
}

static enum lw_status insert_recipe(struct store *store, const uint8_t *uuid, const struct lw_now *now, int64_t *id,
                                    struct lw_error *error)
{
    struct query query;
    bool found;
    enum lw_status status = find_uuid(store, uuid, id, &found, error);

    if (status != LW_OK)
        return status;
    if (found)
        return lw_fail(error, LW_CONFLICT, "This recipe is in the records already, perhaps under another name.");
    query_begin(&query, store, SQL_RECIPE_INSERT);
    query_bind_bytes(&query, uuid, LW_UUID_BYTES);
    query_bind_int(&query, now->utc_s);
    status = query_run(&query, error);
    *id = sqlite3_last_insert_rowid(store->db);
    return status;
}

enum lw_status recipes_create(struct store *store, const struct recipe *recipe, const struct lw_now *now, int64_t *id,
                              struct lw_error *error)
{
    static const uint8_t none[LW_UUID_BYTES];
    uint8_t uuid[LW_UUID_BYTES];
    int64_t revision_id;
    enum lw_status status = store_begin(store, error);

    if (status != LW_OK)
        return status;
    memcpy(uuid, recipe->uuid, sizeof uuid);
    if (memcmp(uuid, none, sizeof uuid) == 0)
        store_uuid(store, uuid);
    status = insert_recipe(store, uuid, now, id, error);
    if (status == LW_OK)
        status = revision_write(store, *id, 0, recipe, &revision_id, error);
    return store_end(store, status, error);
}

static enum lw_status newest_number(struct store *store, int64_t id, int *number, struct lw_error *error)
{
    struct query query;

    *number = 0;
    query_begin(&query, store, SQL_REVISION_NEWEST);
    query_bind_int(&query, id);
    if (query_row(&query))
        *number = (int)query_int(&query);
    return query_end(&query, error);
}

enum lw_status recipes_newest(struct store *store, int64_t id, int *number, struct lw_error *error)
{
    enum lw_status status = newest_number(store, id, number, error);

    if (status == LW_OK && *number == 0)
        return lw_fail(error, LW_NOT_FOUND, "No revision of this recipe was kept yet.");
    return status;
}

static enum lw_status mark_sealed(struct store *store, int64_t sealed_id, int64_t draft_id, const struct lw_now *now,
                                  struct lw_error *error)
{
    struct query query;
    enum lw_status status;

    query_begin(&query, store, SQL_REVISION_SEAL);
    query_bind_int(&query, sealed_id);
    query_bind_int(&query, now->utc_s);
    status = query_run(&query, error);
    if (status != LW_OK)
        return status;
    query_begin(&query, store, SQL_DRAFT_SEALED);
    query_bind_int(&query, draft_id);
    return query_run(&query, error);
}

static enum lw_status copy_and_seal(struct store *store, int64_t id, int number, const struct lw_now *now,
                                    struct lw_error *error)
{
    struct recipe *recipe = malloc(sizeof *recipe);
    int64_t draft_id, sealed_id;
    enum lw_status status;

    if (!recipe)
        return store_failed(store->path, SQLITE_NOMEM, error);
    status = revision_find(store, id, 0, &draft_id, NULL, error);
    if (status == LW_OK)
        status = revision_read(store, draft_id, recipe, error);
    if (status == LW_OK)
        status = revision_write(store, id, number, recipe, &sealed_id, error);
    if (status == LW_OK)
        status = mark_sealed(store, sealed_id, draft_id, now, error);
    free(recipe);
    return status;
}

static enum lw_status seal(struct store *store, int64_t id, const struct lw_now *now, int *number,
                           struct lw_error *error)
{
    int newest;
    bool same = false;
    enum lw_status status = newest_number(store, id, &newest, error);

    if (status == LW_OK && newest > 0)
        status = compare(store, id, newest, &same, error);
    if (status != LW_OK)
        return status;
    if (same)
        return lw_fail(error, LW_CONFLICT, "Nothing differs from revision %d, which is kept already.", newest);
    *number = newest + 1;
    return copy_and_seal(store, id, *number, now, error);
}

enum lw_status recipes_seal(struct store *store, int64_t id, const struct lw_now *now, int *number,
                            struct lw_error *error)
{
    enum lw_status status = store_begin(store, error);

    return status == LW_OK ? store_end(store, seal(store, id, now, number, error), error) : status;
}

enum lw_status recipes_revisions(struct store *store, int64_t id,
                                 bool (*each)(void *context, const struct revision_line *line), void *context,
                                 struct lw_error *error)
{
    struct query query;
    bool more = true;

    query_begin(&query, store, SQL_REVISION_LIST);
    query_bind_int(&query, id);
    while (more && query_row(&query)) {
        struct revision_line line = {0};

        line.number = (int)query_int(&query);
        line.sealed_s = query_int(&query);
        more = each(context, &line);
    }
    return query_end(&query, error);
}

static enum lw_status archive(struct store *store, int64_t id, bool archived, const struct lw_now *now,
                              struct lw_error *error)
{
    struct query query;
    enum lw_status status;

    query_begin(&query, store, SQL_RECIPE_ARCHIVE);
    query_bind_int(&query, id);
    query_bind_int(&query, archived);
    query_bind_int(&query, now->utc_s);
    status = query_run(&query, error);
    if (status == LW_OK && sqlite3_changes(store->db) == 0)
        return lw_fail(error, LW_NOT_FOUND, "That recipe is not in the records any more.");
    return status;
}

enum lw_status recipes_archive(struct store *store, int64_t id, bool archived, const struct lw_now *now,
                               struct lw_error *error)
{
    enum lw_status status = store_begin(store, error);

    return status == LW_OK ? store_end(store, archive(store, id, archived, now, error), error) : status;
}

enum lw_status recipes_find(struct store *store, const uint8_t *uuid, const char *name, int64_t *id,
                            struct lw_error *error)
{
    struct query query;
    bool found = false;
    enum lw_status status = uuid ? find_uuid(store, uuid, id, &found, error) : LW_OK;

    if (status != LW_OK || found)
        return status;
    query_begin(&query, store, SQL_RECIPE_BY_NAME);
    query_bind_text(&query, name ? name : "");
    found = query_row(&query);
    if (found)
        *id = query_int(&query);
    status = query_end(&query, error);
    if (status != LW_OK || found)
        return status;
    return lw_fail(error, LW_NOT_FOUND, "There is no recipe \"%s\" in the records.", name ? name : "");
}
