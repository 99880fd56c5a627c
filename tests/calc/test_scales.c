/* Which scale weighs what, and what it reads. The rules are those of common practice at a bench with a coarse and a
 * fine scale. */
#include "kitchen.h"

#include <gsl/gsl_rng.h>
#include <math.h>

static struct kitchen *two_scales(void)
{
    struct kitchen *k = kitchen_new();

    kitchen_scale(k, 1, 5000, 0);
    kitchen_scale(k, 0.01, 200, 0);
    scales_plan(&k->in, &k->plan);
    return k;
}

static void a_recipe_without_scales_has_one_of_a_gram_and_five_kilograms(void **state)
{
    struct kitchen *k = kitchen_new();

    (void)state;
    scales_plan(&k->in, &k->plan);
    assert_int_equal(k->plan.scales, 1);
    assert_int_equal(k->plan.scale[0].division_ug, 1000000);
    assert_int_equal(k->plan.scale[0].capacity_ug, INT64_C(5000000000));
    assert_int_equal(k->plan.scale[0].accuracy_ug, 0);
}

static void the_finest_scale_that_holds_item_and_vessel_is_taken(void **state)
{
    struct kitchen *k = two_scales();
    bool held;

    (void)state;
    assert_int_equal(scales_for(&k->plan, 200, &held), 1);
    assert_true(held);
    assert_int_equal(scales_for(&k->plan, 200.01, &held), 0);
    assert_true(held);
    k->plan.scale[1].vessel_ug = mass_ug(60);
    assert_int_equal(scales_for(&k->plan, 140, &held), 1);
    assert_int_equal(scales_for(&k->plan, 140.01, &held), 0);
}

static void the_largest_scale_is_taken_where_none_holds(void **state)
{
    struct kitchen *k = two_scales();
    bool held = true;

    (void)state;
    assert_int_equal(scales_for(&k->plan, 5001, &held), 0);
    assert_false(held);
}

static void of_equal_divisions_the_larger_scale_is_taken(void **state)
{
    struct kitchen *k = kitchen_new();

    (void)state;
    kitchen_scale(k, 0.1, 500, 0);
    kitchen_scale(k, 0.1, 2000, 0);
    scales_plan(&k->in, &k->plan);
    assert_int_equal(scales_for(&k->plan, 10, NULL), 1);
}

static void alkali_is_rounded_down_and_the_rest_to_nearest(void **state)
{
    struct kitchen *k = two_scales();

    (void)state;
    assert_int_equal(scales_weigh(&k->plan, 147.2475, SCALES_DOWN).rounded_ug, 147240000);
    assert_int_equal(scales_weigh(&k->plan, 147.2475, SCALES_NEAREST).rounded_ug, 147250000);
    assert_int_equal(scales_weigh(&k->plan, 298.9571, SCALES_NEAREST).rounded_ug, 299000000);
    assert_int_equal(scales_weigh(&k->plan, 0.004, SCALES_NEAREST).rounded_ug, 0);
}

/* 0.07 g is 6.999... hundredths in binary: whole micrograms come first, so that it is seven. */
static void a_mass_on_a_division_stays_there_when_rounded_down(void **state)
{
    struct kitchen *k = two_scales();

    (void)state;
    for (int hundredths = 1; hundredths <= 20000; hundredths++)
        assert_int_equal(scales_weigh(&k->plan, hundredths / 100.0, SCALES_DOWN).rounded_ug,
                         hundredths * INT64_C(10000));
}

static void nothing_to_weigh_is_all_zero(void **state)
{
    static const double nothing[] = {0, -5, NAN};
    struct kitchen *k = two_scales();

    (void)state;
    for (size_t i = 0; i < sizeof nothing / sizeof nothing[0]; i++) {
        struct weighing weighing = scales_weigh(&k->plan, nothing[i], SCALES_NEAREST);

        assert_near(weighing.exact_g, 0, 0);
        assert_int_equal(weighing.rounded_ug, 0);
        assert_int_equal(weighing.division_ug, 0);
        assert_int_equal(weighing.scale, 0);
    }
}

/* By hand: 1000.4 g in all is 1000; the coarse oils, 950.4 g, are 950 in whole grams (475.2 and 475.2: the tie goes
 * to the earlier); castor on the fine scale takes the other 50. */
static void oils_of_a_percent_recipe_add_up_to_the_rounded_total(void **state)
{
    struct kitchen *k = two_scales();

    (void)state;
    k->recipe.oils_by = OILS_BY_SHARE;
    k->recipe.size = (struct recipe_size){.by = SIZE_OILS, .grams = 1000.4};
    kitchen_oil(k, &OLIVE, 475.2 / 1000.4);
    kitchen_oil(k, &COCONUT, 475.2 / 1000.4);
    kitchen_oil(k, &CASTOR, 50 / 1000.4);
    kitchen_plan(k);
    assert_int_equal(k->plan.oils_ug, 1000000000);
    assert_int_equal(k->plan.oil[0].rounded_ug, 475000000);
    assert_int_equal(k->plan.oil[1].rounded_ug, 475000000);
    assert_int_equal(k->plan.oil[2].rounded_ug, 50000000);
    assert_int_equal(k->plan.oil[2].division_ug, 10000);
}

static void oils_in_grams_are_rounded_singly(void **state)
{
    struct kitchen *k = two_scales();

    (void)state;
    kitchen_oil(k, &OLIVE, 475.4);
    kitchen_oil(k, &COCONUT, 475.4);
    kitchen_oil(k, &CASTOR, 50.004);
    kitchen_plan(k);
    assert_int_equal(k->plan.oil[0].rounded_ug, 475000000);
    assert_int_equal(k->plan.oil[1].rounded_ug, 475000000);
    assert_int_equal(k->plan.oil[2].rounded_ug, 50000000);
    assert_int_equal(k->plan.oils_ug, 1000000000);
}

/* Property, for three nested scales: oils sum to the total in the coarsest division in use, each a multiple of its
 * own. */
static void percent_recipes_always_add_up(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

    (void)state;
    gsl_rng_set(rng, 1);
    for (int round = 0; round < 3000; round++) {
        struct kitchen *k = kitchen_new();
        int oils = 1 + (int)gsl_rng_uniform_int(rng, 8);
        double weight[8], sum = 0;
        int64_t coarsest = 0;

        kitchen_scale(k, 1, 5000, 0);
        kitchen_scale(k, 0.1, 600, 0);
        kitchen_scale(k, 0.01, 120, 0);
        k->recipe.oils_by = OILS_BY_SHARE;
        k->recipe.size = (struct recipe_size){.by = SIZE_OILS, .grams = pow(10, 1 + 3 * gsl_rng_uniform(rng))};
        for (int i = 0; i < oils; i++)
            sum += weight[i] = 0.01 + gsl_rng_uniform(rng);
        for (int i = 0; i < oils; i++)
            kitchen_oil(k, &OLIVE, weight[i] / sum);
        kitchen_plan(k);
        for (int i = 0; i < oils; i++) {
            assert_int_equal(k->plan.oil[i].rounded_ug % k->plan.oil[i].division_ug, 0);
            if (k->plan.oil[i].division_ug > coarsest)
                coarsest = k->plan.oil[i].division_ug;
        }
        assert_int_equal(k->plan.oils_ug, mass_nearest(mass_ug(k->recipe.size.grams), coarsest));
    }
    gsl_rng_free(rng);
}

static void a_mass_that_no_scale_holds_is_a_remark_with_its_vessel(void **state)
{
    struct kitchen *k = two_scales();
    const struct finding *found;

    (void)state;
    k->recipe.scale[0].vessel_ug = mass_ug(300);
    kitchen_oil(k, &OLIVE, 4900);
    kitchen_plan(k);
    found = kitchen_found(k, FINDING_SCALE_SMALL);
    assert_non_null(found);
    assert_int_equal(found->level, LEVEL_REMARK);
    assert_int_equal(found->about.part, PART_OIL);
    assert_near(found->number[0], 5200, 1e-9);
    assert_near(found->number[1], 5000, 1e-9);
    assert_int_equal(k->plan.findings, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CHECK(a_recipe_without_scales_has_one_of_a_gram_and_five_kilograms),
        CHECK(the_finest_scale_that_holds_item_and_vessel_is_taken),
        CHECK(the_largest_scale_is_taken_where_none_holds),
        CHECK(of_equal_divisions_the_larger_scale_is_taken),
        CHECK(alkali_is_rounded_down_and_the_rest_to_nearest),
        CHECK(a_mass_on_a_division_stays_there_when_rounded_down),
        CHECK(nothing_to_weigh_is_all_zero),
        CHECK(oils_of_a_percent_recipe_add_up_to_the_rounded_total),
        CHECK(oils_in_grams_are_rounded_singly),
        CHECK(percent_recipes_always_add_up),
        CHECK(a_mass_that_no_scale_holds_is_a_remark_with_its_vessel),
    };

    return cmocka_run_group_tests_name("scales", tests, NULL, NULL);
}
