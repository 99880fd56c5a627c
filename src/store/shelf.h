/* shelf.h - the maker's own ingredients and the facts that override the reference. */
#ifndef STORE_SHELF_H
#define STORE_SHELF_H

#include "lyeway/facts.h"
#include "store/store.h"

/* All of the maker's own rows, in the form of the reference's, ready for work/resolve.h. An override of a reference oil has
 * that oil's key and all its other facts. */
struct shelf {
    size_t oils, additives, liquids, colourants, fragrances;
    /* Of those, so many from the first are to be offered for new recipes; the rest are archived. */
    struct {
        size_t oils, additives, liquids, colourants, fragrances;
    } offered;
    struct oil_fact *oil;
    struct additive_fact *additive;
    struct liquid_fact *liquid;
    struct colourant_fact *colourant;
    struct fragrance_fact *fragrance;
    void *own; /* memory behind the texts */
};

/* `reference` resolves the constituents' keys of fragrances; of one with a constituent that is not known there, the composition
 * counts as not known. Sorted by name without regard to case, the archived ones last. *shelf is to be freed. */
enum lw_status shelf_load(struct store *store, const struct reference *reference, struct shelf **shelf,
                          struct lw_error *error);
void shelf_free(struct shelf *shelf);

/* Adds or replaces the entry of that kind and name. */
enum lw_status shelf_put_oil(struct store *store, const struct oil_fact *oil, const struct lw_now *now,
                             struct lw_error *error);
enum lw_status shelf_put_additive(struct store *store, const struct additive_fact *additive, const struct lw_now *now,
                                  struct lw_error *error);
enum lw_status shelf_put_liquid(struct store *store, const struct liquid_fact *liquid, const struct lw_now *now,
                                struct lw_error *error);
enum lw_status shelf_put_colourant(struct store *store, const struct colourant_fact *colourant,
                                   const struct lw_now *now, struct lw_error *error);
enum lw_status shelf_put_fragrance(struct store *store, const struct fragrance_fact *fragrance,
                                   const struct reference *reference, const struct lw_now *now, struct lw_error *error);

/* Archives the entry: it stays for old recipes to be read, but is not offered; to put it again brings it back. One that goes
 * before an entry of the reference (its key is not its name) is not loaded any more: the reference's is there. LW_NOT_FOUND. */
enum lw_status shelf_archive(struct store *store, enum fact_kind kind, const char *name, const struct lw_now *now,
                             struct lw_error *error);

#endif
