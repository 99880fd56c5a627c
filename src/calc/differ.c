/* differ.c - each input's move of a log time, with the spread of what is believed of its term. */
#include "calc/differ.h"

#include <math.h>

#include "calc/distribution.h"
#include "calc/student.h"

/* Eight times in ten lie between the quantiles at 0.1 and 0.9. */
static const double QUANTILE = 0.9;

/* log(until / from) under which there is next to no window: a hundredth of from. Kept above it, factors on the window are finite. */
static const double RATIO_LEAST = 0.01;

enum { OFFSETS = 3 };

/* What a belief says of a move of the inputs by `by`: without residual, for that is of a batch and not of an input. */
static struct student moved(const struct belief *belief, const double by[PACE_TERMS], double slope)
{
    static const double still[PACE_TERMS] = {0};
    double spread = belief_scale_squared(belief, by) - belief_scale_squared(belief, still);

    return (struct student){slope * belief_middle(belief, by), slope * slope * fmax(spread, 0.0), 2.0 * belief->shape};
}

/* log(window) = log(from) + log(e^ratio - 1), and the slope of its second term. */
static double log_opening(double ratio)
{
    return log(expm1(fmax(ratio, RATIO_LEAST)));
}

static double opening_slope(double ratio)
{
    return ratio > RATIO_LEAST ? 1.0 / -expm1(-ratio) : 0.0;
}

/* Log of the factor on the figure by moving the inputs from b by `by`. For the window the term's spread counts by the slope of
 * where the ratio comes to. */
static struct student figure_moved(const struct pace_belief *belief, enum differ_figure figure,
                                   const double b[PACE_TERMS], const double by[PACE_TERMS])
{
    struct student from = moved(&belief->from, by, 1.0), ratio = moved(&belief->ratio, by, 1.0), both;

    if (figure == DIFFER_FROM)
        return from;
    if (figure == DIFFER_WINDOW) {
        double at_b = belief_middle(&belief->ratio, b), at_a = at_b + ratio.middle;

        ratio = moved(&belief->ratio, by, opening_slope(at_a));
        ratio.middle = log_opening(at_a) - log_opening(at_b);
    }
    both = (struct student){from.middle + ratio.middle, 0.0, from.degrees};
    return from.scale_squared + ratio.scale_squared > 0.0 ? student_sum(&from, &ratio) : both;
}

static struct differ_cause cause_of(enum pace_term term, const struct student *move)
{
    double half_width = student_quantile(QUANTILE, move->degrees) * sqrt(move->scale_squared);

    return (struct differ_cause){term, exp(move->middle), exp(move->middle - half_width),
                                 exp(move->middle + half_width)};
}

/* The input of that term alone: all offsets where it is a's technique. False where it is the same in both. */
static bool input_of(int term, const double a[PACE_TERMS], const double b[PACE_TERMS], double by[PACE_TERMS])
{
    bool differs = false;

    for (int i = 0; i < PACE_TERMS; i++) {
        bool of_it = term < OFFSETS ? i < OFFSETS && a[term] > 0.0 : i == term;

        by[i] = of_it ? a[i] - b[i] : 0.0;
        differs = differs || by[i] != 0.0;
    }
    return differs;
}

/* Into its place by how far it moves, after those that move as far. */
static void put_in_place(struct differ_cause causes[], int n, struct differ_cause cause)
{
    for (; n > 0 && fabs(log(causes[n - 1].moves)) < fabs(log(cause.moves)); n--)
        causes[n] = causes[n - 1];
    causes[n] = cause;
}

int differ_pace(const struct pace_belief *belief, const double a[PACE_TERMS], const double b[PACE_TERMS],
                enum differ_figure figure, struct differ_cause causes[PACE_TERMS], double *expected)
{
    double by[PACE_TERMS];
    int n = 0;

    for (int term = 0; term < PACE_TERMS; term++) {
        if (!input_of(term, a, b, by))
            continue;

        struct student move = figure_moved(belief, figure, b, by);

        put_in_place(causes, n++, cause_of((enum pace_term)term, &move));
    }
    for (int i = 0; i < PACE_TERMS; i++)
        by[i] = a[i] - b[i];
    *expected = exp(figure_moved(belief, figure, b, by).middle);
    return n;
}
