/* pace_stamped.c - what was seen of a batch, the belief given that, and the forecast from it. */
#include "calc/pace_stamped.h"

#include <math.h>
#include <stdbool.h>

#include "calc/distribution.h"
#include "calc/pace.h"
#include "calc/pieces.h"

/* With 32 nodes `until` is within 0.6 % of the plan's where nothing was seen yet; with 16 it is not. */
enum { STAGES = 8, NODES = 32 };

/* The stage that a technique waits for, and that at which the batter is too stiff for it. */
struct wanted {
    int from, until;
};

static struct wanted wanted_by(enum technique technique)
{
    static const struct wanted wanted[] = {[TECHNIQUE_POUR] = {2, 4},
                                           [TECHNIQUE_SWIRL] = {2, 4},
                                           [TECHNIQUE_LAYER] = {3, 5},
                                           [TECHNIQUE_PIPE] = {5, 6},
                                           [TECHNIQUE_MOULD] = {2, 4}};

    return wanted[technique];
}

/* ---- What was seen. Moments are logs of minutes from combining. */

struct seen {
    int stage;         /* the furthest that stands; 0: none */
    double at[STAGES]; /* INFINITY: not stamped, or does not stand */
    double piece;      /* first piece of the portion's kind; INFINITY: none */
    double now;
};

/* Whatever happens in the first second counts as its end, so that the log is finite. */
static double log_minutes(const struct batch *batch, int64_t at_s)
{
    return log(fmax((double)(at_s - batch->combined_s), 1.0) / 60.0);
}

static bool stands(const struct batch *batch, int stage)
{
    return stage <= batch->stage && batch->stage_s[stage] >= batch->combined_s && batch->stage_s[stage] > 0;
}

static const struct batch_pieces *pieces_of(const struct recipe *recipe, const struct batch *batch, int source)
{
    for (int k = 0; k < batch->kinds && source >= 0; k++)
        if (pieces_same(recipe, source, batch->pieces[k].portion))
            return &batch->pieces[k];
    return NULL;
}

static int64_t moment(const struct batch *batch, int64_t now_s)
{
    int64_t last_s = now_s > batch->combined_s ? now_s : batch->combined_s;

    for (int k = 1; k < STAGES; k++)
        if (stands(batch, k) && batch->stage_s[k] > last_s)
            last_s = batch->stage_s[k];
    for (int k = 0; k < batch->kinds; k++)
        if (batch->pieces[k].last_s > last_s)
            last_s = batch->pieces[k].last_s;
    return last_s;
}

static struct seen look(const struct plan_input *in, const struct batch *batch, int source, int64_t now_s)
{
    const struct batch_pieces *pieces = pieces_of(in->recipe, batch, source);
    struct seen seen = {.piece = INFINITY, .now = log_minutes(batch, moment(batch, now_s))};
    double least = -INFINITY;

    seen.at[0] = INFINITY; /* unmixed: no stage that a batter gets to */
    for (int k = 1; k < STAGES; k++) {
        seen.at[k] = INFINITY;
        if (!stands(batch, k))
            continue;
        seen.at[k] = least = fmax(least, log_minutes(batch, batch->stage_s[k]));
        seen.stage = k;
    }
    if (pieces != NULL && pieces->first_s >= batch->combined_s && pieces->first_s > 0)
        seen.piece = log_minutes(batch, pieces->first_s);
    return seen;
}

/* The first moment at which the batter was seen at that stage or past it. */
static double reached(const struct seen *seen, int stage)
{
    double first = INFINITY;

    for (int k = stage; k < STAGES; k++)
        first = fmin(first, seen->at[k]);
    return first;
}

/* ---- The belief given that. */

/* middle + scale * t of so many degrees; scale 0: known. */
struct student {
    double middle, scale, degrees;
};

static double stage_share(const struct practice *practice, int stage)
{
    const double share[STAGES] = {0.0,
                                  practice->stage_1,
                                  practice->stage_2,
                                  practice->stage_3,
                                  practice->stage_4,
                                  practice->stage_5,
                                  practice->stage_6,
                                  practice->stage_7};

    return share[stage];
}

/* Expected log time from one stage to another; below 0 where the second comes first. */
static double gap(const struct practice *practice, int a, int b)
{
    return (stage_share(practice, b) - stage_share(practice, a)) *
           log(practice->pace_until_pipe / practice->pace_from_pour);
}

/* Variance of that, in units of the residual variance as the belief expects it. */
static double noise(const struct practice *practice, const struct belief *belief, int a, int b)
{
    double expected = belief->scale / (belief->shape - 1.0);

    return practice->stage_spread * practice->stage_spread * fabs(gap(practice, a, b)) / expected;
}

/* The prediction at x as a belief of one unknown: this batch's own, its residual in it. */
static struct belief own(const struct belief *belief, const double x[PACE_TERMS])
{
    struct belief one;

    belief_start(&one, belief->shape, belief->scale);
    one.mean[0] = belief_middle(belief, x);
    one.covariance[0][0] = belief_scale_squared(belief, x) * belief->shape / belief->scale;
    return one;
}

static struct student student_of(const struct belief *one)
{
    return (struct student){one->mean[0], sqrt(one->scale / one->shape * fmax(one->covariance[0][0], 0.0)),
                            2.0 * one->shape};
}

static struct student from_given(const struct practice *practice, struct belief one, const struct seen *seen,
                                 int wanted)
{
    static const double itself[BELIEF_TERMS] = {1.0};

    if (isfinite(seen->at[wanted])) /* no doubt is left, not even one of rounding */
        return (struct student){seen->at[wanted], 0.0, 2.0 * one.shape};
    if (seen->stage > 0)
        belief_learn_noisy(&one, itself, seen->at[seen->stage] - gap(practice, wanted, seen->stage),
                           noise(practice, &one, wanted, seen->stage));
    return student_of(&one);
}

static struct student ratio_given(const struct practice *practice, struct belief one, const struct seen *seen,
                                  struct wanted wanted)
{
    if (isfinite(seen->at[wanted.from]) && seen->stage > wanted.from && seen->stage < wanted.until) {
        double share[BELIEF_TERMS] = {gap(practice, wanted.from, seen->stage) /
                                      gap(practice, wanted.from, wanted.until)};

        belief_learn_noisy(&one, share, seen->at[seen->stage] - seen->at[wanted.from],
                           noise(practice, &one, wanted.from, seen->stage));
    }
    return student_of(&one);
}

/* ---- The forecast. */

/* Log time between bounds: what a Student variable is known to lie in. */
struct within {
    double lo, hi;
};

static struct within from_within(const struct seen *seen, int wanted)
{
    double by = fmin(reached(seen, wanted), seen->piece);

    if (isinf(by))
        return (struct within){seen->now, INFINITY};

    double after = -INFINITY;

    for (int k = 1; k < wanted; k++)
        if (seen->at[k] < by)
            after = seen->at[k];
    return (struct within){after, by};
}

/* Its quantile at p given that it lies within. Tails are taken from the side where they are small numbers. */
static double quantile_within(const struct student *s, struct within within, double p)
{
    if (s->scale <= 0.0)
        return fmin(fmax(s->middle, within.lo), within.hi);
    if (within.lo > s->middle) {
        struct student mirrored = {-s->middle, s->scale, s->degrees};

        return -quantile_within(&mirrored, (struct within){-within.hi, -within.lo}, 1.0 - p);
    }

    double below_lo = isinf(within.lo) ? 0.0 : student_cdf((within.lo - s->middle) / s->scale, s->degrees);
    double below_hi = isinf(within.hi) ? 1.0 : student_cdf((within.hi - s->middle) / s->scale, s->degrees);
    double below = below_lo + p * (below_hi - below_lo);

    if (!(below > 0.0 && below < 1.0))
        return isinf(within.lo) ? within.hi : within.lo;
    return fmin(fmax(s->middle + s->scale * student_quantile(below, s->degrees), within.lo), within.hi);
}

/* log(until): the sum of log(from), as so many equally likely values, and of the ratio. */
struct sum {
    int nodes;
    double node[NODES];
    struct student ratio;
};

static double chance_above(const struct sum *sum, double value)
{
    double total = 0.0;

    for (int i = 0; i < sum->nodes; i++)
        total += student_cdf((sum->node[i] + sum->ratio.middle - value) / sum->ratio.scale, sum->ratio.degrees);
    return total / sum->nodes;
}

/* Value above `lo` that the sum exceeds with that chance, which is under that of lo: regula falsi on the log of the chance,
 * with the weight of an end that stays halved (the Illinois method). */
static double value_above(const struct sum *sum, double lo, double chance)
{
    double step = sum->ratio.scale, f_lo = log(chance_above(sum, lo) / chance), hi = lo + step;
    double f_hi = log(chance_above(sum, hi) / chance);

    for (int i = 0; i < 60 && f_hi > 0.0; i++) {
        lo = hi;
        f_lo = f_hi;
        step *= 2.0;
        hi = lo + step;
        f_hi = log(chance_above(sum, hi) / chance);
    }
    for (int i = 0; i < 60 && hi - lo > 1e-9; i++) {
        double middle = hi - f_hi * (hi - lo) / (f_hi - f_lo), f = log(chance_above(sum, middle) / chance);

        if (fabs(f) < 1e-10)
            return middle;
        if (f > 0.0) {
            lo = middle;
            f_lo = f;
            f_hi /= 2.0;
        } else {
            hi = middle;
            f_hi = f;
            f_lo /= 2.0;
        }
    }
    return hi;
}

static struct quantiles one_moment(double log_min)
{
    double minutes = exp(log_min);

    return (struct quantiles){minutes, minutes, minutes};
}

static struct quantiles forecast_from(const struct student *from, struct within within)
{
    return (struct quantiles){.median = exp(quantile_within(from, within, 0.5)),
                              .low = exp(quantile_within(from, within, 0.1)),
                              .high = exp(quantile_within(from, within, 0.9))};
}

static struct quantiles forecast_until(const struct student *from, struct within within, const struct student *ratio,
                                       double now)
{
    struct sum sum = {.nodes = from->scale > 0.0 ? NODES : 1, .ratio = *ratio};

    for (int i = 0; i < sum.nodes; i++)
        sum.node[i] = quantile_within(from, within, (i + 0.5) / sum.nodes);

    double left = chance_above(&sum, now);

    return (struct quantiles){.median = exp(value_above(&sum, now, 0.5 * left)),
                              .low = exp(value_above(&sum, now, 0.9 * left)),
                              .high = exp(value_above(&sum, now, 0.1 * left))};
}

/* The middle of what was measured at combining. */
static double combined_temp_c(const struct batch *batch, double otherwise)
{
    double lye = batch->lye_temp_c, oil = batch->oil_temp_c;

    if (isfinite(lye) && isfinite(oil))
        return (lye + oil) / 2.0;
    return isfinite(lye) ? lye : isfinite(oil) ? oil : otherwise;
}

static void forecast(const struct plan_input *in, const struct pace_belief *belief, const struct pace_terms *terms,
                     const struct seen *seen, bool given_up, struct quantiles *from_min, struct quantiles *until_min)
{
    const struct practice *practice = in->reference->practice;
    struct wanted wanted = wanted_by(terms->technique);
    double x[PACE_TERMS], over = reached(seen, wanted.until);

    pace_numbers(practice, terms, x);

    struct student from = from_given(practice, own(&belief->from, x), seen, wanted.from);
    struct student ratio = ratio_given(practice, own(&belief->ratio, x), seen, wanted);
    struct within within = from_within(seen, wanted.from);

    *from_min = forecast_from(&from, within);
    if (isfinite(over) || given_up) {
        *until_min = one_moment(fmin(over, seen->now));
        return;
    }
    *until_min = forecast_until(&from, within, &ratio, seen->now);
    until_min->median = fmax(until_min->median, from_min->median);
    until_min->low = fmax(until_min->low, from_min->low);
    until_min->high = fmax(until_min->high, from_min->high);
}

void pace_stamped(const struct plan_input *in, const struct plan *plan, const struct plan_portion *portion,
                  const struct batch *batch, int64_t now_s, struct quantiles *from_min, struct quantiles *until_min)
{
    const struct practice *practice = in->reference->practice;
    struct pace_terms terms = pace_terms_of(in, plan, portion);
    struct pace_belief belief;

    pace_belief_of(in, &belief);
    if (batch->combined_s == 0) {
        pace_predict(practice, &belief, &terms, from_min, until_min);
        return;
    }

    struct seen seen = look(in, batch, portion->source, now_s);

    terms.temp_c = combined_temp_c(batch, terms.temp_c);
    forecast(in, &belief, &terms, &seen, batch->going, from_min, until_min);
}

double pace_elapsed_min(const struct batch *batch, int64_t now_s)
{
    return batch->combined_s == 0 ? 0.0 : (double)(moment(batch, now_s) - batch->combined_s) / 60.0;
}

static double minutes_of(const struct batch *batch, int64_t at_s)
{
    return fmax((double)(at_s - batch->combined_s), 1.0) / 60.0;
}

/* The last moment at which the batter was at hand and not yet too stiff; 0: none. */
static int64_t last_workable(const struct batch *batch, int too_stiff, int64_t poured_s)
{
    int64_t last_s = poured_s;

    for (int k = 1; k < too_stiff; k++)
        if (stands(batch, k) && batch->stage_s[k] > last_s)
            last_s = batch->stage_s[k];
    for (int k = 0; k < batch->kinds; k++)
        if (batch->pieces[k].last_s > last_s)
            last_s = batch->pieces[k].last_s;
    return last_s;
}

void pace_seen_of(const struct batch *batch, enum technique technique, int64_t poured_s, double *from_min,
                  double *until_min, bool *at_least)
{
    struct wanted wanted = wanted_by(technique);
    int64_t until_s = 0;

    *from_min = *until_min = NAN;
    *at_least = false;
    if (batch->combined_s == 0)
        return;
    if (stands(batch, wanted.from))
        *from_min = minutes_of(batch, batch->stage_s[wanted.from]);
    for (int k = wanted.until; k < STAGES; k++)
        if (stands(batch, k) && (until_s == 0 || batch->stage_s[k] < until_s))
            until_s = batch->stage_s[k];
    if (until_s == 0) {
        until_s = last_workable(batch, wanted.until, poured_s);
        *at_least = until_s > batch->combined_s;
    }
    if (until_s > batch->combined_s)
        *until_min = minutes_of(batch, until_s);
}
