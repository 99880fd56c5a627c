/* named.h - stores of recipes that have nothing but a name. */
#ifndef STORE_TESTS_NAMED_H
#define STORE_TESTS_NAMED_H

#include "store/recipes.h"
#include "support/scratch.h"

/* scratch->path and a suffix. */
void path_of(char path[SCRATCH_PATH_BYTES], const struct scratch *scratch, const char *suffix);

/* The test fails where it cannot be added. */
void add_recipe(struct store *store, struct scratch *scratch, const char *name);
bool has_recipe(struct store *store, const char *name);

/* Makes a store with the recipe "Hedge Rose" at scratch->path and closes it. Its n bytes, to be freed. */
char *make_store(struct scratch *scratch, size_t *n);

#endif
