/* words_learned.h - how many of the maker's own batches speak for what a plan says of a portion. */
#ifndef WORK_WORDS_LEARNED_H
#define WORK_WORDS_LEARNED_H

#include <stddef.h>

#include "lyeway/plan.h"

/* "2.77 g each by 6 of your batches, rejects by 7; workable 52 to 93 min by 34", or what stands in their place: "workable 75 to 126 min,
 * common practice: no batch of yours speaks". The mass is in grams: pieces are small. */
void words_of_learned(const struct plan *plan, int portion, char *out, size_t size);

#endif
