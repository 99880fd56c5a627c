/* test_distribution.c - normal and Student against the GNU Scientific Library and printed tables. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>

#include "calc/distribution.h"

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

static const double chance[] = {1e-12, 1e-9, 1e-6,   1e-3, 0.01, 0.05, 0.1,  0.2,   0.2499, 0.25,  0.2501,
                                0.4,   0.49, 0.4999, 0.6,  0.75, 0.9,  0.95, 0.975, 0.99,   0.999, 1 - 1e-9};

static void close_to(double value, double expected, double relative)
{
    if (!(fabs(value - expected) <= relative * fabs(expected)))
        fail_msg("%.17g, expected %.17g", value, expected);
}

/* Measure: gsl_cdf_ugaussian_P. */
static void the_normal_distribution_agrees_with_gsl(void **state)
{
    (void)state;
    for (double z = -37; z <= 9; z += 0.125)
        close_to(normal_cdf(z), gsl_cdf_ugaussian_P(z), 1e-12);
}

/* Measure: gsl_cdf_ugaussian_Pinv; where the quantile is next to 0, the density there. */
static void normal_quantiles_agree_with_gsl(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(chance); i++)
        close_to(normal_quantile(chance[i]), gsl_cdf_ugaussian_Pinv(chance[i]), 1e-9);
    close_to(normal_quantile(1e-300), gsl_cdf_ugaussian_Pinv(1e-300), 1e-9);
    close_to(normal_quantile(0.5 + 0x1p-40), 0x1p-40 * sqrt(2 * acos(-1)), 1e-9);
    assert_true(normal_quantile(0.5) == 0);
}

/* Measure: gsl_cdf_tdist_P and gsl_ran_tdist_pdf at our quantile; the miss in probability over the slope is the miss
 * in t. GSL's own inverse does not converge for small degrees, so it is not asked. */
static void student_quantiles_agree_with_gsl(void **state)
{
    static const double degrees[] = {0.1, 0.5, 1,  1.5, 2,   3,    4,   5,     8,     10,  12,
                                     20,  33,  60, 120, 999, 9000, 9e4, 99999, 1.1e5, 1e6, 1e8};

    (void)state;
    for (size_t i = 0; i < COUNT(chance); i++) {
        for (size_t k = 0; k < COUNT(degrees); k++) {
            double t = student_quantile(chance[i], degrees[k]);
            double miss = (gsl_cdf_tdist_P(t, degrees[k]) - chance[i]) / gsl_ran_tdist_pdf(t, degrees[k]);

            if (!(fabs(miss) <= 1e-8 * fabs(t)))
                fail_msg("t(%g, %g) = %.17g misses by %g", chance[i], degrees[k], t, miss);
        }
    }
}

/* Measure: gsl_cdf_tdist_P, which keeps its digits down to about 1e-30; beyond that the series of the incomplete beta function
 * summed with 40 digits. There a difference from 1 would leave nothing. */
static void chances_of_student_agree_with_gsl(void **state)
{
    static const double t[] = {-1e6, -3000, -100, -33, -8, -3, -1.35, -0.7, -0.1, -1e-4, 0, 1e-4, 0.2, 1.35, 4, 40};
    static const double degrees[] = {0.5, 1, 2, 4, 5, 12, 13, 33, 120, 9000, 9e4};

    (void)state;
    for (size_t i = 0; i < COUNT(t); i++) {
        for (size_t k = 0; k < COUNT(degrees); k++) {
            double theirs = gsl_cdf_tdist_P(t[i], degrees[k]);

            if (theirs > 1e-30)
                close_to(student_cdf(t[i], degrees[k]), theirs, 1e-9);
        }
    }
    close_to(student_cdf(-33, 120), 2.443538557451405e-62, 1e-10);
    close_to(student_cdf(-2, 1e6), gsl_cdf_tdist_P(-2, 1e6), 1e-5);
    close_to(student_cdf(student_quantile(1e-40, 13), 13), 1e-40, 1e-6);
}

/* Source: tables of the normal and of Student's t in any textbook of statistics; more digits computed with 30-digit
 * arithmetic. */
static void quantiles_are_those_of_the_printed_tables(void **state)
{
    (void)state;
    close_to(normal_quantile(0.80), 0.841621234, 1e-9);
    close_to(normal_quantile(0.90), 1.281551566, 1e-9);
    close_to(normal_quantile(0.95), 1.644853627, 1e-9);
    close_to(normal_quantile(0.975), 1.959963985, 1e-9);
    close_to(normal_quantile(0.99), 2.326347874, 1e-9);
    close_to(student_quantile(0.90, 4), 1.533206274, 1e-9);
    close_to(student_quantile(0.90, 8), 1.396815310, 1e-9);
    close_to(student_quantile(0.95, 10), 1.812461123, 1e-9);
    close_to(student_quantile(0.975, 2), 4.302652730, 1e-9);
    close_to(student_quantile(0.975, 4), 2.776445105, 1e-9);
}

/* Closed forms: one degree is the Cauchy distribution, t = tan(pi (p - 1/2)); two degrees t = (2p - 1) / sqrt(2 p (1
 * - p)). */
static void one_and_two_degrees_have_a_closed_form(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(chance) - 1; i++) {
        double p = chance[i];

        close_to(student_quantile(p, 1), p < 0.1 ? -1 / tan(acos(-1) * p) : tan(acos(-1) * (p - 0.5)), 1e-8);
        close_to(student_quantile(p, 2), (2 * p - 1) / sqrt(2 * p * (1 - p)), 1e-8);
    }
}

static void quantiles_are_symmetric(void **state)
{
    (void)state;
    for (double p = 0.0625; p < 0.5; p += 0.0625) {
        assert_true(normal_quantile(p) == -normal_quantile(1 - p));
        assert_true(student_quantile(p, 7) == -student_quantile(1 - p, 7));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_normal_distribution_agrees_with_gsl),
        cmocka_unit_test(normal_quantiles_agree_with_gsl),
        cmocka_unit_test(student_quantiles_agree_with_gsl),
        cmocka_unit_test(chances_of_student_agree_with_gsl),
        cmocka_unit_test(quantiles_are_those_of_the_printed_tables),
        cmocka_unit_test(one_and_two_degrees_have_a_closed_form),
        cmocka_unit_test(quantiles_are_symmetric),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
