/* What remedies and slips say. The sentences are the program's own; their figures are checked against what went in. An ounce is
 * 28.349523125 g (NIST Handbook 44, Appendix C). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/mass.h"
#include "base/text.h"
#include "base/utf8.h"
#include "work/words_put_right.h"

struct bench_of_words {
    struct recipe recipe;
    struct recipe_facts facts;
    struct bench bench;
    struct plan_input input;
    struct plan plan;
    struct put_right_input asked;
};

/* Three oils of that name and one of every part, on scales of 1 g and 0.01 g. */
static struct bench_of_words *bench_with(const char *name)
{
    static struct bench_of_words b;

    memset(&b, 0, sizeof b);
    b.recipe.oils = 3;
    b.recipe.additives = b.recipe.water.liquids = 1;
    b.recipe.superfat = 0.05;
    for (int i = 0; i < RECIPE_OILS; i++)
        text_copy(b.recipe.oil[i].name, LW_NAME_BYTES, name);
    text_copy(b.recipe.additive[0].name, LW_NAME_BYTES, name);
    text_copy(b.recipe.water.liquid[0].name, LW_NAME_BYTES, name);
    b.plan.scales = 2;
    b.plan.scale[0] = (struct scale){.division_ug = mass_ug(1), .capacity_ug = mass_ug(5000)};
    b.plan.scale[1] = (struct scale){.division_ug = mass_ug(0.01), .capacity_ug = mass_ug(200)};
    b.input = (struct plan_input){&b.recipe, &b.facts, facts_reference(), &b.bench};
    b.asked = (struct put_right_input){.in = &b.input, .plan = &b.plan};
    return &b;
}

static struct remedy remedy_of(enum remedy_kind kind, struct part_ref what, double grams, double superfat)
{
    return (struct remedy){.kind = kind,
                           .what = what,
                           .mass_ug = mass_ug(grams),
                           .share = 0.939,
                           .oil_ug = {mass_ug(28.8), mass_ug(16), mass_ug(19.3)},
                           .alkali_ug = mass_ug(0.33 * grams),
                           .water_ug = mass_ug(0.67 * grams),
                           .strength = 0.33,
                           .margin = {.nominal = superfat, .likely = {superfat - 0.012, superfat + 0.03}}};
}

static const struct part_ref OIL = {PART_OIL, 1, 0}, SODA = {PART_ALKALI, 0, 0}, WATER = {PART_WATER, 0, 0};

static void says(const struct bench_of_words *b, const struct remedy *remedy, const char *what)
{
    struct words words;

    words_of_remedy(&b->asked, remedy, MASS_G, &words);
    assert_string_equal(words.what, what);
}

static void each_remedy_says_what_is_done_and_what_superfat_becomes(void **state)
{
    struct bench_of_words *b = bench_with("coconut oil");
    struct remedy r;

    (void)state;
    r = remedy_of(REMEDY_LEAVE, OIL, 0, 0.061);
    says(b, &r, "Leave it: superfat is now 6.1 % (likely 4.9 to 9.1).");
    r = remedy_of(REMEDY_TAKE_OUT, OIL, 20, 0.05);
    says(b, &r, "Take 20.00 g of coconut oil out again; superfat is then 5.0 % (likely 3.8 to 8.0).");
    r = remedy_of(REMEDY_ADD, OIL, 250, 0.05);
    says(b, &r, "Add 250 g of coconut oil; superfat is then 5.0 % (likely 3.8 to 8.0).");
    r = remedy_of(REMEDY_ADD, SODA, 12, 0.05);
    says(b, &r, "Add 12.00 g of NaOH; superfat is then 5.0 % (likely 3.8 to 8.0).");
    r = remedy_of(REMEDY_ADD, WATER, 160, 0.05);
    says(b, &r,
         "Add 160.00 g of water before the lye is used; it is then 33 %, and superfat 5.0 % (likely 3.8 to 8.0).");
    r = remedy_of(REMEDY_POUR_SHARE, SODA, 408, 0.051);
    says(b, &r, "Pour only 408 g of the mixed lye, 93.9 % of it; superfat is then 5.1 % (likely 3.9 to 8.1).");
    r = remedy_of(REMEDY_ADD_OILS, (struct part_ref){PART_BATTER, 0, 0}, 64.1, 0.05);
    says(b, &r, "Add 64.10 g of oils as the recipe has them; superfat is then 5.0 % (likely 3.8 to 8.0).");
    r = remedy_of(REMEDY_ADD_OIL, OIL, 64.1, 0.05);
    r.mould_over = true;
    says(b, &r,
         "Add 64.10 g of coconut oil; superfat is then 5.0 % (likely 3.8 to 8.0). The mould does not hold it all.");
    r = remedy_of(REMEDY_ADD_LYE, SODA, 36, 0.05);
    says(b, &r, "Add 36.00 g of lye of 33 %, with 11.88 g of NaOH in it; superfat is then 5.0 % (likely 3.8 to 8.0).");
    r = remedy_of(REMEDY_SET_ASIDE, SODA, 0, -0.011);
    says(b, &r, "Set it aside and do not use it: superfat is -1.1 % (likely -2.3 to 1.9).");
}

static void oils_in_proportion_are_listed(void **state)
{
    struct bench_of_words *b = bench_with("oil");
    struct remedy r = remedy_of(REMEDY_ADD_OILS, OIL, 64.1, 0.05);
    struct words words;

    (void)state;
    text_copy(b->recipe.oil[1].name, LW_NAME_BYTES, "palm");
    words_of_remedy(&b->asked, &r, MASS_G, &words);
    assert_string_equal(words.todo, "Melt and blend in: 28.80 g of oil, 16.00 g of palm, 19.30 g of oil.");
    words_of_remedy(&b->asked, &r, MASS_OZ, &words);
    assert_non_null(strstr(words.todo, "1.02 oz of oil")); /* 28.8 / 28.3495 */
    b->recipe.oils = 5;
    r.oil_ug[3] = r.oil_ug[4] = mass_ug(1);
    words_of_remedy(&b->asked, &r, MASS_G, &words);
    assert_non_null(strstr(words.todo, "5 oils"));
}

/* Above the solubility, leaving it says what to look for; above and below what was asked, what it means. */
static void leaving_it_says_what_it_means(void **state)
{
    struct bench_of_words *b = bench_with("oil");
    struct remedy r = remedy_of(REMEDY_LEAVE, OIL, 0, 0.08);
    struct words words;

    (void)state;
    words_of_remedy(&b->asked, &r, MASS_G, &words);
    assert_non_null(strstr(words.todo, "softer"));
    r.margin.nominal = 0.03;
    words_of_remedy(&b->asked, &r, MASS_G, &words);
    assert_non_null(strstr(words.todo, "Less oil"));
    r.margin.nominal = 0.045;
    words_of_remedy(&b->asked, &r, MASS_G, &words);
    assert_non_null(strstr(words.todo, "within a point"));
    r.strength = 0.54;
    words_of_remedy(&b->asked, &r, MASS_G, &words);
    assert_non_null(strstr(words.todo, "grains"));
}

static void what_handles_alkali_comes_with_the_safety_notes(void **state)
{
    static const struct {
        enum remedy_kind kind;
        struct part_ref what;
        bool notes;
    } rows[] = {
        {REMEDY_ADD, {PART_ALKALI, 0, 0}, true},       {REMEDY_TAKE_OUT, {PART_ALKALI, 1, 0}, true},
        {REMEDY_ADD, {PART_WATER, 0, 0}, true},        {REMEDY_ADD_LYE, {PART_ALKALI, 0, 0}, true},
        {REMEDY_POUR_SHARE, {PART_OIL, 0, 0}, true},   {REMEDY_ADD, {PART_OIL, 0, 0}, false},
        {REMEDY_LEAVE, {PART_ALKALI, 0, 0}, false},    {REMEDY_TAKE_OUT, {PART_OIL, 0, 0}, false},
        {REMEDY_ADD_OILS, {PART_BATTER, 0, 0}, false},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct remedy r = remedy_of(rows[i].kind, rows[i].what, 5, 0.05);
        const char *notes = words_of_remedy_safety(&r);

        assert_int_equal(notes[0] != '\0', rows[i].notes);
        if (rows[i].notes) {
            assert_non_null(strstr(notes, "Goggles"));
            assert_non_null(strstr(notes, "alkali into water"));
            assert_non_null(strstr(notes, "no vinegar"));
        }
    }
}

static void tells(const struct bench_of_words *b, struct slip_told told, const char *sentence)
{
    char out[WORDS_WHAT_BYTES];

    words_of_slip(&b->input, &b->plan, &told, MASS_G, out, sizeof out);
    assert_string_equal(out, sentence);
}

static void each_slip_is_one_sentence(void **state)
{
    struct bench_of_words *b = bench_with("olive oil");

    (void)state;
    tells(b, (struct slip_told){.slip = {.kind = SLIP_NONE}}, "");
    tells(b,
          (struct slip_told){{.kind = SLIP_NOT_TARED}, OIL, mass_ug(250), mass_ug(462), mass_ug(212), "the jug", NULL},
          "The reading is the jug and olive oil together: 212 g of it is the jug; it was not tared.");
    tells(b, (struct slip_told){{.kind = SLIP_OUNCES}, OIL, mass_ug(340), mass_ug(12), 0, NULL, NULL},
          "340 g was asked, which is 11.99 oz: the figure read is most likely ounces.");
    tells(b, (struct slip_told){{.kind = SLIP_OUNCES}, OIL, mass_ug(12), mass_ug(340), 0, NULL, NULL},
          "340 g is 11.99 oz: as many ounces were most likely weighed as grams were asked.");
    tells(b, (struct slip_told){{.kind = SLIP_OTHER_BATCH}, SODA, mass_ug(140), mass_ug(97), 0, NULL, "Blossoms"},
          "97.00 g is what Blossoms asks for: most likely that one was weighed.");
    tells(b, (struct slip_told){{.kind = SLIP_TWICE}, OIL, mass_ug(250), mass_ug(500), 0, NULL, NULL},
          "The reading is twice what was asked: olive oil most likely went in twice.");
    tells(b, (struct slip_told){{.kind = SLIP_FORGOTTEN, .what = OIL}, {0}, mass_ug(1000), mass_ug(750), 0, NULL, NULL},
          "The jug is 250 g short: olive oil is most likely not in it.");
    tells(b, (struct slip_told){{.kind = SLIP_FORGOTTEN}, {0}, mass_ug(1000), mass_ug(750), 0, NULL, NULL},
          "The jug is 250 g short: one of the ingredients of about that mass is most likely not in it.");
    tells(b, (struct slip_told){{.kind = SLIP_EXTRA, .what = OIL}, {0}, mass_ug(1000), mass_ug(1250), 0, NULL, NULL},
          "The jug is 250 g too heavy: olive oil is most likely in it twice.");
    tells(b, (struct slip_told){{.kind = SLIP_PLAIN_WATER}, {0}, mass_ug(1425), mass_ug(1285), 0, NULL, NULL},
          "The jug is 140.00 g short, the mass of the alkali: plain water most likely went in where lye should be.");
    tells(b, (struct slip_told){{.kind = SLIP_WRONG_ALKALI}, SODA, mass_ug(140), mass_ug(218), 0, NULL, NULL},
          "218 g is what it would be of KOH in place of NaOH: read the label of the tub before it goes in.");
}

static void is_a_sentence(const char *text)
{
    static const char *const never[] = {"  ", "nan", "inf", "%s", "(null)", " .", "..", "safe", "?"};
    size_t n = strlen(text), bad = 0;

    if (n == 0 || n >= WORDS_WHAT_BYTES - 10 || text[n - 1] != '.')
        fail_msg("%zu bytes: \"%s\"", n, text);
    if (!utf8_valid(text, n, &bad))
        fail_msg("broken UTF-8 at %zu", bad);
    for (size_t i = 0; i < sizeof never / sizeof *never; i++)
        if (strstr(text, never[i]))
            fail_msg("\"%s\" in \"%s\"", never[i], text);
}

/* Whatever the name, mass, unit and margin: whole sentences that fit. */
static void every_kind_has_whole_sentences_for_any_name_and_mass(void **state)
{
    static const char *const names[] = {
        "", "oil", "Ninety-five letters of a name that nobody should have to read whole, but that a file may bring in",
        "\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1"};
    static const double grams[] = {0.01, 64.1, 1e6, 1e9};
    static const enum part parts[] = {PART_OIL, PART_ALKALI, PART_WATER, PART_LIQUID, PART_ADDITIVE};

    (void)state;
    for (int i = 0; i < 4 * 4 * 5 * 3; i++) {
        const struct bench_of_words *b = bench_with(names[i % 4]);
        struct part_ref what = {parts[i / 16 % 5], 0, 0};
        enum mass_unit unit = (enum mass_unit)(i / 80);

        for (int kind = REMEDY_LEAVE; kind <= REMEDY_SET_ASIDE; kind++) {
            struct remedy r = remedy_of((enum remedy_kind)kind, what, grams[i / 4 % 4], i % 2 ? -10 : 10);
            struct words words;

            r.mould_over = r.pieces_short = true;
            words_of_remedy(&b->asked, &r, unit, &words);
            is_a_sentence(words.what);
            is_a_sentence(words.todo);
        }
        for (int kind = SLIP_NOT_TARED; kind <= SLIP_WRONG_ALKALI; kind++) {
            struct slip_told told = {{.kind = (enum slip_kind)kind, .what = what},
                                     what,
                                     mass_ug(1),
                                     mass_ug(grams[i / 4 % 4]),
                                     mass_ug(212),
                                     names[i % 4],
                                     names[i % 4]};
            char out[WORDS_WHAT_BYTES];

            words_of_slip(&b->input, &b->plan, &told, unit, out, sizeof out);
            is_a_sentence(out);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_remedy_says_what_is_done_and_what_superfat_becomes),
        cmocka_unit_test(oils_in_proportion_are_listed),
        cmocka_unit_test(leaving_it_says_what_it_means),
        cmocka_unit_test(what_handles_alkali_comes_with_the_safety_notes),
        cmocka_unit_test(each_slip_is_one_sentence),
        cmocka_unit_test(every_kind_has_whole_sentences_for_any_name_and_mass),
    };

    return cmocka_run_group_tests_name("words of putting right", tests, NULL, NULL);
}
