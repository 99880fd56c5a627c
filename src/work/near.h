/* near.h - the known names nearest to one that is not known, for the sentence that refuses it. */
#ifndef WORK_NEAR_H
#define WORK_NEAR_H

#include <stddef.h>

#include "lyeway/recipe.h"

enum { NEAR_NAMES = 3 };

/* Keeps the nearest of all that are offered, nearest first. A name that has the wanted one in it ("almond" in "Sweet almond
 * oil"), or stands in it, goes before those that differ by several letters. */
struct near {
    const char *wanted;
    int count;
    struct near_name {
        char key[LW_NAME_BYTES];
        size_t score, extra; /* how far off; letters that the name has beyond, to tell equals apart */
    } name[NEAR_NAMES];
};

void near_init(struct near *near, const char *wanted);

/* Offers a name that leads to `key`; the key is what is kept, once, by the nearest of its names. A void pointer, so that it
 * can stand as the visitor of facts_each_name. */
void near_offer(void *context, const char *name, const char *key);

/* "olive, olive-pomace and avocado"; "" where nothing was offered. */
void near_list(const struct near *near, char *out, size_t size);

#endif
