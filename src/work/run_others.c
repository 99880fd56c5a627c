/* run_others.c - batches side by side: a number may be the right one for the other. */
#include <string.h>

#include "base/text.h"
#include "store/batches.h"
#include "work/run_inside.h"

struct search {
    const struct run *run;
    int64_t id[OTHERS_MOST];
    int count;
};

static bool take_id(void *context, const struct batch_line *line)
{
    struct search *search = context;

    if (line->id != search->run->id)
        search->id[search->count++] = line->id;
    return search->count < OTHERS_MOST;
}

static int64_t target_in(const struct run *other, const char *key)
{
    for (int i = 0; i < other->steps; i++)
        if (other->step[i].kind == STEP_WEIGH && strcmp(document_key(run_input(other), other->step[i].what), key) == 0)
            return other->step[i].target_ug;
    return 0;
}

int run_other_targets(const struct run *run, struct part_ref what, struct other_target others[OTHERS_MOST])
{
    struct search search = {.run = run};
    const char *key = document_key(run_input(run), what);
    int n = 0;

    if (batches_each(run->store, BATCHES_RUNNING, take_id, &search, NULL) != LW_OK)
        return 0;
    for (int i = 0; i < search.count; i++) {
        struct run *other;

        if (run_open(run->workshop, search.id[i], &other, NULL) != LW_OK)
            continue;
        others[n].target_ug = target_in(other, key);
        text_copy(others[n].name, sizeof others[n].name, other->batch.head.name);
        n += others[n].target_ug > 0;
        run_free(other);
    }
    return n;
}
