/* quantity.c - a reader by recursive descent. Each value carries whether it has a unit yet, so that "12 oz * 2 oz" and
 * "500 + 12 oz" are met with a sentence and not with a number that means nothing. */
#include "work/quantity.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "base/error.h"
#include "base/number.h"
#include "base/text.h"
#include "base/utf8.h"
#include "lyeway/facts.h"

enum { UNIT_BYTES = 24 };

/* The metric masses, which the reference table leaves out, and the words that people write for common units. */
/* clang-format off */
static const struct { const char *word; double g; } metric[] = {
    {"g", 1}, {"gram", 1}, {"grams", 1}, {"kg", 1000}, {"kilo", 1000}, {"kilos", 1000}, {"mg", 0.001},
};
static const struct { const char *word, *symbol; } spelling[] = {
    {"ounce", "oz"}, {"ounces", "oz"}, {"lbs", "lb"}, {"pound", "lb"}, {"pounds", "lb"},
};
/* clang-format on */

struct reader {
    const char *text;
    const char *what; /* it is to be: "a mass", "a number" */
    size_t at;
    int depth;
    struct lw_error *error;
};

struct value {
    double amount; /* grams where it has a unit */
    bool has_unit;
};

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static char peek(struct reader *reader)
{
    while (reader->text[reader->at] == ' ')
        reader->at++;
    return reader->text[reader->at];
}

static bool take(struct reader *reader, char c)
{
    if (peek(reader) != c)
        return false;
    reader->at++;
    return true;
}

/* "mass: why (character 4)". Characters are counted from 1, as a person does. */
static enum lw_status refuse(struct reader *reader, size_t at, const char *why)
{
    char shown[QUANTITY_MOST_BYTES + 1];
    size_t character = 1;

    utf8_clean(shown, sizeof shown, reader->text, QUANTITY_MOST_BYTES);
    for (size_t i = 0; i < at; i++)
        character += (reader->text[i] & 0xC0) != 0x80;
    return lw_fail(reader->error, LW_INVALID, "\"%s\" is not %s: %s (character %zu).", shown, reader->what, why,
                   character);
}

static enum lw_status refuse_unit(struct reader *reader, size_t at, const char *unit, const char *why)
{
    char sentence[160] = "";

    text_add(sentence, sizeof sentence, "\"%s\" %s", unit, why);
    return refuse(reader, at, sentence);
}

/* "1,500" and "12,500": three digits behind a comma and one to three before it, not beginning with 0. */
static bool groups_or_decimals(const char *digits, size_t before, size_t after)
{
    return after == 3 && before >= 1 && before <= 3 && digits[0] != '0';
}

static size_t count_digits(const char *s)
{
    size_t n = 0;

    while (is_digit(s[n]))
        n++;
    return n;
}

/* Brings what a maker types into the form of a JSON number, which base reads the same under every locale. */
static enum lw_status read_number(struct reader *reader, double *number)
{
    size_t at = reader->at;
    const char *s = reader->text + at;
    size_t before = count_digits(s);
    bool has_mark = s[before] == '.' || s[before] == ',';
    size_t after = has_mark ? count_digits(s + before + 1) : 0;
    size_t length = before + has_mark + after;
    char digits[2 * QUANTITY_MOST_BYTES] = "";

    if (before + after == 0)
        return refuse(reader, at, s[0] ? "a number was expected" : "it ends where a number was expected");
    if (s[length] == '.' || s[length] == ',')
        return refuse(reader, at, "a number has one decimal point or comma and no others");
    if (has_mark && s[before] == ',' && groups_or_decimals(s, before, after))
        return refuse(reader, at,
                      "a comma before three digits could be a decimal comma or mark thousands; use a point or none");
    while (before > 1 && s[0] == '0') { /* JSON has no leading zeros */
        s++;
        before--;
    }
    text_add(digits, sizeof digits, "%.*s.%.*s0", before ? (int)before : 1, before ? s : "0", (int)after,
             s + before + has_mark);
    if (!number_read(digits, strlen(digits), number))
        return refuse(reader, at, "the number is too large");
    reader->at += length;
    return LW_OK;
}

static size_t word_length(const char *s)
{
    size_t n = 0;

    while (is_letter(s[n]))
        n++;
    return n;
}

static const struct unit_fact *reference_unit(const char *word)
{
    for (size_t i = 0; i < sizeof spelling / sizeof *spelling; i++)
        if (text_same(word, spelling[i].word))
            return facts_unit(spelling[i].symbol);
    return facts_unit(word);
}

static bool metric_unit(const char *word, double *g)
{
    for (size_t i = 0; i < sizeof metric / sizeof *metric; i++)
        if (text_same(word, metric[i].word)) {
            *g = metric[i].g;
            return true;
        }
    return false;
}

/* Grams in one of `word`. */
static enum lw_status unit_grams(struct reader *reader, size_t at, const char *word, double *g)
{
    /* Many write gr for gram, but it is the grain's symbol, fifteen times less. */
    if (text_same(word, "gr"))
        return refuse_unit(reader, at, word, "is the sign of the grain; write g for grams");
    if (metric_unit(word, g))
        return LW_OK;

    const struct unit_fact *unit = reference_unit(word);

    if (!unit)
        return refuse_unit(reader, at, word, "is not a unit that is known here; use g, kg, oz or lb");
    if (strcmp(unit->si_unit, "g") != 0 || unit->in_si <= 0)
        return refuse_unit(reader, at, word, "does not measure mass; use g, kg, oz or lb");
    *g = unit->in_si;
    return LW_OK;
}

/* Reads the unit that stands here, of two words where those are one unit ("fl oz"). *found is false where there is none. */
static enum lw_status read_unit(struct reader *reader, double *g, bool *found)
{
    peek(reader);

    const char *s = reader->text + reader->at;
    size_t at = reader->at, first = word_length(s);
    size_t gap = s[first] == ' ' ? 1 : 0;
    size_t second = gap ? word_length(s + first + gap) : 0;
    char word[UNIT_BYTES] = "", pair[UNIT_BYTES] = "";

    *found = first > 0;
    if (!*found)
        return LW_OK;
    text_add(word, sizeof word, "%.*s", (int)first, s);
    text_add(pair, sizeof pair, "%.*s", (int)(first + gap + second), s);
    if (second > 0 && facts_unit(pair)) {
        reader->at += first + gap + second;
        return unit_grams(reader, at, pair, g);
    }
    reader->at += first;
    return unit_grams(reader, at, word, g);
}

static enum lw_status read_sum(struct reader *reader, struct value *value);

static enum lw_status read_brackets(struct reader *reader, struct value *value)
{
    size_t at = reader->at - 1;

    if (reader->depth >= QUANTITY_MOST_DEPTH)
        return refuse(reader, at, "the brackets are nested too deeply");
    reader->depth++;

    enum lw_status status = read_sum(reader, value);

    reader->depth--;
    if (status != LW_OK)
        return status;
    return take(reader, ')') ? LW_OK : refuse(reader, at, "this bracket is not closed");
}

/* "1 lb 3 oz": numbers that follow a mass directly add to it, each with a smaller unit than the one before. */
static enum lw_status read_smaller(struct reader *reader, double unit_g, struct value *value)
{
    enum lw_status status = LW_OK;

    while (status == LW_OK && is_digit(peek(reader))) {
        size_t at = reader->at;
        double number = 0, smaller_g = 0;
        bool found = false;

        status = read_number(reader, &number);
        if (status == LW_OK)
            status = read_unit(reader, &smaller_g, &found);
        if (status == LW_OK && (!found || smaller_g >= unit_g))
            status = refuse(reader, at, "a second number after a mass wants a smaller unit, as in 1 lb 3 oz");
        value->amount += number * smaller_g;
        unit_g = smaller_g;
    }
    return status;
}

static enum lw_status read_mass(struct reader *reader, struct value *value)
{
    double unit_g = 0;
    bool bracket = take(reader, '('), found = false;
    enum lw_status status = bracket ? read_brackets(reader, value) : read_number(reader, &value->amount);

    peek(reader);

    size_t at = reader->at;

    if (status == LW_OK)
        status = read_unit(reader, &unit_g, &found);
    if (status != LW_OK || !found)
        return status;
    if (value->has_unit)
        return refuse(reader, at, "what stands before this unit has one already");
    value->amount *= unit_g;
    value->has_unit = true;
    return bracket ? LW_OK : read_smaller(reader, unit_g, value);
}

static enum lw_status read_product(struct reader *reader, struct value *value)
{
    enum lw_status status = read_mass(reader, value);

    while (status == LW_OK) {
        size_t at = reader->at;
        bool times = take(reader, '*'), by = !times && take(reader, '/');
        struct value factor = {0, false};

        if (!times && !by)
            return LW_OK;
        status = read_mass(reader, &factor);
        if (status != LW_OK)
            return status;
        if (times && value->has_unit && factor.has_unit)
            return refuse(reader, at, "a mass times a mass is not a mass");
        if (by && factor.has_unit && !value->has_unit)
            return refuse(reader, at, "a number divided by a mass is not a mass");
        if (by && factor.amount == 0)
            return refuse(reader, at, "nothing can be divided by 0");
        value->amount = times ? value->amount * factor.amount : value->amount / factor.amount;
        value->has_unit = value->has_unit != factor.has_unit; /* a mass by a mass is a plain number */
    }
    return status;
}

static enum lw_status read_sum(struct reader *reader, struct value *value)
{
    enum lw_status status = read_product(reader, value);

    while (status == LW_OK) {
        size_t at = reader->at;
        bool plus = take(reader, '+'), minus = !plus && take(reader, '-');
        struct value term = {0, false};

        if (!plus && !minus)
            return LW_OK;
        status = read_product(reader, &term);
        if (status == LW_OK && term.has_unit != value->has_unit)
            return refuse(reader, at, "one side has a unit and the other has none");
        value->amount += plus ? term.amount : -term.amount;
    }
    return status;
}

static enum lw_status read_whole(struct reader *reader, struct value *value)
{
    enum lw_status status;

    if (strlen(reader->text) > QUANTITY_MOST_BYTES)
        return lw_fail(reader->error, LW_INVALID, "This is too long to be %s: at most %d characters.", reader->what,
                       QUANTITY_MOST_BYTES);
    status = read_sum(reader, value);
    if (status == LW_OK && peek(reader) != '\0')
        status = refuse(reader, reader->at, "it was expected to end here");
    return status;
}

enum lw_status quantity_mass(const char *text, const char *unit, double *g, struct lw_error *error)
{
    struct reader reader = {.text = text, .what = "a mass", .error = error};
    struct value value = {0, false};
    double unit_g = 1;
    enum lw_status status = read_whole(&reader, &value);

    if (status == LW_OK && !value.has_unit)
        status = unit_grams(&reader, 0, unit, &unit_g);
    if (status == LW_OK && !isfinite(value.amount * unit_g))
        status = refuse(&reader, 0, "the number is too large");
    if (status == LW_OK)
        *g = value.amount * unit_g;
    return status;
}

enum lw_status quantity_number(const char *text, double *number, struct lw_error *error)
{
    struct reader reader = {.text = text, .what = "a number", .error = error};
    struct value value = {0, false};
    enum lw_status status = read_whole(&reader, &value);

    if (status == LW_OK && value.has_unit)
        status = refuse(&reader, 0, "it has a unit of mass");
    if (status == LW_OK && !isfinite(value.amount))
        status = refuse(&reader, 0, "the number is too large");
    if (status == LW_OK)
        *number = value.amount;
    return status;
}
