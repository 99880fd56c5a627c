/* Fragrance of a plan: doses, shares in the product, which limit binds, allergens, findings. */
#include "calc/fragrance.h"

#include "calc/allergen.h"
#include "calc/limit.h"
#include "calc/product.h"
#include "calc/scene.h"
#include "lyeway/facts.h"

#define CONSTITUENTS(array) .constituent = (array), .constituents = ROWS(array)

/* Ph. Eur. 10 and ISO 3515:2002; geraniol, coumarin and density from memory. */
static const struct constituent of_lavender[] = {
    {SAMPLE_LINALOOL, 0.20, 0.45}, {SAMPLE_LINALYL_ACETATE, 0.25, 0.47}, {SAMPLE_LIMONENE, 0, 0.01},
    {SAMPLE_CAMPHOR, 0, 0.015},    {SAMPLE_TERPINEOL, 0, 0.02},          {SAMPLE_GERANIOL, 0, 0.01},
    {SAMPLE_COUMARIN, 0, 0.001},
};
static const struct fragrance_fact lavender = {
    .allergen = 10, CONSTITUENTS(of_lavender), .density_g_ml = 0.885, .acceleration = ACCELERATION_NONE};

static const struct constituent of_clove[] = {
    {SAMPLE_EUGENOL, 0.75, 0.88}, {SAMPLE_ISOEUGENOL, 0, 0.003}, {SAMPLE_METHYL_EUGENOL, 0, 0.0005}};
static const struct fragrance_fact clove = {
    .allergen = -1, CONSTITUENTS(of_clove), .density_g_ml = 1.055, .acceleration = ACCELERATION_STRONG};

static const struct constituent of_lemongrass[] = {{SAMPLE_CITRAL, 0.65, 0.85}, {SAMPLE_GERANIOL, 0.01, 0.08}};
static const struct fragrance_fact lemongrass = {
    .allergen = -1, CONSTITUENTS(of_lemongrass), .density_g_ml = 0.885, .acceleration = ACCELERATION_SOME};

static const struct constituent of_litsea[] = {{SAMPLE_CITRAL, 0.60, 0.80}};
static const struct fragrance_fact litsea = {.allergen = -1, CONSTITUENTS(of_litsea)};

static const struct constituent of_pine[] = {{SAMPLE_ALPHA_PINENE, 0.2, 0.3}, {SAMPLE_BETA_PINENE, 0.1, 0.3}};
static const struct fragrance_fact pine = {.allergen = -1, CONSTITUENTS(of_pine)};

static const struct constituent of_balsam[] = {{SAMPLE_BALSAM, 1, 1}};
static const struct fragrance_fact balsam = {.allergen = -1, CONSTITUENTS(of_balsam)};

static const struct constituent of_banned[] = {{SAMPLE_BANNED, 0, 0.001}};
static const struct fragrance_fact banned = {.allergen = -1, CONSTITUENTS(of_banned)};

static const struct fragrance_fact unknown_blend = {.allergen = -1};

static void plan_fragrance(struct scene *scene)
{
    fragrance_into_batter(&scene->in, &scene->plan);
    fragrance_doses(&scene->in, &scene->plan);
    fragrance_plan(&scene->in, &scene->plan);
}

/* A scene of one scented portion that is the whole batter of 1000 g, 700 g of oils and 200 g of water. */
static void one_portion(struct scene *scene, enum technique technique)
{
    scene_start(scene);
    scene->plan.oils_ug = mass_ug(700.0);
    scene->plan.batter_ug = mass_ug(1000.0);
    scene->plan.water.water.rounded_ug = mass_ug(200.0);
    scene_portion(scene, 1000.0, true, technique);
}

/* Worked example of the exchange format: lavender at 3 % of the oils. */
static void lavender_in_the_worked_recipe_comes_out_as_printed(void **state)
{
    struct scene s;
    (void)state;

    scene_worked_recipe(&s);
    scene_fragrance(&s, &lavender, 0.03);
    plan_fragrance(&s);

    assert_int_equal(s.plan.portion[0].fragrance_ug, 17900000);
    assert_int_equal(s.plan.portion[1].fragrance_ug, 7460000);
    assert_int_equal(s.plan.portion[2].fragrance_ug, 0);
    assert_int_equal(s.plan.fragrance[0].rounded_ug, 25360000);
    assert_near(s.plan.portion[0].filled_g, 889.88, 1e-9);
    assert_near(s.plan.portion[1].filled_g, 370.45, 1e-9);
    assert_near(s.plan.portion[0].volume_ml, 884.0, 0.5);
    assert_near(s.plan.portion[1].volume_ml, 368.0, 0.5);
    assert_int_equal(s.plan.worst_portion, 1);
    assert_near(100.0 * s.plan.fragrance[0].share_of_product, 2.27, 0.005);
    assert_false(s.plan.fragrance[0].has_limit);
    assert_int_equal(s.plan.limit.from, LIMIT_NOT_BINDING);
    assert_false(s.plan.limit.unknown);
    assert_int_equal(s.plan.findings, 0);
}

static void linalool_of_the_worked_recipe_is_named_with_its_share(void **state)
{
    struct scene s;
    double share[PLAN_ALLERGENS] = {0};
    (void)state;

    scene_worked_recipe(&s);
    scene_fragrance(&s, &lavender, 0.03);
    plan_fragrance(&s);

    for (int i = 0; i < s.plan.allergens; i++) {
        share[s.plan.allergen[i].allergen] = s.plan.allergen[i].share;
        if (i > 0)
            assert_true(s.plan.allergen[i].share <= s.plan.allergen[i - 1].share);
    }
    assert_near(100.0 * share[0], 1.02, 0.005);
    assert_int_equal(s.plan.allergens, 7); /* the whole oil and all but coumarin */
    assert_int_equal(s.plan.allergen[0].allergen, 10);
}

static void each_way_of_dosing_gives_its_grams(void **state)
{
    struct recipe_fragrance of_oils = {.by = FRAGRANCE_OF_OILS, .value = 0.03};
    struct recipe_fragrance of_batter = {.by = FRAGRANCE_OF_BATTER, .value = 0.03};
    struct recipe_fragrance per_kg = {.by = FRAGRANCE_PER_KG_OILS, .value = 30.0};
    (void)state;

    assert_near(fragrance_dose_g(&of_oils, 700.0, 1000.0), 21.0, 1e-12);
    assert_near(fragrance_dose_g(&of_batter, 700.0, 1000.0), 30.0, 1e-12);
    assert_near(fragrance_dose_g(&per_kg, 700.0, 1000.0), 21.0, 1e-12);
}

static void fragrance_of_the_whole_batter_is_weighed_once_and_reaches_every_portion(void **state)
{
    struct scene s;
    (void)state;

    scene_start(&s);
    s.recipe.scent = PUT_IN_BATTER;
    s.plan.oils_ug = mass_ug(1000.0);
    s.plan.batter_ug = mass_ug(1500.0);
    scene_fragrance(&s, &lavender, 0.03);
    assert_near(fragrance_batter_g(&s.in, 1000.0, 1500.0), 30.0, 1e-12);
    fragrance_into_batter(&s.in, &s.plan);
    assert_int_equal(s.plan.batter_ug, mass_ug(1530.0));
    scene_portion(&s, 510.0, false, TECHNIQUE_POUR);
    scene_portion(&s, 1020.0, false, TECHNIQUE_POUR);
    fragrance_doses(&s.in, &s.plan);
    fragrance_plan(&s.in, &s.plan);

    assert_int_equal(s.plan.batter_fragrance[0].rounded_ug, mass_ug(30.0));
    assert_int_equal(s.plan.fragrance[0].rounded_ug, mass_ug(30.0));
    assert_int_equal(s.plan.portion[0].fragrance_ug, mass_ug(10.0));
    assert_int_equal(s.plan.portion[1].fragrance_ug, mass_ug(20.0));
    assert_int_equal(s.plan.portion[0].fragrance[0].rounded_ug, 0);
    assert_near(s.plan.portion[0].filled_g, 510.0, 1e-12);
    assert_near(s.plan.fragrance[0].share_of_product, 10.0 / s.plan.portion[0].cured_g, 1e-12);
}

static void fragrance_for_portions_leaves_the_batter_alone(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &lavender, 0.03);
    assert_true(fragrance_batter_g(&s.in, 700.0, 1000.0) == 0.0);
    fragrance_into_batter(&s.in, &s.plan);
    assert_int_equal(s.plan.batter_ug, mass_ug(1000.0));
}

/* Method of section 9: the recipe's water down to 10 % of the bar, at least 5 % of the mass; common practice. */
static void the_lighter_bar_of_both_rules_counts(void **state)
{
    (void)state;
    assert_near(product_cured_g(facts_reference()->practice, 1000.0, 190.0), 900.0, 1e-9);
    assert_near(product_cured_g(facts_reference()->practice, 1000.0, 120.0), 950.0, 1e-9);
    assert_near(product_cured_g(facts_reference()->practice, 1000.0, 0.0), 950.0, 1e-9);
    assert_true(product_cured_g(facts_reference()->practice, 0.0, 0.0) == 0.0);
}

static void water_of_every_kind_dries_out_of_the_bar(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    s.recipe.water.liquids = 1;
    s.plan.liquid[0].water_g = 40.0;
    s.recipe.additives = 1;
    s.plan.additive[0].water_g = 5.0;
    s.plan.alkali[ALKALI_NAOH].solution = (struct weighing){.rounded_ug = mass_ug(200.0), .division_ug = 1000000};
    s.plan.alkali[ALKALI_NAOH].alkali.rounded_ug = mass_ug(100.0);
    s.plan.alkali[ALKALI_KOH].alkali.rounded_ug = mass_ug(30.0);
    assert_near(product_water_g(&s.in, &s.plan), 200.0 + 40.0 + 5.0 + 100.0, 1e-9);
}

/* --- limits --- */

static void a_certificate_binds_at_its_own_figure(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_certify(&s, scene_fragrance(&s, &clove, 0.02), 0.03);
    plan_fragrance(&s);

    assert_int_equal(s.plan.limit.from, LIMIT_CERTIFICATE);
    assert_int_equal(s.plan.limit.fragrance, 0);
    assert_int_equal(s.plan.limit.constituent, -1);
    assert_int_equal(s.plan.limit.standing, STANDING_CERTIFICATE);
    assert_true(s.plan.fragrance[0].has_limit);
    assert_near(s.plan.fragrance[0].limit_share, 0.03, 1e-12);
    assert_near(s.plan.limit.scale, 0.03 / s.plan.fragrance[0].share_of_product, 1e-12);
    assert_int_equal(s.plan.findings, 0);
}

static void going_over_a_certificate_is_a_stop_that_names_the_load(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_certify(&s, scene_fragrance(&s, &lavender, 0.03), 0.01);
    plan_fragrance(&s);

    const struct finding *finding = scene_finding(&s, FINDING_FRAGRANCE_LIMIT);
    assert_non_null(finding);
    assert_int_equal(scene_count(&s, FINDING_FRAGRANCE_LIMIT), 1);
    assert_int_equal(finding->level, LEVEL_STOP);
    assert_int_equal(finding->other.part, PART_FRAGRANCE);
    double share = s.plan.fragrance[0].share_of_product;
    assert_near(finding->number[0], share, 1e-12);
    assert_near(finding->number[1], 0.01, 1e-12);
    assert_near(finding->number[2], 0.03 * 0.01 / share, 1e-12);
}

static void certificates_of_two_fragrances_count_together(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_certify(&s, scene_fragrance(&s, &lavender, 0.02), 0.03);
    scene_certify(&s, scene_fragrance(&s, &unknown_blend, 0.02), 0.02);
    plan_fragrance(&s);

    double a = s.plan.fragrance[0].share_of_product, b = s.plan.fragrance[1].share_of_product;
    assert_true(a < 0.03 && b < 0.02); /* each alone is within its own */
    assert_near(s.plan.limit.scale, 1.0 / (a / 0.03 + b / 0.02), 1e-12);
    assert_int_equal(s.plan.limit.fragrance, 1);
    assert_int_equal(scene_count(&s, FINDING_FRAGRANCE_LIMIT), 1);
    assert_false(s.plan.limit.unknown);
}

/* Methyl eugenol, IFRA category 9, Amendment 49 (seen): 0.00087 %. Clove holds up to 0.05 % of it. */
static void without_a_certificate_the_strictest_constituent_binds(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &clove, 0.03);
    plan_fragrance(&s);

    assert_int_equal(s.plan.limit.from, LIMIT_IFRA);
    assert_int_equal(s.plan.limit.constituent, SAMPLE_METHYL_EUGENOL);
    assert_near(s.plan.fragrance[0].limit_share, 0.0000087 / 0.0005, 1e-12);
    assert_int_equal(scene_finding(&s, FINDING_FRAGRANCE_LIMIT)->level, LEVEL_STOP); /* a figure that was seen */
    assert_int_equal(scene_finding(&s, FINDING_FRAGRANCE_LIMIT)->other.part, PART_CONSTITUENT);
    assert_int_equal(scene_finding(&s, FINDING_FRAGRANCE_LIMIT)->other.index, SAMPLE_METHYL_EUGENOL);
}

static void over_a_figure_that_was_not_seen_is_a_caution(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &lemongrass, 0.03);
    plan_fragrance(&s);

    assert_int_equal(s.plan.limit.constituent, SAMPLE_CITRAL);
    assert_int_equal(s.plan.limit.standing, STANDING_COMPUTED);
    assert_int_equal(scene_finding(&s, FINDING_FRAGRANCE_LIMIT)->level, LEVEL_CAUTION);
}

/* Citral of litsea is further over its computed figure than methyl eugenol of clove is over the one that was seen. */
static void a_stop_is_not_hidden_behind_a_stricter_figure_from_memory(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &litsea, 0.06);
    scene_fragrance(&s, &clove, 0.03);
    plan_fragrance(&s);

    assert_int_equal(s.plan.limit.constituent, SAMPLE_CITRAL);
    assert_true(s.plan.fragrance[1].share_of_product * 0.0005 > 0.0000087);
    assert_int_equal(scene_count(&s, FINDING_FRAGRANCE_LIMIT), 2);
    assert_int_equal(s.plan.finding[0].level, LEVEL_STOP);
    assert_int_equal(s.plan.finding[0].other.index, SAMPLE_METHYL_EUGENOL);
    assert_int_equal(s.plan.finding[1].level, LEVEL_CAUTION);
    assert_int_equal(s.plan.finding[1].other.index, SAMPLE_CITRAL);
}

static void a_certificate_takes_the_place_of_generic_figures_for_its_own_fragrance(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_certify(&s, scene_fragrance(&s, &clove, 0.02), 0.05);
    plan_fragrance(&s);
    assert_int_equal(s.plan.limit.from, LIMIT_CERTIFICATE); /* methyl eugenol at its high end would be over */
    assert_int_equal(scene_count(&s, FINDING_FRAGRANCE_LIMIT), 0);
}

static void a_constituent_shared_with_an_uncertified_fragrance_is_summed_over_both(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_certify(&s, scene_fragrance(&s, &lemongrass, 0.011), 0.05);
    scene_fragrance(&s, &litsea, 0.011);
    plan_fragrance(&s);

    double sum = s.plan.fragrance[0].share_of_product * 0.85 + s.plan.fragrance[1].share_of_product * 0.80;
    assert_true(s.plan.fragrance[1].share_of_product * 0.80 < 0.012);
    assert_int_equal(s.plan.limit.constituent, SAMPLE_CITRAL);
    assert_near(s.plan.limit.scale, 0.012 / sum, 1e-9);
    assert_int_equal(scene_count(&s, FINDING_FRAGRANCE_LIMIT), 1);
}

static void what_is_not_to_be_used_is_over_at_any_presence(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &banned, 0.0001);
    plan_fragrance(&s);
    assert_true(s.plan.limit.scale == 0.0);
    assert_true(s.plan.fragrance[0].has_limit && s.plan.fragrance[0].limit_share == 0.0);
    assert_int_equal(scene_count(&s, FINDING_FRAGRANCE_LIMIT), 1);
}

static void a_certificate_of_nothing_allows_nothing(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_certify(&s, scene_fragrance(&s, &lavender, 0.01), 0.0);
    plan_fragrance(&s);
    assert_true(s.plan.limit.scale == 0.0);
    assert_int_equal(scene_finding(&s, FINDING_FRAGRANCE_LIMIT)->level, LEVEL_STOP);
}

static void no_figure_is_said_to_be_unknown(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &unknown_blend, 0.03);
    plan_fragrance(&s);
    assert_true(s.plan.limit.unknown);
    assert_int_equal(s.plan.limit.from, LIMIT_NONE_KNOWN);
    assert_false(s.plan.fragrance[0].has_limit);

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, NULL, 0.03);
    plan_fragrance(&s);
    assert_true(s.plan.limit.unknown);

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &balsam, 0.001);
    plan_fragrance(&s);
    assert_true(s.plan.limit.unknown); /* the IFRA figure; that of the EU holds all the same */
    assert_int_equal(s.plan.limit.from, LIMIT_EU);
    assert_near(s.plan.fragrance[0].limit_share, 0.004, 1e-12);
}

static void a_known_limit_holds_beside_an_unknown_fragrance(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &unknown_blend, 0.01);
    scene_fragrance(&s, &lemongrass, 0.03);
    plan_fragrance(&s);
    assert_true(s.plan.limit.unknown);
    assert_int_equal(s.plan.limit.constituent, SAMPLE_CITRAL);
    assert_int_equal(scene_count(&s, FINDING_FRAGRANCE_LIMIT), 1);
}

static void exactly_at_the_limit_is_within_it(void **state)
{
    struct scene s;
    double share;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &lavender, 0.03);
    plan_fragrance(&s);
    share = s.plan.fragrance[0].share_of_product;

    one_portion(&s, TECHNIQUE_POUR);
    scene_certify(&s, scene_fragrance(&s, &lavender, 0.03), share);
    plan_fragrance(&s);
    assert_int_equal(s.plan.findings, 0);

    one_portion(&s, TECHNIQUE_POUR);
    scene_certify(&s, scene_fragrance(&s, &lavender, 0.03), share * 0.999999);
    plan_fragrance(&s);
    assert_int_equal(scene_count(&s, FINDING_FRAGRANCE_LIMIT), 1);
}

static void unscented_pieces_do_not_dilute_the_scented_base(void **state)
{
    struct scene with, without;
    (void)state;

    one_portion(&without, TECHNIQUE_POUR);
    scene_fragrance(&without, &lavender, 0.03);
    plan_fragrance(&without);

    one_portion(&with, TECHNIQUE_POUR);
    scene_portion(&with, 500.0, false, TECHNIQUE_PIPE);
    scene_fragrance(&with, &lavender, 0.03);
    plan_fragrance(&with);

    assert_true(with.plan.fragrance[0].share_of_product == without.plan.fragrance[0].share_of_product);
    assert_int_equal(with.plan.worst_portion, 0);
}

static void without_scented_portions_there_is_no_worst_one(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    s.recipe.portion[0].scented = false;
    scene_fragrance(&s, &clove, 0.03);
    plan_fragrance(&s);
    assert_int_equal(s.plan.worst_portion, -1);
    assert_int_equal(s.plan.limit.from, LIMIT_NONE_KNOWN);
    assert_int_equal(s.plan.allergens, 0);
    assert_int_equal(s.plan.findings, 0);
    assert_true(s.plan.portion[0].cured_g > 0.0);
}

/* --- allergens --- */

/* Regulation (EU) 2023/1545: alpha- and beta-pinene are named together as Pinene. */
static void isomers_are_summed_before_the_threshold(void **state)
{
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &pine, 0.0003);
    plan_fragrance(&s);
    double share = s.plan.fragrance[0].share_of_product;
    assert_true(share * 0.3 < 0.0001 && share * 0.6 > 0.0001);
    assert_int_equal(s.plan.allergens, 1);
    assert_near(s.plan.allergen[0].share, share * 0.6, 1e-15);
}

static void an_oil_listed_as_a_whole_counts_once(void **state)
{
    static const struct constituent whole[] = {{SAMPLE_LAVANDULA, 1, 1}};
    static const struct fragrance_fact absolute = {.allergen = 10, CONSTITUENTS(whole)};
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    scene_fragrance(&s, &absolute, 0.01);
    plan_fragrance(&s);
    assert_int_equal(s.plan.allergens, 1);
    assert_near(s.plan.allergen[0].share, s.plan.fragrance[0].share_of_product, 1e-15);
}

/* --- behaviour --- */

static int fast_findings(const struct fragrance_fact *fact, enum technique technique, int colourants, int portions)
{
    struct scene s;

    scene_start(&s);
    s.plan.oils_ug = mass_ug(700.0);
    s.plan.batter_ug = mass_ug(1000.0);
    for (int p = 0; p < portions; p++)
        scene_portion(&s, 1000.0 / portions, p == 0, technique);
    s.recipe.portion[0].colourants = colourants;
    scene_certify(&s, scene_fragrance(&s, fact, 0.02), 0.5);
    plan_fragrance(&s);
    return scene_count(&s, FINDING_FRAGRANCE_FAST);
}

static void only_strong_acceleration_where_it_hurts_is_found(void **state)
{
    (void)state;
    assert_int_equal(fast_findings(&clove, TECHNIQUE_PIPE, 0, 1), 1);
    assert_int_equal(fast_findings(&clove, TECHNIQUE_POUR, 3, 1), 1);
    assert_int_equal(fast_findings(&clove, TECHNIQUE_SWIRL, 1, 2), 1);
    assert_int_equal(fast_findings(&clove, TECHNIQUE_LAYER, 1, 2), 1);
    assert_int_equal(fast_findings(&clove, TECHNIQUE_SWIRL, 1, 1), 0);
    assert_int_equal(fast_findings(&clove, TECHNIQUE_POUR, 2, 2), 0);
    assert_int_equal(fast_findings(&lemongrass, TECHNIQUE_PIPE, 3, 2), 0);
}

/* --- properties over random blends --- */

static const struct fragrance_fact *const shelf[] = {&lavender, &clove,  &lemongrass,    &litsea,
                                                     &pine,     &balsam, &unknown_blend, NULL};

static uint32_t next_random(uint32_t *seed)
{
    *seed = *seed * 1664525u + 1013904223u;
    return *seed >> 8;
}

static double random_share(uint32_t *seed)
{
    return next_random(seed) / 16777216.0;
}

struct blend {
    int n;
    const struct fragrance_fact *fact[RECIPE_FRAGRANCES];
    double load[RECIPE_FRAGRANCES], certificate[RECIPE_FRAGRANCES]; /* 0: none */
};

static void random_blend(uint32_t *seed, struct blend *blend)
{
    blend->n = 1 + (int)(next_random(seed) % RECIPE_FRAGRANCES);
    for (int i = 0; i < blend->n; i++) {
        blend->fact[i] = shelf[next_random(seed) % ROWS(shelf)];
        blend->load[i] = random_share(seed) * 0.05;
        blend->certificate[i] = next_random(seed) % 2 ? 0.001 + random_share(seed) * 0.2 : 0.0;
    }
}

static void plan_blend(struct scene *s, const struct blend *blend, double scale, bool backwards)
{
    one_portion(s, TECHNIQUE_POUR);
    for (int k = 0; k < blend->n; k++) {
        int from = backwards ? blend->n - 1 - k : k;
        int i = scene_fragrance(s, blend->fact[from], blend->load[from] * scale);

        if (blend->certificate[from] > 0.0)
            scene_certify(s, i, blend->certificate[from]);
    }
    plan_fragrance(s);
}

static void the_order_of_fragrances_does_not_matter(void **state)
{
    static struct scene a, b;
    uint32_t seed = 11;
    (void)state;

    for (int round = 0; round < 500; round++) {
        struct blend blend;

        random_blend(&seed, &blend);
        plan_blend(&a, &blend, 1.0, false);
        plan_blend(&b, &blend, 1.0, true);
        assert_near(a.plan.limit.scale, b.plan.limit.scale, 1e-9 * a.plan.limit.scale);
        assert_int_equal(a.plan.limit.from, b.plan.limit.from);
        assert_int_equal(a.plan.limit.unknown, b.plan.limit.unknown);
        assert_int_equal(a.plan.findings, b.plan.findings);
        assert_int_equal(a.plan.allergens, b.plan.allergens);
        for (int i = 0; i < a.plan.allergens; i++)
            assert_near(a.plan.allergen[i].share, b.plan.allergen[i].share, 1e-12);
        for (int i = 0; i < blend.n; i++)
            assert_near(a.plan.fragrance[i].limit_share, b.plan.fragrance[blend.n - 1 - i].limit_share, 1e-9);
    }
}

static void more_fragrance_is_a_larger_share_and_never_further_from_a_limit(void **state)
{
    static struct scene less, more;
    uint32_t seed = 12;
    (void)state;

    for (int round = 0; round < 500; round++) {
        struct blend blend;

        random_blend(&seed, &blend);
        plan_blend(&less, &blend, 1.0, false);
        plan_blend(&more, &blend, 1.5, false);
        for (int i = 0; i < blend.n; i++) {
            assert_true(more.plan.fragrance[i].share_of_product >= less.plan.fragrance[i].share_of_product);
            assert_true(isfinite(more.plan.fragrance[i].limit_share));
        }
        if (less.plan.limit.from != LIMIT_NOT_BINDING && less.plan.limit.from != LIMIT_NONE_KNOWN)
            assert_true(more.plan.limit.scale < less.plan.limit.scale);
        assert_true(more.plan.allergens >= less.plan.allergens);
        if (scene_count(&less, FINDING_FRAGRANCE_LIMIT) > 0)
            assert_true(scene_count(&more, FINDING_FRAGRANCE_LIMIT) > 0);
    }
}

/* Whatever binds, the blend multiplied by the scale is just within every limit: over only when a little more is used. */
static void a_blend_brought_to_its_scale_just_meets_the_limit(void **state)
{
    struct scene s;
    uint32_t seed = 13;
    int tried = 0;
    (void)state;

    for (int round = 0; round < 500; round++) {
        struct blend blend;
        double use[RECIPE_FRAGRANCES];
        struct limit_blend found;

        random_blend(&seed, &blend);
        plan_blend(&s, &blend, 1.0, false);
        if (s.plan.limit.from == LIMIT_NONE_KNOWN || s.plan.limit.from == LIMIT_NOT_BINDING)
            continue;
        product_uses(&s.in, &s.plan, &s.plan.portion[0], use);
        for (int i = 0; i < blend.n; i++)
            use[i] *= s.plan.limit.scale;
        limit_of_blend(&s.in, use, &found);
        assert_near(found.binding.scale, 1.0, 1e-9);
        tried++;
    }
    assert_true(tried > 300);
}

static void odd_recipes_leave_only_finite_numbers(void **state)
{
    struct scene s;
    (void)state;

    scene_start(&s);
    scene_fragrance(&s, &clove, 1.0);
    scene_portion(&s, 0.0, true, TECHNIQUE_PIPE);
    s.plan.portion[0].oils_g = 0.0;
    plan_fragrance(&s);
    assert_int_equal(s.plan.worst_portion, -1);
    assert_true(isfinite(s.plan.limit.scale) && isfinite(s.plan.portion[0].cured_g));

    one_portion(&s, TECHNIQUE_PIPE); /* more water than the portion weighs */
    s.plan.water.water.rounded_ug = mass_ug(5000.0);
    scene_fragrance(&s, &clove, 1.0);
    plan_fragrance(&s);
    assert_true(isfinite(s.plan.fragrance[0].share_of_product));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lavender_in_the_worked_recipe_comes_out_as_printed),
        cmocka_unit_test(linalool_of_the_worked_recipe_is_named_with_its_share),
        cmocka_unit_test(each_way_of_dosing_gives_its_grams),
        cmocka_unit_test(fragrance_of_the_whole_batter_is_weighed_once_and_reaches_every_portion),
        cmocka_unit_test(fragrance_for_portions_leaves_the_batter_alone),
        cmocka_unit_test(the_lighter_bar_of_both_rules_counts),
        cmocka_unit_test(water_of_every_kind_dries_out_of_the_bar),
        cmocka_unit_test(a_certificate_binds_at_its_own_figure),
        cmocka_unit_test(going_over_a_certificate_is_a_stop_that_names_the_load),
        cmocka_unit_test(certificates_of_two_fragrances_count_together),
        cmocka_unit_test(without_a_certificate_the_strictest_constituent_binds),
        cmocka_unit_test(over_a_figure_that_was_not_seen_is_a_caution),
        cmocka_unit_test(a_stop_is_not_hidden_behind_a_stricter_figure_from_memory),
        cmocka_unit_test(a_certificate_takes_the_place_of_generic_figures_for_its_own_fragrance),
        cmocka_unit_test(a_constituent_shared_with_an_uncertified_fragrance_is_summed_over_both),
        cmocka_unit_test(what_is_not_to_be_used_is_over_at_any_presence),
        cmocka_unit_test(a_certificate_of_nothing_allows_nothing),
        cmocka_unit_test(no_figure_is_said_to_be_unknown),
        cmocka_unit_test(a_known_limit_holds_beside_an_unknown_fragrance),
        cmocka_unit_test(exactly_at_the_limit_is_within_it),
        cmocka_unit_test(unscented_pieces_do_not_dilute_the_scented_base),
        cmocka_unit_test(without_scented_portions_there_is_no_worst_one),
        cmocka_unit_test(isomers_are_summed_before_the_threshold),
        cmocka_unit_test(an_oil_listed_as_a_whole_counts_once),
        cmocka_unit_test(only_strong_acceleration_where_it_hurts_is_found),
        cmocka_unit_test(the_order_of_fragrances_does_not_matter),
        cmocka_unit_test(more_fragrance_is_a_larger_share_and_never_further_from_a_limit),
        cmocka_unit_test(a_blend_brought_to_its_scale_just_meets_the_limit),
        cmocka_unit_test(odd_recipes_leave_only_finite_numbers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
