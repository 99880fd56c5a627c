/* margin.h - superfat of a mixture of weighed things as an interval (calculations, section 3).
 *
 * With n moles of alkali, A moles of acid and D moles of hydroxide demand of the fat, s = 1 - (n - A) / D. The inputs
 * that are not known exactly are the saponification values, the purities of the alkalis, each mass within half a
 * division, and the accuracy of each scale, one input shared by all that is weighed on it.
 *
 * worst   the exact extremes over all inputs within their ranges; no mass below 0.
 * likely  mean and two standard uncertainties of the first-order combination of the inputs as independent rectangular
 *         distributions, after JCGM 100:2008 (GUM), clauses 4.3.7 and 5.1.2; centred on s at the middle of every
 *         range, and clipped to worst.
 *
 * Of the variance, the accuracy of a scale is put down to the weighing on it that moves s by most.
 *
 * A superfat beyond MARGIN_MOST either way is reported as MARGIN_MOST: it is no longer a figure to act on. A mixture
 * without fat has none at all and no interval: -MARGIN_MOST where there is alkali in excess of the acids, else
 * MARGIN_MOST.
 */
#ifndef CALC_MARGIN_H
#define CALC_MARGIN_H

#include "lyeway/plan.h"

#define MARGIN_MOST 10.0

enum { MARGIN_LINES = 192, MARGIN_EXACT = -1, MARGIN_NO_FAT = -1 };

/* A saponification value that one or more lines share. */
struct margin_sap {
    const struct oil_fact *fact; /* with its range, what tells one oil from another; may be NULL */
    const char *name;            /* instead, where fact is NULL */
    struct ranged value;         /* mg KOH per g */
    struct part_ref part;
};

/* One thing in the mixture: `grams` of it, `counts` the share of them that is in the mixture. */
struct margin_line {
    struct part_ref part;
    double grams, counts;
    double half_g;       /* half a division of its scale; 0: exact */
    int scale;           /* index in plan.scale, or MARGIN_EXACT */
    double fat_share;    /* of its mass, with the value sap[fat] */
    int fat;             /* index in margin_mixture.sap, or MARGIN_NO_FAT */
    double acid_mol_g;   /* hydroxide taken up by its acid, mol per g */
    double alkali_share; /* of its mass as weighed, of `alkali` with its purity */
    enum alkali alkali;
};

struct margin_mixture {
    int lines, saps, scales;
    struct margin_line line[MARGIN_LINES];
    struct margin_sap sap[MARGIN_LINES];
    struct ranged purity[ALKALIS];
    double accuracy_g[RECIPE_SCALES]; /* by index in plan.scale */
};

/* An empty mixture on the plan's scales and purities. */
void margin_begin(const struct plan *plan, struct margin_mixture *mixture);

/* Index of that value in the mixture, put there if it is new: the same oil with the same range is one input. */
int margin_sap(struct margin_mixture *mixture, struct margin_sap sap);

/* Adds a line; lines beyond MARGIN_LINES cannot come from a recipe and are left out. */
void margin_add(struct margin_mixture *mixture, const struct margin_line *line);

/* n - A and D at the nominal values, mol. */
struct margin_balance {
    double excess_mol, demand_mol;
};
struct margin_balance margin_balance(const struct margin_mixture *mixture);

/* Fills *margin. */
void margin_reckon(const struct margin_mixture *mixture, struct margin *margin);

#endif
