/* Mean, spread, quantiles and lines: edges by definition, and how they must move. */
#include "calc/spread.h"

#include <gsl/gsl_rng.h>
#include <gsl/gsl_sort.h>

#include "calc/near.h"

static void one_value_has_a_mean_and_no_spread(void **state)
{
    struct running_mean running = {0};
    (void)state;

    assert_true(isnan(running_mean_sd(&running)));
    running_mean_add(&running, 6.5);
    assert_true(running.mean == 6.5);
    assert_true(isnan(running_mean_sd(&running)));
    running_mean_add(&running, 6.5);
    assert_true(running_mean_sd(&running) == 0.0);
}

/* By hand: of 1, 2, 4, 8 the quarter lies at place 0.75, the half between 2 and 4. */
static void quantiles_lie_on_the_line_between_neighbours(void **state)
{
    const double value[] = {1, 2, 4, 8};
    (void)state;

    assert_true(quantile_sorted(value, 4, 0.0) == 1.0);
    assert_near(quantile_sorted(value, 4, 0.25), 1.75, 1e-15);
    assert_near(quantile_sorted(value, 4, 0.5), 3.0, 1e-15);
    assert_true(quantile_sorted(value, 4, 1.0) == 8.0);
    assert_true(quantile_sorted(value, 1, 0.3) == 1.0);
}

/* Property: quantiles rise with the share, within the least and the largest; outside 0 to 1 they are those. */
static void quantiles_rise_within_the_values(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_taus2);
    (void)state;

    for (int run = 0; run < 200; run++) {
        double value[30], before = -INFINITY;
        int n = 1 + (int)gsl_rng_uniform_int(rng, 30);

        for (int i = 0; i < n; i++)
            value[i] = gsl_rng_uniform(rng);
        gsl_sort(value, 1, (size_t)n);
        for (double p = -0.1; p < 1.15; p += 0.01) {
            double q = quantile_sorted(value, n, p);

            assert_true(q >= before - 1e-15 && q >= value[0] && q <= value[n - 1]);
            before = q;
        }
    }
    gsl_rng_free(rng);
}

static void two_points_or_one_place_are_no_line(void **state)
{
    const double x[] = {1, 2, 3}, same[] = {2, 2, 2}, y[] = {1, 3, 5};
    (void)state;

    assert_false(line_fit(x, y, 0).known);
    assert_false(line_fit(x, y, 2).known);
    assert_false(line_fit(same, y, 3).known);
    assert_true(line_fit(x, y, 3).known);
}

/* By hand: 2 x - 1. */
static void points_on_a_line_have_that_line_and_no_residual(void **state)
{
    const double x[] = {1, 2, 3}, y[] = {1, 3, 5};
    struct line line = line_fit(x, y, 3);
    (void)state;

    assert_int_equal(line.n, 3);
    assert_near(line.at_0, -1.0, 1e-14);
    assert_near(line.slope, 2.0, 1e-14);
    assert_near(line.sd, 0.0, 1e-14);
    assert_near(line.sd_slope, 0.0, 1e-14);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_value_has_a_mean_and_no_spread),
        cmocka_unit_test(quantiles_lie_on_the_line_between_neighbours),
        cmocka_unit_test(quantiles_rise_within_the_values),
        cmocka_unit_test(two_points_or_one_place_are_no_line),
        cmocka_unit_test(points_on_a_line_have_that_line_and_no_residual),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
