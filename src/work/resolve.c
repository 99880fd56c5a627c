/* resolve.c - one small finder for each kind of fact, and one walk over the parts of a recipe that have names. */
#include "work/resolve.h"

#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "base/utf8.h"
#include "work/near.h"

enum { POINTER_BYTES = 96 };

struct resolver {
    const struct recipe *recipe;
    const struct shelf_rows *shelf;
    const char *where;
    struct lw_error *error;
};

struct shelf_rows resolve_rows(const struct shelf *shelf)
{
    return (struct shelf_rows){.oils = shelf->oils,
                               .additives = shelf->additives,
                               .liquids = shelf->liquids,
                               .colourants = shelf->colourants,
                               .fragrances = shelf->fragrances,
                               .oil = shelf->oil,
                               .additive = shelf->additive,
                               .liquid = shelf->liquid,
                               .colourant = shelf->colourant,
                               .fragrance = shelf->fragrance};
}

/* Shelf rows first: the maker's own entry for a name goes before the reference's. */
static const struct oil_fact *find_oil(const struct shelf_rows *shelf, const char *name)
{
    for (size_t i = 0; i < shelf->oils; i++)
        if (text_same(shelf->oil[i].key, name) || text_same(shelf->oil[i].name, name))
            return &shelf->oil[i];
    return facts_oil(name);
}

static const struct additive_fact *find_additive(const struct shelf_rows *shelf, const char *name)
{
    for (size_t i = 0; i < shelf->additives; i++)
        if (text_same(shelf->additive[i].key, name) || text_same(shelf->additive[i].name, name))
            return &shelf->additive[i];
    return facts_additive(name);
}

static const struct liquid_fact *find_liquid(const struct shelf_rows *shelf, const char *name)
{
    for (size_t i = 0; i < shelf->liquids; i++)
        if (text_same(shelf->liquid[i].key, name) || text_same(shelf->liquid[i].name, name))
            return &shelf->liquid[i];
    return facts_liquid(name);
}

static const struct colourant_fact *find_colourant(const struct shelf_rows *shelf, const char *name)
{
    for (size_t i = 0; i < shelf->colourants; i++)
        if (text_same(shelf->colourant[i].key, name) || text_same(shelf->colourant[i].name, name))
            return &shelf->colourant[i];
    return facts_colourant(name);
}

static const struct fragrance_fact *find_fragrance(const struct shelf_rows *shelf, const char *name)
{
    for (size_t i = 0; i < shelf->fragrances; i++)
        if (text_same(shelf->fragrance[i].key, name) || text_same(shelf->fragrance[i].name, name))
            return &shelf->fragrance[i];
    return facts_fragrance(name);
}

static void offer_shelf(const struct shelf_rows *shelf, enum fact_kind kind, struct near *near)
{
    const size_t rows[] = {[FACT_OIL] = shelf->oils,
                           [FACT_ADDITIVE] = shelf->additives,
                           [FACT_LIQUID] = shelf->liquids,
                           [FACT_COLOURANT] = shelf->colourants,
                           [FACT_FRAGRANCE] = shelf->fragrances};

    for (size_t i = 0; i < rows[kind]; i++) {
        const char *name = kind == FACT_OIL         ? shelf->oil[i].name
                           : kind == FACT_ADDITIVE  ? shelf->additive[i].name
                           : kind == FACT_LIQUID    ? shelf->liquid[i].name
                           : kind == FACT_COLOURANT ? shelf->colourant[i].name
                                                    : shelf->fragrance[i].name;

        near_offer(near, name, name);
    }
}

static enum lw_status refuse(const struct resolver *resolver, enum fact_kind kind, const char *pointer,
                             const char *name)
{
    static const char *const noun[] = {[FACT_OIL] = "an oil",
                                       [FACT_ADDITIVE] = "an additive",
                                       [FACT_LIQUID] = "a liquid",
                                       [FACT_COLOURANT] = "a colourant",
                                       [FACT_FRAGRANCE] = "a fragrance"};
    char clean[LW_NAME_BYTES], nearest[NEAR_NAMES * LW_NAME_BYTES];
    struct near near;

    near_init(&near, name);
    offer_shelf(resolver->shelf, kind, &near);
    facts_each_name(kind, near_offer, &near);
    near_list(&near, nearest, sizeof nearest);
    utf8_clean(clean, sizeof clean, name, LW_NAME_BYTES);
    return lw_fail(resolver->error, LW_NOT_FOUND, "%s%s: \"%s\" is not %s that is known here; nearest are %s.",
                   resolver->where, pointer, clean, noun[kind], nearest);
}

static enum lw_status resolve_oils(const struct resolver *resolver, struct recipe_facts *facts)
{
    for (int i = 0; i < resolver->recipe->oils; i++) {
        const struct recipe_oil *oil = &resolver->recipe->oil[i];
        char pointer[POINTER_BYTES] = "";

        facts->oil[i] = find_oil(resolver->shelf, oil->name);
        text_add(pointer, sizeof pointer, "/oils/%d/oil", i);
        if (!facts->oil[i] && !oil->sap.given)
            return refuse(resolver, FACT_OIL, pointer, oil->name);
    }
    return LW_OK;
}

/* The oil that the fat of a liquid or additive counts as; *oil stays NULL where it has none. */
static enum lw_status resolve_fat(const struct resolver *resolver, const char *pointer, double share, const char *name,
                                  const struct oil_fact **oil)
{
    if (share <= 0 || name[0] == '\0')
        return LW_OK;
    *oil = find_oil(resolver->shelf, name);
    return *oil ? LW_OK : refuse(resolver, FACT_OIL, pointer, name);
}

static enum lw_status resolve_additives(const struct resolver *resolver, struct recipe_facts *facts)
{
    for (int i = 0; i < resolver->recipe->additives; i++) {
        const char *name = resolver->recipe->additive[i].name;
        const struct additive_fact *fact = find_additive(resolver->shelf, name);
        char pointer[POINTER_BYTES] = "";

        text_add(pointer, sizeof pointer, "/additives/%d/additive", i);
        if (!fact)
            return refuse(resolver, FACT_ADDITIVE, pointer, name);
        facts->additive[i] = fact;

        enum lw_status status = resolve_fat(resolver, pointer, fact->fat_share, fact->fat_oil, &facts->additive_fat[i]);

        if (status != LW_OK)
            return status;
    }
    return LW_OK;
}

static enum lw_status resolve_liquids(const struct resolver *resolver, struct recipe_facts *facts)
{
    for (int i = 0; i < resolver->recipe->water.liquids; i++) {
        const char *name = resolver->recipe->water.liquid[i].name;
        const struct liquid_fact *fact = find_liquid(resolver->shelf, name);
        char pointer[POINTER_BYTES] = "";

        text_add(pointer, sizeof pointer, "/water/liquids/%d/liquid", i);
        if (!fact)
            return refuse(resolver, FACT_LIQUID, pointer, name);
        facts->liquid[i] = fact;

        enum lw_status status = resolve_fat(resolver, pointer, fact->fat_share, fact->fat_oil, &facts->liquid_fat[i]);

        if (status != LW_OK)
            return status;
    }
    return LW_OK;
}

static enum lw_status resolve_fragrances(const struct resolver *resolver, struct recipe_facts *facts)
{
    for (int i = 0; i < resolver->recipe->fragrances; i++) {
        const char *name = resolver->recipe->fragrance[i].name;
        char pointer[POINTER_BYTES] = "";

        facts->fragrance[i] = find_fragrance(resolver->shelf, name);
        text_add(pointer, sizeof pointer, "/fragrance/%d/fragrance", i);
        if (!facts->fragrance[i])
            return refuse(resolver, FACT_FRAGRANCE, pointer, name);
    }
    return LW_OK;
}

static enum lw_status resolve_colourants(const struct resolver *resolver, int portion, struct recipe_facts *facts)
{
    const struct recipe_portion *from = &resolver->recipe->portion[portion];

    for (int i = 0; i < from->colourants; i++) {
        const struct recipe_colourant *colourant = &from->colourant[i];
        char pointer[POINTER_BYTES] = "";

        text_add(pointer, sizeof pointer, "/portions/%d/colourants/%d/", portion, i);
        facts->colourant[portion][i] = find_colourant(resolver->shelf, colourant->name);
        if (!facts->colourant[portion][i]) {
            text_add(pointer, sizeof pointer, "colourant");
            return refuse(resolver, FACT_COLOURANT, pointer, colourant->name);
        }
        if (colourant->carrier_oil[0] == '\0')
            continue;
        facts->carrier[portion][i] = find_oil(resolver->shelf, colourant->carrier_oil);
        if (!facts->carrier[portion][i]) {
            text_add(pointer, sizeof pointer, "carrier_oil");
            return refuse(resolver, FACT_OIL, pointer, colourant->carrier_oil);
        }
    }
    return LW_OK;
}

enum lw_status resolve_recipe(const struct recipe *recipe, const struct shelf_rows *shelf, const char *where,
                              struct recipe_facts *facts, struct lw_error *error)
{
    struct resolver resolver = {recipe, shelf, where, error};

    memset(facts, 0, sizeof *facts);

    enum lw_status status = resolve_oils(&resolver, facts);

    if (status == LW_OK)
        status = resolve_additives(&resolver, facts);
    if (status == LW_OK)
        status = resolve_liquids(&resolver, facts);
    if (status == LW_OK)
        status = resolve_fragrances(&resolver, facts);
    for (int i = 0; status == LW_OK && i < recipe->portions; i++)
        status = resolve_colourants(&resolver, i, facts);
    return status;
}
