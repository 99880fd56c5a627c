/* A scale too coarse for its alkali, and the sizes that suit it. Worked by hand from the recipe of 200 g on a 1 g
 * scale. */
#include "kitchen.h"

#include <math.h>

#include "calc/constants.h"

static struct kitchen *blossoms(double oils_g)
{
    struct kitchen *k = kitchen_new();

    kitchen_scale(k, 1, 5000, 0);
    kitchen_scale(k, 0.01, 20, 0); /* too small for most of the alkali here */
    k->recipe.oils_by = OILS_BY_SHARE;
    k->recipe.size = (struct recipe_size){.by = SIZE_OILS, .grams = oils_g};
    kitchen_oil(k, &OLIVE, 0.7);
    kitchen_oil(k, &COCONUT, 0.3);
    kitchen_plan(k);
    return k;
}

static const struct finding *coarse_of(const struct kitchen *k)
{
    return kitchen_found(k, FINDING_DIVISION_COARSE);
}

static void two_hundred_grams_on_a_gram_scale_are_too_coarse(void **state)
{
    const struct kitchen *k = blossoms(200);
    const struct finding *found = coarse_of(k);

    (void)state;
    assert_non_null(found);
    assert_int_equal(found->level, LEVEL_REMARK);
    assert_int_equal(found->about.part, PART_ALKALI);
    assert_near(found->number[0], k->plan.margin.mass_share, 0);
    assert_near(found->number[1], 0.05, 0);
    assert_near(found->number[2], k->plan.margin.nominal, 0);
    assert_near(found->number[3], 1, 0);
}

/* 0.1 g of about 28 is 0.34 points. */
static void a_tenth_of_the_division_would_do(void **state)
{
    (void)state;
    assert_near(coarse_of(blossoms(200))->number[6], 0.1, 1e-12);
}

/* Taking a proposed size, the rounding moves the superfat by less than half a point, mostly by a tenth at most (and
 * a little for the oils, which are rounded too). */
static void a_proposed_size_brings_the_alkali_to_a_whole_division(void **state)
{
    int proposed = 0, close = 0;

    (void)state;
    for (double oils_g = 150; oils_g <= 400; oils_g += 1) {
        const struct finding *found = coarse_of(blossoms(oils_g));
        double sizes[2];

        if (!found)
            continue;
        sizes[0] = found->number[4];
        sizes[1] = found->number[5];
        assert_true(sizes[0] < oils_g && (sizes[1] > oils_g || sizes[1] <= 0));
        for (int i = 0; i < 2; i++) {
            const struct kitchen *k;

            if (!(sizes[i] > 0))
                continue;
            proposed++;
            assert_true(fabs(sizes[i] - oils_g) <= 0.25 * oils_g);
            assert_near(sizes[i], round(sizes[i]), 1e-9);
            k = blossoms(sizes[i]);
            assert_true(naoh_exact(&k->plan) >= mass_g(k->plan.alkali[0].alkali.rounded_ug) - 1e-9);
            assert_near(k->plan.margin.nominal, 0.05, 0.005);
            assert_int_equal(k->plan.alkali[0].alkali.division_ug, mass_ug(1));
            close += fabs(k->plan.margin.nominal - 0.05) < 0.002;
        }
    }
    assert_true(proposed > 300);
    assert_true(close > proposed * 3 / 4);
}

static void a_fine_scale_is_not_too_coarse(void **state)
{
    struct kitchen *k = blossoms(200);

    (void)state;
    k->recipe.scale[1].capacity_ug = mass_ug(200);
    kitchen_plan(k);
    assert_null(coarse_of(k));
}

/* 1000 g of 200 exactly: alkali 135.4486, 0.4486 g lost of 142.5775 for all: 0.31 points, under half a point; of an
 * exact value the weighings are the whole variance. */
static void weighings_that_are_most_of_the_variance_are_named_too(void **state)
{
    struct kitchen *k = kitchen_new();

    (void)state;
    kitchen_scale(k, 1, 5000, 0);
    kitchen_own(k, "exact", 1000, 200, 200, 200);
    kitchen_plan(k);
    assert_near(naoh_exact(&k->plan), 135.4486, 1e-4);
    assert_non_null(coarse_of(k));
    assert_near(coarse_of(k)->number[0], 1, 1e-9);
    assert_near(coarse_of(k)->number[2], 1 - 135 / 142.5775, 1e-6);
    k->recipe.oil[0].amount = 2000; /* there a gram is 0.35 points, and still the whole variance */
    kitchen_plan(k);
    assert_near(coarse_of(k)->number[6], 0.1, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CHECK(two_hundred_grams_on_a_gram_scale_are_too_coarse),      CHECK(a_tenth_of_the_division_would_do),
        CHECK(a_proposed_size_brings_the_alkali_to_a_whole_division), CHECK(a_fine_scale_is_not_too_coarse),
        CHECK(weighings_that_are_most_of_the_variance_are_named_too),
    };

    return cmocka_run_group_tests_name("too coarse a scale", tests, NULL, NULL);
}
