/* put_right.h - what can still be done about a wrong weighing (calculations, section 4), taking out before adding.
 *
 * A remedy is a proposal with its amount and what the margin becomes; nothing is done by these functions. Never proposed,
 * whatever the masses: dry alkali once combined; lye solution once split or past thin trace; anything for a batch that is
 * lye-heavy once split but to set it aside.
 */
#ifndef CALC_PUT_RIGHT_H
#define CALC_PUT_RIGHT_H

#include "lyeway/batch.h"

enum remedy_kind {
    REMEDY_LEAVE,      /* go on as it is, with the superfat that it now has */
    REMEDY_TAKE_OUT,   /* mass_ug of `what` out of where it was put: still alone there */
    REMEDY_ADD,        /* mass_ug of `what`: more of an ingredient, dry alkali into lye or cup, water before use */
    REMEDY_POUR_SHARE, /* of the mixed lye pour only mass_ug: share `share` of it */
    REMEDY_ADD_OILS,   /* oils in recipe proportion: oil_ug[], rounded up */
    REMEDY_ADD_OIL,    /* one oil: `what`, mass_ug, rounded up */
    REMEDY_ADD_LYE, /* lye solution of the batch's own strength: mass_ug of it, rounded down; alkali_ug and water_ug in it */
    REMEDY_SET_ASIDE /* not to be used; rebatch as a new batch */
};

struct remedy {
    enum remedy_kind kind;
    struct part_ref what;
    int64_t mass_ug;
    double share;
    int64_t oil_ug[RECIPE_OILS];
    int64_t alkali_ug, water_ug;
    struct charges charges; /* as they are once it is done */
    struct margin margin;   /* then */
    double strength;        /* of the lye then: alkali over alkali and all water */
    int64_t batter_ug;      /* then */
    double batter_ml;       /* then; with plan.mould_ml says whether the mould still holds it */
    bool mould_over;        /* the mould does not hold it */
    bool pieces_short;      /* some kind of pieces no longer comes out with the chance asked */
};

enum { REMEDIES = 12 };

struct put_right_input {
    const struct plan_input *in;
    const struct plan *plan;       /* as planned */
    const struct charges *charges; /* so far; what was not weighed yet counts as planned */
    enum batch_phase phase;
    bool alone
        [4]; /* what is still alone and can be taken out: [0] alkali in its cup and [2] the water (PHASE_APART), [1] the
                      oil in question in the jug (before combining), [3] the liquid or additive in question (before the split) */
    struct part_ref what; /* whose weighing was off; PART_BATTER: not known */
    double superfat_most; /* the maker's upper bound, share: put_right_most; where the plan is above it, that counts */
};

/* Superfat above which a batch is too soft for the maker: the setting, or where it is 0 five points above what the recipe asks. */
double put_right_most(double setting, const struct recipe *recipe);

/* Proposals, best first; returns how many, 1 to REMEDIES; the first may be the only one. Where nothing is wrong it is "leave".
 *
 * "Leave" is first where superfat is not above the maker's bound, and falls short of what was asked (or planned, where
 * rounding left less) by under one point or has its likely low end above 0, in the batter and every portion, and nothing
 * is lye-heavy; but not before combining where the lye is over its solubility: then water goes in first. A batch that
 * is not so sound is never left: where no amount helps it is set aside. Above the bound it is left only where the table
 * says so, after what would help.
 *
 * Alkali goes out or in until superfat is as asked with all else as it is. Oil that is missing is made up to what was
 * planned, or more where superfat wants it. Where the scales are so coarse that the superfat asked would be called
 * lye-heavy, amounts come to the superfat planned. A proposal with which the batch would not be sound is not made.
 * Taking out rounds up for alkali and down for all else; what is added rounds up, alkali and lye down. */
int put_right(const struct put_right_input *input, struct remedy remedies[REMEDIES]);

/* What a reading that is far off most likely is. */
enum slip_kind {
    SLIP_NONE,        /* within tolerance, or nothing fits */
    SLIP_NOT_TARED,   /* reading = vessel + target */
    SLIP_OUNCES,      /* the target's number of ounces in grams, or the other way */
    SLIP_OTHER_BATCH, /* the target of another batch that is running */
    SLIP_TWICE,       /* the same thing twice */
    SLIP_FORGOTTEN,   /* jug: one ingredient is missing; `what`, PART_BATTER where several fit */
    SLIP_EXTRA,       /* jug: one ingredient is in it twice; `what`, PART_BATTER where several fit */
    SLIP_PLAIN_WATER, /* jug: water where lye should be */
    SLIP_WRONG_ALKALI /* the mass that the other hydroxide would need */
};
struct slip {
    enum slip_kind kind;
    struct part_ref what; /* SLIP_FORGOTTEN, SLIP_EXTRA */
    int batch;            /* SLIP_OTHER_BATCH: index in other_ug */
};

/* A weighing: target and what was read, without the vessel; vessel_ug 0 where it is not known; other_target_ug: targets of the other
 * batches on the bench for the same kind of thing; tolerance_ug within which nothing is wrong. `alkali`: what is weighed
 * is the alkali of the recipe.
 *
 * Named is only what the reading meets within the tolerance (twice that for the same thing twice; half a percent for ounces
 * and the other alkali), what lies more than four times as far from the target, and what alone does so: where two kinds
 * of slip fit, SLIP_NONE. Of several batches that fit the first. Potassium hydroxide is taken as pure or 90 %. */
struct slip put_right_slip(int64_t target_ug, int64_t read_ug, int64_t vessel_ug, int64_t tolerance_ug, bool alkali,
                           enum alkali which, const int64_t other_target_ug[], int others);

/* The full jug without its vessel: what is in it by its weighings (charged_jug) and what it weighs.
 *
 * Within the tolerance of charged_jug and half a percent for what stays in cups and goes off as steam (memory) nothing is
 * wrong; what is named explains the difference within the same, and weighs more than twice as much. SLIP_NOT_TARED by the
 * vessel of the first step that names a jug. */
struct slip put_right_jug(const struct plan_input *in, const struct plan *plan, const struct batch *batch, bool lye,
                          int64_t read_ug);

#endif
