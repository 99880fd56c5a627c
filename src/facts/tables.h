/* tables.h - what the generator makes of schema/reference: every row as a constant, and the names that lead to them. */
#ifndef FACTS_TABLES_H
#define FACTS_TABLES_H

#include "lyeway/facts.h"

enum { FACT_KINDS = 5 };

/* A key, name or synonym and the row of its kind that it leads to. No two rows of a kind share a name (find.h). */
struct fact_name {
    const char *name, *key;
    size_t row;
};

struct fact_names {
    const struct fact_name *name;
    size_t n;
};

struct practice_source {
    const char *member;
    enum standing standing;
    const char *source;
};

struct fact_tables {
    struct reference reference;
    const struct oil_fact *oil;
    size_t oils;
    const struct additive_fact *additive;
    size_t additives;
    const struct liquid_fact *liquid;
    size_t liquids;
    const struct colourant_fact *colourant;
    size_t colourants;
    const struct fragrance_fact *fragrance;
    size_t fragrances;
    const struct unit_fact *unit;
    size_t units;
    struct fact_names names[FACT_KINDS]; /* by enum fact_kind */
    const struct practice_source *practice_source;
    size_t practice_sources;
};

/* The generated tables; static. */
const struct fact_tables *facts_tables(void);

#endif
