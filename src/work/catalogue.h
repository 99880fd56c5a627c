/* catalogue.h - all ingredients of a kind that can be put into a recipe, found by any part of a name or synonym. */
#ifndef WORK_CATALOGUE_H
#define WORK_CATALOGUE_H

#include "lyeway/facts.h"
#include "work/resolve.h"

enum { CATALOGUE_MOST = 512 };

/* One ingredient: the key that a recipe holds, the name that people read, and whether it is the maker's own. */
struct catalogue_entry {
    const char *key, *name;
    bool own;
};

struct catalogue {
    enum fact_kind kind;
    size_t count;
    struct catalogue_entry entry[CATALOGUE_MOST];
};

/* Texts are borrowed from the facts and the shelf. The maker's own come first. */
void catalogue_open(struct catalogue *catalogue, enum fact_kind kind, const struct shelf_rows *shelf);

/* Indices of the entries that fit: a name or synonym begins with the filter, then those that hold it elsewhere. Returns how
 * many; "" fits all. */
size_t catalogue_find(const struct catalogue *catalogue, const char *filter, int index[], size_t most);

#endif
