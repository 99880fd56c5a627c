/* recipe_file.h - reads the exchange format: recipes and the shelf entries that go with them.
 *
 * Text passes a lexical gate (gate.h) before the JSON library sees it, then tables of members with their types and
 * ranges. Names are not looked up here: that is work's part. Refusals name the file, the JSON pointer, what was found
 * and what was expected.
 */
#ifndef EXCHANGE_RECIPE_FILE_H
#define EXCHANGE_RECIPE_FILE_H

#include <stddef.h>

#include "lyeway/facts.h"
#include "lyeway/recipe.h"
#include "lyeway/status.h"

/* What a file holds. A certificate's limit that the shelf gives for a fragrance stands in each line of a recipe that
 * names it and gives none. Facts rows of the shelf have the same form as the reference rows, key and name both the
 * entry's name; all of their text belongs to the file. */
struct recipe_file {
    size_t recipes;
    struct recipe *recipe;
    size_t oils, additives, liquids, colourants, fragrances;
    struct oil_fact *oil;
    struct additive_fact *additive;
    struct liquid_fact *liquid;
    struct colourant_fact *colourant;
    struct fragrance_fact *fragrance;
    void *own; /* memory behind the rows' texts */
};

/* A fragrance of the shelf lists constituents by key and an oil its acids: they become indices of the reference. An
 * oil of the shelf without a range gets the one that practice gives a value of the maker's own. */
struct recipe_file_names {
    const struct reference *reference; /* never NULL */
};

enum { RECIPE_FILE_MOST_BYTES = 64 * 1024 * 1024 };

/* Reads n bytes. `name` is the file's name for messages ("-" is standard input). On success *file is to be freed; on
 * failure it is NULL and error has the sentence. LW_INVALID for bad content, LW_FULL where a limit of recipe.h or
 * memory is reached. */
enum lw_status recipe_file_read(const char *text, size_t n, const char *name, const struct recipe_file_names *names,
                                struct recipe_file **file, struct lw_error *error);
void recipe_file_free(struct recipe_file *file);

#endif
