/* recipe.h - a recipe as a plain value: how to make one batch at any size.
 *
 * No pointers: a recipe is copied, compared and undone as a value. Names refer to facts or to the maker's shelf; work
 * resolves them into struct recipe_facts (plan.h). Shares are fractions, masses grams as given, scales micrograms.
 * `id` of an element is unique within its list and stays with it through reordering; 0 is not used.
 * The reader of the exchange format and the screens keep every value within the ranges named in schema/exchange.schema.json.
 */
#ifndef LYEWAY_RECIPE_H
#define LYEWAY_RECIPE_H

#include <stdbool.h>
#include <stdint.h>

enum {
    RECIPE_OILS = 32,
    RECIPE_ADDITIVES = 16,
    RECIPE_LIQUIDS = 4,
    RECIPE_FRAGRANCES = 8,
    RECIPE_PORTIONS = 16,
    PORTION_COLOURANTS = 8,
    RECIPE_SCALES = 8,
    LW_NAME_BYTES = 96,   /* with the closing NUL */
    LW_NOTE_BYTES = 4096,
    LW_UUID_BYTES = 16
};

enum alkali { ALKALI_NAOH, ALKALI_KOH };
enum { ALKALIS = 2 };

enum purpose { PURPOSE_SKIN, PURPOSE_SHAVING, PURPOSE_CLEANING, PURPOSE_LIQUID };
enum technique { TECHNIQUE_POUR, TECHNIQUE_SWIRL, TECHNIQUE_LAYER, TECHNIQUE_PIPE, TECHNIQUE_MOULD };
enum piece_class { PIECE_SIMPLE, PIECE_FLOWER };

/* A number that is known within limits: lo <= nominal <= hi. `given` false: not stated, practice applies. */
struct ranged {
    bool given;
    double lo, nominal, hi;
};

struct recipe_oil {
    uint32_t id;
    char name[LW_NAME_BYTES];
    double amount;        /* share of the oils, or grams: recipe.oils_by */
    struct ranged sap;    /* the maker's or certificate's, mg KOH per g; lo == hi == 0 where no range was given with it */
};

enum oils_by { OILS_BY_SHARE, OILS_BY_GRAMS };

enum mould_shape { MOULD_BOX, MOULD_CYLINDER, MOULD_VOLUME, MOULD_CAVITIES };

struct mould {
    enum mould_shape shape;
    double length_mm, width_mm, height_mm; /* box */
    double diameter_mm;                    /* cylinder, with height_mm */
    double volume_ml;                      /* volume; of one cavity */
    int cavities;
    double fill;                           /* share of the volume to fill, 1 if not given */
};

struct pieces {
    char kind[LW_NAME_BYTES]; /* "" where not named */
    int count;                /* good pieces wanted, 1 to 2000 */
    double mass_g;            /* of this portion in one piece */
    double chance;            /* asked; 0: practice */
    enum piece_class class;
    bool first_time;
};

enum size_by { SIZE_AS_GRAMS, SIZE_OILS, SIZE_BATTER, SIZE_MOULD, SIZE_PIECES };

struct recipe_size {
    enum size_by by;      /* SIZE_AS_GRAMS: the oils as entered, only with OILS_BY_GRAMS */
    double grams;         /* oils or batter */
    struct mould mould;   /* also kept while another way of sizing is used, for layers and whether it fits */
    bool has_mould;
    struct pieces pieces;
};

struct recipe_alkali {
    double potassium_share;         /* by moles, 0 to 1 */
    struct ranged purity[ALKALIS];  /* mass shares */
    double solution_share[ALKALIS]; /* strength of ready-made lye; 0: dry alkali is weighed */
};

enum water_by { WATER_STRENGTH, WATER_RATIO, WATER_OF_OILS };

struct recipe_liquid {
    uint32_t id;
    char name[LW_NAME_BYTES];
    double share_of_water; /* of the whole water that it supplies */
};

struct recipe_water {
    enum water_by by;
    double value;  /* share alkali in lye; water per alkali by mass; share of the oils */
    double temp_c; /* of the water when alkali goes in */
    int liquids;
    struct recipe_liquid liquid[RECIPE_LIQUIDS];
};

enum additive_by { ADDITIVE_OF_OILS, ADDITIVE_GRAMS };

struct recipe_additive {
    uint32_t id;
    char name[LW_NAME_BYTES];
    enum additive_by by;
    double value; /* share of the oils, or grams */
};

enum fragrance_by { FRAGRANCE_OF_OILS, FRAGRANCE_OF_BATTER, FRAGRANCE_PER_KG_OILS };

struct recipe_fragrance {
    uint32_t id;
    char name[LW_NAME_BYTES];
    enum fragrance_by by;
    double value;       /* share of the scented oils, share of their batter before fragrance, or g per kg of those oils */
    bool has_limit;
    double limit_share; /* of the finished product, from the certificate named in limit_from */
    char limit_from[LW_NAME_BYTES];
};

enum colour_by { COLOUR_PER_KG_OILS, COLOUR_GRAMS, COLOUR_OF_PORTION, COLOUR_PARTS };

struct recipe_colourant {
    uint32_t id;
    char name[LW_NAME_BYTES];
    enum colour_by by;
    double value;                      /* g per kg of the portion's oils, grams, share of the portion, or parts of its blend */
    char carrier_oil[LW_NAME_BYTES];   /* "" without a carrier */
    double carrier_ratio;              /* grams of carrier per gram of colourant */
    bool carrier_reserved;             /* taken from the recipe's oils instead of added to them */
};

enum demand { DEMAND_SHARE, DEMAND_GRAMS, DEMAND_LAYER, DEMAND_REST, DEMAND_PIECES };

struct recipe_portion {
    uint32_t id;
    char name[LW_NAME_BYTES];
    enum demand demand;
    double amount;       /* share of the usable batter, grams, or mm of layer */
    bool has_pieces;     /* always with DEMAND_PIECES; else its use */
    struct pieces pieces;
    bool scented;
    enum technique technique;
    int colourants;
    struct recipe_colourant colourant[PORTION_COLOURANTS];
    enum colour_by blend_by; /* dose of the blend that COLOUR_PARTS share; never COLOUR_PARTS itself */
    double blend_value;
};

struct scale {
    char name[LW_NAME_BYTES];
    int64_t division_ug, capacity_ug, accuracy_ug;
    int64_t vessel_ug; /* the usual vessel that stands on it while weighing */
};

/* Where fragrance and colourants go: into portions after the split, or into the whole batter before it. With
 * PUT_IN_BATTER the fragrance reaches every portion, and colourants named under any portion are dosed on the whole. */
enum put_in { PUT_IN_PORTIONS, PUT_IN_BATTER };

enum residue_by { RESIDUE_PRACTICE, RESIDUE_GRAMS, RESIDUE_SHARE };

struct recipe {
    uint8_t uuid[LW_UUID_BYTES]; /* all 0: none */
    int revision;                /* 0: none */
    char name[LW_NAME_BYTES];
    char note[LW_NOTE_BYTES];
    enum purpose purpose;
    enum oils_by oils_by;
    int oils;
    struct recipe_oil oil[RECIPE_OILS];
    struct recipe_size size;
    double superfat;
    struct recipe_alkali alkali;
    struct recipe_water water;
    int additives;
    struct recipe_additive additive[RECIPE_ADDITIVES];
    enum put_in scent, colour;
    int fragrances;
    struct recipe_fragrance fragrance[RECIPE_FRAGRANCES];
    enum residue_by residue_by;
    double residue;              /* grams or share of the batter */
    int scales;                  /* 0: the bench's, or where there are none one of 1 g and 5000 g */
    struct scale scale[RECIPE_SCALES];
    int portions;                /* 0: one unscented portion, the rest */
    struct recipe_portion portion[RECIPE_PORTIONS];
    uint32_t hushed;             /* bit (1u << code) of remarks not to show, by enum finding_code */
};

#endif
