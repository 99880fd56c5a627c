/* field.c - the line field. */
#include "ui/kit/field.h"

#include <string.h>

#include "base/text.h"

void field_start(struct field *field, const char *text, size_t limit)
{
    field->limit = limit < FIELD_BYTES - 1 ? limit : FIELD_BYTES - 1;
    text_copy(field->text, field->limit + 1, text);
    field->cursor = strlen(field->text);
}

enum field_result field_key(struct field *field, const struct key *key)
{
    struct typing typing = {.text = field->text, .cursor = field->cursor, .limit = field->limit};
    enum field_result result = typing_key(&typing, key);

    field->cursor = typing.cursor;
    return result;
}

void field_paint(const struct field *field, const struct canvas *canvas, int row, int col, int width)
{
    int inside = width - 2;
    struct canvas part = canvas_part(canvas, row, col + 1, 1, inside);
    size_t from = 0;

    if (inside < 1)
        return;
    while (typing_columns(field->text, from, field->cursor) >= inside)
        from = typing_next(field->text, from);
    canvas_text(canvas, row, col, STYLE_PLAIN, "[");
    canvas_fill(&part, 0, 0, inside, STYLE_PLAIN, " ");
    canvas_text(&part, 0, 0, STYLE_PLAIN, field->text + from);
    canvas_text(canvas, row, col + width - 1, STYLE_PLAIN, "]");
    canvas_cursor(&part, 0, typing_columns(field->text, from, field->cursor));
}
