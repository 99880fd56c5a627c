/* shelf.c - entries of the maker's own, put and archived. */
#include "store/shelf.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "lyeway/names.h"
#include "store/shelf_members.h"

enum { MEMBER_BYTES = 160 };

/* What a fact is known by; source NULL: nothing is said of it. */
struct origin {
    const char *standing, *source;
};

struct writer {
    struct store *store;
    const struct shelf_kind *kind;
    const void *row;
    int64_t id;
};

static const char *text_at(const void *row, size_t offset)
{
    const char *text;

    memcpy(&text, (const char *)row + offset, sizeof text);
    return text ? text : "";
}

static struct origin origin_of(const struct writer *writer, int origin)
{
    enum standing standing;

    if (origin < 0)
        return (struct origin){NULL, NULL};
    memcpy(&standing, (const char *)writer->row + writer->kind->origin[origin].standing, sizeof standing);
    return (struct origin){name_of_standing(standing), text_at(writer->row, writer->kind->origin[origin].source)};
}

/* text NULL: the number. */
static enum lw_status write_fact(const struct writer *writer, const char *member, double number, const char *text,
                                 int origin, struct lw_error *error)
{
    struct origin from = origin_of(writer, origin);
    struct query query;

    query_begin(&query, writer->store, SQL_FACT_INSERT);
    query_bind_int(&query, writer->id);
    query_bind_text(&query, member);
    if (text)
        query_bind_null(&query);
    else
        query_bind_real(&query, number);
    query_bind_text(&query, text);
    query_bind_text(&query, from.standing);
    query_bind_text(&query, from.source);
    return query_run(&query, error);
}

static double number_at(const struct shelf_member *member, const char *at)
{
    double real;
    int whole;

    if (member->form == SHELF_BOOL)
        return *(const bool *)at;
    if (member->form == SHELF_INT) {
        memcpy(&whole, at, sizeof whole);
        return whole;
    }
    memcpy(&real, at, sizeof real);
    return real;
}

static enum lw_status write_member(const struct writer *writer, const struct shelf_member *member,
                                   struct lw_error *error)
{
    const char *at = (const char *)writer->row + member->offset;
    const char *text = NULL;
    double number = 0;
    int value;

    if (member->form == SHELF_WORD) {
        memcpy(&value, at, sizeof value);
        text = member_word(member->words, value);
        number = value;
    } else if (member->form == SHELF_TEXT) {
        text = text_at(writer->row, member->offset);
        number = text[0] != '\0';
    } else {
        number = number_at(member, at);
    }
    /* What is 0 or empty need not be said: a row that is read begins with that. */
    if (number == 0 && !member->carries)
        return LW_OK;
    return write_fact(writer, member->name, number, text, member->origin, error);
}

static enum lw_status write_acids(const struct writer *writer, struct lw_error *error)
{
    struct oil_fact oil = *(const struct oil_fact *)writer->row;
    enum lw_status status = LW_OK;

    for (int i = 0; status == LW_OK && i < SHELF_ACID_FIGURES * ACIDS; i++) {
        int figure = i / ACIDS, acid = i % ACIDS;
        double share = shelf_acid(&oil, figure)[acid];
        char member[MEMBER_BYTES] = "";

        text_add(member, sizeof member, "%s%s", shelf_acid_prefix(figure), shelf_acid_key((enum acid)acid));
        if (share != 0)
            status = write_fact(writer, member, share, NULL, 1, error);
    }
    return status;
}

static enum lw_status write_constituent(const struct writer *writer, const char *key, const char *end, double share,
                                        struct lw_error *error)
{
    char member[MEMBER_BYTES] = "";

    if (!text_add(member, sizeof member, "constituent:%s:%s", key, end))
        return lw_fail(error, LW_INVALID, "The name of a constituent is too long: %s.", key);
    return write_fact(writer, member, share, NULL, 0, error);
}

static enum lw_status write_composition(const struct writer *writer, const struct reference *reference,
                                        struct lw_error *error)
{
    const struct fragrance_fact *fragrance = writer->row;
    enum lw_status status = LW_OK;

    if (fragrance->allergen >= 0 && (size_t)fragrance->allergen < reference->allergens)
        status = write_fact(writer, "allergen", 0, reference->allergen[fragrance->allergen].key, 0, error);
    for (size_t i = 0; status == LW_OK && i < fragrance->constituents; i++) {
        const struct constituent *one = &fragrance->constituent[i];

        if (one->limit < 0 || (size_t)one->limit >= reference->limits)
            return lw_fail(error, LW_INVALID, "A constituent of \"%s\" is not one that is known here.",
                           fragrance->name);
        status = write_constituent(writer, reference->limit[one->limit].key, "lo", one->lo, error);
        if (status == LW_OK)
            status = write_constituent(writer, reference->limit[one->limit].key, "hi", one->hi, error);
    }
    return status;
}

static enum lw_status find(struct store *store, const char *kind, const char *name, int64_t *id, struct lw_error *error)
{
    struct query query;

    *id = 0;
    query_begin(&query, store, SQL_INGREDIENT_FIND);
    query_bind_text(&query, kind);
    query_bind_text(&query, name);
    if (query_row(&query))
        *id = query_int(&query);
    return query_end(&query, error);
}

static enum lw_status insert(struct writer *writer, const char *name, const char *key, const struct lw_now *now,
                             struct lw_error *error)
{
    uint8_t uuid[16];
    struct query query;
    enum lw_status status;

    store_uuid(writer->store, uuid);
    query_begin(&query, writer->store, SQL_INGREDIENT_INSERT);
    query_bind_bytes(&query, uuid, sizeof uuid);
    query_bind_text(&query, writer->kind->word);
    query_bind_text(&query, name);
    query_bind_text(&query, key);
    query_bind_int(&query, now->utc_s);
    status = query_run(&query, error);
    writer->id = sqlite3_last_insert_rowid(writer->store->db);
    return status;
}

static enum lw_status update(const struct writer *writer, const char *name, const char *key, const struct lw_now *now,
                             struct lw_error *error)
{
    struct query query;
    enum lw_status status;

    query_begin(&query, writer->store, SQL_INGREDIENT_UPDATE);
    query_bind_int(&query, writer->id);
    query_bind_text(&query, name);
    query_bind_text(&query, key);
    query_bind_int(&query, now->utc_s);
    status = query_run(&query, error);
    if (status != LW_OK)
        return status;
    query_begin(&query, writer->store, SQL_FACT_DELETE);
    query_bind_int(&query, writer->id);
    return query_run(&query, error);
}

static enum lw_status write_entry(struct writer *writer, const struct reference *reference, const struct lw_now *now,
                                  struct lw_error *error)
{
    const char *name = text_at(writer->row, writer->kind->name), *key = text_at(writer->row, writer->kind->key);
    enum lw_status status = find(writer->store, writer->kind->word, name, &writer->id, error);

    if (key[0] == '\0')
        key = name;
    if (status == LW_OK)
        status = writer->id ? update(writer, name, key, now, error) : insert(writer, name, key, now, error);
    for (int i = 0; status == LW_OK && i < writer->kind->members; i++)
        status = write_member(writer, &writer->kind->member[i], error);
    if (status == LW_OK && writer->kind == shelf_kind(FACT_OIL))
        status = write_acids(writer, error);
    if (status == LW_OK && writer->kind == shelf_kind(FACT_FRAGRANCE))
        status = write_composition(writer, reference, error);
    return status;
}

static enum lw_status put(struct store *store, enum fact_kind kind, const void *row, const struct reference *reference,
                          const struct lw_now *now, struct lw_error *error)
{
    struct writer writer = {store, shelf_kind(kind), row, 0};
    enum lw_status status = store_begin(store, error);

    return status == LW_OK ? store_end(store, write_entry(&writer, reference, now, error), error) : status;
}

enum lw_status shelf_put_oil(struct store *store, const struct oil_fact *oil, const struct lw_now *now,
                             struct lw_error *error)
{
    return put(store, FACT_OIL, oil, NULL, now, error);
}

enum lw_status shelf_put_additive(struct store *store, const struct additive_fact *additive, const struct lw_now *now,
                                  struct lw_error *error)
{
    return put(store, FACT_ADDITIVE, additive, NULL, now, error);
}

enum lw_status shelf_put_liquid(struct store *store, const struct liquid_fact *liquid, const struct lw_now *now,
                                struct lw_error *error)
{
    return put(store, FACT_LIQUID, liquid, NULL, now, error);
}

enum lw_status shelf_put_colourant(struct store *store, const struct colourant_fact *colourant,
                                   const struct lw_now *now, struct lw_error *error)
{
    return put(store, FACT_COLOURANT, colourant, NULL, now, error);
}

enum lw_status shelf_put_fragrance(struct store *store, const struct fragrance_fact *fragrance,
                                   const struct reference *reference, const struct lw_now *now, struct lw_error *error)
{
    return put(store, FACT_FRAGRANCE, fragrance, reference, now, error);
}

static enum lw_status archive(struct store *store, const char *kind, const char *name, const struct lw_now *now,
                              struct lw_error *error)
{
    struct query query;
    enum lw_status status;

    query_begin(&query, store, SQL_INGREDIENT_ARCHIVE);
    query_bind_text(&query, kind);
    query_bind_text(&query, name);
    query_bind_int(&query, now->utc_s);
    status = query_run(&query, error);
    if (status == LW_OK && sqlite3_changes(store->db) == 0)
        return lw_fail(error, LW_NOT_FOUND, "There is no %s \"%s\" on the shelf.", kind, name);
    return status;
}

enum lw_status shelf_archive(struct store *store, enum fact_kind kind, const char *name, const struct lw_now *now,
                             struct lw_error *error)
{
    enum lw_status status = store_begin(store, error);

    if (status != LW_OK)
        return status;
    return store_end(store, archive(store, shelf_kind(kind)->word, name, now, error), error);
}
