/* What findings say. The sentences are the program's own; their figures are checked against the numbers that went in.
 *
 * Ounces and pounds: NIST Handbook 44 (2024), Appendix C: 28.349523125 g and 453.59237 g, exact. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "base/utf8.h"
#include "work/words.h"

enum { MOST_BYTES = 300 };

/* A recipe with one of every part, whose names are set by each test. */
struct bench_of_words {
    struct recipe recipe;
    struct recipe_facts facts;
    struct bench bench;
    struct plan_input input;
    struct plan plan;
};

static void name_all(struct recipe *recipe, const char *name)
{
    recipe->oils = recipe->additives = recipe->fragrances = recipe->portions = recipe->water.liquids = 1;
    recipe->portion[0].colourants = 1;
    text_copy(recipe->oil[0].name, LW_NAME_BYTES, name);
    text_copy(recipe->additive[0].name, LW_NAME_BYTES, name);
    text_copy(recipe->fragrance[0].name, LW_NAME_BYTES, name);
    text_copy(recipe->water.liquid[0].name, LW_NAME_BYTES, name);
    text_copy(recipe->portion[0].name, LW_NAME_BYTES, name);
    text_copy(recipe->portion[0].colourant[0].name, LW_NAME_BYTES, name);
}

static void set_up(struct bench_of_words *b, const char *name)
{
    memset(b, 0, sizeof *b);
    name_all(&b->recipe, name);
    b->plan.portions = 1;
    b->input = (struct plan_input){&b->recipe, &b->facts, facts_reference(), &b->bench};
}

static struct words say_in(const struct bench_of_words *b, struct finding finding, enum mass_unit unit)
{
    struct words words;

    memset(&words, '#', sizeof words);
    words_of_finding(&b->input, &b->plan, &finding, unit, &words);
    return words;
}

static struct words say(const struct bench_of_words *b, struct finding finding)
{
    return say_in(b, finding, MASS_G);
}

static void has(const char *text, const char *part)
{
    if (!strstr(text, part))
        fail_msg("\"%s\" does not say \"%s\"", text, part);
}

static void is_a_sentence(const char *code, const char *text)
{
    static const char *const never[] = {"  ", "nan", "inf", "%f", "%s", "%d", "(null)", " .", "..", "-0 ", "safe", "?"};
    size_t n = strlen(text), bad = 0;

    if (n == 0 || n >= MOST_BYTES || text[n - 1] != '.')
        fail_msg("%s, %zu bytes: \"%s\"", code, n, text);
    if (!utf8_valid(text, n, &bad))
        fail_msg("%s: broken UTF-8 at %zu", code, bad);
    for (size_t i = 0; i < sizeof never / sizeof *never; i++)
        if (strstr(text, never[i]))
            fail_msg("%s: \"%s\" in \"%s\"", code, never[i], text);
}

/* clang-format off */
static const double numbers[][FINDING_NUMBERS] = {
    {0, 0, 0, 0, 0, 0, 0},
    {0.05, 0.9, 0.02, 1, 190.2, 210.7, 0.1},
    {-0.0123, 0.51, -0.04, -0.06, 0, 0, 0},
    {1e-9, 1e-9, 1e-9, 1e-9, 1e-9, 1e-9, 1e-9},
    {134, 184, 196, 0.27, 2, 0, 0},
    {1e6, 1e6, 1e6, 1e6, 1e6, 1e6, 1e6},
};
static const enum part parts[] = {
    PART_BATTER, PART_OIL, PART_ALKALI, PART_WATER, PART_LIQUID, PART_ADDITIVE, PART_FRAGRANCE, PART_PORTION,
    PART_COLOURANT, PART_CONSTITUENT, PART_SIZE,
};
static const char *const names[] = {
    "moss", "", "olive",
    "Ninety-five letters of a name that nobody should have to read whole, but that a file may bring in",
    "\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1"
    "\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1\xe8\x8a\xb1",
    "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81"
    "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81" "e\xcc\x81",
};
/* clang-format on */

#define COUNT(array) ((int)(sizeof(array) / sizeof *(array)))

static void check_all_of(const struct bench_of_words *b, struct finding finding)
{
    for (int unit = MASS_G; unit <= MASS_LB; unit++)
        for (int part = 0; part < COUNT(parts); part++) {
            finding.about.part = parts[part];

            struct words words = say_in(b, finding, (enum mass_unit)unit);

            is_a_sentence(finding_name(finding.code), words.what);
            is_a_sentence(finding_name(finding.code), words.todo);
        }
}

static void every_code_has_whole_sentences_in_every_unit_about_every_part(void **state)
{
    static struct bench_of_words b;

    (void)state;
    for (int name = 0; name < COUNT(names); name++) {
        set_up(&b, names[name]);
        for (int code = 0; code < FINDING_COUNT; code++)
            for (int level = LEVEL_STOP; level <= LEVEL_REMARK; level++)
                for (int i = 0; i < COUNT(numbers); i++) {
                    struct finding finding = {.code = (enum finding_code)code,
                                              .level = (enum finding_level)level,
                                              .other = {PART_FRAGRANCE, 0, 0}};

                    memcpy(finding.number, numbers[i], sizeof numbers[i]);
                    check_all_of(&b, finding);
                }
    }
}

static void no_two_codes_say_the_same(void **state)
{
    static struct bench_of_words b;
    static struct words words[FINDING_COUNT];

    (void)state;
    set_up(&b, "moss");
    for (int code = 0; code < FINDING_COUNT; code++) {
        struct finding finding = {.code = (enum finding_code)code, .other = {PART_FRAGRANCE, 0, 0}};

        memcpy(finding.number, numbers[1], sizeof numbers[1]);
        words[code] = say(&b, finding);
        for (int other = 0; other < code; other++)
            assert_string_not_equal(words[code].what, words[other].what);
    }
}

static void lye_heavy_says_superfat_chance_and_what_to_change(void **state)
{
    static struct bench_of_words b;
    struct words words;

    (void)state;
    set_up(&b, "olive");
    words = say(&b, (struct finding){.code = FINDING_LYE_HEAVY, .number = {-0.012, 0.83, -0.04, -0.06}});
    has(words.what, "superfat is -1.2 %");
    has(words.what, "about 8 times in 10");
    has(words.todo, "less alkali");
    has(words.todo, "more superfat");
    has(words.todo, "bigger batch");
    has(words.todo, "finer scale");
    words = say(&b, (struct finding){.code = FINDING_LYE_HEAVY, .number = {-1e-9, 0.5, -0.03, -0.05}});
    has(words.what, "superfat of 0 %");
    assert_null(strstr(words.what, "more alkali"));
    words = say(&b, (struct finding){.code = FINDING_LYE_LIKELY, .number = {0.031, 0.05, -0.004, -0.02}});
    has(words.what, "3.1 %");
    has(words.what, "begin at -0.4 %");
    has(words.what, "about 1 time in 20");
}

static void a_margin_names_what_it_mostly_comes_from(void **state)
{
    static struct bench_of_words b;
    struct finding finding = {.code = FINDING_LYE_WORST, .number = {0.05, 0, 0.01, -0.01}};

    (void)state;
    set_up(&b, "House blend");
    b.plan.margin.mostly_from = CAUSE_SAP;
    b.plan.margin.mostly = (struct part_ref){PART_OIL, 0, 0};
    has(say(&b, finding).what, "saponification values of House blend");
    b.plan.margin.mostly_from = CAUSE_PURITY;
    b.plan.margin.mostly = (struct part_ref){PART_ALKALI, ALKALI_KOH, 0};
    has(say(&b, finding).what, "the purity of KOH");
    b.plan.portion[0].margin.mostly_from = CAUSE_SCALE;
    b.plan.portion[0].margin.mostly = (struct part_ref){PART_ALKALI, ALKALI_NAOH, 0};
    finding.about = (struct part_ref){PART_PORTION, 0, 0};
    has(say(&b, finding).what, "the scale that weighs NaOH"); /* of the portion, not of the batter */
    finding.about = (struct part_ref){PART_BATTER, 0, 0};
    b.plan.margin.mostly_from = CAUSE_NONE;
    assert_null(strstr(say(&b, finding).what, "doubt"));
}

static void chances_are_said_as_times(void **state)
{
    static const struct {
        double chance;
        const char *text;
    } cases[] = {
        {0, "less than 1 time in 1000"},
        {0.0009, "less than 1 time in 1000"},
        {0.001, "about 1 time in 1000"},
        {0.0058, "about 1 time in 170"},
        {0.013, "about 1 time in 77"},
        {0.05, "about 1 time in 20"},
        {0.2, "about 1 time in 5"},
        {0.3, "about 3 times in 10"},
        {0.949, "about 9 times in 10"},
        {0.95, "nearly always"},
        {1, "nearly always"},
    };
    static struct bench_of_words b;

    (void)state;
    set_up(&b, "moss");
    for (int i = 0; i < COUNT(cases); i++)
        has(say(&b, (struct finding){.code = FINDING_LYE_LIKELY, .number = {0.02, cases[i].chance}}).what,
            cases[i].text);
}

static void a_coarse_division_offers_sizes_and_a_scale(void **state)
{
    static struct bench_of_words b;
    struct finding finding = {.code = FINDING_DIVISION_COARSE, .number = {0.62, 0.05, 0.068, 1, 197.5, 204.6, 0.1}};
    struct words words;

    (void)state;
    set_up(&b, "moss");
    words = say(&b, finding);
    has(words.what, "division of 1 g");
    has(words.what, "6.8 % where 5 % was asked");
    has(words.what, "62 %");
    has(words.todo, "With 197.5 g or 204.6 g of oils");
    has(words.todo, "0.1 g");
    finding.number[4] = 0;
    has(say(&b, finding).todo, "With 204.6 g of oils");
    finding.number[5] = 0;
    has(say(&b, finding).todo, "A scale with divisions of 0.1 g");
    finding.number[6] = 0.0000004; /* there is no such scale */
    has(say(&b, finding).todo, "bigger batch");
}

static void a_small_dose_is_answered_with_a_dispersion(void **state)
{
    static struct bench_of_words b;
    struct finding finding = {
        .code = FINDING_DOSE_SMALL, .about = {PART_COLOURANT, 0, 0}, .number = {0.04, 0.01, 1, 9, 0.4}};

    (void)state;
    set_up(&b, "rose");
    has(say(&b, finding).what, "Rose in portion rose: 0.04 g is under five divisions");
    assert_string_equal(say(&b, finding).todo, "Mix 1.00 g into 9.00 g of oil, use 0.40 g of that.");
    finding.number[0] = 0.004;
    has(say(&b, finding).what, "cannot be weighed");
    finding.number[0] = 0.005; /* halves are rounded up, so this one can */
    has(say(&b, finding).what, "under five divisions");
}

static void a_limit_names_whose_figure_it_is(void **state)
{
    static struct bench_of_words b;
    static const struct limit_fact limit[] = {
        {.name = "One", .has_ifra = true, .ifra_share = 0.001, .has_eu = true, .eu_share = 0.01},
        {.name = "Two", .has_eu = true, .eu_share = 0.01},
    };
    struct reference reference = {.limit = limit, .limits = 2};
    struct finding finding = {.code = FINDING_FRAGRANCE_LIMIT, .other = {PART_CONSTITUENT, 0, 0}};

    (void)state;
    set_up(&b, "Rose");
    b.input.reference = &reference;
    memcpy(finding.number, (double[]){0.02, 0.001, 0.004}, 3 * sizeof(double));
    has(say(&b, finding).what, "One would be 2 % of the scented soap; IFRA category 9 allows 0.1 %");
    has(say(&b, finding).todo, "at most 0.4 %");
    finding.number[1] = 0.000018;
    has(say(&b, finding).what, "IFRA category 9 allows 0.0018 %");
    finding.number[1] = 0.01;
    has(say(&b, finding).what, "EU Annex III allows 1 %");
    finding.other.index = 1;
    has(say(&b, finding).what, "Two would be");
    has(say(&b, finding).what, "EU Annex III");
    finding.other = (struct part_ref){PART_FRAGRANCE, 0, 0};
    has(say(&b, finding).what, "certificate");
}

static void only_a_scented_portion_is_told_to_leave_the_fragrance_out(void **state)
{
    static struct bench_of_words b;
    struct finding finding = {.code = FINDING_WINDOW_SHORT, .about = {PART_PORTION, 0, 0}, .number = {60, 50, 75, 125}};

    (void)state;
    set_up(&b, "petals");
    assert_null(strstr(say(&b, finding).todo, "fragrance"));
    b.recipe.portion[0].scented = true;
    has(say(&b, finding).todo, "without fragrance");
}

/* With own batches it is the low end of until that the need has to meet, which may come before from. */
static void a_short_window_names_the_batches_that_say_so(void **state)
{
    static struct bench_of_words b;
    struct finding finding = {
        .code = FINDING_WINDOW_SHORT, .about = {PART_PORTION, 0, 0}, .number = {28, 0, 40, 31, 6}};

    (void)state;
    set_up(&b, "petals");
    has(say(&b, finding).what, "28 minutes of work");
    has(say(&b, finding).what, "by 6 batches of yours");
    has(say(&b, finding).what, "from about 40 minutes on and may be too stiff at 31");
}

static void short_portions_say_what_is_missing_and_the_size_that_would_do(void **state)
{
    static struct bench_of_words b;
    struct finding finding = {.code = FINDING_PORTIONS_SHORT, .number = {43, 231.5, 217, 260}};

    (void)state;
    set_up(&b, "moss");
    has(say(&b, finding).what, "43 g more");
    has(say(&b, finding).what, "260 g of the 217 g");
    has(say(&b, finding).todo, "from 231.5 g of oils");
    finding.number[1] = 0;
    assert_null(strstr(say(&b, finding).todo, "oils"));
}

static void masses_in_sentences_are_in_the_makers_unit(void **state)
{
    static struct bench_of_words b;
    struct finding finding = {.code = FINDING_ON_HAND_SHORT, .about = {PART_OIL, 0, 0}, .number = {1000, 453.59237}};

    (void)state;
    set_up(&b, "olive");
    has(say_in(&b, finding, MASS_G).what, "1000 g is needed and 453.6 g is on hand");
    has(say_in(&b, finding, MASS_OZ).what, "35.27 oz is needed and 16 oz is on hand");
    has(say_in(&b, finding, MASS_LB).what, "2 lb 3.3 oz is needed and 1 lb is on hand");
}

static void writes(double g, long long division_ug, enum mass_unit unit, const char *expected)
{
    char text[64];

    words_of_mass(g, division_ug, unit, text, sizeof text);
    assert_string_equal(text, expected);
}

static void grams_show_the_decimals_of_their_scale(void **state)
{
    (void)state;
    writes(147.24, 10000, MASS_G, "147.24 g");
    writes(147.2, 10000, MASS_G, "147.20 g");
    writes(450, 1000000, MASS_G, "450 g");
    writes(147.2475, 0, MASS_G, "147.2 g");
    writes(0.0404, 0, MASS_G, "0.04 g");
    writes(1456.24, 0, MASS_G, "1456 g");
    writes(0, 0, MASS_G, "0 g");
}

static void ounces_and_pounds_follow_the_handbook(void **state)
{
    (void)state;
    writes(147.24, 10000, MASS_OZ, "5.19 oz");
    writes(28.349523125, 0, MASS_OZ, "1 oz");
    writes(1, 0, MASS_OZ, "0.0353 oz");
    writes(10, 0, MASS_OZ, "0.353 oz");
    writes(453.59237 + 3.2 * 28.349523125, 0, MASS_LB, "1 lb 3.2 oz");
    writes(147.24, 10000, MASS_LB, "5.19 oz");
    writes(2 * 453.59237, 0, MASS_LB, "2 lb");
    writes(2 * 453.59237 - 0.5, 0, MASS_LB, "2 lb"); /* 1 lb 15.98 oz, and never 1 lb 16 oz */
}

static void the_large_word_goes_by_the_worst_finding_about_lye(void **state)
{
    static struct plan plan;

    (void)state;
    assert_string_equal(words_of_margin(&plan), "WIDE");
    plan.findings = 2;
    plan.finding[0] = (struct finding){.code = FINDING_STRENGTH_OVER};
    plan.finding[1] = (struct finding){.code = FINDING_RANCID_RISK};
    assert_string_equal(words_of_margin(&plan), "WIDE");
    plan.finding[1].code = FINDING_LYE_WORST;
    assert_string_equal(words_of_margin(&plan), "TIGHT");
    plan.finding[1].code = FINDING_LYE_LIKELY;
    assert_string_equal(words_of_margin(&plan), "TIGHT");
    plan.findings = 3;
    plan.finding[2] = (struct finding){.code = FINDING_LYE_HEAVY, .about = {PART_PORTION, 0, 0}};
    assert_string_equal(words_of_margin(&plan), "LYE-HEAVY");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_code_has_whole_sentences_in_every_unit_about_every_part),
        cmocka_unit_test(no_two_codes_say_the_same),
        cmocka_unit_test(lye_heavy_says_superfat_chance_and_what_to_change),
        cmocka_unit_test(a_margin_names_what_it_mostly_comes_from),
        cmocka_unit_test(chances_are_said_as_times),
        cmocka_unit_test(a_coarse_division_offers_sizes_and_a_scale),
        cmocka_unit_test(a_small_dose_is_answered_with_a_dispersion),
        cmocka_unit_test(a_limit_names_whose_figure_it_is),
        cmocka_unit_test(only_a_scented_portion_is_told_to_leave_the_fragrance_out),
        cmocka_unit_test(a_short_window_names_the_batches_that_say_so),
        cmocka_unit_test(short_portions_say_what_is_missing_and_the_size_that_would_do),
        cmocka_unit_test(masses_in_sentences_are_in_the_makers_unit),
        cmocka_unit_test(grams_show_the_decimals_of_their_scale),
        cmocka_unit_test(ounces_and_pounds_follow_the_handbook),
        cmocka_unit_test(the_large_word_goes_by_the_worst_finding_about_lye),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
