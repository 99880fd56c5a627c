/* state.h - what the recipe screen keeps between frames. For the files of this folder. */
#ifndef SCREENS_RECIPE_STATE_H
#define SCREENS_RECIPE_STATE_H

#include "ui/kit/ask.h"
#include "ui/kit/desk.h"
#include "ui/kit/field.h"
#include "ui/screens/recipe/page.h"
#include "ui/screens/show.h"
#include "ui/screens/top.h"
#include "work/editor.h"
#include "work/sizing.h"

struct recipe_screen;

/* The size dialog while it is open. */
enum { SIZE_LINE_BYTES = 2 * SHOW_BYTES };
struct sizing {
    struct recipe_screen *screen;
    enum size_way way;
    int oil; /* under the cursor, for WAY_ONE_OIL */
    struct choice choices[WAYS];
    char line[WAYS][SIZE_LINE_BYTES];
};

/* A line of a region and a piece of that line. */
struct spot {
    enum region region;
    int line, piece;
};

struct recipe_screen {
    struct top top;
    struct editor *editor;
    struct page page;
    int width[REGIONS], rows[REGIONS], scrolled[REGIONS]; /* as last painted */
    bool tall;                                            /* likewise */
    int portions_row;                                     /* of the body, where the portions begin */
    struct spot spot;
    bool editing;
    struct field field;
    bool bad; /* what stands in the field cannot be read */
    enum follow follow;
    int makes_up;
    struct sizing sizing;
    struct cell asked; /* the cell of the overlay that edit_ask opened */
};

/* Builds the page from what is to be shown and keeps the spot on something that can be chosen. */
void state_page(struct recipe_screen *screen);

/* The piece under the cursor; NULL where there is none. */
struct piece *state_piece(struct recipe_screen *screen);
struct line *state_line(struct recipe_screen *screen);

/* Puts the cursor on the number that belongs to an element, as far as the page shows it. */
void state_go(struct recipe_screen *screen, enum change_part part, int index, int sub);

/* Says how the portion under the cursor looks, if it is coloured and its line does not. */
void state_say_look(struct recipe_screen *screen);

struct cell_context state_context(const struct recipe_screen *screen);

/* Makes the changes and says what went wrong, if anything. */
bool state_apply(struct recipe_screen *screen, const struct change changes[], int n);

/* move.c: arrows, Tab, PgUp and PgDn, a click at a cell of the body. False if it is not such a key. */
bool move_key(struct recipe_screen *screen, const struct key *key);
bool move_to(struct recipe_screen *screen, int row, int col);

/* paint.c */
void paint_recipe(void *state, const struct canvas *body);

/* edit.c: in place. */
void edit_begin(struct recipe_screen *screen, const char *text);
bool edit_key(struct recipe_screen *screen, const struct key *key);

/* edit.c: in an overlay, for cells that have no place on the page. */
void edit_ask(struct recipe_screen *screen, struct cell cell);

/* choose.c: pickers that add and replace, and values that go round. */
void choose_for_piece(struct recipe_screen *screen, const struct piece *piece);
void choose_add(struct recipe_screen *screen, enum change_part part);
void choose_cycle(struct recipe_screen *screen, const struct piece *piece);

/* size.c */
void size_open(struct recipe_screen *screen);

/* note.c */
void note_open(struct recipe_screen *screen);

/* findings.c */
void findings_open(struct recipe_screen *screen);

/* revisions.c */
void revisions_open(struct recipe_screen *screen);

#endif
