/* filled_plan.h - the plan of data/sample-base.json filled in by hand, with the figures that the description of the
 * exchange format gives for it (data/sample-plan.json), so that writing is tested apart from reckoning.
 */
#ifndef TESTS_EXCHANGE_FILLED_PLAN_H
#define TESTS_EXCHANGE_FILLED_PLAN_H

#include "lyeway/document.h"

struct filled {
    struct recipe recipe;
    struct recipe_facts facts;
    struct bench bench;
    struct plan plan;
    struct words words[PLAN_FINDINGS];
    struct plan_input input;
    struct plan_document document; /* borrows from the others */
};

/* To be freed with free(). */
struct filled *filled_sample(void);

#endif
