/* cell.h - the numbers and names of a recipe that a maker edits in place: as text, and back from text to changes.
 *
 * A cell is named by what it is, not by where a screen shows it. Text may have units and arithmetic (quantity.h), and a sign
 * that says how it is meant where there are several ways: "25 %", "150 g", "10 mm", "rest", "2 to 1", "5 g/kg".
 */
#ifndef WORK_CELL_H
#define WORK_CELL_H

#include "lyeway/document.h"
#include "lyeway/settings.h"
#include "work/change.h"

enum cell_kind {
    CELL_NONE,
    CELL_NAME, /* of the recipe */
    CELL_SUPERFAT,
    CELL_WATER,
    CELL_WATER_TEMP,
    CELL_POTASSIUM,
    CELL_PURITY_NAOH,
    CELL_PURITY_KOH,
    CELL_SOLUTION_NAOH,
    CELL_SOLUTION_KOH,
    CELL_RESIDUE,
    CELL_OIL_SHARE,
    CELL_OIL_GRAMS,
    CELL_OIL_SAP,
    CELL_ADDITIVE_DOSE,
    CELL_LIQUID_SHARE,
    CELL_FRAGRANCE_LOAD,
    CELL_FRAGRANCE_LIMIT,
    CELL_PORTION_NAME,
    CELL_PORTION_AMOUNT,
    CELL_PIECES_COUNT, /* 0 takes the pieces off */
    CELL_PIECES_MASS,
    CELL_PIECES_KIND,
    CELL_COLOUR_DOSE,
    CELL_KINDS
};

struct cell {
    enum cell_kind kind;
    int index, sub; /* element of its list; colourant of a portion */
};

/* What the other oils do when the share of one is changed. */
enum follow {
    FOLLOW_RATIO, /* they keep their ratio to one another */
    FOLLOW_GRAMS, /* they keep their grams: the size changes */
    FOLLOW_ONE,   /* one of them makes up the rest */
    FOLLOWS
};

struct cell_context {
    const struct recipe *recipe;
    const struct plan *plan; /* of that recipe */
    const struct settings *settings;
    enum follow follow;
    int makes_up; /* the oil that makes up the rest, FOLLOW_ONE */
};

/* The text that editing begins with. */
void cell_text(const struct cell_context *context, struct cell cell, char *out, size_t size);

/* What the cell is called, for messages and the bottom line: "share of the oils". */
const char *cell_name(enum cell_kind kind);

/* Reads a text into changes; at most EDITOR_CHANGES. LW_INVALID with a sentence: what was found, what was expected. */
enum lw_status cell_read(const struct cell_context *context, struct cell cell, const char *text,
                         struct change changes[], int *n, struct lw_error *error);

/* "others keep their ratio", "others keep their grams", "one oil makes up the rest". */
const char *follow_name(enum follow follow);

#endif
