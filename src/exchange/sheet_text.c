#include "exchange/sheet_text.h"

#include <stdio.h>
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "base/utf8.h"

enum {
    CELL_BYTES = 640,    /* 80 columns of wide characters with their combining marks */
    MASS_DECIMALS = 3,   /* room after the point, more push to the left */
    TENTHS_A_POUND = 160 /* of an ounce */
};

#define OUNCE_G 28.349523125 /* avoirdupois, exact: NIST Handbook 44, Appendix C */

void sheet_repeat(struct buffer *out, char c, int times)
{
    for (int i = 0; i < times; i++)
        buffer_add_bytes(out, &c, 1);
}

void sheet_heading(struct buffer *out, const char *title)
{
    buffer_add(out, "\n%s ", title);
    sheet_repeat(out, '-', SHEET_COLUMNS - 1 - (int)utf8_columns(title));
    buffer_add(out, "\n");
}

void sheet_cut(struct buffer *out, const char *text, size_t columns)
{
    char clean[CELL_BYTES];

    utf8_clean(clean, sizeof clean, text, columns);
    buffer_add(out, "%s", clean);
}

void sheet_cell(struct buffer *out, const char *text, size_t columns)
{
    char clean[CELL_BYTES];

    utf8_clean(clean, sizeof clean, text, columns);
    buffer_add(out, "%s", clean);
    sheet_repeat(out, ' ', (int)(columns - utf8_columns(clean)));
}

/* The next word of *text into `word`, cleaned and cut to `columns`; false at the end. A percent sign stays with its
 * number. */
static bool next_word(const char **text, char word[CELL_BYTES], size_t columns)
{
    char raw[CELL_BYTES];
    size_t length;

    *text += strspn(*text, " \n\t");
    length = strcspn(*text, " \n\t");
    if (length > 0 && strncmp(*text + length, " %", 2) == 0)
        length += 1 + strcspn(*text + length + 1, " \n\t");
    snprintf(raw, sizeof raw, "%.*s", (int)(length < sizeof raw ? length : sizeof raw - 1), *text);
    utf8_clean(word, CELL_BYTES, raw, columns);
    *text += length;
    return length > 0;
}

void sheet_paragraph(struct buffer *out, const char *first, const char *text)
{
    size_t indent = utf8_columns(first), at = indent;
    char word[CELL_BYTES];

    while (next_word(&text, word, SHEET_COLUMNS - indent)) {
        size_t columns = utf8_columns(word);
        buffer_add(out, "%s", first);
        first = "";
        if (at > indent && at + 1 + columns > SHEET_COLUMNS) {
            buffer_add(out, "\n%*s", (int)indent, "");
            at = indent;
        }
        if (at > indent) {
            buffer_add(out, " ");
            at++;
        }
        buffer_add(out, "%s", word);
        at += columns;
    }
    buffer_add(out, "\n");
}

void sheet_mass(struct buffer *out, int64_t ug, int64_t division_ug)
{
    char digits[NUMBER_BYTES];
    const char *point;
    int decimals, whole;

    number_write_mass(digits, ug, division_ug);
    point = strchr(digits, '.');
    decimals = point == NULL ? 0 : (int)strlen(point);
    whole = (int)strlen(digits) - decimals;
    sheet_repeat(out, ' ', SHEET_MASS_COLUMNS - 1 - MASS_DECIMALS - whole);
    buffer_add(out, "%s", digits);
    sheet_repeat(out, ' ', 1 + MASS_DECIMALS - decimals);
}

void sheet_unit(char *out, size_t size, int64_t ug, enum mass_unit unit)
{
    double ounces = mass_g(ug) / OUNCE_G;
    long long tenths = (long long)(ounces * 10 + 0.5);
    char digits[NUMBER_BYTES];

    out[0] = '\0';
    if (unit == MASS_G)
        return;
    if (unit == MASS_LB && tenths >= TENTHS_A_POUND) {
        number_write_short(digits, (double)(tenths % TENTHS_A_POUND) / 10, 1);
        text_add(out, size, "%lld lb %s oz", tenths / TENTHS_A_POUND, digits);
        return;
    }
    number_write(digits, ounces, ounces < 1 ? 3 : 2);
    text_add(out, size, "%s oz", digits);
}

void sheet_percent(char out[NUMBER_BYTES], double share, int decimals)
{
    number_write(out, 100 * share, decimals);
}
