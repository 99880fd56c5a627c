/* catalogue.c - the maker's own entries and the reference in one list. */
#include "work/catalogue.h"

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

/* The five kinds of row begin differently but are listed alike. */
#define ADD_ALL(rows, n, own)                                                                                             \
    for (size_t i = 0; i < (n); i++)                                                                                      \
        add(catalogue, (rows)[i].key, (rows)[i].name, own)

void catalogue_open(struct catalogue *catalogue, enum fact_kind kind, const struct shelf_rows *shelf)
{
    size_t n = 0;

    catalogue->kind = kind;
    catalogue->count = 0;
    switch (kind) {
    case FACT_OIL:
        ADD_ALL(shelf->oil, shelf->oils, true);
        ADD_ALL(facts_oils(&n), n, false);
        return;
    case FACT_ADDITIVE:
        ADD_ALL(shelf->additive, shelf->additives, true);
        ADD_ALL(facts_additives(&n), n, false);
        return;
    case FACT_LIQUID:
        ADD_ALL(shelf->liquid, shelf->liquids, true);
        ADD_ALL(facts_liquids(&n), n, false);
        return;
    case FACT_COLOURANT:
        ADD_ALL(shelf->colourant, shelf->colourants, true);
        ADD_ALL(facts_colourants(&n), n, false);
        return;
    case FACT_FRAGRANCE:
        ADD_ALL(shelf->fragrance, shelf->fragrances, true);
        ADD_ALL(facts_fragrances(&n), n, false);
        return;
    }
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
