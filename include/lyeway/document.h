/* document.h - a plan with all that it takes to write it down for people or programs. Everything is borrowed. */
#ifndef LYEWAY_DOCUMENT_H
#define LYEWAY_DOCUMENT_H

#include "lyeway/plan.h"

enum { WORDS_WHAT_BYTES = 320, WORDS_DO_BYTES = 320 };

/* A finding in words: what it is and why with its numbers, and what to do about it. Whole sentences. */
struct words {
    char what[WORDS_WHAT_BYTES];
    char todo[WORDS_DO_BYTES];
};

enum mass_unit { MASS_G, MASS_OZ, MASS_LB }; /* MASS_LB: pounds and ounces */

struct plan_document {
    const struct plan_input *input; /* recipe, facts, reference, bench */
    const struct plan *plan;
    const struct words *words;      /* plan->findings of them, in the same order */
    enum mass_unit unit;
    const char *margin_word;        /* one large word for the margin: LYE-HEAVY, TIGHT or WIDE (work/words.h) */
};

/* The key of the fact that a part of the recipe stands for, else its name in the recipe; "batter", "NaOH", "KOH",
 * "water", "size" for the parts without a name. Used for `oil`, `about`, `mostly_from` and wherever a file or sheet
 * names a part. */
const char *document_key(const struct plan_input *input, struct part_ref part);

/* The same for people: the fact's name instead of its key. An implied portion (an index that the recipe does not have)
 * is "leftover", or "batter" where the recipe has no portions. */
const char *document_name(const struct plan_input *input, struct part_ref part);

#endif
