/* page.c - lines and pieces, and the order of the regions. */
#include "ui/screens/recipe/page.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/utf8.h"

struct line *page_line(struct page *page, enum region region)
{
    int at = page->lines[region] < LINES_A_REGION ? page->lines[region]++ : LINES_A_REGION - 1;
    struct line *line = &page->line[region][at];

    *line = (struct line){.sub = -1};
    return line;
}

struct piece *page_piece(struct line *line, int col, int width, const char *format, ...)
{
    int at = line->pieces < PIECES_A_LINE ? line->pieces++ : PIECES_A_LINE - 1;
    struct piece *piece = &line->piece[at];
    va_list list;

    *piece = (struct piece){.col = col, .width = width};
    va_start(list, format);
    vsnprintf(piece->text, sizeof piece->text, format, list);
    va_end(list);
    return piece;
}

struct piece *page_name(struct page *page, struct line *line, int col, int width, struct part_ref part)
{
    const char *name = document_name(page->document->input, part), *bracket = strstr(name, " (");
    bool fits = !bracket || utf8_columns(name) <= (size_t)width;

    return page_piece(line, col, width, "%.*s", fits ? (int)strlen(name) : (int)(bracket - name), name);
}

void page_edit(struct piece *piece, enum cell_kind kind, int index, int sub)
{
    piece->act = ACT_EDIT;
    piece->cell = (struct cell){kind, index, sub};
}

void page_pick(struct piece *piece, enum piece_act act, enum change_part part, int index, int sub)
{
    piece->act = act;
    piece->part = part;
    piece->colourant = part == CHANGE_PORTION && sub >= 0; /* sub -1: a portion of its own */
    piece->cell = (struct cell){CELL_NONE, index, sub};
}

void page_build(struct page *page, const struct plan_document *document, const struct settings *settings,
                const int width[REGIONS], bool tall)
{
    memset(page->lines, 0, sizeof page->lines);
    page->document = document;
    page->settings = settings;
    page->tall = tall;
    page_oils(page, width[REGION_OILS]);
    page_lye(page, width[REGION_LYE]);
    page_portions(page, width[REGION_PORTIONS]);
}
