/* book_filter.c - what is typed into the filter of the book, term by term. */
#include <string.h>
#include <strings.h>

#include "base/day.h"
#include "base/error.h"
#include "base/text.h"
#include "lyeway/names.h"
#include "work/book.h"

enum { FIELD_FROM = BOOK_INS, FIELD_TO, FIELD_COUNTS, FIELDS, FIELD_UNKNOWN };

static const char *const field_words[FIELDS] = {[BOOK_ANYWHERE] = "",
                                                [BOOK_IN_RECIPE] = "recipe",
                                                [BOOK_IN_COLOURANT] = "colourant",
                                                [BOOK_IN_FRAGRANCE] = "fragrance",
                                                [BOOK_IN_OUTCOME] = "outcome",
                                                [BOOK_IN_DAY] = "day",
                                                [FIELD_FROM] = "from",
                                                [FIELD_TO] = "to",
                                                [FIELD_COUNTS] = "counts"};

struct reading {
    int32_t offset_s;
    struct book_filter *filter;
    enum lw_status status;
    struct lw_error *error;
};

/* The first sentence stays: what is typed behind it may follow from it. */
#define NOT_UNDERSTOOD(...) \
    (reading->status = reading->status == LW_OK ? lw_fail(reading->error, LW_INVALID, __VA_ARGS__) : reading->status)

/* Where a term is looked for, by the word and colon before it; what is left of the text behind them. */
static const char *read_field(const char *text, int *field)
{
    size_t n = strspn(text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ");

    *field = BOOK_ANYWHERE;
    if (n == 0 || text[n] != ':')
        return text;
    for (int i = BOOK_ANYWHERE + 1; i < FIELDS; i++)
        if (strlen(field_words[i]) == n && strncasecmp(text, field_words[i], n) == 0) {
            *field = i;
            return text + n + 1;
        }
    *field = FIELD_UNKNOWN;
    return text;
}

/* The 30th of February is the 2nd of March under another name. */
static bool is_day(const int part[3])
{
    struct day day = day_of(day_count(part[0], part[1], part[2]) * DAY_S, 0);

    return day.month == part[1] && day.day == part[2];
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
            return n < 3 || is_day(part) ? n : 0;
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

static void add_end(struct reading *reading, int field, const char *text)
{
    int part[3], parts = read_date(text, part);

    if (parts == 0)
        NOT_UNDERSTOOD("\"%s:%s\" names no day; write 2026, 2026-03 or 2026-03-14 after the colon.", field_words[field],
                       text);
    else if (field == FIELD_FROM)
        reading->filter->from_s = moment_of(part, parts, false, reading->offset_s);
    else
        reading->filter->before_s = moment_of(part, parts, true, reading->offset_s);
}

/* Told where no outcome has a word that begins so. */
static void look_for_outcome(struct reading *reading, const char *text)
{
    char names[128] = "", wanted[BOOK_TERM_BYTES + 1] = " ";

    text_add(wanted, sizeof wanted, "%s", text);
    for (int i = 0; i < BOOK_OUTCOMES; i++) {
        char words[32] = " ";

        text_add(words, sizeof words, "%s", name_of_outcome((enum book_outcome)i));
        if (text_has(words, wanted))
            return;
        text_add(names, sizeof names, "%s%s", i > 0 ? ", " : "", words + 1);
    }
    NOT_UNDERSTOOD("\"outcome:%s\": there are %s.", text, names);
}

static void add_term(struct reading *reading, int field, bool whole, const char *text)
{
    struct book_filter *filter = reading->filter;
    int part[3];

    if (field == FIELD_FROM || field == FIELD_TO) {
        add_end(reading, field, text);
        return;
    }
    if (field == FIELD_COUNTS) {
        filter->counted_only = text_same(text, "yes");
        if (!filter->counted_only)
            NOT_UNDERSTOOD("\"counts:%s\": counts:yes finds the batches that are learned from.", text);
        return;
    }
    if (field == FIELD_UNKNOWN)
        NOT_UNDERSTOOD("\"%s\": before a colon stand recipe, colourant, fragrance, outcome, counts, from or to.", text);
    if (!text[0] || field == FIELD_UNKNOWN)
        return;
    if (filter->terms == BOOK_TERMS) {
        NOT_UNDERSTOOD("No more than %d words can be looked for at once; \"%s\" is one too many.", BOOK_TERMS, text);
        return;
    }
    if (field == BOOK_IN_OUTCOME)
        look_for_outcome(reading, text);
    if (field == BOOK_ANYWHERE && !whole && read_date(text, part) > 0)
        field = BOOK_IN_DAY;
    filter->term[filter->terms] = (struct book_term){.in = (enum book_in)field, .whole = whole || field == BOOK_IN_DAY};
    text_copy(filter->term[filter->terms].text, BOOK_TERM_BYTES, text);
    filter->terms++;
}

enum lw_status book_filter_read(const char *text, int32_t offset_s, struct book_filter *filter, struct lw_error *error)
{
    struct reading all = {offset_s, filter, LW_OK, error}, *reading = &all;

    *filter = (struct book_filter){.terms = 0};
    for (text += strspn(text, " "); *text; text += strspn(text, " ")) {
        char word[BOOK_TERM_BYTES] = "";
        bool quoted;
        int field;
        size_t n;

        text = read_field(text, &field);
        quoted = *text == '"';
        text += quoted;
        n = strcspn(text, quoted ? "\"" : " ");
        text_add(word, sizeof word, "%.*s", (int)n, text);
        text += n;
        /* While the closing quote is not typed yet, its last word is a beginning as any other. */
        add_term(reading, field, quoted && *text == '"', word);
        text += *text == '"';
    }
    if (filter->before_s > 0 && filter->before_s <= filter->from_s)
        NOT_UNDERSTOOD("The day after to: lies before the day after from:, so no batch can be between them.");
    if (reading->status != LW_OK)
        filter->from_s = INT64_MAX; /* finds nothing */
    return reading->status;
}

void book_filter_add(char *text, size_t size, enum book_in in, const char *name)
{
    bool blank = text[0] != '\0' && text[strlen(text) - 1] != ' ';

    text_add(text, size, "%s%s%s\"%s\"", blank ? " " : "", field_words[in], in == BOOK_ANYWHERE ? "" : ":", name);
}
