/* tsv.h - a strict reader of the tables in schema/reference.
 *
 * Lines that begin with '#' stand before the head line, which names the columns; then one row a line, cells separated
 * by one tab. Whatever is wrong stops the program: a sentence with file and line on standard error, exit status 1. What is
 * read lives until the program ends.
 */
#ifndef GENERATE_TSV_H
#define GENERATE_TSV_H

#include <stdbool.h>
#include <stddef.h>

struct tsv;

struct tsv_row {
    const struct tsv *table;
    int line;
    const char **cell;
};

struct tsv {
    const char *path;
    const char *const *column;
    size_t columns;
    const struct tsv_row *row;
    size_t rows;
};

/* Reads folder/name, whose head line must name exactly these columns in this order; `column` must outlive the table. */
const struct tsv *tsv_read(const char *folder, const char *name, const char *const column[], size_t columns);

/* Stops with "path:line: sentence"; printf form. */
_Noreturn void tsv_stop(const struct tsv_row *row, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* The cell as it stands; tsv_filled stops where it is empty. */
const char *tsv_cell(const struct tsv_row *row, const char *column);
const char *tsv_filled(const struct tsv_row *row, const char *column);
bool tsv_empty(const struct tsv_row *row, const char *column);

/* The value of a plain decimal ("-0.5", "12"; no plus sign, exponent or leading zeros) within [lo, hi]. */
double tsv_decimal(const struct tsv_row *row, const char *text, double lo, double hi);
double tsv_number(const struct tsv_row *row, const char *column, double lo, double hi);

/* Index of the cell in a list of n words. */
size_t tsv_choice(const struct tsv_row *row, const char *column, const char *const word[], size_t n);

/* True for "yes", false for "no". */
bool tsv_yes(const struct tsv_row *row, const char *column);

/* The row with that text in a column, NULL if there is none. */
const struct tsv_row *tsv_find(const struct tsv *table, const char *column, const char *text);

/* Index of the row of `table` whose key column is `key`; stops at `row`, which refers to it, if there is none. */
size_t tsv_refer(const struct tsv_row *row, const struct tsv *table, const char *key);

/* Stops if two rows have the same text in that column, or one has none. */
void tsv_unique(const struct tsv *table, const char *column);

#endif
