/* Colours in words. What most people call a colour: the basic colour terms of Berlin and Kay (1969) for plain cases (8B4513 is saddle brown in CSS), and
 * common practice for those of soap; the bounds between them are the program's own. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "lyeway/facts.h"
#include "work/look.h"

static void plain_colours_have_their_plain_names(void **state)
{
    static const struct {
        unsigned rgb;
        const char *word;
    } table[] = {
        {0x000000, "black"},     {0xFFFFFF, "white"},     {0x808080, "grey"},       {0xFF0000, "red"},
        {0x0000FF, "blue"},      {0x00C000, "green"},     {0xFFF060, "yellow"},     {0x8B4513, "brown"},
        {0x8A6A52, "brown"},     {0xF0E6CF, "cream"},     {0xF5C8CC, "pale pink"},  {0x5B2A86, "violet"},
        {0x203040, "dark blue"}, {0xA8E0E0, "turquoise"}, {0xB9CDA9, "grey-green"}, {0xFF0001, "red"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        if (strcmp(look_word(table[i].rgb), table[i].word) != 0)
            fail_msg("#%06X is %s, not %s", table[i].rgb, look_word(table[i].rgb), table[i].word);
}

/* Every sixth code of each channel: a word of at most 14 columns, so that two of them fit a line. */
static void every_colour_has_a_word(void **state)
{
    (void)state;
    for (unsigned red = 0; red < 256; red += 5)
        for (unsigned green = 0; green < 256; green += 5)
            for (unsigned blue = 0; blue < 256; blue += 5)
                assert_in_range(strlen(look_word(red << 16 | green << 8 | blue)), 3, 14);
}

struct coloured {
    struct recipe recipe;
    struct recipe_facts facts;
    struct bench bench;
    struct plan_input input;
    struct plan plan;
};

static void start(struct coloured *c, const struct colourant_fact *fact)
{
    memset(c, 0, sizeof *c);
    c->recipe.portions = c->plan.portions = 1;
    c->recipe.portion[0].colourants = 1;
    c->facts.colourant[0][0] = fact;
    c->input = (struct plan_input){&c->recipe, &c->facts, facts_reference(), &c->bench};
}

static void says(const struct coloured *c, const char *expected)
{
    char words[72];

    look_of_portion(&c->input, &c->plan, 0, words, sizeof words);
    assert_string_equal(words, expected);
}

static void a_colour_that_stays_is_one_hint(void **state)
{
    static const struct colourant_fact red = {.behaviour = ALKALI_STABLE};
    struct coloured c;

    (void)state;
    start(&c, &red);
    c.plan.portion[0].colour = (struct plan_colour){true, 0xF5C8CC, 0xF5C8CC};
    says(&c, "hint: pale pink");
}

/* Common practice: turmeric is red-brown in fresh batter and comes back within days. */
static void a_colour_that_shifts_is_said_for_now_and_later(void **state)
{
    static const struct {
        enum alkaline_behaviour behaviour;
        const char *words;
    } table[] = {
        {ALKALI_SHIFTS_RETURNS, "hint: red-brown now, comes back to yellow by about day 3"},
        {ALKALI_SHIFTS, "hint: red-brown now, settles to yellow in the cure"},
        {ALKALI_FADES, "hint: red-brown now, fades to yellow in some weeks"},
    };
    struct coloured c;

    (void)state;
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        struct colourant_fact fact = {.behaviour = table[i].behaviour, .fresh_rgb = 0x9C4A2C};

        start(&c, &fact);
        c.plan.portion[0].colour = (struct plan_colour){true, 0x9F4D2E, 0xDEB75E};
        says(&c, table[i].words);
    }
}

/* The batter is coloured before the split by what stands under another portion. */
static void a_whole_batter_says_what_its_colourant_does(void **state)
{
    static const struct colourant_fact fading = {.behaviour = ALKALI_FADES, .fresh_rgb = 0x7F9A5E};
    struct coloured c;

    (void)state;
    start(&c, NULL);
    c.recipe.portion[0].colourants = 0;
    c.recipe.portions = 2;
    c.recipe.portion[1].colourants = 1;
    c.facts.colourant[1][0] = &fading;
    c.recipe.colour = PUT_IN_BATTER;
    c.plan.portion[0].source = -1;
    c.plan.portion[0].colour = (struct plan_colour){true, 0x9F4D2E, 0xDEB75E};
    says(&c, "hint: red-brown now, fades to yellow in some weeks");
}

static void a_colour_that_is_not_known_is_not_named(void **state)
{
    static const struct colourant_fact unsuited = {.behaviour = ALKALI_SHIFTS};
    struct coloured c;

    (void)state;
    start(&c, &unsuited);
    says(&c, "colour not known: one of its colourants has no usual dose in soap");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plain_colours_have_their_plain_names),
        cmocka_unit_test(every_colour_has_a_word),
        cmocka_unit_test(a_colour_that_stays_is_one_hint),
        cmocka_unit_test(a_colour_that_shifts_is_said_for_now_and_later),
        cmocka_unit_test(a_whole_batter_says_what_its_colourant_does),
        cmocka_unit_test(a_colour_that_is_not_known_is_not_named),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
