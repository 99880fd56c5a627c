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

/* Grams of batter for n pieces with the spread of practice and that chance, bag and cup losses included; *bags may
 * be NULL. 0 g and 0 bags where a bag would hold no more than is lost in it. */
double pieces_batter_g(const struct practice *practice, const struct pieces *pieces, int n, double chance, int *bags);

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
 * first time if one is. Mass is the portion's own. */
struct pieces pieces_of_portion(const struct practice *practice, const struct recipe *recipe, int i);

/* Grams of batter that portion i asks by DEMAND_PIECES: for the number that all parts of its piece share. */
double pieces_asked_g(const struct practice *practice, const struct recipe *recipe, int i);

/* plan->portion[].pieces, and the finding pieces-short: of a use that makes fewer than are to be piped, so that its
 * chance is under the chance asked; the missing grams are those with which it would make that number. Parts of one
 * piece share the number to pipe, the chance and the number of good ones expected, which are those of the part with
 * least batter. */
void pieces_plan(const struct plan_input *in, struct plan *plan);

#endif
