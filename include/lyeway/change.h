/* change.h - the smallest step of editing a recipe, as a value that can be applied forward and back.
 *
 * Every edit is one or more changes in a group; undo takes a group back. The store writes just what a change names.
 */
#ifndef LYEWAY_CHANGE_H
#define LYEWAY_CHANGE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "lyeway/recipe.h"

/* Parts of a recipe that change as one: its head and note, or one element of a list. */
enum change_part {
    CHANGE_HEAD,
    CHANGE_NOTE,
    CHANGE_OIL,
    CHANGE_LIQUID,
    CHANGE_ADDITIVE,
    CHANGE_FRAGRANCE,
    CHANGE_PORTION, /* with its colourants */
    CHANGE_SCALE,
    CHANGE_PARTS
};

enum change_kind { CHANGE_INSERT, CHANGE_REMOVE, CHANGE_REPLACE }; /* head and note are only replaced */

/* The single values of a recipe: all of it but uuid, revision, note and lists. */
struct recipe_head {
    char name[LW_NAME_BYTES];
    enum purpose purpose;
    enum oils_by oils_by;
    struct recipe_size size;
    double superfat;
    struct recipe_alkali alkali;
    enum water_by water_by;
    double water_value, water_temp_c;
    enum put_in scent, colour;
    enum residue_by residue_by;
    double residue;
    uint32_t hushed;
};

/* Takes the head out of a recipe, and puts one in. */
void recipe_head_read(const struct recipe *recipe, struct recipe_head *head);
void recipe_head_write(struct recipe *recipe, const struct recipe_head *head);

union change_element {
    struct recipe_head head;
    char note[LW_NOTE_BYTES];
    struct recipe_oil oil;
    struct recipe_liquid liquid;
    struct recipe_additive additive;
    struct recipe_fragrance fragrance;
    struct recipe_portion portion;
    struct scale scale;
};

struct change {
    enum change_part part;
    enum change_kind kind;
    int index;                           /* in the list, before an insert or remove; 0 for head and note */
    union change_element before, after;  /* before: not for insert; after: not for remove */
};

#endif
