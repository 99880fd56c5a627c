/* writers.h - a reader and a writer for each group of tables. A reader checks rows on their own and against tables read
 * before; a writer checks the rest and prints constant arrays for src/facts/tables.h on standard output. */
#ifndef GENERATE_WRITERS_H
#define GENERATE_WRITERS_H

#include "tsv.h"

/* Tables that others refer to, and the synonyms. */
struct sources {
    const struct tsv *acids, *oils, *oil_acids;
    const struct tsv *additives, *liquids, *colourants, *units;
    const struct tsv *allergens, *limits, *fragrances;
    const struct tsv *synonyms;
};

/* write_oils.c: acids.tsv, oils.tsv, oil_acids.tsv */
void read_oils(const char *folder, struct sources *sources);
void write_acids(const struct sources *sources);
void write_oils(const struct sources *sources);

/* write_substances.c: additives.tsv, liquids.tsv, colourants.tsv, units.tsv */
void read_substances(const char *folder, struct sources *sources);
void write_additives(const struct sources *sources);
void write_liquids(const struct sources *sources);
void write_colourants(const struct sources *sources);
void write_units(const struct sources *sources);

/* write_fragrances.c: allergens.tsv, fragrance_limits.tsv, fragrances.tsv */
void read_fragrances(const char *folder, struct sources *sources);
void write_allergens(const struct sources *sources);
void write_limits(const struct sources *sources);
void write_fragrances(const struct sources *sources);

/* write_lye.c: lye_*.tsv */
void write_lye(const char *folder);

/* write_practice.c: practice.tsv */
void write_practice(const char *folder);

/* write_names.c: synonyms.tsv and the keys and names of the five kinds */
void read_synonyms(const char *folder, struct sources *sources);
void write_names(const struct sources *sources);

#endif
