#include "emit.h"

#include <stdio.h>

void emit_literal(const char *text)
{
    putchar('"');
    for (; *text; text++) {
        if (*text == '"' || *text == '\\')
            putchar('\\');
        putchar(*text);
    }
    putchar('"');
}

void emit_text(const struct tsv_row *row, const char *member, const char *column)
{
    printf(".%s = ", member);
    emit_literal(tsv_cell(row, column));
    fputs(", ", stdout);
}

void emit_number(const struct tsv_row *row, const char *member, const char *column, double lo, double hi)
{
    tsv_number(row, column, lo, hi);
    printf(".%s = %s, ", member, tsv_cell(row, column));
}

void emit_percent(const struct tsv_row *row, const char *member, const char *column, double lo, double hi)
{
    tsv_number(row, column, lo, hi);
    printf(".%s = %se-2, ", member, tsv_cell(row, column));
}

void emit_number_or_none(const struct tsv_row *row, const char *member, const char *column, double lo, double hi)
{
    if (!tsv_empty(row, column))
        emit_number(row, member, column, lo, hi);
}

void emit_bool(const char *member, bool value)
{
    printf(".%s = %s, ", member, value ? "true" : "false");
}

const char *emit_standing_name(const struct tsv_row *row, const char *column)
{
    static const char *const word[] = {"seen", "computed", "practice", "memory"};
    static const char *const name[] = {"STANDING_SEEN", "STANDING_COMPUTED", "STANDING_PRACTICE", "STANDING_MEMORY"};

    return name[tsv_choice(row, column, word, sizeof word / sizeof *word)];
}

void emit_standing(const struct tsv_row *row, const char *member, const char *column)
{
    printf(".%s = %s, ", member, emit_standing_name(row, column));
}

void emit_origin(const struct tsv_row *row)
{
    tsv_filled(row, "source");
    emit_standing(row, "standing", "standing");
    emit_text(row, "source", "source");
}
