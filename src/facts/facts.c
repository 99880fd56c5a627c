/* The tables as the rest of the program sees them. */
#include "facts/tables.h"

#include <string.h>

const struct reference *facts_reference(void)
{
    return &facts_tables()->reference;
}

const struct oil_fact *facts_oils(size_t *n)
{
    *n = facts_tables()->oils;
    return facts_tables()->oil;
}

const struct additive_fact *facts_additives(size_t *n)
{
    *n = facts_tables()->additives;
    return facts_tables()->additive;
}

const struct liquid_fact *facts_liquids(size_t *n)
{
    *n = facts_tables()->liquids;
    return facts_tables()->liquid;
}

const struct colourant_fact *facts_colourants(size_t *n)
{
    *n = facts_tables()->colourants;
    return facts_tables()->colourant;
}

const struct fragrance_fact *facts_fragrances(size_t *n)
{
    *n = facts_tables()->fragrances;
    return facts_tables()->fragrance;
}

const struct unit_fact *facts_units(size_t *n)
{
    *n = facts_tables()->units;
    return facts_tables()->unit;
}

bool facts_practice_source(const char *member, enum standing *standing, const char **source)
{
    const struct fact_tables *tables = facts_tables();

    for (size_t i = 0; i < tables->practice_sources; i++) {
        const struct practice_source *row = &tables->practice_source[i];
        if (strcmp(row->member, member) == 0) {
            *standing = row->standing;
            *source = row->source;
            return true;
        }
    }
    return false;
}
