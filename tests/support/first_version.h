/* first_version.h - a store as the first version of the program left it. */
#ifndef SUPPORT_FIRST_VERSION_H
#define SUPPORT_FIRST_VERSION_H

#include "support/scratch.h"

/* Makes one at scratch->path with the tables of schema/001.sql alone: *recipe kept as revision 1, an ingredient "Own" of 185 mg KOH
 * per g, and settings with Fahrenheit, one scale "pocket" and one vessel "jug B". Returns the recipe's id. */
int64_t first_version_make(struct scratch *scratch, const struct recipe *recipe);

#endif
