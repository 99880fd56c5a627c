/* Fatty acids of the blend: what counts, what is not known, and the remark on rancidity. */
#include "calc/acids.h"

#include "calc/scene.h"

static void add_oil(struct scene *s, const char *key, double share)
{
    int i = s->recipe.oils++;

    s->facts.oil[i] = key != NULL ? facts_oil(key) : NULL;
    s->plan.oil_share[i] = share;
    if (key != NULL)
        assert_non_null(s->facts.oil[i]);
}

/* Worked example of the exchange format: olive 45 %, coconut 25 %, and 30 % of an oil of which nothing is known. */
static void the_worked_recipe_has_its_acids_as_printed(void **state)
{
    struct scene s;
    (void)state;

    scene_start(&s);
    add_oil(&s, "olive", 0.45);
    add_oil(&s, "coconut", 0.25);
    add_oil(&s, NULL, 0.30);
    acids_plan(&s.in, &s.plan);
    assert_near(100.0 * s.plan.acids.share[ACID_C12_0], 11.86, 0.005);
    assert_near(100.0 * s.plan.acids.unknown, 30.0, 1e-9);
    assert_near(s.plan.acids.iodine_value, 39.7, 0.05);
    assert_near(s.plan.acids.oxidisability, 0.98, 0.005);
    assert_int_equal(s.plan.findings, 0);
}

static void subtotals_and_the_unknown_make_up_the_whole(void **state)
{
    struct scene s;
    (void)state;

    scene_start(&s);
    add_oil(&s, "castor", 0.3);
    add_oil(&s, "coconut", 0.3);
    add_oil(&s, "sunflower", 0.2);
    add_oil(&s, NULL, 0.2);
    acids_plan(&s.in, &s.plan);
    const struct plan_acids *acids = &s.plan.acids;
    assert_near(acids->saturated + acids->monounsaturated + acids->polyunsaturated + acids->hydroxy + acids->unknown,
                1.0, 1e-9);
    assert_near(acids->hydroxy, acids->share[ACID_RICINOLEIC], 1e-15);
    assert_near(acids->polyunsaturated, acids->share[ACID_C18_2] + acids->share[ACID_C18_3], 1e-15);
}

/* Jojoba, a wax: iodine range, but no fatty acids of triglycerides. */
static void an_oil_without_acids_counts_at_the_middle_of_its_iodine_range(void **state)
{
    struct scene s;
    static const struct oil_fact ranged = {.has_iodine = true, .iodine_lo = 80.0, .iodine_hi = 90.0};
    (void)state;

    scene_start(&s);
    add_oil(&s, "coconut", 0.5);
    acids_plan(&s.in, &s.plan);
    double coconut = s.plan.acids.iodine_value;
    add_oil(&s, NULL, 0.5);
    s.facts.oil[1] = &ranged;
    acids_plan(&s.in, &s.plan);
    assert_near(s.plan.acids.iodine_value, coconut + 0.5 * 85.0, 1e-9);
    assert_near(s.plan.acids.unknown, 0.5, 1e-15);
}

/* Common practice: above 15 % of linoleic and linolenic acid together. */
static void rancidity_is_a_remark_above_its_share_and_not_at_it(void **state)
{
    static const struct oil_fact even = {.has_acids = true,
                                         .acid = {[ACID_C18_2] = 0.10, [ACID_C18_3] = 0.05, [ACID_C16_0] = 0.85}};
    struct scene s;
    (void)state;

    scene_start(&s);
    add_oil(&s, NULL, 1.0);
    s.facts.oil[0] = &even;
    acids_plan(&s.in, &s.plan);
    assert_int_equal(s.plan.findings, 0);

    scene_start(&s);
    add_oil(&s, "sunflower", 0.3);
    add_oil(&s, "coconut", 0.7);
    acids_plan(&s.in, &s.plan);
    const struct finding *finding = scene_finding(&s, FINDING_RANCID_RISK);
    assert_non_null(finding);
    assert_int_equal(finding->level, LEVEL_REMARK);
    assert_near(finding->number[0], s.plan.acids.share[ACID_C18_2] + s.plan.acids.share[ACID_C18_3], 1e-15);
    assert_near(finding->number[1], 0.15, 1e-15);
}

/* Property: a blend is the weighted mean of its oils, whatever their order. */
static void the_order_of_oils_does_not_matter(void **state)
{
    static const char *const key[] = {"olive", "coconut", "lard", "castor", "sunflower"};
    static const double share[] = {0.31, 0.27, 0.2, 0.07, 0.15};
    struct scene a, b;
    (void)state;

    scene_start(&a);
    scene_start(&b);
    for (size_t i = 0; i < ROWS(key); i++) {
        add_oil(&a, key[i], share[i]);
        add_oil(&b, key[ROWS(key) - 1 - i], share[ROWS(key) - 1 - i]);
    }
    acids_plan(&a.in, &a.plan);
    acids_plan(&b.in, &b.plan);
    for (int i = 0; i < ACIDS; i++)
        assert_near(a.plan.acids.share[i], b.plan.acids.share[i], 1e-15);
    assert_near(a.plan.acids.iodine_value, b.plan.acids.iodine_value, 1e-12);
    assert_near(a.plan.acids.oxidisability, b.plan.acids.oxidisability, 1e-12);
}

static void no_oils_at_all_leave_only_zeros(void **state)
{
    struct scene s;
    const double none[ACIDS] = {0};
    (void)state;

    scene_start(&s);
    acids_plan(&s.in, &s.plan);
    assert_true(s.plan.acids.iodine_value == 0.0 && s.plan.acids.unknown == 0.0);
    assert_true(acids_sap(facts_reference(), none) == 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_worked_recipe_has_its_acids_as_printed),
        cmocka_unit_test(subtotals_and_the_unknown_make_up_the_whole),
        cmocka_unit_test(an_oil_without_acids_counts_at_the_middle_of_its_iodine_range),
        cmocka_unit_test(rancidity_is_a_remark_above_its_share_and_not_at_it),
        cmocka_unit_test(the_order_of_oils_does_not_matter),
        cmocka_unit_test(no_oils_at_all_leave_only_zeros),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
