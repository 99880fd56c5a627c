/* recipe_json.h - writes recipes and the shelf in the exchange format, so that reading them back gives the same values. */
#ifndef EXCHANGE_RECIPE_JSON_H
#define EXCHANGE_RECIPE_JSON_H

#include "base/buffer.h"
#include "lyeway/facts.h"
#include "lyeway/recipe.h"

/* What to write. Rows of the shelf have the form of the reference's; `reference` has the keys of acids and limits. */
struct recipe_json {
    size_t recipes;
    const struct recipe *const *recipe;
    size_t oils, additives, liquids, colourants, fragrances;
    const struct oil_fact *oil;
    const struct additive_fact *additive;
    const struct liquid_fact *liquid;
    const struct colourant_fact *colourant;
    const struct fragrance_fact *fragrance;
    const struct reference *reference;
};

void recipe_json(const struct recipe_json *what, struct buffer *out);

/* The recipe alone, without uuid and revision: two recipes with the same text are the same. */
void recipe_json_content(const struct recipe *recipe, struct buffer *out);

#endif
