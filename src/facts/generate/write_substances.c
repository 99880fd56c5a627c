/* Additives, liquids, colourants and units. */
#include <stdio.h>
#include <string.h>

#include "emit.h"
#include "writers.h"

/* A fat names the oil that it counts as, and only a fat does. */
static void check_fat(const struct tsv_row *row, const struct tsv *oils)
{
    double fat = tsv_number(row, "fat_share", 0, 1);

    if ((fat > 0) != !tsv_empty(row, "fat_oil"))
        tsv_stop(row, "fat_share and fat_oil go together");
    if (fat > 0)
        tsv_refer(row, oils, tsv_cell(row, "fat_oil"));
}

static void check_additive(const struct tsv_row *row, const struct tsv *oils)
{
    check_fat(row, oils);
    if (tsv_number(row, "equivalents", 0, 4) > 0 && tsv_empty(row, "molar_mass_g_mol"))
        tsv_stop(row, "what takes up alkali needs a molar mass");
    if (tsv_number(row, "usual_lo_percent", 0, 100) > tsv_number(row, "usual_hi_percent", 0, 100))
        tsv_stop(row, "the usual range is upside down");
    tsv_filled(row, "name");
}

static void check_liquid(const struct tsv_row *row, const struct tsv *oils)
{
    check_fat(row, oils);
    double sum = tsv_number(row, "water_share", 0, 1) + tsv_number(row, "fat_share", 0, 1) +
                 tsv_number(row, "sugar_share", 0, 1);
    if (sum > 1)
        tsv_stop(row, "water, fat and sugar add to %g", sum);
    tsv_filled(row, "name");
}

static void check_swatch(const struct tsv_row *row, const char *swatch)
{
    static const char digit[] = "0123456789ABCDEF";

    if (swatch[0] != '#' || strspn(swatch + 1, digit) != 6 || swatch[7])
        tsv_stop(row, "the swatch '%s' is not of the form #RRGGBB", swatch);
}

/* What comes back by itself must say what it comes back from. */
static void check_colourant(const struct tsv_row *row)
{
    bool comes_back = strcmp(tsv_cell(row, "behaviour"), "shifts and returns") == 0;

    check_swatch(row, tsv_filled(row, "swatch"));
    if (!tsv_empty(row, "swatch_fresh"))
        check_swatch(row, tsv_cell(row, "swatch_fresh"));
    else if (comes_back)
        tsv_stop(row, "it shifts and returns, and has no swatch_fresh");
    if (tsv_number(row, "dose_lo_g_per_kg", 0, 50) > tsv_number(row, "dose_hi_g_per_kg", 0, 50))
        tsv_stop(row, "the dose is upside down");
    tsv_filled(row, "name");
    tsv_filled(row, "dispersion");
}

void read_substances(const char *folder, struct sources *sources)
{
    static const char *const additive[] = {
        "key",          "name",        "inci",      "kind",    "active_share",     "molar_mass_g_mol", "equivalents",
        "density_g_ml", "water_share", "fat_share", "fat_oil", "usual_lo_percent", "usual_hi_percent", "add_to",
        "effect",       "standing",    "source"};
    static const char *const liquid[] = {"key",          "name",    "inci",        "water_share",
                                         "fat_share",    "fat_oil", "sugar_share", "acid_mol_per_kg",
                                         "density_g_ml", "note",    "standing",    "source"};
    static const char *const colourant[] = {"key",
                                            "name",
                                            "inci",
                                            "ci_number",
                                            "kind",
                                            "behaviour",
                                            "behaviour_note",
                                            "dose_lo_g_per_kg",
                                            "dose_hi_g_per_kg",
                                            "dispersion",
                                            "swatch",
                                            "swatch_fresh",
                                            "whitens",
                                            "eu_status",
                                            "us_status",
                                            "standing",
                                            "source"};
    static const char *const unit[] = {"name", "symbol", "si_value", "si_unit", "exact", "standing", "source"};

    sources->additives = tsv_read(folder, "additives.tsv", additive, sizeof additive / sizeof *additive);
    sources->liquids = tsv_read(folder, "liquids.tsv", liquid, sizeof liquid / sizeof *liquid);
    sources->colourants = tsv_read(folder, "colourants.tsv", colourant, sizeof colourant / sizeof *colourant);
    sources->units = tsv_read(folder, "units.tsv", unit, sizeof unit / sizeof *unit);
    for (size_t i = 0; i < sources->additives->rows; i++)
        check_additive(&sources->additives->row[i], sources->oils);
    for (size_t i = 0; i < sources->liquids->rows; i++)
        check_liquid(&sources->liquids->row[i], sources->oils);
    for (size_t i = 0; i < sources->colourants->rows; i++)
        check_colourant(&sources->colourants->row[i]);
}

static void write_additive(const struct tsv_row *row)
{
    fputs("    {", stdout);
    emit_text(row, "key", "key");
    emit_text(row, "name", "name");
    emit_text(row, "inci", "inci");
    emit_text(row, "kind", "kind");
    emit_number(row, "active_share", "active_share", 0, 1);
    emit_number_or_none(row, "molar_mass", "molar_mass_g_mol", 10, 1000);
    emit_number(row, "equivalents", "equivalents", 0, 4);
    emit_number_or_none(row, "density_g_ml", "density_g_ml", 0.5, 10);
    emit_number(row, "water_share", "water_share", 0, 1);
    emit_number(row, "fat_share", "fat_share", 0, 1);
    emit_text(row, "fat_oil", "fat_oil");
    emit_percent(row, "usual_lo", "usual_lo_percent", 0, 100);
    emit_percent(row, "usual_hi", "usual_hi_percent", 0, 100);
    emit_text(row, "add_to", "add_to");
    emit_text(row, "effect", "effect");
    emit_origin(row);
    fputs("},\n", stdout);
}

void write_additives(const struct sources *sources)
{
    puts("static const struct additive_fact ADDITIVE[] = {");
    for (size_t i = 0; i < sources->additives->rows; i++)
        write_additive(&sources->additives->row[i]);
    puts("};\n");
}

static void write_liquid(const struct tsv_row *row)
{
    fputs("    {", stdout);
    emit_text(row, "key", "key");
    emit_text(row, "name", "name");
    emit_text(row, "inci", "inci");
    emit_number(row, "water_share", "water_share", 0, 1);
    emit_number(row, "fat_share", "fat_share", 0, 1);
    emit_number(row, "sugar_share", "sugar_share", 0, 1);
    emit_text(row, "fat_oil", "fat_oil");
    emit_number(row, "acid_mol_per_kg", "acid_mol_per_kg", 0, 5);
    emit_number(row, "density_g_ml", "density_g_ml", 0.8, 1.5);
    emit_text(row, "note", "note");
    emit_origin(row);
    fputs("},\n", stdout);
}

void write_liquids(const struct sources *sources)
{
    puts("static const struct liquid_fact LIQUID[] = {");
    for (size_t i = 0; i < sources->liquids->rows; i++)
        write_liquid(&sources->liquids->row[i]);
    puts("};\n");
}

static void write_colourant(const struct tsv_row *row)
{
    static const char *const word[] = {"stable", "shifts and returns", "shifts permanently", "fades", "bleeds"};
    static const char *const name[] = {"ALKALI_STABLE", "ALKALI_SHIFTS_RETURNS", "ALKALI_SHIFTS", "ALKALI_FADES",
                                       "ALKALI_BLEEDS"};

    fputs("    {", stdout);
    emit_text(row, "key", "key");
    emit_text(row, "name", "name");
    emit_text(row, "inci", "inci");
    emit_text(row, "ci_number", "ci_number");
    emit_text(row, "kind", "kind");
    printf(".behaviour = %s, ", name[tsv_choice(row, "behaviour", word, sizeof word / sizeof *word)]);
    emit_text(row, "behaviour_note", "behaviour_note");
    emit_number(row, "dose_lo", "dose_lo_g_per_kg", 0, 50);
    emit_number(row, "dose_hi", "dose_hi_g_per_kg", 0, 50);
    emit_text(row, "dispersion", "dispersion");
    printf(".swatch_rgb = 0x%s, ", tsv_cell(row, "swatch") + 1);
    if (!tsv_empty(row, "swatch_fresh"))
        printf(".fresh_rgb = 0x%s, ", tsv_cell(row, "swatch_fresh") + 1);
    emit_bool("whitens", tsv_yes(row, "whitens"));
    emit_text(row, "eu_status", "eu_status");
    emit_text(row, "us_status", "us_status");
    emit_origin(row);
    fputs("},\n", stdout);
}

void write_colourants(const struct sources *sources)
{
    puts("static const struct colourant_fact COLOURANT[] = {");
    for (size_t i = 0; i < sources->colourants->rows; i++)
        write_colourant(&sources->colourants->row[i]);
    puts("};\n");
}

static void write_unit(const struct tsv_row *row)
{
    fputs("    {", stdout);
    emit_text(row, "name", "name");
    emit_text(row, "symbol", "symbol");
    emit_text(row, "si_unit", "si_unit");
    emit_number_or_none(row, "in_si", "si_value", 1e-9, 1e9);
    emit_bool("exact", tsv_yes(row, "exact"));
    emit_origin(row);
    fputs("},\n", stdout);
}

void write_units(const struct sources *sources)
{
    puts("static const struct unit_fact UNIT[] = {");
    for (size_t i = 0; i < sources->units->rows; i++)
        write_unit(&sources->units->row[i]);
    puts("};\n");
}
