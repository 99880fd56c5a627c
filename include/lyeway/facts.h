/* facts.h - reference facts about oils, additives, liquids, colourants, fragrances and lye, and how to find them.
 *
 * Rows are constants made at build time from schema/reference/, where every value has its source and standing.
 * A text that a row does not have is "", never NULL. Shares are fractions (0.05), never percents.
 */
#ifndef LYEWAY_FACTS_H
#define LYEWAY_FACTS_H

#include <stdbool.h>
#include <stddef.h>

/* How far a value can be trusted. Certificate goes before the maker's own, that before reference. */
enum standing {
    STANDING_CERTIFICATE, /* the supplier's paper for this lot */
    STANDING_OWN,         /* the maker's own */
    STANDING_SEEN,        /* read in a published source */
    STANDING_COMPUTED,    /* follows from values with a source */
    STANDING_PRACTICE,    /* common practice, no single source */
    STANDING_MEMORY       /* recalled, not looked up */
};

/* Fatty acids in the order of the Codex tables (CXS 210-1999), butyric before them. Key: "c4_0" ... "ricinoleic". */
enum acid {
    ACID_C4_0, ACID_C6_0, ACID_C8_0, ACID_C10_0, ACID_C12_0, ACID_C14_0, ACID_C16_0, ACID_C16_1, ACID_C17_0, ACID_C18_0,
    ACID_C18_1, ACID_C18_2, ACID_C18_3, ACID_C20_0, ACID_C20_1, ACID_C22_0, ACID_C22_1, ACID_C24_0, ACID_RICINOLEIC
};
enum { ACIDS = 19 };

struct acid_fact {
    const char *key, *name;
    double molar_mass;        /* g/mol, of the free acid */
    int double_bonds;
    bool hydroxy;
    double iodine_factor;     /* g I2 per g of its triglyceride (AOCS Cd 1c-85) */
    double sap_triglyceride;  /* mg KOH per g of its pure triglyceride */
    double sap_free;          /* mg KOH per g of the free acid */
    double oxidisability;     /* factor of Fatemi and Hammond 1980 */
    enum standing standing;
    const char *source;
};

enum oil_kind { OIL_LIQUID, OIL_BUTTER, OIL_FAT, OIL_WAX, OIL_ACID };

struct oil_fact {
    const char *key, *name, *inci, *inci_soap;
    double sap_lo, sap_hi, sap_nominal; /* mg KOH per g (ISO 3657); 0 < lo <= nominal <= hi */
    enum standing sap_standing;
    const char *sap_source;
    bool has_iodine;
    double iodine_lo, iodine_hi;        /* g I2 per 100 g, where has_iodine */
    double density_g_ml, density_temp_c; /* density 0: not known */
    bool has_melt;
    double melt_c;
    enum oil_kind kind;
    bool has_acids;
    double acid[ACIDS];                  /* typical shares of the acids, sum 1; all 0 without has_acids */
    double acid_lo[ACIDS], acid_hi[ACIDS];
    enum standing acid_standing;
    const char *acid_source;
    const char *note;
};

struct additive_fact {
    const char *key, *name, *inci, *kind; /* kind: acid, salt, sugar, clay, powder, ... */
    double active_share;                  /* mass share that is the named substance */
    double molar_mass;                    /* g/mol, 0: not known */
    double equivalents;                   /* mol of hydroxide taken up per mol of the substance */
    double density_g_ml;                  /* 0: not known */
    double water_share, fat_share;
    const char *fat_oil;                  /* key of the oil that the fat counts as */
    double usual_lo, usual_hi;            /* shares of the oils */
    const char *add_to, *effect;
    enum standing standing;
    const char *source;
};

struct liquid_fact {
    const char *key, *name, *inci;
    double water_share, fat_share, sugar_share;
    const char *fat_oil;
    double acid_mol_per_kg; /* mol of hydroxide taken up per kg of the liquid */
    double density_g_ml;
    const char *note;
    enum standing standing;
    const char *source;
};

enum alkaline_behaviour { ALKALI_STABLE, ALKALI_SHIFTS_RETURNS, ALKALI_SHIFTS, ALKALI_FADES, ALKALI_BLEEDS };

struct colourant_fact {
    const char *key, *name, *inci, *ci_number, *kind;
    enum alkaline_behaviour behaviour;
    const char *behaviour_note;
    double dose_lo, dose_hi; /* g per kg of oils; both 0: not suited to cold process */
    const char *dispersion;  /* oil|water|glycerin|lye solution */
    unsigned swatch_rgb;     /* 0xRRGGBB, cured, near the middle dose */
    unsigned fresh_rgb;      /* in fresh batter at high pH, as far as it differs from that for days; 0: it does not */
    bool whitens;            /* adds scattering, not absorption */
    const char *eu_status, *us_status;
    enum standing standing;
    const char *source;
};

enum acceleration { ACCELERATION_SLOWS, ACCELERATION_NONE, ACCELERATION_SOME, ACCELERATION_STRONG };

struct constituent {
    int limit;     /* index in reference.limit */
    double lo, hi; /* mass shares of the oil */
};

struct fragrance_fact {
    const char *key, *name, *inci;
    int allergen;                          /* index in reference.allergen if the whole oil must be named, else -1 */
    const struct constituent *constituent;
    size_t constituents;                   /* 0: composition not known, so nothing can be said of its limits */
    double density_g_ml;                   /* at 20 C, 0: not known */
    enum acceleration acceleration;
    const char *discolouration;
    double usual_max;                      /* share of the oils; common practice, not a limit */
    enum standing standing;
    const char *source;
};

/* One constituent of fragrances and what limits it in a rinse-off bar (IFRA category 9; EU Annex III). */
struct limit_fact {
    const char *key, *name, *inci;
    bool has_ifra, has_eu;
    double ifra_share, eu_share;           /* greatest share in the finished product; 0: not to be used */
    bool figure_unknown;                   /* restricted, but the figure is not known here */
    int allergen;                          /* index in reference.allergen, isomers share one; else -1 */
    enum standing ifra_standing, eu_standing;
    const char *note, *source;
};

struct allergen_fact {
    const char *key, *inci;
    double threshold_rinse_off;            /* must be named above this share of the product */
    const char *placed_until;              /* ISO date up to which a product without the name may be placed; "" in force */
    enum standing standing;
    const char *source;
};

/* A figure at a mass share and temperature, of the alkali `solute` (0 NaOH, 1 KOH). */
struct lye_point {
    int solute;
    double share, temp_c, value;
    enum standing standing;
};

/* Heat of dissolving one mole of alkali in `water_mol` moles of water at 25 C, J per mol, negative is given off. */
struct heat_point {
    int solute;
    double water_mol, heat_j_mol;
    enum standing standing;
};

struct unit_fact {
    const char *name, *symbol, *si_unit;
    double in_si; /* 0 where the conversion is not a factor; <signal.h> has a macro si_value */
    bool exact;
    enum standing standing;
    const char *source;
};

/* Figures of the craft that stand until the maker's own replace them: schema/reference/practice.tsv, one row a member,
 * each with its standing and source. Times in minutes, temperatures in C, masses in grams, the rest shares and factors. */
struct practice {
    double jug_residue_g, jug_residue_most_share; /* 8 g, at most this share of the batter */
    double cup_residue_g;                         /* left in each colour cup, on top of a counted portion */
    double bag_fill_g, bag_residue_g, first_squeeze_g;
    double piece_within_share, piece_between_share; /* spread of a piece's mass, of its mean */
    double reject_simple_a, reject_simple_b, reject_flower_a, reject_flower_b, reject_first_a, reject_first_b;
    double reject_weight_most;                    /* cap on a + b */
    double piece_chance;
    double simple_seconds, flower_seconds, bag_change_minutes;
    double colour_minutes;                        /* need of a swirled or layered portion, to colour and pour it */
    double sap_own_half_range;                    /* share either way for a value given without a range */
    double sap_far_share;                         /* outside the published range by more than this */
    double naoh_purity_lo, naoh_purity_nominal, naoh_purity_hi;
    double koh_purity_lo, koh_purity_nominal, koh_purity_hi;
    double oil_density_g_ml, oil_density_temp_c, oil_density_slope; /* g/mL per degree */
    double batter_temp_c;
    double naoh_soluble_share, koh_soluble_share; /* at 20 C */
    double strength_high, strength_low;
    double sugar_boil_share;                      /* sugar of the oils above which a batter may heat over */
    double water_in_bar, cure_loss_least;         /* of the bar; of the mass */
    double cure_least_days;                       /* from the cut */
    double cure_loss_a_day, cure_rate;            /* cured where the mass loses less than that share a day; share of the rest */
    double rancid_share;
    double pace_from_pour, pace_from_layer, pace_from_pipe;
    double pace_until_pour, pace_until_layer, pace_until_pipe;
    double pace_strength, pace_temp, pace_saturated, pace_some, pace_strong, pace_long_blend, pace_half_mass;
    double pace_factor_spread, pace_factor_least, pace_offset_spread; /* standard deviations of the logs */
    double pace_shape, pace_scale;                /* of the inverse gamma of the residual variance */
    double pace_ref_strength, pace_ref_temp_c, pace_ref_saturated, pace_ref_oils_g;
    /* When trace stages 1 to 7 are reached, as shares of the log time between pace_from_pour (0) and pace_until_pipe (1). */
    double stage_1, stage_2, stage_3, stage_4, stage_5, stage_6, stage_7;
    double stage_spread; /* standard deviation of the log time between two stages that lie a factor of e apart */
    double plain_red, plain_green, plain_blue;    /* of a cured bar without colourants, sRGB 0 to 255 */
};

struct reference {
    const struct acid_fact *acid; /* ACIDS of them, by enum acid */
    const struct limit_fact *limit;
    size_t limits;
    const struct allergen_fact *allergen;
    size_t allergens;
    const struct lye_point *density; /* g/mL; preferred rows only; by solute, temperature, share */
    size_t densities;
    const struct lye_point *heat_capacity; /* J/(g K); by solute, temperature, share */
    size_t heat_capacities;
    const struct lye_point *boiling; /* C at 101.325 kPa; by solute, share (temp_c unused) */
    size_t boilings;
    const struct heat_point *heat; /* by solute, rising water_mol */
    size_t heats;
    double solid_heat_capacity[2]; /* J/(g K) of solid NaOH, KOH */
    const struct practice *practice;
};

/* All of the tables that calculation reads; static, never freed. */
const struct reference *facts_reference(void);

/* Whole tables, for lists. *n is the number of rows. */
const struct oil_fact *facts_oils(size_t *n);
const struct additive_fact *facts_additives(size_t *n);
const struct liquid_fact *facts_liquids(size_t *n);
const struct colourant_fact *facts_colourants(size_t *n);
const struct fragrance_fact *facts_fragrances(size_t *n);
const struct unit_fact *facts_units(size_t *n);

/* The row with that key, name or synonym, in any case ("Canola" finds rapeseed-low-erucic); NULL if there is none. */
const struct oil_fact *facts_oil(const char *name);
const struct additive_fact *facts_additive(const char *name);
const struct liquid_fact *facts_liquid(const char *name);
const struct colourant_fact *facts_colourant(const char *name);
const struct fragrance_fact *facts_fragrance(const char *name);
const struct unit_fact *facts_unit(const char *symbol);

/* Standing and source of a member of struct practice by its name ("cup_residue_g"); false if there is none. */
bool facts_practice_source(const char *member, enum standing *standing, const char **source);

enum fact_kind { FACT_OIL, FACT_ADDITIVE, FACT_LIQUID, FACT_COLOURANT, FACT_FRAGRANCE };

/* Calls visit once for each key, name and synonym of a kind, with the key it leads to. For pickers and near names. */
void facts_each_name(enum fact_kind kind, void (*visit)(void *context, const char *name, const char *key), void *context);

#endif
