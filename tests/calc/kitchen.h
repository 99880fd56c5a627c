/* kitchen.h - a recipe with its facts and bench, ready to be planned as far as its lye and superfat, for the tests
 * of calc.
 *
 * Facts stand here and not in the program's tables, so that a check does not move when a row is corrected.
 * Saponification values: olive CXS 33-1981, coconut, palm and sunflower CXS 210-1999, Table 2 of each (the olive row
 * from memory); castor of the pharmacopoeias, memory. Milk, vinegar and the figures of practice: common practice.
 * Molar masses: CIAAW.
 */
#ifndef TESTS_KITCHEN_H
#define TESTS_KITCHEN_H

#include <string.h>

#include "base/mass.h"
#include "calc/lye.h"
#include "calc/scales.h"
#include "calc/size.h"
#include "calc/superfat.h"
#include "lyeway/plan.h"
#include "near.h"

static const struct oil_fact OLIVE = {.key = "olive", .sap_lo = 184, .sap_nominal = 190, .sap_hi = 196};
static const struct oil_fact COCONUT = {.key = "coconut", .sap_lo = 248, .sap_nominal = 255, .sap_hi = 265};
static const struct oil_fact PALM_HYBRID = {.key = "palm-high-oleic", .sap_lo = 189, .sap_nominal = 194, .sap_hi = 199};
static const struct oil_fact CASTOR = {.key = "castor", .sap_lo = 176, .sap_nominal = 181.5, .sap_hi = 187};
static const struct oil_fact JOJOBA = {.key = "jojoba", .sap_lo = 92, .sap_nominal = 95, .sap_hi = 105};

static const struct additive_fact CITRIC = {
    .key = "citric-acid", .active_share = 1, .molar_mass = 192.123, .equivalents = 3};
static const struct additive_fact CITRIC_MONOHYDRATE = {
    .key = "citric-acid-monohydrate", .active_share = 1, .molar_mass = 210.138, .equivalents = 3};
static const struct additive_fact LACTIC = {
    .key = "lactic-acid", .active_share = 0.8, .molar_mass = 90.078, .equivalents = 1, .water_share = 0.2};
static const struct additive_fact BICARBONATE = {
    .key = "sodium-bicarbonate", .active_share = 1, .molar_mass = 84.006, .equivalents = 1};
static const struct additive_fact LACTATE = {
    .key = "sodium-lactate-60", .active_share = 0.6, .molar_mass = 112.06, .water_share = 0.4};
static const struct additive_fact MILK_POWDER = {.key = "milk-powder", .active_share = 1, .fat_share = 0.28};

static const struct liquid_fact COCONUT_MILK = {
    .key = "coconut-milk", .water_share = 0.72, .fat_share = 0.21, .sugar_share = 0.033, .acid_mol_per_kg = 0.01};
static const struct liquid_fact VINEGAR = {.key = "vinegar-5", .water_share = 0.95, .acid_mol_per_kg = 50 / 60.052};

static const struct practice PRACTICE = {
    .jug_residue_g = 8,
    .jug_residue_most_share = 0.05,
    .cup_residue_g = 4,
    .bag_fill_g = 175,
    .bag_residue_g = 12,
    .first_squeeze_g = 3,
    .piece_within_share = 0.15,
    .piece_between_share = 0.05,
    .reject_simple_a = 2,
    .reject_simple_b = 24,
    .reject_flower_a = 3,
    .reject_flower_b = 22,
    .reject_first_a = 4,
    .reject_first_b = 16,
    .reject_weight_most = 60,
    .piece_chance = 0.9,
    .sap_own_half_range = 0.01,
    .sap_far_share = 0.05,
    .naoh_purity_lo = 0.985,
    .naoh_purity_nominal = 1,
    .naoh_purity_hi = 1,
    .koh_purity_lo = 0.85,
    .koh_purity_nominal = 0.9,
    .koh_purity_hi = 0.95,
    .oil_density_g_ml = 0.91,
    .oil_density_temp_c = 20,
    .oil_density_slope = -0.00068,
    .batter_temp_c = 35,
    .naoh_soluble_share = 0.522,
    .koh_soluble_share = 0.528,
    .strength_high = 0.40,
    .strength_low = 0.25,
    .sugar_boil_share = 0.01,
};

/* Lye of two strengths at one temperature: enough for a density. */
static const struct lye_point LYE_DENSITY[] = {
    {.solute = 0, .share = 0.2, .temp_c = 20, .value = 1.219},
    {.solute = 0, .share = 0.5, .temp_c = 20, .value = 1.525},
    {.solute = 0, .share = 0.2, .temp_c = 40, .value = 1.208},
    {.solute = 0, .share = 0.5, .temp_c = 40, .value = 1.511},
    {.solute = 0, .share = 0.2, .temp_c = 60, .value = 1.196},
    {.solute = 0, .share = 0.5, .temp_c = 60, .value = 1.497},
    {.solute = 1, .share = 0.2, .temp_c = 20, .value = 1.186},
    {.solute = 1, .share = 0.5, .temp_c = 20, .value = 1.511},
    {.solute = 1, .share = 0.2, .temp_c = 40, .value = 1.176},
    {.solute = 1, .share = 0.5, .temp_c = 40, .value = 1.500},
    {.solute = 1, .share = 0.2, .temp_c = 60, .value = 1.165},
    {.solute = 1, .share = 0.5, .temp_c = 60, .value = 1.489},
};

static const struct reference REFERENCE = {
    .practice = &PRACTICE, .density = LYE_DENSITY, .densities = sizeof LYE_DENSITY / sizeof LYE_DENSITY[0]};

struct kitchen {
    struct recipe recipe;
    struct recipe_facts facts;
    struct bench bench;
    struct plan_input in;
    struct plan plan;
};

/* An empty recipe in grams at 33 % strength and 5 % superfat; its alkali is pure and exact. There is one kitchen: a
 * new one clears the last. */
static inline struct kitchen *kitchen_new(void)
{
    static struct kitchen k;

    memset(&k, 0, sizeof k);
    k.bench = plan_bench_common();
    k.in = (struct plan_input){&k.recipe, &k.facts, &REFERENCE, &k.bench};
    k.recipe.oils_by = OILS_BY_GRAMS;
    k.recipe.superfat = 0.05;
    k.recipe.alkali.purity[ALKALI_NAOH] = (struct ranged){true, 1, 1, 1};
    k.recipe.alkali.purity[ALKALI_KOH] = (struct ranged){true, 1, 1, 1};
    k.recipe.water.by = WATER_STRENGTH;
    k.recipe.water.value = 0.33;
    return &k;
}

static inline void kitchen_oil(struct kitchen *k, const struct oil_fact *fact, double amount)
{
    k->facts.oil[k->recipe.oils] = fact;
    k->recipe.oil[k->recipe.oils++] = (struct recipe_oil){.amount = amount};
}

/* An oil known only by the maker's value; hi 0: without a range. */
static inline void kitchen_own(struct kitchen *k, const char *name, double amount, double lo, double sap, double hi)
{
    struct recipe_oil *oil = &k->recipe.oil[k->recipe.oils++];

    *oil = (struct recipe_oil){.amount = amount, .sap = {true, lo, sap, hi}};
    strncpy(oil->name, name, sizeof oil->name - 1);
}

static inline void kitchen_additive(struct kitchen *k, const struct additive_fact *fact, double grams)
{
    k->facts.additive[k->recipe.additives] = fact;
    k->recipe.additive[k->recipe.additives++] = (struct recipe_additive){.by = ADDITIVE_GRAMS, .value = grams};
}

static inline void kitchen_liquid(struct kitchen *k, const struct liquid_fact *fact, const struct oil_fact *fat,
                                  double share)
{
    int i = k->recipe.water.liquids++;

    k->facts.liquid[i] = fact;
    k->facts.liquid_fat[i] = fat;
    k->recipe.water.liquid[i] = (struct recipe_liquid){.share_of_water = share};
}

static inline void kitchen_scale(struct kitchen *k, double division_g, double capacity_g, double accuracy_g)
{
    k->recipe.scale[k->recipe.scales++] = (struct scale){
        .division_ug = mass_ug(division_g), .capacity_ug = mass_ug(capacity_g), .accuracy_ug = mass_ug(accuracy_g)};
}

/* The plan as far as its lye, in the order of plan.c. */
static inline const struct plan *kitchen_plan(struct kitchen *k)
{
    memset(&k->plan, 0, sizeof k->plan);
    scales_plan(&k->in, &k->plan);
    lye_facts(&k->in, &k->plan);
    size_plan(&k->in, &k->plan);
    scales_round_oils(&k->in, &k->plan);
    lye_plan(&k->in, &k->plan);
    superfat_plan(&k->in, &k->plan);
    scales_find(&k->in, &k->plan);
    return &k->plan;
}

/* The first finding of that code, NULL if there is none. */
static inline const struct finding *kitchen_found(const struct kitchen *k, enum finding_code code)
{
    for (int i = 0; i < k->plan.findings; i++)
        if (k->plan.finding[i].code == code)
            return &k->plan.finding[i];
    return NULL;
}

static inline double naoh_exact(const struct plan *plan)
{
    return plan->alkali[ALKALI_NAOH].alkali.exact_g;
}

static inline double koh_exact(const struct plan *plan)
{
    return plan->alkali[ALKALI_KOH].alkali.exact_g;
}

#define CHECK(test) cmocka_unit_test(test)

#endif
