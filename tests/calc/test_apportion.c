/* Sharing to the last division. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <gsl/gsl_rng.h>
#include <math.h>

#include "calc/apportion.h"

enum { PARTIES = 5 };

/* A college text on apportionment, exercise on a parliament of five parties: votes and seats by Hamilton's method.
 * With 91 seats the third party keeps its 17 and the fourth gains, as largest remainders do. */
static void seats_of_a_parliament_come_out_as_published(void **state)
{
    static const double votes[PARTIES] = {5576330, 1387342, 3334241, 7512860, 310968};
    static const struct {
        int64_t seats, part[PARTIES];
    } published[] = {{89, {27, 7, 16, 37, 2}}, {90, {28, 7, 17, 37, 1}}, {91, {28, 7, 17, 38, 1}}};

    (void)state;
    for (size_t i = 0; i < sizeof published / sizeof published[0]; i++) {
        int64_t part[PARTIES];

        assert_int_equal(apportion(PARTIES, votes, published[i].seats, 1, part), LW_OK);
        for (size_t p = 0; p < PARTIES; p++)
            assert_int_equal(part[p], published[i].part[p]);
    }
}

/* The Alabama paradox of any text on apportionment: more in all may give one part less. 3, 7, 90 seen in such a text;
 * 6, 6, 2 by hand. */
static void more_in_all_may_give_one_part_less(void **state)
{
    static const double six[3] = {6, 6, 2}, ninety[3] = {3, 7, 90};
    int64_t part[3];

    (void)state;
    apportion(3, six, 10, 1, part);
    assert_int_equal(part[2], 2);
    apportion(3, six, 11, 1, part);
    assert_int_equal(part[2], 1);
    apportion(3, ninety, 49, 1, part);
    assert_int_equal(part[0], 2);
    assert_int_equal(part[2], 44);
    apportion(3, ninety, 51, 1, part);
    assert_int_equal(part[0], 1);
    assert_int_equal(part[2], 46);
}

/* The rule of calculations.md, section 5, worked by hand. */
static void a_tie_goes_to_the_larger_part_then_to_the_earlier(void **state)
{
    static const double halves[2] = {0.5, 0.5};
    int64_t part[3];

    (void)state;
    apportion(2, halves, 1, 1, part);
    assert_int_equal(part[0], 1);
    assert_int_equal(part[1], 0);
    for (int unit = 1; unit <= 200;
         unit++) { /* the same tie, most often with remainders that are not exact in binary */
        double mixed[3] = {1.5 / unit, 2.5 / unit, 1.0 / unit};

        apportion(3, mixed, 5, 1, part);
        assert_int_equal(part[0], 1);
        assert_int_equal(part[1], 3);
        assert_int_equal(part[2], 1);
    }
}

static void a_weight_of_nothing_gets_nothing(void **state)
{
    static const double weight[3] = {0, 1, 1};
    int64_t part[3];

    (void)state;
    assert_int_equal(apportion(3, weight, 7, 1, part), LW_OK);
    assert_int_equal(part[0], 0);
    assert_int_equal(part[1], 4);
    assert_int_equal(part[2], 3);
}

static void what_cannot_be_shared_is_refused_and_nothing_touched(void **state)
{
    static const double none[2] = {0, 0}, negative[2] = {1, -1}, odd[2] = {1, NAN}, fair[APPORTION_MAX + 1] = {1, 1};
    int64_t part[2] = {77, 77};

    (void)state;
    assert_int_equal(apportion(2, none, 10, 1, part), LW_INVALID);
    assert_int_equal(apportion(2, negative, 10, 1, part), LW_INVALID);
    assert_int_equal(apportion(2, odd, 10, 1, part), LW_INVALID);
    assert_int_equal(apportion(2, fair, 10, 3, part), LW_INVALID);
    assert_int_equal(apportion(2, fair, -10, 1, part), LW_INVALID);
    assert_int_equal(apportion(2, fair, 10, 0, part), LW_INVALID);
    assert_int_equal(apportion(APPORTION_MAX + 1, fair, 10, 1, part), LW_FULL);
    assert_int_equal(part[0], 77);
    assert_int_equal(part[1], 77);
}

/* Property: whatever the weights, the parts sum to the whole and each is its exact share rounded down or up. */
static void parts_sum_to_the_whole_and_stay_within_a_division(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

    (void)state;
    gsl_rng_set(rng, 20);
    for (int round = 0; round < 20000; round++) {
        double weight[APPORTION_MAX], sum = 0;
        size_t n = 1 + gsl_rng_uniform_int(rng, APPORTION_MAX);
        int64_t division = (int64_t[]){1, 10, 1000, 10000, 1000000}[gsl_rng_uniform_int(rng, 5)], part[APPORTION_MAX];
        int64_t whole = (int64_t)gsl_rng_uniform_int(rng, 1000000) * division, given = 0;

        for (size_t i = 0; i < n; i++)
            sum += weight[i] = gsl_rng_uniform_int(rng, 4) ? gsl_rng_uniform(rng) * 1000 : 0;
        if (!(sum > 0))
            continue;
        assert_int_equal(apportion(n, weight, whole, division, part), LW_OK);
        for (size_t i = 0; i < n; i++) {
            double exact = weight[i] / sum * (double)(whole / division);

            given += part[i];
            assert_int_equal(part[i] % division, 0);
            assert_true(fabs((double)(part[i] / division) - exact) < 1 + 1e-9);
        }
        assert_int_equal(given, whole);
    }
    gsl_rng_free(rng);
}

/* More divisions than a double counts one by one still sum. */
static void a_whole_beyond_what_a_double_counts_is_shared_to_the_last(void **state)
{
    static const double weight[7] = {0.1, 0.7, 0.3, 1e-9, 0.9, 0.33, 0.2};
    int64_t part[7], sum = 0;

    (void)state;
    assert_int_equal(apportion(7, weight, INT64_C(4611686018427387905), 1, part), LW_OK);
    for (size_t i = 0; i < 7; i++) {
        assert_true(part[i] >= 0);
        sum += part[i];
    }
    assert_true(sum == INT64_C(4611686018427387905));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(seats_of_a_parliament_come_out_as_published),
        cmocka_unit_test(more_in_all_may_give_one_part_less),
        cmocka_unit_test(a_tie_goes_to_the_larger_part_then_to_the_earlier),
        cmocka_unit_test(a_weight_of_nothing_gets_nothing),
        cmocka_unit_test(what_cannot_be_shared_is_refused_and_nothing_touched),
        cmocka_unit_test(parts_sum_to_the_whole_and_stay_within_a_division),
        cmocka_unit_test(a_whole_beyond_what_a_double_counts_is_shared_to_the_last),
    };

    return cmocka_run_group_tests_name("apportion", tests, NULL, NULL);
}
