/* words_speech.h - what the words of findings are made with: names, numbers and masses as a maker reads them.
 *
 * Every piece is a small array in a struct, so that a sentence can be written in one call:
 *     speech_what(words, "%s is above %s.", speech_percent(a).text, speech_percent(b).text);
 * Sentences are short enough for any name: names are cut to SPEECH_NAME_COLUMNS columns and
 * SPEECH_NAME_BYTES bytes.
 */
#ifndef WORK_WORDS_SPEECH_H
#define WORK_WORDS_SPEECH_H

#include "lyeway/document.h"

struct speech {
    const struct plan_input *input;
    const struct plan *plan;
    const struct finding *finding;
    enum mass_unit unit;
};

enum { SPEECH_NAME_COLUMNS = 32, SPEECH_NAME_BYTES = 48, SPEECH_PIECE_BYTES = 160 };

struct piece_of_text {
    char text[SPEECH_PIECE_BYTES];
};

/* 0.0512 as "5.12 %": two decimals at most, four below 0.1 %, none where they are 0. */
struct piece_of_text speech_percent(double share);

/* At most `decimals`, none where they are 0. */
struct piece_of_text speech_number(double value, int decimals);

/* "108 C". */
struct piece_of_text speech_temperature(double c);

/* By words_of_mass in the maker's unit; of a scale's division where division_g is above 0. */
struct piece_of_text speech_mass(const struct speech *speech, double g);
struct piece_of_text speech_mass_at(const struct speech *speech, double g, double division_g);

/* "about 1 time in 20", "less than 1 time in 1000", "about 7 times in 10", "nearly always". */
struct piece_of_text speech_chance(double chance);

/* The name of a part for people, cut to a few words: "Olive oil", "moss". */
struct piece_of_text speech_name(const struct speech *speech, struct part_ref part);

/* What a finding is about, as the beginning of a sentence: "The batter", "Portion moss", "Olive oil", "Iron oxide red in
 * portion moss". */
struct piece_of_text speech_about(const struct speech *speech);

/* Writes the sentences, each into its own array. */
void speech_what(struct words *words, const char *format, ...) __attribute__((format(printf, 2, 3)));
void speech_todo(struct words *words, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* One for each code, by theme: words_lye.c, words_oils.c, words_portions.c, words_scent.c. */
typedef void words_speaker(const struct speech *speech, struct words *words);

words_speaker words_lye_heavy, words_lye_likely, words_lye_worst, words_division_coarse;
words_speaker words_strength_over, words_strength_high, words_strength_low, words_solution_weak, words_heat_boil;
words_speaker words_sap_unit, words_sap_no_range, words_sap_far, words_rancid_risk, words_on_hand_short,
    words_scale_small;
words_speaker words_portions_over, words_portions_short, words_dose_small, words_mould_over, words_pieces_short;
words_speaker words_window_short, words_fragrance_limit, words_fragrance_fast, words_colour_shifts;

#endif
