/* Finding a row by key, name or synonym. */
#include "facts/find.h"
#include "facts/tables.h"

/* The entry of that name, NULL if there is none. Looked up once when a recipe is resolved, so a walk will do. */
static const struct fact_name *find_name(enum fact_kind kind, const char *name)
{
    const struct fact_names *names = &facts_tables()->names[kind];

    for (size_t i = 0; i < names->n; i++)
        if (fact_same_name(names->name[i].name, name))
            return &names->name[i];
    return NULL;
}

const struct oil_fact *facts_oil(const char *name)
{
    const struct fact_name *found = find_name(FACT_OIL, name);

    return found ? &facts_tables()->oil[found->row] : NULL;
}

const struct additive_fact *facts_additive(const char *name)
{
    const struct fact_name *found = find_name(FACT_ADDITIVE, name);

    return found ? &facts_tables()->additive[found->row] : NULL;
}

const struct liquid_fact *facts_liquid(const char *name)
{
    const struct fact_name *found = find_name(FACT_LIQUID, name);

    return found ? &facts_tables()->liquid[found->row] : NULL;
}

const struct colourant_fact *facts_colourant(const char *name)
{
    const struct fact_name *found = find_name(FACT_COLOURANT, name);

    return found ? &facts_tables()->colourant[found->row] : NULL;
}

const struct fragrance_fact *facts_fragrance(const char *name)
{
    const struct fact_name *found = find_name(FACT_FRAGRANCE, name);

    return found ? &facts_tables()->fragrance[found->row] : NULL;
}

const struct unit_fact *facts_unit(const char *symbol)
{
    const struct fact_tables *tables = facts_tables();

    for (size_t i = 0; i < tables->units; i++)
        if (fact_same_name(tables->unit[i].symbol, symbol) || fact_same_name(tables->unit[i].name, symbol))
            return &tables->unit[i];
    return NULL;
}

void facts_each_name(enum fact_kind kind, void (*visit)(void *context, const char *name, const char *key),
                     void *context)
{
    const struct fact_names *names = &facts_tables()->names[kind];

    for (size_t i = 0; i < names->n; i++)
        visit(context, names->name[i].name, names->name[i].key);
}
