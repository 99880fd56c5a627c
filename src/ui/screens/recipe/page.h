/* page.h - the recipe screen as lines of pieces: what is shown, where, and which of it can be changed.
 *
 * Built anew from the plan at every frame; nothing is kept between frames but where the cursor is.
 */
#ifndef SCREENS_RECIPE_PAGE_H
#define SCREENS_RECIPE_PAGE_H

#include "lyeway/document.h"
#include "lyeway/settings.h"
#include "work/cell.h"

enum region { REGION_OILS, REGION_LYE, REGION_PORTIONS, REGIONS };

/* What Enter does on a piece. */
enum piece_act {
    ACT_NONE,  /* only shown */
    ACT_EDIT,  /* opens its cell in place */
    ACT_PICK,  /* names something: opens the picker for another */
    ACT_ADD,   /* adds one to its list, by the picker where it has names */
    ACT_CYCLE, /* goes to the next of a few values */
    ACT_NOTE   /* opens the note */
};

enum cycle { CYCLE_PURPOSE, CYCLE_SCENTED, CYCLE_TECHNIQUE, CYCLE_PIECE_CLASS };

enum { PIECES_A_LINE = 9, PIECE_BYTES = 104, LINES_A_REGION = 96 };

struct piece {
    enum piece_act act;
    struct cell cell;      /* ACT_EDIT */
    enum change_part part; /* ACT_PICK, ACT_ADD: of which list; CHANGE_PORTION with cell.sub: its colourants */
    bool colourant;        /* the list is the portion's colourants */
    enum cycle cycle;
    int col, width;
    bool right; /* against the right edge of its width */
    uint16_t style;
    char text[PIECE_BYTES];
};

enum line_kind { LINE_TEXT, LINE_BAND };

struct line {
    enum line_kind kind;
    enum change_part part; /* what Del takes out: this element of this list */
    int index, sub;        /* sub: colourant of a portion, -1: the portion itself */
    bool removable;
    int pieces;
    struct piece piece[PIECES_A_LINE];
};

struct page {
    const struct plan_document *document;
    const struct settings *settings;
    bool tall; /* rows enough for what can also be said elsewhere: looks in words, all rows of a note */
    int lines[REGIONS];
    struct line line[REGIONS][LINES_A_REGION];
};

/* Widths of the regions in columns. */
void page_build(struct page *page, const struct plan_document *document, const struct settings *settings,
                const int width[REGIONS], bool tall);

/* For page_*.c: an empty line at the end of a region (the last one again where there is no room), and a piece on it. */
struct line *page_line(struct page *page, enum region region);
struct piece *page_piece(struct line *line, int col, int width, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* For page_*.c: a piece with the name of a part of the recipe; what stands in brackets behind it goes first where there is no
 * room, as in "Olive oil (virgin or refined)". */
struct piece *page_name(struct page *page, struct line *line, int col, int width, struct part_ref part);

/* For page_*.c: what Enter does on a piece. */
void page_edit(struct piece *piece, enum cell_kind kind, int index, int sub);
void page_pick(struct piece *piece, enum piece_act act, enum change_part part, int index, int sub);

void page_oils(struct page *page, int width);
void page_lye(struct page *page, int width);
void page_portions(struct page *page, int width);
void page_note(struct page *page); /* in the region of the portions */

#endif
