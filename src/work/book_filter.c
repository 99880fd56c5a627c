/* book_filter.c - what is typed into the filter of the book, term by term. */
#include <string.h>

#include "base/day.h"
#include "base/text.h"
#include "work/book.h"

static const char *const in_words[BOOK_INS] = {[BOOK_ANYWHERE] = "",
                                               [BOOK_IN_RECIPE] = "recipe",
                                               [BOOK_IN_COLOURANT] = "colourant",
                                               [BOOK_IN_FRAGRANCE] = "fragrance",
                                               [BOOK_IN_OUTCOME] = "outcome",
                                               [BOOK_IN_DAY] = "day"};

/* Where a term is looked for, by the word and colon before it; what is left of the text behind them. */
static const char *read_in(const char *text, enum book_in *in)
{
    *in = BOOK_ANYWHERE;
    for (int i = BOOK_IN_RECIPE; i < BOOK_INS; i++) {
        size_t n = strlen(in_words[i]);

        if (strncmp(text, in_words[i], n) == 0 && text[n] == ':') {
            *in = (enum book_in)i;
            return text + n + 1;
        }
    }
    return text;
}

/* Digits of a date: "2026", "2026-03", "2026-03-14"; how many parts, 0: it is none. */
static int read_date(const char *text, int part[3])
{
    static const int digits[] = {4, 2, 2}, most[] = {9999, 12, 31};
    int n = 0;

    while (n < 3) {
        int value = 0;

        for (int i = 0; i < digits[n]; i++, text++) {
            if (*text < '0' || *text > '9')
                return 0;
            value = 10 * value + (*text - '0');
        }
        if (value < 1 || value > most[n])
            return 0;
        part[n++] = value;
        if (*text == '\0')
            return n;
        if (n == 3 || *text++ != '-')
            return 0;
    }
    return 0;
}

/* The first moment of the stretch that a date names, or the first after it. */
static int64_t moment_of(const int part[3], int parts, bool after, int32_t offset_s)
{
    int year = part[0], month = parts > 1 ? part[1] : 1, day = parts > 2 ? part[2] : 1;
    int64_t days;

    if (after && parts == 1)
        year++;
    if (after && parts == 2 && ++month > 12) {
        month = 1;
        year++;
    }
    days = day_count(year, month, day) + (after && parts == 3);
    return days * DAY_S - offset_s;
}

static bool read_stretch(const char *text, int32_t offset_s, struct book_filter *filter)
{
    int part[3], parts;

    if (strncmp(text, "from:", 5) == 0 && (parts = read_date(text + 5, part)) > 0) {
        filter->from_s = moment_of(part, parts, false, offset_s);
        return true;
    }
    if (strncmp(text, "to:", 3) == 0 && (parts = read_date(text + 3, part)) > 0) {
        filter->before_s = moment_of(part, parts, true, offset_s);
        return true;
    }
    return false;
}

static void add_term(struct book_filter *filter, enum book_in in, bool whole, const char *text, int32_t offset_s)
{
    int part[3];

    if (!text[0] || (in == BOOK_ANYWHERE && !whole && read_stretch(text, offset_s, filter)) ||
        filter->terms == BOOK_TERMS)
        return;
    if (in == BOOK_ANYWHERE && !whole && read_date(text, part) > 0)
        in = BOOK_IN_DAY;
    filter->term[filter->terms] = (struct book_term){.in = in, .whole = whole || in == BOOK_IN_DAY};
    text_copy(filter->term[filter->terms].text, BOOK_TERM_BYTES, text);
    filter->terms++;
}

void book_filter_read(const char *text, int32_t offset_s, struct book_filter *filter)
{
    *filter = (struct book_filter){.terms = 0};
    for (text += strspn(text, " "); *text; text += strspn(text, " ")) {
        char word[BOOK_TERM_BYTES] = "";
        enum book_in in;
        bool quoted;
        size_t n;

        text = read_in(text, &in);
        quoted = *text == '"';
        text += quoted;
        n = strcspn(text, quoted ? "\"" : " ");
        text_add(word, sizeof word, "%.*s", (int)n, text);
        text += n;
        /* While the closing quote is not typed yet, its last word is a beginning as any other. */
        add_term(filter, in, quoted && *text == '"', word, offset_s);
        text += *text == '"';
    }
}

void book_filter_add(char *text, size_t size, enum book_in in, const char *name)
{
    bool blank = text[0] != '\0' && text[strlen(text) - 1] != ' ';

    text_add(text, size, "%s%s%s\"%s\"", blank ? " " : "", in_words[in], in == BOOK_ANYWHERE ? "" : ":", name);
}
