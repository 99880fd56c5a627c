/* belief.c - normal-inverse-gamma belief about a linear model. */
#include "calc/belief.h"

#include <string.h>

void belief_start(struct belief *belief, double shape, double scale)
{
    memset(belief, 0, sizeof *belief);
    belief->shape = shape;
    belief->scale = scale;
}

void belief_set(struct belief *belief, int term, double mean, double deviation)
{
    double expected_variance = belief->scale / (belief->shape - 1.0); /* of the inverse gamma */

    belief->mean[term] = mean;
    for (int i = 0; i < BELIEF_TERMS; i++)
        belief->covariance[term][i] = belief->covariance[i][term] = 0.0;
    belief->covariance[term][term] = deviation * deviation / expected_variance;
}

double belief_middle(const struct belief *belief, const double x[BELIEF_TERMS])
{
    double sum = 0.0;

    for (int i = 0; i < BELIEF_TERMS; i++)
        sum += x[i] * belief->mean[i];
    return sum;
}

/* along = covariance * x; returns x' * along. Most terms of a batch are 0. */
static double project(const struct belief *belief, const double x[BELIEF_TERMS], double along[BELIEF_TERMS])
{
    double sum = 0.0;

    memset(along, 0, BELIEF_TERMS * sizeof along[0]);
    for (int i = 0; i < BELIEF_TERMS; i++) {
        if (x[i] == 0.0)
            continue;
        for (int j = 0; j < BELIEF_TERMS; j++)
            along[j] += belief->covariance[i][j] * x[i];
    }
    for (int i = 0; i < BELIEF_TERMS; i++)
        sum += x[i] * along[i];
    return sum;
}

double belief_scale_squared(const struct belief *belief, const double x[BELIEF_TERMS])
{
    double along[BELIEF_TERMS];

    return belief->scale / belief->shape * (1.0 + project(belief, x, along));
}

void belief_learn_noisy(struct belief *belief, const double x[BELIEF_TERMS], double y, double noise)
{
    double along[BELIEF_TERMS];
    double spread = noise + project(belief, x, along);
    double surprise = y - belief_middle(belief, x);

    if (!(spread > 0.0))
        return;
    for (int i = 0; i < BELIEF_TERMS; i++) {
        belief->mean[i] += along[i] * surprise / spread;
        for (int j = 0; j < BELIEF_TERMS; j++)
            belief->covariance[i][j] -= along[i] * along[j] / spread;
    }
    belief->shape += 0.5;
    belief->scale += surprise * surprise / (2.0 * spread);
}

void belief_learn(struct belief *belief, const double x[BELIEF_TERMS], double y)
{
    belief_learn_noisy(belief, x, y, 1.0);
}
