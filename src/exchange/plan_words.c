#include "exchange/plan_words.h"

#include <stdint.h>

#include "base/text.h"
#include "lyeway/names.h"

static void certificate_source(const struct plan_document *document, char out[PLAN_WORDS_BYTES])
{
    const struct recipe_fragrance *fragrance = &document->input->recipe->fragrance[document->plan->limit.fragrance];

    text_add(out, PLAN_WORDS_BYTES, "certificate%s%s", fragrance->limit_from[0] == '\0' ? "" : ": ",
             fragrance->limit_from);
}

static void constituent_source(const struct plan_document *document, const char *rule, char out[PLAN_WORDS_BYTES])
{
    const struct plan_limit *limit = &document->plan->limit;

    text_add(out, PLAN_WORDS_BYTES, "%s for %s (%s)", rule, document->input->reference->limit[limit->constituent].name,
             name_of_standing(limit->standing));
}

void plan_limit_source(const struct plan_document *document, char out[PLAN_WORDS_BYTES])
{
    const struct plan_limit *limit = &document->plan->limit;

    out[0] = '\0';
    switch (limit->from) {
    case LIMIT_CERTIFICATE:
        certificate_source(document, out);
        break;
    case LIMIT_IFRA:
        constituent_source(document, "IFRA category 9", out);
        break;
    case LIMIT_EU:
        constituent_source(document, "Regulation (EC) 1223/2009 Annex III", out);
        break;
    case LIMIT_NOT_BINDING:
        text_copy(out, PLAN_WORDS_BYTES, "none of the figures known here binds");
        break;
    case LIMIT_NONE_KNOWN:
        text_copy(out, PLAN_WORDS_BYTES, "no figure is known here");
        break;
    }
    if (limit->unknown)
        text_add(out, PLAN_WORDS_BYTES, "; some constituents have no figure here");
}

bool plan_hushed(const struct plan_document *document, const struct finding *finding)
{
    return finding->level == LEVEL_REMARK && (document->input->recipe->hushed >> finding->code & 1U) != 0;
}

struct part_ref plan_portion_ref(const struct plan *plan, int i)
{
    return (struct part_ref){PART_PORTION, (int16_t)plan->portion[i].source, 0};
}
