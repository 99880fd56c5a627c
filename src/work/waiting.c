/* waiting.c - plans the recipes changed last and keeps what speaks against them. */
#include "work/waiting.h"

#include "base/text.h"
#include "work/version.h"

struct latest {
    struct recipe_line line[WAITING_LOOKED_AT];
    int n;
};

static bool take_line(void *context, const struct recipe_line *line)
{
    struct latest *latest = context;

    latest->line[latest->n++] = *line;
    return latest->n < WAITING_LOOKED_AT;
}

/* Findings stand worst first. False where there is nothing above a remark. */
static bool worst_of(const struct plan_document *document, struct waiting *waiting)
{
    enum finding_level worst = LEVEL_REMARK;
    int count[3] = {0};

    if (!plan_worst(document->plan, &worst, count) || worst == LEVEL_REMARK)
        return false;
    waiting->level = worst;
    waiting->others = count[LEVEL_STOP] + count[LEVEL_CAUTION] - 1;
    text_copy(waiting->what, sizeof waiting->what, document->words[0].what);
    return true;
}

static bool look(struct workshop *workshop, const struct recipe_line *line, struct waiting *waiting)
{
    struct version *version = NULL;
    bool found;

    if (version_open(workshop_store(workshop), line->id, 0, workshop_shelf(workshop), workshop_settings(workshop),
                     workshop_lessons(workshop), &version, NULL) != LW_OK)
        return false;
    waiting->recipe_id = line->id;
    text_copy(waiting->name, sizeof waiting->name, line->name);
    found = worst_of(version_document(version), waiting);
    version_free(version);
    return found;
}

enum lw_status waiting_findings(struct workshop *workshop, struct waiting waiting[], int most, int *n,
                                struct lw_error *error)
{
    struct latest latest = {.n = 0};
    enum lw_status status = recipes_each(workshop_store(workshop), "", false, RECIPES_NEWEST, take_line, &latest,
                                         error);

    *n = 0;
    for (int i = 0; status == LW_OK && i < latest.n && *n < most; i++)
        *n += look(workshop, &latest.line[i], &waiting[*n]);
    return status;
}
