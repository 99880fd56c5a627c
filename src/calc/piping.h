/* piping.h - the rest of a piping: how many pieces are still in the bag, whether that is enough, and how long (calculations,
 * sections 8, "live", and 11).
 *
 * Portions of one kind are parts of one piece and are piped together: the counter counts whole pieces, and what is
 * weighed is what is left of one part, the one with least batter. That is the part whose batter, as it was poured or as the others left it
 * in the jug, makes the fewest pieces; of equal ones the heavier in the piece, then the earlier. The other parts count as planned. The whole
 * pieces still to come are those of the part that then makes the fewest.
 *
 * Mass a piece is the batch's own for the part that was weighed: its batter as poured, less what stays in the cup, the first squeeze
 * and what stays in bags emptied, less what was left, over the pieces made by then. It can be told from three pieces on, when those
 * losses of practice are at most a fourth of what became pieces, and when it is within three times of the planned mass
 * either way (else the scale or the count was wrong); until then it is the planned mass. What was measured of this batch to be left in
 * the jug, a bag or a cup (batch.h) stands in place of what was foreseen: the jug's is charged to the portion that takes the rest of it and
 * is not weighed. Which part is weighed was settled while it was piped, by what was foreseen then.
 *
 * Rejects ~ Beta(a, b) of the kind, by practice or as learned from the maker's batches, updated by this batch's own counts
 * (pieces_counted). One that was scraped back is no reject and no piece (batch.h): its batter makes others, and the time that it took
 * is theirs. The planned mass and what stays in a bag are those learned, too, where there are (pieces.h, own.h).
 */
#ifndef CALC_PIPING_H
#define CALC_PIPING_H

#include "lyeway/batch.h"

struct piping {
    int wanted, good, to_go; /* to_go: good ones still missing, at least 0 */
    int rejects;             /* that were not scraped back */
    int portion;             /* the part that makes the fewest: index in plan.portion; the next three are of it */
    double mass_g;           /* of it in a piece: the batch's own mean where it can be told, else as planned */
    bool own_mass;
    double left_g;                 /* in its bags now: as last looked at less what was piped since, else as planned */
    int more;                      /* pieces still to come, losses of the bags taken off */
    double reject_a, reject_b;     /* of the Beta, updated */
    double enough;                 /* chance that the wanted number comes out good */
    double enough_asked;           /* the chance asked for */
    struct quantiles workable_min; /* still from now, the part that stiffens first; 0 past it */
    double need_min; /* until those to go are good: by the batch's own rate where there is one, with its rejects, and
                                      a change for each further bag */
    bool own_rate;
};

/* The portion of which the rest is to be weighed; kind: index in batch->pieces. */
int piping_part(const struct plan_input *in, const struct plan *plan, const struct batch *batch, int kind);

/* What is known of the losses of this batch: practice, as learned (own.h), with the batch's own bag and cup where they were measured. */
struct practice piping_practice(const struct plan_input *in, const struct batch *batch);

/* Bags emptied once left_g are left of filled_g (what was put into bags, first squeeze included): bags are filled one after the other and
 * emptied one after the other, so that as many are as whole fills are gone; the last one never. */
int piping_emptied(const struct practice *practice, double filled_g, double left_g);

/* How the batch's own mass a piece comes about: (filled - cup - squeeze - emptied - left) / made = each. */
struct piping_terms {
    int portion;     /* the part that piping_part names */
    double filled_g; /* in its bowl with the colour, as poured or as the others and the residue left it in the jug */
    bool weighed;    /* that rests on weighings alone, none of it on what was foreseen */
    double cup_g, squeeze_g;
    double emptied_g; /* lost with `emptied` bags: what stays in them, and the first squeeze of the next */
    int emptied;
    double left_g;
    int made; /* when that was left */
    double each_g;
};

/* False where it cannot be told; `terms` is then not to be read. */
bool piping_own(const struct plan_input *in, const struct plan *plan, const struct batch *batch, int kind,
                struct piping_terms *terms);

/* `now_s` UTC seconds. The rate is the batch's own from four pieces on, between the first and the last counted. */
void piping_now(const struct plan_input *in, const struct plan *plan, const struct batch *batch, int kind,
                int64_t now_s, struct piping *piping);

/* What can be done where too few will come out, in this order; 0 each: not possible now, or not needed. */
struct piping_help {
    int missing; /* pieces that it is short of if all that are still to come are good; may be 0 where the chance is too small */
    int scrape; /* rejects that could go back into the bag: only up to trace stage 5, and not after lifting */
    double
        smaller_g; /* mass of that part in a piece from now on, after scraping: with it as many come out as the chance asked wants,
                         or, where that would be under 3/4 of the planned mass, as many as are missing; never under 3/4 */
    int smaller;   /* pieces more by that */
    double enough; /* the chance once both are done */
    int bars;      /* without either: bars that the good ones and those still to come dress, `pieces_a_bar` each */
    double
        second_oils_g; /* without either: oils of a second batter of the same recipe for what will be missing with the rejects to
                             be expected, sized with the chance asked */
};

/* All 0 but `enough` where the chance is as asked. pieces_a_bar 0: they dress none. */
void piping_short(const struct plan_input *in, const struct plan *plan, const struct batch *batch, int kind,
                  const struct piping *piping, int pieces_a_bar, struct piping_help *help);

#endif
