/* finding.h - what a maker should know about a plan: a code, a level, what it is about, and numbers.
 *
 * Calculation makes findings; words are made from them only when shown (work/words.h), in the maker's units.
 * The names of the codes are part of the exchange format and do not change.
 */
#ifndef LYEWAY_FINDING_H
#define LYEWAY_FINDING_H

#include <stdint.h>

enum finding_level { LEVEL_STOP, LEVEL_CAUTION, LEVEL_REMARK };

/* code, name, and the meaning of number[0], number[1], ... (masses in grams, shares as fractions). */
#define FINDING_CODES(X)                                                                                                    \
    X(LYE_HEAVY, "lye-heavy")             /* nominal superfat, chance of lye-heavy, likely lo, worst lo */                  \
    X(LYE_LIKELY, "lye-likely")           /* the same four */                                                               \
    X(LYE_WORST, "lye-worst")             /* the same four */                                                               \
    X(DIVISION_COARSE, "division-coarse") /* mass share of the variance, superfat asked, as rounded, alkali division g,     \
                                             less oils g, more oils g (0: none found), division that would do g */          \
    X(STRENGTH_OVER, "strength-over")     /* strength, soluble share at 20 C */                                             \
    X(STRENGTH_HIGH, "strength-high")     /* strength, threshold */                                                         \
    X(STRENGTH_LOW, "strength-low")       /* strength, threshold */                                                         \
    X(SOLUTION_WEAK, "solution-weak")     /* water asked g, water brought g, least strength reached; all of the water */    \
    X(SAP_UNIT, "sap-unit")               /* value given, as mg KOH/g if it is g KOH/g or mg..., if it is NaOH */           \
    X(SAP_NO_RANGE, "sap-no-range")       /* value, lo taken, hi taken */                                                   \
    X(SAP_FAR, "sap-far")                 /* value, published lo, published hi, share outside */                            \
    X(PORTIONS_OVER, "portions-over")     /* sum of the shares */                                                           \
    X(PORTIONS_SHORT, "portions-short")   /* missing g, oils that would do g, usable g, fixed demands g */                  \
    X(DOSE_SMALL, "dose-small")           /* dose g, division g, colourant to weigh g, carrier g, of which use g; 0 rounds */ \
    X(FRAGRANCE_LIMIT, "fragrance-limit") /* share in product, limit share, greatest load as share of scented oils;         \
                                             other: the constituent or fragrance that binds */                              \
    X(FRAGRANCE_FAST, "fragrance-fast")   /* colourants of the portion; other: the fragrance */                             \
    X(COLOUR_SHIFTS, "colour-shifts")     /* behaviour as enum alkaline_behaviour */                                        \
    X(RANCID_RISK, "rancid-risk")         /* linoleic + linolenic share, threshold */                                       \
    X(MOULD_OVER, "mould-over")           /* filled mL, mould mL, over mm of height (box) */                                \
    X(PIECES_SHORT, "pieces-short")       /* wanted, pieces the batter makes, chance, chance wanted, missing g */           \
    X(WINDOW_SHORT, "window-short")       /* need min, window min, from min, until min, own batches: the low end of until   \
                                             where there are, else its median */                                            \
    X(ON_HAND_SHORT, "on-hand-short")     /* needed g, on hand g */                                                         \
    X(HEAT_BOIL, "heat-boil")             /* reached C, boiling C, sugar share of oils (0: by heat) */                      \
    X(SCALE_SMALL, "scale-small")         /* mass g with vessel, capacity g */

enum finding_code {
#define X(code, name) FINDING_##code,
    FINDING_CODES(X)
#undef X
    FINDING_COUNT
};

/* What a finding is about. `index` counts in the recipe's list of that part, `sub` is the colourant of a portion. */
enum part {
    PART_BATTER, PART_OIL, PART_ALKALI, PART_WATER, PART_LIQUID, PART_ADDITIVE, PART_FRAGRANCE, PART_PORTION,
    PART_COLOURANT, PART_CONSTITUENT, PART_SIZE,
    PART_CARRIER /* oil that a colourant is dispersed in; only weighed, nothing is found about it */
};

struct part_ref {
    enum part part;
    int16_t index, sub;
};

enum { FINDING_NUMBERS = 7 };

struct finding {
    enum finding_code code;
    enum finding_level level;
    struct part_ref about, other;
    double number[FINDING_NUMBERS];
};

/* "lye-heavy" for FINDING_LYE_HEAVY. */
const char *finding_name(enum finding_code code);

/* "stop", "caution", "remark". */
const char *finding_level_name(enum finding_level level);

#endif
