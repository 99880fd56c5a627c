/* history.c - changes packed one behind another: only as many bytes as the changed part has. */
#include "work/history.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"

/* A record: this, then the elements before and after, each only where the kind has it. */
struct record {
    enum change_part part;
    enum change_kind kind;
    int index;
    int group;
    size_t bytes, bytes_before; /* of this record in all, and of the one before it */
};

struct history {
    char *data;
    size_t used, size;   /* bytes with records; bytes allocated */
    size_t at;           /* records before this are applied, those behind it were undone */
    size_t last;         /* bytes of the record that ends at `at`; 0 at the start */
    int groups, applied; /* in all; of which applied */
};

struct history *history_new(void)
{
    return calloc(1, sizeof(struct history));
}

void history_free(struct history *history)
{
    if (history)
        free(history->data);
    free(history);
}

void history_clear(struct history *history)
{
    *history = (struct history){.data = history->data, .size = history->size};
}

static bool has_before(enum change_kind kind)
{
    return kind != CHANGE_INSERT;
}

static bool has_after(enum change_kind kind)
{
    return kind != CHANGE_REMOVE;
}

static size_t record_bytes(const struct change *change)
{
    size_t one = change_size(change->part);

    return sizeof(struct record) + (has_before(change->kind) ? one : 0) + (has_after(change->kind) ? one : 0);
}

static bool make_room(struct history *history, size_t bytes)
{
    size_t need = history->at + bytes, size = history->size ? history->size : 64 * 1024;
    char *data;

    while (size < need)
        size *= 2;
    if (size == history->size)
        return true;
    data = realloc(history->data, size);
    if (!data)
        return false;
    history->data = data;
    history->size = size;
    return true;
}

static void write_record(struct history *history, const struct change *change, int group)
{
    size_t one = change_size(change->part);
    char *to = history->data + history->at;
    struct record record = {.part = change->part,
                            .kind = change->kind,
                            .index = change->index,
                            .group = group,
                            .bytes = record_bytes(change),
                            .bytes_before = history->last};

    memcpy(to, &record, sizeof record);
    to += sizeof record;
    if (has_before(change->kind)) {
        memcpy(to, &change->before, one);
        to += one;
    }
    if (has_after(change->kind))
        memcpy(to, &change->after, one);
    history->at += record.bytes;
    history->last = record.bytes;
}

enum lw_status history_add(struct history *history, const struct change changes[], int n, struct lw_error *error)
{
    size_t bytes = 0;

    for (int i = 0; i < n; i++)
        bytes += record_bytes(&changes[i]);
    if (!make_room(history, bytes))
        return lw_fail(error, LW_FULL, "There is no memory left to remember this step for undo; nothing was changed.");
    for (int i = 0; i < n; i++)
        write_record(history, &changes[i], history->applied);
    history->used = history->at;
    history->applied++;
    history->groups = history->applied;
    return LW_OK;
}

/* Reads the record at an offset. */
static struct record read_record(const struct history *history, size_t at, struct change *change)
{
    const char *from = history->data + at;
    struct record record;
    size_t one;

    memcpy(&record, from, sizeof record);
    from += sizeof record;
    one = change_size(record.part);
    memset(change, 0, sizeof *change);
    change->part = record.part;
    change->kind = record.kind;
    change->index = record.index;
    if (has_before(record.kind)) {
        memcpy(&change->before, from, one);
        from += one;
    }
    if (has_after(record.kind))
        memcpy(&change->after, from, one);
    return record;
}

/* The change that takes `change` back. */
static void invert(const struct change *change, struct change *inverse)
{
    *inverse = *change;
    inverse->before = change->after;
    inverse->after = change->before;
    if (change->kind != CHANGE_REPLACE)
        inverse->kind = change->kind == CHANGE_INSERT ? CHANGE_REMOVE : CHANGE_INSERT;
}

enum lw_status history_undo(struct history *history, struct recipe *recipe,
                            void (*each)(void *context, const struct change *change), void *context,
                            struct lw_error *error)
{
    int group = history->applied - 1;

    if (group < 0)
        return lw_fail(error, LW_NOT_FOUND, "There is nothing to undo.");
    while (history->last > 0) {
        struct change change, inverse;
        struct record record = read_record(history, history->at - history->last, &change);

        if (record.group != group)
            break;
        change_apply(recipe, &change, false, NULL);
        history->at -= record.bytes;
        history->last = record.bytes_before;
        invert(&change, &inverse);
        if (each)
            each(context, &inverse);
    }
    history->applied--;
    return LW_OK;
}

enum lw_status history_redo(struct history *history, struct recipe *recipe,
                            void (*each)(void *context, const struct change *change), void *context,
                            struct lw_error *error)
{
    int group = history->applied;

    if (group >= history->groups)
        return lw_fail(error, LW_NOT_FOUND, "There is nothing to redo.");
    while (history->at < history->used) {
        struct change change;
        struct record record = read_record(history, history->at, &change);

        if (record.group != group)
            break;
        change_apply(recipe, &change, true, NULL);
        history->at += record.bytes;
        history->last = record.bytes;
        if (each)
            each(context, &change);
    }
    history->applied++;
    return LW_OK;
}
