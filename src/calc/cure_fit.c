/* cure_fit.c - least squares of a drying curve, with the rate alone searched for.
 *
 * At a given rate the curve is a straight line in f = 1 - exp(-rate t): mass = start - drop * f, so start and drop have a
 * closed form, and what is left is the least of a function of one number (variable projection; Golub and Pereyra 1973). With
 * start and drop at their best for each rate, its derivative is that of the residuals with both held, so that the rate is a root
 * and is found to the last digits. Days count from the first weighing meanwhile, so that no exponential overflows.
 */
#include <float.h>
#include <math.h>
#include <string.h>

#include "calc/cure.h"
#include "calc/spread.h"

/* Rates that are tried, times the days from first to last weighing. Below the least the curve bends by less than a ten
 * thousandth of the loss, which no scale tells from a straight line; above the most (times the days between the two weighings
 * that are nearest each other) nothing is left to lose from one weighing to the next. */
static const double RATE_LEAST = 1e-3, RATE_MOST = 30.0;

enum { TRIES = 240, HALVINGS = 80, PARAMETERS = 3 };

/* One mass for each day, by rising day; and what is held. */
struct row {
    int n;
    double day[CURE_POINTS], mass[CURE_POINTS];
    double first_day; /* from which the fit counts: the first, or the cut where the mass then is known */
    bool start_held, end_held;
    double start, end; /* where held; start at first_day */
};

/* At one rate. */
struct trial {
    double rate, start, drop, rss;
    double slope; /* half the derivative of rss by the rate */
};

/* ---- The weighings. */

static void sort_by_day(struct row *row)
{
    for (int i = 1; i < row->n; i++) {
        double day = row->day[i], mass = row->mass[i];
        int k = i;

        for (; k > 0 && row->day[k - 1] > day; k--) {
            row->day[k] = row->day[k - 1];
            row->mass[k] = row->mass[k - 1];
        }
        row->day[k] = day;
        row->mass[k] = mass;
    }
}

/* Those of one day are one, at the mean of their moments. */
static void merge_days(struct row *row)
{
    int n = 0;

    for (int i = 0; i < row->n;) {
        struct running_mean day = {0}, mass = {0};
        double whole = floor(row->day[i]);

        for (; i < row->n && floor(row->day[i]) == whole; i++) {
            running_mean_add(&day, row->day[i]);
            running_mean_add(&mass, row->mass[i]);
        }
        row->day[n] = day.mean;
        row->mass[n] = mass.mean;
        n++;
    }
    row->n = n;
}

static void read_row(const struct cure_point point[], int n, struct row *row)
{
    row->n = 0;
    for (int i = 0; i < n && i < CURE_POINTS; i++) {
        if (!isfinite(point[i].day) || !isfinite(point[i].mass))
            continue;
        row->day[row->n] = point[i].day;
        row->mass[row->n] = point[i].mass;
        row->n++;
    }
    sort_by_day(row);
    merge_days(row);
    row->first_day = row->n > 0 ? row->day[0] : 0.0;
}

static bool all_the_same(const struct row *row)
{
    for (int i = 1; i < row->n; i++)
        if (row->mass[i] != row->mass[0])
            return false;
    return true;
}

/* ---- The fit at one rate. */

static double lost_by(const struct row *row, double rate, int i)
{
    return -expm1(-rate * (row->day[i] - row->first_day));
}

/* mass = start - drop * f by least squares, both free. */
static void fit_both(const struct row *row, struct trial *trial)
{
    double f[CURE_POINTS];

    for (int i = 0; i < row->n; i++)
        f[i] = lost_by(row, trial->rate, i);

    struct line line = line_fit(f, row->mass, row->n);

    trial->start = line.at_0;
    trial->drop = -line.slope;
}

/* Through a point that is held. */
static void fit_drop(const struct row *row, struct trial *trial)
{
    double together = 0.0, squares = 0.0;

    for (int i = 0; i < row->n; i++) {
        double f = lost_by(row, trial->rate, i), w = row->end_held ? 1.0 - f : f;

        together += w * (row->end_held ? row->mass[i] - row->end : row->start - row->mass[i]);
        squares += w * w;
    }
    trial->drop = together / squares;
    trial->start = row->end_held ? row->end + trial->drop : row->start;
}

static struct trial try_rate(const struct row *row, double rate)
{
    struct trial trial = {.rate = rate};

    if (row->start_held && row->end_held) {
        trial.start = row->start;
        trial.drop = row->start - row->end;
    } else if (row->start_held || row->end_held) {
        fit_drop(row, &trial);
    } else {
        fit_both(row, &trial);
    }
    for (int i = 0; i < row->n; i++) {
        double f = lost_by(row, rate, i), off = row->mass[i] - trial.start + trial.drop * f;

        trial.rss += off * off;
        trial.slope += off * trial.drop * (row->day[i] - row->first_day) * (1.0 - f);
    }
    return trial;
}

/* ---- The rate. */

static double rate_at(const struct row *row, int i)
{
    double span = row->day[row->n - 1] - row->first_day, nearest = span;

    for (int k = 1; k < row->n; k++)
        nearest = fmin(nearest, row->day[k] - row->day[k - 1]);

    double least = RATE_LEAST / span, most = RATE_MOST / nearest;

    return least * pow(most / least, (double)i / (TRIES - 1));
}

/* Between rates at which rss falls and rises. */
static struct trial settle(const struct row *row, double lo, double hi)
{
    struct trial middle = try_rate(row, sqrt(lo * hi));

    for (int i = 0; i < HALVINGS && hi - lo > 2.0 * DBL_EPSILON * hi; i++) {
        if (middle.slope < 0.0)
            lo = middle.rate;
        else
            hi = middle.rate;
        middle = try_rate(row, lo + (hi - lo) / 2.0);
    }
    return middle;
}

/* CURE_KNOWN with the best curve, CURE_STRAIGHT where it is the one that bends least, CURE_SAME where it is the one that is over
 * at once. */
static enum cure_unknown best_curve(const struct row *row, struct trial *best)
{
    int at = 0;

    for (int i = 0; i < TRIES; i++) {
        struct trial trial = try_rate(row, rate_at(row, i));

        if (i == 0 || trial.rss < best->rss) {
            *best = trial;
            at = i;
        }
    }
    if (at == 0)
        return CURE_STRAIGHT;
    if (at == TRIES - 1)
        return CURE_SAME;
    *best = settle(row, rate_at(row, at - 1), rate_at(row, at + 1));
    return CURE_KNOWN;
}

/* ---- Standard errors. */

/* Inverse of a symmetric positive matrix of that order in place, by elimination; false where it has none. */
static bool invert(int n, double matrix[PARAMETERS][PARAMETERS])
{
    double inverse[PARAMETERS][PARAMETERS] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};

    for (int k = 0; k < n; k++) {
        double pivot = matrix[k][k];

        if (!(pivot > DBL_MIN))
            return false;
        for (int j = 0; j < n; j++) {
            matrix[k][j] /= pivot;
            inverse[k][j] /= pivot;
        }
        for (int i = 0; i < n; i++) {
            double factor = matrix[i][k];

            for (int j = 0; j < n && i != k; j++) {
                matrix[i][j] -= factor * matrix[k][j];
                inverse[i][j] -= factor * inverse[k][j];
            }
        }
    }
    memcpy(matrix, inverse, sizeof inverse);
    return true;
}

/* How the curve at one day moves with what is free: rate, then end, then start, as far as they are. Returns how many. */
static int moves(const struct row *row, const struct cure_fit *fit, double day, double by[PARAMETERS])
{
    double stays = exp(-fit->rate * day);
    int n = 0;

    by[n++] = -(fit->start - fit->end) * day * stays;
    if (!row->end_held)
        by[n++] = 1.0 - stays;
    if (!row->start_held)
        by[n++] = stays;
    return n;
}

/* sd times the roots of the diagonal of (J'J)^-1, with the columns of J brought to length 1 first; INFINITY where the weighings do
 * not tell them apart. */
static void standard_errors(const struct row *row, struct cure_fit *fit)
{
    double sum[PARAMETERS][PARAMETERS] = {{0}}, by[PARAMETERS] = {0}, length[PARAMETERS], error[PARAMETERS];
    int n = 0;

    for (int i = 0; i < row->n; i++) {
        n = moves(row, fit, row->day[i], by);
        for (int j = 0; j < n; j++)
            for (int k = 0; k < n; k++)
                sum[j][k] += by[j] * by[k];
    }
    fit->sd = sqrt(fit->rss / (row->n - n));
    for (int j = 0; j < n; j++)
        length[j] = sqrt(sum[j][j]);
    for (int j = 0; j < n; j++)
        for (int k = 0; k < n; k++)
            sum[j][k] /= length[j] * length[k];

    bool told = invert(n, sum);

    for (int j = 0; j < n; j++)
        error[j] = told ? fit->sd * sqrt(sum[j][j]) / length[j] : (double)INFINITY;

    int next = 0;

    fit->sd_rate = error[next++];
    fit->sd_end = row->end_held ? 0.0 : error[next++];
    fit->sd_start = row->start_held ? 0.0 : error[next++];
}

/* ---- All together. */

static void state_curve(const struct row *row, const struct trial *best, struct cure_fit *fit)
{
    fit->rate = best->rate;
    fit->end = row->end_held ? row->end : best->start - best->drop;
    fit->start = row->start_held ? row->start : fit->end + best->drop * exp(best->rate * row->first_day);
    fit->rss = best->rss;
    standard_errors(row, fit);
}

static bool rises(const struct row *row)
{
    return line_fit(row->day, row->mass, row->n).slope >= 0.0;
}

/* An end of which two standard errors (coverage factor 2, GUM) are more than the whole loss is none: the row is as good as straight. */
static enum cure_unknown judge(const struct cure_fit *fit)
{
    double loss = fabs(fit->start - fit->end);

    if (!isfinite(fit->start) || !isfinite(fit->sd_rate))
        return CURE_SAME;
    return 2.0 * fit->sd_end <= loss ? CURE_KNOWN : CURE_STRAIGHT;
}

static void fit_row(struct row *row, double least_end, struct cure_fit *fit)
{
    struct trial best = {0};

    fit->points = row->n;
    fit->unknown = row->n < CURE_LEAST_POINTS ? CURE_FEW : all_the_same(row) ? CURE_SAME : best_curve(row, &best);
    if (fit->unknown == CURE_KNOWN) {
        state_curve(row, &best, fit);
        fit->unknown = judge(fit);
    }
    if (fit->unknown == CURE_KNOWN && least_end > 0.0 && fit->end < least_end) {
        row->end_held = fit->held = true;
        row->end = least_end;
        fit->unknown = best_curve(row, &best);
        state_curve(row, &best, fit);
    }
    if (fit->unknown != CURE_FEW && fit->unknown != CURE_SAME && rises(row))
        fit->unknown = CURE_RISING;
}

void cure_fit(const struct cure_point point[], int n, double least_end, struct cure_fit *fit)
{
    struct row row = {0};

    memset(fit, 0, sizeof *fit);
    read_row(point, n, &row);
    fit_row(&row, least_end, fit);
}

void cure_fit_from(const struct cure_point point[], int n, double start, double least_end, struct cure_fit *fit)
{
    struct row row = {0};

    memset(fit, 0, sizeof *fit);
    read_row(point, n, &row);
    row.first_day = 0.0;
    row.start_held = true;
    row.start = start;
    fit_row(&row, least_end, fit);
}
