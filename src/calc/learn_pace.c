/* learn_pace.c - the belief about both times of a batter brought up to date, "at least" among what was seen.
 *
 * What was seen exactly is taken in one by one (belief.h). A ratio that was only seen to be above some value has, by the belief, a
 * normal distribution cut off there, with the middle of the prediction and the variance s2 = scale / shape. With its mean in place
 * of the ratio and its variance added to the squares the belief follows as if all had been seen; with that belief the means
 * are found again, until they stay: expectation-maximisation (Dempster, Laird and Rubin 1977), in the form that keeps the
 * whole belief and not only its mode (variational).
 *
 * Taken as they stand the expected ratios would count as seen in full, and a batch that was finished early, of which next to nothing
 * is known, would narrow the interval. So at the end each enters with the error that leaves the means where they are and counts it
 * by what it tells: 1 - variance / s2 of an observation (the missing information of Louis 1982).
 */
#include <math.h>

#include "calc/learn.h"

/* Rounds until the means stay within SETTLED residual deviations. A hundred batches that are all "at least" want some 700; with
 * thousands of only such the last ones still add a little, so that what is believed stays on the short side. */
enum { ROUNDS = 1000 };
static const double SETTLED = 1e-11;

/* From there on its series is as good as the quotient, and does not underflow. */
static const double FAR = 30.0;

/* The standard normal above `a`. */
struct cut_normal {
    double mean, variance;
};

static struct cut_normal cut_normal(double a)
{
    static const double root_2 = 1.41421356237309504880, root_half_pi = 1.25331413731550025121;

    if (a > FAR) {
        double r = 1.0 / (a * a);

        return (struct cut_normal){a + (1.0 - 2.0 * r) / a, r * (1.0 - 6.0 * r)};
    }

    double mean = exp(-a * a / 2.0) / (root_half_pi * erfc(a / root_2));

    return (struct cut_normal){mean, fmax(1.0 + mean * (a - mean), 0.0)};
}

static bool speaks(const struct pace_seen *seen)
{
    for (int i = 0; i < PACE_TERMS; i++)
        if (!isfinite(seen->x[i]))
            return false;
    return seen->from_min > 0.0 && isfinite(seen->from_min);
}

/* Of a batch that speaks. An until before from cannot be, and is not taken. */
static bool has_ratio(const struct pace_seen *seen)
{
    return isfinite(seen->until_min) && seen->until_min >= seen->from_min;
}

static bool cut_off(const struct pace_seen *seen)
{
    return speaks(seen) && has_ratio(seen) && seen->at_least;
}

static double log_ratio(const struct pace_seen *seen)
{
    return log(seen->until_min / seen->from_min);
}

/* ---- What is expected of those that were cut off. */

/* The belief of all that was seen exactly; the covariance once the others are in too, which does not depend on what they are;
 * and where the rounds have come to. */
struct rounds {
    const struct belief *exact;
    struct belief all;
    int cut; /* how many */
    double s2;
};

static struct cut_normal expected(const struct rounds *rounds, const struct pace_seen *seen)
{
    double middle = belief_middle(&rounds->all, seen->x), deviation = sqrt(rounds->s2);
    struct cut_normal cut = cut_normal((log_ratio(seen) - middle) / deviation);

    return (struct cut_normal){middle + deviation * cut.mean, rounds->s2 * cut.variance};
}

/* With d the expected ratios less the middles of the exact belief: the mean moves from the exact one by C X'd, the sum of squares
 * about it and of the move itself is d'd - move'X'd. Returns by how much the mean changed, in residual deviations. */
static double one_round(struct rounds *rounds, const struct pace_seen seen[], int n)
{
    double along[PACE_TERMS] = {0}, squares = 0.0, changed = 0.0;

    for (int i = 0; i < n; i++) {
        if (!cut_off(&seen[i]))
            continue;

        struct cut_normal cut = expected(rounds, &seen[i]);
        double d = cut.mean - belief_middle(rounds->exact, seen[i].x);

        squares += d * d + cut.variance;
        for (int j = 0; j < PACE_TERMS; j++)
            along[j] += d * seen[i].x[j];
    }
    for (int j = 0; j < PACE_TERMS; j++) {
        double move = 0.0;

        for (int k = 0; k < PACE_TERMS; k++)
            move += rounds->all.covariance[j][k] * along[k];
        squares -= move * along[j];
        changed = fmax(changed, fabs(rounds->exact->mean[j] + move - rounds->all.mean[j]));
        rounds->all.mean[j] = rounds->exact->mean[j] + move;
    }

    double s2 = (rounds->exact->scale + squares / 2.0) / (rounds->exact->shape + rounds->cut / 2.0);

    changed = fmax(changed / sqrt(s2), fabs(s2 / rounds->s2 - 1.0));
    rounds->s2 = s2;
    return changed;
}

static struct rounds go_round(const struct belief *exact, const struct pace_seen seen[], int n)
{
    struct rounds rounds = {.exact = exact, .all = *exact, .s2 = exact->scale / exact->shape};

    for (int i = 0; i < n; i++) {
        if (!cut_off(&seen[i]))
            continue;
        belief_learn(&rounds.all, seen[i].x, belief_middle(&rounds.all, seen[i].x));
        rounds.cut++;
    }
    for (int i = 0; i < ROUNDS && rounds.cut > 0; i++)
        if (one_round(&rounds, seen, n) < SETTLED)
            break;
    return rounds;
}

/* ---- The belief. */

static void learn_cut_off(struct belief *ratio, const struct pace_seen seen[], int n)
{
    const struct belief exact = *ratio;
    struct rounds rounds = go_round(&exact, seen, n);
    double told = 0.0;

    if (rounds.cut == 0)
        return;
    for (int i = 0; i < n; i++) {
        if (!cut_off(&seen[i]))
            continue;

        double tells = 1.0 - expected(&rounds, &seen[i]).variance / rounds.s2;

        if (!(tells > 0.0))
            continue;
        told += tells;
        belief_learn_noisy(ratio, seen[i].x, 0.0, 1.0 / tells);
    }
    for (int j = 0; j < PACE_TERMS; j++)
        ratio->mean[j] = rounds.all.mean[j];
    ratio->shape = exact.shape + told / 2.0;
    ratio->scale = rounds.s2 * ratio->shape;
}

int learn_pace(const struct practice *practice, const struct pace_seen seen[], int n, struct pace_belief *belief)
{
    int batches = 0;

    pace_prior(practice, belief);
    for (int i = 0; i < n; i++) {
        if (!speaks(&seen[i]))
            continue;
        batches++;
        belief_learn(&belief->from, seen[i].x, log(seen[i].from_min));
        if (has_ratio(&seen[i]) && !seen[i].at_least)
            belief_learn(&belief->ratio, seen[i].x, log_ratio(&seen[i]));
    }
    learn_cut_off(&belief->ratio, seen, n);
    pace_believe(belief);
    return batches;
}
