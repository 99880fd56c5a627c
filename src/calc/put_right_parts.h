/* put_right_parts.h - what put_right.c's table is made of: how a batch stands, and the proposals with their amounts.
 *
 * Everything here is in terms of the balance 1 - s = (n - A) / D. `slack` to a superfat s is the alkali, in mol, that could
 * still go in until the batch has that superfat; below 0 there is too much. Every gram of a thing moves the slack by its
 * `worth`, so that each amount is one division.
 */
#ifndef CALC_PUT_RIGHT_PARTS_H
#define CALC_PUT_RIGHT_PARTS_H

#include "calc/margin.h"
#include "calc/put_right.h"

/* A batch as it stands, and the proposals so far. */
struct standing_batch {
    const struct put_right_input *input;
    struct plan now; /* charged */
    struct margin_balance balance;
    double least;  /* superfat of which no proposal stays short: as asked, or as planned where rounding left less */
    double fuller; /* as planned where rounding left more, else least: where uncertainty asks for more than was asked */
    double most;   /* above it the batch is too soft for the maker */
    bool before_combining;
    int remedies;
    struct remedy *remedy;
};

void put_right_stand(const struct put_right_input *input, struct remedy remedies[REMEDIES],
                     struct standing_batch *batch);

/* Not lye-heavy (batter and portions), and superfat less than a point below what it should be or its likely low end above 0. */
bool put_right_sound(const struct standing_batch *batch, const struct plan *plan);

/* All alkali dissolves in the water that there is; true once combined, where nothing can be done about it. */
bool put_right_dissolves(const struct standing_batch *batch, const struct plan *plan);

/* Mass that is in: as charged, else as planned; and as planned. 0 for what is not weighed. */
int64_t put_right_mass_ug(const struct standing_batch *batch, struct part_ref part);
int64_t put_right_planned_ug(const struct standing_batch *batch, struct part_ref part);

/* mol; mol per gram, below 0 for alkali. */
double put_right_slack(const struct margin_balance *balance, double superfat);
double put_right_worth(const struct standing_batch *batch, struct part_ref part, double superfat);

/* Adds its own proposals, none where there is nothing to do or where it would not help. */
typedef void put_right_proposer(struct standing_batch *batch);

put_right_proposer put_right_leave;      /* whatever the superfat, so long as the batch is sound and all is dissolved */
put_right_proposer put_right_set_aside;  /* where nothing else was proposed */
put_right_proposer put_right_take_out;   /* of what was weighed */
put_right_proposer put_right_add;        /* more of what was weighed: an oil, liquid, additive, water */
put_right_proposer put_right_add_alkali; /* dry, or its ready-made solution: before combining */
put_right_proposer put_right_add_alkali_over, put_right_add_lye_over; /* only above the maker's bound */
put_right_proposer put_right_pour_share;                              /* of the mixed lye */
put_right_proposer put_right_add_lye;                                 /* lye solution */
put_right_proposer put_right_add_the_oil; /* more of the oil that was weighed, into the whole batter */
put_right_proposer put_right_add_oils;    /* in recipe proportion, then the largest one and two alone */
put_right_proposer put_right_add_water;   /* so that all alkali dissolves */

#endif
