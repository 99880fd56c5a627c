/* shelf_members.c - facts rows as tables of members. Keys, names and what is computed from the reference are not among them. */
#include "store/shelf_members.h"

#include <string.h>

#define REAL(type, name)                        \
    {                                           \
#name, SHELF_REAL, offsetof(type, name) \
    }
#define BOOL(type, name)                        \
    {                                           \
#name, SHELF_BOOL, offsetof(type, name) \
    }
#define TEXT(type, name)                        \
    {                                           \
#name, SHELF_TEXT, offsetof(type, name) \
    }
#define INT(type, name)                        \
    {                                          \
#name, SHELF_INT, offsetof(type, name) \
    }
#define MEMBERS(array) array, sizeof(array) / sizeof *(array)

static const struct shelf_member oil[] = {
    TEXT(struct oil_fact, inci),         TEXT(struct oil_fact, inci_soap),
    REAL(struct oil_fact, sap_lo),       REAL(struct oil_fact, sap_hi),
    REAL(struct oil_fact, sap_nominal),  BOOL(struct oil_fact, has_iodine),
    REAL(struct oil_fact, iodine_lo),    REAL(struct oil_fact, iodine_hi),
    REAL(struct oil_fact, density_g_ml), REAL(struct oil_fact, density_temp_c),
    BOOL(struct oil_fact, has_melt),     REAL(struct oil_fact, melt_c),
    INT(struct oil_fact, kind),          BOOL(struct oil_fact, has_acids),
    TEXT(struct oil_fact, note),
};

static const struct shelf_member additive[] = {
    TEXT(struct additive_fact, inci),         TEXT(struct additive_fact, kind),
    REAL(struct additive_fact, active_share), REAL(struct additive_fact, molar_mass),
    REAL(struct additive_fact, equivalents),  REAL(struct additive_fact, density_g_ml),
    REAL(struct additive_fact, water_share),  REAL(struct additive_fact, fat_share),
    TEXT(struct additive_fact, fat_oil),      REAL(struct additive_fact, usual_lo),
    REAL(struct additive_fact, usual_hi),     TEXT(struct additive_fact, add_to),
    TEXT(struct additive_fact, effect),
};

static const struct shelf_member liquid[] = {
    TEXT(struct liquid_fact, inci),         REAL(struct liquid_fact, water_share),
    REAL(struct liquid_fact, fat_share),    REAL(struct liquid_fact, sugar_share),
    TEXT(struct liquid_fact, fat_oil),      REAL(struct liquid_fact, acid_mol_per_kg),
    REAL(struct liquid_fact, density_g_ml), TEXT(struct liquid_fact, note),
};

static const struct shelf_member colourant[] = {
    TEXT(struct colourant_fact, inci),
    TEXT(struct colourant_fact, ci_number),
    TEXT(struct colourant_fact, kind),
    INT(struct colourant_fact, behaviour),
    TEXT(struct colourant_fact, behaviour_note),
    REAL(struct colourant_fact, dose_lo),
    REAL(struct colourant_fact, dose_hi),
    TEXT(struct colourant_fact, dispersion),
    {"swatch_rgb", SHELF_UNSIGNED, offsetof(struct colourant_fact, swatch_rgb)},
    BOOL(struct colourant_fact, whitens),
    TEXT(struct colourant_fact, eu_status),
    TEXT(struct colourant_fact, us_status),
};

static const struct shelf_member fragrance[] = {
    TEXT(struct fragrance_fact, inci),        REAL(struct fragrance_fact, density_g_ml),
    INT(struct fragrance_fact, acceleration), TEXT(struct fragrance_fact, discolouration),
    REAL(struct fragrance_fact, usual_max),
};

static const struct shelf_row rows[] = {
    [FACT_OIL] = {"oil",
                  sizeof(struct oil_fact),
                  MEMBERS(oil),
                  {offsetof(struct oil_fact, sap_standing), offsetof(struct oil_fact, sap_source)}},
    [FACT_ADDITIVE] = {"additive",
                       sizeof(struct additive_fact),
                       MEMBERS(additive),
                       {offsetof(struct additive_fact, standing), offsetof(struct additive_fact, source)}},
    [FACT_LIQUID] = {"liquid",
                     sizeof(struct liquid_fact),
                     MEMBERS(liquid),
                     {offsetof(struct liquid_fact, standing), offsetof(struct liquid_fact, source)}},
    [FACT_COLOURANT] = {"colourant",
                        sizeof(struct colourant_fact),
                        MEMBERS(colourant),
                        {offsetof(struct colourant_fact, standing), offsetof(struct colourant_fact, source)}},
    [FACT_FRAGRANCE] = {"fragrance",
                        sizeof(struct fragrance_fact),
                        MEMBERS(fragrance),
                        {offsetof(struct fragrance_fact, standing), offsetof(struct fragrance_fact, source)}},
};

const struct shelf_row *shelf_row(enum fact_kind kind)
{
    return &rows[kind];
}

int shelf_kind_named(const char *word)
{
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (strcmp(rows[i].kind, word) == 0)
            return (int)i;
    return -1;
}

double shelf_number(const struct shelf_member *member, const void *row)
{
    const void *at = (const char *)row + member->offset;

    switch (member->form) {
    case SHELF_REAL:
        return *(const double *)at;
    case SHELF_INT:
        return *(const int *)at;
    case SHELF_UNSIGNED:
        return *(const unsigned *)at;
    case SHELF_BOOL:
        return *(const bool *)at;
    case SHELF_TEXT:
        break;
    }
    return 0;
}

void shelf_set_number(const struct shelf_member *member, void *row, double number)
{
    void *at = (char *)row + member->offset;

    switch (member->form) {
    case SHELF_REAL:
        *(double *)at = number;
        return;
    case SHELF_INT:
        *(int *)at = (int)number;
        return;
    case SHELF_UNSIGNED:
        *(unsigned *)at = (unsigned)number;
        return;
    case SHELF_BOOL:
        *(bool *)at = number != 0;
        return;
    case SHELF_TEXT:
        return;
    }
}
