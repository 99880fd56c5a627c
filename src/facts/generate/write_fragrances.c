/* Allergens, limits and fragrances. A limit counts towards the allergen of the same INCI name; isomers share one. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "emit.h"
#include "writers.h"

enum { NONE = -1, WORD = 64 };

static void check_date(const struct tsv_row *row, const char *column)
{
    const char *form = "dddd-dd-dd", *date = tsv_cell(row, column);

    if (!*date)
        return;
    for (; *form || *date; form++, date++)
        if (*form == 'd' ? *date < '0' || *date > '9' : *date != *form)
            tsv_stop(row, "%s '%s' is not of the form 2026-07-31", column, tsv_cell(row, column));
}

void read_fragrances(const char *folder, struct sources *sources)
{
    static const char *const allergen[] = {"key", "inci", "threshold_percent", "placed_until", "standing", "source"};
    static const char *const limit[] = {"key",        "name",        "inci", "ifra_percent", "ifra_standing",
                                        "eu_percent", "eu_standing", "note", "source"};
    static const char *const fragrance[] = {"key",
                                            "name",
                                            "inci",
                                            "oil_allergen",
                                            "constituents",
                                            "density_lo_g_ml",
                                            "density_hi_g_ml",
                                            "acceleration",
                                            "discolouration",
                                            "usual_max_percent",
                                            "standing",
                                            "source"};

    sources->allergens = tsv_read(folder, "allergens.tsv", allergen, sizeof allergen / sizeof *allergen);
    sources->limits = tsv_read(folder, "fragrance_limits.tsv", limit, sizeof limit / sizeof *limit);
    sources->fragrances = tsv_read(folder, "fragrances.tsv", fragrance, sizeof fragrance / sizeof *fragrance);
    tsv_unique(sources->allergens, "key");
    tsv_unique(sources->allergens, "inci");
    tsv_unique(sources->limits, "key");
    tsv_unique(sources->limits, "name");
    for (size_t i = 0; i < sources->allergens->rows; i++)
        check_date(&sources->allergens->row[i], "placed_until");
}

void write_allergens(const struct sources *sources)
{
    puts("static const struct allergen_fact ALLERGEN[] = {");
    for (size_t i = 0; i < sources->allergens->rows; i++) {
        const struct tsv_row *row = &sources->allergens->row[i];
        fputs("    {", stdout);
        emit_text(row, "key", "key");
        emit_text(row, "inci", "inci");
        emit_percent(row, "threshold_rinse_off", "threshold_percent", 1e-4, 1);
        emit_text(row, "placed_until", "placed_until");
        emit_origin(row);
        fputs("},\n", stdout);
    }
    puts("};\n");
}

/* Index of the allergen with the INCI name of a limit; NONE where the limit has no such name. */
static int allergen_of_limit(const struct tsv_row *limit, const struct tsv *allergens)
{
    const char *inci = tsv_cell(limit, "inci");
    const struct tsv_row *found = *inci ? tsv_find(allergens, "inci", inci) : NULL;

    return found ? (int)(found - allergens->row) : NONE;
}

static void write_limit(const struct tsv_row *row, const struct tsv *allergens)
{
    const char *ifra = tsv_filled(row, "ifra_percent");
    bool unknown = strcmp(ifra, "unknown") == 0, has_ifra = !unknown && strcmp(ifra, "none") != 0;
    bool has_eu = !tsv_empty(row, "eu_percent");

    tsv_filled(row, "source");
    if (has_eu == tsv_empty(row, "eu_standing"))
        tsv_stop(row, "eu_percent and eu_standing go together");
    fputs("    {", stdout);
    emit_text(row, "key", "key");
    emit_text(row, "name", "name");
    emit_text(row, "inci", "inci");
    emit_bool("has_ifra", has_ifra);
    emit_bool("has_eu", has_eu);
    if (has_ifra)
        emit_percent(row, "ifra_share", "ifra_percent", 0, 100);
    if (has_eu)
        emit_percent(row, "eu_share", "eu_percent", 0, 100);
    emit_bool("figure_unknown", unknown);
    printf(".allergen = %d, ", allergen_of_limit(row, allergens));
    emit_standing(row, "ifra_standing", "ifra_standing");
    emit_standing(row, "eu_standing", has_eu ? "eu_standing" : "ifra_standing");
    emit_text(row, "note", "note");
    emit_text(row, "source", "source");
    fputs("},\n", stdout);
}

void write_limits(const struct sources *sources)
{
    puts("static const struct limit_fact LIMIT[] = {");
    for (size_t i = 0; i < sources->limits->rows; i++)
        write_limit(&sources->limits->row[i], sources->allergens);
    puts("};\n");
}

/* Takes what stands before the first character of `end` into `out` and returns what follows that. The others of `end`
 * may not come before it; a semicolon may also be the end of the cell. */
static const char *take(const struct tsv_row *row, const char *text, const char *end, char out[WORD])
{
    size_t n = strcspn(text, end);
    bool closed = text[n] == *end || (*end == ';' && !text[n]);

    if (n == 0 || n >= WORD || !closed)
        tsv_stop(row, "'%s' is not of the form 'constituent=least-greatest; ...'", text);
    memcpy(out, text, n);
    out[n] = '\0';
    return text + n + (text[n] != '\0');
}

/* The limit's index and the shares of one "key=lo-hi" at `text`; returns what follows its "; ". */
static const char *take_constituent(const struct tsv_row *row, const char *text, const struct tsv *limits,
                                    size_t *limit)
{
    char key[WORD], lo[WORD], hi[WORD];

    text = take(row, text, "=;", key);
    text = take(row, text, "-;", lo);
    text = take(row, text, ";", hi);
    *limit = tsv_refer(row, limits, key);
    if (tsv_decimal(row, lo, 0, 100) > tsv_decimal(row, hi, 0, 100))
        tsv_stop(row, "the range of %s is upside down", key);
    printf("    {%zu, %se-2, %se-2},\n", *limit, lo, hi);
    return *text == ' ' ? text + 1 : text;
}

/* Naming the same allergen for the oil and for a constituent that stands for all of it would count it twice. */
static void check_allergen_once(const struct tsv_row *row, const struct sources *sources, size_t limit)
{
    const struct tsv_row *constituent = &sources->limits->row[limit];
    int allergen = allergen_of_limit(constituent, sources->allergens);

    if (allergen == NONE || tsv_empty(row, "oil_allergen"))
        return;
    if (tsv_refer(row, sources->allergens, tsv_cell(row, "oil_allergen")) == (size_t)allergen)
        tsv_stop(row, "%s is already named by its constituent %s", tsv_cell(row, "oil_allergen"),
                 tsv_cell(constituent, "key"));
}

/* Writes the constituents of one fragrance and returns how many there are. */
static size_t write_constituents(const struct tsv_row *row, const struct sources *sources, bool *used)
{
    const char *text = tsv_cell(row, "constituents");
    size_t n = 0;

    memset(used, 0, sources->limits->rows * sizeof *used);
    for (; *text; n++) {
        size_t limit;
        text = take_constituent(row, text, sources->limits, &limit);
        if (used[limit])
            tsv_stop(row, "%s is named twice", tsv_cell(&sources->limits->row[limit], "key"));
        used[limit] = true;
        check_allergen_once(row, sources, limit);
    }
    return n;
}

static void write_fragrance(const struct tsv_row *row, const struct sources *sources, size_t first, size_t n)
{
    static const char *const word[] = {"slows", "none", "some", "strong"};
    static const char *const name[] = {"ACCELERATION_SLOWS", "ACCELERATION_NONE", "ACCELERATION_SOME",
                                       "ACCELERATION_STRONG"};
    const char *allergen = tsv_cell(row, "oil_allergen");

    if (tsv_number(row, "density_lo_g_ml", 0.7, 1.4) > tsv_number(row, "density_hi_g_ml", 0.7, 1.4))
        tsv_stop(row, "the density range is upside down");
    fputs("    {", stdout);
    emit_text(row, "key", "key");
    emit_text(row, "name", "name");
    emit_text(row, "inci", "inci");
    printf(".allergen = %d, ", *allergen ? (int)tsv_refer(row, sources->allergens, allergen) : NONE);
    printf(".constituent = &CONSTITUENT[%zu], .constituents = %zu, ", n ? first : 0, n);
    printf(".density_g_ml = (%s + %s) / 2, ", tsv_cell(row, "density_lo_g_ml"), tsv_cell(row, "density_hi_g_ml"));
    printf(".acceleration = %s, ", name[tsv_choice(row, "acceleration", word, sizeof word / sizeof *word)]);
    emit_text(row, "discolouration", "discolouration");
    emit_percent(row, "usual_max", "usual_max_percent", 0, 20);
    emit_origin(row);
    fputs("},\n", stdout);
}

void write_fragrances(const struct sources *sources)
{
    size_t rows = sources->fragrances->rows;
    size_t *first = calloc(rows + 1, sizeof *first);
    bool *used = calloc(sources->limits->rows + 1, sizeof *used);

    if (!first || !used) {
        fputs("out of memory\n", stderr);
        exit(EXIT_FAILURE);
    }
    puts("static const struct constituent CONSTITUENT[] = {");
    for (size_t i = 0; i < rows; i++)
        first[i + 1] = first[i] + write_constituents(&sources->fragrances->row[i], sources, used);
    puts("};\n");
    puts("static const struct fragrance_fact FRAGRANCE[] = {");
    for (size_t i = 0; i < rows; i++)
        write_fragrance(&sources->fragrances->row[i], sources, first[i], first[i + 1] - first[i]);
    puts("};\n");
    free(used);
    free(first);
}
