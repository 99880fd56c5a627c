/* shelf_write.c - puts an entry of the shelf into the store: one row for the ingredient, one for each figure that is known. */
#include <stdio.h>
#include <string.h>

#include "base/error.h"
#include "lyeway/names.h"
#include "store/query.h"
#include "store/shelf.h"
#include "store/shelf_members.h"

enum { MEMBER_BYTES = 96 };

struct trust {
    enum standing standing;
    const char *source;
};

static enum lw_status find_or_make(struct store *store, const char *kind, const char *name, const char *key,
                                   const struct lw_now *now, int64_t *id, struct lw_error *error)
{
    struct query query;
    uint8_t uuid[16];
    enum lw_status status;

    *id = 0;
    query_begin(&query, store, SQL_INGREDIENT_FIND);
    query_bind_text(&query, kind);
    query_bind_text(&query, name);
    if (query_row(&query))
        *id = query_int(&query);
    status = query_end(&query, error);
    if (status != LW_OK)
        return status;
    query_begin(&query, store, *id ? SQL_INGREDIENT_UPDATE : SQL_INGREDIENT_INSERT);
    if (*id)
        query_bind_int(&query, *id);
    else {
        store_uuid(store, uuid);
        query_bind_bytes(&query, uuid, sizeof uuid);
        query_bind_text(&query, kind);
    }
    query_bind_text(&query, name);
    query_bind_text(&query, key);
    query_bind_int(&query, now->utc_s);
    status = query_run(&query, error);
    if (status == LW_OK && *id == 0)
        *id = sqlite3_last_insert_rowid(store->db);
    return status;
}

static enum lw_status forget_facts(struct store *store, int64_t id, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_FACT_DELETE);
    query_bind_int(&query, id);
    return query_run(&query, error);
}

/* A number, or a text where it is not NULL. */
static enum lw_status put_fact(struct store *store, int64_t id, const char *member, double number, const char *text,
                               const struct trust *trust, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_FACT_INSERT);
    query_bind_int(&query, id);
    query_bind_text(&query, member);
    if (text) {
        query_bind_null(&query);
        query_bind_text(&query, text);
    } else {
        query_bind_real(&query, number);
        query_bind_null(&query);
    }
    query_bind_text(&query, name_of_standing(trust->standing));
    query_bind_text(&query, trust->source ? trust->source : "");
    return query_run(&query, error);
}

static struct trust trust_of(const struct shelf_trust *where, const void *row)
{
    struct trust trust;

    memcpy(&trust.standing, (const char *)row + where->standing, sizeof trust.standing);
    memcpy(&trust.source, (const char *)row + where->source, sizeof trust.source);
    return trust;
}

static enum lw_status put_members(struct store *store, int64_t id, const struct shelf_row *shape, const void *row,
                                  struct lw_error *error)
{
    struct trust trust = trust_of(&shape->trust, row);
    enum lw_status status = LW_OK;

    for (size_t i = 0; i < shape->members && status == LW_OK; i++) {
        const struct shelf_member *member = &shape->member[i];
        const char *text = NULL;

        if (member->form == SHELF_TEXT) {
            memcpy(&text, (const char *)row + member->offset, sizeof text);
            text = text ? text : "";
        }
        status = put_fact(store, id, member->name, shelf_number(member, row), text, &trust, error);
    }
    return status;
}

static enum lw_status put_acids(struct store *store, int64_t id, const struct oil_fact *oil,
                                const struct reference *reference, struct lw_error *error)
{
    struct trust trust = {oil->acid_standing, oil->acid_source};
    enum lw_status status = LW_OK;

    for (int i = 0; i < ACIDS && status == LW_OK && oil->has_acids; i++) {
        char member[MEMBER_BYTES];

        snprintf(member, sizeof member, "acid:%s", reference->acid[i].key);
        if (oil->acid[i] > 0)
            status = put_fact(store, id, member, oil->acid[i], NULL, &trust, error);
    }
    return status;
}

static enum lw_status put_constituents(struct store *store, int64_t id, const struct fragrance_fact *fragrance,
                                       const struct reference *reference, struct lw_error *error)
{
    struct trust trust = {fragrance->standing, fragrance->source};
    enum lw_status status = LW_OK;

    for (size_t i = 0; i < fragrance->constituents && status == LW_OK; i++) {
        const struct constituent *constituent = &fragrance->constituent[i];
        const char *key = reference->limit[constituent->limit].key;
        char member[MEMBER_BYTES];

        snprintf(member, sizeof member, "constituent:%s:lo", key);
        status = put_fact(store, id, member, constituent->lo, NULL, &trust, error);
        snprintf(member, sizeof member, "constituent:%s:hi", key);
        if (status == LW_OK)
            status = put_fact(store, id, member, constituent->hi, NULL, &trust, error);
    }
    return status;
}

struct entry {
    enum fact_kind kind;
    const char *name, *key;
    const void *row;
    const struct reference *reference;
};

static enum lw_status put_all(struct store *store, const struct entry *entry, const struct lw_now *now,
                              struct lw_error *error)
{
    const struct shelf_row *shape = shelf_row(entry->kind);
    int64_t id;
    enum lw_status status = find_or_make(store, shape->kind, entry->name, entry->key ? entry->key : entry->name, now,
                                         &id, error);

    if (status == LW_OK)
        status = forget_facts(store, id, error);
    if (status == LW_OK)
        status = put_members(store, id, shape, entry->row, error);
    if (status == LW_OK && entry->kind == FACT_OIL)
        status = put_acids(store, id, entry->row, entry->reference, error);
    if (status == LW_OK && entry->kind == FACT_FRAGRANCE)
        status = put_constituents(store, id, entry->row, entry->reference, error);
    return status;
}

static enum lw_status put(struct store *store, const struct entry *entry, const struct lw_now *now,
                          struct lw_error *error)
{
    enum lw_status status = store_begin(store, error);

    if (status != LW_OK)
        return status;
    return store_end(store, put_all(store, entry, now, error), error);
}

enum lw_status shelf_put_oil(struct store *store, const struct oil_fact *oil, const struct reference *reference,
                             const struct lw_now *now, struct lw_error *error)
{
    return put(store, &(struct entry){FACT_OIL, oil->name, oil->key, oil, reference}, now, error);
}

enum lw_status shelf_put_additive(struct store *store, const struct additive_fact *additive, const struct lw_now *now,
                                  struct lw_error *error)
{
    return put(store, &(struct entry){FACT_ADDITIVE, additive->name, additive->key, additive, NULL}, now, error);
}

enum lw_status shelf_put_liquid(struct store *store, const struct liquid_fact *liquid, const struct lw_now *now,
                                struct lw_error *error)
{
    return put(store, &(struct entry){FACT_LIQUID, liquid->name, liquid->key, liquid, NULL}, now, error);
}

enum lw_status shelf_put_colourant(struct store *store, const struct colourant_fact *colourant,
                                   const struct lw_now *now, struct lw_error *error)
{
    return put(store, &(struct entry){FACT_COLOURANT, colourant->name, colourant->key, colourant, NULL}, now, error);
}

enum lw_status shelf_put_fragrance(struct store *store, const struct fragrance_fact *fragrance,
                                   const struct reference *reference, const struct lw_now *now, struct lw_error *error)
{
    return put(store, &(struct entry){FACT_FRAGRANCE, fragrance->name, fragrance->key, fragrance, reference}, now,
               error);
}

static enum lw_status archive(struct store *store, enum fact_kind kind, const char *name, const struct lw_now *now,
                              struct lw_error *error)
{
    struct query query;
    enum lw_status status;

    query_begin(&query, store, SQL_INGREDIENT_ARCHIVE);
    query_bind_text(&query, shelf_row(kind)->kind);
    query_bind_text(&query, name);
    query_bind_int(&query, now->utc_s);
    status = query_run(&query, error);
    if (status == LW_OK && sqlite3_changes(store->db) == 0)
        return lw_fail(error, LW_NOT_FOUND, "There is no %s of your own by the name of \"%s\".", shelf_row(kind)->kind,
                       name);
    return status;
}

enum lw_status shelf_archive(struct store *store, enum fact_kind kind, const char *name, const struct lw_now *now,
                             struct lw_error *error)
{
    enum lw_status status = store_begin(store, error);

    if (status != LW_OK)
        return status;
    return store_end(store, archive(store, kind, name, now, error), error);
}
