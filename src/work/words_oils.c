/* words_oils.c - what is said about oils and what is on the shelf. */
#include "work/words_speech.h"

void words_sap_unit(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;
    const char *unit = n[0] < 1 ? "g of alkali per g of oil" : "mg of NaOH per g of oil";

    speech_what(words, "%s: a saponification value of %s looks like %s; here it is mg of KOH per g.",
                speech_about(speech).text, speech_number(n[0], 4).text, unit);
    if (n[0] < 1)
        speech_todo(words, "Write %s if it is g of KOH per g, or %s if it is g of NaOH per g.",
                    speech_number(n[1], 1).text, speech_number(n[2], 1).text);
    else
        speech_todo(words, "Write %s if it is mg of NaOH per g; if the certificate does say mg of KOH, keep it.",
                    speech_number(n[2], 1).text);
}

void words_sap_no_range(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    speech_what(words, "%s: the saponification value %s was given without a range, so %s to %s is taken.",
                speech_about(speech).text, speech_number(n[0], 1).text, speech_number(n[1], 1).text,
                speech_number(n[2], 1).text);
    speech_todo(words, "Enter the range from the supplier's certificate, if there is one.");
}

void words_sap_far(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    speech_what(words, "%s: a saponification value of %s lies %s outside the published range of %s to %s.",
                speech_about(speech).text, speech_number(n[0], 1).text, speech_percent(n[3]).text,
                speech_number(n[1], 1).text, speech_number(n[2], 1).text);
    speech_todo(words, "Check that it is this oil's and in mg of KOH per g; the certificate of the lot decides.");
}

void words_rancid_risk(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    speech_what(words,
                "Linoleic and linolenic acid make %s of the oils, above %s: such soap tends to go rancid sooner.",
                speech_percent(n[0]).text, speech_percent(n[1]).text);
    speech_todo(words, "Use fresh oils and a low superfat, or take less of the oils that are rich in them.");
}

void words_on_hand_short(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    speech_what(words, "%s: %s is needed and %s is on hand.", speech_about(speech).text, speech_mass(speech, n[0]).text,
                speech_mass(speech, n[1]).text);
    speech_todo(words, "Get %s more, or make a smaller batch.", speech_mass(speech, n[0] - n[1]).text);
}

void words_scale_small(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    speech_what(words, "%s: %s with its vessel is more than the largest scale holds, %s.", speech_about(speech).text,
                speech_mass(speech, n[0]).text, speech_mass(speech, n[1]).text);
    speech_todo(words, "Weigh it in two or more lots, or add a scale that holds it.");
}
