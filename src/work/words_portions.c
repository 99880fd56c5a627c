/* words_portions.c - what is said about splitting, colouring, moulds and pieces. */
#include <stdbool.h>

#include "base/mass.h"
#include "work/words_speech.h"

void words_portions_over(const struct speech *speech, struct words *words)
{
    speech_what(words, "The portions together ask for %s of the batter.",
                speech_percent(speech->finding->number[0]).text);
    speech_todo(words, "Lower their shares to 100 %% in all, or let one portion take the rest.");
}

/* number[] of portions-short */
enum { MISSING_G, OILS_G, USABLE_G, FIXED_G };

void words_portions_short(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    speech_what(words,
                "The portions need %s more batter: those with a fixed size ask for %s of the %s that can be split.",
                speech_mass(speech, n[MISSING_G]).text, speech_mass(speech, n[FIXED_G]).text,
                speech_mass(speech, n[USABLE_G]).text);
    if (n[OILS_G] > 0)
        speech_todo(words, "Make the batch from %s of oils, or ask for smaller portions or fewer pieces.",
                    speech_mass(speech, n[OILS_G]).text);
    else
        speech_todo(words, "Ask for smaller portions or fewer pieces.");
}

/* number[] of dose-small */
enum { DOSE_G, DIVISION_G, WEIGH_G, CARRIER_G, USE_G };

static const char *carrier_for(enum part part)
{
    return part == PART_ADDITIVE ? "water taken from the recipe" : "oil";
}

void words_dose_small(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;
    struct piece_of_text division = speech_mass_at(speech, n[DIVISION_G], n[DIVISION_G]);

    if (2 * mass_ug(n[DOSE_G]) < mass_ug(n[DIVISION_G])) /* would be rounded to 0 */
        speech_what(words, "%s: %s is less than half of the scale's division of %s and cannot be weighed on it.",
                    speech_about(speech).text, speech_mass(speech, n[DOSE_G]).text, division.text);
    else
        speech_what(words, "%s: %s is under five divisions of the scale, %s each.", speech_about(speech).text,
                    speech_mass(speech, n[DOSE_G]).text, division.text);
    if (n[WEIGH_G] > 0)
        speech_todo(words, "Mix %s into %s of %s, use %s of that.",
                    speech_mass_at(speech, n[WEIGH_G], n[DIVISION_G]).text,
                    speech_mass_at(speech, n[CARRIER_G], n[DIVISION_G]).text, carrier_for(speech->finding->about.part),
                    speech_mass_at(speech, n[USE_G], n[DIVISION_G]).text);
    else
        speech_todo(words, "Weigh it on a finer scale, or make a bigger batch.");
}

void words_mould_over(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    if (n[2] > 0)
        speech_what(words, "The batter fills %s mL and the mould is to hold %s mL: it would stand %s mm too high.",
                    speech_number(n[0], 0).text, speech_number(n[1], 0).text, speech_number(n[2], 1).text);
    else
        speech_what(words, "The batter fills %s mL and the mould is to hold %s mL.", speech_number(n[0], 0).text,
                    speech_number(n[1], 0).text);
    speech_todo(words, "Make a smaller batch, or have another mould ready for %s mL.",
                speech_number(n[0] - n[1], 0).text);
}

/* number[] of pieces-short */
enum { WANTED, MADE, CHANCE, CHANCE_WANTED, SHORT_G };

void words_pieces_short(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    speech_what(words, "%s makes about %s pieces; that %s of them are good has a chance of %s %%, and %s %% was asked.",
                speech_about(speech).text, speech_number(n[MADE], 0).text, speech_number(n[WANTED], 0).text,
                speech_number(n[CHANCE] * 100, 0).text, speech_number(n[CHANCE_WANTED] * 100, 0).text);
    if (n[SHORT_G] > 0)
        speech_todo(words, "Give it %s more batter, make smaller pieces, or want fewer.",
                    speech_mass(speech, n[SHORT_G]).text);
    else
        speech_todo(words, "Give it more batter, make smaller pieces, or want fewer.");
}

/* number[] of window-short */
enum { NEED_MIN, WINDOW_MIN, FROM_MIN, UNTIL_MIN, OWN_BATCHES };

static bool is_scented(const struct speech *speech)
{
    struct part_ref about = speech->finding->about;

    return about.part == PART_PORTION && about.index >= 0 && about.index < speech->input->recipe->portions &&
           speech->input->recipe->portion[about.index].scented;
}

void words_window_short(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    if (n[OWN_BATCHES] > 0)
        speech_what(words,
                    "%s needs about %s minutes of work; by %s batches of yours it is workable from about %s minutes on "
                    "and may be too stiff at %s.",
                    speech_about(speech).text, speech_number(n[NEED_MIN], 0).text,
                    speech_number(n[OWN_BATCHES], 0).text, speech_number(n[FROM_MIN], 0).text,
                    speech_number(n[UNTIL_MIN], 0).text);
    else
        speech_what(
            words, "%s needs about %s minutes of work, and the batter is workable for about %s: from %s to %s minutes.",
            speech_about(speech).text, speech_number(n[NEED_MIN], 0).text, speech_number(n[WINDOW_MIN], 0).text,
            speech_number(n[FROM_MIN], 0).text, speech_number(n[UNTIL_MIN], 0).text);
    speech_todo(words, "Make two smaller batters one after the other, use a weaker lye, or plan fewer pieces%s.",
                is_scented(speech) ? "; without fragrance it stays workable longer" : "");
}
