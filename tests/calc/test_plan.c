/* Whole plans: fragrance, heat, acids and pace of the worked example of the exchange format, and of random recipes. */
#include "calc/split_sample.h"

static void the_worked_example_has_its_printed_figures(void **state)
{
    static struct sample s;
    const struct plan *plan = &s.plan;
    (void)state;

    sample_base(&s);
    plan_compute(&s.in, &s.plan);
    assert_int_equal(plan->portion[0].fragrance_ug, ug(17.90));
    assert_int_equal(plan->portion[1].fragrance_ug, ug(7.46));
    near(plan->portion[0].filled_g, 889.88, 1e-9);
    near(plan->portion[0].volume_ml, 884, 0.5);
    near(100 * plan->fragrance[0].share_of_product, 2.27, 0.005);
    assert_false(plan->fragrance[0].has_limit);
    near(plan->heat.up_to_c, 108, 0.5);
    near(100 * plan->acids.share[ACID_C12_0], 11.86, 0.005);
    near(100 * plan->acids.unknown, 30, 1e-9);
    near(plan->acids.iodine_value, 39.7, 0.05);
    near(plan->acids.oxidisability, 0.98, 0.005);
    near(plan->portion[2].pace.need, 28, 0.5);
    assert_null(find(plan, FINDING_FRAGRANCE_LIMIT));
    assert_null(find(plan, FINDING_FRAGRANCE_FAST));
    assert_null(find(plan, FINDING_RANCID_RISK));
    assert_null(find(plan, FINDING_HEAT_BOIL));
}

/* Same source: Linalool at 1.02 % of the product. */
static void the_worked_example_names_linalool(void **state)
{
    static struct sample s;
    double share = 0;
    (void)state;

    sample_base(&s);
    plan_compute(&s.in, &s.plan);
    for (int i = 0; i < s.plan.allergens; i++)
        if (strcmp(s.in.reference->allergen[s.plan.allergen[i].allergen].inci, "Linalool") == 0)
            share = s.plan.allergen[i].share;
    near(100 * share, 1.02, 0.005);
}

static void random_recipe(struct sample *s)
{
    size_t fragrances, oils;
    const struct fragrance_fact *fragrance = facts_fragrances(&fragrances);
    const struct oil_fact *oil = facts_oils(&oils);

    sample_base(s);
    s->recipe.size.grams = exp(random_between(log(1), log(1e6)));
    s->recipe.water.value = random_between(0.05, 0.6);
    s->recipe.water.temp_c = random_between(-20, 60);
    s->recipe.alkali.potassium_share = random_int(0, 2) / 2.0;
    s->recipe.alkali.solution_share[ALKALI_NAOH] = random_int(0, 3) == 0 ? 0.5 : 0;
    s->recipe.scent = random_int(0, 1) ? PUT_IN_BATTER : PUT_IN_PORTIONS;
    s->facts.oil[0] = &oil[random_int(0, (int)oils - 1)];
    s->facts.oil[1] = &oil[random_int(0, (int)oils - 1)];
    s->recipe.fragrances = random_int(0, RECIPE_FRAGRANCES);
    for (int i = 0; i < s->recipe.fragrances; i++) {
        struct recipe_fragrance *asked = &s->recipe.fragrance[i];

        asked->by = (enum fragrance_by)random_int(0, 2);
        asked->value = random_share() * (asked->by == FRAGRANCE_PER_KG_OILS ? 100 : 0.1);
        asked->has_limit = random_int(0, 2) == 0;
        asked->limit_share = random_int(0, 4) * 0.02;
        s->facts.fragrance[i] = random_int(0, 5) ? &fragrance[random_int(0, (int)fragrances - 1)] : NULL;
    }
    for (int p = 0; p < s->recipe.portions; p++) {
        s->recipe.portion[p].scented = random_int(0, 1);
        s->recipe.portion[p].technique = (enum technique)random_int(0, 4);
    }
    s->bench.combine_temp_c = random_between(5, 90);
    s->bench.long_blend = random_int(0, 1);
}

static void assert_portion_finite(const struct plan_portion *portion)
{
    const struct plan_pace *pace = &portion->pace;

    assert_true(isfinite(portion->cured_g) && portion->cured_g >= 0 && portion->cured_g <= portion->filled_g);
    assert_true(isfinite(portion->volume_ml));
    assert_true(isfinite(pace->from.high) && isfinite(pace->until.high) && isfinite(pace->need));
    assert_true(pace->from.low <= pace->from.median && pace->from.median <= pace->until.median);
}

/* Property: whatever the recipe, every number is finite, no share is over the whole, and what is said agrees with itself. */
static void random_recipes_have_finite_figures_that_agree(void **state)
{
    static struct sample s;
    (void)state;

    for (int round = 0; round < 3000; round++) {
        const struct plan *plan = &s.plan;
        double shares = 0;

        random_recipe(&s);
        plan_compute(&s.in, &s.plan);
        for (int p = 0; p < plan->portions; p++)
            assert_portion_finite(&plan->portion[p]);
        for (int i = 0; i < s.recipe.fragrances; i++) {
            shares += plan->fragrance[i].share_of_product;
            assert_true(isfinite(plan->fragrance[i].limit_share));
            if (plan->fragrance[i].has_limit)
                near(plan->fragrance[i].limit_share, plan->fragrance[i].share_of_product * plan->limit.scale, 1e-12);
        }
        assert_true(isfinite(shares) && shares <= 1.0);
        assert_true(isfinite(plan->limit.scale) && plan->limit.scale >= 0);
        assert_int_equal(find(plan, FINDING_FRAGRANCE_LIMIT) != NULL, plan->limit.scale < 1 - 1e-9);
        assert_true(isfinite(plan->heat.up_to_c) && plan->heat.up_to_c <= plan->heat.boils_at_c);
        assert_true(isfinite(plan->acids.iodine_value) && plan->acids.unknown <= 1 + 1e-12);
        for (int i = 0; i < plan->findings; i++)
            for (int n = 0; n < FINDING_NUMBERS; n++)
                assert_true(isfinite(plan->finding[i].number[n]));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_worked_example_has_its_printed_figures),
        cmocka_unit_test(the_worked_example_names_linalool),
        cmocka_unit_test(random_recipes_have_finite_figures_that_agree),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
