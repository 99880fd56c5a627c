/* Which limit binds a blend of fragrances, how it is met, and what is said about going over it. */
#include "calc/fragrance_sample.h"
#include "calc/limit.h"
#include "calc/product.h"

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

/* Doses are rounded portion by portion: the second holds less fragrance in all but more lemongrass. */
static void the_portion_nearest_to_a_limit_counts_even_if_another_holds_more_fragrance(void **state)
{
    struct scene s;
    (void)state;

    scene_start(&s);
    s.plan.oils_ug = mass_ug(700.0);
    s.plan.batter_ug = mass_ug(1000.0);
    s.plan.water.water.rounded_ug = mass_ug(200.0);
    scene_portion(&s, 500.0, true, TECHNIQUE_POUR);
    scene_portion(&s, 500.0, true, TECHNIQUE_POUR);
    scene_fragrance(&s, &lavender, 0.0);
    scene_fragrance(&s, &lemongrass, 0.0);
    s.plan.portion[0].fragrance[0].rounded_ug = mass_ug(8.0);
    s.plan.portion[0].fragrance[1].rounded_ug = mass_ug(6.0);
    s.plan.portion[1].fragrance[0].rounded_ug = mass_ug(6.0);
    s.plan.portion[1].fragrance[1].rounded_ug = mass_ug(7.0);
    fragrance_plan(&s.in, &s.plan);

    assert_int_equal(s.plan.worst_portion, 0);
    assert_near(s.plan.limit.scale, 0.012 / (7.0 * 0.85 / s.plan.portion[1].cured_g), 1e-9);
    assert_int_equal(scene_count(&s, FINDING_FRAGRANCE_LIMIT), 1);
}

static void of_two_equal_figures_the_one_that_was_seen_is_named(void **state)
{
    static const struct limit_fact equal[] = {{.allergen = -1, IFRA(0.01, MEMORY), EU(0.01, SEEN)}};
    static const struct constituent pure[] = {{0, 1, 1}};
    static const struct fragrance_fact fact = {.allergen = -1, CONSTITUENTS(pure)};
    struct scene s;
    (void)state;

    one_portion(&s, TECHNIQUE_POUR);
    s.reference.limit = equal;
    s.reference.limits = ROWS(equal);
    scene_fragrance(&s, &fact, 0.03);
    plan_fragrance(&s);
    assert_int_equal(s.plan.limit.from, LIMIT_EU);
    assert_int_equal(s.plan.limit.standing, STANDING_SEEN);
    assert_int_equal(scene_count(&s, FINDING_FRAGRANCE_LIMIT), 1);
    assert_int_equal(s.plan.finding[0].level, LEVEL_STOP);
}

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

int main(void)
{
    const struct CMUnitTest tests[] = {
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
        cmocka_unit_test(the_portion_nearest_to_a_limit_counts_even_if_another_holds_more_fragrance),
        cmocka_unit_test(of_two_equal_figures_the_one_that_was_seen_is_named),
        cmocka_unit_test(the_order_of_fragrances_does_not_matter),
        cmocka_unit_test(more_fragrance_is_a_larger_share_and_never_further_from_a_limit),
        cmocka_unit_test(a_blend_brought_to_its_scale_just_meets_the_limit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
