/* limit_sample.h - limits and allergens for the tests of fragrance. They stand here and not in the program's tables, so that a
 * check does not move when a row is corrected.
 *
 * Seen: methyl eugenol (IFRA Amendment 49) and methyl salicylate (Regulation (EU) 2022/1531). Computed from a sensitisation
 * level: citral, geraniol. The rest is from memory.
 */
#ifndef TESTS_LIMIT_SAMPLE_H
#define TESTS_LIMIT_SAMPLE_H

#include "lyeway/facts.h"

/* clang-format off */

/* What limits constituents in IFRA category 9 and in the EU, and the allergen each is named as. */
enum {
    SAMPLE_LINALOOL, SAMPLE_LINALYL_ACETATE, SAMPLE_LIMONENE, SAMPLE_CAMPHOR, SAMPLE_TERPINEOL, SAMPLE_GERANIOL,
    SAMPLE_COUMARIN, SAMPLE_CITRAL, SAMPLE_EUGENOL, SAMPLE_ALPHA_PINENE, SAMPLE_BETA_PINENE, SAMPLE_LAVANDULA,
    SAMPLE_CITRONELLOL, SAMPLE_ISOEUGENOL, SAMPLE_METHYL_EUGENOL, SAMPLE_SAFROLE, SAMPLE_METHYL_SALICYLATE, SAMPLE_BALSAM,
    SAMPLE_BANNED, SAMPLE_LIMITS
};
#define IFRA(share, standing) .has_ifra = true, .ifra_share = (share), .ifra_standing = STANDING_##standing
#define EU(share, standing) .has_eu = true, .eu_share = (share), .eu_standing = STANDING_##standing
static const struct limit_fact sample_limit[SAMPLE_LIMITS] = {
    [SAMPLE_LINALOOL] = {.allergen = 0},
    [SAMPLE_LINALYL_ACETATE] = {.allergen = 1},
    [SAMPLE_LIMONENE] = {.allergen = 2},
    [SAMPLE_CAMPHOR] = {.allergen = 3},
    [SAMPLE_TERPINEOL] = {.allergen = 4},
    [SAMPLE_GERANIOL] = {.allergen = 5, IFRA(0.092, COMPUTED)},
    [SAMPLE_COUMARIN] = {.allergen = 6, IFRA(0.029, MEMORY)},
    [SAMPLE_CITRAL] = {.allergen = 7, IFRA(0.012, COMPUTED)},
    [SAMPLE_EUGENOL] = {.allergen = 8, IFRA(0.049, MEMORY)},
    [SAMPLE_ALPHA_PINENE] = {.allergen = 9},
    [SAMPLE_BETA_PINENE] = {.allergen = 9},
    [SAMPLE_CITRONELLOL] = {.allergen = 11, IFRA(0.24, MEMORY)},
    [SAMPLE_ISOEUGENOL] = {.allergen = -1, IFRA(0.0021, MEMORY), EU(0.0002, MEMORY)},
    [SAMPLE_METHYL_EUGENOL] = {.allergen = -1, IFRA(8.7e-06, SEEN), EU(1e-05, SEEN)},
    [SAMPLE_SAFROLE] = {.allergen = -1, IFRA(0.0001, MEMORY), EU(0.0001, MEMORY)},
    [SAMPLE_METHYL_SALICYLATE] = {.allergen = -1, EU(0.0006, SEEN)},
    [SAMPLE_BALSAM] = {.allergen = -1, EU(0.004, MEMORY), .figure_unknown = true},
    [SAMPLE_BANNED] = {.allergen = -1, IFRA(0.0, MEMORY), EU(0.0, MEMORY)},
    [SAMPLE_LAVANDULA] = {.allergen = 10},
};

/* Regulation (EC) 1223/2009, Annex III, rinse-off threshold. By the numbers of sample_limit[].allergen. */
enum { SAMPLE_ALLERGENS = 12 };
static const struct allergen_fact sample_allergen[SAMPLE_ALLERGENS] = {
    {.inci = "Linalool", .threshold_rinse_off = 0.0001},
    {.inci = "Linalyl Acetate", .threshold_rinse_off = 0.0001},
    {.inci = "Limonene", .threshold_rinse_off = 0.0001},
    {.inci = "Camphor", .threshold_rinse_off = 0.0001},
    {.inci = "Terpineol", .threshold_rinse_off = 0.0001},
    {.inci = "Geraniol", .threshold_rinse_off = 0.0001},
    {.inci = "Coumarin", .threshold_rinse_off = 0.0001},
    {.inci = "Citral", .threshold_rinse_off = 0.0001},
    {.inci = "Eugenol", .threshold_rinse_off = 0.0001},
    {.inci = "Pinene", .threshold_rinse_off = 0.0001},
    {.inci = "Lavandula Oil/Extract", .threshold_rinse_off = 0.0001},
    {.inci = "Citronellol", .threshold_rinse_off = 0.0001},
};

/* clang-format on */

#endif
