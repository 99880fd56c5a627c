/* cell_parts.h - the cells that read in a way of their own, by the part of the recipe; and what they share. For cell*.c only. */
#ifndef WORK_CELL_PARTS_H
#define WORK_CELL_PARTS_H

#include "lyeway/status.h"
#include "work/cell.h"

enum { CELL_TEXT_BYTES = 128 };
#define CELL_MASS_MOST_G 1e6

/* Writes a number with at most six decimals and a sign behind it. */
void cell_write_number(char *out, size_t size, double number, const char *sign);

/* `text` ends in `sign` (any ASCII case, blanks after it): true, and what stands before it is in head. */
bool cell_sign(const char *text, const char *sign, char *head, size_t size);

/* A number from lo to hi; a percentage from lo to hi as a share, with or without the sign; a mass above 0, or from 0. */
enum lw_status cell_number(enum cell_kind kind, const char *text, double lo, double hi, double *number,
                           struct lw_error *error);
enum lw_status cell_percent(enum cell_kind kind, const char *text, double lo, double hi, double *share,
                            struct lw_error *error);
enum lw_status cell_mass(const struct cell_context *context, enum cell_kind kind, const char *text, bool zero,
                         double *g, struct lw_error *error);

/* Any text that fits a name, also none. */
enum lw_status cell_words(enum cell_kind kind, const char *text, char to[LW_NAME_BYTES], struct lw_error *error);

void cell_oil_text(const struct cell_context *context, struct cell cell, char *out, size_t size);
enum lw_status cell_oil_read(const struct cell_context *context, struct cell cell, const char *text,
                             struct change changes[], int *n, struct lw_error *error);

void cell_portion_text(const struct cell_context *context, struct cell cell, char *out, size_t size);
enum lw_status cell_portion_read(const struct cell_context *context, struct cell cell, const char *text,
                                 struct change *change, struct lw_error *error);

void cell_head_text(const struct cell_context *context, struct cell cell, char *out, size_t size);
enum lw_status cell_head_read(const struct cell_context *context, struct cell cell, const char *text,
                              struct change *change, struct lw_error *error);

#endif
