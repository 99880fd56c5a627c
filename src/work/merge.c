/* merge.c - which members of a part belong together, and changes carried over by them. */
#include "work/merge.h"

#include <stddef.h>
#include <string.h>

/* Members that only make sense together, in one piece of their struct. */
struct span {
    enum change_part part;
    size_t at, bytes;
};

/* clang-format off */
#define FROM_TO(part, type, first, last) \
    {part, offsetof(type, first), offsetof(type, last) + sizeof((type *)NULL)->last - offsetof(type, first)}
#define ONE(part, type, member) FROM_TO(part, type, member, member)

static const struct span spans[] = {
    ONE(CHANGE_HEAD, struct recipe_head, name),
    ONE(CHANGE_HEAD, struct recipe_head, purpose),
    ONE(CHANGE_HEAD, struct recipe_head, oils_by),
    FROM_TO(CHANGE_HEAD, struct recipe_head, size.by, size.grams),
    FROM_TO(CHANGE_HEAD, struct recipe_head, size.mould, size.has_mould),
    ONE(CHANGE_HEAD, struct recipe_head, size.pieces),
    ONE(CHANGE_HEAD, struct recipe_head, superfat),
    ONE(CHANGE_HEAD, struct recipe_head, alkali.potassium_share),
    ONE(CHANGE_HEAD, struct recipe_head, alkali.purity[ALKALI_NAOH]),
    ONE(CHANGE_HEAD, struct recipe_head, alkali.purity[ALKALI_KOH]),
    ONE(CHANGE_HEAD, struct recipe_head, alkali.solution_share[ALKALI_NAOH]),
    ONE(CHANGE_HEAD, struct recipe_head, alkali.solution_share[ALKALI_KOH]),
    FROM_TO(CHANGE_HEAD, struct recipe_head, water_by, water_value),
    ONE(CHANGE_HEAD, struct recipe_head, water_temp_c),
    ONE(CHANGE_HEAD, struct recipe_head, scent),
    ONE(CHANGE_HEAD, struct recipe_head, colour),
    FROM_TO(CHANGE_HEAD, struct recipe_head, residue_by, residue),
    ONE(CHANGE_HEAD, struct recipe_head, hushed),
    {CHANGE_NOTE, 0, LW_NOTE_BYTES},
    ONE(CHANGE_OIL, struct recipe_oil, name),
    ONE(CHANGE_OIL, struct recipe_oil, amount),
    ONE(CHANGE_OIL, struct recipe_oil, sap),
    ONE(CHANGE_LIQUID, struct recipe_liquid, name),
    ONE(CHANGE_LIQUID, struct recipe_liquid, share_of_water),
    ONE(CHANGE_ADDITIVE, struct recipe_additive, name),
    FROM_TO(CHANGE_ADDITIVE, struct recipe_additive, by, value),
    ONE(CHANGE_FRAGRANCE, struct recipe_fragrance, name),
    FROM_TO(CHANGE_FRAGRANCE, struct recipe_fragrance, by, value),
    FROM_TO(CHANGE_FRAGRANCE, struct recipe_fragrance, has_limit, limit_from),
    ONE(CHANGE_PORTION, struct recipe_portion, name),
    FROM_TO(CHANGE_PORTION, struct recipe_portion, demand, pieces),
    ONE(CHANGE_PORTION, struct recipe_portion, scented),
    ONE(CHANGE_PORTION, struct recipe_portion, technique),
    FROM_TO(CHANGE_PORTION, struct recipe_portion, colourants, blend_value),
    {CHANGE_SCALE, 0, sizeof(struct scale)},
};
/* clang-format on */

/* Every element of a list begins with its id, but a scale, which is known by all that it is. */
static bool same_element(enum change_part part, const union change_element *a, const union change_element *b)
{
    return part == CHANGE_SCALE ? memcmp(&a->scale, &b->scale, sizeof a->scale) == 0 : a->oil.id == b->oil.id;
}

/* Where an element stands now; -1: nowhere. */
static int place_of(const struct recipe *recipe, enum change_part part, const union change_element *element)
{
    for (int i = 0; i < change_count(recipe, part); i++) {
        union change_element there;

        change_read(recipe, part, i, &there);
        if (part == CHANGE_HEAD || part == CHANGE_NOTE || same_element(part, &there, element))
            return i;
    }
    return -1;
}

static void carry_over(const struct change *change, struct change *fitted)
{
    const char *before = (const char *)&change->before, *after = (const char *)&change->after;
    char *to = (char *)&fitted->after;

    for (size_t i = 0; i < sizeof spans / sizeof *spans; i++)
        if (spans[i].part == change->part && memcmp(before + spans[i].at, after + spans[i].at, spans[i].bytes) != 0)
            memcpy(to + spans[i].at, after + spans[i].at, spans[i].bytes);
}

/* The change gives an element an id that it did not have. */
static bool gives_id(const struct change *change)
{
    if (change->part == CHANGE_HEAD || change->part == CHANGE_NOTE || change->part == CHANGE_SCALE)
        return false;
    return change->kind == CHANGE_INSERT ||
           (change->kind == CHANGE_REPLACE && change->before.oil.id != change->after.oil.id);
}

static bool fit(const struct recipe *recipe, const struct change *change, struct change *fitted)
{
    int count = change_count(recipe, change->part), place = change->index < count ? change->index : count;

    *fitted = *change;
    if (change->kind != CHANGE_INSERT) {
        place = place_of(recipe, change->part, &change->before);
        if (place < 0)
            return false;
        change_begin(recipe, change->part, place, fitted);
        fitted->kind = change->kind;
        carry_over(change, fitted);
    }
    fitted->index = place;
    if (gives_id(change))
        fitted->after.oil.id = place_of(recipe, change->part, &change->after) < 0
                                   ? change->after.oil.id
                                   : change_free_id(recipe, change->part);
    return true;
}

/* The element has another id in the recipe that the change is put on. */
static void rename_id(struct change *change, enum change_part part, uint32_t from, uint32_t to)
{
    if (change->part != part)
        return;
    if (change->kind != CHANGE_INSERT && change->before.oil.id == from)
        change->before.oil.id = to;
    if (change->kind != CHANGE_REMOVE && change->after.oil.id == from)
        change->after.oil.id = to;
}

int merge_changes(struct recipe *recipe, const struct change changes[], int n, struct change fitted[])
{
    int kept = 0;

    memmove(fitted, changes, (size_t)n * sizeof *fitted);
    for (int i = 0; i < n; i++) {
        struct change change = fitted[i], *to = &fitted[kept];
        bool put = fit(recipe, &change, to) && change_apply(recipe, to, true, NULL) == LW_OK;

        /* No element has the id 0: what is about one that found no room is left out with it. */
        if (gives_id(&change))
            for (int later = i + 1; later < n; later++)
                rename_id(&fitted[later], change.part, change.after.oil.id, put ? to->after.oil.id : 0);
        kept += put;
    }
    return kept;
}
