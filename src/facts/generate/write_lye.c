/* Lye: density, specific heat, boiling point, heat of dissolving. A table rises in the order of looking it up. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "emit.h"
#include "writers.h"

static const char *const alkali[] = {"NaOH", "KOH"};

static size_t alkali_of(const struct tsv_row *row)
{
    return tsv_choice(row, "alkali", alkali, 2);
}

/* Stops unless the row comes after the one before it: by alkali, then by the columns in order. */
static void check_order(const struct tsv_row *row, const char *const column[], size_t columns)
{
    const struct tsv_row *before = row - 1;

    if (row == row->table->row || alkali_of(before) < alkali_of(row))
        return;
    bool after = false, before_it = alkali_of(before) > alkali_of(row);
    for (size_t i = 0; i < columns && !after && !before_it; i++) {
        double here = tsv_number(row, column[i], -1e9, 1e9), there = tsv_number(before, column[i], -1e9, 1e9);
        after = here > there;
        before_it = here < there;
    }
    if (!after)
        tsv_stop(row, "the row does not come after the one before it");
}

static void check_both(const struct tsv *table)
{
    for (size_t i = 0; i < 2; i++)
        if (!tsv_find(table, "alkali", alkali[i])) {
            fprintf(stderr, "%s: no row of %s\n", table->path, alkali[i]);
            exit(EXIT_FAILURE);
        }
}

/* What differs between the tables of lye_point. */
struct point_table {
    const char *file, *array, *value;
    double lo, hi;
};

static void write_points(const char *folder, const struct point_table *wanted)
{
    const char *const column[] = {"alkali", "temp_c", "percent", wanted->value, "standing", "source"};
    static const char *const order[] = {"temp_c", "percent"};
    const struct tsv *table = tsv_read(folder, wanted->file, column, sizeof column / sizeof *column);

    check_both(table);
    printf("static const struct lye_point %s[] = {\n", wanted->array);
    for (size_t i = 0; i < table->rows; i++) {
        const struct tsv_row *row = &table->row[i];
        check_order(row, order, 2);
        tsv_filled(row, "source");
        printf("    {.solute = %zu, ", alkali_of(row));
        emit_percent(row, "share", "percent", 0, 100);
        emit_number(row, "temp_c", "temp_c", 0, 150);
        emit_number(row, "value", wanted->value, wanted->lo, wanted->hi);
        emit_standing(row, "standing", "standing");
        fputs("},\n", stdout);
    }
    puts("};\n");
}

static void write_boiling(const char *folder)
{
    static const char *const column[] = {"alkali", "percent", "boils_c", "standing", "source"};
    static const char *const order[] = {"percent"};
    const struct tsv *table = tsv_read(folder, "lye_boiling.tsv", column, sizeof column / sizeof *column);

    check_both(table);
    puts("static const struct lye_point BOILING[] = {");
    for (size_t i = 0; i < table->rows; i++) {
        const struct tsv_row *row = &table->row[i];
        check_order(row, order, 1);
        tsv_filled(row, "source");
        printf("    {.solute = %zu, ", alkali_of(row));
        emit_percent(row, "share", "percent", 0, 100);
        emit_number(row, "value", "boils_c", 99, 200);
        emit_standing(row, "standing", "standing");
        fputs("},\n", stdout);
    }
    puts("};\n");
}

static void write_heat(const char *folder)
{
    static const char *const column[] = {"alkali", "water_mol", "heat_kj_mol", "standing", "source"};
    static const char *const order[] = {"water_mol"};
    const struct tsv *table = tsv_read(folder, "lye_heat.tsv", column, sizeof column / sizeof *column);

    check_both(table);
    puts("static const struct heat_point HEAT[] = {");
    for (size_t i = 0; i < table->rows; i++) {
        const struct tsv_row *row = &table->row[i];
        check_order(row, order, 1);
        tsv_filled(row, "source");
        tsv_number(row, "heat_kj_mol", -80, 0);
        printf("    {.solute = %zu, ", alkali_of(row));
        emit_number(row, "water_mol", "water_mol", 1, 1000);
        printf(".heat_j_mol = %se3, ", tsv_cell(row, "heat_kj_mol"));
        emit_standing(row, "standing", "standing");
        fputs("},\n", stdout);
    }
    puts("};\n");
}

static void write_solid(const char *folder)
{
    static const char *const column[] = {"alkali", "heat_capacity", "standing", "source"};
    const struct tsv *table = tsv_read(folder, "lye_solid.tsv", column, sizeof column / sizeof *column);

    check_both(table);
    tsv_unique(table, "alkali");
    puts("/* A macro, since C17 does not take a constant object as an initialiser. */");
    fputs("#define SOLID_HEAT_CAPACITY {", stdout);
    for (size_t i = 0; i < 2; i++) {
        const struct tsv_row *row = tsv_find(table, "alkali", alkali[i]);
        tsv_filled(row, "source");
        emit_standing_name(row, "standing");
        tsv_number(row, "heat_capacity", 0.5, 3);
        printf("%s, ", tsv_cell(row, "heat_capacity"));
    }
    puts("}\n");
}

void write_lye(const char *folder)
{
    static const struct point_table table[] = {
        {"lye_density.tsv", "DENSITY", "density_g_ml", 0.9, 1.6},
        {"lye_heat_capacity.tsv", "HEAT_CAPACITY", "heat_capacity", 2, 4.5},
    };

    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        write_points(folder, &table[i]);
    write_boiling(folder);
    write_heat(folder);
    write_solid(folder);
}
