/* waiting.h - findings that wait: of the recipes changed last, those that have a stop or a caution. */
#ifndef WORK_WAITING_H
#define WORK_WAITING_H

#include "lyeway/document.h"
#include "work/workshop.h"

/* The worst finding of a recipe's draft. */
struct waiting {
    int64_t recipe_id;
    char name[LW_NAME_BYTES];
    enum finding_level level;
    int others; /* stops and cautions besides */
    char what[WORDS_WHAT_BYTES];
};

enum { WAITING_LOOKED_AT = 8 };

/* Looks through the WAITING_LOOKED_AT recipes changed last that are not archived, the latest first; *n is how many were found, at most
 * `most`. A recipe that cannot be planned is passed over. */
enum lw_status waiting_findings(struct workshop *workshop, struct waiting waiting[], int most, int *n,
                                struct lw_error *error);

#endif
