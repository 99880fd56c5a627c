/* recipes_save.c - changes of a draft, row by row. A list's positions have no gaps: an insert moves those behind it up, the
 * last first, and a removal moves them down, so that no two ever share a position. */
#include "store/recipes.h"

#include "base/error.h"
#include "store/recipe_revision.h"

static enum lw_status count_rows(struct store *store, int64_t revision_id, const struct recipe_list *list, int *count,
                                 struct lw_error *error)
{
    struct query query;

    *count = 0;
    query_begin(&query, store, list->count_rows);
    query_bind_int(&query, revision_id);
    if (query_row(&query))
        *count = (int)query_int(&query);
    return query_end(&query, error);
}

static enum lw_status shift(struct store *store, int64_t revision_id, const struct recipe_list *list, int from, int to,
                            struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, list->shift);
    query_bind_int(&query, revision_id);
    query_bind_int(&query, from);
    query_bind_int(&query, to);
    return query_run(&query, error);
}

static enum lw_status find_portion(struct store *store, int64_t revision_id, int index, int64_t *id,
                                   struct lw_error *error)
{
    struct query query;

    *id = 0;
    query_begin(&query, store, SQL_PORTION_ID);
    query_bind_int(&query, revision_id);
    query_bind_int(&query, index);
    if (query_row(&query))
        *id = query_int(&query);
    return query_end(&query, error);
}

/* With `portion` those it is to have, without it none. */
static enum lw_status put_colourants(struct store *store, int64_t revision_id, int index,
                                     const struct recipe_portion *portion, struct lw_error *error)
{
    static const struct recipe_portion plain;
    int64_t id;
    enum lw_status status = find_portion(store, revision_id, index, &id, error);

    if (status != LW_OK)
        return status;
    return revision_replace_colourants(store, id, portion ? portion : &plain, error);
}

static enum lw_status insert(struct store *store, int64_t revision_id, const struct change *change, int count,
                             struct lw_error *error)
{
    const struct recipe_list *list = recipe_list(change->part);
    enum lw_status status = LW_OK;

    if (count >= list->most)
        return lw_fail(error, LW_FULL, "The recipe has as many parts of that sort as it can have (%d).", list->most);
    for (int i = count - 1; status == LW_OK && i >= change->index; i--)
        status = shift(store, revision_id, list, i, i + 1, error);
    if (status != LW_OK)
        return status;
    return revision_insert_element(store, revision_id, change->part, change->index, &change->after, error);
}

static enum lw_status replace(struct store *store, int64_t revision_id, const struct change *change,
                              struct lw_error *error)
{
    const struct recipe_list *list = recipe_list(change->part);
    struct query query;
    enum lw_status status;

    query_begin(&query, store, list->update);
    query_bind_int(&query, revision_id);
    query_bind_int(&query, change->index);
    members_bind(&query, &list->members, &change->after);
    status = query_run(&query, error);
    if (status != LW_OK || change->part != CHANGE_PORTION)
        return status;
    return put_colourants(store, revision_id, change->index, &change->after.portion, error);
}

static enum lw_status take_out(struct store *store, int64_t revision_id, const struct change *change, int count,
                               struct lw_error *error)
{
    const struct recipe_list *list = recipe_list(change->part);
    struct query query;
    enum lw_status status = LW_OK;

    if (change->part == CHANGE_PORTION)
        status = put_colourants(store, revision_id, change->index, NULL, error);
    if (status != LW_OK)
        return status;
    query_begin(&query, store, list->remove);
    query_bind_int(&query, revision_id);
    query_bind_int(&query, change->index);
    status = query_run(&query, error);
    for (int i = change->index + 1; status == LW_OK && i < count; i++)
        status = shift(store, revision_id, list, i, i - 1, error);
    return status;
}

static enum lw_status save_element(struct store *store, int64_t revision_id, const struct change *change,
                                   struct lw_error *error)
{
    int count;
    enum lw_status status = count_rows(store, revision_id, recipe_list(change->part), &count, error);

    if (status != LW_OK)
        return status;
    if (change->index < 0 || change->index >= count + (change->kind == CHANGE_INSERT))
        return lw_fail(error, LW_INVALID, "There is nothing at place %d of that part of the recipe to change.",
                       change->index + 1);
    if (change->kind == CHANGE_INSERT)
        return insert(store, revision_id, change, count, error);
    if (change->kind == CHANGE_REPLACE)
        return replace(store, revision_id, change, error);
    return take_out(store, revision_id, change, count, error);
}

static enum lw_status save_change(struct store *store, int64_t revision_id, const struct change *change,
                                  struct lw_error *error)
{
    struct query query;

    if (change->part != CHANGE_HEAD && change->part != CHANGE_NOTE)
        return save_element(store, revision_id, change, error);
    if (change->kind != CHANGE_REPLACE)
        return lw_fail(error, LW_INVALID, "That part of a recipe can only be replaced.");
    query_begin(&query, store, change->part == CHANGE_HEAD ? SQL_HEAD_UPDATE : SQL_NOTE_UPDATE);
    query_bind_int(&query, revision_id);
    if (change->part == CHANGE_HEAD)
        members_bind(&query, recipe_head_members(), &change->after.head);
    else
        query_bind_text(&query, change->after.note);
    return query_run(&query, error);
}

/* Takes the draft, if it is still the one that the changes were made on. */
static enum lw_status claim_draft(struct store *store, int64_t id, int64_t version, int64_t *revision_id,
                                  struct lw_error *error)
{
    struct query query;
    int64_t found;
    enum lw_status status = revision_find(store, id, 0, revision_id, &found, error);

    if (status != LW_OK)
        return status;
    if (found != version)
        return lw_fail(error, LW_CONFLICT, "Another program has changed this recipe since it was opened here.");
    query_begin(&query, store, SQL_DRAFT_SAVED);
    query_bind_int(&query, id);
    query_bind_int(&query, version);
    return query_run(&query, error);
}

static enum lw_status touch(struct store *store, int64_t id, const struct lw_now *now, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_RECIPE_TOUCH);
    query_bind_int(&query, id);
    query_bind_int(&query, now->utc_s);
    return query_run(&query, error);
}

static enum lw_status save(struct store *store, int64_t id, int64_t version, const struct change changes[], int n,
                           const struct lw_now *now, struct lw_error *error)
{
    int64_t revision_id;
    enum lw_status status = claim_draft(store, id, version, &revision_id, error);

    for (int i = 0; status == LW_OK && i < n; i++)
        status = save_change(store, revision_id, &changes[i], error);
    return status == LW_OK ? touch(store, id, now, error) : status;
}

enum lw_status recipes_save(struct store *store, int64_t id, int64_t *version, const struct change changes[], int n,
                            const struct lw_now *now, struct lw_error *error)
{
    enum lw_status status;

    if (n == 0)
        return LW_OK;
    status = store_begin(store, error);
    if (status != LW_OK)
        return status;
    status = store_end(store, save(store, id, *version, changes, n, now, error), error);
    if (status == LW_OK)
        (*version)++;
    return status;
}
