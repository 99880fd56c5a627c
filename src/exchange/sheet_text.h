/* sheet_text.h - plain text of 80 columns: headings, cells, wrapped paragraphs, figures that align on the decimal. */
#ifndef EXCHANGE_SHEET_TEXT_H
#define EXCHANGE_SHEET_TEXT_H

#include <stddef.h>
#include <stdint.h>

#include "base/buffer.h"
#include "base/number.h"
#include "lyeway/document.h"

enum { SHEET_COLUMNS = 80, SHEET_MASS_COLUMNS = 10 };

/* An empty line, then the title in capitals and a rule to the right margin. */
void sheet_heading(struct buffer *out, const char *title);

/* The text made harmless and cut with an ellipsis in the middle, then spaces up to `columns`. */
void sheet_cell(struct buffer *out, const char *text, size_t columns);

/* The same without the spaces, for the last cell of a line. */
void sheet_cut(struct buffer *out, const char *text, size_t columns);

/* The character that often. */
void sheet_repeat(struct buffer *out, char c, int times);

/* A paragraph: `first` before its first line, as many spaces before the others; words that are too long are cut. An
 * empty line where there is no word. */
void sheet_paragraph(struct buffer *out, const char *first, const char *text);

/* SHEET_MASS_COLUMNS wide, the point always in the same column, as the scale shows it: "   147.24 ". */
void sheet_mass(struct buffer *out, int64_t ug, int64_t division_ug);

/* The same mass in the maker's unit, "" for grams. */
void sheet_unit(char *out, size_t size, int64_t ug, enum mass_unit unit);

/* "33.0" of 0.33: percents without their sign. */
void sheet_percent(char out[NUMBER_BYTES], double share, int decimals);

#endif
