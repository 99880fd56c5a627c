/* words_piping.c - what is said while pieces are piped. */
#include "work/words_piping.h"

#include <math.h>
#include <stdbool.h>

#include "base/mass.h"
#include "base/number.h"
#include "base/text.h"
#include "work/words.h"
#include "work/words_speech.h"

/* Small numbers stand in words at the head of a line, where a digit would be read as a count on the tray. */
static struct piece_of_text in_words(int n)
{
    static const char *const word[] = {"none",  "one",   "two",  "three", "four",   "five",  "six",
                                       "seven", "eight", "nine", "ten",   "eleven", "twelve"};
    struct piece_of_text piece = {""};

    if (n >= 0 && n < (int)(sizeof word / sizeof word[0]))
        text_copy(piece.text, sizeof piece.text, word[n]);
    else
        text_add(piece.text, sizeof piece.text, "%d", n);
    return piece;
}

static struct piece_of_text minutes(double value)
{
    return speech_number(value, 0);
}

static struct piece_of_text mass(double g, double division_g, enum mass_unit unit)
{
    struct piece_of_text piece = {""};

    words_of_mass(g, mass_ug(division_g), unit, piece.text, sizeof piece.text);
    return piece;
}

/* Down to the decimal that is shown: 0.1 g, 0.01 g below a gram. */
static struct piece_of_text mass_each(double g, enum mass_unit unit)
{
    double division_g = g < 1 ? 0.01 : 0.1;

    return mass(floor(g / division_g + 1e-9) * division_g, division_g, unit);
}

static void say_left(const struct piping *piping, enum mass_unit unit, struct piping_words *words)
{
    text_add(words->left, sizeof words->left, "left in the bag about %s: %s more", mass(piping->left_g, 1, unit).text,
             speech_number(piping->more, 0).text);
}

static void say_workable(const struct quantiles *left, struct piping_words *words)
{
    if (left->high <= 0)
        text_copy(words->workable, sizeof words->workable, "no longer workable by what was stamped");
    else
        text_add(words->workable, sizeof words->workable, "workable for %s to %s more minutes (8 times in 10)",
                 minutes(fmax(left->low, 0)).text, minutes(left->high).text);
}

static void say_need(const struct piping *piping, struct piping_words *words)
{
    if (piping->to_go > 0)
        text_add(words->need, sizeof words->need, "%d more take about %s", piping->to_go,
                 minutes(fmax(piping->need_min, 1)).text);
}

/* What came before on the line decides how the next proposal is joined to it. */
static const char *joint(bool first, const char *otherwise)
{
    return first ? "" : otherwise;
}

static void say_help(const struct piping *piping, const struct piping_help *help, enum mass_unit unit,
                     struct piping_words *words)
{
    char *line = words->help;
    const size_t size = sizeof words->help;
    bool first = true;

    if (help->second_oils_g <= 0)
        return;
    if (help->missing > 0)
        text_add(line, size, "%s short: ", in_words(help->missing).text);
    else
        text_add(line, size, "enough %s: ", speech_chance(piping->enough).text);
    if (help->scrape > 0) {
        text_add(line, size, "scrape rejects back (+%d)", help->scrape);
        first = false;
    }
    if (help->smaller > 0) {
        text_add(line, size, "%s%s each (+%d)", joint(first, " and "), mass_each(help->smaller_g, unit).text,
                 help->smaller);
        first = false;
    }
    if (help->bars > 0) {
        text_add(line, size, "%sdress %d bar%s", joint(first, " / "), help->bars, help->bars == 1 ? "" : "s");
        first = false;
    }
    if (first || (help->missing > 0 && help->scrape + help->smaller < help->missing))
        text_add(line, size, "%ssecond batter of %s oils", joint(first, " / "),
                 mass(help->second_oils_g, 1, unit).text);
}

void words_of_piping(const struct piping *piping, const struct piping_help *help, enum mass_unit unit,
                     struct piping_words *words)
{
    *words = (struct piping_words){.left = ""};
    say_left(piping, unit, words);
    say_workable(&piping->workable_min, words);
    say_need(piping, words);
    say_help(piping, help, unit, words);
}

void words_of_own_mass(const struct piping_terms *terms, const char *part, char *out, size_t size)
{
    char each[NUMBER_BYTES];

    number_write(each, terms->each_g, 2);
    out[0] = '\0';
    text_add(out, size, "%s: (%s filled - %s cup and squeeze", part, speech_number(terms->filled_g, 2).text,
             speech_number(terms->cup_g + terms->squeeze_g, 2).text);
    if (terms->emptied > 0)
        text_add(out, size, " - %s in %d bag%s", speech_number(terms->emptied_g, 2).text, terms->emptied,
                 terms->emptied == 1 ? "" : "s");
    text_add(out, size, " - %s left) / %d made = %s g", speech_number(terms->left_g, 2).text, terms->made, each);
}
