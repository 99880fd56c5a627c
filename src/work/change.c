/* change.c - lists of a recipe seen alike, so that one function applies every change. */
#include "work/change.h"

#include <stddef.h>
#include <string.h>

#include "base/error.h"

struct list_row {
    size_t count, first, size; /* offsets in struct recipe; bytes of an element */
    int most;
    const char *name;
};

/* By enum change_part; head and note are not lists. */
static const struct list_row lists[CHANGE_PARTS] = {
    [CHANGE_HEAD] = {.size = sizeof(struct recipe_head)},
    [CHANGE_NOTE] = {.size = LW_NOTE_BYTES},
    [CHANGE_OIL] = {offsetof(struct recipe, oils), offsetof(struct recipe, oil), sizeof(struct recipe_oil), RECIPE_OILS,
                    "oils"},
    [CHANGE_LIQUID] = {offsetof(struct recipe, water.liquids), offsetof(struct recipe, water.liquid),
                       sizeof(struct recipe_liquid), RECIPE_LIQUIDS, "liquids"},
    [CHANGE_ADDITIVE] = {offsetof(struct recipe, additives), offsetof(struct recipe, additive),
                         sizeof(struct recipe_additive), RECIPE_ADDITIVES, "additives"},
    [CHANGE_FRAGRANCE] = {offsetof(struct recipe, fragrances), offsetof(struct recipe, fragrance),
                          sizeof(struct recipe_fragrance), RECIPE_FRAGRANCES, "fragrances"},
    [CHANGE_PORTION] = {offsetof(struct recipe, portions), offsetof(struct recipe, portion),
                        sizeof(struct recipe_portion), RECIPE_PORTIONS, "portions"},
    [CHANGE_SCALE] = {offsetof(struct recipe, scales), offsetof(struct recipe, scale), sizeof(struct scale),
                      RECIPE_SCALES, "scales"},
};

static bool is_list(enum change_part part)
{
    return part != CHANGE_HEAD && part != CHANGE_NOTE;
}

size_t change_size(enum change_part part)
{
    return lists[part].size;
}

static int *count_of(struct recipe *recipe, enum change_part part)
{
    return (int *)(void *)((char *)recipe + lists[part].count);
}

int change_count(const struct recipe *recipe, enum change_part part)
{
    int count;

    if (!is_list(part))
        return 1;
    memcpy(&count, (const char *)recipe + lists[part].count, sizeof count);
    return count;
}

static char *element(struct recipe *recipe, enum change_part part, int index)
{
    return (char *)recipe + lists[part].first + (size_t)index * lists[part].size;
}

void change_read(const struct recipe *recipe, enum change_part part, int index, union change_element *out)
{
    memset(out, 0, sizeof *out);
    if (part == CHANGE_HEAD)
        recipe_head_read(recipe, &out->head);
    else if (part == CHANGE_NOTE)
        memcpy(out->note, recipe->note, sizeof out->note);
    else
        memcpy(out, (const char *)recipe + lists[part].first + (size_t)index * lists[part].size, lists[part].size);
}

void change_begin(const struct recipe *recipe, enum change_part part, int index, struct change *change)
{
    change->part = part;
    change->kind = CHANGE_REPLACE;
    change->index = index;
    change_read(recipe, part, index, &change->before);
    change->after = change->before;
}

static void replace(struct recipe *recipe, enum change_part part, int index, const union change_element *with)
{
    if (part == CHANGE_HEAD)
        recipe_head_write(recipe, &with->head);
    else if (part == CHANGE_NOTE)
        memcpy(recipe->note, with->note, sizeof recipe->note);
    else
        memcpy(element(recipe, part, index), with, lists[part].size);
}

static enum lw_status insert(struct recipe *recipe, enum change_part part, int index, const union change_element *what,
                             struct lw_error *error)
{
    int *count = count_of(recipe, part);

    if (*count >= lists[part].most)
        return lw_fail(error, LW_FULL, "A recipe has at most %d %s; take one out first.", lists[part].most,
                       lists[part].name);
    if (index < 0 || index > *count)
        return lw_fail(error, LW_INVALID, "There is no place %d among the %d %s.", index + 1, *count, lists[part].name);
    memmove(element(recipe, part, index + 1), element(recipe, part, index),
            (size_t)(*count - index) * lists[part].size);
    memcpy(element(recipe, part, index), what, lists[part].size);
    (*count)++;
    return LW_OK;
}

static void take_out(struct recipe *recipe, enum change_part part, int index)
{
    int *count = count_of(recipe, part);

    memmove(element(recipe, part, index), element(recipe, part, index + 1),
            (size_t)(*count - index - 1) * lists[part].size);
    (*count)--;
    memset(element(recipe, part, *count), 0, lists[part].size);
}

enum lw_status change_apply(struct recipe *recipe, const struct change *change, bool forward, struct lw_error *error)
{
    enum change_kind kind = change->kind;

    if (!forward && kind != CHANGE_REPLACE)
        kind = kind == CHANGE_INSERT ? CHANGE_REMOVE : CHANGE_INSERT;
    if (kind != CHANGE_REPLACE && !is_list(change->part))
        return lw_fail(error, LW_INVALID, "That part of a recipe can only be replaced.");
    if (kind == CHANGE_INSERT)
        return insert(recipe, change->part, change->index, forward ? &change->after : &change->before, error);
    if (change->index < 0 || change->index >= change_count(recipe, change->part))
        return lw_fail(error, LW_INVALID, "There is nothing at place %d to change.", change->index + 1);
    if (kind == CHANGE_REMOVE)
        take_out(recipe, change->part, change->index);
    else
        replace(recipe, change->part, change->index, forward ? &change->after : &change->before);
    return LW_OK;
}

static bool has_id(const struct recipe *recipe, enum change_part part, uint32_t id)
{
    for (int i = 0; i < change_count(recipe, part); i++) {
        union change_element one;

        change_read(recipe, part, i, &one);
        if (one.oil.id == id) /* every element of a list with ids begins with its id */
            return true;
    }
    return false;
}

uint32_t change_free_id(const struct recipe *recipe, enum change_part part)
{
    uint32_t id = 1;

    /* Above all others, so that an id is not soon used again, as far as that goes. */
    for (int i = 0; i < change_count(recipe, part); i++) {
        union change_element one;

        change_read(recipe, part, i, &one);
        if (one.oil.id >= id && one.oil.id < UINT32_MAX)
            id = one.oil.id + 1;
    }
    while (has_id(recipe, part, id))
        id = id < UINT32_MAX ? id + 1 : 1;
    return id;
}
