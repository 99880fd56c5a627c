/* Why two batches differ: factors by common practice and by hand, and against the prediction itself. */
#include "calc/differ.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_rng.h>

#include "calc/learn.h"
#include "calc/near.h"

static const struct practice *practice(void)
{
    return facts_reference()->practice;
}

static double uniform(gsl_rng *rng, double lo, double hi)
{
    return lo + (hi - lo) * gsl_rng_uniform(rng);
}

/* The conditions that the figures of practice are for. */
static struct pace_terms usual(enum technique technique)
{
    return (struct pace_terms){.technique = technique,
                               .strength = practice()->pace_ref_strength,
                               .temp_c = practice()->pace_ref_temp_c,
                               .saturated = practice()->pace_ref_saturated,
                               .oils_g = practice()->pace_ref_oils_g,
                               .acceleration = ACCELERATION_NONE};
}

static int differ(const struct pace_terms *a, const struct pace_terms *b, enum differ_figure figure,
                  struct differ_cause causes[PACE_TERMS], double *expected)
{
    double xa[PACE_TERMS], xb[PACE_TERMS];
    struct pace_belief belief;

    pace_prior(practice(), &belief);
    pace_numbers(practice(), a, xa);
    pace_numbers(practice(), b, xb);
    return differ_pace(&belief, xa, xb, figure, causes, expected);
}

static void batches_made_alike_have_no_cause(void **state)
{
    struct pace_terms terms = usual(TECHNIQUE_PIPE);
    struct differ_cause causes[PACE_TERMS];
    double expected;
    (void)state;

    assert_int_equal(differ(&terms, &terms, DIFFER_WINDOW, causes, &expected), 0);
    assert_true(expected == 1.0);
}

/* Common practice: 5 points of strength x 0.75, 10 degrees x 0.65, a strong fragrance x 0.2: 0.0975 together, the fragrance
 * first. Its logarithm is known to half of its size: by GSL's t of 12 degrees, whose variance is 12/10 of its scale's. */
static void causes_are_the_factors_of_practice_ranked(void **state)
{
    struct pace_terms a = usual(TECHNIQUE_PIPE), b = a;
    struct differ_cause causes[PACE_TERMS];
    double expected;
    (void)state;

    a.strength += 0.05;
    a.temp_c += 10.0;
    a.acceleration = ACCELERATION_STRONG;
    assert_int_equal(differ(&a, &b, DIFFER_FROM, causes, &expected), 3);
    assert_int_equal(causes[0].term, PACE_STRONG);
    assert_int_equal(causes[1].term, PACE_TEMP);
    assert_int_equal(causes[2].term, PACE_STRENGTH);
    assert_near(causes[0].moves, 0.2, 1e-12);
    assert_near(causes[1].moves, 0.65, 1e-12);
    assert_near(causes[2].moves, 0.75, 1e-12);
    assert_near(expected, 0.2 * 0.65 * 0.75, 1e-12);

    double deviation = 0.5 * fabs(log(0.2)), half = gsl_cdf_tdist_Pinv(0.9, 12) * deviation * sqrt(10.0 / 12.0);

    assert_near(causes[0].low, 0.2 * exp(-half), 1e-9);
    assert_near(causes[0].high, 0.2 * exp(half), 1e-9);
}

/* The other way it is the other way. */
static void a_slower_batch_has_factors_above_one(void **state)
{
    struct pace_terms a = usual(TECHNIQUE_PIPE), b = a;
    struct differ_cause causes[PACE_TERMS];
    double expected;
    (void)state;

    b.strength += 0.05;
    assert_int_equal(differ(&a, &b, DIFFER_UNTIL, causes, &expected), 1);
    assert_near(causes[0].moves, 1.0 / 0.75, 1e-12);
    assert_true(causes[0].low < causes[0].moves && causes[0].moves < causes[0].high);
    assert_near(expected, 1.0 / 0.75, 1e-12);
}

/* Common practice: from 5 to 30 minutes for pouring, 45 to 75 for piping: x 9, x 2.5, and 30 for 25 minutes of window. */
static void technique_is_one_cause(void **state)
{
    static const struct {
        enum differ_figure figure;
        double moves;
    } row[] = {{DIFFER_FROM, 9.0}, {DIFFER_UNTIL, 2.5}, {DIFFER_WINDOW, 30.0 / 25.0}};
    struct pace_terms a = usual(TECHNIQUE_PIPE), b = usual(TECHNIQUE_SWIRL);
    struct differ_cause causes[PACE_TERMS];
    double expected;
    (void)state;

    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        assert_int_equal(differ(&a, &b, row[i].figure, causes, &expected), 1);
        assert_int_equal(causes[0].term, PACE_PIPE);
        assert_near(causes[0].moves, row[i].moves, 1e-12);
        assert_near(expected, row[i].moves, 1e-12);
    }
    b = usual(TECHNIQUE_POUR); /* pouring and swirling wait for the same */
    a = usual(TECHNIQUE_SWIRL);
    assert_int_equal(differ(&a, &b, DIFFER_FROM, causes, &expected), 0);
}

/* An input that is known exactly has no interval; the window then, with a ratio of 2 that becomes 4: 3 for 1. */
static void what_is_known_exactly_has_no_interval(void **state)
{
    const double b[PACE_TERMS] = {[PACE_PIPE] = 1}, a[PACE_TERMS] = {[PACE_PIPE] = 1, [PACE_TEMP] = 1};
    struct differ_cause causes[PACE_TERMS];
    struct pace_belief belief;
    double expected;
    (void)state;

    belief_start(&belief.from, 6.0, 0.8);
    belief_start(&belief.ratio, 6.0, 0.8);
    belief.from.mean[PACE_PIPE] = log(20.0);
    belief.ratio.mean[PACE_PIPE] = belief.ratio.mean[PACE_TEMP] = log(2.0);
    pace_believe(&belief);
    assert_int_equal(differ_pace(&belief, a, b, DIFFER_WINDOW, causes, &expected), 1);
    assert_near(causes[0].moves, 3.0, 1e-12);
    assert_near(causes[0].low, 3.0, 1e-12);
    assert_near(causes[0].high, 3.0, 1e-12);
    assert_near(expected, 3.0, 1e-12);
}

/* By hand: the ratio falls from 2 to 1/2, so until comes before from: no window, which counts as a hundredth of from. */
static void a_window_that_closes_has_a_finite_factor(void **state)
{
    const double b[PACE_TERMS] = {[PACE_PIPE] = 1}, a[PACE_TERMS] = {[PACE_PIPE] = 1, [PACE_TEMP] = 1};
    struct differ_cause causes[PACE_TERMS];
    struct pace_belief belief;
    double expected;
    (void)state;

    pace_prior(practice(), &belief);
    belief.ratio.mean[PACE_PIPE] = log(2.0);
    belief.ratio.mean[PACE_TEMP] = -log(4.0);
    belief.from.mean[PACE_TEMP] = 0.0;
    assert_int_equal(differ_pace(&belief, a, b, DIFFER_WINDOW, causes, &expected), 1);
    assert_near(causes[0].moves, expm1(0.01), 1e-12);
    assert_int_equal(differ_pace(&belief, b, a, DIFFER_WINDOW, causes, &expected), 1);
    assert_near(causes[0].moves, 1.0 / expm1(0.01), 1e-9);
    assert_true(isfinite(causes[0].low) && isfinite(causes[0].high));
}

static struct pace_terms random_terms(gsl_rng *rng)
{
    return (struct pace_terms){.technique = (enum technique)gsl_rng_uniform_int(rng, 5),
                               .strength = uniform(rng, 0.25, 0.4),
                               .temp_c = uniform(rng, 25, 50),
                               .saturated = uniform(rng, 0.3, 0.6),
                               .oils_g = uniform(rng, 150, 2000),
                               .acceleration = (enum acceleration)gsl_rng_uniform_int(rng, 4),
                               .long_blend = gsl_rng_uniform(rng) < 0.3};
}

static double figure_of(const struct pace_belief *belief, const struct pace_terms *terms, enum differ_figure figure)
{
    struct quantiles from, until;

    pace_predict(practice(), belief, terms, &from, &until);
    return figure == DIFFER_FROM ? from.median : figure == DIFFER_UNTIL ? until.median : until.median - from.median;
}

/* Property: with what random batches teach the expected factor is that between the two predictions; causes are ranked, within
 * their intervals, and of from and until they multiply to it. */
static void factors_explain_the_predictions(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_taus2);
    (void)state;

    for (int run = 0; run < 300; run++) {
        struct pace_seen seen[8];
        struct pace_belief belief;
        struct pace_terms a = random_terms(rng), b = random_terms(rng);
        double xa[PACE_TERMS], xb[PACE_TERMS];

        for (int i = 0; i < 8; i++) {
            struct pace_terms terms = random_terms(rng);

            seen[i] = (struct pace_seen){.from_min = uniform(rng, 5, 40), .at_least = i % 2};
            seen[i].until_min = seen[i].from_min * uniform(rng, 1.5, 4);
            pace_numbers(practice(), &terms, seen[i].x);
        }
        learn_pace(practice(), seen, 8, &belief);
        pace_numbers(practice(), &a, xa);
        pace_numbers(practice(), &b, xb);
        for (int figure = DIFFER_FROM; figure <= DIFFER_WINDOW; figure++) {
            struct differ_cause causes[PACE_TERMS];
            double expected, product = 1.0;
            double ours = figure_of(&belief, &a, (enum differ_figure)figure);
            double theirs = figure_of(&belief, &b, (enum differ_figure)figure);
            int n = differ_pace(&belief, xa, xb, (enum differ_figure)figure, causes, &expected);

            if (belief_middle(&belief.ratio, xa) > 0.01 && belief_middle(&belief.ratio, xb) > 0.01)
                assert_near(expected / (ours / theirs), 1.0, 1e-9);
            for (int i = 0; i < n; i++) {
                product *= causes[i].moves;
                assert_true(causes[i].low <= causes[i].moves && causes[i].moves <= causes[i].high);
                assert_true(i == 0 || fabs(log(causes[i].moves)) <= fabs(log(causes[i - 1].moves)) + 1e-12);
            }
            if (figure != DIFFER_WINDOW)
                assert_near(product / expected, 1.0, 1e-9);
        }
    }
    gsl_rng_free(rng);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(batches_made_alike_have_no_cause),
        cmocka_unit_test(causes_are_the_factors_of_practice_ranked),
        cmocka_unit_test(a_slower_batch_has_factors_above_one),
        cmocka_unit_test(technique_is_one_cause),
        cmocka_unit_test(what_is_known_exactly_has_no_interval),
        cmocka_unit_test(a_window_that_closes_has_a_finite_factor),
        cmocka_unit_test(factors_explain_the_predictions),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
