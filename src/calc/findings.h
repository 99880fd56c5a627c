/* findings.h - remarks that the maker does not want to hear again about a recipe. */
#ifndef CALC_FINDINGS_H
#define CALC_FINDINGS_H

#include "lyeway/plan.h"

/* Takes the remarks out that recipe->hushed names. Stops and cautions always stay. */
void findings_hush(const struct plan_input *in, struct plan *plan);

#endif
