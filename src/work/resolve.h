/* resolve.h - finds the facts behind a recipe's names: the file's or maker's own entries first, then the reference. */
#ifndef WORK_RESOLVE_H
#define WORK_RESOLVE_H

#include <stddef.h>

#include "lyeway/plan.h"
#include "lyeway/status.h"
#include "store/shelf.h"

/* Entries that go before the reference. All may be 0. */
struct shelf_rows {
    size_t oils, additives, liquids, colourants, fragrances;
    const struct oil_fact *oil;
    const struct additive_fact *additive;
    const struct liquid_fact *liquid;
    const struct colourant_fact *colourant;
    const struct fragrance_fact *fragrance;
};

/* All rows of the shelf. */
struct shelf_rows resolve_rows(const struct shelf *shelf);

/* Fills *facts. An oil with its own saponification value may have any name. An unknown name is LW_NOT_FOUND and the sentence
 * names where it stands (`where` "file: /recipes/0" then "/oils/2/oil") and the three nearest names. */
enum lw_status resolve_recipe(const struct recipe *recipe, const struct shelf_rows *shelf, const char *where,
                              struct recipe_facts *facts, struct lw_error *error);

#endif
