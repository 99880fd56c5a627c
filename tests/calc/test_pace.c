/* Pace: the figures of practice, what speeds a batter up, and whether the window is long enough. */
#include "calc/pace.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>

#include "calc/scene.h"

/* Reference conditions of practice. */
static struct pace_terms reference_terms(enum technique technique)
{
    const struct practice *practice = facts_reference()->practice;

    return (struct pace_terms){.technique = technique,
                               .strength = practice->pace_ref_strength,
                               .temp_c = practice->pace_ref_temp_c,
                               .saturated = practice->pace_ref_saturated,
                               .oils_g = practice->pace_ref_oils_g,
                               .acceleration = ACCELERATION_NONE};
}

static void predict(const struct pace_terms *terms, struct quantiles *from_min, struct quantiles *until_min)
{
    const struct practice *practice = facts_reference()->practice;
    struct pace_belief belief;

    pace_prior(practice, &belief);
    pace_predict(practice, &belief, terms, from_min, until_min);
}

static double from_median(const struct pace_terms *terms)
{
    struct quantiles from, until;

    predict(terms, &from, &until);
    return from.median;
}

/* Common practice and memory: at 33 %, 35 C, 45 % saturated, unscented, short blending, 500 g of oils. */
static void practice_gives_its_own_medians(void **state)
{
    static const struct {
        enum technique technique;
        double from, until;
    } row[] = {
        {TECHNIQUE_POUR, 5, 30},   {TECHNIQUE_SWIRL, 5, 30}, {TECHNIQUE_MOULD, 5, 30},
        {TECHNIQUE_LAYER, 15, 45}, {TECHNIQUE_PIPE, 45, 75},
    };
    (void)state;

    for (size_t i = 0; i < ROWS(row); i++) {
        struct pace_terms terms = reference_terms(row[i].technique);
        struct quantiles from, until;

        predict(&terms, &from, &until);
        assert_near(from.median, row[i].from, 1e-9);
        assert_near(until.median, row[i].until, 1e-9);
    }
}

/* Common practice and memory, factor by factor; each acts on both times alike. */
static void each_factor_multiplies_both_medians(void **state)
{
    const struct pace_terms at = reference_terms(TECHNIQUE_PIPE);
    struct {
        struct pace_terms terms;
        double factor;
    } row[] = {
        {at, 0.75}, {at, 0.65}, {at, 0.8}, {at, 0.6}, {at, 0.2}, {at, 0.6}, {at, 1.15}, {at, 1.0},
    };
    (void)state;

    row[0].terms.strength += 0.05;
    row[1].terms.temp_c += 10.0;
    row[2].terms.saturated += 0.10;
    row[3].terms.acceleration = ACCELERATION_SOME;
    row[4].terms.acceleration = ACCELERATION_STRONG;
    row[5].terms.long_blend = true;
    row[6].terms.oils_g /= 2.0;
    row[7].terms.acceleration = ACCELERATION_SLOWS;
    for (size_t i = 0; i < ROWS(row); i++) {
        struct quantiles from, until;

        predict(&row[i].terms, &from, &until);
        assert_near(from.median, 45.0 * row[i].factor, 1e-9);
        assert_near(until.median, 75.0 * row[i].factor, 1e-9);
    }
}

/* Student's t with 12 degrees, quantile by GSL; residual 0.4 and offset 0.3 (memory) put together as
 * scale^2 = (0.8 / 6) (1 + 0.09 / 0.16). */
static void eight_times_in_ten_lies_within_the_interval_of_student(void **state)
{
    const struct pace_terms terms = reference_terms(TECHNIQUE_PIPE);
    double square = 0.8 / 6.0 * (1.0 + 0.09 / 0.16), t = gsl_cdf_tdist_Pinv(0.9, 12.0);
    struct quantiles from, until;
    (void)state;

    predict(&terms, &from, &until);
    assert_near(from.low, 45.0 * exp(-t * sqrt(square)), 1e-6);
    assert_near(from.high, 45.0 * exp(t * sqrt(square)), 1e-6);
}

/* Spread of a factor's log: half of its size, at least 0.1 (memory). Ten degrees: log 0.65 is 0.431, so 0.215; half the batch:
 * log 1.15 is 0.140, so 0.1. */
static void each_factor_widens_the_interval_by_its_own_spread(void **state)
{
    double t = gsl_cdf_tdist_Pinv(0.9, 12.0), warm = 0.5 * log(0.65), least = 0.1;
    struct pace_terms terms = reference_terms(TECHNIQUE_POUR);
    struct quantiles from, until;
    (void)state;

    terms.temp_c += 10.0;
    predict(&terms, &from, &until);
    assert_near(log(from.high / from.median), t * sqrt(0.8 / 6.0 * (1.0 + (0.09 + warm * warm) / 0.16)), 1e-6);
    terms = reference_terms(TECHNIQUE_POUR);
    terms.oils_g /= 2.0;
    predict(&terms, &from, &until);
    assert_near(log(from.high / from.median), t * sqrt(0.8 / 6.0 * (1.0 + (0.09 + least * least) / 0.16)), 1e-6);
}

/* P(a T1 + b T2 <= q) for two independent Student variables of 12 degrees, by GSL's density and distribution. */
static double sum_of_two(double a, double b, double q)
{
    double sum = 0.0;
    const double step = 0.01;

    for (double t = -60.0; t <= 60.0; t += step)
        sum += gsl_ran_tdist_pdf(t, 12.0) * gsl_cdf_tdist_P((q - a * t) / b, 12.0) * step;
    return sum;
}

/* At reference conditions both times have the scale above; far from them that of `from` is much the larger. The half width of
 * log(until) is that of the sum within 0.3 %. */
static void until_has_the_interval_of_the_sum_of_both_logs(void **state)
{
    struct pace_terms terms = reference_terms(TECHNIQUE_PIPE);
    (void)state;

    for (int i = 0; i < 3; i++) {
        const struct practice *practice = facts_reference()->practice;
        struct pace_belief belief;
        struct quantiles from, until;
        double x[PACE_TERMS];

        terms.temp_c = 35.0 + 15.0 * i;
        pace_prior(practice, &belief);
        pace_predict(practice, &belief, &terms, &from, &until);
        pace_numbers(practice, &terms, x);
        double a = sqrt(belief_scale_squared(&belief.from, x)), b = sqrt(belief_scale_squared(&belief.ratio, x));
        double half = log(until.high / until.median);
        assert_near(log(until.median / until.low), half, 1e-9);
        assert_true(sum_of_two(a, b, half * 1.003) > 0.9);
        assert_true(sum_of_two(a, b, half * 0.997) < 0.9);
    }
}

/* Property: in any conditions until is not before from, low <= median <= high, and all is finite. */
static void times_are_finite_and_in_order_whatever_the_recipe(void **state)
{
    static const double strength[] = {0.0, 0.25, 0.33, 0.5, 0.99}, temp_c[] = {-30, 20, 35, 60, 400};
    static const double saturated[] = {0.0, 0.45, 1.0}, oils_g[] = {0.0, 1e-6, 200, 1e6};
    struct pace_terms terms;
    (void)state;

    for (size_t i = 0; i < 5 * 5 * 3 * 4 * 4 * 5; i++) {
        terms = (struct pace_terms){.technique = (enum technique)(i % 5),
                                    .strength = strength[i / 5 % 5],
                                    .temp_c = temp_c[i / 25 % 5],
                                    .saturated = saturated[i / 125 % 3],
                                    .oils_g = oils_g[i / 375 % 4],
                                    .acceleration = (enum acceleration)(i / 1500 % 4),
                                    .long_blend = i % 2};
        struct quantiles from, until;

        predict(&terms, &from, &until);
        assert_true(isfinite(from.high) && isfinite(until.high) && from.low >= 0.0);
        assert_true(from.low <= from.median && from.median <= from.high);
        assert_true(until.low <= until.median && until.median <= until.high);
        assert_true(until.low >= from.low && until.median >= from.median && until.high >= from.high);
    }
}

/* Property: what is said to speed a batter up does so from any conditions. */
static void heat_strength_and_fragrance_speed_a_batter_up(void **state)
{
    (void)state;
    for (int i = 0; i < 20; i++) {
        struct pace_terms at = reference_terms((enum technique)(i % 5)), faster = at;

        at.temp_c = 25.0 + i;
        at.strength = 0.25 + 0.01 * i;
        faster = at;
        faster.temp_c += 1.0;
        assert_true(from_median(&faster) < from_median(&at));
        faster = at;
        faster.strength += 0.01;
        assert_true(from_median(&faster) < from_median(&at));
        faster = at;
        faster.acceleration = ACCELERATION_SOME;
        assert_true(from_median(&faster) < from_median(&at));
        faster = at;
        faster.oils_g *= 1.1;
        assert_true(from_median(&faster) < from_median(&at));
    }
}

/* Far from the reference conditions less is known. */
static void an_unusual_recipe_has_a_wider_interval(void **state)
{
    struct pace_terms usual = reference_terms(TECHNIQUE_PIPE), unusual = usual;
    struct quantiles near_from, near_until, far_from, far_until;
    (void)state;

    unusual.temp_c = 60.0;
    predict(&usual, &near_from, &near_until);
    predict(&unusual, &far_from, &far_until);
    assert_true(far_from.high / far_from.low > near_from.high / near_from.low);
}

/* --- a plan --- */

static const struct fragrance_fact strong = {.allergen = -1, .acceleration = ACCELERATION_STRONG};
static const struct fragrance_fact some = {.allergen = -1, .acceleration = ACCELERATION_SOME};

/* A piped portion beside a poured one, of 500 g of oils at reference conditions; nothing known of the acids. */
static void pace_scene(struct scene *s)
{
    scene_start(s);
    s->plan.oils_ug = mass_ug(500.0);
    s->plan.batter_ug = mass_ug(720.0);
    s->plan.water.strength = 0.33;
    s->plan.acids.unknown = 1.0;
    scene_portion(s, 400.0, true, TECHNIQUE_POUR);
    scene_portion(s, 320.0, false, TECHNIQUE_PIPE);
}

static void give_pieces(struct scene *s, int p, enum piece_class class, int to_pipe, int bags)
{
    s->recipe.portion[p].has_pieces = s->plan.portion[p].has_pieces = true;
    s->recipe.portion[p].pieces.class = class;
    s->plan.portion[p].pieces.to_pipe = to_pipe;
    s->plan.portion[p].pieces.bags = bags;
}

static void pieces_need_their_seconds_and_bag_changes(void **state)
{
    const struct practice *practice = facts_reference()->practice;
    struct scene s;
    (void)state;

    pace_scene(&s);
    give_pieces(&s, 1, PIECE_SIMPLE, 30, 2);
    assert_near(pace_need_min(&s.in, &s.plan.portion[1]),
                30.0 * practice->simple_seconds / 60.0 + 2.0 * practice->bag_change_minutes, 1e-9);
    give_pieces(&s, 1, PIECE_FLOWER, 30, 2);
    assert_near(pace_need_min(&s.in, &s.plan.portion[1]),
                30.0 * practice->flower_seconds / 60.0 + 2.0 * practice->bag_change_minutes, 1e-9);
}

static void colouring_swirling_and_layering_need_time_and_plain_pouring_none(void **state)
{
    double minutes = facts_reference()->practice->colour_minutes;
    struct scene s;
    (void)state;

    pace_scene(&s);
    assert_true(pace_need_min(&s.in, &s.plan.portion[0]) == 0.0);
    s.recipe.portion[0].colourants = 1;
    assert_true(pace_need_min(&s.in, &s.plan.portion[0]) == minutes);
    s.recipe.portion[0].colourants = 0;
    s.plan.portion[0].technique = TECHNIQUE_SWIRL;
    assert_true(pace_need_min(&s.in, &s.plan.portion[0]) == minutes);
    s.plan.portion[0].technique = TECHNIQUE_LAYER;
    assert_true(pace_need_min(&s.in, &s.plan.portion[0]) == minutes);
    s.plan.portion[0].source = -1;
    s.plan.portion[0].technique = TECHNIQUE_POUR;
    assert_true(pace_need_min(&s.in, &s.plan.portion[0]) == 0.0);
}

static void a_window_that_is_too_short_is_a_caution_with_its_minutes(void **state)
{
    struct scene s;
    (void)state;

    pace_scene(&s);
    give_pieces(&s, 1, PIECE_SIMPLE, 12, 1);
    pace_plan(&s.in, &s.plan);
    assert_int_equal(s.plan.findings, 0);
    assert_near(s.plan.portion[1].pace.from.median, 45.0, 1e-9);
    assert_near(s.plan.portion[1].pace.until.median, 75.0, 1e-9);
    assert_int_equal(s.plan.portion[1].pace.batches, 0);

    pace_scene(&s);
    give_pieces(&s, 1, PIECE_FLOWER, 200, 9);
    pace_plan(&s.in, &s.plan);
    const struct finding *finding = scene_finding(&s, FINDING_WINDOW_SHORT);
    assert_non_null(finding);
    assert_int_equal(finding->level, LEVEL_CAUTION);
    assert_int_equal(finding->about.part, PART_PORTION);
    assert_int_equal(finding->about.index, 1);
    assert_near(finding->number[0], s.plan.portion[1].pace.need, 1e-12);
    assert_near(finding->number[1], 30.0, 1e-9);
    assert_near(finding->number[2], 45.0, 1e-9);
    assert_near(finding->number[3], 75.0, 1e-9);
}

static void a_need_that_just_fits_the_window_is_no_caution(void **state)
{
    const struct practice *practice = facts_reference()->practice;
    int fits = (int)floor(30.0 * 60.0 / practice->simple_seconds);
    struct scene s;
    (void)state;

    pace_scene(&s);
    give_pieces(&s, 1, PIECE_SIMPLE, fits, 0);
    pace_plan(&s.in, &s.plan);
    assert_int_equal(scene_count(&s, FINDING_WINDOW_SHORT), 0);
    pace_scene(&s);
    give_pieces(&s, 1, PIECE_SIMPLE, fits + 1, 0);
    pace_plan(&s.in, &s.plan);
    assert_int_equal(scene_count(&s, FINDING_WINDOW_SHORT), 1);
}

static void only_the_scented_portion_is_sped_up_and_by_the_fastest_fragrance(void **state)
{
    struct scene s;
    (void)state;

    pace_scene(&s);
    scene_fragrance(&s, &strong, 0.02);
    scene_fragrance(&s, &some, 0.02);
    s.plan.portion[0].fragrance[0].rounded_ug = 1;
    s.plan.portion[0].fragrance[1].rounded_ug = 1;
    pace_plan(&s.in, &s.plan);
    assert_near(s.plan.portion[0].pace.from.median, 5.0 * 0.2, 1e-9);
    assert_near(s.plan.portion[1].pace.from.median, 45.0, 1e-9);
}

static void temperature_blending_and_acids_reach_the_plan(void **state)
{
    struct scene s;
    (void)state;

    pace_scene(&s);
    s.bench.combine_temp_c = 45.0;
    s.bench.long_blend = true;
    s.plan.acids.unknown = 0.5; /* of what is known 55 % is saturated */
    s.plan.acids.saturated = 0.275;
    pace_plan(&s.in, &s.plan);
    assert_near(s.plan.portion[1].pace.from.median, 45.0 * 0.65 * 0.6 * 0.8, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(practice_gives_its_own_medians),
        cmocka_unit_test(each_factor_multiplies_both_medians),
        cmocka_unit_test(eight_times_in_ten_lies_within_the_interval_of_student),
        cmocka_unit_test(each_factor_widens_the_interval_by_its_own_spread),
        cmocka_unit_test(until_has_the_interval_of_the_sum_of_both_logs),
        cmocka_unit_test(times_are_finite_and_in_order_whatever_the_recipe),
        cmocka_unit_test(heat_strength_and_fragrance_speed_a_batter_up),
        cmocka_unit_test(an_unusual_recipe_has_a_wider_interval),
        cmocka_unit_test(pieces_need_their_seconds_and_bag_changes),
        cmocka_unit_test(colouring_swirling_and_layering_need_time_and_plain_pouring_none),
        cmocka_unit_test(a_window_that_is_too_short_is_a_caution_with_its_minutes),
        cmocka_unit_test(a_need_that_just_fits_the_window_is_no_caution),
        cmocka_unit_test(only_the_scented_portion_is_sped_up_and_by_the_fastest_fragrance),
        cmocka_unit_test(temperature_blending_and_acids_reach_the_plan),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
