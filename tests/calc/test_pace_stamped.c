/* What stage stamps, counted pieces and the clock say about the window. */
#include "calc/pace_stamped.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <stdlib.h>

#include "calc/pace.h"
#include "calc/scene.h"

enum { COMBINED = 1773480000, RUNS = 400, DRAWS = 200000 };

struct forecast {
    struct quantiles from, until;
};

struct bench_scene {
    struct scene scene;
    struct batch batch;
};

/* 500 g of oils at the reference conditions of practice, one portion of that technique; combined, nothing stamped. There is one: a
 * new one clears the last. */
static struct bench_scene *combined(enum technique technique)
{
    static struct bench_scene b;
    const struct practice *practice = facts_reference()->practice;

    memset(&b, 0, sizeof b);
    scene_start(&b.scene);
    b.scene.plan.oils_ug = mass_ug(practice->pace_ref_oils_g);
    b.scene.plan.batter_ug = mass_ug(700.0);
    b.scene.plan.water.strength = practice->pace_ref_strength;
    b.scene.plan.acids.saturated = practice->pace_ref_saturated;
    scene_portion(&b.scene, 690.0, false, technique);
    b.batch.combined_s = COMBINED;
    b.batch.lye_temp_c = b.batch.oil_temp_c = NAN;
    b.batch.stage = -1;
    return &b;
}

static int64_t after(double minutes)
{
    return COMBINED + (int64_t)lround(minutes * 60.0);
}

static void stamp(struct bench_scene *b, int stage, double minutes)
{
    b->batch.stage = stage;
    b->batch.stage_s[stage] = after(minutes);
}

static struct forecast at(struct bench_scene *b, double minutes)
{
    struct forecast forecast;

    pace_stamped(&b->scene.in, &b->scene.plan, &b->scene.plan.portion[0], &b->batch, after(minutes), &forecast.from,
                 &forecast.until);
    return forecast;
}

static void assert_same(const struct quantiles *a, const struct quantiles *b, double relative)
{
    assert_near(a->median / b->median, 1.0, relative);
    assert_near(a->low / b->low, 1.0, relative);
    assert_near(a->high / b->high, 1.0, relative);
}

static void assert_moment(const struct quantiles *q, double minutes)
{
    assert_near(q->low, minutes, 1e-9);
    assert_near(q->median, minutes, 1e-9);
    assert_near(q->high, minutes, 1e-9);
}

static void before_combining_the_forecast_is_that_of_the_plan(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    struct plan *plan = &b->scene.plan;
    (void)state;

    b->batch.combined_s = 0;
    pace_plan(&b->scene.in, plan);

    struct forecast forecast = at(b, 0.0);

    assert_same(&forecast.from, &plan->portion[0].pace.from, 1e-15);
    assert_same(&forecast.until, &plan->portion[0].pace.until, 1e-15);
    assert_near(pace_elapsed_min(&b->batch, after(5.0)), 0.0, 0.0);
}

/* The plan's `until` is a matched Student variable, within 0.3 % of the sum in log width; the forecast sums both. */
static void just_combined_the_forecast_is_still_that_of_the_plan(void **state)
{
    static const enum technique technique[] = {TECHNIQUE_POUR, TECHNIQUE_LAYER, TECHNIQUE_PIPE};
    (void)state;

    for (size_t i = 0; i < ROWS(technique); i++) {
        struct bench_scene *b = combined(technique[i]);

        pace_plan(&b->scene.in, &b->scene.plan);

        struct forecast forecast = at(b, 0.0);

        assert_same(&forecast.from, &b->scene.plan.portion[0].pace.from, 1e-6);
        assert_same(&forecast.until, &b->scene.plan.portion[0].pace.until, 0.006);
    }
}

/* ---- The update, worked in another way: two unknowns, the offset of the technique and the residual of the batch, by the formulas
 * for any regression (posterior L = L0 + X'X, m = L^-1 (L0 m0 + X'y), a = a0 + 1/2, b = b0 + (y'y + m0'L0 m0 - m'L m) / 2, any
 * text on Bayesian linear regression), the row divided by the root of its noise. */
struct worked {
    double middle, scale, degrees;
};

/* scale: b0, shape 6. */
static struct worked two_unknowns(double scale, double offset, double stamped, double gap)
{
    double residual = scale / 5.0, noise = 0.3 * 0.3 * fabs(gap) / residual;
    double l_offset = residual / (0.3 * 0.3), l_batch = 1.0; /* L0, diagonal */
    double x = 1.0 / sqrt(noise), y = (stamped - gap) / sqrt(noise);
    double a11 = l_offset + x * x, a12 = x * x, a22 = l_batch + x * x, det = a11 * a22 - a12 * a12;
    double r1 = l_offset * offset + x * y, r2 = x * y;
    double m1 = (a22 * r1 - a12 * r2) / det, m2 = (a11 * r2 - a12 * r1) / det;
    double spread = (a22 + a11 - 2.0 * a12) / det; /* of offset + residual: the sum of all of L^-1 */
    double b = scale +
               (y * y + l_offset * offset * offset - (a11 * m1 * m1 + 2.0 * a12 * m1 * m2 + a22 * m2 * m2)) / 2.0;

    return (struct worked){m1 + m2, sqrt(b / 6.5 * spread), 13.0};
}

/* Quantile by GSL, given that it is above `least`. */
static double worked_quantile(struct worked w, double least, double p)
{
    double above = gsl_cdf_tdist_Q((least - w.middle) / w.scale, w.degrees);

    return exp(w.middle + w.scale * gsl_cdf_tdist_Qinv((1.0 - p) * above, w.degrees));
}

/* Memory: the ladder (1.5, 5, 15, 30, 45, 75 and 150 min at the reference conditions) and the deviation of 0.3. The shares have
 * four decimals, so a gap is within 3e-4. */
static void a_stamp_is_the_conjugate_update_of_the_batch_s_own_residual(void **state)
{
    static const double ladder[] = {0, 1.5, 5, 15, 30};
    static const double factor[] = {0.3, 0.7, 1.0, 1.6, 2.5};
    (void)state;

    for (int stage = 1; stage <= 4; stage++) {
        for (size_t i = 0; i < ROWS(factor); i++) {
            struct bench_scene *b = combined(TECHNIQUE_PIPE);
            double minutes = round(ladder[stage] * factor[i] * 60.0) / 60.0, now = minutes + 1.0;

            stamp(b, stage, minutes);

            struct forecast forecast = at(b, now);
            struct worked w = two_unknowns(0.8, log(45.0), log(minutes), log(ladder[stage] / 45.0));

            assert_near(forecast.from.median / worked_quantile(w, log(now), 0.5), 1.0, 4e-4);
            assert_near(forecast.from.low / worked_quantile(w, log(now), 0.1), 1.0, 4e-4);
            assert_near(forecast.from.high / worked_quantile(w, log(now), 0.9), 1.0, 4e-4);
        }
    }
}

/* A maker whose own batches differ by half as much: their belief is updated, and a stage is as far from the next as ever. */
static void a_stamp_updates_the_belief_of_own_batches(void **state)
{
    static const double minutes[] = {3.0, 5.0, 9.0};
    struct practice steady = *facts_reference()->practice;
    (void)state;

    steady.pace_scale = 0.2;
    for (size_t i = 0; i < ROWS(minutes); i++) {
        struct bench_scene *b = combined(TECHNIQUE_PIPE);
        double now = minutes[i] + 1.0;

        pace_prior(&steady, &b->scene.bench.learned.pace);
        b->scene.bench.learned.pace_batches = 5;
        stamp(b, 2, minutes[i]);

        struct forecast forecast = at(b, now);
        struct worked w = two_unknowns(0.2, log(45.0), log(minutes[i]), log(5.0 / 45.0));

        assert_near(forecast.from.median / worked_quantile(w, log(now), 0.5), 1.0, 4e-4);
        assert_near(forecast.from.low / worked_quantile(w, log(now), 0.1), 1.0, 4e-4);
        assert_near(forecast.from.high / worked_quantile(w, log(now), 0.9), 1.0, 4e-4);
    }
}

static void a_stamp_narrows_the_forecast_and_a_nearer_stage_narrows_it_more(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    struct forecast none = at(b, 6.0);
    (void)state;

    stamp(b, 2, 5.0);

    struct forecast thin = at(b, 6.0);

    b = combined(TECHNIQUE_PIPE);
    stamp(b, 4, 30.0);

    struct forecast thick = at(b, 30.0);

    assert_true(log(thin.from.high / thin.from.low) < 0.95 * log(none.from.high / none.from.low));
    assert_true(log(thick.from.high / thick.from.low) < 0.6 * log(thin.from.high / thin.from.low));
    assert_true(thin.until.high < none.until.high);
}

static void an_early_stamp_brings_the_window_forward_and_a_late_one_puts_it_off(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    (void)state;

    stamp(b, 3, 7.5);

    struct forecast fast = at(b, 8.0);

    b = combined(TECHNIQUE_PIPE);
    stamp(b, 3, 30.0);

    struct forecast slow = at(b, 30.0);

    assert_true(fast.from.median < 33.0 && fast.until.median < 60.0);
    assert_true(slow.from.median > 65.0 && slow.until.median > 100.0);
}

/* ---- What is seen, against draws that are thrown away where they contradict it. */

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;

    return (x > y) - (x < y);
}

static double share_below(const double *drawn, int n, double value)
{
    int below = 0;

    while (below < n && drawn[below] < value)
        below++;
    return (double)below / n;
}

/* from: middle, scale and degrees of its log, scale 0: known; ratio as practice has it for piping. */
static void draws_agree(struct worked from, double now, const struct forecast *forecast, bool from_is_ahead)
{
    static double drawn[DRAWS];
    struct worked ratio = {log(75.0 / 45.0), sqrt(0.8 / 6.0 * (1.0 + 0.09 / 0.16)), 12.0};
    gsl_rng *random = gsl_rng_alloc(gsl_rng_mt19937);
    int n = 0;

    for (int i = 0; i < 4 * DRAWS && n < DRAWS; i++) {
        double log_from = from.middle + from.scale * gsl_ran_tdist(random, from.degrees);
        double log_until = log_from + ratio.middle + ratio.scale * gsl_ran_tdist(random, ratio.degrees);

        if (log_until > log(now) && (!from_is_ahead || log_from > log(now)))
            drawn[n++] = exp(log_until);
    }
    gsl_rng_free(random);
    assert_true(n > DRAWS / 20);
    qsort(drawn, (size_t)n, sizeof *drawn, ascending);
    assert_near(share_below(drawn, n, forecast->until.median), 0.5, 0.008);
    assert_near(share_below(drawn, n, forecast->until.high), 0.9, 0.008);
    if (forecast->until.low > forecast->from.low * (1.0 + 1e-9)) /* else it is held up by from */
        assert_near(share_below(drawn, n, forecast->until.low), 0.1, 0.008);
}

static void until_is_the_distribution_given_all_that_was_seen(void **state)
{
    const struct worked practice = {log(45.0), sqrt(0.8 / 6.0 * (1.0 + 0.09 / 0.16)), 12.0};
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    struct forecast forecast = at(b, 30.0);
    (void)state;

    draws_agree(practice, 30.0, &forecast, true);
    forecast = at(b, 100.0); /* far beyond what was predicted, and still not stiff */
    draws_agree(practice, 100.0, &forecast, true);
    stamp(b, 4, 20.0);
    forecast = at(b, 24.0);
    draws_agree(two_unknowns(0.8, log(45.0), log(20.0), log(30.0 / 45.0)), 24.0, &forecast, true);
    stamp(b, 5, 40.0);
    forecast = at(b, 70.0);
    draws_agree((struct worked){log(40.0), 0.0, 13.0}, 70.0, &forecast, false);
}

static void the_stage_that_is_waited_for_ends_the_wait(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    (void)state;

    stamp(b, 3, 12.0);
    stamp(b, 5, 38.0);

    struct forecast forecast = at(b, 50.0);

    assert_moment(&forecast.from, 38.0);
    assert_true(forecast.until.low > 50.0);
    forecast = at(b, 90.0);
    assert_moment(&forecast.from, 38.0);
    assert_true(forecast.until.low > 90.0);
}

/* Between medium trace at 15 and piping consistency at 45 minutes (common practice), thick trace is at 30: log 2 of log 3. One
 * observation of the ratio, by the same formulas with one unknown of its own: prior log 3, variance v (1 + 0.09 / 0.16). */
static void a_stage_within_the_window_says_how_long_it_is(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_LAYER);
    double share = log(2.0) / log(3.0), noise = 0.09 * log(2.0) / 0.16, q = 1.0 + 0.09 / 0.16;
    double seen = log(24.0 / 15.0), precision = 1.0 / q + share * share / noise;
    double middle = (log(3.0) / q + share * seen / noise) / precision;
    double miss = seen - share * log(3.0), scale = 0.8 + miss * miss / (2.0 * (noise + share * share * q));
    struct worked w = {log(15.0) + middle, sqrt(scale / 6.5 / precision), 13.0};
    (void)state;

    stamp(b, 3, 15.0);
    stamp(b, 4, 24.0);

    struct forecast forecast = at(b, 25.0);

    assert_moment(&forecast.from, 15.0);
    assert_near(forecast.until.median / worked_quantile(w, log(25.0), 0.5), 1.0, 2e-4);
    assert_near(forecast.until.low / worked_quantile(w, log(25.0), 0.1), 1.0, 2e-4);
    assert_near(forecast.until.high / worked_quantile(w, log(25.0), 0.9), 1.0, 2e-4);
}

static void of_several_stamps_the_furthest_counts(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    (void)state;

    stamp(b, 4, 25.0);

    struct forecast alone = at(b, 26.0);

    b = combined(TECHNIQUE_PIPE);
    stamp(b, 1, 8.0);
    stamp(b, 3, 9.0);
    stamp(b, 4, 25.0);

    struct forecast both = at(b, 26.0);

    assert_same(&both.from, &alone.from, 1e-12);
    assert_same(&both.until, &alone.until, 1e-12);
}

static void a_thinner_stage_stamped_later_takes_back_the_thicker_ones(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    (void)state;

    stamp(b, 3, 25.0);

    struct forecast alone = at(b, 26.0);

    b = combined(TECHNIQUE_PIPE);
    stamp(b, 5, 20.0);
    stamp(b, 3, 25.0);

    struct forecast corrected = at(b, 26.0);

    assert_same(&corrected.from, &alone.from, 1e-12);
    assert_same(&corrected.until, &alone.until, 1e-12);
}

static void a_thicker_stage_is_never_taken_to_come_before_a_thinner_one(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    (void)state;

    stamp(b, 4, 25.0);

    struct forecast in_order = at(b, 30.0);

    b = combined(TECHNIQUE_PIPE);
    stamp(b, 4, 10.0);
    stamp(b, 3, 25.0);
    b->batch.stage = 4; /* thick again: the record keeps the first time of each */

    struct forecast back_and_forth = at(b, 30.0);

    assert_same(&back_and_forth.from, &in_order.from, 1e-12);
}

static void past_the_window_until_is_when_that_was_seen(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    (void)state;

    stamp(b, 5, 40.0);
    stamp(b, 6, 62.0);

    struct forecast forecast = at(b, 70.0);

    assert_moment(&forecast.until, 62.0);
    assert_moment(&forecast.from, 40.0);
    b = combined(TECHNIQUE_POUR);
    stamp(b, 5, 40.0); /* never stamped as thick trace: past it by then */
    forecast = at(b, 41.0);
    assert_moment(&forecast.until, 40.0);
    assert_true(forecast.from.high <= 40.0);
}

static void a_batter_that_is_given_up_is_workable_no_longer(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    (void)state;

    b->batch.going = true;

    struct forecast forecast = at(b, 17.0);

    assert_moment(&forecast.until, 17.0);
}

static void a_piece_counted_says_that_it_pipes(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    (void)state;

    stamp(b, 4, 18.0);
    b->scene.recipe.portion[0].has_pieces = true;
    b->batch.kinds = 1;
    b->batch.pieces[0] = (struct batch_pieces){.good = 3, .first_s = after(24.0), .last_s = after(26.0), .left_ug = -1};

    struct forecast forecast = at(b, 30.0);

    assert_true(forecast.from.low >= 18.0 && forecast.from.high <= 24.0);
    assert_true(forecast.from.low < forecast.from.median && forecast.from.median < forecast.from.high);
    assert_true(forecast.until.low >= 30.0);
}

/* 45 C in the middle is ten degrees above the reference: a factor of 0.65 (common practice). */
static void temperatures_taken_at_combining_count(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    (void)state;

    b->batch.lye_temp_c = 50.0;
    b->batch.oil_temp_c = 40.0;

    struct forecast forecast = at(b, 0.0);

    assert_near(forecast.from.median, 45.0 * 0.65, 0.01);
    b->batch.lye_temp_c = NAN;
    b->batch.oil_temp_c = 25.0;
    forecast = at(b, 0.0);
    assert_near(forecast.from.median, 45.0 / 0.65, 0.01);
}

static void a_clock_that_was_put_back_stands_at_the_last_thing_seen(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    (void)state;

    stamp(b, 4, 30.0);

    struct forecast then = at(b, 30.0), back = at(b, -600.0);

    assert_same(&back.from, &then.from, 1e-15);
    assert_near(pace_elapsed_min(&b->batch, after(-600.0)), 30.0, 1e-12);
    assert_near(pace_elapsed_min(&b->batch, after(44.0)), 44.0, 1e-12);
}

/* ---- Properties. */

static void assert_not_before(const struct quantiles *later, const struct quantiles *earlier)
{
    assert_true(later->low >= earlier->low * (1.0 - 1e-6));
    assert_true(later->median >= earlier->median * (1.0 - 1e-6));
    assert_true(later->high >= earlier->high * (1.0 - 1e-6));
}

static void the_later_a_stage_the_later_the_forecast_made_then(void **state)
{
    (void)state;

    for (int stage = 1; stage <= 5; stage++) {
        struct forecast last = {0};

        for (double minutes = 1.0; minutes < 2000.0; minutes *= 1.1) {
            struct bench_scene *b = combined(TECHNIQUE_PIPE);

            stamp(b, stage, minutes);

            struct forecast forecast = at(b, minutes);

            assert_not_before(&forecast.from, &last.from);
            assert_not_before(&forecast.until, &last.until);
            last = forecast;
        }
    }
}

/* Seen from one later moment, for stamps that this moment does not belie. (A batch that was thick after two minutes and does
 * not pipe after 200 is so odd that its forecast is wider, and so later, than that of one thick after three.) */
static void seen_from_one_moment_too_a_later_stage_means_a_later_forecast(void **state)
{
    static const double ladder[] = {0, 1.5, 5, 15, 30, 45};
    (void)state;

    for (int stage = 1; stage <= 5; stage++) {
        struct forecast last = {0};

        for (double factor = 0.85; factor <= 1.3; factor += 0.05) {
            struct bench_scene *b = combined(TECHNIQUE_PIPE);

            stamp(b, stage, ladder[stage] * factor);

            struct forecast forecast = at(b, ladder[stage] * 1.3);

            assert_not_before(&forecast.from, &last.from);
            assert_not_before(&forecast.until, &last.until);
            last = forecast;
        }
    }
}

static void the_longer_nothing_is_seen_the_later_the_forecast(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    struct forecast last = {0};
    (void)state;

    stamp(b, 3, 10.0);
    for (double minutes = 10.0; minutes < 100000.0; minutes *= 1.2) {
        struct forecast forecast = at(b, minutes);

        assert_not_before(&forecast.from, &last.from);
        assert_not_before(&forecast.until, &last.until);
        last = forecast;
    }
}

static void assert_sound(const struct quantiles *q)
{
    assert_true(isfinite(q->low) && isfinite(q->median) && isfinite(q->high));
    assert_true(q->low > 0.0 && q->low <= q->median * (1.0 + 1e-9) && q->median <= q->high * (1.0 + 1e-9));
}

static bool seen_past(const struct batch *batch, int stage)
{
    for (int k = stage; k < 8 && k <= batch->stage; k++)
        if (batch->stage_s[k] != 0)
            return true;
    return false;
}

/* Whatever was stamped in whatever order, also before combining and after now. */
static void no_forecast_is_before_now_or_out_of_order(void **state)
{
    static const struct {
        enum technique technique;
        int from, until;
    } wanted[] = {{TECHNIQUE_POUR, 2, 4}, {TECHNIQUE_LAYER, 3, 5}, {TECHNIQUE_PIPE, 5, 6}};
    gsl_rng *random = gsl_rng_alloc(gsl_rng_mt19937);
    (void)state;

    for (int run = 0; run < RUNS; run++) {
        size_t i = gsl_rng_uniform_int(random, ROWS(wanted));
        struct bench_scene *b = combined(wanted[i].technique);
        double now = exp(gsl_rng_uniform(random) * 16.0 - 4.0);

        for (int n = (int)gsl_rng_uniform_int(random, 5); n > 0; n--)
            stamp(b, (int)gsl_rng_uniform_int(random, 8), now * gsl_rng_uniform(random));

        struct forecast forecast = at(b, now);
        double elapsed = fmax(pace_elapsed_min(&b->batch, after(now)), 1.0 / 60.0) * (1.0 - 1e-9);

        assert_sound(&forecast.from);
        assert_sound(&forecast.until);
        if (!seen_past(&b->batch, wanted[i].from))
            assert_true(forecast.from.low >= elapsed);
        else
            assert_true(forecast.from.high <= elapsed * (1.0 + 1e-6));
        if (!seen_past(&b->batch, wanted[i].until))
            assert_true(forecast.until.low >= elapsed && forecast.until.low >= forecast.from.low);
    }
    gsl_rng_free(random);
}

static void stamps_of_no_time_do_not_count(void **state)
{
    struct bench_scene *b = combined(TECHNIQUE_PIPE);
    struct forecast none = at(b, 10.0);
    (void)state;

    stamp(b, 0, 2.0);

    struct forecast unmixed = at(b, 10.0);

    stamp(b, 3, -60.0); /* before combining */

    struct forecast before = at(b, 10.0);

    assert_same(&unmixed.from, &none.from, 1e-15);
    assert_same(&before.from, &none.from, 1e-15);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(before_combining_the_forecast_is_that_of_the_plan),
        cmocka_unit_test(just_combined_the_forecast_is_still_that_of_the_plan),
        cmocka_unit_test(a_stamp_is_the_conjugate_update_of_the_batch_s_own_residual),
        cmocka_unit_test(a_stamp_updates_the_belief_of_own_batches),
        cmocka_unit_test(a_stamp_narrows_the_forecast_and_a_nearer_stage_narrows_it_more),
        cmocka_unit_test(an_early_stamp_brings_the_window_forward_and_a_late_one_puts_it_off),
        cmocka_unit_test(until_is_the_distribution_given_all_that_was_seen),
        cmocka_unit_test(the_stage_that_is_waited_for_ends_the_wait),
        cmocka_unit_test(a_stage_within_the_window_says_how_long_it_is),
        cmocka_unit_test(of_several_stamps_the_furthest_counts),
        cmocka_unit_test(a_thinner_stage_stamped_later_takes_back_the_thicker_ones),
        cmocka_unit_test(a_thicker_stage_is_never_taken_to_come_before_a_thinner_one),
        cmocka_unit_test(past_the_window_until_is_when_that_was_seen),
        cmocka_unit_test(a_batter_that_is_given_up_is_workable_no_longer),
        cmocka_unit_test(a_piece_counted_says_that_it_pipes),
        cmocka_unit_test(temperatures_taken_at_combining_count),
        cmocka_unit_test(a_clock_that_was_put_back_stands_at_the_last_thing_seen),
        cmocka_unit_test(the_later_a_stage_the_later_the_forecast_made_then),
        cmocka_unit_test(seen_from_one_moment_too_a_later_stage_means_a_later_forecast),
        cmocka_unit_test(the_longer_nothing_is_seen_the_later_the_forecast),
        cmocka_unit_test(no_forecast_is_before_now_or_out_of_order),
        cmocka_unit_test(stamps_of_no_time_do_not_count),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
