/* Mean, spread, quantiles and lines against certified values and GSL. */
#include "calc/near.h"

#include <gsl/gsl_fit.h>
#include <gsl/gsl_rng.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>

#include "calc/spread.h"

#define ROWS(table) ((int)(sizeof(table) / sizeof(table)[0]))

/* Source: NIST StRD, univariate, NumAcc1: mean 10000002, standard deviation 1, exact. */
static void three_large_numbers_keep_their_spread(void **state)
{
    struct running_mean running = {0};
    (void)state;

    running_mean_add(&running, 10000001);
    running_mean_add(&running, 10000003);
    running_mean_add(&running, 10000002);
    assert_true(running.mean == 10000002.0);
    assert_true(running_mean_sd(&running) == 1.0);
}

/* Source: the same, NumAcc4: 10000000.2, then 500 times 10000000.1 and 10000000.3: mean 10000000.2, standard deviation 0.1. */
static void a_thousand_nearly_equal_numbers_keep_their_spread(void **state)
{
    struct running_mean running = {0};
    (void)state;

    running_mean_add(&running, 10000000.2);
    for (int i = 0; i < 500; i++) {
        running_mean_add(&running, 10000000.1);
        running_mean_add(&running, 10000000.3);
    }
    assert_int_equal(running.n, 1001);
    assert_near(running.mean, 10000000.2, 1e-8);
    assert_near(running_mean_sd(&running), 0.1, 1e-9);
}

static double random_mass(gsl_rng *rng)
{
    return 5.0 + 3.0 * gsl_rng_uniform(rng);
}

/* Source: GSL, which sums twice over. */
static void one_pass_gives_what_two_passes_do(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_taus2);
    (void)state;

    for (int run = 0; run < 300; run++) {
        struct running_mean running = {0};
        double value[60];
        int n = 2 + (int)gsl_rng_uniform_int(rng, 58);

        for (int i = 0; i < n; i++) {
            value[i] = random_mass(rng);
            running_mean_add(&running, value[i]);
        }
        assert_near(running.mean, gsl_stats_mean(value, 1, (size_t)n), 1e-13);
        assert_near(running_mean_sd(&running), gsl_stats_sd(value, 1, (size_t)n), 1e-12);
    }
    gsl_rng_free(rng);
}

/* Source: GSL's quantile of sorted data, which interpolates the same way. */
static void quantiles_are_those_of_gsl(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_taus2);
    (void)state;

    for (int run = 0; run < 500; run++) {
        double value[40], p = run % 5 == 0 ? run % 2 : gsl_rng_uniform(rng);
        int n = 1 + (int)gsl_rng_uniform_int(rng, 40);

        for (int i = 0; i < n; i++)
            value[i] = random_mass(rng);
        gsl_sort(value, 1, (size_t)n);
        assert_near(quantile_sorted(value, n, p), gsl_stats_quantile_from_sorted_data(value, 1, (size_t)n, p), 1e-13);
    }
    gsl_rng_free(rng);
}

/* Source: NIST StRD, linear regression, Norris, certified: intercept -0.262323073774029, slope 1.00211681802045 with standard
 * deviation 0.429796848199937E-03 (that one from memory), residual standard deviation 0.884796396144373. */
static void a_certified_line_is_met(void **state)
{
    static const double pair[][2] = {
        {0.2, 0.1},     {337.4, 338.8}, {118.2, 118.1}, {884.6, 888.0}, {10.1, 9.2},    {226.5, 228.1},
        {666.3, 668.5}, {996.3, 998.5}, {448.6, 449.1}, {777.0, 778.9}, {558.2, 559.2}, {0.4, 0.3},
        {0.6, 0.1},     {775.5, 778.1}, {666.9, 668.8}, {338.0, 339.3}, {447.5, 448.9}, {11.6, 10.8},
        {556.0, 557.7}, {228.1, 228.3}, {995.8, 998.0}, {887.6, 888.8}, {120.2, 119.6}, {0.3, 0.3},
        {0.3, 0.6},     {556.8, 557.6}, {339.1, 339.3}, {887.2, 888.0}, {999.0, 998.5}, {779.0, 778.9},
        {11.1, 10.2},   {118.3, 117.6}, {229.2, 228.9}, {669.1, 668.4}, {448.9, 449.2}, {0.5, 0.2}};
    double x[ROWS(pair)], y[ROWS(pair)];
    (void)state;

    for (int i = 0; i < ROWS(pair); i++) {
        x[i] = pair[i][0];
        y[i] = pair[i][1];
    }

    struct line line = line_fit(x, y, ROWS(pair));
    assert_true(line.known);
    assert_near(line.at_0, -0.262323073774029, 1e-12);
    assert_near(line.slope, 1.00211681802045, 1e-13);
    assert_near(line.sd_slope, 0.429796848199937e-3, 1e-13);
    assert_near(line.sd, 0.884796396144373, 1e-12);
}

/* Source: GSL's linear fit. */
static void random_lines_are_those_of_gsl(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_taus2);
    (void)state;

    for (int run = 0; run < 300; run++) {
        double x[30], y[30], at_0, slope, cov00, cov01, cov11, rss;
        int n = 3 + (int)gsl_rng_uniform_int(rng, 27);

        for (int i = 0; i < n; i++) {
            x[i] = 40.0 * gsl_rng_uniform(rng);
            y[i] = 3.0 - 0.2 * x[i] + gsl_rng_uniform(rng);
        }
        gsl_fit_linear(x, 1, y, 1, (size_t)n, &at_0, &slope, &cov00, &cov01, &cov11, &rss);

        struct line line = line_fit(x, y, n);
        assert_near(line.at_0, at_0, 1e-11);
        assert_near(line.slope, slope, 1e-12);
        assert_near(line.sd_slope, sqrt(cov11), 1e-10);
        assert_near(line.sd, sqrt(rss / (n - 2)), 1e-10);
    }
    gsl_rng_free(rng);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(three_large_numbers_keep_their_spread),
        cmocka_unit_test(a_thousand_nearly_equal_numbers_keep_their_spread),
        cmocka_unit_test(one_pass_gives_what_two_passes_do),
        cmocka_unit_test(quantiles_are_those_of_gsl),
        cmocka_unit_test(a_certified_line_is_met),
        cmocka_unit_test(random_lines_are_those_of_gsl),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
