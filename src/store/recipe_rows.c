/* recipe_rows.c - members in the order of the columns in sql.c; words as the CHECKs of schema/001.sql have them. */
#include "store/recipe_rows.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof(array)[0]))
#define WORDS(array)        \
    {                       \
        COUNT(array), array \
    }
#define TEXT(type, name)                                                   \
    {                                                                      \
        MEMBER_TEXT, offsetof(type, name), sizeof(((type *)0)->name), NULL \
    }
#define REAL(type, name)                           \
    {                                              \
        MEMBER_REAL, offsetof(type, name), 0, NULL \
    }
#define INT(type, name)                           \
    {                                             \
        MEMBER_INT, offsetof(type, name), 0, NULL \
    }
#define UINT32(type, name)                           \
    {                                                \
        MEMBER_UINT32, offsetof(type, name), 0, NULL \
    }
#define INT64(type, name)                           \
    {                                               \
        MEMBER_INT64, offsetof(type, name), 0, NULL \
    }
#define BOOL(type, name)                           \
    {                                              \
        MEMBER_BOOL, offsetof(type, name), 0, NULL \
    }
#define WORD(type, name, words)                        \
    {                                                  \
        MEMBER_WORD, offsetof(type, name), 0, &(words) \
    }

static const char *const purpose[] = {"skin", "shaving", "cleaning", "liquid"};
static const char *const oils_by[] = {"share", "grams"};
static const char *const size_by[] = {"as grams", "oils", "batter", "mould", "pieces"};
static const char *const mould_shape[] = {"box", "cylinder", "volume", "cavities"};
static const char *const piece_class[] = {"simple", "flower"};
static const char *const water_by[] = {"strength", "ratio", "of oils"};
static const char *const put_in[] = {"portions", "batter"};
static const char *const residue_by[] = {"practice", "grams", "share"};
static const char *const additive_by[] = {"of oils", "grams"};
static const char *const fragrance_by[] = {"of oils", "of batter", "per kg oils"};
static const char *const colour_by[] = {"per kg oils", "grams", "of portion", "parts"};
static const char *const demand[] = {"share", "grams", "layer", "rest", "pieces"};
static const char *const technique[] = {"pour", "swirl", "layer", "pipe", "mould"};

static const struct member_words purposes = WORDS(purpose);
static const struct member_words oils_bys = WORDS(oils_by);
static const struct member_words size_bys = WORDS(size_by);
static const struct member_words mould_shapes = WORDS(mould_shape);
static const struct member_words piece_classes = WORDS(piece_class);
static const struct member_words water_bys = WORDS(water_by);
static const struct member_words put_ins = WORDS(put_in);
static const struct member_words residue_bys = WORDS(residue_by);
static const struct member_words additive_bys = WORDS(additive_by);
static const struct member_words fragrance_bys = WORDS(fragrance_by);
static const struct member_words colour_bys = WORDS(colour_by);
static const struct member_words demands = WORDS(demand);
static const struct member_words techniques = WORDS(technique);

static const struct member head[] = {
    TEXT(struct recipe_head, name),
    WORD(struct recipe_head, purpose, purposes),
    WORD(struct recipe_head, oils_by, oils_bys),
    REAL(struct recipe_head, superfat),
    WORD(struct recipe_head, size.by, size_bys),
    REAL(struct recipe_head, size.grams),
    BOOL(struct recipe_head, size.has_mould),
    WORD(struct recipe_head, size.mould.shape, mould_shapes),
    REAL(struct recipe_head, size.mould.length_mm),
    REAL(struct recipe_head, size.mould.width_mm),
    REAL(struct recipe_head, size.mould.height_mm),
    REAL(struct recipe_head, size.mould.diameter_mm),
    REAL(struct recipe_head, size.mould.volume_ml),
    INT(struct recipe_head, size.mould.cavities),
    REAL(struct recipe_head, size.mould.fill),
    TEXT(struct recipe_head, size.pieces.kind),
    INT(struct recipe_head, size.pieces.count),
    REAL(struct recipe_head, size.pieces.mass_g),
    REAL(struct recipe_head, size.pieces.chance),
    WORD(struct recipe_head, size.pieces.class, piece_classes),
    BOOL(struct recipe_head, size.pieces.first_time),
    REAL(struct recipe_head, alkali.potassium_share),
    BOOL(struct recipe_head, alkali.purity[ALKALI_NAOH].given),
    REAL(struct recipe_head, alkali.purity[ALKALI_NAOH].lo),
    REAL(struct recipe_head, alkali.purity[ALKALI_NAOH].nominal),
    REAL(struct recipe_head, alkali.purity[ALKALI_NAOH].hi),
    BOOL(struct recipe_head, alkali.purity[ALKALI_KOH].given),
    REAL(struct recipe_head, alkali.purity[ALKALI_KOH].lo),
    REAL(struct recipe_head, alkali.purity[ALKALI_KOH].nominal),
    REAL(struct recipe_head, alkali.purity[ALKALI_KOH].hi),
    REAL(struct recipe_head, alkali.solution_share[ALKALI_NAOH]),
    REAL(struct recipe_head, alkali.solution_share[ALKALI_KOH]),
    WORD(struct recipe_head, water_by, water_bys),
    REAL(struct recipe_head, water_value),
    REAL(struct recipe_head, water_temp_c),
    WORD(struct recipe_head, scent, put_ins),
    WORD(struct recipe_head, colour, put_ins),
    WORD(struct recipe_head, residue_by, residue_bys),
    REAL(struct recipe_head, residue),
    UINT32(struct recipe_head, hushed),
};

static const struct member oil[] = {
    UINT32(struct recipe_oil, id),      TEXT(struct recipe_oil, name),   REAL(struct recipe_oil, amount),
    BOOL(struct recipe_oil, sap.given), REAL(struct recipe_oil, sap.lo), REAL(struct recipe_oil, sap.nominal),
    REAL(struct recipe_oil, sap.hi),
};

static const struct member liquid[] = {
    UINT32(struct recipe_liquid, id),
    TEXT(struct recipe_liquid, name),
    REAL(struct recipe_liquid, share_of_water),
};

static const struct member additive[] = {
    UINT32(struct recipe_additive, id),
    TEXT(struct recipe_additive, name),
    WORD(struct recipe_additive, by, additive_bys),
    REAL(struct recipe_additive, value),
};

static const struct member fragrance[] = {
    UINT32(struct recipe_fragrance, id),
    TEXT(struct recipe_fragrance, name),
    WORD(struct recipe_fragrance, by, fragrance_bys),
    REAL(struct recipe_fragrance, value),
    BOOL(struct recipe_fragrance, has_limit),
    REAL(struct recipe_fragrance, limit_share),
    TEXT(struct recipe_fragrance, limit_from),
};

static const struct member portion[] = {
    UINT32(struct recipe_portion, id),
    TEXT(struct recipe_portion, name),
    WORD(struct recipe_portion, demand, demands),
    REAL(struct recipe_portion, amount),
    BOOL(struct recipe_portion, has_pieces),
    TEXT(struct recipe_portion, pieces.kind),
    INT(struct recipe_portion, pieces.count),
    REAL(struct recipe_portion, pieces.mass_g),
    REAL(struct recipe_portion, pieces.chance),
    WORD(struct recipe_portion, pieces.class, piece_classes),
    BOOL(struct recipe_portion, pieces.first_time),
    BOOL(struct recipe_portion, scented),
    WORD(struct recipe_portion, technique, techniques),
    WORD(struct recipe_portion, blend_by, colour_bys),
    REAL(struct recipe_portion, blend_value),
};

static const struct member colourant[] = {
    UINT32(struct recipe_colourant, id),
    TEXT(struct recipe_colourant, name),
    WORD(struct recipe_colourant, by, colour_bys),
    REAL(struct recipe_colourant, value),
    TEXT(struct recipe_colourant, carrier_oil),
    REAL(struct recipe_colourant, carrier_ratio),
    BOOL(struct recipe_colourant, carrier_reserved),
};

static const struct member scale[] = {
    TEXT(struct scale, name),         INT64(struct scale, division_ug), INT64(struct scale, capacity_ug),
    INT64(struct scale, accuracy_ug), INT64(struct scale, vessel_ug),
};

#define LIST(counter, list, type, most, table, NAME)                                                                \
    {                                                                                                               \
        offsetof(struct recipe, counter), offsetof(struct recipe, list), sizeof(type), most, {table, COUNT(table)}, \
            SQL_##NAME##_SELECT, SQL_##NAME##_COUNT, SQL_##NAME##_INSERT, SQL_##NAME##_UPDATE, SQL_##NAME##_DELETE, \
            SQL_##NAME##_SHIFT                                                                                      \
    }

/* clang-format off */
static const struct recipe_list lists[CHANGE_PARTS] = {
    [CHANGE_OIL]       = LIST(oils, oil, struct recipe_oil, RECIPE_OILS, oil, OIL),
    [CHANGE_LIQUID]    = LIST(water.liquids, water.liquid, struct recipe_liquid, RECIPE_LIQUIDS, liquid, LIQUID),
    [CHANGE_ADDITIVE]  = LIST(additives, additive, struct recipe_additive, RECIPE_ADDITIVES, additive, ADDITIVE),
    [CHANGE_FRAGRANCE] = LIST(fragrances, fragrance, struct recipe_fragrance, RECIPE_FRAGRANCES, fragrance, FRAGRANCE),
    [CHANGE_PORTION]   = LIST(portions, portion, struct recipe_portion, RECIPE_PORTIONS, portion, PORTION),
    [CHANGE_SCALE]     = LIST(scales, scale, struct scale, RECIPE_SCALES, scale, SCALE),
};
/* clang-format on */

static const struct members head_members = {head, COUNT(head)};
static const struct members colourant_members = {colourant, COUNT(colourant)};

const struct recipe_list *recipe_list(enum change_part part)
{
    return &lists[part];
}

const struct members *recipe_head_members(void)
{
    return &head_members;
}

const struct members *recipe_colourant_members(void)
{
    return &colourant_members;
}
