/* words_lye.c - what is said about alkali: superfat and its margin, the strength of the lye, its heat. */
#include <stdbool.h>

#include "base/text.h"
#include "work/words_speech.h"

/* number[] of lye-heavy, lye-likely and lye-worst */
enum { NOMINAL, CHANCE, LIKELY_LO, WORST_LO };

/* A superfat nearer to 0 is written as 0, and then "more alkali than its oils take up" would contradict it. */
#define LEAST_SHOWN 0.0000005

/* The margin that a finding speaks of: of a portion, or of the whole batter. */
static const struct margin *margin_of(const struct speech *speech)
{
    struct part_ref about = speech->finding->about;
    const struct plan *plan = speech->plan;
    bool of_portion = about.part == PART_PORTION && about.index >= 0 && about.index < plan->portions;

    return of_portion ? &plan->portion[about.index].margin : &plan->margin;
}

/* " Most of the doubt is the published range of Olive oil." or "" where nothing stands out. */
static struct piece_of_text mostly(const struct speech *speech)
{
    const struct margin *margin = margin_of(speech);
    struct piece_of_text name = speech_name(speech, margin->mostly), piece = {""};
    static const char *const cause[] = {
        [CAUSE_NONE] = NULL,
        [CAUSE_SAP] = "the range of saponification values of",
        [CAUSE_PURITY] = "the purity of",
        [CAUSE_SCALE] = "the scale that weighs",
    };

    if (cause[margin->mostly_from])
        text_add(piece.text, sizeof piece.text, " Most of the doubt is %s %s.", cause[margin->mostly_from], name.text);
    return piece;
}

/* A portion differs from the whole only by the carrier oil of its colourants. */
static void less_alkali(const struct speech *speech, struct words *words)
{
    if (speech->finding->about.part == PART_PORTION)
        speech_todo(words,
                    "Reserve less of the recipe's oils for colour in other portions, or add the carrier oil on top.");
    else
        speech_todo(
            words,
            "Use less alkali (ask for more superfat), make a bigger batch, or weigh the alkali on a finer scale.");
}

void words_lye_heavy(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    if (n[NOMINAL] < -LEAST_SHOWN)
        speech_what(words,
                    "%s has more alkali than its oils take up: superfat is %s as rounded, and it is lye-heavy %s.",
                    speech_about(speech).text, speech_percent(n[NOMINAL]).text, speech_chance(n[CHANCE]).text);
    else
        speech_what(
            words, "%s has a superfat of %s as rounded, but within what is not known for certain it is lye-heavy %s.%s",
            speech_about(speech).text, speech_percent(n[NOMINAL]).text, speech_chance(n[CHANCE]).text,
            mostly(speech).text);
    less_alkali(speech, words);
}

void words_lye_likely(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    speech_what(words, "%s has a superfat of %s as rounded, but likely values begin at %s: lye-heavy %s.%s",
                speech_about(speech).text, speech_percent(n[NOMINAL]).text, speech_percent(n[LIKELY_LO]).text,
                speech_chance(n[CHANCE]).text, mostly(speech).text);
    if (speech->finding->about.part == PART_PORTION)
        less_alkali(speech, words);
    else
        speech_todo(words,
                    "Ask for more superfat, weigh on a finer scale or make a bigger batch; values from the suppliers' "
                    "certificates narrow it too.");
}

void words_lye_worst(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    speech_what(words,
                "%s would have a superfat of %s only if every range stood at its worst end at once; likely values "
                "begin at %s.%s",
                speech_about(speech).text, speech_percent(n[WORST_LO]).text, speech_percent(n[LIKELY_LO]).text,
                mostly(speech).text);
    speech_todo(words, "Nothing has to change; a certificate's value in place of the published range narrows it.");
}

/* number[] of division-coarse */
#define FINEST_SCALE_G 0.001 /* no bench has a finer one (memory) */
enum { MASS_SHARE, ASKED, ROUNDED, DIVISION_G, LESS_OILS_G, MORE_OILS_G, FINER_G };

/* "With 197.3 g or 212 g of oils the alkali is a whole division" from what was found. */
static struct piece_of_text nearest_sizes(const struct speech *speech, double less_g, double more_g)
{
    struct piece_of_text less = speech_mass(speech, less_g), more = speech_mass(speech, more_g), piece = {""};

    if (less_g > 0 && more_g > 0)
        text_add(piece.text, sizeof piece.text, "With %s or %s of oils", less.text, more.text);
    else if (less_g > 0 || more_g > 0)
        text_add(piece.text, sizeof piece.text, "With %s of oils", less_g > 0 ? less.text : more.text);
    return piece;
}

void words_division_coarse(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;
    struct piece_of_text division = speech_mass_at(speech, n[DIVISION_G], n[DIVISION_G]);
    struct piece_of_text sizes = nearest_sizes(speech, n[LESS_OILS_G], n[MORE_OILS_G]);

    speech_what(words,
                "A division of %s is coarse for this batch: superfat becomes %s where %s was asked, and weighing "
                "makes %s of the doubt about it.",
                division.text, speech_percent(n[ROUNDED]).text, speech_percent(n[ASKED]).text,
                speech_percent(n[MASS_SHARE]).text);
    if (sizes.text[0] && n[FINER_G] >= FINEST_SCALE_G)
        speech_todo(words, "%s the alkali is a whole division; a scale with divisions of %s would do at any size.",
                    sizes.text, speech_mass_at(speech, n[FINER_G], n[FINER_G]).text);
    else if (sizes.text[0])
        speech_todo(words, "%s the alkali is a whole division.", sizes.text);
    else if (n[FINER_G] >= FINEST_SCALE_G)
        speech_todo(words, "A scale with divisions of %s would do.",
                    speech_mass_at(speech, n[FINER_G], n[FINER_G]).text);
    else
        speech_todo(words, "Make a bigger batch, or weigh the alkali on a finer scale.");
}

void words_strength_over(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    speech_what(words,
                "A lye of %s is more than water can dissolve at 20 C, which is about %s; grains that are left burn.",
                speech_percent(n[0]).text, speech_percent(n[1]).text);
    speech_todo(words, "Use more water: a lower strength, or a higher ratio of water to alkali.");
}

void words_strength_high(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    speech_what(words, "A lye of %s is above %s: it gets very hot when mixed, and the batter thickens fast.",
                speech_percent(n[0]).text, speech_percent(n[1]).text);
    speech_todo(
        words,
        "Use more water unless a fast batter is what you want; start with cold water and add the alkali slowly.");
}

void words_strength_low(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    speech_what(words, "A lye of %s is below %s: the batter stays soft for long, and bars lose much water and shrink.",
                speech_percent(n[0]).text, speech_percent(n[1]).text);
    speech_todo(words, "Use less water unless that is what you want, and allow more days in the mould.");
}

void words_solution_weak(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    speech_what(words,
                "Ready-made lye, liquids and additives bring %s of water, more than the %s that the recipe asks for.",
                speech_mass(speech, n[1]).text, speech_mass(speech, n[0]).text);
    speech_todo(words,
                "Ask for a strength of %s, which is all of the water they bring, or for less; or use dry alkali.",
                speech_percent(n[2]).text);
}

void words_heat_boil(const struct speech *speech, struct words *words)
{
    const double *n = speech->finding->number;

    if (n[2] > 0) {
        speech_what(words, "Sugar makes %s of the oils: it heats the lye and the batter, which may brown or boil over.",
                    speech_percent(n[2]).text);
        speech_todo(words,
                    "Freeze the liquid first, add the alkali slowly, use a tall vessel, and keep the mould cool.");
        return;
    }
    speech_what(
        words,
        "Dissolving the alkali can bring this lye to its boiling point, about %s, and throw it out of the vessel.",
        speech_temperature(n[1] > 0 ? n[1] : n[0]).text);
    speech_todo(
        words, "Start with colder water or part ice, and add the alkali in small amounts, with goggles and gloves on.");
}
