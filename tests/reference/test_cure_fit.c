/* The drying curve against certified regressions, a published one, worked ones, and GSL's nonlinear least squares. */
#include "calc/near.h"

#include <gsl/gsl_multifit_nlinear.h>
#include <gsl/gsl_rng.h>

#include "calc/cure.h"

#define ROWS(table) ((int)(sizeof(table) / sizeof(table)[0]))

static void assert_digits(double value, double expected, double digits)
{
    assert_near(value / expected, 1.0, 2.0 * pow(10.0, -digits));
}

/* Source: NIST Statistical Reference Datasets, nonlinear regression, BoxBOD (higher difficulty), certified values. The curve is
 * b1 (1 - exp(-b2 x)): from 0 at day 0 to b1. It rises, so it is no bar's; its figures stand all the same. */
static void a_certified_curve_of_higher_difficulty_is_met(void **state)
{
    static const struct cure_point point[] = {{1, 109}, {2, 149}, {3, 149}, {5, 191}, {7, 213}, {10, 224}};
    struct cure_fit fit;
    (void)state;

    cure_fit_from(point, ROWS(point), 0.0, 0.0, &fit);
    assert_digits(fit.end, 213.80940889, 10);
    assert_digits(fit.rate, 0.54723748542, 10);
    assert_digits(fit.sd_end, 12.354515176, 9);
    assert_digits(fit.sd_rate, 0.10455993237, 9);
    assert_digits(fit.rss, 1168.0088766, 10);
    assert_digits(fit.sd, 17.088072423, 10);
    assert_true(fit.start == 0.0 && fit.sd_start == 0.0);
    assert_int_equal(fit.unknown, CURE_RISING);
}

static const struct cure_point misra1a[] = {{77.6, 10.07},  {114.9, 14.73}, {141.1, 17.94}, {190.8, 23.93}, {239.9, 29.61},
                                            {289.0, 35.18}, {332.8, 40.02}, {378.4, 44.82}, {434.8, 50.76}, {477.3, 55.05},
                                            {536.8, 61.01}, {593.1, 66.40}, {689.1, 75.47}, {760.0, 81.78}};

/* Source: the same, Misra1a (lower difficulty), certified values. */
static void a_certified_curve_of_lower_difficulty_is_met(void **state)
{
    struct cure_fit fit;
    (void)state;

    cure_fit_from(misra1a, ROWS(misra1a), 0.0, 0.0, &fit);
    assert_digits(fit.end, 238.94212918, 10);
    assert_digits(fit.rate, 0.00055015643181, 10);
    assert_digits(fit.sd_end, 2.7070075241, 9);
    assert_digits(fit.sd_rate, 7.2668688436e-6, 9);
    assert_digits(fit.rss, 0.12455138894, 10);
    assert_int_equal(fit.points, 14);
}

/* The same upside down from 300: a row that falls, as bars do, with the same certified figures. */
static void the_same_curve_falling_is_known(void **state)
{
    struct cure_point falling[ROWS(misra1a)];
    struct cure_fit fit;
    (void)state;

    for (int i = 0; i < ROWS(misra1a); i++)
        falling[i] = (struct cure_point){misra1a[i].day, 300.0 - misra1a[i].mass};
    cure_fit_from(falling, ROWS(misra1a), 300.0, 0.0, &fit);
    assert_int_equal(fit.unknown, CURE_KNOWN);
    assert_digits(300.0 - fit.end, 238.94212918, 9);
    assert_digits(fit.rate, 0.00055015643181, 9);
    assert_digits(fit.rss, 0.12455138894, 9);
}

/* Source: Loblolly pines, seed 329 (Kung 1986; a data set of R): asymptote 94.1282, at day 0 -8.25075, log rate -3.21758, as
 * refitted in higher precision; all three free. Upside down from 200. */
static void a_published_growth_curve_is_met_with_all_three_free(void **state)
{
    static const struct cure_point point[] = {{3, 200 - 3.93},   {5, 200 - 9.34},   {10, 200 - 26.08},
                                              {15, 200 - 37.79}, {20, 200 - 48.31}, {25, 200 - 56.43}};
    struct cure_fit fit;
    (void)state;

    cure_fit(point, ROWS(point), 0.0, &fit);
    assert_int_equal(fit.unknown, CURE_KNOWN);
    assert_near(200.0 - fit.end, 94.1282099, 1e-6);
    assert_near(200.0 - fit.start, -8.25075256, 1e-7);
    assert_near(log(fit.rate), -3.21757827, 1e-8);
    assert_near(fit.rss, 1.68440146, 1e-8);
    assert_near(fit.sd, 0.749311119, 1e-9);
    assert_near(fit.sd_end, 8.40302, 1e-5);
    assert_near(fit.sd_start, 1.22611, 1e-5);
    assert_near(fit.sd_rate, 0.00555054, 1e-8);
}

/* Worked in higher precision: a bar to 0.1 g over six weeks. */
static const struct cure_point bar[] = {{0, 120.0},  {3, 117.2},  {7, 114.2}, {14, 110.3},
                                        {21, 107.8}, {28, 106.2}, {42, 104.4}};

static void a_bar_weighed_to_a_tenth_of_a_gram_is_the_worked_one(void **state)
{
    struct cure_fit fit;
    (void)state;

    cure_fit(bar, ROWS(bar), 0.0, &fit);
    assert_int_equal(fit.unknown, CURE_KNOWN);
    assert_near(fit.end, 103.06602, 5e-6);
    assert_near(fit.start, 120.01270, 5e-6);
    assert_near(fit.rate, 0.06052153, 5e-9);
    assert_near(fit.rss, 0.00346093, 5e-9);
    assert_near(fit.sd_end, 0.050085, 5e-7);
    assert_near(fit.sd_start, 0.024770, 5e-7);
    assert_near(fit.sd_rate, 0.00044830, 5e-9);

    double day = cure_cured_day(&fit, 28.0, 0.001);
    assert_near(day, 37.6897, 5e-5);
    assert_near(cure_mass(&fit, day), 104.79760, 5e-6);
    assert_near(cure_loss_a_day(&fit, day), 0.001, 1e-12);
    assert_near(1.0 - fit.end / cure_mass(&fit, day), 0.01652, 5e-6);
}

static void the_same_bar_weighed_to_a_gram_is_the_worked_one(void **state)
{
    struct cure_point whole[ROWS(bar)];
    struct cure_fit fit;
    (void)state;

    for (int i = 0; i < ROWS(bar); i++)
        whole[i] = (struct cure_point){bar[i].day, round(bar[i].mass)};
    cure_fit(whole, ROWS(bar), 0.0, &fit);
    assert_near(fit.end, 102.68005, 5e-6);
    assert_near(fit.rate, 0.05904354, 5e-9);
    assert_near(fit.sd_end, 0.3944, 5e-5);
}

/* ---- GSL */

struct data {
    int n;
    struct cure_point point[CURE_POINTS];
};

static int residuals(const gsl_vector *p, void *context, gsl_vector *out)
{
    const struct data *data = context;

    for (int i = 0; i < data->n; i++)
        gsl_vector_set(out, (size_t)i,
                       gsl_vector_get(p, 0) +
                           (gsl_vector_get(p, 1) - gsl_vector_get(p, 0)) *
                               exp(-gsl_vector_get(p, 2) * data->point[i].day) -
                           data->point[i].mass);
    return GSL_SUCCESS;
}

struct by_gsl {
    double value[3], sd[3], rss;
};

static struct by_gsl fit_by_gsl(struct data *data, const double from[3])
{
    gsl_multifit_nlinear_parameters parameters = gsl_multifit_nlinear_default_parameters();
    gsl_multifit_nlinear_workspace *w =
        gsl_multifit_nlinear_alloc(gsl_multifit_nlinear_trust, &parameters, (size_t)data->n, 3);
    gsl_multifit_nlinear_fdf fdf = {.f = residuals, .n = (size_t)data->n, .p = 3, .params = data};
    gsl_vector_const_view start = gsl_vector_const_view_array(from, 3);
    gsl_matrix *covariance = gsl_matrix_alloc(3, 3);
    struct by_gsl out = {.rss = 0.0};
    int info;

    gsl_multifit_nlinear_init(&start.vector, &fdf, w);
    gsl_multifit_nlinear_driver(1000, 1e-14, 1e-14, 1e-14, NULL, NULL, &info, w);
    for (int i = 0; i < data->n; i++)
        out.rss += pow(gsl_vector_get(gsl_multifit_nlinear_residual(w), (size_t)i), 2.0);
    gsl_multifit_nlinear_covar(gsl_multifit_nlinear_jac(w), 0.0, covariance);
    for (size_t i = 0; i < 3; i++) {
        out.value[i] = gsl_vector_get(gsl_multifit_nlinear_position(w), i);
        out.sd[i] = sqrt(gsl_matrix_get(covariance, i, i) * out.rss / (data->n - 3));
    }
    gsl_matrix_free(covariance);
    gsl_multifit_nlinear_free(w);
    return out;
}

static double uniform(gsl_rng *rng, double lo, double hi)
{
    return lo + (hi - lo) * gsl_rng_uniform(rng);
}

/* Source: GSL, started at the truth. Where ours is another minimum it must be the lower one. */
static void random_bars_fit_as_gsl_fits_them(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_taus2);
    int compared = 0;
    (void)state;

    for (int run = 0; run < 400; run++) {
        double truth[3] = {uniform(rng, 60, 120), 0.0, exp(uniform(rng, log(0.02), log(0.3)))};
        struct data data = {.n = 4 + (int)gsl_rng_uniform_int(rng, 30)};
        struct cure_fit fit;

        truth[1] = truth[0] * uniform(rng, 1.05, 1.4);
        for (int i = 0; i < data.n; i++) {
            double day = i * floor(uniform(rng, 2, 4)) + i;

            data.point[i].day = day;
            data.point[i].mass = truth[0] + (truth[1] - truth[0]) * exp(-truth[2] * day) + uniform(rng, -0.05, 0.05);
        }
        for (int i = 1; i < data.n; i++) /* days have to differ for the two to see the same row */
            data.point[i].day = fmax(data.point[i].day, data.point[i - 1].day + 1.0);
        cure_fit(data.point, data.n, 0.0, &fit);
        if (fit.unknown != CURE_KNOWN)
            continue;

        struct by_gsl theirs = fit_by_gsl(&data, truth);
        assert_true(fit.rss <= theirs.rss * (1.0 + 1e-9));
        if (theirs.rss > fit.rss * (1.0 + 1e-6))
            continue;
        compared++;
        assert_near(fit.end, theirs.value[0], 1e-3 * theirs.sd[0] + 1e-6);
        assert_near(fit.start, theirs.value[1], 1e-3 * theirs.sd[1] + 1e-6);
        assert_near(fit.rate, theirs.value[2], 1e-3 * theirs.sd[2] + 1e-9);
        assert_near(fit.sd_end / theirs.sd[0], 1.0, 5e-3);
        assert_near(fit.sd_start / theirs.sd[1], 1.0, 5e-3);
        assert_near(fit.sd_rate / theirs.sd[2], 1.0, 5e-3);
    }
    assert_true(compared > 380);
    gsl_rng_free(rng);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_certified_curve_of_higher_difficulty_is_met),
        cmocka_unit_test(a_certified_curve_of_lower_difficulty_is_met),
        cmocka_unit_test(the_same_curve_falling_is_known),
        cmocka_unit_test(a_published_growth_curve_is_met_with_all_three_free),
        cmocka_unit_test(a_bar_weighed_to_a_tenth_of_a_gram_is_the_worked_one),
        cmocka_unit_test(the_same_bar_weighed_to_a_gram_is_the_worked_one),
        cmocka_unit_test(random_bars_fit_as_gsl_fits_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
