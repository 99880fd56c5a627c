/* shelf_read.c - the shelf from the store, as rows in the form of the reference's. */
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "lyeway/names.h"
#include "store/query.h"
#include "store/shelf.h"
#include "store/shelf_members.h"

enum { KINDS = FACT_FRAGRANCE + 1, BLOCK_BYTES = 16 * 1024 };

/* Texts and constituents live in blocks that never move. */
struct block {
    struct block *next;
    size_t used, size;
    char bytes[];
};

struct rows {
    char *first; /* of `count` rows, size of one by shelf_row */
    size_t count, room;
};

struct loading {
    const struct reference *reference;
    struct block *blocks;
    struct rows rows[KINDS];
    bool full; /* no memory */
};

static void *take(struct loading *loading, size_t bytes)
{
    struct block *block = loading->blocks;
    void *taken;

    bytes = (bytes + _Alignof(max_align_t) - 1) & ~(_Alignof(max_align_t) - 1);
    if (!block || block->size - block->used < bytes) {
        size_t size = bytes > BLOCK_BYTES ? bytes : BLOCK_BYTES;

        block = malloc(sizeof *block + size + _Alignof(max_align_t));
        if (!block) {
            loading->full = true;
            return NULL;
        }
        *block = (struct block){.next = loading->blocks, .size = size};
        /* The first byte that can be handed out is aligned for anything. */
        block->used = (size_t)(-(uintptr_t)block->bytes) & (_Alignof(max_align_t) - 1);
        block->size += block->used;
        loading->blocks = block;
    }
    taken = block->bytes + block->used;
    block->used += bytes;
    return taken;
}

static const char *keep(struct loading *loading, const char *text)
{
    size_t bytes = strlen(text) + 1;
    char *kept = take(loading, bytes);

    if (!kept)
        return "";
    memcpy(kept, text, bytes);
    return kept;
}

static void empty_texts(const struct shelf_row *shape, void *row)
{
    static const char *const nothing = "";

    for (size_t i = 0; i < shape->members; i++)
        if (shape->member[i].form == SHELF_TEXT)
            memcpy((char *)row + shape->member[i].offset, &nothing, sizeof nothing);
    memcpy((char *)row + shape->trust.source, &nothing, sizeof nothing);
}

/* Every kind of row begins with its key and name. */
static void *add_row(struct loading *loading, enum fact_kind kind, const char *name, const char *key)
{
    const struct shelf_row *shape = shelf_row(kind);
    struct rows *rows = &loading->rows[kind];
    const char *names[2];
    char *row;

    if (rows->count == rows->room) {
        size_t room = rows->room ? rows->room * 2 : 16;
        char *first = realloc(rows->first, room * shape->bytes);

        if (!first) {
            loading->full = true;
            return NULL;
        }
        rows->first = first;
        rows->room = room;
    }
    row = rows->first + rows->count++ * shape->bytes;
    memset(row, 0, shape->bytes);
    empty_texts(shape, row);
    names[0] = keep(loading, key);
    names[1] = keep(loading, name);
    memcpy(row, names, sizeof names);
    if (kind == FACT_OIL)
        ((struct oil_fact *)(void *)row)->acid_source = "";
    if (kind == FACT_FRAGRANCE)
        ((struct fragrance_fact *)(void *)row)->allergen = -1;
    return row;
}

static enum standing standing_named(const char *name)
{
    for (int standing = STANDING_CERTIFICATE; standing <= STANDING_MEMORY; standing++)
        if (strcmp(name_of_standing((enum standing)standing), name) == 0)
            return (enum standing)standing;
    return STANDING_OWN;
}

struct fact {
    const char *member, *text, *source;
    double number;
    enum standing standing;
};

static void take_acid(struct loading *loading, struct oil_fact *oil, const struct fact *fact)
{
    for (int i = 0; i < ACIDS; i++)
        if (strcmp(loading->reference->acid[i].key, fact->member + strlen("acid:")) == 0)
            oil->acid[i] = oil->acid_lo[i] = oil->acid_hi[i] = fact->number;
    oil->acid_standing = fact->standing;
    oil->acid_source = keep(loading, fact->source);
}

/* The constituent of that limit; a new one at the end where there is none yet. Members come in order, so ":hi" is before ":lo". */
static struct constituent *constituent_of(struct loading *loading, struct fragrance_fact *fragrance, int limit)
{
    struct constituent *more;

    if (fragrance->constituents > 0 && fragrance->constituent[fragrance->constituents - 1].limit == limit)
        return (struct constituent *)&fragrance->constituent[fragrance->constituents - 1];
    more = take(loading, (fragrance->constituents + 1) * sizeof *more);
    if (!more)
        return NULL;
    if (fragrance->constituents > 0)
        memcpy(more, fragrance->constituent, fragrance->constituents * sizeof *more);
    more[fragrance->constituents] = (struct constituent){.limit = limit};
    fragrance->constituent = more;
    return &more[fragrance->constituents++];
}

static void take_constituent(struct loading *loading, struct fragrance_fact *fragrance, const struct fact *fact)
{
    const char *key = fact->member + strlen("constituent:"), *end = strrchr(key, ':');

    for (size_t i = 0; end && i < loading->reference->limits; i++) {
        const char *known = loading->reference->limit[i].key;
        struct constituent *constituent;

        if (strlen(known) != (size_t)(end - key) || strncmp(known, key, (size_t)(end - key)) != 0)
            continue;
        constituent = constituent_of(loading, fragrance, (int)i);
        if (constituent && strcmp(end, ":lo") == 0)
            constituent->lo = fact->number;
        else if (constituent)
            constituent->hi = fact->number;
        return;
    }
}

static void take_fact(struct loading *loading, enum fact_kind kind, void *row, const struct fact *fact)
{
    const struct shelf_row *shape = shelf_row(kind);

    if (kind == FACT_OIL && strncmp(fact->member, "acid:", 5) == 0) {
        take_acid(loading, row, fact);
        return;
    }
    if (kind == FACT_FRAGRANCE && strncmp(fact->member, "constituent:", 12) == 0) {
        take_constituent(loading, row, fact);
        return;
    }
    for (size_t i = 0; i < shape->members; i++) {
        const struct shelf_member *member = &shape->member[i];
        const char *kept;

        if (strcmp(member->name, fact->member) != 0)
            continue;
        shelf_set_number(member, row, fact->number);
        if (member->form == SHELF_TEXT) {
            kept = keep(loading, fact->text);
            memcpy((char *)row + member->offset, &kept, sizeof kept);
        }
        kept = keep(loading, fact->source);
        memcpy((char *)row + shape->trust.standing, &fact->standing, sizeof fact->standing);
        memcpy((char *)row + shape->trust.source, &kept, sizeof kept);
        return;
    }
}

/* Facts come ingredient by ingredient. */
static enum lw_status read_facts(struct store *store, struct loading *loading, struct lw_error *error)
{
    struct query query;
    int64_t at = 0;
    void *row = NULL;

    query_begin(&query, store, SQL_SHELF_FACTS);
    while (!loading->full && query_row(&query)) {
        int64_t id = query_int(&query);
        int kind = shelf_kind_named(query_text(&query));
        const char *name = query_text(&query), *key = query_text(&query);
        struct fact fact;

        if (kind < 0) {
            query_corrupt(&query);
            break;
        }
        if (id != at)
            row = add_row(loading, (enum fact_kind)kind, name, key);
        at = id;
        fact.member = query_text(&query);
        fact.number = query_real(&query);
        fact.text = query_text(&query);
        fact.standing = standing_named(query_text(&query));
        fact.source = query_text(&query);
        if (row && fact.member[0])
            take_fact(loading, (enum fact_kind)kind, row, &fact);
    }
    return query_end(&query, error);
}

static void free_blocks(struct block *block)
{
    while (block) {
        struct block *next = block->next;

        free(block);
        block = next;
    }
}

static void hand_over(struct loading *loading, struct shelf *shelf)
{
    shelf->oil = (struct oil_fact *)(void *)loading->rows[FACT_OIL].first;
    shelf->oils = loading->rows[FACT_OIL].count;
    shelf->additive = (struct additive_fact *)(void *)loading->rows[FACT_ADDITIVE].first;
    shelf->additives = loading->rows[FACT_ADDITIVE].count;
    shelf->liquid = (struct liquid_fact *)(void *)loading->rows[FACT_LIQUID].first;
    shelf->liquids = loading->rows[FACT_LIQUID].count;
    shelf->colourant = (struct colourant_fact *)(void *)loading->rows[FACT_COLOURANT].first;
    shelf->colourants = loading->rows[FACT_COLOURANT].count;
    shelf->fragrance = (struct fragrance_fact *)(void *)loading->rows[FACT_FRAGRANCE].first;
    shelf->fragrances = loading->rows[FACT_FRAGRANCE].count;
    shelf->own = loading->blocks;
}

enum lw_status shelf_load(struct store *store, const struct reference *reference, struct shelf **shelf,
                          struct lw_error *error)
{
    struct loading loading = {.reference = reference};
    struct shelf *made = calloc(1, sizeof *made);
    enum lw_status status = made ? read_facts(store, &loading, error) : LW_OK;

    *shelf = NULL;
    if (made)
        hand_over(&loading, made);
    if (status == LW_OK && (!made || loading.full))
        status = lw_fail(error, LW_FULL, "There is no memory left to read the shelf.");
    if (status != LW_OK) {
        shelf_free(made);
        return status;
    }
    *shelf = made;
    return LW_OK;
}

void shelf_free(struct shelf *shelf)
{
    if (!shelf)
        return;
    free(shelf->oil);
    free(shelf->additive);
    free(shelf->liquid);
    free(shelf->colourant);
    free(shelf->fragrance);
    free_blocks(shelf->own);
    free(shelf);
}
