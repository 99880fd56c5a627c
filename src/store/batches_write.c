/* batches_write.c - batches written: begun once, then only added to. */
#include "store/batches.h"

#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "store/batch_rows.h"
#include "store/recipe_revision.h"

static enum lw_status insert_step(struct store *store, int64_t id, const struct step *step, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_BATCH_STEP_INSERT);
    query_bind_int(&query, id);
    members_bind(&query, batch_step_members(), step);
    return query_run(&query, error);
}

static enum lw_status insert_event(struct store *store, int64_t id, const struct batch_event *event,
                                   struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_BATCH_EVENT_INSERT);
    query_bind_int(&query, id);
    members_bind(&query, batch_event_members(), event);
    return query_run(&query, error);
}

/* Steps first: an event may name one of them. */
static enum lw_status insert_record(struct store *store, int64_t id, const struct step steps[], int n_steps,
                                    const struct batch_event events[], int n_events, struct lw_error *error)
{
    enum lw_status status = LW_OK;

    for (int i = 0; status == LW_OK && i < n_steps; i++)
        status = insert_step(store, id, &steps[i], error);
    for (int i = 0; status == LW_OK && i < n_events; i++)
        status = insert_event(store, id, &events[i], error);
    return status;
}

/* Whether `id` is the one that comes after `last`. One that is there already is another program's. */
static enum lw_status comes_next(int64_t last, int64_t id, const char *what, struct lw_error *error)
{
    if (id == last + 1)
        return LW_OK;
    if (id >= 1 && id <= last)
        return lw_fail(error, LW_CONFLICT, "Another program has added to this batch since it was read here.");
    return lw_fail(error, LW_INVALID, "%s %lld of this batch cannot follow %lld; nothing was saved.", what,
                   (long long)id, (long long)last);
}

static enum lw_status steps_come_next(int64_t last, const struct step steps[], int n, struct lw_error *error)
{
    enum lw_status status = LW_OK;

    for (int i = 0; status == LW_OK && i < n; i++)
        status = comes_next(last + i, steps[i].id, "Step", error);
    if (status == LW_OK && last + n > BATCH_STEPS)
        return lw_fail(error, LW_FULL, "A batch has %d steps at most; nothing was added.", BATCH_STEPS);
    return status;
}

static enum lw_status events_come_next(int64_t last, const struct batch_event events[], int n, struct lw_error *error)
{
    enum lw_status status = LW_OK;

    for (int i = 0; status == LW_OK && i < n; i++)
        status = comes_next(last + i, events[i].id, "Event", error);
    return status;
}

static enum lw_status refuse_taken(struct store *store, const struct batch_head *head, struct lw_error *error)
{
    char taken[BATCH_NUMBER_BYTES] = "";
    struct query query;
    bool found;
    enum lw_status status;

    query_begin(&query, store, SQL_BATCH_TAKEN);
    query_bind_text(&query, head->number);
    query_bind_bytes(&query, head->uuid, sizeof head->uuid);
    found = query_row(&query);
    if (found)
        text_copy(taken, sizeof taken, query_text(&query));
    status = query_end(&query, error);
    if (status != LW_OK || !found)
        return status;
    return lw_fail(error, LW_CONFLICT, "There is a batch %s in the records already; give this one another number.",
                   taken);
}

static enum lw_status insert_head(struct store *store, struct batch_head *head, int64_t oils_ug, struct lw_error *error)
{
    struct query query;
    enum lw_status status;

    query_begin(&query, store, SQL_BATCH_INSERT);
    query_bind_bytes(&query, head->uuid, sizeof head->uuid);
    query_bind_int(&query, oils_ug);
    members_bind(&query, batch_head_members(), head);
    status = query_run(&query, error);
    if (status == LW_OK)
        head->id = sqlite3_last_insert_rowid(store->db);
    return status;
}

static enum lw_status insert_vessels(struct store *store, const struct batch_head *head, struct lw_error *error)
{
    enum { MOST = sizeof head->vessel / sizeof head->vessel[0] };
    enum lw_status status = LW_OK;

    if (head->vessels < 0 || head->vessels > MOST)
        return lw_fail(error, LW_FULL, "A batch has %d vessels at most.", MOST);
    for (int i = 0; status == LW_OK && i < head->vessels; i++) {
        struct query query;

        query_begin(&query, store, SQL_BATCH_VESSEL_INSERT);
        query_bind_int(&query, head->id);
        query_bind_int(&query, i);
        members_bind(&query, batch_vessel_members(), &head->vessel[i]);
        status = query_run(&query, error);
    }
    return status;
}

static enum lw_status insert_frozen(struct store *store, int64_t id, const char *frozen, const char *bench,
                                    struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_BATCH_FROZEN_INSERT);
    query_bind_int(&query, id);
    query_bind_text(&query, frozen);
    query_bind_text(&query, bench);
    return query_run(&query, error);
}

/* That the recipe is there, kept: so a sentence can say it, where the tables would only refuse. */
static enum lw_status revision_kept(struct store *store, const struct batch_head *head, struct lw_error *error)
{
    int64_t revision_id;

    if (head->revision < 1)
        return lw_fail(error, LW_INVALID, "A batch is made of a revision that is kept; keep the draft first.");
    return revision_find(store, head->recipe_id, head->revision, &revision_id, NULL, error);
}

static enum lw_status create(struct store *store, struct batch_head *head, int64_t oils_ug, const char *frozen,
                             const char *bench, const struct step steps[], int n, struct lw_error *error)
{
    enum lw_status status = revision_kept(store, head, error);

    if (status == LW_OK)
        status = refuse_taken(store, head, error);
    if (status == LW_OK)
        status = steps_come_next(0, steps, n, error);
    if (status == LW_OK)
        status = insert_head(store, head, oils_ug, error);
    if (status == LW_OK)
        status = insert_vessels(store, head, error);
    if (status == LW_OK)
        status = insert_frozen(store, head->id, frozen, bench, error);
    return status == LW_OK ? insert_record(store, head->id, steps, n, NULL, 0, error) : status;
}

enum lw_status batches_create(struct store *store, struct batch_head *head, int64_t oils_ug, const char *frozen,
                              const char *bench, const struct step steps[], int n, struct lw_error *error)
{
    static const uint8_t none[LW_UUID_BYTES];
    struct batch_head made = *head;
    enum lw_status status = store_begin(store, error);

    if (status != LW_OK)
        return status;
    if (memcmp(made.uuid, none, sizeof none) == 0)
        store_uuid(store, made.uuid);
    status = store_end(store, create(store, &made, oils_ug, frozen, bench, steps, n, error), error);
    if (status == LW_OK)
        *head = made;
    return status;
}

/* The last step and event of the record; 0: none. */
static enum lw_status read_ends(struct store *store, int64_t id, int64_t *step, int64_t *event, struct lw_error *error)
{
    struct query query;
    enum lw_status status;
    bool found;

    query_begin(&query, store, SQL_BATCH_ENDS);
    query_bind_int(&query, id);
    found = query_row(&query);
    if (found) {
        *step = query_int(&query);
        *event = query_int(&query);
    }
    status = query_end(&query, error);
    if (status != LW_OK || found)
        return status;
    return lw_fail(error, LW_NOT_FOUND, "That batch is not in the records.");
}

static enum lw_status append(struct store *store, int64_t id, const struct step steps[], int n_steps,
                             const struct batch_event events[], int n_events, struct lw_error *error)
{
    int64_t step = 0, event = 0;
    enum lw_status status = read_ends(store, id, &step, &event, error);

    if (status == LW_OK)
        status = steps_come_next(step, steps, n_steps, error);
    if (status == LW_OK)
        status = events_come_next(event, events, n_events, error);
    return status == LW_OK ? insert_record(store, id, steps, n_steps, events, n_events, error) : status;
}

enum lw_status batches_append(struct store *store, int64_t id, const struct step steps[], int n_steps,
                              const struct batch_event events[], int n_events, struct lw_error *error)
{
    enum lw_status status = store_begin(store, error);

    if (status != LW_OK)
        return status;
    return store_end(store, append(store, id, steps, n_steps, events, n_events, error), error);
}
