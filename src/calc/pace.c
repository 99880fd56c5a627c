/* pace.c - how fast a batter thickens: the belief of practice and what it predicts. */
#include "calc/pace.h"

#include <math.h>

#include "calc/distribution.h"
#include "calc/student.h"

/* Eight times in ten lie between the quantiles at 0.1 and 0.9. */
static const double QUANTILE = 0.9, NORMAL_QUANTILE = 1.2815515655446004;

static double kept_within(double value, double most)
{
    return value > most ? most : value < -most ? -most : value;
}

void pace_numbers(const struct practice *practice, const struct pace_terms *terms, double x[PACE_TERMS])
{
    static const int offset[] = {[TECHNIQUE_POUR] = PACE_POUR,
                                 [TECHNIQUE_SWIRL] = PACE_POUR,
                                 [TECHNIQUE_LAYER] = PACE_LAYER,
                                 [TECHNIQUE_PIPE] = PACE_PIPE,
                                 [TECHNIQUE_MOULD] = PACE_POUR};
    static const double most = 30.0;

    for (int i = 0; i < PACE_TERMS; i++)
        x[i] = 0.0;
    x[offset[terms->technique]] = 1.0;
    x[PACE_STRENGTH] = kept_within((terms->strength - practice->pace_ref_strength) / 0.05, most);
    x[PACE_TEMP] = kept_within((terms->temp_c - practice->pace_ref_temp_c) / 10.0, most);
    x[PACE_SATURATED] = kept_within((terms->saturated - practice->pace_ref_saturated) / 0.10, most);
    x[PACE_SOME] = terms->acceleration == ACCELERATION_SOME;
    x[PACE_STRONG] = terms->acceleration == ACCELERATION_STRONG;
    x[PACE_LONG_BLEND] = terms->long_blend;
    if (terms->oils_g > 0.0)
        x[PACE_HALF_MASS] = kept_within(log2(practice->pace_ref_oils_g / terms->oils_g), most);
}

void pace_believe(struct pace_belief *belief)
{
    belief->from_t = student_quantile(QUANTILE, 2.0 * belief->from.shape);
}

void pace_prior(const struct practice *practice, struct pace_belief *belief)
{
    struct belief *from = &belief->from, *ratio = &belief->ratio;
    /* clang-format off */
    const struct { int term; double from_min, until_min; } offset[] = {
        {PACE_POUR, practice->pace_from_pour, practice->pace_until_pour},
        {PACE_LAYER, practice->pace_from_layer, practice->pace_until_layer},
        {PACE_PIPE, practice->pace_from_pipe, practice->pace_until_pipe},
    };
    const struct { int term; double factor; } factor[] = {
        {PACE_STRENGTH, practice->pace_strength},   {PACE_TEMP, practice->pace_temp},
        {PACE_SATURATED, practice->pace_saturated}, {PACE_SOME, practice->pace_some},
        {PACE_STRONG, practice->pace_strong},       {PACE_LONG_BLEND, practice->pace_long_blend},
        {PACE_HALF_MASS, practice->pace_half_mass},
    };
    /* clang-format on */

    belief_start(from, practice->pace_shape, practice->pace_scale);
    belief_start(ratio, practice->pace_shape, practice->pace_scale);
    for (size_t i = 0; i < sizeof offset / sizeof offset[0]; i++) {
        belief_set(from, offset[i].term, log(offset[i].from_min), practice->pace_offset_spread);
        belief_set(ratio, offset[i].term, log(offset[i].until_min / offset[i].from_min), practice->pace_offset_spread);
    }
    for (size_t i = 0; i < sizeof factor / sizeof factor[0]; i++) {
        double size = log(factor[i].factor);
        double spread = fmax(fabs(size) * practice->pace_factor_spread, practice->pace_factor_least);

        belief_set(from, factor[i].term, size, spread);
        belief_set(ratio, factor[i].term, 0.0, practice->pace_factor_least);
    }
    pace_believe(belief);
}

static struct student predicted(const struct belief *belief, const double x[PACE_TERMS])
{
    return (struct student){belief_middle(belief, x), belief_scale_squared(belief, x), 2.0 * belief->shape};
}

/* Of a log time, with that Student's quantile. */
static struct quantiles minutes(const struct student *s, double t)
{
    double half_width = t * sqrt(s->scale_squared);

    return (struct quantiles){
        .median = exp(s->middle), .low = exp(s->middle - half_width), .high = exp(s->middle + half_width)};
}

void pace_predict(const struct practice *practice, const struct pace_belief *belief, const struct pace_terms *terms,
                  struct quantiles *from_min, struct quantiles *until_min)
{
    double x[PACE_TERMS];
    pace_numbers(practice, terms, x);

    struct student from = predicted(&belief->from, x), ratio = predicted(&belief->ratio, x);
    struct student until = student_sum(&from, &ratio);
    double until_t = NORMAL_QUANTILE + (belief->from_t - NORMAL_QUANTILE) * from.degrees / until.degrees;

    *from_min = minutes(&from, belief->from_t);
    *until_min = minutes(&until, until_t);
    until_min->median = fmax(until_min->median, from_min->median);
    until_min->low = fmax(until_min->low, from_min->low);
    until_min->high = fmax(until_min->high, from_min->high);
}
