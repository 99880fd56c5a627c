/* Figures of the craft: every member of struct practice once, within bounds that a slip of the pen would leave. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "emit.h"
#include "lyeway/facts.h"
#include "writers.h"

struct member {
    const char *name, *unit;
    double lo, hi;
};

/* clang-format off */
static const struct member member[] = {
    {"jug_residue_g",          "g",          0,      100},
    {"jug_residue_most_share", "share",      0,      1},
    {"cup_residue_g",          "g",          0,      100},
    {"bag_fill_g",             "g",          10,     1000},
    {"bag_residue_g",          "g",          0,      100},
    {"first_squeeze_g",        "g",          0,      100},
    {"piece_within_share",     "share",      0,      1},
    {"piece_between_share",    "share",      0,      1},
    {"reject_simple_a",        "count",      0.5,    100},
    {"reject_simple_b",        "count",      0.5,    100},
    {"reject_flower_a",        "count",      0.5,    100},
    {"reject_flower_b",        "count",      0.5,    100},
    {"reject_first_a",         "count",      0.5,    100},
    {"reject_first_b",         "count",      0.5,    100},
    {"reject_weight_most",     "count",      1,      1000},
    {"piece_chance",           "share",      0.5,    0.999},
    {"simple_seconds",         "s",          1,      600},
    {"flower_seconds",         "s",          1,      600},
    {"bag_change_minutes",     "min",        0,      60},
    {"colour_minutes",         "min",        0,      60},
    {"sap_own_half_range",     "share",      0,      0.2},
    {"sap_far_share",          "share",      0,      0.5},
    {"naoh_purity_lo",         "share",      0.5,    1},
    {"naoh_purity_nominal",    "share",      0.5,    1},
    {"naoh_purity_hi",         "share",      0.5,    1},
    {"koh_purity_lo",          "share",      0.5,    1},
    {"koh_purity_nominal",     "share",      0.5,    1},
    {"koh_purity_hi",          "share",      0.5,    1},
    {"oil_density_g_ml",       "g/mL",       0.8,    1},
    {"oil_density_temp_c",     "C",          0,      100},
    {"oil_density_slope",      "g/mL per C", -0.002, 0},
    {"batter_temp_c",          "C",          0,      100},
    {"naoh_soluble_share",     "share",      0.4,    0.6},
    {"koh_soluble_share",      "share",      0.4,    0.6},
    {"strength_high",          "share",      0.2,    0.6},
    {"strength_low",           "share",      0.1,    0.5},
    {"sugar_boil_share",       "share",      0,      0.2},
    {"water_in_bar",           "share",      0,      0.5},
    {"cure_loss_least",        "share",      0,      0.5},
    {"cure_least_days",        "d",          1,      400},
    {"cure_loss_a_day",        "share",      0.0001, 0.05},
    {"cure_rate",              "share a day", 0.001, 1},
    {"rancid_share",           "share",      0,      1},
    {"pace_from_pour",         "min",        0.5,    600},
    {"pace_from_layer",        "min",        0.5,    600},
    {"pace_from_pipe",         "min",        0.5,    600},
    {"pace_until_pour",        "min",        0.5,    600},
    {"pace_until_layer",       "min",        0.5,    600},
    {"pace_until_pipe",        "min",        0.5,    600},
    {"pace_strength",          "factor",     0.01,   10},
    {"pace_temp",              "factor",     0.01,   10},
    {"pace_saturated",         "factor",     0.01,   10},
    {"pace_some",              "factor",     0.01,   10},
    {"pace_strong",            "factor",     0.01,   10},
    {"pace_long_blend",        "factor",     0.01,   10},
    {"pace_half_mass",         "factor",     0.01,   10},
    {"pace_factor_spread",     "share",      0.01,   5},
    {"pace_factor_least",      "log",        0.01,   5},
    {"pace_offset_spread",     "log",        0.01,   5},
    {"pace_shape",             "count",      1,      100},
    {"pace_scale",             "log^2",      0.01,   100},
    {"pace_ref_strength",      "share",      0.2,    0.6},
    {"pace_ref_temp_c",        "C",          0,      100},
    {"pace_ref_saturated",     "share",      0,      1},
    {"pace_ref_oils_g",        "g",          10,     100000},
    {"stage_1",                "share",      -2,     0.5},
    {"stage_2",                "share",      -1,     3},
    {"stage_3",                "share",      -1,     3},
    {"stage_4",                "share",      -1,     3},
    {"stage_5",                "share",      -1,     3},
    {"stage_6",                "share",      -1,     3},
    {"stage_7",                "share",      -1,     3},
    {"stage_spread",           "log",        0.01,   5},
    {"plain_red",              "sRGB",       0,      255},
    {"plain_green",            "sRGB",       0,      255},
    {"plain_blue",             "sRGB",       0,      255},
};
/* clang-format on */
enum { MEMBERS = sizeof member / sizeof *member };

_Static_assert(sizeof(struct practice) == MEMBERS * sizeof(double), "the list above is that of struct practice");

/* Members of which the first may not be above the second. */
static const char *const ordered[][2] = {
    {"naoh_purity_lo", "naoh_purity_nominal"},
    {"naoh_purity_nominal", "naoh_purity_hi"},
    {"koh_purity_lo", "koh_purity_nominal"},
    {"koh_purity_nominal", "koh_purity_hi"},
    {"strength_low", "strength_high"},
    {"pace_from_pour", "pace_until_pour"},
    {"pace_from_layer", "pace_until_layer"},
    {"pace_from_pipe", "pace_until_pipe"},
    {"stage_1", "stage_2"},
    {"stage_2", "stage_3"},
    {"stage_3", "stage_4"},
    {"stage_4", "stage_5"},
    {"stage_5", "stage_6"},
    {"stage_6", "stage_7"},
};

static const struct tsv_row *row_of(const struct tsv *table, const char *name)
{
    const struct tsv_row *row = tsv_find(table, "member", name);

    if (!row) {
        fprintf(stderr, "%s: no row for %s of struct practice\n", table->path, name);
        exit(EXIT_FAILURE);
    }
    return row;
}

static void check_known(const struct tsv_row *row)
{
    for (size_t i = 0; i < MEMBERS; i++)
        if (strcmp(tsv_cell(row, "member"), member[i].name) == 0)
            return;
    tsv_stop(row, "struct practice has no member '%s'", tsv_cell(row, "member"));
}

static void check_ordered(const struct tsv *table)
{
    for (size_t i = 0; i < sizeof ordered / sizeof *ordered; i++) {
        const struct tsv_row *lo = row_of(table, ordered[i][0]), *hi = row_of(table, ordered[i][1]);
        if (tsv_number(lo, "value", -1e9, 1e9) > tsv_number(hi, "value", -1e9, 1e9))
            tsv_stop(lo, "%s is above %s", ordered[i][0], ordered[i][1]);
    }
}

static const struct tsv *read_practice(const char *folder)
{
    static const char *const column[] = {"member", "value", "unit", "standing", "source"};
    const struct tsv *table = tsv_read(folder, "practice.tsv", column, sizeof column / sizeof *column);

    tsv_unique(table, "member");
    for (size_t i = 0; i < table->rows; i++)
        check_known(&table->row[i]);
    check_ordered(table);
    return table;
}

static void write_member(const struct tsv_row *row, const struct member *wanted)
{
    if (strcmp(tsv_cell(row, "unit"), wanted->unit) != 0)
        tsv_stop(row, "%s is in %s, not in '%s'", wanted->name, wanted->unit, tsv_cell(row, "unit"));
    fputs("    ", stdout);
    emit_number(row, wanted->name, "value", wanted->lo, wanted->hi);
    putchar('\n');
}

void write_practice(const char *folder)
{
    const struct tsv *table = read_practice(folder);

    puts("static const struct practice PRACTICE = {");
    for (size_t i = 0; i < MEMBERS; i++)
        write_member(row_of(table, member[i].name), &member[i]);
    puts("};\n");
    puts("static const struct practice_source PRACTICE_SOURCE[] = {");
    for (size_t i = 0; i < table->rows; i++) {
        fputs("    {", stdout);
        emit_text(&table->row[i], "member", "member");
        emit_origin(&table->row[i]);
        fputs("},\n", stdout);
    }
    puts("};\n");
}
