/* Properties over random recipes, and the superfat interval against Monte Carlo (JCGM 101:2008) with GSL's
 * generator. */
#include "kitchen.h"

#include <gsl/gsl_rng.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>

#include "calc/constants.h"

enum { ROUNDS = 1500, DRAWS = 40000 };

static double between(gsl_rng *rng, double lo, double hi)
{
    return lo + (hi - lo) * gsl_rng_uniform(rng);
}

/* Small and large alike: even in the logarithm. */
static double spread(gsl_rng *rng, double lo, double hi)
{
    return exp(between(rng, log(lo), log(hi)));
}

static bool one_in(gsl_rng *rng, unsigned long n)
{
    return gsl_rng_uniform_int(rng, n) == 0;
}

/* A recipe such as a maker has: ranges within 5 %, two scales with accuracy, a few oils, acids, milk, both alkalis. */
static struct kitchen *usual_recipe(gsl_rng *rng)
{
    static const struct oil_fact *const oils[] = {&OLIVE, &COCONUT, &PALM_HYBRID, &CASTOR};
    struct kitchen *k = kitchen_new();
    double batch_g = spread(rng, 150, 3000);

    k->recipe.superfat = between(rng, 0, 0.12);
    kitchen_scale(k, 1, 20000, one_in(rng, 2) ? 1 : 0);
    if (!one_in(rng, 3))
        kitchen_scale(k, 0.01, 200, one_in(rng, 2) ? 0.01 : 0);
    for (size_t i = 0; i < 4; i++)
        kitchen_oil(k, oils[i], batch_g * between(rng, 0.05, 1));
    kitchen_own(k, "own", batch_g * between(rng, 0.05, 1), 0, between(rng, 160, 260), 0);
    if (one_in(rng, 2))
        kitchen_additive(k, &CITRIC, batch_g * between(rng, 0.005, 0.03));
    if (one_in(rng, 3))
        kitchen_liquid(k, &COCONUT_MILK, &COCONUT, between(rng, 0.1, 0.9));
    k->recipe.alkali.potassium_share = one_in(rng, 3) ? between(rng, 0, 1) : 0;
    k->recipe.alkali.purity[ALKALI_NAOH] = (struct ranged){true, 0.97, 0.99, 1};
    k->recipe.alkali.purity[ALKALI_KOH] = (struct ranged){true, 0.87, 0.9, 0.92};
    if (one_in(rng, 4))
        k->recipe.alkali.solution_share[ALKALI_NAOH] = 0.5;
    return k;
}

/* Anything that the exchange format lets in. */
static struct kitchen *any_recipe(gsl_rng *rng)
{
    static const struct oil_fact *const oils[] = {&OLIVE, &COCONUT, &JOJOBA};
    struct kitchen *k = kitchen_new();

    k->recipe.superfat = one_in(rng, 5) ? 0.5 : between(rng, 0, 0.5);
    for (int i = 0; i < 3; i++)
        if (one_in(rng, 2))
            kitchen_scale(k, spread(rng, 1e-6, 1000), spread(rng, 1e-3, 1e6), spread(rng, 1e-6, 100));
    for (size_t i = 0; i < 3; i++)
        kitchen_oil(k, oils[i], spread(rng, 1e-6, 1e6));
    if (one_in(rng, 2))
        kitchen_own(k, "own", spread(rng, 1e-6, 1e6), 0, spread(rng, 1e-300, 400), 0);
    if (one_in(rng, 2))
        kitchen_additive(k, &LACTIC, spread(rng, 1e-6, 1e6));
    if (one_in(rng, 2))
        kitchen_additive(k, &MILK_POWDER, spread(rng, 1e-6, 1e6));
    k->facts.additive_fat[1] = k->recipe.additives == 2 ? &OLIVE : NULL;
    if (one_in(rng, 2))
        kitchen_liquid(k, &COCONUT_MILK, &COCONUT, one_in(rng, 2) ? 1 : between(rng, 0, 1));
    if (one_in(rng, 3))
        kitchen_liquid(k, &VINEGAR, NULL, one_in(rng, 2) ? 1 : between(rng, 0, 1));
    k->recipe.alkali.potassium_share = one_in(rng, 2) ? between(rng, 0, 1) : 0;
    for (int i = 0; i < ALKALIS; i++) {
        double purity = one_in(rng, 2) ? 1 : spread(rng, 1e-300, 1);

        k->recipe.alkali.purity[i] = (struct ranged){true, purity, purity, purity};
        k->recipe.alkali.solution_share[i] = one_in(rng, 3) ? spread(rng, 1e-300, 1) : 0;
    }
    k->recipe.water.by = (enum water_by)gsl_rng_uniform_int(rng, 3);
    k->recipe.water.value = k->recipe.water.by == WATER_RATIO ? spread(rng, 1e-6, 1e300) : spread(rng, 1e-300, 1);
    k->recipe.purpose = (enum purpose)gsl_rng_uniform_int(rng, 4);
    if (one_in(rng, 3))
        k->recipe.size = (struct recipe_size){.by = one_in(rng, 2) ? SIZE_OILS : SIZE_BATTER,
                                              .grams = spread(rng, 1e-6, 1e6)};
    return k;
}

typedef void property(struct kitchen *k, gsl_rng *rng);

static void for_recipes(struct kitchen *(*make)(gsl_rng *), property *holds, unsigned long seed)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

    gsl_rng_set(rng, seed);
    for (int i = 0; i < ROUNDS; i++)
        holds(make(rng), rng);
    gsl_rng_free(rng);
}

static void scale_all(struct recipe *recipe, double by)
{
    for (int i = 0; i < recipe->oils; i++)
        recipe->oil[i].amount *= by;
    for (int i = 0; i < recipe->additives; i++)
        recipe->additive[i].value *= by;
}

static void twice_is_twice(struct kitchen *k, gsl_rng *rng)
{
    double naoh, koh, water, milk;

    (void)rng;
    kitchen_plan(k);
    naoh = naoh_exact(&k->plan);
    koh = koh_exact(&k->plan);
    water = k->plan.water.water.exact_g;
    milk = k->plan.liquid[0].liquid.exact_g;
    scale_all(&k->recipe, 2);
    kitchen_plan(k);
    assert_near(naoh_exact(&k->plan), 2 * naoh, 1e-9 * naoh);
    assert_near(koh_exact(&k->plan), 2 * koh, 1e-9 * koh);
    assert_near(k->plan.water.water.exact_g, 2 * water, 1e-9 * (water + 1));
    assert_near(k->plan.liquid[0].liquid.exact_g, 2 * milk, 1e-9 * milk);
}

static void a_recipe_twice_as_large_takes_twice_the_alkali(void **state)
{
    (void)state;
    for_recipes(usual_recipe, twice_is_twice, 1);
}

static double moles_exact(const struct kitchen *k)
{
    return naoh_exact(&k->plan) * k->plan.purity[ALKALI_NAOH].nominal / MOLAR_NAOH +
           koh_exact(&k->plan) * k->plan.purity[ALKALI_KOH].nominal / MOLAR_KOH;
}

static void less_by_superfat(struct kitchen *k, gsl_rng *rng)
{
    double before;

    kitchen_plan(k);
    before = moles_exact(k);
    k->recipe.superfat += between(rng, 0.001, 0.05);
    kitchen_plan(k);
    assert_true(moles_exact(k) < before);
}

static void alkali_falls_with_superfat(void **state)
{
    (void)state;
    for_recipes(usual_recipe, less_by_superfat, 2);
}

static void more_by_sap(struct kitchen *k, gsl_rng *rng)
{
    double before;

    kitchen_plan(k);
    before = moles_exact(k);
    k->recipe.oil[4].sap.nominal += between(rng, 0.1, 20);
    kitchen_plan(k);
    assert_true(moles_exact(k) > before);
}

static void alkali_rises_with_a_saponification_value(void **state)
{
    (void)state;
    for_recipes(usual_recipe, more_by_sap, 3);
}

static void swap_oils(struct kitchen *k, int a, int b)
{
    struct recipe_oil oil = k->recipe.oil[a];
    const struct oil_fact *fact = k->facts.oil[a];

    k->recipe.oil[a] = k->recipe.oil[b];
    k->recipe.oil[b] = oil;
    k->facts.oil[a] = k->facts.oil[b];
    k->facts.oil[b] = fact;
}

static void same_in_any_order(struct kitchen *k, gsl_rng *rng)
{
    struct margin before;
    double moles;

    kitchen_plan(k);
    before = k->plan.margin;
    moles = moles_exact(k);
    for (int i = k->recipe.oils - 1; i > 0; i--)
        swap_oils(k, i, (int)gsl_rng_uniform_int(rng, (unsigned long)i + 1));
    kitchen_plan(k);
    assert_near(moles_exact(k), moles, 1e-12 * moles);
    assert_near(k->plan.margin.mean, before.mean, 1e-12);
    assert_near(k->plan.margin.sd, before.sd, 1e-12);
    assert_near(k->plan.margin.worst.lo, before.worst.lo, 1e-12);
    assert_near(k->plan.margin.worst.hi, before.worst.hi, 1e-12);
}

static void the_order_of_the_oils_does_not_matter(void **state)
{
    (void)state;
    for_recipes(usual_recipe, same_in_any_order, 4);
}

/* Numbers of a plan that must not be infinite or no number, whatever the recipe. */
static void check_finite(const struct plan *plan)
{
    const struct margin *m = &plan->margin;
    const double all[] = {
        plan->oils_exact_g,
        plan->demand_mol,
        plan->acid_mol,
        plan->water.total_g,
        plan->water.strength,
        plan->water.strength_rounded,
        plan->water.ratio,
        plan->water.of_oils,
        plan->water.water.exact_g,
        plan->alkali[0].alkali.exact_g,
        plan->alkali[0].solution.exact_g,
        plan->alkali[0].moles,
        plan->alkali[1].alkali.exact_g,
        plan->alkali[1].solution.exact_g,
        plan->alkali[1].moles,
        plan->liquid[0].liquid.exact_g,
        plan->liquid[0].fat_g,
        plan->liquid[1].liquid.exact_g,
        plan->liquid[1].acid_mol,
        m->nominal,
        m->mean,
        m->sd,
        m->likely.lo,
        m->likely.hi,
        m->worst.lo,
        m->worst.hi,
        m->chance_lye_heavy,
        m->mostly_share,
        m->mass_share,
    };

    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        assert_true(isfinite(all[i]));
    for (int f = 0; f < plan->findings; f++)
        for (int i = 0; i < FINDING_NUMBERS; i++)
            assert_true(isfinite(plan->finding[f].number[i]));
}

static void orderly(struct kitchen *k, gsl_rng *rng)
{
    const struct margin *m = &k->plan.margin;
    int64_t sum_ug = 0;

    (void)rng;
    kitchen_plan(k);
    check_finite(&k->plan);
    assert_true(m->worst.lo <= m->nominal + 1e-12 && m->nominal <= m->worst.hi + 1e-12);
    assert_true(m->worst.lo <= m->likely.lo && m->likely.lo <= m->mean + 1e-12);
    assert_true(m->mean <= m->likely.hi + 1e-12 && m->likely.hi <= m->worst.hi);
    assert_true(m->chance_lye_heavy >= 0 && m->chance_lye_heavy <= 1);
    for (int i = 0; i < k->recipe.oils; i++)
        sum_ug += k->plan.oil[i].rounded_ug;
    assert_true(sum_ug == k->plan.oils_ug);
    for (int i = 0; i < ALKALIS; i++)
        sum_ug += k->plan.alkali[i].solution.division_ug ? k->plan.alkali[i].solution.rounded_ug
                                                         : k->plan.alkali[i].alkali.rounded_ug;
    for (int i = 0; i < k->recipe.water.liquids; i++)
        sum_ug += k->plan.liquid[i].liquid.rounded_ug;
    for (int i = 0; i < k->recipe.additives; i++)
        sum_ug += k->plan.additive[i].additive.rounded_ug;
    assert_true(sum_ug + k->plan.water.water.rounded_ug == k->plan.batter_ug);
    assert_true(k->plan.batter_ug >= 0);
}

static void every_recipe_has_a_plan_that_adds_up_and_is_finite(void **state)
{
    (void)state;
    for_recipes(usual_recipe, orderly, 5);
    for (unsigned long seed = 6; seed < 16; seed++)
        for_recipes(any_recipe, orderly, seed);
}

/* The interval, drawn from the same inputs by another road. */
struct draw {
    double sap[RECIPE_OILS + 1], purity[ALKALIS], off_g[RECIPE_SCALES];
};

static double in_range(gsl_rng *rng, struct ranged range)
{
    return between(rng, range.lo, range.hi);
}

static double drawn_mass(gsl_rng *rng, const struct draw *draw, const struct weighing *weighing)
{
    double half_g = mass_g(weighing->division_ug) / 2;

    return weighing->division_ug == 0
               ? 0
               : mass_g(weighing->rounded_ug) + between(rng, -half_g, half_g) + draw->off_g[weighing->scale];
}

static double drawn_superfat(const struct kitchen *k, gsl_rng *rng)
{
    const struct plan *plan = &k->plan;
    struct draw draw;
    double demand = 0, acid = 0, alkali = 0;

    for (int i = 0; i < plan->scales; i++)
        draw.off_g[i] = between(rng, -1, 1) * mass_g(plan->scale[i].accuracy_ug);
    for (int i = 0; i < k->recipe.oils; i++)
        draw.sap[i] = in_range(rng, plan->sap[i]);
    for (int i = 0; i < k->recipe.oils; i++)
        demand += drawn_mass(rng, &draw, &plan->oil[i]) * draw.sap[i] / 1000 / MOLAR_KOH;
    if (k->recipe.water.liquids) { /* coconut milk: its fat is the coconut oil of line 1, one input */
        double milk_g = drawn_mass(rng, &draw, &plan->liquid[0].liquid);

        demand += milk_g * 0.21 * draw.sap[1] / 1000 / MOLAR_KOH;
        acid += milk_g * 0.01 / 1000;
    }
    if (k->recipe.additives)
        acid += drawn_mass(rng, &draw, &plan->additive[0].additive) * 3 / 192.123;
    for (int i = 0; i < ALKALIS; i++) {
        const struct plan_alkali *a = &plan->alkali[i];
        double grams = a->solution.division_ug
                           ? drawn_mass(rng, &draw, &a->solution) * k->recipe.alkali.solution_share[i]
                           : drawn_mass(rng, &draw, &a->alkali);

        alkali += grams * in_range(rng, plan->purity[i]) / MOLAR_ALKALI[i];
    }
    return 1 - (alkali - acid) / demand;
}

/* JCGM 101:2008: mean and standard deviation within 0.05 points, and no draw outside the worst interval. */
static void mean_spread_and_edges_agree_with_monte_carlo(void **state)
{
    static double drawn[DRAWS];
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

    (void)state;
    gsl_rng_set(rng, 101);
    for (int round = 0; round < 40; round++) {
        const struct kitchen *k = usual_recipe(rng);
        const struct margin *m = &kitchen_plan((struct kitchen *)(uintptr_t)k)->margin;

        for (int i = 0; i < DRAWS; i++) {
            drawn[i] = drawn_superfat(k, rng);
            assert_true(drawn[i] >= m->worst.lo - 1e-12 && drawn[i] <= m->worst.hi + 1e-12);
        }
        assert_near(100 * gsl_stats_mean(drawn, 1, DRAWS), 100 * m->mean, 0.05);
        assert_near(100 * gsl_stats_sd(drawn, 1, DRAWS), 100 * m->sd, 0.05);
    }
    gsl_rng_free(rng);
}

/* The worst interval is reached: drawing each input at one of its ends, the best of all corners comes to it. */
static void edges_are_reached_at_corners(void **state)
{
    struct kitchen *k = kitchen_new();
    double lo = 1, hi = -1;

    (void)state;
    k->recipe.alkali.purity[ALKALI_NAOH] = (struct ranged){true, 0.97, 0.99, 1};
    kitchen_scale(k, 1, 5000, 2);
    kitchen_scale(k, 0.1, 100, 0.3);
    kitchen_oil(k, &OLIVE, 300);
    kitchen_oil(k, &COCONUT, 90);
    kitchen_additive(k, &CITRIC, 20);
    kitchen_plan(k);
    for (unsigned corner = 0; corner < 1u << 9; corner++) {
        double way[9], s, n, acid, demand;

        for (unsigned i = 0; i < 9; i++)
            way[i] = corner >> i & 1u ? 1 : -1;
        demand = ((300 + way[0] * 0.5 + way[7] * 2) * (190 + way[1] * 6) +
                  (90 + way[2] * 0.05 + way[8] * 0.3) * (256.5 + way[3] * 8.5)) /
                 1000 / MOLAR_KOH;
        acid = (20 + way[4] * 0.05 + way[8] * 0.3) * 3 / 192.123;
        n = (mass_g(k->plan.alkali[0].alkali.rounded_ug) + way[5] * 0.05 + way[8] * 0.3) * (0.985 + way[6] * 0.015) /
            MOLAR_NAOH;
        s = 1 - (n - acid) / demand;
        lo = fmin(lo, s);
        hi = fmax(hi, s);
    }
    assert_int_equal(k->plan.alkali[0].alkali.scale, 1);
    assert_near(k->plan.margin.worst.lo, lo, 1e-12);
    assert_near(k->plan.margin.worst.hi, hi, 1e-12);
}

/* Several oils and the alkali on one scale that is off by 5 g: with about nine oils it is a near thing whether
 * reading high or low is worse, and it turns on how much there is of one more oil, 300 g on a scale that only shows
 * hundreds. Both ways are tried here; all else is exact. */
static void the_worse_way_for_a_scale_to_be_off_is_found(void **state)
{
    (void)state;
    for (int oils = 5; oils <= 10; oils++)
        for (double sap = 150; sap < 260; sap += 0.25) {
            struct kitchen *k = kitchen_new();
            double naoh_g, low[2], high[2], mol_g = sap / 1000 / MOLAR_KOH;

            kitchen_scale(k, 0.000001, 200, 5);
            kitchen_scale(k, 100, 5000, 0);
            kitchen_own(k, "oil", 300, sap, sap, sap);
            for (int i = 0; i < oils; i++)
                kitchen_own(k, "oil", 30, sap, sap, sap);
            kitchen_plan(k);
            naoh_g = mass_g(k->plan.alkali[0].alkali.rounded_ug);
            for (int i = 0; i < 2; i++) {
                double off_g = i ? 5 : -5, moles = (naoh_g + off_g) / MOLAR_NAOH;

                low[i] = 1 - moles / ((250 + oils * (30 + off_g)) * mol_g);
                high[i] = 1 - moles / ((350 + oils * (30 + off_g)) * mol_g);
            }
            assert_near(k->plan.margin.worst.lo, fmin(low[0], low[1]), 1e-7);
            assert_near(k->plan.margin.worst.hi, fmax(high[0], high[1]), 1e-7);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CHECK(a_recipe_twice_as_large_takes_twice_the_alkali),
        CHECK(alkali_falls_with_superfat),
        CHECK(alkali_rises_with_a_saponification_value),
        CHECK(the_order_of_the_oils_does_not_matter),
        CHECK(every_recipe_has_a_plan_that_adds_up_and_is_finite),
        CHECK(mean_spread_and_edges_agree_with_monte_carlo),
        CHECK(edges_are_reached_at_corners),
        CHECK(the_worse_way_for_a_scale_to_be_off_is_found),
    };

    return cmocka_run_group_tests_name("superfat, at random", tests, NULL, NULL);
}
