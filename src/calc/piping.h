/* piping.h - the rest of a piping: how many pieces are still in the bag, whether that is enough, and how long (calculations,
 * section 8, "live", and 11).
 */
#ifndef CALC_PIPING_H
#define CALC_PIPING_H

#include "lyeway/batch.h"

struct piping {
    int wanted, good, rejects, to_go; /* to_go: good ones still missing, at least 0 */
    double mass_g;                    /* of a piece: the batch's own mean where it can be told, else as planned */
    bool own_mass;
    double left_g;                 /* in the bags now: as last weighed less what was piped since, else as planned */
    int more;                      /* pieces that this makes, losses of the bag taken off */
    double enough;                 /* chance that the wanted number comes out good */
    struct quantiles workable_min; /* still from now; 0 past it */
    double need_min;               /* for those to go, by the batch's own rate where there is one */
    bool own_rate;
};

/* `now_s` UTC seconds; kind: index in batch->pieces. */
void piping_now(const struct plan_input *in, const struct plan *plan, const struct batch *batch, int kind,
                int64_t now_s, struct piping *piping);

/* What can be done where too few will come out, in this order; `gain` pieces each, 0: not possible now. */
struct piping_help {
    int scrape;       /* rejects that could go back into the bag while they still pipe */
    double smaller_g; /* mass a piece at which it is enough; 0: less than 3/4 of the planned mass would be needed */
    int smaller;      /* pieces more by that */
    int bars;         /* bars that the good ones dress, of those wanted: with `a bar` pieces each */
    double
        second_oils_g; /* oils of a second batter of the same recipe for what is missing, sized with the chance asked */
};
void piping_short(const struct plan_input *in, const struct plan *plan, const struct piping *piping, int kind,
                  int pieces_a_bar, struct piping_help *help);

/* Forecast of a portion from now on, given when it was combined and which stages were stamped when: the minutes from combining at
 * which it is workable from and until, put off or brought forward by what was stamped (a stage stamped says by how much the
 * batch is faster or slower than was predicted, on the log scale; the later stamp counts), never before what has been seen. */
void pace_stamped(const struct plan_input *in, const struct plan_portion *portion, const struct batch *batch,
                  int64_t now_s, struct quantiles *from_min, struct quantiles *until_min);

#endif
