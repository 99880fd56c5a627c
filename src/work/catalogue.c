/* catalogue.c - the maker's own entries and the reference in one list. */
#include "work/catalogue.h"

#include <stddef.h>
#include <string.h>

#include "base/text.h"

static void add(struct catalogue *catalogue, const char *key, const char *name, bool own)
{
    for (size_t i = 0; i < catalogue->count; i++)
        if (strcmp(catalogue->entry[i].key, key) == 0)
            return;
    if (catalogue->count < CATALOGUE_MOST)
        catalogue->entry[catalogue->count++] = (struct catalogue_entry){key, name, own};
}

/* Every kind of row begins with its key and name. */
static void add_all(struct catalogue *catalogue, const void *rows, size_t n, size_t row_bytes, bool own)
{
    const char *names[2];

    for (size_t i = 0; i < n; i++) {
        memcpy(names, (const char *)rows + i * row_bytes, sizeof names);
        add(catalogue, names[0], names[1], own);
    }
}

_Static_assert(offsetof(struct oil_fact, key) == 0 && offsetof(struct oil_fact, name) == sizeof(char *) &&
                   offsetof(struct additive_fact, key) == 0 && offsetof(struct additive_fact, name) == sizeof(char *) &&
                   offsetof(struct liquid_fact, key) == 0 && offsetof(struct liquid_fact, name) == sizeof(char *) &&
                   offsetof(struct colourant_fact, key) == 0 &&
                   offsetof(struct colourant_fact, name) == sizeof(char *) &&
                   offsetof(struct fragrance_fact, key) == 0 && offsetof(struct fragrance_fact, name) == sizeof(char *),
               "rows begin with key and name");

static const void *reference_rows(enum fact_kind kind, size_t *n, size_t *row_bytes)
{
    switch (kind) {
    case FACT_OIL:
        *row_bytes = sizeof(struct oil_fact);
        return facts_oils(n);
    case FACT_ADDITIVE:
        *row_bytes = sizeof(struct additive_fact);
        return facts_additives(n);
    case FACT_LIQUID:
        *row_bytes = sizeof(struct liquid_fact);
        return facts_liquids(n);
    case FACT_COLOURANT:
        *row_bytes = sizeof(struct colourant_fact);
        return facts_colourants(n);
    case FACT_FRAGRANCE:
        *row_bytes = sizeof(struct fragrance_fact);
        return facts_fragrances(n);
    }
    *n = *row_bytes = 0;
    return NULL;
}

void catalogue_open(struct catalogue *catalogue, enum fact_kind kind, const struct shelf_rows *shelf)
{
    const void *const own[] = {[FACT_OIL] = shelf->oil,
                               [FACT_ADDITIVE] = shelf->additive,
                               [FACT_LIQUID] = shelf->liquid,
                               [FACT_COLOURANT] = shelf->colourant,
                               [FACT_FRAGRANCE] = shelf->fragrance};
    const size_t owned[] = {[FACT_OIL] = shelf->oils,
                            [FACT_ADDITIVE] = shelf->additives,
                            [FACT_LIQUID] = shelf->liquids,
                            [FACT_COLOURANT] = shelf->colourants,
                            [FACT_FRAGRANCE] = shelf->fragrances};
    size_t n, row_bytes;
    const void *rows = reference_rows(kind, &n, &row_bytes);

    catalogue->kind = kind;
    catalogue->count = 0;
    add_all(catalogue, own[kind], owned[kind], row_bytes, true);
    add_all(catalogue, rows, n, row_bytes, false);
}

/* 2: begins a name or synonym; 1: stands inside one; 0: nowhere. */
struct search {
    const struct catalogue *catalogue;
    const char *filter;
    unsigned char fit[CATALOGUE_MOST];
};

static unsigned char fit_of(const char *name, const char *filter)
{
    size_t n = strlen(filter);
    char head[LW_NAME_BYTES];

    if (!text_has(name, filter))
        return 0;
    if (n >= sizeof head || n > strlen(name))
        return 1;
    memcpy(head, name, n);
    head[n] = '\0';
    return text_same(head, filter) ? 2 : 1;
}

static void look_at(void *context, const char *name, const char *key)
{
    struct search *search = context;
    unsigned char fit = fit_of(name, search->filter);

    for (size_t i = 0; fit > 0 && i < search->catalogue->count; i++)
        if (strcmp(search->catalogue->entry[i].key, key) == 0 && search->fit[i] < fit)
            search->fit[i] = fit;
}

size_t catalogue_find(const struct catalogue *catalogue, const char *filter, int index[], size_t most)
{
    struct search search = {.catalogue = catalogue, .filter = filter};
    size_t count = 0;

    for (size_t i = 0; i < catalogue->count; i++)
        if (catalogue->entry[i].own)
            search.fit[i] = fit_of(catalogue->entry[i].name, filter);
    facts_each_name(catalogue->kind, look_at, &search);
    for (unsigned char fit = 2; fit > 0; fit--)
        for (size_t i = 0; i < catalogue->count && count < most; i++)
            if (search.fit[i] == fit)
                index[count++] = (int)i;
    return count;
}
