/* pieces.h - how many pieces to pipe so that enough come out good, and the batter for them (calculations, section 8).
 *
 * Batter for pieces is their mass, and for each bag the first squeeze and what stays in it, and what stays in the
 * colour cup. */
#ifndef CALC_PIECES_H
#define CALC_PIECES_H

#include "lyeway/plan.h"

/* pieces_to_pipe looks no further: beyond it there is no sense in asking. */
enum { PIECES_MOST = 100000 };

/* Rejects ~ beta-binomial(n, a, b). */
struct reject_prior {
    double a, b;
};

/* By practice: a kind made for the first time, else a flower, else simple. */
struct reject_prior pieces_prior(const struct practice *practice, const struct pieces *pieces);

/* P(at least `wanted` of n are good); 1 where none is wanted. Relative error under 1e-11, whatever the prior. */
double pieces_chance(int n, int wanted, struct reject_prior prior);

/* Least n with that chance at least `chance` (a guard of 1e-12 lets equality count). wanted 1 to 2000; chance in (0,
 * 1). PIECES_MOST where that is not enough. */
int pieces_to_pipe(int wanted, double chance, struct reject_prior prior);

/* The prior with so many more good ones and rejects counted, its a + b brought down to practice.reject_weight_most where they are more,
 * with a to b kept: batches differ more than pieces do. */
struct reject_prior pieces_counted(const struct practice *practice, struct reject_prior prior, int good, int rejects);

/* Pieces as they are asked for, with what is known of them. */
struct pieces_known {
    struct pieces pieces; /* chance filled in; mass_g: the mean */
    double within_share,
        between_share; /* of the mass: standard deviations from piece to piece, and of the mean from batch to batch */
    int mass_batches;  /* of the maker's own that the mean is of; 0: mass_g as asked, and the spread of practice */
    struct reject_prior prior;
    int reject_batches; /* of the maker's own that are in the prior; 0: practice alone */
};

/* By practice alone. */
struct pieces_known pieces_by_practice(const struct practice *practice, const struct pieces *pieces);

/* Grams of batter for n pieces with that chance, bag and cup losses included; *bags may be NULL. 0 g and 0 bags where a bag would
 * hold no more than is lost in it.
 *
 * n m + z sqrt(n (within m)^2 + (n between m)^2), m being the mass. With a mean of B own batches the next one's is off by theirs too: between^2 by
 * (1 + 1/B), and z of Student's t with B - 1 degrees. */
double pieces_batter_g(const struct practice *practice, const struct pieces_known *known, int n, double chance,
                       int *bags);

/* Pieces that batter_g is expected to make after the losses of its bags and cup: whole ones, at least 0. One bag
 * more is opened only where it brings more than it loses. *bags may be NULL. */
int pieces_made(const struct practice *practice, const struct pieces *pieces, double batter_g, int *bags);

/* Grams of what is in bags that become pieces: less what stays in each and its first squeeze. One bag more is opened only
 * where it brings more than it loses. *bags may be NULL. */
double pieces_content_g(const struct practice *practice, double in_bags_g, int *bags);

/* Whether portions i and k are parts of one piece: a portion of its own, and all with pieces of the same named kind. */
bool pieces_same(const struct recipe *recipe, int i, int k);

/* What is lost in each bag: the first squeeze and what stays in it. */
double pieces_bag_loss_g(const struct practice *practice);

/* Chance asked by the recipe, or of practice; between 0.0001 and 0.9999, since no number of pieces makes it certain. */
double pieces_chance_wanted(const struct practice *practice, const struct pieces *pieces);

/* The pieces of portion i with what all portions of the same kind (same text, case apart; "" is no kind) ask
 * together: they are parts of one piece, so the largest count and chance, the flower's rejects if one is a flower,
 * first time if one is. Mass is the portion's own.
 *
 * Where LEARNED_LEAST own batches were weighed their mean is the mass, with its spread between them, and within where that is known;
 * where any were counted the rejects are theirs, those of the part with the most batches for all parts. */
struct pieces_known pieces_of_portion(const struct plan_input *in, int i);

/* The pieces that size the recipe, with what was learned of the portions of the same kind: their rejects, and the mass where one
 * portion is the whole piece. */
struct pieces_known pieces_of_size(const struct plan_input *in);

/* Grams of batter that portion i asks by DEMAND_PIECES: for the number that all parts of its piece share. */
double pieces_asked_g(const struct plan_input *in, int i);

/* plan->portion[].pieces, and the finding pieces-short: of a use that makes fewer than are to be piped, so that its
 * chance is under the chance asked; the missing grams are those with which it would make that number. Parts of one
 * piece share the number to pipe, the chance and the number of good ones expected, which are those of the part with
 * least batter. */
void pieces_plan(const struct plan_input *in, struct plan *plan);

#endif
