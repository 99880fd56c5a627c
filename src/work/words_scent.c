/* words_scent.c - what is said about fragrance and about colour that does not stay. */
#include <math.h>

#include "work/words_speech.h"

/* number[] of fragrance-limit */
enum { SHARE, LIMIT, GREATEST_LOAD };

/* Whose figure it is. A fragrance is limited by its certificate, a constituent by the stricter of two published figures. */
static const char *limit_source(const struct speech *speech)
{
    const struct finding *finding = speech->finding;
    const struct reference *reference = speech->input->reference;

    if (finding->other.part != PART_CONSTITUENT || (size_t)finding->other.index >= reference->limits)
        return "the supplier's certificate";

    const struct limit_fact *limit = &reference->limit[finding->other.index];
    double ifra_off = fabs(limit->ifra_share - finding->number[LIMIT]);
    double eu_off = fabs(limit->eu_share - finding->number[LIMIT]);

    return limit->has_ifra && (!limit->has_eu || ifra_off <= eu_off) ? "IFRA category 9" : "EU Annex III";
}

void words_fragrance_limit(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;
    struct piece_of_text name = speech_name(speech, speech->finding->other);
    struct piece_of_text load = speech_percent(n[GREATEST_LOAD]);

    speech_what(words, "%s would be %s of the scented soap; %s allows %s.", name.text, speech_percent(n[SHARE]).text,
                limit_source(speech), speech_percent(n[LIMIT]).text);
    if (n[LIMIT] <= 0)
        speech_todo(words, "Leave out the fragrance that brings it, or go by what the supplier's certificate says.");
    else if (speech->finding->level == LEVEL_STOP)
        speech_todo(words, "Use at most %s of the scented oils in all, or another fragrance.", load.text);
    else
        speech_todo(words,
                    "Confirm the figure on the supplier's certificate; by it, at most %s of the scented oils in all "
                    "would do.",
                    load.text);
}

void words_fragrance_fast(const struct speech *speech, struct words *words)
{
    struct piece_of_text name = speech_name(speech, speech->finding->other);
    double colourants = speech->finding->number[0];

    if (colourants > 1)
        speech_what(words, "%s: %s usually makes batter thicken at once, and there are %s colourants to stir in.",
                    speech_about(speech).text, name.text, speech_number(colourants, 0).text);
    else
        speech_what(words, "%s: %s usually makes batter thicken at once, too soon for this technique.",
                    speech_about(speech).text, name.text);
    speech_todo(words,
                "Leave this portion unscented, choose a fragrance that does not speed it, or plan a simple pour.");
}

void words_colour_shifts(const struct speech *speech, struct words *words)
{
    static const struct {
        const char *what, *todo;
    } line[] = {
        [ALKALI_STABLE] = {"keeps its colour in lye", "Nothing has to change."},
        [ALKALI_SHIFTS_RETURNS] = {"changes in fresh batter and comes back",
                                   "Do not add more on the bench: judge the colour after about day 3."},
        [ALKALI_SHIFTS] = {"changes in lye for good",
                           "Try it in a small batch first, or choose a colourant that holds in lye."},
        [ALKALI_FADES] = {"fades in lye or in light",
                          "Expect a paler colour after some weeks, or choose one that holds in lye."},
        [ALKALI_BLEEDS] = {"bleeds into the colours beside it",
                           "Keep it away from white and pale portions, or choose a pigment."},
    };
    int behaviour = (int)speech->finding->number[0];

    if (behaviour < 0 || behaviour >= (int)(sizeof line / sizeof *line))
        behaviour = ALKALI_SHIFTS;
    speech_what(words, "%s %s.", speech_about(speech).text, line[behaviour].what);
    speech_todo(words, "%s", line[behaviour].todo);
}
