/* shelf_load.c - the whole shelf read at once, in two passes over the same rows: the first measures, the second fills. */
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "lyeway/names.h"
#include "store/shelf.h"
#include "store/shelf_members.h"

/* A row of the statement: one fact, or an entry that has none. */
struct fact_row {
    int64_t id;
    bool archived;
    int kind; /* -1: not known */
    const char *name, *key, *member, *text, *standing, *source;
    double number;
};

struct sizes {
    size_t rows[SHELF_KINDS];
    size_t texts, constituents; /* bytes, with a NUL each; number */
};

struct loader {
    const struct reference *reference;
    struct shelf *shelf;
    char *text; /* the next text goes here */
    struct constituent *constituent;
    int64_t id; /* of the entry at hand, which is `row` of `kind` */
    const struct shelf_kind *kind;
    char *row;
    const char *constituent_key; /* of the constituent at hand */
    bool composition_unknown;
};

static int kind_named(const char *word)
{
    for (int i = 0; i < SHELF_KINDS; i++)
        if (strcmp(shelf_kind((enum fact_kind)i)->word, word) == 0)
            return i;
    return -1;
}

static struct fact_row read_row(struct query *query)
{
    struct fact_row row;

    row.id = query_int(query);
    row.archived = query_int(query) != 0;
    row.kind = kind_named(query_text(query));
    row.name = query_text(query);
    row.key = query_text(query);
    row.member = query_text(query);
    row.number = query_real(query);
    row.text = query_text(query);
    row.standing = query_text(query);
    row.source = query_text(query);
    return row;
}

static bool is_constituent(const char *member)
{
    return strncmp(member, "constituent:", 12) == 0;
}

static enum lw_status measure(struct store *store, struct sizes *sizes, struct lw_error *error)
{
    struct query query;
    int64_t id = 0;

    memset(sizes, 0, sizeof *sizes);
    query_begin(&query, store, SQL_SHELF_FACTS);
    while (query_row(&query)) {
        struct fact_row row = read_row(&query);

        if (row.kind < 0) {
            query_corrupt(&query);
            break;
        }
        if (row.id != id) {
            sizes->rows[row.kind]++;
            sizes->texts += strlen(row.name) + strlen(row.key) + 2;
        }
        id = row.id;
        sizes->texts += strlen(row.text) + strlen(row.source) + strlen(row.member) + 3;
        sizes->constituents += is_constituent(row.member);
    }
    return query_end(&query, error);
}

static const char *keep(struct loader *loader, const char *text)
{
    size_t size = strlen(text) + 1;
    char *kept = loader->text;

    if (size == 1)
        return "";
    memcpy(kept, text, size);
    loader->text += size;
    return kept;
}

static void set_text(struct loader *loader, size_t offset, const char *text)
{
    const char *kept = keep(loader, text);

    memcpy(loader->row + offset, &kept, sizeof kept);
}

/* A row of facts before anything is known: no text is NULL, and what is not said to be from elsewhere is the maker's own. */
static void make_empty(struct loader *loader)
{
    const struct shelf_kind *kind = loader->kind;
    const enum standing own = STANDING_OWN;

    for (int i = 0; i < kind->members; i++)
        if (kind->member[i].form == SHELF_TEXT)
            set_text(loader, kind->member[i].offset, "");
    for (int i = 0; i < kind->origins; i++) {
        memcpy(loader->row + kind->origin[i].standing, &own, sizeof own);
        set_text(loader, kind->origin[i].source, "");
    }
}

static void count_up(struct shelf *shelf, size_t offset)
{
    ++*(size_t *)(void *)((char *)shelf + offset);
}

static void begin_entry(struct loader *loader, const struct fact_row *fact)
{
    const struct shelf_kind *kind = shelf_kind((enum fact_kind)fact->kind);
    char *rows;
    size_t at;

    memcpy(&rows, (char *)loader->shelf + kind->rows, sizeof rows);
    memcpy(&at, (char *)loader->shelf + kind->count, sizeof at);
    loader->kind = kind;
    loader->row = rows + at * kind->size;
    loader->id = fact->id;
    loader->constituent_key = "";
    loader->composition_unknown = false;
    count_up(loader->shelf, kind->count);
    if (!fact->archived)
        count_up(loader->shelf, kind->offered);
    make_empty(loader);
    set_text(loader, kind->key, fact->key);
    set_text(loader, kind->name, fact->name);
    if (fact->kind == FACT_FRAGRANCE)
        ((struct fragrance_fact *)(void *)loader->row)->allergen = -1;
}

static bool standing_named(const char *name, enum standing *standing)
{
    for (enum standing i = STANDING_CERTIFICATE; i <= STANDING_MEMORY; i++) {
        if (strcmp(name_of_standing(i), name) == 0) {
            *standing = i;
            return true;
        }
    }
    return false;
}

static void take_origin(struct loader *loader, const struct shelf_member *member, const struct fact_row *fact)
{
    enum standing standing;

    if (!member->carries || member->origin < 0 || !standing_named(fact->standing, &standing))
        return;

    const struct shelf_origin *origin = &loader->kind->origin[member->origin];

    memcpy(loader->row + origin->standing, &standing, sizeof standing);
    set_text(loader, origin->source, fact->source);
}

/* False for a word that no value has. */
static bool take_member(struct loader *loader, const struct shelf_member *member, const struct fact_row *fact)
{
    char *at = loader->row + member->offset;
    int value;

    switch (member->form) {
    case SHELF_REAL:
        memcpy(at, &fact->number, sizeof fact->number);
        return true;
    case SHELF_INT:
        value = (int)fact->number; /* within 1e9 by the table's CHECK */
        memcpy(at, &value, sizeof value);
        return true;
    case SHELF_BOOL:
        *(bool *)at = fact->number != 0;
        return true;
    case SHELF_WORD:
        value = member_value(member->words, fact->text);
        memcpy(at, &value, sizeof value);
        return value >= 0;
    case SHELF_TEXT:
        set_text(loader, member->offset, fact->text);
        return true;
    }
    return false;
}

static bool take_acid(struct loader *loader, const struct fact_row *fact)
{
    struct oil_fact *oil = (struct oil_fact *)(void *)loader->row;

    for (int i = 0; i < SHELF_ACID_FIGURES * ACIDS; i++) {
        const char *prefix = shelf_acid_prefix(i / ACIDS);

        if (strncmp(fact->member, prefix, strlen(prefix)) == 0 &&
            strcmp(fact->member + strlen(prefix), shelf_acid_key((enum acid)(i % ACIDS))) == 0) {
            shelf_acid(oil, i / ACIDS)[i % ACIDS] = fact->number;
            return true;
        }
    }
    return false;
}

static int limit_with_key(const struct reference *reference, const char *key, size_t length)
{
    for (size_t i = 0; i < reference->limits; i++)
        if (strlen(reference->limit[i].key) == length && strncmp(reference->limit[i].key, key, length) == 0)
            return (int)i;
    return -1;
}

/* "constituent:KEY:hi", then ":lo": sorted, so the two of a key follow each other and make one. */
static bool take_constituent(struct loader *loader, const struct fact_row *fact)
{
    struct fragrance_fact *fragrance = (struct fragrance_fact *)(void *)loader->row;
    const char *key = fact->member + 12, *end = strrchr(key, ':');
    size_t length = end ? (size_t)(end - key) : strlen(key);
    int limit = limit_with_key(loader->reference, key, length);

    if (limit < 0)
        loader->composition_unknown = true;
    if (loader->composition_unknown) {
        fragrance->constituents = 0;
        return true;
    }
    if (strncmp(loader->constituent_key, key, length) != 0 || loader->constituent_key[length] != ':') {
        loader->constituent->limit = limit;
        if (fragrance->constituents++ == 0)
            fragrance->constituent = loader->constituent;
        loader->constituent++;
        loader->constituent_key = keep(loader, key);
    }
    if (end && strcmp(end, ":lo") == 0)
        loader->constituent[-1].lo = fact->number;
    else
        loader->constituent[-1].hi = fact->number;
    return true;
}

static void take_allergen(struct loader *loader, const char *key)
{
    struct fragrance_fact *fragrance = (struct fragrance_fact *)(void *)loader->row;

    for (size_t i = 0; i < loader->reference->allergens; i++)
        if (strcmp(loader->reference->allergen[i].key, key) == 0)
            fragrance->allergen = (int)i;
}

static bool take_fact(struct loader *loader, const struct fact_row *fact)
{
    const struct shelf_member *member = shelf_member(loader->kind, fact->member);

    if (member) {
        take_origin(loader, member, fact);
        return take_member(loader, member, fact);
    }
    if (fact->kind == FACT_OIL)
        return take_acid(loader, fact);
    if (fact->kind == FACT_FRAGRANCE && is_constituent(fact->member))
        return take_constituent(loader, fact);
    if (fact->kind == FACT_FRAGRANCE && strcmp(fact->member, "allergen") == 0) {
        take_allergen(loader, fact->text);
        return true;
    }
    return false;
}

static enum lw_status fill(struct store *store, struct loader *loader, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_SHELF_FACTS);
    while (query_row(&query)) {
        struct fact_row fact = read_row(&query);

        if (fact.id != loader->id)
            begin_entry(loader, &fact);
        if (fact.member[0] != '\0' && !take_fact(loader, &fact)) {
            query_corrupt(&query);
            break;
        }
    }
    return query_end(&query, error);
}

/* The rows of each kind, and one block for constituents and behind them texts. */
static bool make_room(struct loader *loader, const struct sizes *sizes)
{
    bool good = true;

    for (int i = 0; i < SHELF_KINDS; i++) {
        const struct shelf_kind *kind = shelf_kind((enum fact_kind)i);
        void *rows = calloc(sizes->rows[i] + 1, kind->size);

        memcpy((char *)loader->shelf + kind->rows, &rows, sizeof rows);
        good = good && rows;
    }
    loader->constituent = calloc(1, sizes->constituents * sizeof(struct constituent) + sizes->texts + 1);
    loader->shelf->own = loader->constituent;
    if (loader->constituent)
        loader->text = (char *)(loader->constituent + sizes->constituents);
    return good && loader->constituent;
}

static enum lw_status load(struct store *store, const struct reference *reference, struct shelf *shelf,
                           struct lw_error *error)
{
    struct loader loader = {.reference = reference, .shelf = shelf};
    struct sizes sizes;
    enum lw_status status = measure(store, &sizes, error);

    if (status != LW_OK)
        return status;
    if (!make_room(&loader, &sizes))
        return store_failed(store->path, SQLITE_NOMEM, error);
    return fill(store, &loader, error);
}

enum lw_status shelf_load(struct store *store, const struct reference *reference, struct shelf **shelf,
                          struct lw_error *error)
{
    struct shelf *made = calloc(1, sizeof *made);
    enum lw_status status;

    *shelf = NULL;
    if (!made)
        return store_failed(store->path, SQLITE_NOMEM, error);
    /* Both passes must see the same rows. */
    status = store_read_begin(store, error);
    if (status == LW_OK)
        status = store_read_end(store, load(store, reference, made, error), error);
    if (status == LW_OK)
        *shelf = made;
    else
        shelf_free(made);
    return status;
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
    free(shelf->own);
    free(shelf);
}
