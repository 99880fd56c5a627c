/* pace.c - how fast a batter thickens: the belief of practice and what it predicts. */
#include "calc/pace.h"

#include <math.h>

#include "calc/distribution.h"

static double kept_within(double value, double most)
{
    return value > most ? most : value < -most ? -most : value;
}

void pace_numbers(const struct practice *practice, const struct pace_terms *terms, double x[PACE_TERMS])
{
    static const enum pace_term offset[] = {
        [TECHNIQUE_POUR] = PACE_POUR, [TECHNIQUE_SWIRL] = PACE_POUR, [TECHNIQUE_LAYER] = PACE_LAYER,
        [TECHNIQUE_PIPE] = PACE_PIPE, [TECHNIQUE_MOULD] = PACE_POUR,
    };
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

void pace_prior(const struct practice *practice, struct belief *from, struct belief *ratio)
{
    const struct { int term; double from_min, until_min; } offset[] = {
        {PACE_POUR, practice->pace_from_pour, practice->pace_until_pour},
        {PACE_LAYER, practice->pace_from_layer, practice->pace_until_layer},
        {PACE_PIPE, practice->pace_from_pipe, practice->pace_until_pipe},
    };
    const struct { int term; double factor; } factor[] = {
        {PACE_STRENGTH, practice->pace_strength},     {PACE_TEMP, practice->pace_temp},
        {PACE_SATURATED, practice->pace_saturated},   {PACE_SOME, practice->pace_some},
        {PACE_STRONG, practice->pace_strong},         {PACE_LONG_BLEND, practice->pace_long_blend},
        {PACE_HALF_MASS, practice->pace_half_mass},
    };

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
}

static struct quantiles minutes(double middle, double half_width)
{
    return (struct quantiles){.median = exp(middle), .low = exp(middle - half_width), .high = exp(middle + half_width)};
}

void pace_predict(const struct practice *practice, const struct belief *from, const struct belief *ratio,
                  const struct pace_terms *terms, struct quantiles *from_min, struct quantiles *until_min)
{
    double x[PACE_TERMS];
    pace_numbers(practice, terms, x);

    double from_middle = belief_middle(from, x), from_square = belief_scale_squared(from, x);
    double until_middle = from_middle + belief_middle(ratio, x);
    double until_square = from_square + belief_scale_squared(ratio, x);
    double from_t = student_quantile(0.9, 2.0 * from->shape);
    double until_t = ratio->shape < from->shape ? student_quantile(0.9, 2.0 * ratio->shape) : from_t;

    *from_min = minutes(from_middle, from_t * sqrt(from_square));
    *until_min = minutes(until_middle, until_t * sqrt(until_square));
    until_min->median = fmax(until_min->median, from_min->median);
    until_min->low = fmax(until_min->low, from_min->low);
    until_min->high = fmax(until_min->high, from_min->high);
}
