/* recipe_revision.c - a recipe and its rows. */
#include "store/recipe_revision.h"

#include <string.h>

#include "base/error.h"
#include "base/text.h"

enum lw_status revision_find(struct store *store, int64_t recipe_id, int number, int64_t *revision_id, int64_t *version,
                             struct lw_error *error)
{
    struct query query;
    enum lw_status status;
    bool found;

    query_begin(&query, store, number > 0 ? SQL_REVISION_NUMBER : SQL_REVISION_DRAFT);
    query_bind_int(&query, recipe_id);
    if (number > 0)
        query_bind_int(&query, number);
    found = query_row(&query);
    if (found) {
        *revision_id = query_int(&query);
        if (version)
            *version = query_int(&query);
    }
    status = query_end(&query, error);
    if (status != LW_OK || found)
        return status;
    if (number > 0)
        return lw_fail(error, LW_NOT_FOUND, "That recipe has no revision %d.", number);
    return lw_fail(error, LW_NOT_FOUND, "That recipe is not in the records any more.");
}

static enum lw_status read_head(struct store *store, int64_t revision_id, struct recipe *recipe, struct lw_error *error)
{
    struct recipe_head head = {0};
    struct query query;

    query_begin(&query, store, SQL_HEAD_SELECT);
    query_bind_int(&query, revision_id);
    if (query_row(&query)) {
        members_read(&query, recipe_head_members(), &head);
        if (!text_copy(recipe->note, sizeof recipe->note, query_text(&query)))
            query_corrupt(&query);
    }
    recipe_head_write(recipe, &head);
    return query_end(&query, error);
}

static enum lw_status read_list(struct store *store, int64_t revision_id, enum change_part part, struct recipe *recipe,
                                struct lw_error *error)
{
    const struct recipe_list *list = recipe_list(part);
    char *first = (char *)recipe + list->first;
    struct query query;
    int count = 0;

    query_begin(&query, store, list->select);
    query_bind_int(&query, revision_id);
    while (query_row(&query)) {
        if (count >= list->most || query_int(&query) != count) {
            query_corrupt(&query);
            break;
        }
        members_read(&query, &list->members, first + (size_t)count++ * list->size);
    }
    memcpy((char *)recipe + list->count, &count, sizeof count);
    return query_end(&query, error);
}

static enum lw_status read_colourants(struct store *store, int64_t revision_id, struct recipe *recipe,
                                      struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_COLOURANT_SELECT);
    query_bind_int(&query, revision_id);
    while (query_row(&query)) {
        int64_t at = query_int(&query);
        struct recipe_portion *portion = at >= 0 && at < recipe->portions ? &recipe->portion[at] : NULL;

        if (!portion || portion->colourants >= PORTION_COLOURANTS || query_int(&query) != portion->colourants) {
            query_corrupt(&query);
            break;
        }
        members_read(&query, recipe_colourant_members(), &portion->colourant[portion->colourants++]);
    }
    return query_end(&query, error);
}

enum lw_status revision_read(struct store *store, int64_t revision_id, struct recipe *recipe, struct lw_error *error)
{
    enum lw_status status;

    memset(recipe, 0, sizeof *recipe);
    status = read_head(store, revision_id, recipe, error);
    for (enum change_part part = CHANGE_OIL; status == LW_OK && part < CHANGE_PARTS; part++)
        status = read_list(store, revision_id, part, recipe, error);
    return status == LW_OK ? read_colourants(store, revision_id, recipe, error) : status;
}

static enum lw_status insert_colourants(struct store *store, int64_t portion_id, const struct recipe_portion *portion,
                                        struct lw_error *error)
{
    enum lw_status status = LW_OK;

    for (int i = 0; status == LW_OK && i < portion->colourants; i++) {
        struct query query;

        query_begin(&query, store, SQL_COLOURANT_INSERT);
        query_bind_int(&query, portion_id);
        query_bind_int(&query, i);
        members_bind(&query, recipe_colourant_members(), &portion->colourant[i]);
        status = query_run(&query, error);
    }
    return status;
}

enum lw_status revision_replace_colourants(struct store *store, int64_t portion_id,
                                           const struct recipe_portion *portion, struct lw_error *error)
{
    struct query query;
    enum lw_status status;

    query_begin(&query, store, SQL_COLOURANT_DELETE);
    query_bind_int(&query, portion_id);
    status = query_run(&query, error);
    return status == LW_OK ? insert_colourants(store, portion_id, portion, error) : status;
}

enum lw_status revision_insert_element(struct store *store, int64_t revision_id, enum change_part part, int position,
                                       const void *element, struct lw_error *error)
{
    const struct recipe_list *list = recipe_list(part);
    struct query query;
    enum lw_status status;

    query_begin(&query, store, list->insert);
    query_bind_int(&query, revision_id);
    query_bind_int(&query, position);
    members_bind(&query, &list->members, element);
    status = query_run(&query, error);
    if (status != LW_OK || part != CHANGE_PORTION)
        return status;
    return insert_colourants(store, sqlite3_last_insert_rowid(store->db), element, error);
}

static int count_of(const struct recipe *recipe, const struct recipe_list *list)
{
    int count;

    memcpy(&count, (const char *)recipe + list->count, sizeof count);
    return count;
}

static enum lw_status write_head(struct store *store, int64_t recipe_id, int number, const struct recipe *recipe,
                                 struct lw_error *error)
{
    struct recipe_head head;
    struct query query;

    recipe_head_read(recipe, &head);
    query_begin(&query, store, SQL_REVISION_INSERT);
    query_bind_int(&query, recipe_id);
    if (number > 0)
        query_bind_int(&query, number);
    else
        query_bind_null(&query);
    members_bind(&query, recipe_head_members(), &head);
    query_bind_text(&query, recipe->note);
    return query_run(&query, error);
}

/* The counts stay within the arrays that they count. */
static bool counts_sound(const struct recipe *recipe)
{
    for (enum change_part part = CHANGE_OIL; part < CHANGE_PARTS; part++)
        if (count_of(recipe, recipe_list(part)) < 0 || count_of(recipe, recipe_list(part)) > recipe_list(part)->most)
            return false;
    for (int i = 0; i < recipe->portions; i++)
        if (recipe->portion[i].colourants < 0 || recipe->portion[i].colourants > PORTION_COLOURANTS)
            return false;
    return true;
}

enum lw_status revision_write(struct store *store, int64_t recipe_id, int number, const struct recipe *recipe,
                              int64_t *revision_id, struct lw_error *error)
{
    enum lw_status status;

    if (!counts_sound(recipe))
        return lw_fail(error, LW_INVALID, "The recipe has more parts than a recipe can have; take some out.");
    status = write_head(store, recipe_id, number, recipe, error);
    *revision_id = sqlite3_last_insert_rowid(store->db);
    for (enum change_part part = CHANGE_OIL; status == LW_OK && part < CHANGE_PARTS; part++) {
        const struct recipe_list *list = recipe_list(part);
        const char *first = (const char *)recipe + list->first;

        for (int i = 0; status == LW_OK && i < count_of(recipe, list); i++)
            status = revision_insert_element(store, *revision_id, part, i, first + (size_t)i * list->size, error);
    }
    return status;
}

static bool same_list(const struct recipe *a, const struct recipe *b, const struct recipe_list *list)
{
    if (count_of(a, list) != count_of(b, list))
        return false;
    for (int i = 0; i < count_of(a, list); i++) {
        size_t at = list->first + (size_t)i * list->size;

        if (!members_same(&list->members, (const char *)a + at, (const char *)b + at))
            return false;
    }
    return true;
}

static bool same_colourants(const struct recipe_portion *a, const struct recipe_portion *b)
{
    if (a->colourants != b->colourants)
        return false;
    for (int i = 0; i < a->colourants; i++)
        if (!members_same(recipe_colourant_members(), &a->colourant[i], &b->colourant[i]))
            return false;
    return true;
}

bool revision_same(const struct recipe *a, const struct recipe *b)
{
    struct recipe_head head_a, head_b;

    recipe_head_read(a, &head_a);
    recipe_head_read(b, &head_b);
    if (!members_same(recipe_head_members(), &head_a, &head_b) || strcmp(a->note, b->note) != 0)
        return false;
    for (enum change_part part = CHANGE_OIL; part < CHANGE_PARTS; part++)
        if (!same_list(a, b, recipe_list(part)))
            return false;
    for (int i = 0; i < a->portions; i++)
        if (!same_colourants(&a->portion[i], &b->portion[i]))
            return false;
    return true;
}
