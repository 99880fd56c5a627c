/* Fragrance against sums worked outside the program.
 *
 * The reference batch: 1000 g of oils, 140.2 g of alkali, 280.4 g of water, so 1420.6 g of batter; 7 g of colourants; cured
 * with 10 % of water 1308.00 g with 30 g of fragrance. Constituents at the high ends of the program's rows where these are the
 * published ones, else given here. Limits: IFRA Standards, Amendment 49, category 9 (methyl eugenol read, the others as the
 * rows say); Regulation (EC) 1223/2009, Annex III, with (EU) 2023/1545 and (EU) 2022/1531.
 */
#include "calc/scene.h"

#include "calc/allergen.h"
#include "calc/fragrance.h"
#include "calc/limit.h"
#include "calc/product.h"

#define CONSTITUENTS(array) .constituent = (array), .constituents = ROWS(array)

static const double cured_g = 1308.0;

/* The largest share of the product, in percent, that a blend of parts (sum 1) may be. */
static double blend_maximum(int n, const struct fragrance_fact *const fact[], const double part[],
                            struct limit_found *found)
{
    struct scene s;
    double use[RECIPE_FRAGRANCES] = {0};
    struct limit_blend blend;
    const double total = 0.01;

    scene_start(&s);
    for (int i = 0; i < n; i++) {
        scene_fragrance(&s, fact[i], 0.0);
        use[i] = part[i] * total;
    }
    limit_of_blend(&s.in, use, &blend);
    if (found != NULL)
        *found = blend.binding;
    return 100.0 * total * blend.binding.scale;
}

static double single_maximum(const struct fragrance_fact *fact, struct limit_found *found)
{
    return blend_maximum(1, &fact, (const double[]){1.0}, found);
}

/* FL01, FL02 a: arithmetic. A share of the batter is of the batter before fragrance. */
static void a_load_is_of_the_oils_or_of_the_batter_before_fragrance(void **state)
{
    struct recipe_fragrance of_oils = {.by = FRAGRANCE_OF_OILS, .value = 0.03};
    struct recipe_fragrance of_batter = {.by = FRAGRANCE_OF_BATTER, .value = 0.03};
    (void)state;

    assert_near(fragrance_dose_g(&of_oils, 1000.0, 1420.6), 30.000, 0.001);
    assert_near(fragrance_dose_g(&of_batter, 1000.0, 1420.6), 42.618, 0.005);
}

/* FL03: 39.559 g is 3 % of the finished 1318.62 g; saponification of a triglyceride makes no water. */
static void three_percent_of_the_finished_bar_comes_back(void **state)
{
    const double fragrance = 39.559;
    double cured = product_cured_g(facts_reference()->practice, 1147.2 + 280.4 + fragrance, 280.4);
    (void)state;

    assert_near(cured, 1318.62, 0.01);
    assert_near(100.0 * fragrance / cured, 3.0, 0.0005);
}

/* FL04 and the cure loss that goes with it: 30 g are 2.0582 % as poured and 2.2936 % once cured. */
static void the_share_rises_with_the_cure(void **state)
{
    double poured = 1420.6 + 30.0 + 7.0;
    double cured = product_cured_g(facts_reference()->practice, poured, 280.4);
    (void)state;

    assert_near(cured, 1308.00, 0.02);
    assert_near(100.0 * 30.0 / poured, 2.0582, 0.0005);
    assert_near(100.0 * 30.0 / cured, 2.2936, 0.0005);
    assert_near(100.0 * (poured - cured) / poured, 10.263, 0.001);
}

/* FL05: clove bud, eugenol up to 88 % (EMA HMPC 534946/2010), isoeugenol 0.3 %, methyl eugenol 0.05 %. */
static void the_largest_share_of_clove_is_that_of_its_strictest_constituent(void **state)
{
    static const struct constituent eugenol[] = {{SAMPLE_EUGENOL, 0.75, 0.88}};
    static const struct constituent isoeugenol[] = {{SAMPLE_ISOEUGENOL, 0, 0.003}};
    static const struct constituent all[] = {
        {SAMPLE_EUGENOL, 0.75, 0.88}, {SAMPLE_ISOEUGENOL, 0, 0.003}, {SAMPLE_METHYL_EUGENOL, 0, 0.0005}};
    struct limit_found found;
    (void)state;

    double most = single_maximum(&(struct fragrance_fact){.allergen = -1, CONSTITUENTS(eugenol)}, NULL);
    assert_near(most, 5.5682, 0.0005);
    assert_near(most / 100.0 * cured_g, 72.832, 0.01);
    most = single_maximum(&(struct fragrance_fact){.allergen = -1, CONSTITUENTS(isoeugenol)}, &found);
    assert_near(most, 6.6667, 0.0005);
    assert_int_equal(found.from, LIMIT_EU);
    most = single_maximum(&(struct fragrance_fact){.allergen = -1, CONSTITUENTS(all)}, &found);
    assert_near(most, 1.7400, 0.0005);
    assert_int_equal(found.from, LIMIT_IFRA);
    assert_int_equal(found.constituent, SAMPLE_METHYL_EUGENOL);
}

/* FL06: 60 % clove bud, 40 % cinnamon leaf (eugenol 85 %, safrole 3 %). */
static void two_oils_share_one_limit(void **state)
{
    static const struct constituent clove_eugenol[] = {{SAMPLE_EUGENOL, 0.75, 0.88}};
    static const struct constituent leaf_eugenol[] = {{SAMPLE_EUGENOL, 0.70, 0.85}};
    static const struct constituent clove_all[] = {{SAMPLE_EUGENOL, 0.75, 0.88}, {SAMPLE_METHYL_EUGENOL, 0, 0.0005}};
    static const struct constituent leaf_all[] = {{SAMPLE_EUGENOL, 0.70, 0.85}, {SAMPLE_SAFROLE, 0, 0.03}};
    const struct fragrance_fact clove = {.allergen = -1, CONSTITUENTS(clove_eugenol)};
    const struct fragrance_fact leaf = {.allergen = -1, CONSTITUENTS(leaf_eugenol)};
    const struct fragrance_fact whole_clove = {.allergen = -1, CONSTITUENTS(clove_all)};
    const struct fragrance_fact whole_leaf = {.allergen = -1, CONSTITUENTS(leaf_all)};
    const double part[] = {0.6, 0.4};
    struct limit_found found;
    (void)state;

    double most = blend_maximum(2, (const struct fragrance_fact *const[]){&clove, &leaf}, part, &found);
    assert_near(most, 5.6452, 0.0005);
    assert_near(100.0 * found.share / 0.01, 86.80, 0.0005);
    most = blend_maximum(2, (const struct fragrance_fact *const[]){&whole_clove, &leaf}, part, &found);
    assert_near(most, 2.9000, 0.0005);
    most = blend_maximum(2, (const struct fragrance_fact *const[]){&whole_clove, &whole_leaf}, part, &found);
    assert_near(most, 0.8333, 0.0005);
    assert_int_equal(found.constituent, SAMPLE_SAFROLE);
}

/* FL07: 50 % lemongrass, 30 % geranium, 20 % clove bud. */
static void of_three_oils_with_six_limits_citral_binds(void **state)
{
    static const struct constituent lemongrass[] = {{SAMPLE_CITRAL, 0, 0.85},
                                                    {SAMPLE_GERANIOL, 0, 0.08},
                                                    {SAMPLE_CITRONELLOL, 0, 0.006},
                                                    {SAMPLE_EUGENOL, 0, 0.005},
                                                    {SAMPLE_METHYL_EUGENOL, 0, 0.0002}};
    static const struct constituent geranium[] = {
        {SAMPLE_CITRAL, 0, 0.015}, {SAMPLE_GERANIOL, 0, 0.25}, {SAMPLE_CITRONELLOL, 0, 0.47}};
    static const struct constituent clove[] = {
        {SAMPLE_EUGENOL, 0, 0.88}, {SAMPLE_ISOEUGENOL, 0, 0.003}, {SAMPLE_METHYL_EUGENOL, 0, 0.0005}};
    const struct fragrance_fact oil[] = {{.allergen = -1, CONSTITUENTS(lemongrass)},
                                         {.allergen = -1, CONSTITUENTS(geranium)},
                                         {.allergen = -1, CONSTITUENTS(clove)}};
    struct limit_found found;
    (void)state;

    double most = blend_maximum(3, (const struct fragrance_fact *const[]){&oil[0], &oil[1], &oil[2]},
                                (const double[]){0.5, 0.3, 0.2}, &found);
    assert_near(most, 2.7939, 0.0005);
    assert_int_equal(found.constituent, SAMPLE_CITRAL);
    assert_int_equal(found.fragrance, 0);
    assert_near(100.0 * found.share / 0.01, 42.95, 0.0005);
}

/* FL08: rose otto, methyl eugenol up to 3.3 %. IFRA 0.00087 % is stricter than the EU's 0.001 % (SCCNFP 2000). */
static void the_stricter_of_two_figures_counts_for_rose_otto(void **state)
{
    static const struct constituent rose[] = {{SAMPLE_METHYL_EUGENOL, 0.005, 0.033}};
    struct limit_found found;
    (void)state;

    double most = single_maximum(&(struct fragrance_fact){.allergen = -1, CONSTITUENTS(rose)}, &found);
    assert_near(most, 0.02636, 0.00001);
    assert_near(most / 100.0 * cured_g, 0.3448, 0.0005);
    assert_int_equal(found.from, LIMIT_IFRA);
}

/* FL09: Regulation (EU) 2022/1531, Annex III/324: methyl salicylate 0.06 % in a rinse-off product. */
static void a_cap_in_law_alone_binds_wintergreen(void **state)
{
    static const struct constituent wintergreen[] = {{SAMPLE_METHYL_SALICYLATE, 0.96, 0.999}};
    struct limit_found found;
    (void)state;

    double most = single_maximum(&(struct fragrance_fact){.allergen = -1, CONSTITUENTS(wintergreen)}, &found);
    assert_near(most, 0.06006, 0.00005);
    assert_near(most / 100.0 * cured_g, 0.7856, 0.0005);
    assert_int_equal(found.from, LIMIT_EU);
}

/* Shares of allergens in 1308 g that hold grams[] of the fragrances. */
static void shares_of(int n, const struct fragrance_fact *const fact[], const double grams[],
                      double share[PLAN_ALLERGENS])
{
    struct scene s;
    double use[RECIPE_FRAGRANCES] = {0};

    scene_start(&s);
    for (int i = 0; i < n; i++) {
        scene_fragrance(&s, fact[i], 0.0);
        use[i] = grams[i] / cured_g;
    }
    allergen_shares(&s.in, use, share);
}

/* AL01, AL06 (its rinse-off half): 30 g of lavender, ranges of Ph. Eur. and ISO 3515; rinse-off 0.01 %. */
static void lavender_names_its_constituents_and_itself(void **state)
{
    static const struct constituent of_lavender[] = {{SAMPLE_LINALOOL, 0, 0.45},  {SAMPLE_LINALYL_ACETATE, 0, 0.47},
                                                     {SAMPLE_LIMONENE, 0, 0.01},  {SAMPLE_CAMPHOR, 0, 0.015},
                                                     {SAMPLE_TERPINEOL, 0, 0.02}, {SAMPLE_GERANIOL, 0, 0.01},
                                                     {SAMPLE_COUMARIN, 0, 0.001}};
    static const struct {
        int allergen;
        double percent;
        bool named;
    } expected[] = {{0, 1.03211, true}, {1, 1.07798, true}, {2, 0.02294, true},  {3, 0.03440, true},
                    {4, 0.04587, true}, {5, 0.02294, true}, {6, 0.00229, false}, {10, 2.29358, true}};
    const struct fragrance_fact lavender = {.allergen = 10, CONSTITUENTS(of_lavender)};
    double share[PLAN_ALLERGENS];
    (void)state;

    shares_of(1, (const struct fragrance_fact *const[]){&lavender}, (const double[]){30.0}, share);
    for (size_t i = 0; i < ROWS(expected); i++) {
        assert_near(100.0 * share[expected[i].allergen], expected[i].percent, 0.00005);
        assert_int_equal(allergen_named(&sample_allergen[0], share[expected[i].allergen]), expected[i].named);
    }
}

/* AL02: Annex III counts the finished product. 8 g with 0.9 % and 4 g with 2 % of citral. */
static void sources_below_the_threshold_add_up_above_it(void **state)
{
    static const struct constituent a[] = {{SAMPLE_CITRAL, 0, 0.009}};
    static const struct constituent b[] = {{SAMPLE_CITRAL, 0, 0.020}};
    const struct fragrance_fact fact[] = {{.allergen = -1, CONSTITUENTS(a)}, {.allergen = -1, CONSTITUENTS(b)}};
    const struct fragrance_fact *const both[] = {&fact[0], &fact[1]};
    double share[PLAN_ALLERGENS];
    (void)state;

    shares_of(1, both, (const double[]){8.0}, share);
    assert_near(100.0 * share[7], 0.00550, 0.00005);
    assert_false(allergen_named(&sample_allergen[7], share[7]));
    shares_of(2, both, (const double[]){8.0, 4.0}, share);
    assert_near(100.0 * share[7], 0.01162, 0.00005);
    assert_true(allergen_named(&sample_allergen[7], share[7]));
}

/* AL03: Annex III, "exceeds": 0.1308 g in 1308 g is exactly 0.01 %. */
static void exactly_at_the_threshold_is_not_named(void **state)
{
    static const struct constituent pure[] = {{SAMPLE_LIMONENE, 1, 1}};
    const struct fragrance_fact fact = {.allergen = -1, CONSTITUENTS(pure)};
    double share[PLAN_ALLERGENS];
    (void)state;

    shares_of(1, (const struct fragrance_fact *const[]){&fact}, (const double[]){0.1308}, share);
    assert_false(allergen_named(&sample_allergen[2], share[2]));
    shares_of(1, (const struct fragrance_fact *const[]){&fact}, (const double[]){0.1309}, share);
    assert_true(allergen_named(&sample_allergen[2], share[2]));
}

/* AL04: Regulation (EU) 2023/1545, grouped entry Pinene. */
static void isomers_under_one_name_are_added_first(void **state)
{
    static const struct constituent pure[][1] = {{{SAMPLE_ALPHA_PINENE, 1, 1}}, {{SAMPLE_BETA_PINENE, 1, 1}}};
    const struct fragrance_fact fact[] = {{.allergen = -1, CONSTITUENTS(pure[0])},
                                          {.allergen = -1, CONSTITUENTS(pure[1])}};
    double share[PLAN_ALLERGENS];
    (void)state;

    shares_of(2, (const struct fragrance_fact *const[]){&fact[0], &fact[1]}, (const double[]){0.080, 0.075}, share);
    assert_near(100.0 * share[9], 0.01185, 0.00005);
    assert_true(allergen_named(&sample_allergen[9], share[9]));
}

/* The plan has room for every allergen and the sums for every limit of the program's tables, and their links stay inside. */
static void the_tables_fit_into_the_sums(void **state)
{
    const struct reference *reference = facts_reference();
    size_t n;
    const struct fragrance_fact *fragrance = facts_fragrances(&n);
    (void)state;

    assert_true(reference->allergens > 0 && reference->allergens <= PLAN_ALLERGENS);
    assert_true(reference->limits > 0 && reference->limits <= LIMIT_ROWS);
    for (size_t i = 0; i < n; i++)
        for (size_t c = 0; c < fragrance[i].constituents; c++)
            assert_true(fragrance[i].constituent[c].limit >= 0 &&
                        (size_t)fragrance[i].constituent[c].limit < reference->limits);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_load_is_of_the_oils_or_of_the_batter_before_fragrance),
        cmocka_unit_test(three_percent_of_the_finished_bar_comes_back),
        cmocka_unit_test(the_share_rises_with_the_cure),
        cmocka_unit_test(the_largest_share_of_clove_is_that_of_its_strictest_constituent),
        cmocka_unit_test(two_oils_share_one_limit),
        cmocka_unit_test(of_three_oils_with_six_limits_citral_binds),
        cmocka_unit_test(the_stricter_of_two_figures_counts_for_rose_otto),
        cmocka_unit_test(a_cap_in_law_alone_binds_wintergreen),
        cmocka_unit_test(lavender_names_its_constituents_and_itself),
        cmocka_unit_test(sources_below_the_threshold_add_up_above_it),
        cmocka_unit_test(exactly_at_the_threshold_is_not_named),
        cmocka_unit_test(isomers_under_one_name_are_added_first),
        cmocka_unit_test(the_tables_fit_into_the_sums),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
