/* Batches found by words: what the index finds is what a reader would who goes through every word of every batch. */
#include <ctype.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "base/text.h"
#include "store/booked.h"

enum { ROWS = 150, PAGE = 11, TEXT_BYTES = 256, WORDS = 8, ROUNDS = 1500, DAY_S = 86400, FIRST_S = 1700000000 };

/* As written, and as a reader compares them: in small letters, accents apart. */
static const struct {
    const char *written, *plain;
} words[] = {
    {"rose", "rose"},   {"Rosé", "rose"},     {"rosemary", "rosemary"},
    {"Äpfel", "apfel"}, {"apfel", "apfel"},   {"CLAY", "clay"},
    {"clays", "clays"}, {"pink", "pink"},     {"piñk", "pink"},
    {"moss", "moss"},   {"crème", "creme"},   {"Straße", "straße"},
    {"ΡΟΔΟ", "ροδο"},   {"2024", "2024"},     {"20", "20"},
    {"and", "and"},     {"OR", "or"},         {"not", "not"},
    {"NEAR", "near"},   {"recipe", "recipe"}, {"held", "held"},
    {"hold", "hold"},   {"26", "26"},         {"day", "day"},
    {"a", "a"},
};

/* The plain words of one batch, by where they stand, each list with blanks around every word. */
struct doc {
    int64_t id, started_s;
    bool counted;
    char in[BOOK_INS][TEXT_BYTES]; /* BOOK_ANYWHERE: what was said */
};

struct find {
    struct booked booked; /* first, so that its setup and teardown do for this */
    struct doc doc[ROWS];
};

static int random_word(struct find *find)
{
    return chance_below(&find->booked.scratch->chance, (int)(sizeof words / sizeof words[0]));
}

static void random_words(struct find *find, char written[TEXT_BYTES], char plain[TEXT_BYTES])
{
    static const char *const between[] = {" ", ", ", "-", " \"", "\t(", "/"};
    int n = chance_below(&find->booked.scratch->chance, WORDS);

    written[0] = '\0';
    text_copy(plain, TEXT_BYTES, " ");
    for (int i = 0; i < n; i++) {
        int word = random_word(find);

        text_add(written, TEXT_BYTES, "%s%s", words[word].written,
                 between[chance_below(&find->booked.scratch->chance, 6)]);
        text_add(plain, TEXT_BYTES, "%s ", words[word].plain);
    }
}

static void own_words(struct doc *doc, enum book_outcome outcome)
{
    static const char *const outcomes[BOOK_OUTCOMES] = {" on the bench ", " made ",     " released ",
                                                        " on hold ",      " rejected ", " set aside "};
    time_t local = (time_t)doc->started_s - 3600;
    struct tm day;

    gmtime_r(&local, &day);
    strftime(doc->in[BOOK_IN_DAY], TEXT_BYTES, " %Y%m%d %Y%m %Y ", &day);
    text_copy(doc->in[BOOK_IN_OUTCOME], TEXT_BYTES, outcomes[outcome]);
}

/* Written once with other words, so that those are to be forgotten. */
static void add_doc(struct find *find, struct doc *doc)
{
    struct booked *booked = &find->booked;
    struct chance *chance = &booked->scratch->chance;
    char written[BOOK_INS][TEXT_BYTES];
    struct book_row row;

    doc->started_s = (int64_t)FIRST_S + chance_below(chance, 500) * (DAY_S / 3);
    doc->id = booked_batch(booked, "Hedge Rose", doc->started_s);
    row = booked_row(doc->id);
    row.outcome = BOOK_ON_HOLD;
    booked_write(booked, &row, "forgotten rose moss", "clay 2024");
    row.outcome = (enum book_outcome)chance_below(chance, BOOK_OUTCOMES);
    row.left_out = chance_below(chance, 5) == 0;
    doc->counted = !row.left_out && row.outcome != BOOK_RUNNING && row.outcome != BOOK_SET_ASIDE;
    for (int in = BOOK_ANYWHERE; in <= BOOK_IN_FRAGRANCE; in++)
        random_words(find, written[in], doc->in[in]);
    own_words(doc, row.outcome);

    const struct book_words said = {written[BOOK_IN_RECIPE], written[BOOK_IN_COLOURANT], written[BOOK_IN_FRAGRANCE],
                                    written[BOOK_ANYWHERE]};

    booked_ok(booked, book_write(booked->store, &row, &said, &booked->error));
}

static int newest_first(const void *one, const void *other)
{
    const struct doc *a = one, *b = other;

    if (a->started_s != b->started_s)
        return a->started_s < b->started_s ? 1 : -1;
    return a->id < b->id ? 1 : -1;
}

static void fill(struct find *find)
{
    booked_ok(&find->booked, store_begin(find->booked.store, &find->booked.error));
    for (int i = 0; i < ROWS; i++)
        add_doc(find, &find->doc[i]);
    booked_ok(&find->booked, store_end(find->booked.store, LW_OK, &find->booked.error));
    qsort(find->doc, ROWS, sizeof find->doc[0], newest_first);
}

static int setup(void **state)
{
    struct find *find = calloc(1, sizeof *find);
    void *booked;

    if (!find || booked_setup(&booked) != 0)
        return -1;
    find->booked = *(struct booked *)booked;
    free(booked);
    *state = find;
    return 0;
}

/* ---- the reader */

/* A term with the plain words it stands for, " pink clay ", "" for none. */
struct asked {
    struct book_term term;
    char plain[TEXT_BYTES];
};

static bool stands_in(const char *list, const char *plain, bool whole)
{
    char sought[TEXT_BYTES];

    text_copy(sought, sizeof sought, plain);
    if (!whole)
        sought[strlen(sought) - 1] = '\0';
    return strstr(list, sought) != NULL;
}

/* A day may be asked for without saying that it is one. */
static bool day_stands_in(const struct doc *doc, const struct book_term *term)
{
    char day[TEXT_BYTES] = " ";

    if (!strchr(term->text, '-') || term->text[strspn(term->text, "0123456789-")] != '\0')
        return false;
    for (const char *c = term->text; *c; c++)
        if (*c != '-')
            text_add(day, sizeof day, "%c", *c);
    text_add(day, sizeof day, " ");
    return stands_in(doc->in[BOOK_IN_DAY], day, term->whole);
}

static bool doc_has(const struct doc *doc, const struct asked *asked)
{
    if (asked->plain[0] == '\0')
        return true;
    if (asked->term.in != BOOK_ANYWHERE)
        return stands_in(doc->in[asked->term.in], asked->plain, asked->term.whole);
    for (int in = 0; in < BOOK_INS; in++)
        if (stands_in(doc->in[in], asked->plain, asked->term.whole))
            return true;
    return day_stands_in(doc, &asked->term);
}

/* Ids from the newest on; how many. */
static int read_through(const struct find *find, const struct book_filter *filter, const struct asked asked[],
                        int64_t id[ROWS])
{
    int n = 0;

    for (int i = 0; i < ROWS; i++) {
        const struct doc *doc = &find->doc[i];
        bool has = doc->started_s >= filter->from_s && (filter->before_s == 0 || doc->started_s < filter->before_s) &&
                   (doc->counted || !filter->counted_only);

        for (int k = 0; has && k < filter->terms; k++)
            has = doc_has(doc, &asked[k]);
        if (has)
            id[n++] = doc->id;
    }
    return n;
}

/* ---- the index */

struct list {
    int n;
    struct book_line line[ROWS];
};

static bool add_line(void *context, const struct book_line *line)
{
    struct list *list = context;

    assert_true(list->n < ROWS);
    list->line[list->n++] = *line;
    return true;
}

static void walk(struct find *find, const struct book_filter *filter, bool backwards, struct list *list)
{
    struct booked *booked = &find->booked;
    struct book_line beyond;
    int before;

    list->n = 0;
    do {
        before = list->n;
        if (before > 0)
            beyond = list->line[before - 1];
        booked_ok(booked, book_page(booked->store, filter, BOOK_NEWEST, before > 0 ? &beyond : NULL, backwards, PAGE,
                                    add_line, list, &booked->error));
    } while (list->n - before == PAGE);
}

static const char *words_of(const struct book_filter *filter)
{
    static char all[BOOK_TERMS * 80];

    all[0] = '\0';
    for (int i = 0; i < filter->terms; i++)
        text_add(all, sizeof all, "%d%s<%s> ", filter->term[i].in, filter->term[i].whole ? "=" : "",
                 filter->term[i].text);
    return all;
}

/* How many were found, the same by both. */
static int found_as_read(struct find *find, struct book_filter *filter, const struct asked asked[])
{
    static struct list list;
    int64_t id[ROWS];
    int n, counted;

    for (int i = 0; i < filter->terms; i++)
        filter->term[i] = asked[i].term;
    n = read_through(find, filter, asked, id);
    booked_ok(&find->booked, book_count(find->booked.store, filter, ROWS, &counted, &find->booked.error));
    if (counted != n)
        fail_msg("%s: counted %d, read %d", words_of(filter), counted, n);
    for (int backwards = 0; backwards < 2; backwards++) {
        walk(find, filter, backwards, &list);
        if (list.n != n)
            fail_msg("%s: found %d, read %d", words_of(filter), list.n, n);
        for (int i = 0; i < n; i++)
            assert_int_equal(list.line[i].id, id[backwards ? n - 1 - i : i]);
    }
    return n;
}

/* ---- asked */

/* Some words of the list one after the other, the last cut short unless it is to be whole. */
static void ask_words(struct find *find, struct asked *asked)
{
    struct chance *chance = &find->booked.scratch->chance;
    int n = chance_below(chance, 6) == 0 ? 2 : 1;

    text_copy(asked->plain, TEXT_BYTES, " ");
    for (int i = 0; i < n; i++) {
        int word = random_word(find);

        text_add(asked->term.text, BOOK_TERM_BYTES, "%s%s", i > 0 ? " " : "", words[word].written);
        text_add(asked->plain, TEXT_BYTES, "%s ", words[word].plain);
    }
    if (asked->term.whole || (unsigned char)asked->plain[1] >= 0x80 || strstr(asked->plain, "ß") || n > 1)
        return;
    asked->plain[2 + (size_t)chance_below(chance, (int)strlen(asked->plain) - 2)] = '\0';
    text_copy(asked->term.text, BOOK_TERM_BYTES, asked->plain + 1);
    text_add(asked->plain, TEXT_BYTES, " ");
}

static void ask_outcome(struct find *find, struct asked *asked)
{
    static const char *const texts[] = {"Made", "on hold", "hold", "re", "set as", "RELEASED", "on"};
    const char *text = texts[chance_below(&find->booked.scratch->chance, 7)];

    text_copy(asked->term.text, BOOK_TERM_BYTES, text);
    text_add(asked->plain, TEXT_BYTES, " %s ", text);
    for (char *c = asked->plain; *c; c++)
        *c = (char)tolower((unsigned char)*c);
}

static void ask_day(struct find *find, struct asked *asked)
{
    struct chance *chance = &find->booked.scratch->chance;
    const char *day = find->doc[chance_below(chance, ROWS)].in[BOOK_IN_DAY] + 1;
    static const int length[] = {4, 7, 10, 10, 6, 9, 3};
    int n = length[chance_below(chance, asked->term.whole ? 4 : 7)];

    text_add(asked->term.text, BOOK_TERM_BYTES, "%.4s-%.2s-%.2s", day, day + 4, day + 6);
    asked->term.text[n] = '\0';
    text_add(asked->plain, TEXT_BYTES, " ");
    for (const char *c = asked->term.text; *c; c++)
        if (*c != '-')
            text_add(asked->plain, TEXT_BYTES, "%c", *c);
    text_add(asked->plain, TEXT_BYTES, " ");
}

static void ask(struct find *find, struct asked *asked)
{
    struct chance *chance = &find->booked.scratch->chance;

    memset(asked, 0, sizeof *asked);
    asked->term.in = (enum book_in)chance_below(chance, BOOK_INS);
    asked->term.whole = chance_below(chance, 3) == 0;
    if (asked->term.in == BOOK_IN_DAY)
        ask_day(find, asked);
    else if (asked->term.in == BOOK_IN_OUTCOME)
        ask_outcome(find, asked);
    else
        ask_words(find, asked);
}

static void words_find_the_batches_that_a_reader_finds(void **state)
{
    struct find *find = *state;
    struct chance *chance = &find->booked.scratch->chance;
    int some = 0, none = 0;

    fill(find);
    for (int round = 0; round < ROUNDS; round++) {
        struct asked asked[BOOK_TERMS];
        struct book_filter filter = {.terms = 1 + chance_below(chance, 3),
                                     .counted_only = chance_below(chance, 4) == 0};

        if (chance_below(chance, 4) == 0) {
            filter.from_s = FIRST_S + 30 * DAY_S;
            filter.before_s = filter.from_s + 60 * DAY_S;
        }
        for (int i = 0; i < filter.terms; i++)
            ask(find, &asked[i]);
        *(found_as_read(find, &filter, asked) > 0 ? &some : &none) += 1;
    }
    assert_true(some > ROUNDS / 4 && none > ROUNDS / 20);
    assert_true(booked_unscanned(&find->booked, SQL_BOOK_DUE, SQL_BOOK_LINE) > 10);
}

static void a_day_is_found_without_saying_that_it_is_one(void **state)
{
    struct find *find = *state;
    int n = 0;

    fill(find);
    for (int i = 0; i < 200; i++) {
        struct asked asked = {.term = {.in = BOOK_ANYWHERE, .whole = i % 2}};
        struct book_filter filter = {.terms = 1};

        ask_day(find, &asked);
        if (!strchr(asked.term.text, '-'))
            continue;
        /* As words it would be a number and the next after it; only the words of a day are written together. */
        text_copy(asked.plain, TEXT_BYTES, " none such ");
        n += found_as_read(find, &filter, &asked);
    }
    assert_true(n > 0);
}

/* Every term twelve times as long as it can be: the expression holds it. */
static void as_many_and_as_long_terms_as_there_may_be_are_looked_for(void **state)
{
    struct find *find = *state;
    struct book_filter filter = {.terms = BOOK_TERMS};
    int n;

    fill(find);
    for (int i = 0; i < BOOK_TERMS; i++) {
        filter.term[i].in = BOOK_IN_FRAGRANCE;
        memset(filter.term[i].text, '"', BOOK_TERM_BYTES - 1);
        filter.term[i].text[BOOK_TERM_BYTES - 2] = 'r';
    }
    booked_ok(&find->booked, book_count(find->booked.store, &filter, ROWS, &n, &find->booked.error));
    assert_true(n > 0 && n < ROWS);
    for (int i = 0; i < BOOK_TERMS; i++) {
        memset(filter.term[i].text, '1', BOOK_TERM_BYTES - 1);
        filter.term[i].text[3] = '-';
        filter.term[i].in = BOOK_ANYWHERE;
    }
    booked_ok(&find->booked, book_count(find->booked.store, &filter, ROWS, &n, &find->booked.error));
    assert_int_equal(n, 0);
}

/* What would mean something in the index's own language, https://www.sqlite.org/fts5.html#full_text_query_syntax */
static void ask_hostile(struct find *find, struct asked *asked)
{
    static const char *const pieces[] = {"\"",    "*",     "(",      ")",   ":",  "^",    "+",  "-",     "{",
                                         "}",     "'",     "\\",     ";",   "--", ",",    " ",  " AND ", " OR ",
                                         " NOT ", "NEAR(", "recipe", "day", "a",  "rose", "\t", "%"};
    struct chance *chance = &find->booked.scratch->chance;
    bool in_word = false;

    memset(asked, 0, sizeof *asked);
    asked->term.in = (enum book_in)chance_below(chance, BOOK_IN_FRAGRANCE + 1);
    asked->term.whole = chance_below(chance, 2);
    for (int n = 1 + chance_below(chance, 6); n > 0; n--)
        text_add(asked->term.text, BOOK_TERM_BYTES, "%s",
                 pieces[chance_below(chance, (int)(sizeof pieces / sizeof pieces[0]))]);
    for (const char *c = asked->term.text; *c; c++) {
        bool letter = isalnum((unsigned char)*c) != 0;

        if (letter != in_word || (letter && asked->plain[0] == '\0'))
            text_add(asked->plain, TEXT_BYTES, "%s", letter && asked->plain[0] != '\0' ? "" : " ");
        if (letter)
            text_add(asked->plain, TEXT_BYTES, "%c", tolower((unsigned char)*c));
        in_word = letter;
    }
    if (in_word)
        text_add(asked->plain, TEXT_BYTES, " ");
    if (asked->plain[strspn(asked->plain, " ")] == '\0')
        asked->plain[0] = '\0';
}

static void whatever_stands_in_a_term_is_looked_for_and_never_obeyed(void **state)
{
    struct find *find = *state;
    int some = 0;

    fill(find);
    for (int round = 0; round < ROUNDS; round++) {
        struct asked asked[2];
        struct book_filter filter = {.terms = 1 + chance_below(&find->booked.scratch->chance, 2)};

        for (int i = 0; i < filter.terms; i++)
            ask_hostile(find, &asked[i]);
        some += found_as_read(find, &filter, asked) > 0;
    }
    assert_true(some > ROUNDS / 10 && some < ROUNDS);
}

static void what_is_no_text_finds_nothing_and_breaks_nothing(void **state)
{
    static const char *const texts[] = {"\xFF\xFE", "\xC3", "\xE2\x82", "\xED\xA0\x80", "\x01\x02z\x7F"};
    struct find *find = *state;
    int n;

    fill(find);
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        struct book_filter filter = {.terms = 1, .term = {{.whole = true}}};

        text_add(filter.term[0].text, BOOK_TERM_BYTES, "%s", texts[i]);
        booked_ok(&find->booked, book_count(find->booked.store, &filter, ROWS, &n, &find->booked.error));
        assert_true(n == 0 || n == ROWS); /* nothing in it to look for, or not there */
    }
}

/* An arrow, a dash and a heart are no letters; a fraction and a letter of any script are. */
static void a_term_without_a_letter_or_digit_is_left_out(void **state)
{
    static const char *const without[] = {"", " ", "--", "\"\"", "→", "— …", "♥", "«»", "*"}, *const with[] = {"½", "ж",
                                                                                                               "_z_"};
    struct find *find = *state;
    int n;

    fill(find);
    for (size_t i = 0; i < sizeof without / sizeof without[0]; i++) {
        struct book_filter filter = {.terms = 1};

        text_copy(filter.term[0].text, BOOK_TERM_BYTES, without[i]);
        booked_ok(&find->booked, book_count(find->booked.store, &filter, ROWS, &n, &find->booked.error));
        assert_int_equal(n, ROWS);
    }
    for (size_t i = 0; i < sizeof with / sizeof with[0]; i++) {
        struct book_filter filter = {.terms = 1};

        text_copy(filter.term[0].text, BOOK_TERM_BYTES, with[i]);
        booked_ok(&find->booked, book_count(find->booked.store, &filter, ROWS, &n, &find->booked.error));
        assert_int_equal(n, 0);
    }
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, booked_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(words_find_the_batches_that_a_reader_finds),
        TEST(a_day_is_found_without_saying_that_it_is_one),
        TEST(as_many_and_as_long_terms_as_there_may_be_are_looked_for),
        TEST(whatever_stands_in_a_term_is_looked_for_and_never_obeyed),
        TEST(what_is_no_text_finds_nothing_and_breaks_nothing),
        TEST(a_term_without_a_letter_or_digit_is_left_out),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
