/* plan.h - everything that follows from a recipe at its size, as a plain value, and the one call that finds it.
 *
 * Masses to weigh are whole micrograms and whole divisions of a scale; the rest is grams, millilitres, degrees Celsius,
 * minutes and shares. A plan has no text: names are in the recipe, words are made when shown.
 */
#ifndef LYEWAY_PLAN_H
#define LYEWAY_PLAN_H

#include <stdbool.h>
#include <stdint.h>

#include "lyeway/facts.h"
#include "lyeway/finding.h"
#include "lyeway/learned.h"
#include "lyeway/recipe.h"

/* The facts that a recipe's names stand for, resolved by work; rows are borrowed and must outlive the call.
 * NULL only for an oil that has its own saponification value and for parts that have no such row. */
struct recipe_facts {
    const struct oil_fact *oil[RECIPE_OILS];
    const struct additive_fact *additive[RECIPE_ADDITIVES];
    const struct oil_fact *additive_fat[RECIPE_ADDITIVES];
    const struct liquid_fact *liquid[RECIPE_LIQUIDS];
    const struct oil_fact *liquid_fat[RECIPE_LIQUIDS];
    const struct fragrance_fact *fragrance[RECIPE_FRAGRANCES];
    const struct colourant_fact *colourant[RECIPE_PORTIONS][PORTION_COLOURANTS];
    const struct oil_fact *carrier[RECIPE_PORTIONS][PORTION_COLOURANTS];
};

/* What the maker's own records and settings replace of common practice; plan_bench_common() is practice alone. */
struct bench {
    double air_share;    /* of the batter's volume that is air */
    double density_g_ml; /* measured; 0: computed */
    double combine_temp_c;
    bool long_blend;
    bool scale_accuracy_known; /* false: accuracy of the recipe's scales as given (0 in a file) */
    struct learned learned;    /* all 0: practice alone */
};
struct bench plan_bench_common(void);

struct plan_input {
    const struct recipe *recipe;
    const struct recipe_facts *facts;
    const struct reference *reference;
    const struct bench *bench;
};

struct interval {
    double lo, hi;
};

/* One thing put on a scale. All 0 where there is nothing to weigh. */
struct weighing {
    double exact_g;
    int64_t rounded_ug;
    int64_t division_ug;
    int scale; /* index in plan.scale */
    int64_t half_ug; /* by which rounded_ug may be off from the reading alone; 0: half a division, as one weighing is */
};

enum margin_cause { CAUSE_NONE, CAUSE_SAP, CAUSE_PURITY, CAUSE_SCALE };

/* Superfat as an interval (shares). */
struct margin {
    double nominal;  /* from rounded masses at the nominal values */
    double mean, sd; /* of the likely distribution */
    struct interval likely, worst;
    double chance_lye_heavy;
    enum margin_cause mostly_from; /* the input with the largest share of the variance */
    struct part_ref mostly;        /* PART_OIL for its saponification value; PART_ALKALI; what is weighed */
    double mostly_share;
    double mass_share; /* of the variance that comes from weighings */
};

struct plan_alkali {
    struct weighing alkali;   /* as weighed, impurity included; the alkali in it where ready-made lye is used */
    struct weighing solution; /* of ready-made lye; division 0: dry alkali */
    double moles;             /* of pure alkali in the rounded mass at nominal purity */
};

struct plan_water {
    struct weighing water;             /* plain water to weigh */
    double total_g;                    /* all water that was asked for, exact */
    double strength, strength_rounded; /* alkali over alkali and water; from exact and from rounded masses */
    double ratio, of_oils;
};

struct plan_liquid {
    struct weighing liquid;
    double water_g, fat_g, acid_mol;
};
struct plan_additive {
    struct weighing additive;
    double water_g, fat_g, acid_mol;
};

struct plan_colourant {
    struct weighing colourant;
    struct weighing carrier; /* division 0: none */
};

/* A hint of how a portion looks, 0xRRGGBB in sRGB. */
struct plan_colour {
    bool known;         /* false: it has a colourant that has no usual dose in soap */
    unsigned fresh_rgb; /* on the bench, in fresh batter; differs where a colourant shifts for a while in high pH */
    unsigned cured_rgb;
};

struct plan_pieces {
    int wanted, to_pipe;
    double chance; /* that wanted are good; for a use, from what its batter makes */
    double expected_good;
    double made; /* pieces the batter is expected to make; to_pipe for DEMAND_PIECES */
    double mass_g;
    int bags;
    int mass_batches, reject_batches; /* of the maker's own that the mass and the rejects are from; 0: not from any */
};

struct quantiles {
    double median, low, high;
}; /* low to high hold 8 times in 10 */

struct plan_pace {
    struct quantiles from, until; /* minutes from combining */
    double need;
    int batches; /* of the maker's own that speak; 0: common practice only */
};

struct plan_portion {
    int source;        /* index in recipe.portion; -1: implied (the one of a recipe without, or "leftover") */
    int64_t batter_ug; /* with the oil kept back for its carriers */
    int64_t kept_ug;   /* that oil: batter_ug less this is poured from the jug */
    int64_t division_ug;
    double filled_g; /* with fragrance and colourants */
    double volume_ml;
    double oils_g;   /* in it, by its share of the batter; without carrier oil on top */
    double layer_mm; /* 0 unless the mould is a box */
    struct weighing fragrance[RECIPE_FRAGRANCES];
    int64_t fragrance_ug;
    double cured_g;       /* filled less the expected cure loss, for shares in the product */
    struct margin margin; /* with the carrier oil of its colourants */
    struct plan_colourant colourant[PORTION_COLOURANTS];
    struct plan_colour colour;
    bool has_pieces;
    struct plan_pieces pieces;
    enum technique technique;
    struct plan_pace pace;
};

enum limit_source { LIMIT_NONE_KNOWN, LIMIT_NOT_BINDING, LIMIT_CERTIFICATE, LIMIT_IFRA, LIMIT_EU };

struct plan_fragrance {
    int64_t rounded_ug;      /* over all portions */
    double share_of_product; /* in the worst scented portion */
    bool has_limit;
    double limit_share; /* its own share when the whole blend is scaled to the binding limit */
};

struct plan_limit {
    enum limit_source from;
    int constituent; /* index in reference.limit, LIMIT_IFRA and LIMIT_EU */
    int fragrance;   /* index in recipe.fragrance, LIMIT_CERTIFICATE: the largest use over limit */
    enum standing standing;
    double scale; /* by which the whole blend could be multiplied to meet the limit; under 1: over it */
    bool unknown; /* some fragrance or constituent has no figure here */
};

struct plan_allergen {
    int allergen;
    double share;
}; /* index in reference.allergen; of the worst scented portion */

enum { PLAN_PORTIONS = RECIPE_PORTIONS + 1, PLAN_ALLERGENS = 96, PLAN_FINDINGS = 64 };

struct plan_acids {
    double share[ACIDS]; /* of all oils */
    double unknown;
    double saturated, monounsaturated, polyunsaturated, hydroxy;
    double iodine_value, oxidisability;
};

struct plan_heat {
    bool has; /* false: ready-made lye, nothing to dissolve */
    double up_to_c, boils_at_c;
    bool capped, estimate; /* estimate: potassium hydroxide, no published table */
};

struct plan {
    int scales;
    struct scale scale[RECIPE_SCALES]; /* those used, after the defaults */
    struct weighing oil[RECIPE_OILS];
    double oil_share[RECIPE_OILS];
    int64_t oil_kept_ug[RECIPE_OILS]; /* of oil[], held out of the jug for carriers */
    int64_t kept_ug;                  /* their sum */
    double oils_exact_g;
    int64_t oils_ug;
    struct ranged sap[RECIPE_OILS]; /* used: mg KOH per g */
    struct ranged purity[ALKALIS];  /* used: mass shares */
    double demand_mol, acid_mol;    /* hydroxide for the oils and by acids, exact */
    struct plan_alkali alkali[ALKALIS];
    struct plan_water water;
    struct plan_liquid liquid[RECIPE_LIQUIDS];
    struct plan_additive additive[RECIPE_ADDITIVES];
    struct margin margin;                                /* of the whole batter */
    struct weighing batter_fragrance[RECIPE_FRAGRANCES]; /* only with PUT_IN_BATTER */
    int64_t batter_ug;
    double density_g_ml, batter_ml;
    int64_t residue_ug; /* left in the jug: asked for and by rounding the split */
    bool split_valid;   /* false on portions-over and portions-short: portions are as asked */
    int portions;       /* the recipe's in its order, then an implied one */
    struct plan_portion portion[PLAN_PORTIONS];
    struct plan_fragrance fragrance[RECIPE_FRAGRANCES];
    struct plan_limit limit;
    int worst_portion; /* with the largest share of fragrance; -1: none is scented */
    int allergens;
    struct plan_allergen allergen[PLAN_ALLERGENS];
    struct plan_acids acids;
    struct plan_heat heat;
    double mould_ml, filled_ml; /* 0 without a mould */
    int findings;               /* worst level first, then in the order of the plan */
    struct finding finding[PLAN_FINDINGS];
};

/* Fills *plan from the recipe, its facts, the reference tables and the bench. No allocation, no text, no I/O; whatever the
 * recipe's values, the call ends and every number in the plan is finite. What is wrong with the recipe is a finding. */
void plan_compute(const struct plan_input *in, struct plan *plan);

/* Whether keeping oil back for carriers leaves every portion of a computed plan half of the superfat asked for, or no less
 * than the whole batter has; where it does not, keeping it back is not offered (calculations, section 6). */
bool plan_reserve_fits(const struct plan_input *in, const struct plan *plan);

/* Adds one; beyond PLAN_FINDINGS a remark is dropped before a caution and a caution before a stop. */
void plan_find(struct plan *plan, const struct finding *finding);

/* The worst level found and how many there are of each; false where there is none. */
bool plan_worst(const struct plan *plan, enum finding_level *worst, int count[3]);

#endif
