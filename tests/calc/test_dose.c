/* test_dose.c - colour doses by hand and by the worked example; what cannot be weighed well is said. */
#include "calc/split_sample.h"

#include "calc/dose.h"
#include "calc/portion.h"
#include "calc/scales.h"

/* A plan through the doses, of oils_g of oils in batter_g. */
static void doses(struct sample *s, double batter_g, double oils_g)
{
    memset(&s->plan, 0, sizeof s->plan);
    scales_plan(&s->in, &s->plan);
    s->plan.batter_ug = ug(batter_g);
    s->plan.oils_ug = ug(oils_g);
    s->plan.density_g_ml = 1;
    portion_plan(&s->in, &s->plan);
    dose_plan(&s->in, &s->plan);
}

static const struct plan_colourant *dose(const struct sample *s, int i, int c)
{
    return &s->plan.portion[i].colourant[c];
}

/* One portion of everything, no residue, a fine scale for doses. */
static void sample_plain(struct sample *s)
{
    sample_empty(s);
    sample_scale(s, 1, 5000);
    sample_scale(s, 0.001, 200);
    s->recipe.residue_by = RESIDUE_GRAMS;
    sample_portion(s, DEMAND_REST, 0);
}

/* Arithmetic: 6 g/kg of 850 g of oils is 5.100 g. */
static void a_dose_goes_by_the_kilogram_of_oils(void **state)
{
    struct sample s;

    (void)state;
    sample_plain(&s);
    sample_colour(&s, 0, "iron-oxide-red", COLOUR_PER_KG_OILS, 6);
    doses(&s, 1200, 850);
    near(dose(&s, 0, 0)->colourant.exact_g, 5.1, 1e-9);
    near(mass_g(dose(&s, 0, 0)->colourant.rounded_ug), 5.1, 1e-9);
}

/* Arithmetic: 1200 g of oils split 50, 30 and 20 %; white 8 and blue 3 g/kg, the last plain: 4.800, 1.080 and 0 g. */
static void each_portion_is_dosed_on_its_own_oils(void **state)
{
    struct sample s;

    (void)state;
    sample_empty(&s);
    sample_scale(&s, 1, 5000);
    sample_scale(&s, 0.001, 200);
    s.recipe.residue_by = RESIDUE_GRAMS;
    sample_portion(&s, DEMAND_SHARE, 0.5);
    sample_portion(&s, DEMAND_SHARE, 0.3);
    sample_portion(&s, DEMAND_SHARE, 0.2);
    sample_colour(&s, 0, "titanium-dioxide", COLOUR_PER_KG_OILS, 8);
    sample_colour(&s, 1, "ultramarine-blue", COLOUR_PER_KG_OILS, 3);
    doses(&s, 1700, 1200);
    near(dose(&s, 0, 0)->colourant.exact_g, 4.8, 1e-9);
    near(dose(&s, 1, 0)->colourant.exact_g, 1.08, 1e-9);
    assert_int_equal(dose(&s, 2, 0)->colourant.division_ug, 0);
    near((4.8 + 1.08) / 1200, 0.0049, 1e-9);
}

/* Source: the worked example of the exchange format. Base 869 g with 17.9 g of lavender and 2.98 g of white: 889.88
 * g, 884 mL. */
static void the_worked_example_is_dosed_as_written_there(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    plan_compute(&s.in, &s.plan);
    near(dose(&s, 0, 0)->colourant.exact_g, 2.9837, 5e-5);
    near(mass_g(dose(&s, 0, 0)->colourant.rounded_ug), 2.98, 1e-9);
    near(dose(&s, 1, 0)->colourant.exact_g, 0.9943, 5e-5);
    near(mass_g(dose(&s, 1, 0)->colourant.rounded_ug), 0.99, 1e-9);
    near(s.plan.portion[0].filled_g, 889.88, 1e-9);
    near(s.plan.portion[1].filled_g, 370.45, 1e-9);
    near(s.plan.portion[2].filled_g, 217, 1e-9);
    near(s.plan.portion[0].volume_ml, 869 / s.plan.density_g_ml + 17.9 / 0.885 + 2.98, 1e-6);
    assert_null(find(&s.plan, FINDING_DOSE_SMALL));
    assert_null(find(&s.plan, FINDING_COLOUR_SHIFTS));
}

/* Common practice: 4.4 g/kg (a level teaspoon to the pound) on a 140.9 g portion that holds 100 g of oils is 0.44 g. */
static void a_spoon_to_the_pound_is_what_makers_weigh(void **state)
{
    struct sample s;

    (void)state;
    sample_plain(&s);
    sample_colour(&s, 0, "mica-white", COLOUR_PER_KG_OILS, 4.4);
    doses(&s, 140.9, 100);
    near(dose(&s, 0, 0)->colourant.exact_g, 0.44, 1e-9);
}

/* By hand: 2 % of 500 g; 3 g; and a blend of 6 g/kg on 350 g of oils, 2.1 g, shared 2 to 1. */
static void doses_are_grams_a_share_or_parts_of_a_blend(void **state)
{
    struct sample s;

    (void)state;
    sample_plain(&s);
    s.recipe.portion[0].blend_by = COLOUR_PER_KG_OILS;
    s.recipe.portion[0].blend_value = 6;
    sample_colour(&s, 0, "kaolin", COLOUR_OF_PORTION, 0.02);
    sample_colour(&s, 0, "iron-oxide-red", COLOUR_PARTS, 2);
    sample_colour(&s, 0, "iron-oxide-yellow", COLOUR_PARTS, 1);
    sample_colour(&s, 0, "titanium-dioxide", COLOUR_GRAMS, 3);
    doses(&s, 500, 350);
    near(dose(&s, 0, 0)->colourant.exact_g, 10, 1e-9);
    near(dose(&s, 0, 1)->colourant.exact_g, 1.4, 1e-9);
    near(dose(&s, 0, 2)->colourant.exact_g, 0.7, 1e-9);
    near(dose(&s, 0, 3)->colourant.exact_g, 3, 1e-9);
    near(s.plan.portion[0].filled_g, 500 + 10 + 1.4 + 0.7 + 3, 1e-9);
}

/* By hand: 2 g of colour in 3 parts of olive oil, 6 g at 0.9008 g/mL; nothing is added where it is reserved of the
 * oils. */
static void carrier_oil_is_on_top_unless_reserved(void **state)
{
    struct sample s;

    (void)state;
    sample_plain(&s);

    struct recipe_colourant *white = sample_colour(&s, 0, "titanium-dioxide", COLOUR_GRAMS, 2);

    strcpy(white->carrier_oil, "olive");
    white->carrier_ratio = 3;
    s.facts.carrier[0][0] = facts_oil("olive");
    doses(&s, 500, 350);
    near(mass_g(dose(&s, 0, 0)->carrier.rounded_ug), 6, 1e-9);
    near(s.plan.portion[0].filled_g, 508, 1e-9);
    near(s.plan.portion[0].volume_ml, 500 + 2 + 6 / 0.9008, 1e-9);

    white->carrier_reserved = true;
    doses(&s, 500, 350);
    near(mass_g(dose(&s, 0, 0)->carrier.rounded_ug), 6, 1e-9);
    near(s.plan.portion[0].filled_g, 502, 1e-9);
    near(s.plan.portion[0].volume_ml, 502, 1e-9);
}

/* By hand: 5 g/kg of the whole 1000 g of oils, whatever the portion's part of it, and 1 % of the 1456.24 g before
 * colour. */
static void colour_of_the_whole_batter_is_dosed_on_the_whole(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    s.recipe.colour = PUT_IN_BATTER;
    s.recipe.portion[1].colourant[0].by = COLOUR_OF_PORTION;
    s.recipe.portion[1].colourant[0].value = 0.01;
    plan_compute(&s.in, &s.plan);
    near(mass_g(dose(&s, 0, 0)->colourant.rounded_ug), 5, 1e-9);
    near(dose(&s, 1, 0)->colourant.exact_g, 14.5624, 1e-9);
    near(mass_g(s.plan.batter_ug), 1456.24 + 5 + 14.56, 1e-9);
    near(dose_batter_g(&s.in, &s.plan, 1000), 5 + 14.5624, 0.01);
    near(s.plan.portion[2].filled_g, mass_g(s.plan.portion[2].batter_ug), 1e-9);
    s.recipe.colour = PUT_IN_PORTIONS;
    assert_true(dose_batter_g(&s.in, &s.plan, 1000) == 0);
}

/* The example on the sketch of the screen: 0.04 g on a scale of 0.01 g: 1.00 g into 9.00 g of oil, use 0.40 g. */
static void a_small_dose_is_weighed_as_a_dispersion(void **state)
{
    struct dispersion mix = dose_dispersion(0.04, 0.01);

    (void)state;
    near(mix.weigh_g, 1, 1e-9);
    near(mix.carrier_g, 9, 1e-9);
    near(mix.use_g, 0.4, 1e-9);
}

/* Property: all of it can be weighed, the colourant with five divisions at least, and brings the dose within half a
 * division of what is used; none is offered only where a hundredth part would still be nothing on the scale. */
static void a_dispersion_can_be_weighed_and_brings_the_dose(void **state)
{
    static const double division_g[] = {0.001, 0.01, 0.1, 0.2, 1, 5};

    (void)state;
    for (int turn = 0; turn < 5000; turn++) {
        double division = division_g[random_int(0, 5)], dose_g = random_between(0.0001, 5) * division;
        struct dispersion mix = dose_dispersion(dose_g, division);

        if (mix.weigh_g == 0) {
            assert_true(dose_g * 100 < division * 0.500001);
            assert_true(mix.carrier_g == 0 && mix.use_g == 0);
            continue;
        }

        assert_true(mix.use_g > 0);

        double thinned = (mix.weigh_g + mix.carrier_g) / mix.weigh_g;

        assert_true(mix.weigh_g >= 5 * division - 1e-9 && mix.weigh_g >= 1 - 1e-9);
        near(mix.weigh_g / division, round(mix.weigh_g / division), 1e-6);
        near(mix.use_g / division, round(mix.use_g / division), 1e-6);
        near(mix.use_g / thinned, dose_g, 0.5000001 * division / thinned);
        assert_true(mix.use_g <= mix.weigh_g + mix.carrier_g);
    }
}

static void a_dose_under_five_divisions_is_a_caution(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    s.recipe.portion[1].colourant[0].value = 0.16; /* 0.0398 g of 248.585 g of oils */
    plan_compute(&s.in, &s.plan);

    const struct finding *little = find(&s.plan, FINDING_DOSE_SMALL);

    assert_non_null(little);
    assert_int_equal(little->level, LEVEL_CAUTION);
    assert_int_equal(little->about.part, PART_COLOURANT);
    assert_int_equal(little->about.index, 1);
    near(little->number[0], 0.03977, 5e-6);
    near(little->number[1], 0.01, 1e-12);
    near(little->number[2], 1, 1e-9);
    near(little->number[3], 9, 1e-9);
    near(little->number[4], 0.4, 1e-9);

    s.recipe.portion[1].colourant[0].value = 0.05 * 1456.24 / 362 + 1e-9; /* five divisions exactly */
    plan_compute(&s.in, &s.plan);
    assert_null(find(&s.plan, FINDING_DOSE_SMALL));
}

static void a_dose_that_rounds_to_nothing_is_said(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    s.recipe.portion[1].colourant[0].value = 0.01;
    plan_compute(&s.in, &s.plan);
    assert_int_equal(dose(&s, 1, 0)->colourant.rounded_ug, 0);
    assert_non_null(find(&s.plan, FINDING_DOSE_SMALL));
}

static void a_dose_of_nothing_is_not_small(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    s.recipe.portion[1].colourant[0].value = 0;
    s.recipe.fragrance[0].value = 0;
    s.recipe.additive[0].value = 0;
    plan_compute(&s.in, &s.plan);
    assert_null(find(&s.plan, FINDING_DOSE_SMALL));
}

/* On one scale of 1 g: 20 g of base holds 14 g of oils, so 3 % of fragrance is 0.4 g in each of two portions; citric
 * acid 0.1 g. */
static void small_fragrance_and_additives_are_said_too(void **state)
{
    struct sample s;
    int from = 0, fragrances = 0, additives = 0;

    (void)state;
    sample_base(&s);
    s.recipe.scales = 1;
    s.recipe.size.grams = 30;
    s.recipe.portion[0].colourants = s.recipe.portion[1].colourants = 0;
    plan_compute(&s.in, &s.plan);
    for (const struct finding *f = NULL; (f = next_finding(&s.plan, FINDING_DOSE_SMALL, &from)) != NULL;) {
        fragrances += f->about.part == PART_FRAGRANCE && f->other.part == PART_PORTION && f->other.index == fragrances;
        additives += f->about.part == PART_ADDITIVE;
    }
    assert_int_equal(fragrances, 2);
    assert_int_equal(additives, 1);

    s.recipe.scent = PUT_IN_BATTER;
    plan_compute(&s.in, &s.plan);
    from = fragrances = 0;
    for (const struct finding *f = NULL; (f = next_finding(&s.plan, FINDING_DOSE_SMALL, &from)) != NULL;) {
        if (f->about.part != PART_FRAGRANCE)
            continue;
        fragrances++;
        assert_int_equal(f->other.part, PART_BATTER);
    }
    assert_int_equal(fragrances, 1);
}

/* Common practice: ultramarine stands high pH, plant dyes such as alkanet shift in it. */
static void a_colour_that_shifts_is_remarked(void **state)
{
    struct sample s;

    (void)state;
    sample_plain(&s);
    sample_colour(&s, 0, "ultramarine-blue", COLOUR_PER_KG_OILS, 5);
    sample_colour(&s, 0, "alkanet", COLOUR_PER_KG_OILS, 5);
    doses(&s, 500, 350);

    const struct finding *shifts = find(&s.plan, FINDING_COLOUR_SHIFTS);
    int from = 0;

    assert_non_null(shifts);
    assert_int_equal(shifts->level, LEVEL_REMARK);
    assert_int_equal(shifts->about.part, PART_COLOURANT);
    assert_int_equal(shifts->about.sub, 1);
    near(shifts->number[0], (double)s.facts.colourant[0][1]->behaviour, 0);
    next_finding(&s.plan, FINDING_COLOUR_SHIFTS, &from);
    assert_null(next_finding(&s.plan, FINDING_COLOUR_SHIFTS, &from));
}

/* Every row of the table: anything but stable is remarked, with what it does. */
static void only_stable_colours_are_passed_over(void **state)
{
    size_t n = 0;
    const struct colourant_fact *fact = facts_colourants(&n);

    (void)state;
    for (size_t i = 0; i < n; i++) {
        struct sample s;

        sample_plain(&s);
        sample_colour(&s, 0, fact[i].key, COLOUR_GRAMS, 5);
        doses(&s, 500, 350);

        const struct finding *shifts = find(&s.plan, FINDING_COLOUR_SHIFTS);

        assert_true((shifts != NULL) == (fact[i].behaviour != ALKALI_STABLE));
        if (shifts)
            near(shifts->number[0], (double)fact[i].behaviour, 0);
    }
    assert_true(n > 20);
}

/* Property: a portion's filled mass is its batter and what was weighed into it, and parts of a blend sum to its
 * dose. */
static void what_is_weighed_is_in_the_portion(void **state)
{
    (void)state;
    for (int turn = 0; turn < 1000; turn++) {
        struct sample s;
        double sum = 0, blend = random_between(0.5, 20);

        sample_plain(&s);
        s.recipe.portion[0].blend_by = COLOUR_PER_KG_OILS;
        s.recipe.portion[0].blend_value = blend;
        for (int c = random_int(1, PORTION_COLOURANTS); c > 0; c--)
            sample_colour(&s, 0, "titanium-dioxide", COLOUR_PARTS, random_between(0.1, 9));
        doses(&s, 1500, 1000);
        for (int c = 0; c < s.recipe.portion[0].colourants; c++)
            sum += dose(&s, 0, c)->colourant.exact_g;
        near(sum, blend, 1e-9);
        near(s.plan.portion[0].filled_g, 1500 + blend, 0.0005 * PORTION_COLOURANTS + 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_dose_goes_by_the_kilogram_of_oils),
        cmocka_unit_test(each_portion_is_dosed_on_its_own_oils),
        cmocka_unit_test(the_worked_example_is_dosed_as_written_there),
        cmocka_unit_test(a_spoon_to_the_pound_is_what_makers_weigh),
        cmocka_unit_test(doses_are_grams_a_share_or_parts_of_a_blend),
        cmocka_unit_test(carrier_oil_is_on_top_unless_reserved),
        cmocka_unit_test(colour_of_the_whole_batter_is_dosed_on_the_whole),
        cmocka_unit_test(a_small_dose_is_weighed_as_a_dispersion),
        cmocka_unit_test(a_dispersion_can_be_weighed_and_brings_the_dose),
        cmocka_unit_test(a_dose_under_five_divisions_is_a_caution),
        cmocka_unit_test(a_dose_that_rounds_to_nothing_is_said),
        cmocka_unit_test(a_dose_of_nothing_is_not_small),
        cmocka_unit_test(small_fragrance_and_additives_are_said_too),
        cmocka_unit_test(a_colour_that_shifts_is_remarked),
        cmocka_unit_test(only_stable_colours_are_passed_over),
        cmocka_unit_test(what_is_weighed_is_in_the_portion),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
