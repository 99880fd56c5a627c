/* compare.h - what differs between two versions of a recipe, in words. Elements are matched by their ids. */
#ifndef WORK_COMPARE_H
#define WORK_COMPARE_H

#include "lyeway/plan.h"

struct difference {
    char what[128];             /* "share of Olive oil" */
    char before[64], after[64]; /* "" where it was not there, or is not any more */
};

/* Fills at most `most` differences: single values, then lists in the order of the recipe, then what they make of the superfat;
 * returns how many there are in all. All that a maker can enter is compared, but the remarks that are hushed. The plans are those
 * of the recipes. */
int compare_recipes(const struct plan_input *before, const struct plan *plan_before, const struct plan_input *after,
                    const struct plan *plan_after, struct difference out[], int most);

#endif
