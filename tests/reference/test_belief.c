/* Belief about a linear model against worked fractions, a certified regression, and GSL. */
#include "calc/near.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>

#include "calc/belief.h"

/* Two terms with prior means 0 and 1 and precisions 1/4 and 1, shape 2, scale 1: deviations are in units where the expected
 * residual variance is 1. */
static struct belief two_terms(void)
{
    struct belief belief;

    belief_start(&belief, 2.0, 1.0);
    belief_set(&belief, 0, 0.0, 2.0);
    belief_set(&belief, 1, 1.0, 1.0);
    return belief;
}

static const double row_x[][BELIEF_TERMS] = {{1, 0}, {1, 1}, {1, 2}, {1, 3}};
static const double row_y[] = {1, 3, 2, 5};

/* Source: conjugate update worked in exact fractions: mean (36/37, 127/111), covariance ((20/37, -8/37), (-8/37, 17/111)),
 * shape 4, scale 553/222. */
static void four_observations_give_the_worked_fractions(void **state)
{
    struct belief belief = two_terms();
    (void)state;

    for (int i = 0; i < 4; i++)
        belief_learn(&belief, row_x[i], row_y[i]);
    assert_near(belief.mean[0], 36.0 / 37.0, 1e-12);
    assert_near(belief.mean[1], 127.0 / 111.0, 1e-12);
    assert_near(belief.covariance[0][0], 20.0 / 37.0, 1e-12);
    assert_near(belief.covariance[0][1], -8.0 / 37.0, 1e-12);
    assert_near(belief.covariance[1][0], -8.0 / 37.0, 1e-12);
    assert_near(belief.covariance[1][1], 17.0 / 111.0, 1e-12);
    assert_near(belief.shape, 4.0, 1e-12);
    assert_near(belief.scale, 553.0 / 222.0, 1e-12);
}

/* Same source, each row times 3 with an error of 9 times the variance: the same news, so the same fractions. */
static void an_observation_counts_by_its_own_error(void **state)
{
    struct belief belief = two_terms();
    (void)state;

    for (int i = 0; i < 4; i++) {
        const double x[BELIEF_TERMS] = {3 * row_x[i][0], 3 * row_x[i][1]};

        belief_learn_noisy(&belief, x, 3 * row_y[i], 9.0);
    }
    assert_near(belief.mean[0], 36.0 / 37.0, 1e-12);
    assert_near(belief.mean[1], 127.0 / 111.0, 1e-12);
    assert_near(belief.covariance[0][1], -8.0 / 37.0, 1e-12);
    assert_near(belief.scale, 553.0 / 222.0, 1e-12);
}

/* By definition: the belief then says exactly that, and no more than the residual is left of the spread. */
static void an_observation_without_error_leaves_no_doubt(void **state)
{
    const double x[BELIEF_TERMS] = {1, 2};
    struct belief belief = two_terms();
    (void)state;

    belief_learn_noisy(&belief, x, 7.0, 0.0);
    assert_near(belief_middle(&belief, x), 7.0, 1e-12);
    assert_near(belief_scale_squared(&belief, x), belief.scale / belief.shape, 1e-12);
}

/* Same source: at (1, 4) 616/111 with scale squared 138803/98568 and 8 degrees; 80 % from 3.891985 to 7.207114. Before any
 * observation 4 with 21/2. */
static void a_prediction_is_the_worked_one(void **state)
{
    const double x[BELIEF_TERMS] = {1, 4};
    struct belief belief = two_terms();
    (void)state;

    assert_near(belief_middle(&belief, x), 4.0, 1e-12);
    assert_near(belief_scale_squared(&belief, x), 10.5, 1e-12);
    for (int i = 0; i < 4; i++)
        belief_learn(&belief, row_x[i], row_y[i]);
    double half = gsl_cdf_tdist_Pinv(0.9, 2.0 * belief.shape) * sqrt(belief_scale_squared(&belief, x));
    assert_near(belief_middle(&belief, x), 616.0 / 111.0, 1e-12);
    assert_near(belief_scale_squared(&belief, x), 138803.0 / 98568.0, 1e-12);
    assert_near(belief_middle(&belief, x) - half, 3.891985, 1e-6);
    assert_near(belief_middle(&belief, x) + half, 7.207114, 1e-6);
}

static void observations_in_any_order_give_the_same_belief(void **state)
{
    static const int order[] = {2, 0, 3, 1};
    struct belief a = two_terms(), b = two_terms();
    (void)state;

    for (int i = 0; i < 4; i++) {
        belief_learn(&a, row_x[i], row_y[i]);
        belief_learn(&b, row_x[order[i]], row_y[order[i]]);
    }
    for (int i = 0; i < 2; i++) {
        assert_near(a.mean[i], b.mean[i], 1e-12);
        for (int j = 0; j < 2; j++)
            assert_near(a.covariance[i][j], b.covariance[i][j], 1e-12);
    }
    assert_near(a.scale, b.scale, 1e-12);
}

static void an_observation_counted_twice_is_not_one_counted_once(void **state)
{
    struct belief once = two_terms(), twice = two_terms();
    (void)state;

    belief_learn(&once, row_x[3], row_y[3]);
    belief_learn(&twice, row_x[3], row_y[3]);
    belief_learn(&twice, row_x[3], row_y[3]);
    assert_true(fabs(once.mean[1] - twice.mean[1]) > 0.01);
    assert_true(twice.covariance[1][1] < once.covariance[1][1]);
}

/* Source: NIST StRD NoInt1, certified: slope 2.07438016528926, its standard deviation 0.0165289256198347, residual standard
 * deviation 3.56753034006338 on 10 degrees. Reached as the prior fades (deviation 100, shape and scale near none). */
static void without_a_prior_it_is_least_squares(void **state)
{
    struct belief belief;
    (void)state;

    belief_start(&belief, 2.0, 1.0);
    belief_set(&belief, 0, 0.0, 100.0);
    for (int i = 0; i <= 10; i++)
        belief_learn(&belief, (const double[BELIEF_TERMS]){60.0 + i}, 130.0 + i);
    double sum_of_squares = 2.0 * (belief.scale - 1.0);
    assert_near(belief.mean[0], 2.07438016528926, 1e-6);
    assert_near(sqrt(sum_of_squares / 10.0), 3.56753034006338, 1e-3);
    assert_near(sqrt(sum_of_squares / 10.0 * belief.covariance[0][0]), 0.0165289256198347, 1e-5);
}

/* The spread given to belief_set is the standard deviation of the coefficient itself, which is Student's t with 2 * shape
 * degrees: by GSL's variance of t, through the prediction less the residual. */
static void a_coefficient_has_the_deviation_it_was_given(void **state)
{
    const double x[BELIEF_TERMS] = {1.0}, none[BELIEF_TERMS] = {0};
    struct belief belief;
    double variance_of_t = 0.0;
    (void)state;

    belief_start(&belief, 6.0, 0.8);
    belief_set(&belief, 0, 1.5, 0.3);
    for (double t = -60.0; t < 60.0; t += 0.001)
        variance_of_t += t * t * gsl_ran_tdist_pdf(t, 12.0) * 0.001;
    double coefficient = belief_scale_squared(&belief, x) - belief_scale_squared(&belief, none);
    assert_near(coefficient * variance_of_t, 0.09, 1e-6);
    assert_near(belief_scale_squared(&belief, none) * variance_of_t, 0.16, 1e-6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(four_observations_give_the_worked_fractions),
        cmocka_unit_test(an_observation_counts_by_its_own_error),
        cmocka_unit_test(an_observation_without_error_leaves_no_doubt),
        cmocka_unit_test(a_prediction_is_the_worked_one),
        cmocka_unit_test(observations_in_any_order_give_the_same_belief),
        cmocka_unit_test(an_observation_counted_twice_is_not_one_counted_once),
        cmocka_unit_test(without_a_prior_it_is_least_squares),
        cmocka_unit_test(a_coefficient_has_the_deviation_it_was_given),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
