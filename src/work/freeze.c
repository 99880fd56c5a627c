/* freeze.c - collects the facts behind a recipe's names, each once, and writes them beside it. */
#include "work/freeze.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "exchange/recipe_file.h"
#include "exchange/recipe_json.h"

enum {
    OILS_MOST = RECIPE_OILS + RECIPE_LIQUIDS + RECIPE_ADDITIVES + RECIPE_PORTIONS * PORTION_COLOURANTS,
    COLOURANTS_MOST = RECIPE_PORTIONS * PORTION_COLOURANTS
};

/* The facts of one kind that are collected so far. */
struct seen {
    size_t count;
    const void *fact[OILS_MOST];
};

struct collection {
    struct recipe recipe;
    struct seen oils, additives, liquids, colourants, fragrances;
    struct oil_fact oil[OILS_MOST];
    struct additive_fact additive[RECIPE_ADDITIVES];
    struct liquid_fact liquid[RECIPE_LIQUIDS];
    struct colourant_fact colourant[COLOURANTS_MOST];
    struct fragrance_fact fragrance[RECIPE_FRAGRANCES];
};

/* Place of a fact among those of its kind; *fresh: it was not there yet. */
static size_t place_of(struct seen *seen, const void *fact, bool *fresh)
{
    size_t at = 0;

    while (at < seen->count && seen->fact[at] != fact)
        at++;
    *fresh = at == seen->count;
    if (*fresh)
        seen->fact[seen->count++] = fact;
    return at;
}

/* Each of these puts a fact's row into the collection; the name is then what the recipe has to say. */
static void take_oil(struct collection *collection, const struct oil_fact *fact)
{
    bool fresh;
    size_t at = place_of(&collection->oils, fact, &fresh);

    if (fresh)
        collection->oil[at] = *fact;
}

static void take_additive(struct collection *collection, const struct additive_fact *fact, const struct oil_fact *fat)
{
    bool fresh;
    size_t at = place_of(&collection->additives, fact, &fresh);

    if (fresh)
        collection->additive[at] = *fact;
    if (fat) {
        take_oil(collection, fat);
        collection->additive[at].fat_oil = fat->name;
    }
}

static void take_liquid(struct collection *collection, const struct liquid_fact *fact, const struct oil_fact *fat)
{
    bool fresh;
    size_t at = place_of(&collection->liquids, fact, &fresh);

    if (fresh)
        collection->liquid[at] = *fact;
    if (fat) {
        take_oil(collection, fat);
        collection->liquid[at].fat_oil = fat->name;
    }
}

static void take_colourant(struct collection *collection, const struct colourant_fact *fact)
{
    bool fresh;
    size_t at = place_of(&collection->colourants, fact, &fresh);

    if (fresh)
        collection->colourant[at] = *fact;
}

static void take_fragrance(struct collection *collection, const struct fragrance_fact *fact)
{
    bool fresh;
    size_t at = place_of(&collection->fragrances, fact, &fresh);

    if (fresh)
        collection->fragrance[at] = *fact;
}

static void name_as(char name[LW_NAME_BYTES], const char *of_fact)
{
    text_copy(name, LW_NAME_BYTES, of_fact);
}

static void collect_oils(const struct recipe_facts *facts, struct collection *collection)
{
    for (int i = 0; i < collection->recipe.oils; i++)
        if (facts->oil[i]) {
            take_oil(collection, facts->oil[i]);
            name_as(collection->recipe.oil[i].name, facts->oil[i]->name);
        }
}

static void collect_others(const struct recipe_facts *facts, struct collection *collection)
{
    struct recipe *recipe = &collection->recipe;

    for (int i = 0; i < recipe->additives; i++) {
        take_additive(collection, facts->additive[i], facts->additive_fat[i]);
        name_as(recipe->additive[i].name, facts->additive[i]->name);
    }
    for (int i = 0; i < recipe->water.liquids; i++) {
        take_liquid(collection, facts->liquid[i], facts->liquid_fat[i]);
        name_as(recipe->water.liquid[i].name, facts->liquid[i]->name);
    }
    for (int i = 0; i < recipe->fragrances; i++) {
        take_fragrance(collection, facts->fragrance[i]);
        name_as(recipe->fragrance[i].name, facts->fragrance[i]->name);
    }
}

static void collect_colours(const struct recipe_facts *facts, struct collection *collection)
{
    for (int p = 0; p < collection->recipe.portions; p++)
        for (int c = 0; c < collection->recipe.portion[p].colourants; c++) {
            struct recipe_colourant *colourant = &collection->recipe.portion[p].colourant[c];

            take_colourant(collection, facts->colourant[p][c]);
            name_as(colourant->name, facts->colourant[p][c]->name);
            if (facts->carrier[p][c]) {
                take_oil(collection, facts->carrier[p][c]);
                name_as(colourant->carrier_oil, facts->carrier[p][c]->name);
            }
        }
}

enum lw_status freeze(const struct plan_input *input, struct buffer *out, struct lw_error *error)
{
    struct collection *collection = calloc(1, sizeof *collection);
    const struct recipe *recipe;

    if (!collection)
        return lw_fail(error, LW_FULL, "There is no memory left to keep the recipe with the batch.");
    collection->recipe = *input->recipe;
    collect_oils(input->facts, collection);
    collect_others(input->facts, collection);
    collect_colours(input->facts, collection);
    recipe = &collection->recipe;
    recipe_json(&(struct recipe_json){.recipes = 1,
                                      .recipe = &recipe,
                                      .oils = collection->oils.count,
                                      .oil = collection->oil,
                                      .additives = collection->additives.count,
                                      .additive = collection->additive,
                                      .liquids = collection->liquids.count,
                                      .liquid = collection->liquid,
                                      .colourants = collection->colourants.count,
                                      .colourant = collection->colourant,
                                      .fragrances = collection->fragrances.count,
                                      .fragrance = collection->fragrance,
                                      .reference = input->reference},
                out);
    free(collection);
    return buffer_status(out, error);
}

/* The file's rows have their names for keys; those of the reference get back the key that other records know them by. */
static void give_keys(struct recipe_file *file)
{
    for (size_t i = 0; i < file->oils; i++) {
        const struct oil_fact *fact = facts_oil(file->oil[i].name);

        if (fact)
            file->oil[i].key = fact->key;
    }
    for (size_t i = 0; i < file->additives; i++) {
        const struct additive_fact *fact = facts_additive(file->additive[i].name);

        if (fact)
            file->additive[i].key = fact->key;
    }
    for (size_t i = 0; i < file->liquids; i++) {
        const struct liquid_fact *fact = facts_liquid(file->liquid[i].name);

        if (fact)
            file->liquid[i].key = fact->key;
    }
    for (size_t i = 0; i < file->colourants; i++) {
        const struct colourant_fact *fact = facts_colourant(file->colourant[i].name);

        if (fact)
            file->colourant[i].key = fact->key;
    }
    for (size_t i = 0; i < file->fragrances; i++) {
        const struct fragrance_fact *fact = facts_fragrance(file->fragrance[i].name);

        if (fact)
            file->fragrance[i].key = fact->key;
    }
}

enum lw_status freeze_read(const char *text, struct frozen **frozen, struct lw_error *error)
{
    struct frozen *made = calloc(1, sizeof *made);
    struct recipe_file *file = NULL;
    enum lw_status status;

    *frozen = NULL;
    if (!made)
        return lw_fail(error, LW_FULL, "There is no memory left to open the batch.");
    status = recipe_file_read(text, strlen(text), "batch", &(struct recipe_file_names){facts_reference()}, &file,
                              error);
    if (status == LW_OK && file->recipes != 1)
        status = lw_fail(error, LW_CORRUPT, "What a batch was made of cannot be read; restore a backup.");
    if (status != LW_OK) {
        recipe_file_free(file);
        free(made);
        return status == LW_INVALID ? LW_CORRUPT : status;
    }
    give_keys(file);
    made->file = file;
    made->recipe = file->recipe[0];
    made->shelf = (struct shelf){.oils = file->oils,
                                 .additives = file->additives,
                                 .liquids = file->liquids,
                                 .colourants = file->colourants,
                                 .fragrances = file->fragrances,
                                 .oil = file->oil,
                                 .additive = file->additive,
                                 .liquid = file->liquid,
                                 .colourant = file->colourant,
                                 .fragrance = file->fragrance};
    *frozen = made;
    return LW_OK;
}

void freeze_free(struct frozen *frozen)
{
    if (!frozen)
        return;
    recipe_file_free(frozen->file);
    free(frozen);
}
