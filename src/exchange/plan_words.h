/* plan_words.h - what JSON and sheet both say of a plan. */
#ifndef EXCHANGE_PLAN_WORDS_H
#define EXCHANGE_PLAN_WORDS_H

#include <stdbool.h>
#include <stddef.h>

#include "lyeway/document.h"

enum { PLAN_WORDS_BYTES = 192 };

/* Where the binding limit of the fragrance blend comes from, with how far that can be trusted. */
void plan_limit_source(const struct plan_document *document, char out[PLAN_WORDS_BYTES]);

/* The recipe asks not to be told: only remarks can be hushed. */
bool plan_hushed(const struct plan_document *document, const struct finding *finding);

/* What portion i of the plan is of. */
struct part_ref plan_portion_ref(const struct plan *plan, int i);

#endif
