/* limit.h - what limits the fragrance in a finished bar (calculations, section 9).
 *
 * Three figures can bind: the supplier's certificate of a fragrance, and for each constituent the figure of IFRA category 9 and
 * that of the EU. All are shares of the finished product. Each gives a scale: by how much the blend as a whole could be
 * multiplied until the figure is just met. The smallest scale binds.
 *
 * - Certificates in one portion count together: the sum of use over limit is at most 1.
 * - A certificate goes before the generic figures for its own fragrance: a constituent that only certified fragrances hold is
 *   not summed. As soon as a fragrance without a certificate holds it too, it is summed over all of them, at the high ends.
 * - A figure of 0 means not to be used: any presence is over.
 * - What has no figure is said to be unknown, never taken as unlimited.
 */
#ifndef CALC_LIMIT_H
#define CALC_LIMIT_H

#include "lyeway/plan.h"

/* Constituents that can be summed; one beyond them counts as unknown. */
enum { LIMIT_ROWS = 128 };

struct limit_found {
    enum limit_source from; /* LIMIT_NONE_KNOWN: nothing found, the rest is then 0 */
    int constituent;        /* in reference.limit; -1 for a certificate */
    int fragrance;          /* of the recipe: that of the certificate with the largest use over limit, else the one that
                                  brings most of the constituent */
    enum standing standing;
    double share; /* of the product: the constituent, or the certified fragrance */
    double scale;
};

struct limit_blend {
    struct limit_found binding; /* the smallest scale of all */
    struct limit_found firm;    /* the smallest of certificates and figures that were seen: going over it is a stop */
    bool unknown;               /* a fragrance used or a constituent summed has no figure here */
};

/* The limits of a product that is use[] of each of the recipe's fragrances. */
void limit_of_blend(const struct plan_input *in, const double use[RECIPE_FRAGRANCES], struct limit_blend *out);

/* plan->limit, plan->fragrance[].has_limit and limit_share, and the finding fragrance-limit.
 *
 * Every scented portion is looked at and the smallest scale counts: doses are rounded portion by portion, so that the one with
 * most fragrance need not be the one with most of a constituent. Over a firm figure is a stop; over a stricter one that is not
 * firm a caution, beside the stop if there is one. A limit that would let the blend be all of the product is not binding.
 * Without a binding limit plan->limit.scale is 1. */
void limit_plan(const struct plan_input *in, struct plan *plan);

#endif
