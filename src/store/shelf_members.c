/* shelf_members.c - the tables: one row a member of the structs in facts.h. */
#include "store/shelf_members.h"

#include <string.h>

#include "store/shelf.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof(array)[0]))

static const char *const oil_kind[] = {"liquid", "butter", "fat", "wax", "acid"};
static const char *const behaviour[] = {"stable", "shifts-returns", "shifts", "fades", "bleeds"};
static const char *const acceleration[] = {"slows", "none", "some", "strong"};

static const struct member_words oil_kinds = {COUNT(oil_kind), oil_kind};
static const struct member_words behaviours = {COUNT(behaviour), behaviour};
static const struct member_words accelerations = {COUNT(acceleration), acceleration};

/* clang-format off */
#define OIL(name, form, origin, carries) {#name, form, offsetof(struct oil_fact, name), NULL, origin, carries}
static const struct shelf_member oil[] = {
    OIL(inci,           SHELF_TEXT, -1, false),
    OIL(inci_soap,      SHELF_TEXT, -1, false),
    OIL(sap_lo,         SHELF_REAL,  0, true),
    OIL(sap_hi,         SHELF_REAL,  0, true),
    OIL(sap_nominal,    SHELF_REAL,  0, true),
    OIL(has_iodine,     SHELF_BOOL, -1, false),
    OIL(iodine_lo,      SHELF_REAL, -1, false),
    OIL(iodine_hi,      SHELF_REAL, -1, false),
    OIL(density_g_ml,   SHELF_REAL, -1, false),
    OIL(density_temp_c, SHELF_REAL, -1, false),
    OIL(has_melt,       SHELF_BOOL, -1, false),
    OIL(melt_c,         SHELF_REAL, -1, false),
    {"kind", SHELF_WORD, offsetof(struct oil_fact, kind), &oil_kinds, -1, false},
    OIL(has_acids,      SHELF_BOOL,  1, true),
    OIL(note,           SHELF_TEXT, -1, false),
};

#define ADDITIVE(name, form, carries) {#name, form, offsetof(struct additive_fact, name), NULL, 0, carries}
static const struct shelf_member additive[] = {
    ADDITIVE(inci,         SHELF_TEXT, false),
    ADDITIVE(kind,         SHELF_TEXT, false),
    ADDITIVE(active_share, SHELF_REAL, true),
    ADDITIVE(molar_mass,   SHELF_REAL, false),
    ADDITIVE(equivalents,  SHELF_REAL, false),
    ADDITIVE(density_g_ml, SHELF_REAL, false),
    ADDITIVE(water_share,  SHELF_REAL, false),
    ADDITIVE(fat_share,    SHELF_REAL, false),
    ADDITIVE(fat_oil,      SHELF_TEXT, false),
    ADDITIVE(usual_lo,     SHELF_REAL, false),
    ADDITIVE(usual_hi,     SHELF_REAL, false),
    ADDITIVE(add_to,       SHELF_TEXT, false),
    ADDITIVE(effect,       SHELF_TEXT, false),
};

#define LIQUID(name, form, carries) {#name, form, offsetof(struct liquid_fact, name), NULL, 0, carries}
static const struct shelf_member liquid[] = {
    LIQUID(inci,            SHELF_TEXT, false),
    LIQUID(water_share,     SHELF_REAL, true),
    LIQUID(fat_share,       SHELF_REAL, false),
    LIQUID(sugar_share,     SHELF_REAL, false),
    LIQUID(fat_oil,         SHELF_TEXT, false),
    LIQUID(acid_mol_per_kg, SHELF_REAL, false),
    LIQUID(density_g_ml,    SHELF_REAL, false),
    LIQUID(note,            SHELF_TEXT, false),
};

#define COLOURANT(name, form) {#name, form, offsetof(struct colourant_fact, name), NULL, 0, false}
static const struct shelf_member colourant[] = {
    COLOURANT(inci,           SHELF_TEXT),
    COLOURANT(ci_number,      SHELF_TEXT),
    COLOURANT(kind,           SHELF_TEXT),
    {"behaviour", SHELF_WORD, offsetof(struct colourant_fact, behaviour), &behaviours, 0, true},
    COLOURANT(behaviour_note, SHELF_TEXT),
    COLOURANT(dose_lo,        SHELF_REAL),
    COLOURANT(dose_hi,        SHELF_REAL),
    COLOURANT(dispersion,     SHELF_TEXT),
    COLOURANT(swatch_rgb,     SHELF_INT),
    COLOURANT(fresh_rgb,      SHELF_INT),
    COLOURANT(whitens,        SHELF_BOOL),
    COLOURANT(eu_status,      SHELF_TEXT),
    COLOURANT(us_status,      SHELF_TEXT),
};

#define FRAGRANCE(name, form) {#name, form, offsetof(struct fragrance_fact, name), NULL, 0, false}
static const struct shelf_member fragrance[] = {
    FRAGRANCE(inci,           SHELF_TEXT),
    FRAGRANCE(density_g_ml,   SHELF_REAL),
    {"acceleration", SHELF_WORD, offsetof(struct fragrance_fact, acceleration), &accelerations, 0, true},
    FRAGRANCE(discolouration, SHELF_TEXT),
    FRAGRANCE(usual_max,      SHELF_REAL),
};

#define KIND(list, type, counter) \
    #list, sizeof(type), offsetof(type, key), offsetof(type, name), offsetof(struct shelf, counter), \
    offsetof(struct shelf, list), offsetof(struct shelf, offered.counter), list, COUNT(list)
#define ORIGIN(type, prefix) {offsetof(type, prefix##standing), offsetof(type, prefix##source)}

static const struct shelf_kind kinds[SHELF_KINDS] = {
    [FACT_OIL]       = {KIND(oil, struct oil_fact, oils), 2,
                        {ORIGIN(struct oil_fact, sap_), ORIGIN(struct oil_fact, acid_)}},
    [FACT_ADDITIVE]  = {KIND(additive, struct additive_fact, additives), 1, {ORIGIN(struct additive_fact, )}},
    [FACT_LIQUID]    = {KIND(liquid, struct liquid_fact, liquids), 1, {ORIGIN(struct liquid_fact, )}},
    [FACT_COLOURANT] = {KIND(colourant, struct colourant_fact, colourants), 1, {ORIGIN(struct colourant_fact, )}},
    [FACT_FRAGRANCE] = {KIND(fragrance, struct fragrance_fact, fragrances), 1, {ORIGIN(struct fragrance_fact, )}},
};

static const char *const acid[ACIDS] = {
    [ACID_C4_0] = "c4_0",   [ACID_C6_0] = "c6_0",   [ACID_C8_0] = "c8_0",   [ACID_C10_0] = "c10_0", [ACID_C12_0] = "c12_0",
    [ACID_C14_0] = "c14_0", [ACID_C16_0] = "c16_0", [ACID_C16_1] = "c16_1", [ACID_C17_0] = "c17_0", [ACID_C18_0] = "c18_0",
    [ACID_C18_1] = "c18_1", [ACID_C18_2] = "c18_2", [ACID_C18_3] = "c18_3", [ACID_C20_0] = "c20_0", [ACID_C20_1] = "c20_1",
    [ACID_C22_0] = "c22_0", [ACID_C22_1] = "c22_1", [ACID_C24_0] = "c24_0", [ACID_RICINOLEIC] = "ricinoleic",
};
/* clang-format on */

const struct shelf_kind *shelf_kind(enum fact_kind kind)
{
    return &kinds[kind];
}

const struct shelf_member *shelf_member(const struct shelf_kind *kind, const char *name)
{
    for (int i = 0; i < kind->members; i++)
        if (strcmp(kind->member[i].name, name) == 0)
            return &kind->member[i];
    return NULL;
}

const char *shelf_acid_key(enum acid which)
{
    return acid[which];
}

const char *shelf_acid_prefix(int figure)
{
    static const char *const prefix[SHELF_ACID_FIGURES] = {"acid:", "acid_lo:", "acid_hi:"};

    return prefix[figure];
}

double *shelf_acid(struct oil_fact *fact, int figure)
{
    return figure == 0 ? fact->acid : figure == 1 ? fact->acid_lo : fact->acid_hi;
}
