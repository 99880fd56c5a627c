/* distribution.c - normal and Student quantiles. Each starts from a handbook's approximation and is then corrected
 * against the distribution itself, so that the approximation's error does not matter.
 *
 * A&S: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), by the number of the formula. */
#include "calc/distribution.h"

#include <float.h>
#include <math.h>

static const double ROOT_2 = 1.41421356237309504880;
static const double ROOT_PI = 1.77245385090551602730;

/* Beyond these Student's t is found from the normal. */
static const double MOST_DEGREES = 1e5;

enum { MOST_STEPS = 60, MOST_FRACTIONS = 4000 };

double normal_cdf(double z)
{
    return 0.5 * erfc(-z / ROOT_2);
}

/* A&S 26.2.23, error under 4.5e-4; p <= 0.5. */
static double rough_quantile(double p)
{
    double t = sqrt(-2 * log(p));

    return (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))) - t;
}

/* P(Z <= z) - p, by the difference from a half where both are near it: there the quantile itself is small. */
static double normal_excess(double z, double p)
{
    if (p > 0.25 && p < 0.75)
        return 0.5 * erf(z / ROOT_2) - (p - 0.5);
    return normal_cdf(z) - p;
}

double normal_quantile(double p)
{
    if (p > 0.5)
        return -normal_quantile(1 - p);

    double z = rough_quantile(p);

    /* Halley's steps, each of which triples the number of good digits. */
    for (int i = 0; i < 2; i++) {
        double e = normal_excess(z, p) * ROOT_2 * ROOT_PI * exp(z * z / 2);

        z -= e / (1 + z * e / 2);
    }
    return z;
}

/* Gamma(x + 1/2) / Gamma(x), x > 0. Raised to where the asymptotic series holds: no gamma function, so no overflow. */
static double half_step_of_gamma(double x)
{
    double factor = 1;

    while (x < 40) {
        factor *= x / (x + 0.5);
        x += 1;
    }

    double r = 1 / x;

    return factor * sqrt(x) * (1 + r * (-1.0 / 8 + r * (1.0 / 128 + r * (5.0 / 1024 + r * (-21.0 / 32768)))));
}

/* The continued fraction A&S 26.5.8 of the incomplete beta function by Lentz's method; w < (a + 1) / (a + b + 2). */
static double beta_fraction(double w, double a, double b)
{
    double c = 1, d = 1 / (1 - (a + b) * w / (a + 1)), h = d;

    for (int m = 1; m <= MOST_FRACTIONS; m++) {
        double even = m * (b - m) * w / ((a + 2 * m - 1) * (a + 2 * m));
        double odd = -(a + m) * (a + b + m) * w / ((a + 2 * m) * (a + 2 * m + 1));

        d = 1 / (1 + even * d);
        c = 1 + even / c;
        h *= d * c;
        d = 1 / (1 + odd * d);
        c = 1 + odd / c;
        h *= d * c;
        if (fabs(d * c - 1) < 4 * DBL_EPSILON)
            break;
    }
    return h;
}

/* Regularised incomplete beta function; `beta` is B(a, b). From the side where the fraction needs few steps. */
static double incomplete_beta(double w, double a, double b, double beta)
{
    double front = exp(a * log(w) + b * log1p(-w)) / beta;

    if (w < (a + 1) / (a + b + 2))
        return front * beta_fraction(w, a, b) / a;
    return 1 - front * beta_fraction(1 - w, b, a) / b;
}

/* w with that incomplete beta function = target, in (0, 0.75). Newton on logarithms: there the function is concave
 * and close to a line of slope a, so steps from below come closer without passing by far. */
static double inverse_beta(double target, double a, double b, double beta)
{
    double w = fmin(exp(log(target * a * beta) / a), 0.5);

    for (int i = 0; i < MOST_STEPS; i++) {
        double value = incomplete_beta(w, a, b, beta);
        double slope = exp(a * log(w) + (b - 1) * log1p(-w)) / (beta * value);
        double step = log(target / value) / slope;
        double next = w * exp(step);

        double moved = fabs(next - w);

        w = next < 1 ? next : (1 + w) / 2;
        if (moved < 1e-7 * fmin(w, 1 - w)) /* steps converge quadratically: what is left is beyond a double */
            break;
    }
    return w;
}

/* A&S 26.7.5, three terms; for degrees so many that the incomplete beta function would need thousands of fractions. */
static double near_normal(double z, double degrees)
{
    double s = z * z, r = 1 / degrees;

    return z *
           (1 + r * ((s + 1) / 4 + r * ((s * (5 * s + 16) + 3) / 96 + r * (s * (s * (3 * s + 19) + 17) - 15) / 384)));
}

double student_cdf(double t, double degrees)
{
    if (t > 0)
        return 1 - student_cdf(-t, degrees);
    if (t == 0)
        return 0.5;
    if (degrees > MOST_DEGREES)
        return normal_cdf(t);

    /* A&S 26.7.1: I(x; degrees/2, 1/2) is twice the tail; near the middle from 1 - x, which has kept its digits. */
    double a = degrees / 2, beta = ROOT_PI / half_step_of_gamma(a), square = t * t;

    if (square < 1)
        return 0.5 - incomplete_beta(square / (degrees + square), 0.5, a, beta) / 2;
    return incomplete_beta(degrees / (degrees + square), a, 0.5, beta) / 2;
}

double student_quantile(double p, double degrees)
{
    if (p > 0.5)
        return -student_quantile(1 - p, degrees);
    if (p == 0.5)
        return 0;
    if (degrees > MOST_DEGREES)
        return near_normal(normal_quantile(p), degrees);

    /* Twice the tail is I(x; degrees/2, 1/2) of x = degrees / (degrees + t^2), A&S 26.7.1; 1 - x near the middle. */
    double a = degrees / 2, beta = ROOT_PI / half_step_of_gamma(a), t_square;

    if (p < 0.25) {
        double x = inverse_beta(2 * p, a, 0.5, beta);

        t_square = degrees * (1 - x) / x;
    } else {
        double y = inverse_beta(1 - 2 * p, 0.5, a, beta);

        t_square = degrees * y / (1 - y);
    }
    return -sqrt(t_square);
}
