/* Oils, the fatty acids, and what fatty acids the oils have. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "emit.h"
#include "lyeway/facts.h"
#include "writers.h"

/* By enum acid; butyric has no column in oil_acids.tsv. */
static const char *const acid_key[ACIDS] = {"c4_0",  "c6_0",  "c8_0",  "c10_0", "c12_0",     "c14_0", "c16_0",
                                            "c16_1", "c17_0", "c18_0", "c18_1", "c18_2",     "c18_3", "c20_0",
                                            "c20_1", "c22_0", "c22_1", "c24_0", "ricinoleic"};
enum { FIRST_PUBLISHED = ACID_C6_0 };

static void check_oil(const struct tsv_row *row)
{
    double lo = tsv_number(row, "sap_lo", 20, 400), nominal = tsv_number(row, "sap_nominal", 20, 400);
    double hi = tsv_number(row, "sap_hi", 20, 400);

    if (lo > nominal || nominal > hi)
        tsv_stop(row, "the nominal saponification value %g is outside %g to %g", nominal, lo, hi);
    tsv_filled(row, "name");
    tsv_filled(row, "sap_source");
    if (tsv_empty(row, "iodine_lo") != tsv_empty(row, "iodine_hi"))
        tsv_stop(row, "one end of the iodine range is missing");
    if (!tsv_empty(row, "iodine_lo") && tsv_number(row, "iodine_lo", 0, 250) > tsv_number(row, "iodine_hi", 0, 250))
        tsv_stop(row, "the iodine range is upside down");
    if (tsv_empty(row, "density_g_ml") != tsv_empty(row, "density_temp_c"))
        tsv_stop(row, "a density goes with its temperature");
}

void read_oils(const char *folder, struct sources *sources)
{
    static const char *const acid[] = {"key",          "name",          "formula",       "molar_mass_g_mol",
                                       "double_bonds", "hydroxy",       "iodine_factor", "sap_triglyceride",
                                       "sap_free",     "oxidisability", "standing",      "source"};
    static const char *const oil[] = {"key",          "name",           "inci",        "inci_soap",
                                      "kind",         "sap_lo",         "sap_nominal", "sap_hi",
                                      "sap_standing", "sap_source",     "iodine_lo",   "iodine_hi",
                                      "density_g_ml", "density_temp_c", "melt_c",      "note"};
    static const char *const composition[] = {"oil",        "c6_0",       "c8_0",     "c10_0", "c12_0", "c14_0",
                                              "c16_0",      "c16_1",      "c17_0",    "c18_0", "c18_1", "c18_2",
                                              "c18_3",      "c20_0",      "c20_1",    "c22_0", "c22_1", "c24_0",
                                              "ricinoleic", "typical_is", "standing", "source"};

    sources->acids = tsv_read(folder, "acids.tsv", acid, sizeof acid / sizeof *acid);
    sources->oils = tsv_read(folder, "oils.tsv", oil, sizeof oil / sizeof *oil);
    sources->oil_acids = tsv_read(folder, "oil_acids.tsv", composition, sizeof composition / sizeof *composition);
    tsv_unique(sources->oils, "key");
    tsv_unique(sources->oil_acids, "oil");
    for (size_t i = 0; i < sources->oils->rows; i++)
        check_oil(&sources->oils->row[i]);
    for (size_t i = 0; i < sources->oil_acids->rows; i++)
        tsv_refer(&sources->oil_acids->row[i], sources->oils, tsv_filled(&sources->oil_acids->row[i], "oil"));
}

static void write_acid(const struct tsv_row *row, const char *key)
{
    if (strcmp(tsv_cell(row, "key"), key) != 0)
        tsv_stop(row, "the acid of this line is %s, expected %s", tsv_cell(row, "key"), key);
    fputs("    {", stdout);
    emit_text(row, "key", "key");
    emit_text(row, "name", "name");
    emit_number(row, "molar_mass", "molar_mass_g_mol", 80, 400);
    emit_number(row, "double_bonds", "double_bonds", 0, 3);
    emit_bool("hydroxy", tsv_yes(row, "hydroxy"));
    emit_number(row, "iodine_factor", "iodine_factor", 0, 3);
    emit_number(row, "sap_triglyceride", "sap_triglyceride", 140, 600);
    emit_number(row, "sap_free", "sap_free", 140, 700);
    emit_number(row, "oxidisability", "oxidisability", 0, 30);
    emit_origin(row);
    fputs("},\n", stdout);
}

void write_acids(const struct sources *sources)
{
    const struct tsv *table = sources->acids;

    if (table->rows != ACIDS) {
        fprintf(stderr, "%s: %zu acids, expected %d\n", table->path, table->rows, ACIDS);
        exit(EXIT_FAILURE);
    }
    puts("static const struct acid_fact ACID[] = {");
    for (size_t i = 0; i < ACIDS; i++)
        write_acid(&table->row[i], acid_key[i]);
    puts("};\n");
}

/* The three percents of a cell "typical (least-greatest)", as text. */
struct share {
    char typical[16], lo[16], hi[16];
};

/* Copies what stands before `end` and steps over it; stops if it is not there or too long to be a percent. */
static const char *cut(const struct tsv_row *row, const char *text, const char *end, char out[16])
{
    const char *found = strstr(text, end);

    if (!found || found - text >= 16) {
        tsv_stop(row, "'%s' is not of the form 'typical (least-greatest)'", text);
        return NULL; /* not reached: tsv_stop ends the program */
    }
    memcpy(out, text, (size_t)(found - text));
    out[found - text] = '\0';
    tsv_decimal(row, out, 0, 100);
    return found + strlen(end);
}

static struct share share_of(const struct tsv_row *row, const char *acid)
{
    const char *text = tsv_cell(row, acid);
    struct share share = {"0", "0", "0"};

    if (!*text)
        return share;
    text = cut(row, cut(row, cut(row, text, " (", share.typical), "-", share.lo), ")", share.hi);
    if (*text)
        tsv_stop(row, "%s has '%s' after its range", acid, text);
    double lo = strtod(share.lo, NULL), hi = strtod(share.hi, NULL), typical = strtod(share.typical, NULL);
    if (lo > hi)
        tsv_stop(row, "the range of %s is upside down", acid);
    if (lo < hi && (typical < lo || typical > hi))
        tsv_stop(row, "the typical %s of %g is outside its range", acid, typical);
    return share;
}

static void write_shares(const char *member, const struct share share[ACIDS], const char *(*part)(const struct share *))
{
    printf(".%s = {", member);
    for (size_t i = 0; i < ACIDS; i++)
        printf("%se-2, ", part(&share[i]));
    fputs("}, ", stdout);
}

static const char *typical_of(const struct share *share)
{
    return share->typical;
}

static const char *lo_of(const struct share *share)
{
    return share->lo;
}

static const char *hi_of(const struct share *share)
{
    return share->hi;
}

static void write_composition(const struct tsv_row *row)
{
    struct share share[ACIDS] = {[ACID_C4_0] = {"0", "0", "0"}};
    double sum = 0;

    for (size_t i = FIRST_PUBLISHED; i < ACIDS; i++) {
        share[i] = share_of(row, acid_key[i]);
        sum += strtod(share[i].typical, NULL);
    }
    if (fabs(sum - 100) > 1e-9)
        tsv_stop(row, "the typical acids add to %.4f, not to 100", sum);
    tsv_filled(row, "typical_is");
    tsv_filled(row, "source");
    emit_bool("has_acids", true);
    write_shares("acid", share, typical_of);
    write_shares("acid_lo", share, lo_of);
    write_shares("acid_hi", share, hi_of);
    emit_standing(row, "acid_standing", "standing");
    emit_text(row, "acid_source", "source");
}

static void write_oil(const struct tsv_row *row, const struct tsv *compositions)
{
    static const char *const word[] = {"liquid", "butter", "fat", "wax", "acid"};
    static const char *const kind[] = {"OIL_LIQUID", "OIL_BUTTER", "OIL_FAT", "OIL_WAX", "OIL_ACID"};
    const struct tsv_row *composition = tsv_find(compositions, "oil", tsv_cell(row, "key"));

    fputs("    {", stdout);
    emit_text(row, "key", "key");
    emit_text(row, "name", "name");
    emit_text(row, "inci", "inci");
    emit_text(row, "inci_soap", "inci_soap");
    emit_number(row, "sap_lo", "sap_lo", 20, 400);
    emit_number(row, "sap_hi", "sap_hi", 20, 400);
    emit_number(row, "sap_nominal", "sap_nominal", 20, 400);
    emit_standing(row, "sap_standing", "sap_standing");
    emit_text(row, "sap_source", "sap_source");
    emit_bool("has_iodine", !tsv_empty(row, "iodine_lo"));
    emit_number_or_none(row, "iodine_lo", "iodine_lo", 0, 250);
    emit_number_or_none(row, "iodine_hi", "iodine_hi", 0, 250);
    emit_number_or_none(row, "density_g_ml", "density_g_ml", 0.8, 1.1);
    emit_number_or_none(row, "density_temp_c", "density_temp_c", 0, 100);
    emit_bool("has_melt", !tsv_empty(row, "melt_c"));
    emit_number_or_none(row, "melt_c", "melt_c", -50, 120);
    printf(".kind = %s, ", kind[tsv_choice(row, "kind", word, sizeof word / sizeof *word)]);
    if (composition)
        write_composition(composition);
    else
        fputs(".acid_source = \"\", ", stdout);
    emit_text(row, "note", "note");
    fputs("},\n", stdout);
}

void write_oils(const struct sources *sources)
{
    puts("static const struct oil_fact OIL[] = {");
    for (size_t i = 0; i < sources->oils->rows; i++)
        write_oil(&sources->oils->row[i], sources->oil_acids);
    puts("};\n");
}
