/* words_learned.c - whose word a plan goes by. */
#include "work/words_learned.h"

#include "base/text.h"
#include "work/words_speech.h"

static void say_pieces(const struct plan_pieces *pieces, char *out, size_t size)
{
    if (pieces->mass_batches > 0)
        text_add(out, size, "%s g each by %d of your batches", speech_number(pieces->mass_g, 2).text,
                 pieces->mass_batches);
    if (pieces->reject_batches > 0)
        text_add(out, size, "%srejects by %d%s", out[0] ? ", " : "", pieces->reject_batches,
                 out[0]                        ? ""
                 : pieces->reject_batches == 1 ? " batch of yours"
                                               : " of your batches");
    if (out[0])
        text_add(out, size, "; ");
}

void words_of_learned(const struct plan *plan, int portion, char *out, size_t size)
{
    const struct plan_portion *planned = &plan->portion[portion];
    const struct plan_pace *pace = &planned->pace;

    out[0] = '\0';
    if (planned->has_pieces)
        say_pieces(&planned->pieces, out, size);
    text_add(out, size, "workable %s to %s min", speech_number(pace->from.median, 0).text,
             speech_number(pace->until.median, 0).text);
    if (pace->batches > 0)
        text_add(out, size, " by %d of your batches", pace->batches);
    else
        text_add(out, size, ", common practice: no batch of yours speaks");
}
