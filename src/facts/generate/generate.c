/* facts FOLDER - the generator: prints build/generated/facts.c from the tables in FOLDER (schema/reference).
 *
 * Nothing is taken on trust: an unknown column, a number that is none or out of bounds, a range upside down, a key that
 * leads nowhere or a name that leads to two rows stops the build with file, line and a sentence.
 */
#include <stdio.h>
#include <stdlib.h>

#include "writers.h"

/* Ties the arrays together; count by the compiler. */
static void write_tables(void)
{
    static const char *const line[] = {
        "#define COUNT(array) (sizeof(array) / sizeof *(array))",
        "#define NAMES(array) {array, COUNT(array)}",
        "",
        "static const struct fact_tables TABLES = {",
        "    .reference = {",
        "        .acid = ACID,",
        "        .limit = LIMIT, .limits = COUNT(LIMIT),",
        "        .allergen = ALLERGEN, .allergens = COUNT(ALLERGEN),",
        "        .density = DENSITY, .densities = COUNT(DENSITY),",
        "        .heat_capacity = HEAT_CAPACITY, .heat_capacities = COUNT(HEAT_CAPACITY),",
        "        .boiling = BOILING, .boilings = COUNT(BOILING),",
        "        .heat = HEAT, .heats = COUNT(HEAT),",
        "        .solid_heat_capacity = SOLID_HEAT_CAPACITY,",
        "        .practice = &PRACTICE,",
        "    },",
        "    .oil = OIL, .oils = COUNT(OIL),",
        "    .additive = ADDITIVE, .additives = COUNT(ADDITIVE),",
        "    .liquid = LIQUID, .liquids = COUNT(LIQUID),",
        "    .colourant = COLOURANT, .colourants = COUNT(COLOURANT),",
        "    .fragrance = FRAGRANCE, .fragrances = COUNT(FRAGRANCE),",
        "    .unit = UNIT, .units = COUNT(UNIT),",
        "    .names = {",
        "        [FACT_OIL] = NAMES(OIL_NAME),",
        "        [FACT_ADDITIVE] = NAMES(ADDITIVE_NAME),",
        "        [FACT_LIQUID] = NAMES(LIQUID_NAME),",
        "        [FACT_COLOURANT] = NAMES(COLOURANT_NAME),",
        "        [FACT_FRAGRANCE] = NAMES(FRAGRANCE_NAME),",
        "    },",
        "    .practice_source = PRACTICE_SOURCE, .practice_sources = COUNT(PRACTICE_SOURCE),",
        "};",
        "",
        "const struct fact_tables *facts_tables(void)",
        "{",
        "    return &TABLES;",
        "}",
    };

    for (size_t i = 0; i < sizeof line / sizeof *line; i++)
        puts(line[i]);
}

int main(int argc, char **argv)
{
    struct sources sources = {0};

    if (argc != 2) {
        fputs("usage: facts FOLDER\n", stderr);
        return 2;
    }
    read_oils(argv[1], &sources);
    read_substances(argv[1], &sources);
    read_fragrances(argv[1], &sources);
    read_synonyms(argv[1], &sources);
    puts("/* Made from schema/reference by src/facts/generate; edit the tables, not this. */\n#include "
         "\"facts/tables.h\"\n");
    write_acids(&sources);
    write_oils(&sources);
    write_additives(&sources);
    write_liquids(&sources);
    write_colourants(&sources);
    write_units(&sources);
    write_allergens(&sources);
    write_limits(&sources);
    write_fragrances(&sources);
    write_lye(argv[1]);
    write_practice(argv[1]);
    write_names(&sources);
    write_tables();
    if (fflush(stdout) || ferror(stdout)) {
        fputs("facts: the output cannot be written\n", stderr);
        return EXIT_FAILURE;
    }
    return EXIT_SUCCESS;
}
