/* emit.h - writes cells of a table as members of a C initialiser on standard output.
 *
 * A number is written as the table has it, so that the compiler rounds it once; a percent gets the exponent e-2.
 */
#ifndef GENERATE_EMIT_H
#define GENERATE_EMIT_H

#include "tsv.h"

/* ".member = "text", "; the text may be empty. */
void emit_text(const struct tsv_row *row, const char *member, const char *column);

/* ".member = number, ", within [lo, hi]; emit_percent takes and bounds percents and writes a share. */
void emit_number(const struct tsv_row *row, const char *member, const char *column, double lo, double hi);
void emit_percent(const struct tsv_row *row, const char *member, const char *column, double lo, double hi);

/* The same where the cell may be empty, which leaves the member 0. */
void emit_number_or_none(const struct tsv_row *row, const char *member, const char *column, double lo, double hi);

/* "true" or "false". */
void emit_bool(const char *member, bool value);

/* ".member = STANDING_...", from the words seen, computed, practice, memory. */
void emit_standing(const struct tsv_row *row, const char *member, const char *column);

/* ".standing = ..., .source = "...", ", both of which must be there. */
void emit_origin(const struct tsv_row *row);

/* A C string literal. */
void emit_literal(const char *text);

/* The standing word as its enumerator's name. */
const char *emit_standing_name(const struct tsv_row *row, const char *column);

#endif
