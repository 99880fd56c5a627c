/* The names that lead to a row: its key, its name, its synonyms. One name of a kind leads to one row. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "emit.h"
#include "facts/find.h"
#include "facts/tables.h"
#include "writers.h"

/* By enum fact_kind. */
static const char *const kind_word[FACT_KINDS] = {"oil", "additive", "liquid", "colourant", "fragrance"};
static const char *const kind_array[FACT_KINDS] = {"OIL_NAME", "ADDITIVE_NAME", "LIQUID_NAME", "COLOURANT_NAME",
                                                   "FRAGRANCE_NAME"};

/* A name, the row of a table that it stands in, and the row of the kind's own table that it leads to. */
struct entry {
    const char *name;
    const struct tsv_row *from;
    size_t row;
};

static const struct tsv *table_of(const struct sources *sources, enum fact_kind kind)
{
    const struct tsv *const table[FACT_KINDS] = {sources->oils, sources->additives, sources->liquids,
                                                 sources->colourants, sources->fragrances};

    return table[kind];
}

void read_synonyms(const char *folder, struct sources *sources)
{
    static const char *const column[] = {"kind", "key", "synonym"};

    sources->synonyms = tsv_read(folder, "synonyms.tsv", column, sizeof column / sizeof *column);
    for (size_t i = 0; i < sources->synonyms->rows; i++)
        tsv_choice(&sources->synonyms->row[i], "kind", kind_word, FACT_KINDS);
}

/* A key is fit for files and command lines: lower case, digits, hyphens. */
static void check_key(const struct tsv_row *row)
{
    const char *key = tsv_filled(row, "key");

    if (key[strspn(key, "abcdefghijklmnopqrstuvwxyz0123456789-")])
        tsv_stop(row, "the key '%s' has more than lower case, digits and hyphens", key);
}

/* Both names that a row has of its own. */
static size_t collect_rows(const struct tsv *table, const char *first, const char *second, struct entry entry[])
{
    size_t n = 0;

    for (size_t i = 0; i < table->rows; i++) {
        entry[n++] = (struct entry){tsv_filled(&table->row[i], first), &table->row[i], i};
        entry[n++] = (struct entry){tsv_filled(&table->row[i], second), &table->row[i], i};
    }
    return n;
}

static size_t collect_synonyms(const struct tsv *synonyms, const char *kind, const struct tsv *table,
                               struct entry entry[])
{
    size_t n = 0;

    for (size_t i = 0; i < synonyms->rows; i++) {
        const struct tsv_row *row = &synonyms->row[i];
        if (strcmp(tsv_cell(row, "kind"), kind) == 0)
            entry[n++] = (struct entry){tsv_filled(row, "synonym"), row, tsv_refer(row, table, tsv_cell(row, "key"))};
    }
    return n;
}

/* A row's own name may repeat its key; any other meeting of two names is a mistake. */
static void check_entries(const struct entry *entry, size_t n)
{
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < i; k++)
            if (fact_same_name(entry[k].name, entry[i].name) && entry[k].from != entry[i].from)
                tsv_stop(entry[i].from, "'%s' already stands in %s:%d", entry[i].name, entry[k].from->table->path,
                         entry[k].from->line);
}

static struct entry *entries(size_t most)
{
    struct entry *entry = calloc(most, sizeof *entry);

    if (!entry) {
        fputs("out of memory\n", stderr);
        exit(EXIT_FAILURE);
    }
    return entry;
}

static void write_kind(const struct sources *sources, enum fact_kind kind)
{
    const struct tsv *table = table_of(sources, kind);
    struct entry *entry = entries(2 * table->rows + sources->synonyms->rows);
    size_t n = collect_rows(table, "key", "name", entry);

    n += collect_synonyms(sources->synonyms, kind_word[kind], table, entry + n);
    check_entries(entry, n);
    printf("static const struct fact_name %s[] = {\n", kind_array[kind]);
    for (size_t i = 0; i < n; i++) {
        fputs("    {", stdout);
        emit_literal(entry[i].name);
        fputs(", ", stdout);
        emit_literal(tsv_cell(&table->row[entry[i].row], "key"));
        printf(", %zu},\n", entry[i].row);
    }
    puts("};\n");
    free(entry);
}

/* A unit is found by symbol or name among the others. */
static void check_units(const struct tsv *units)
{
    struct entry *entry = entries(2 * units->rows);

    check_entries(entry, collect_rows(units, "symbol", "name", entry));
    free(entry);
}

void write_names(const struct sources *sources)
{
    check_units(sources->units);
    for (int kind = 0; kind < FACT_KINDS; kind++) {
        const struct tsv *table = table_of(sources, (enum fact_kind)kind);
        for (size_t i = 0; i < table->rows; i++)
            check_key(&table->row[i]);
        write_kind(sources, (enum fact_kind)kind);
    }
}
