/* test_pieces_chance.c - counting pieces against textbook tables, exact fractions and the GNU Scientific Library. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_sf_gamma.h>

#include "calc/pieces.h"

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

static const struct reject_prior simple = {2, 24}, flower = {3, 22}, first_time = {4, 16};

static void near(double value, double expected, double within)
{
    if (!(fabs(value - expected) <= within))
        fail_msg("%.17g, expected %.17g within %g", value, expected, within);
}

/* P(exactly k of n are rejects). */
static double chance_of(int n, int k, struct reject_prior prior)
{
    return pieces_chance(n, n - k, prior) - pieces_chance(n, n - k + 1, prior);
}

/* The definition of the beta-binomial distribution with the library's gamma functions. */
static double by_gsl(int n, int wanted, struct reject_prior prior)
{
    double sum = 0;

    for (int k = n - wanted; k >= 0; k--)
        sum += exp(gsl_sf_lnchoose((unsigned)n, (unsigned)k) + gsl_sf_lnbeta(k + prior.a, n - k + prior.b) -
                   gsl_sf_lnbeta(prior.a, prior.b));
    return sum;
}

/* Source: tables of the binomial distribution in any textbook (from memory, recomputed): P(X <= 1; 10, 0.1) =
 * 0.73610. A beta-binomial with a 1000 and b 9000 comes near, exactly 0.73608. The others with a prior of a million. */
static void a_firm_prior_gives_the_binomial_tables(void **state)
{
    (void)state;
    near(pieces_chance(10, 9, (struct reject_prior){1000, 9000}), 0.73608, 5e-6);
    near(pieces_chance(10, 9, (struct reject_prior){1e6, 9e6}), 0.73610, 1e-5);
    near(pieces_chance(20, 18, (struct reject_prior){5e5, 9.5e6}), 0.92452, 1e-5);
    near(pieces_chance(15, 12, (struct reject_prior){2e6, 8e6}), 0.64816, 1e-5);
    near(pieces_chance(20, 18, (struct reject_prior){5e8, 9.5e9}), gsl_cdf_binomial_P(2, 0.05, 20), 1e-7);
}

/* Exact fractions. */
static void chances_are_the_exact_fractions(void **state)
{
    (void)state;
    for (int k = 0; k <= 4; k++)
        near(chance_of(4, k, (struct reject_prior){1, 1}), 1.0 / 5, 1e-14);
    near(chance_of(10, 4, (struct reject_prior){2, 3}), 20.0 / 143, 1e-14);
    near(chance_of(10, 0, simple), 60.0 / 119, 1e-14);
    near(chance_of(29, 0, simple), 100.0 / 477, 1e-14);
    near(chance_of(29, 5, simple), 725.0 / 12614, 1e-14);
    near(pieces_chance(29, 24, simple), 11657.0 / 12614, 1e-14);
}

/* Worked with exact fractions: least number, the chance there and with one piece less. */
static void the_least_number_to_pipe_is_the_worked_one(void **state)
{
    static const struct {
        int wanted, to_pipe;
        double chance, one_less;
    } row[] = {
        {1, 1, 0.923077, 0},          {6, 8, 0.964076, 0.887097},   {12, 15, 0.943575, 0.877193},
        {24, 29, 0.924132, 0.876566}, {50, 59, 0.900368, 0.869096}, {100, 118, 0.905250, 0.889968},
    };

    (void)state;
    for (size_t i = 0; i < COUNT(row); i++) {
        assert_int_equal(pieces_to_pipe(row[i].wanted, 0.9, simple), row[i].to_pipe);
        near(pieces_chance(row[i].to_pipe, row[i].wanted, simple), row[i].chance, 5e-7);
        near(pieces_chance(row[i].to_pipe - 1, row[i].wanted, simple), row[i].one_less, 5e-7);
    }
    assert_int_equal(pieces_to_pipe(24, 0.9, flower), 31);
    near(pieces_chance(31, 24, flower), 0.907501, 5e-7);
    assert_int_equal(pieces_to_pipe(24, 0.9, first_time), 37);
    near(pieces_chance(37, 24, first_time), 0.920614, 5e-7);
}

/* At 25 the chance is exactly one half, and on Beta(1, 1) one good piece of n has a chance of n / (n + 1): without a
 * guard rounding decides. */
static void a_chance_that_is_met_exactly_counts(void **state)
{
    static const double chance[] = {0.5, 0.8, 0.95, 0.99, 0.999};
    static const int to_pipe[] = {25, 27, 30, 34, 39};

    (void)state;
    for (size_t i = 0; i < COUNT(chance); i++)
        assert_int_equal(pieces_to_pipe(24, chance[i], simple), to_pipe[i]);
    for (int n = 1; n <= 200; n++)
        assert_int_equal(pieces_to_pipe(1, n / (n + 1.0), (struct reject_prior){1, 1}), n);
}

/* Exact: 3 rejects of 30 on Beta(2, 24) is Beta(5, 51). */
static void the_maker_s_own_batches_move_the_chance(void **state)
{
    (void)state;
    assert_int_equal(pieces_to_pipe(24, 0.9, (struct reject_prior){5, 51}), 29);
    near(pieces_chance(29, 24, (struct reject_prior){5, 51}), 0.923978, 5e-7);
    near(pieces_chance(29, 24, (struct reject_prior){24, 2}), 1.8e-9, 5e-11);
}

/* Measure: gsl_sf_lnbeta and gsl_sf_lnchoose; logarithms of some thousands leave it about eleven digits. */
static void chances_agree_with_gsl_for_many_pieces_and_firm_priors(void **state)
{
    static const struct reject_prior prior[] = {{2, 24},   {3, 22}, {4, 16},      {5, 51},      {0.5, 0.5},
                                                {60, 0.5}, {16, 4}, {1000, 9000}, {9000, 1000}, {1030, 9970}};
    static const int wanted[] = {1, 2, 24, 300, 2000};

    (void)state;
    for (size_t i = 0; i < COUNT(prior); i++) {
        for (size_t k = 0; k < COUNT(wanted); k++) {
            for (int n = wanted[k]; n <= 4 * wanted[k] && n <= 4000; n += 1 + wanted[k] / 5) {
                double ours = pieces_chance(n, wanted[k], prior[i]), theirs = by_gsl(n, wanted[k], prior[i]);

                if (!(fabs(ours - theirs) <= 1e-8 * theirs + 1e-150))
                    fail_msg("n %d wanted %d prior %g %g: %.12g, GSL %.12g", n, wanted[k], prior[i].a, prior[i].b, ours,
                             theirs);
            }
        }
    }
}

/* A share of a tenth good, firmly known: the first terms are far below what a double holds, the chance is not. */
static void a_hopeless_start_does_not_underflow(void **state)
{
    const struct reject_prior mostly_bad = {9000, 1000};
    int n = pieces_to_pipe(2000, 0.9, mostly_bad);

    (void)state;
    assert_in_range(n, 20000, 22500);
    near(pieces_chance(n, 2000, mostly_bad), by_gsl(n, 2000, mostly_bad), 1e-7);
    assert_true(pieces_chance(n, 2000, mostly_bad) >= 0.9);
    assert_true(pieces_chance(n - 1, 2000, mostly_bad) < 0.9);
    assert_int_equal(pieces_to_pipe(2000, 0.9999, (struct reject_prior){50, 0.1}), PIECES_MOST);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_firm_prior_gives_the_binomial_tables),
        cmocka_unit_test(chances_are_the_exact_fractions),
        cmocka_unit_test(the_least_number_to_pipe_is_the_worked_one),
        cmocka_unit_test(a_chance_that_is_met_exactly_counts),
        cmocka_unit_test(the_maker_s_own_batches_move_the_chance),
        cmocka_unit_test(chances_agree_with_gsl_for_many_pieces_and_firm_priors),
        cmocka_unit_test(a_hopeless_start_does_not_underflow),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
