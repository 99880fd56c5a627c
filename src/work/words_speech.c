/* words_speech.c - names, numbers and chances in words. Numbers go through base, so that no locale changes them. */
#include "work/words_speech.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/mass.h"
#include "base/number.h"
#include "base/text.h"
#include "base/utf8.h"
#include "work/words.h"

struct piece_of_text speech_number(double value, int decimals)
{
    struct piece_of_text piece = {""};
    char number[NUMBER_BYTES];

    number_write_short(number, value, decimals);
    text_copy(piece.text, sizeof piece.text, number);
    return piece;
}

static struct piece_of_text with_unit(double value, int decimals, const char *unit)
{
    struct piece_of_text piece = speech_number(value, decimals);

    text_add(piece.text, sizeof piece.text, " %s", unit);
    return piece;
}

/* Limits of fragrance are often thousandths of a percent. */
struct piece_of_text speech_percent(double share)
{
    double percent = share * 100;

    return with_unit(percent, fabs(percent) < 0.1 ? 4 : 2, "%");
}

struct piece_of_text speech_temperature(double c)
{
    return with_unit(c, 0, "C");
}

struct piece_of_text speech_mass_at(const struct speech *speech, double g, double division_g)
{
    struct piece_of_text piece = {""};

    words_of_mass(g, division_g > 0 ? mass_ug(division_g) : 0, speech->unit, piece.text, sizeof piece.text);
    return piece;
}

struct piece_of_text speech_mass(const struct speech *speech, double g)
{
    return speech_mass_at(speech, g, 0);
}

/* 1 in 17.3 is said as 17, 1 in 173 as 170: two figures are more than such a chance is known to. */
static int two_figures(double value)
{
    double step = value < 100 ? 1 : value < 1000 ? 10 : 100;

    return (int)(round(value / step) * step);
}

struct piece_of_text speech_chance(double chance)
{
    struct piece_of_text piece = {""};

    if (!(chance >= 0.001))
        text_copy(piece.text, sizeof piece.text, "less than 1 time in 1000");
    else if (chance < 0.225)
        text_add(piece.text, sizeof piece.text, "about 1 time in %d", two_figures(1 / chance));
    else if (chance < 0.95)
        text_add(piece.text, sizeof piece.text, "about %d times in 10", (int)round(chance * 10));
    else
        text_copy(piece.text, sizeof piece.text, "nearly always");
    return piece;
}

/* A name that was cut at a space would leave two of them in the sentence. */
static void trim_end(char *text)
{
    size_t n = strlen(text);

    while (n > 0 && text[n - 1] == ' ')
        text[--n] = '\0';
}

struct piece_of_text speech_name(const struct speech *speech, struct part_ref part)
{
    struct piece_of_text piece = {""};

    utf8_clean(piece.text, SPEECH_NAME_BYTES, document_name(speech->input, part), SPEECH_NAME_COLUMNS);
    trim_end(piece.text);
    if (piece.text[0] == '\0')
        text_copy(piece.text, sizeof piece.text, "(no name)");
    return piece;
}

static struct piece_of_text capital(struct piece_of_text piece)
{
    if (piece.text[0] >= 'a' && piece.text[0] <= 'z')
        piece.text[0] = (char)(piece.text[0] - 'a' + 'A');
    return piece;
}

struct piece_of_text speech_about(const struct speech *speech)
{
    struct part_ref about = speech->finding->about, portion = {PART_PORTION, about.index, 0};
    struct piece_of_text name = speech_name(speech, about), piece = {""};
    bool in_portion = about.part == PART_COLOURANT;

    if (about.part == PART_FRAGRANCE && speech->finding->other.part == PART_PORTION) {
        portion = speech->finding->other;
        in_portion = true;
    }

    if (about.part == PART_BATTER)
        text_copy(piece.text, sizeof piece.text, "The batter");
    else if (about.part == PART_PORTION)
        text_add(piece.text, sizeof piece.text, "Portion %s", name.text);
    else if (in_portion)
        text_add(piece.text, sizeof piece.text, "%s in portion %s", capital(name).text,
                 speech_name(speech, portion).text);
    else
        return capital(name);
    return piece;
}

static void write(char *out, size_t size, const char *format, va_list arguments)
{
    char sentence[WORDS_WHAT_BYTES + WORDS_DO_BYTES];

    vsnprintf(sentence, sizeof sentence, format, arguments);
    text_copy(out, size, sentence); /* never cut inside a character */
}

void speech_what(struct words *words, const char *format, ...)
{
    va_list arguments;

    va_start(arguments, format);
    write(words->what, sizeof words->what, format, arguments);
    va_end(arguments);
}

void speech_todo(struct words *words, const char *format, ...)
{
    va_list arguments;

    va_start(arguments, format);
    write(words->todo, sizeof words->todo, format, arguments);
    va_end(arguments);
}
