/* find.h - when two names of a fact are the same. The generator uses it to refuse names that are ambiguous. */
#ifndef FACTS_FIND_H
#define FACTS_FIND_H

#include <stdbool.h>

/* Equal without regard to the case of ASCII letters; a space and an underscore are as good as a hyphen. */
bool fact_same_name(const char *a, const char *b);

#endif
