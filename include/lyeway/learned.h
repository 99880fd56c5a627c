/* learned.h - what the maker's own batches teach about a recipe; where they do not, common practice stands (struct practice).
 *
 * Each figure says how many batches speak for it. calc/learn.h finds them, plans and bench use them, a batch keeps those that it
 * was started with.
 */
#ifndef LYEWAY_LEARNED_H
#define LYEWAY_LEARNED_H

#include "lyeway/recipe.h"

/* Batches from which on an own mean takes the place of what the recipe or practice says; fewer are shown and not used. Memory. */
enum { LEARNED_LEAST = 3 };

enum { BELIEF_TERMS = 10 };

/* What is believed about a quantity that is linear in known terms (calc/belief.h). */
struct belief {
    double mean[BELIEF_TERMS];
    double covariance[BELIEF_TERMS][BELIEF_TERMS]; /* symmetric, in units of the residual variance */
    double shape, scale;                           /* shape > 1 */
};

/* What is believed about both times of a batter (calc/pace.h). */
struct pace_belief {
    struct belief from;  /* about log(from) */
    struct belief ratio; /* about log(until / from) */
    double from_t;       /* Student's quantile at 0.9 of from: the same for every portion, and slow to find */
};

/* Of a part of one kind of piece. */
struct learned_pieces {
    int weighed;              /* batches in which the mass a piece could be told */
    double mass_g, between_g; /* mean of their means; its standard deviation from batch to batch, NAN below two */
    int within_degrees;       /* degrees of freedom of within_g */
    double within_g;          /* standard deviation from piece to piece in one batch; NAN below one degree */
    int counted;              /* batches in which good pieces and rejects were counted */
    int good, rejects;        /* in them */
    double reject_a, reject_b; /* of the Beta (calculations, section 8): the prior of the class and those; where counted > 0 */
};

struct learned_value {
    int batches;
    double mean, spread; /* spread: standard deviation, NAN below two batches */
};

struct learned {
    int pace_batches; /* that speak for `pace`; 0: it is not filled in */
    struct pace_belief pace;
    struct learned_pieces piece[RECIPE_PORTIONS]; /* of the recipe's portions */
    struct learned_value jug_residue_g, bag_residue_g, air /* share of the volume */, cure_loss /* share of the mass */;
};

#endif
