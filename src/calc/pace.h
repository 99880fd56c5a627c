/* pace.h - from when and until when a batter is workable, and whether that is enough (calculations, section 11).
 *
 * Two times count from combining: `from` when the batter is stiff enough for the technique, `until` when it is too stiff. What
 * is believed is log(from) and log(until / from), each linear in the terms below. Until the maker's own batches speak, the
 * belief is common practice and memory (struct practice), and the intervals are wide.
 */
#ifndef CALC_PACE_H
#define CALC_PACE_H

#include "calc/belief.h"
#include "lyeway/plan.h"

/* Three offsets, of which one is 1 (pouring, swirling and moulding share theirs), and seven factors, 0 at the reference
 * conditions of practice: strength per 5 points, temperature per 10 C, saturated acids per 10 points, a fragrance of some or
 * of strong acceleration, long blending, and halvings of the batch. */
enum pace_term {
    PACE_POUR,
    PACE_LAYER,
    PACE_PIPE,
    PACE_STRENGTH,
    PACE_TEMP,
    PACE_SATURATED,
    PACE_SOME,
    PACE_STRONG,
    PACE_LONG_BLEND,
    PACE_HALF_MASS
};
enum { PACE_TERMS = BELIEF_TERMS };

/* What the two log times depend on. */
struct pace_terms {
    enum technique technique;
    double strength, temp_c, saturated, oils_g; /* oils of the whole batch, > 0 */
    enum acceleration acceleration;             /* slowing ones count as none: how much they slow is not known */
    bool long_blend;
};

/* The terms as numbers; each is kept within 30 either way so that no recipe makes a time infinite. */
void pace_numbers(const struct practice *practice, const struct pace_terms *terms, double x[PACE_TERMS]);

/* Sets from_t; to be called whenever the beliefs have changed. Both have a shape above 2. */
void pace_believe(struct pace_belief *belief);

/* The belief of practice. Factors act on both times alike, so the ratio has none, but it is not known better than
 * practice.pace_factor_least. */
void pace_prior(const struct practice *practice, struct pace_belief *belief);

/* The belief that stands for the recipe: that of the maker's own batches, else of practice. Returns how many batches speak. */
int pace_belief_of(const struct plan_input *in, struct pace_belief *belief);

/* Median and the interval that holds 8 times in 10, minutes.
 *
 * log(until) is the sum of two Student variables taken as independent. It is put as one Student variable of the same variance
 * and the same fourth moment, whose quantile is taken on the line in 1 / degrees between that of `from` and that of the normal:
 * at 12 degrees the half width is within 0.3 % of that of the sum. `until` is nowhere before `from`. */
void pace_predict(const struct practice *practice, const struct pace_belief *belief, const struct pace_terms *terms,
                  struct quantiles *from_min, struct quantiles *until_min);

/* What the pace of a portion of a plan depends on. */
struct pace_terms pace_terms_of(const struct plan_input *in, const struct plan *plan,
                                const struct plan_portion *portion);

/* Minutes that a portion takes to use up. With pieces: those to pipe by the seconds of their class, and a change for each bag.
 * Without: practice.colour_minutes if it is swirled, layered or coloured, else 0. */
double pace_need_min(const struct plan_input *in, const struct plan_portion *portion);

/* plan->portion[].pace, and the finding window-short: the median of from and the need go beyond the median of until, or with
 * LEARNED_LEAST own batches beyond its low end. */
void pace_plan(const struct plan_input *in, struct plan *plan);

#endif
