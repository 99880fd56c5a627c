/* What batches teach: means and spreads by hand, rejects by the worked example, and how the pace must move. */
#include "calc/learn.h"

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

#include "calc/near.h"

enum { BATCHES = 24 };

static const struct practice *practice(void)
{
    return facts_reference()->practice;
}

static const struct reject_prior simple = {2, 24};

static double uniform(gsl_rng *rng, double lo, double hi)
{
    return lo + (hi - lo) * gsl_rng_uniform(rng);
}

/* ---- Values */

/* By hand: 7, 9, 11: mean 9, deviation 2. */
static void values_that_were_not_taken_do_not_count(void **state)
{
    const double value[] = {7, NAN, 9, 11, NAN};
    struct learned_value learned = learn_value(value, 5);
    (void)state;

    assert_int_equal(learned.batches, 3);
    assert_near(learned.mean, 9, 1e-12);
    assert_near(learned.spread, 2, 1e-12);
}

static void one_value_has_no_spread_and_none_no_batches(void **state)
{
    const double value[] = {7, NAN};
    struct learned_value one = learn_value(value, 2), none = learn_value(value + 1, 1);
    (void)state;

    assert_int_equal(one.batches, 1);
    assert_true(one.mean == 7 && isnan(one.spread));
    assert_int_equal(none.batches, 0);
    assert_true(none.mean == 0);
}

/* ---- Pieces */

/* Worked: batch means 6.1, 6.8, 6.4, 7.2, 6.5 have mean 6.6 and deviation 0.418330. However many pieces each is of. */
static void masses_are_the_mean_of_the_batches_means(void **state)
{
    const struct piece_seen seen[] = {{.made = 3, .each_g = 6.1}, {.made = 60, .each_g = 6.8}, {.each_g = NAN},
                                      {.made = 20, .each_g = 6.4}, {.made = 9, .each_g = 7.2}, {.made = 44, .each_g = 6.5}};
    struct learned_pieces learned;
    (void)state;

    learn_pieces(practice(), simple, seen, 6, &learned);
    assert_int_equal(learned.weighed, 5);
    assert_near(learned.mass_g, 6.6, 1e-12);
    assert_near(learned.between_g, 0.418330, 5e-7);
    assert_int_equal(learned.within_degrees, 0);
    assert_true(isnan(learned.within_g));
    assert_int_equal(learned.counted, 0);
}

/* By hand: squares 0.4 on 2 degrees and 0.8 on 4 are 1.2 on 6; a stretch alone has none. */
static void spread_within_is_pooled_by_its_degrees(void **state)
{
    const struct piece_seen seen[] = {{.made = 10, .each_g = 6, .within_squares = 0.4, .within_degrees = 2},
                                      {.made = 10, .each_g = 7, .within_squares = 0.8, .within_degrees = 4},
                                      {.made = 10, .each_g = 8}};
    struct learned_pieces learned;
    (void)state;

    learn_pieces(practice(), simple, seen, 3, &learned);
    assert_int_equal(learned.within_degrees, 6);
    assert_near(learned.within_g, sqrt(0.2), 1e-12);
}

/* Worked: 3 rejects of 30 on Beta(2, 24) are Beta(5, 51). */
static void rejects_bring_the_prior_up_to_date(void **state)
{
    const struct piece_seen seen[] = {{.counted = true, .good = 17, .rejects = 1},
                                      {.good = 99, .rejects = 99},
                                      {.counted = true},
                                      {.counted = true, .good = 10, .rejects = 2}};
    struct learned_pieces learned;
    (void)state;

    learn_pieces(practice(), simple, seen, 4, &learned);
    assert_int_equal(learned.counted, 2);
    assert_int_equal(learned.good, 27);
    assert_int_equal(learned.rejects, 3);
    assert_near(learned.reject_a, 5, 1e-12);
    assert_near(learned.reject_b, 51, 1e-12);
}

/* Common practice: a + b at most 60, with a to b kept. By hand: 12 of 226 are 3.186 of 60. */
static void many_rejects_count_as_sixty_pieces(void **state)
{
    const struct piece_seen seen[] = {{.counted = true, .good = 190, .rejects = 10}};
    struct learned_pieces learned;
    (void)state;

    learn_pieces(practice(), simple, seen, 1, &learned);
    assert_near(learned.reject_a + learned.reject_b, 60, 1e-12);
    assert_near(learned.reject_a, 60.0 * 12 / 226, 1e-12);
}

/* ---- Pace */

static struct pace_seen random_batch(gsl_rng *rng)
{
    struct pace_terms terms = {.technique = (enum technique)gsl_rng_uniform_int(rng, 5),
                               .strength = uniform(rng, 0.25, 0.4),
                               .temp_c = uniform(rng, 25, 50),
                               .saturated = uniform(rng, 0.3, 0.6),
                               .oils_g = uniform(rng, 150, 2000),
                               .acceleration = (enum acceleration)gsl_rng_uniform_int(rng, 4),
                               .long_blend = gsl_rng_uniform(rng) < 0.3};
    struct pace_seen seen = {.from_min = exp(uniform(rng, log(3), log(60)))};

    pace_numbers(practice(), &terms, seen.x);
    seen.until_min = gsl_rng_uniform(rng) < 0.1 ? (double)NAN : seen.from_min * exp(uniform(rng, 0.0, 1.8));
    seen.at_least = gsl_rng_uniform(rng) < 0.5;
    return seen;
}

static int random_batches(gsl_rng *rng, struct pace_seen seen[BATCHES])
{
    int n = 1 + (int)gsl_rng_uniform_int(rng, BATCHES);

    for (int i = 0; i < n; i++)
        seen[i] = random_batch(rng);
    return n;
}

static void assert_same_belief(const struct belief *a, const struct belief *b)
{
    for (int i = 0; i < PACE_TERMS; i++) {
        assert_near(a->mean[i], b->mean[i], 1e-9);
        for (int j = 0; j < PACE_TERMS; j++)
            assert_near(a->covariance[i][j], b->covariance[i][j], 1e-9);
    }
    assert_near(a->shape, b->shape, 1e-9);
    assert_near(a->scale, b->scale, 1e-9);
}

static void without_batches_it_is_the_belief_of_practice(void **state)
{
    struct pace_belief learned, prior;
    (void)state;

    pace_prior(practice(), &prior);
    assert_int_equal(learn_pace(practice(), NULL, 0, &learned), 0);
    assert_memory_equal(&learned.from.mean, &prior.from.mean, sizeof prior.from.mean);
    assert_same_belief(&learned.ratio, &prior.ratio);
    assert_true(learned.from_t == prior.from_t);
}

static void the_order_of_batches_does_not_matter(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_taus2);
    (void)state;

    for (int run = 0; run < 100; run++) {
        struct pace_seen seen[BATCHES];
        struct pace_belief a, b;
        int n = random_batches(rng, seen), batches = learn_pace(practice(), seen, n, &a);

        gsl_ran_shuffle(rng, seen, (size_t)n, sizeof seen[0]);
        assert_int_equal(learn_pace(practice(), seen, n, &b), batches);
        assert_same_belief(&a.from, &b.from);
        assert_same_belief(&a.ratio, &b.ratio);
    }
    gsl_rng_free(rng);
}

/* What says nothing: no from, no number, an until before from. */
static void batches_that_say_nothing_teach_nothing(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_taus2);
    (void)state;

    for (int run = 0; run < 60; run++) {
        struct pace_seen seen[BATCHES + 3];
        struct pace_belief without, with;
        int n = random_batches(rng, seen), batches = learn_pace(practice(), seen, n, &without);

        for (int i = n; i < n + 3; i++)
            seen[i] = random_batch(rng);
        seen[n].from_min = NAN;
        seen[n + 1].from_min = 0.0;
        seen[n + 2].x[PACE_TEMP] = NAN;
        assert_int_equal(learn_pace(practice(), seen, n + 3, &with), batches);
        assert_memory_equal(&with, &without, sizeof with);

        seen[n].from_min = 20.0;
        seen[n].until_min = 10.0;
        assert_int_equal(learn_pace(practice(), seen, n + 1, &with), batches + 1);
        assert_same_belief(&with.ratio, &without.ratio);
    }
    gsl_rng_free(rng);
}

static void a_batch_seen_twice_is_not_one_seen_once(void **state)
{
    const struct pace_seen seen[] = {{.x = {[PACE_PIPE] = 1}, .from_min = 20, .until_min = 80, .at_least = true},
                                     {.x = {[PACE_PIPE] = 1}, .from_min = 20, .until_min = 80, .at_least = true}};
    struct pace_belief once, twice;
    (void)state;

    learn_pace(practice(), seen, 1, &once);
    assert_int_equal(learn_pace(practice(), seen, 2, &twice), 2);
    assert_true(twice.from.mean[PACE_PIPE] < once.from.mean[PACE_PIPE] - 0.01);
    assert_true(twice.ratio.mean[PACE_PIPE] > once.ratio.mean[PACE_PIPE] + 0.01);
    assert_true(twice.ratio.covariance[PACE_PIPE][PACE_PIPE] < once.ratio.covariance[PACE_PIPE][PACE_PIPE]);
}

/* Property: that a batch was still workable at some time never shortens what is expected of batches like it, and lengthens it at least
 * as much as if it had been too stiff just then. */
static void at_least_never_shortens(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_taus2);
    (void)state;

    for (int run = 0; run < 400; run++) {
        struct pace_seen seen[BATCHES];
        struct pace_belief without, at_least, exact;
        int n = random_batches(rng, seen);
        struct pace_seen *last = &seen[n - 1];
        double until = last->from_min * exp(uniform(rng, 0.0, 2.5));

        last->until_min = NAN;
        learn_pace(practice(), seen, n, &without);
        last->until_min = until;
        last->at_least = true;
        learn_pace(practice(), seen, n, &at_least);
        last->at_least = false;
        learn_pace(practice(), seen, n, &exact);

        double middle = belief_middle(&at_least.ratio, last->x);

        assert_true(middle > belief_middle(&without.ratio, last->x));
        assert_true(middle > belief_middle(&exact.ratio, last->x));
    }
    gsl_rng_free(rng);
}

/* Property: the later it was still workable, the longer. */
static void at_least_so_long_lengthens_with_the_time(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_taus2);
    (void)state;

    for (int run = 0; run < 100; run++) {
        struct pace_seen seen[BATCHES];
        int n = random_batches(rng, seen);
        struct pace_seen *last = &seen[n - 1];
        double before = -INFINITY;

        last->at_least = true;
        for (double ratio = 0.0; ratio < 4.0; ratio += 0.25) {
            struct pace_belief belief;

            last->until_min = last->from_min * exp(ratio);
            learn_pace(practice(), seen, n, &belief);
            assert_true(belief_middle(&belief.ratio, last->x) > before);
            before = belief_middle(&belief.ratio, last->x);
        }
    }
    gsl_rng_free(rng);
}

/* Property: whatever was seen, every figure is finite, nothing is surer than if all had been seen in full, and shapes stay above
 * 2 as predictions need. */
static void every_belief_can_be_predicted_from(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_taus2);
    (void)state;

    for (int run = 0; run < 200; run++) {
        struct pace_seen seen[BATCHES];
        struct pace_belief belief, full;
        int n = random_batches(rng, seen);

        for (int i = 0; i < n; i++)
            if (gsl_rng_uniform(rng) < 0.2)
                seen[i].until_min = seen[i].from_min * exp(uniform(rng, 0.0, 500.0));
        learn_pace(practice(), seen, n, &belief);
        for (int i = 0; i < n; i++)
            seen[i].at_least = false;
        learn_pace(practice(), seen, n, &full);
        for (int i = 0; i < PACE_TERMS; i++) {
            assert_true(isfinite(belief.from.mean[i]) && isfinite(belief.ratio.mean[i]));
            assert_true(belief.ratio.covariance[i][i] > 0.0);
            assert_true(belief.ratio.covariance[i][i] >= full.ratio.covariance[i][i] * (1.0 - 1e-9));
        }
        assert_true(belief.ratio.shape >= practice()->pace_shape && belief.ratio.shape <= full.ratio.shape + 1e-9);
        assert_true(belief.ratio.scale > 0.0 && isfinite(belief.ratio.scale));
    }
    gsl_rng_free(rng);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_that_were_not_taken_do_not_count),
        cmocka_unit_test(one_value_has_no_spread_and_none_no_batches),
        cmocka_unit_test(masses_are_the_mean_of_the_batches_means),
        cmocka_unit_test(spread_within_is_pooled_by_its_degrees),
        cmocka_unit_test(rejects_bring_the_prior_up_to_date),
        cmocka_unit_test(many_rejects_count_as_sixty_pieces),
        cmocka_unit_test(without_batches_it_is_the_belief_of_practice),
        cmocka_unit_test(the_order_of_batches_does_not_matter),
        cmocka_unit_test(batches_that_say_nothing_teach_nothing),
        cmocka_unit_test(a_batch_seen_twice_is_not_one_seen_once),
        cmocka_unit_test(at_least_never_shortens),
        cmocka_unit_test(at_least_so_long_lengthens_with_the_time),
        cmocka_unit_test(every_belief_can_be_predicted_from),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
