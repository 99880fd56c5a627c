/* pace.h - from when and until when a batter is workable, and whether that is enough (calculations, section 11). */
#ifndef CALC_PACE_H
#define CALC_PACE_H

#include "lyeway/plan.h"

enum { PACE_TERMS = 9 }; /* three offsets and six factors */

/* A conjugate belief about a log time that is linear in PACE_TERMS terms: coefficients normal around mean with covariance
 * (residual variance) * covariance, residual variance inverse gamma(shape, scale). */
struct pace_belief {
    double mean[PACE_TERMS];
    double covariance[PACE_TERMS][PACE_TERMS];
    double shape, scale;
    int batches;
};

/* What the two log times depend on. */
struct pace_terms {
    enum technique technique;
    double strength, temp_c, saturated, oils_g;
    enum acceleration acceleration;
    bool long_blend;
};

/* Belief of practice: `from` about log(from), `ratio` about log(until / from). */
void pace_prior(const struct practice *practice, struct pace_belief *from, struct pace_belief *ratio);

/* Median and the interval that holds 8 times in 10, minutes. */
void pace_predict(const struct practice *practice, const struct pace_belief *from, const struct pace_belief *ratio,
                  const struct pace_terms *terms, struct quantiles *from_min, struct quantiles *until_min);

/* plan->portion[].pace, and the finding window-short. */
void pace_plan(const struct plan_input *in, struct plan *plan);

#endif
