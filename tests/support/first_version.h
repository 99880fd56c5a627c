/* first_version.h - stores as older versions of the program left them. */
#ifndef SUPPORT_FIRST_VERSION_H
#define SUPPORT_FIRST_VERSION_H

#include "support/scratch.h"

/* A new store at scratch->path with the tables of schema/001.sql to that version. To be closed by store_free. */
struct store *old_version_open(struct scratch *scratch, size_t version);

/* Makes one at scratch->path with the tables of schema/001.sql alone: *recipe kept as revision 1, an ingredient "Own" of 185 mg KOH
 * per g, and settings with Fahrenheit, one scale "pocket" and one vessel "jug B". Returns the recipe's id. */
int64_t first_version_make(struct scratch *scratch, const struct recipe *recipe);

#endif
