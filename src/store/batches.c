/* batches.c - batches read: listed, loaded, their records walked through, their numbers looked over. */
#include "store/batches.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "store/batch_rows.h"
#include "store/moments.h"

enum { SERIAL_DIGITS = 18 }; /* that an int64_t holds whatever they are */

enum lw_status batches_each(struct store *store, enum batches_which which,
                            bool (*each)(void *context, const struct batch_line *line), void *context,
                            struct lw_error *error)
{
    struct query query;
    bool more = true;

    query_begin(&query, store, which == BATCHES_RUNNING ? SQL_BATCHES_RUNNING : SQL_BATCHES_NEWEST);
    while (more && query_row(&query)) {
        struct batch_line line = {0};

        members_read(&query, batch_line_members(), &line);
        more = query.code == SQLITE_OK && each(context, &line);
    }
    return query_end(&query, error);
}

enum lw_status batches_pieces(struct store *store, bool (*each)(void *context, const struct pieces_line *line),
                              void *context, struct lw_error *error)
{
    struct query query;
    bool more = true;

    query_begin(&query, store, SQL_PIECES);
    while (more && query_row(&query)) {
        struct pieces_line line = {0};

        text_copy(line.number, sizeof line.number, query_text(&query));
        text_copy(line.kind, sizeof line.kind, query_text(&query));
        line.made_s = query_int(&query);
        line.on_shelf = (int)query_int(&query);
        more = query.code == SQLITE_OK && each(context, &line);
    }
    return query_end(&query, error);
}

static enum lw_status read_head(struct store *store, int64_t id, struct batch_head *head, struct lw_error *error)
{
    struct query query;
    enum lw_status status;
    bool found;

    memset(head, 0, sizeof *head);
    query_begin(&query, store, SQL_BATCH_SELECT);
    query_bind_int(&query, id);
    found = query_row(&query);
    if (found) {
        query_bytes(&query, head->uuid, sizeof head->uuid);
        members_read(&query, batch_head_members(), head);
        head->id = id;
    }
    status = query_end(&query, error);
    if (status != LW_OK || found)
        return status;
    return lw_fail(error, LW_NOT_FOUND, "That batch is not in the records.");
}

static enum lw_status read_vessels(struct store *store, struct batch_head *head, struct lw_error *error)
{
    enum { MOST = sizeof head->vessel / sizeof head->vessel[0] };
    struct query query;

    query_begin(&query, store, SQL_BATCH_VESSEL_SELECT);
    query_bind_int(&query, head->id);
    while (query_row(&query)) {
        if (head->vessels >= MOST || query_int(&query) != head->vessels) {
            query_corrupt(&query);
            break;
        }
        members_read(&query, batch_vessel_members(), &head->vessel[head->vessels++]);
    }
    return query_end(&query, error);
}

/* To be freed; NULL without memory. */
static char *copy_text(const char *text)
{
    size_t n = strlen(text) + 1;
    char *copy = malloc(n);

    if (copy)
        memcpy(copy, text, n);
    return copy;
}

/* Both texts or none. */
static enum lw_status read_frozen(struct store *store, int64_t id, char **frozen, char **bench, struct lw_error *error)
{
    struct query query;
    enum lw_status status;

    query_begin(&query, store, SQL_BATCH_FROZEN_SELECT);
    query_bind_int(&query, id);
    if (query_row(&query)) {
        *frozen = copy_text(query_text(&query));
        *bench = copy_text(query_text(&query));
        if (!*frozen || !*bench)
            query.code = SQLITE_NOMEM;
    } else {
        query_corrupt(&query);
    }
    status = query_end(&query, error);
    if (status == LW_OK)
        return status;
    free(*frozen);
    free(*bench);
    *frozen = *bench = NULL;
    return status;
}

enum lw_status batches_load(struct store *store, int64_t id, struct batch_head *head, char **frozen, char **bench,
                            struct lw_error *error)
{
    enum lw_status status = store_read_begin(store, error);

    *frozen = *bench = NULL;
    if (status != LW_OK)
        return status;
    status = read_head(store, id, head, error);
    if (status == LW_OK)
        status = read_vessels(store, head, error);
    if (status == LW_OK)
        status = read_frozen(store, id, frozen, bench, error);
    return store_read_end(store, status, error);
}

enum lw_status batches_steps(struct store *store, int64_t id, bool (*each)(void *context, const struct step *step),
                             void *context, struct lw_error *error)
{
    struct query query;
    bool more = true;

    query_begin(&query, store, SQL_BATCH_STEPS);
    query_bind_int(&query, id);
    while (more && query_row(&query)) {
        struct step step = {0};

        members_read(&query, batch_step_members(), &step);
        more = query.code == SQLITE_OK && each(context, &step);
    }
    return query_end(&query, error);
}

/* Of a batch on the bench they were moved at once. */
static enum lw_status settle_for(struct store *store, int64_t id, struct lw_error *error)
{
    struct query query;
    enum lw_status status;
    bool runs;

    if (!store->moments_wait)
        return LW_OK;
    query_begin(&query, store, SQL_BATCH_RUNS);
    query_bind_int(&query, id);
    runs = query_row(&query);
    status = query_end(&query, error);
    return status == LW_OK && !runs ? moments_settle(store, error) : status;
}

enum lw_status batches_events(struct store *store, int64_t id, int64_t after,
                              bool (*each)(void *context, const struct batch_event *event), void *context,
                              struct lw_error *error)
{
    struct query query;
    bool more = true;
    enum lw_status status = settle_for(store, id, error);

    if (status != LW_OK)
        return status;

    query_begin(&query, store, SQL_BATCH_EVENTS);
    query_bind_int(&query, id);
    query_bind_int(&query, after);
    while (more && query_row(&query)) {
        struct batch_event event = {0};

        members_read(&query, batch_event_members(), &event);
        more = query.code == SQLITE_OK && each(context, &event);
    }
    return query_end(&query, error);
}

/* What stands in `number` for its serial; 0 where that is not digits alone or `suffix` does not follow. */
static int64_t serial_of(const char *number, const char *prefix, const char *suffix)
{
    const char *rest = number + strlen(prefix);
    size_t length = strlen(rest), tail = strlen(suffix);
    size_t digits = length - tail;
    int64_t serial = 0;

    if (length <= tail || digits > SERIAL_DIGITS || strspn(rest, "0123456789") < digits ||
        strcmp(rest + digits, suffix) != 0)
        return 0;
    for (size_t i = 0; i < digits; i++)
        serial = 10 * serial + (rest[i] - '0');
    return serial;
}

enum lw_status batches_serial(struct store *store, const char *prefix, const char *suffix, int64_t *serial,
                              struct lw_error *error)
{
    struct query query;

    *serial = 0;
    query_begin(&query, store, SQL_BATCH_NUMBERS);
    query_bind_text(&query, prefix);
    while (query_row(&query)) {
        int64_t found = serial_of(query_text(&query), prefix, suffix);

        if (found > *serial)
            *serial = found;
    }
    return query_end(&query, error);
}

enum lw_status batches_acknowledged(struct store *store, int64_t *at_s, struct lw_error *error)
{
    struct query query;

    *at_s = 0;
    query_begin(&query, store, SQL_BATCH_ACKNOWLEDGED);
    if (query_row(&query))
        *at_s = query_int(&query);
    return query_end(&query, error);
}
