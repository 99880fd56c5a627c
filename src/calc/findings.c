/* findings.c - the list of findings of a plan: worst level first, then in the order in which they were made. */
#include <string.h>

#include "calc/findings.h"

void plan_find(struct plan *plan, const struct finding *finding)
{
    int at = plan->findings;

    while (at > 0 && plan->finding[at - 1].level > finding->level)
        at--;
    if (at == PLAN_FINDINGS)
        return;
    if (plan->findings < PLAN_FINDINGS)
        plan->findings++;
    memmove(&plan->finding[at + 1], &plan->finding[at], (size_t)(plan->findings - 1 - at) * sizeof *finding);
    plan->finding[at] = *finding;
}

bool plan_worst(const struct plan *plan, enum finding_level *worst, int count[3])
{
    count[LEVEL_STOP] = count[LEVEL_CAUTION] = count[LEVEL_REMARK] = 0;
    for (int i = 0; i < plan->findings; i++)
        count[plan->finding[i].level]++;
    if (plan->findings == 0)
        return false;
    *worst = plan->finding[0].level;
    return true;
}

void findings_hush(const struct plan_input *in, struct plan *plan)
{
    int kept = 0;

    for (int i = 0; i < plan->findings; i++) {
        const struct finding *finding = &plan->finding[i];

        if (finding->level != LEVEL_REMARK || !(in->recipe->hushed & (1u << finding->code)))
            plan->finding[kept++] = *finding;
    }
    plan->findings = kept;
}
