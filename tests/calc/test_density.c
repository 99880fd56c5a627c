/* test_density.c - density of oils and batter: by hand, by the worked example, and between those of what is in it. */
#include "calc/split_sample.h"

#include "calc/density.h"
#include "calc/lye.h"

/* Source: CXS 210-1999 (2022), table 2, second-hand: coconut 0.913 at 40 C; olive 0.911 at 20 C. -0.00068 g/mL a
 * degree is common practice: 0.9164 and 0.9008 at 35 C. No density: 0.91 at 20 C. */
static void oils_are_brought_to_the_temperature(void **state)
{
    const struct practice *practice = facts_reference()->practice;
    struct oil_fact bare = {.key = "bare"};

    (void)state;
    near(density_oil(practice, facts_oil("coconut"), 35), 0.9164, 1e-9);
    near(density_oil(practice, facts_oil("olive"), 35), 0.9008, 1e-9);
    near(density_oil(practice, facts_oil("olive"), 20), 0.911, 1e-9);
    near(density_oil(practice, NULL, 35), 0.8998, 1e-9);
    near(density_oil(practice, &bare, 35), 0.8998, 1e-9);
}

/* By hand for the exchange format's example: lye 147.24 + 299 g at 32.996 % is 1.34953 at 35 C (CRC and Perry's
 * rows), so 450/0.9008 + 250/0.9164 + 300/0.8998 + 446.24/1.34953 + 10/1.665 = 1442.43 mL. */
static void the_worked_example_has_the_density_written_there(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    plan_compute(&s.in, &s.plan);
    near(mass_g(s.plan.batter_ug), 1456.24, 1e-9);
    near(s.plan.batter_ml, 450 / 0.9008 + 250 / 0.9164 + 300 / 0.8998 + 446.24 / 1.34953 + 10 / 1.665, 0.01);
    near(s.plan.batter_ml, 1442.4, 0.05);
    near(s.plan.density_g_ml, 1.0096, 5e-5);
    near(s.plan.portion[0].volume_ml, 884, 0.5);
    near(s.plan.portion[1].volume_ml, 368, 0.5);
    near(s.plan.portion[2].volume_ml, 215, 0.5);
}

/* By hand: as above with 1 - 0.04 of the density, or with 1.02 measured. */
static void a_measured_density_and_air_are_taken(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    s.bench.air_share = 0.04;
    plan_compute(&s.in, &s.plan);
    near(s.plan.density_g_ml, 1456.24 / 1442.43 * 0.96, 1e-5);
    s.bench.density_g_ml = 1.02;
    plan_compute(&s.in, &s.plan);
    near(s.plan.density_g_ml, 1.02 * 0.96, 1e-12);
    near(s.plan.batter_ml, 1456.24 / (1.02 * 0.96), 1e-9);
}

/* By hand: 200 g of milk at 87.5 % water and 3.7 % fat bring 175 g to the lye, 7.4 g of butterfat and 17.6 g of
 * solids; lye is 100 + 50 + 175 g at 100/325 = 30.769 %. */
static void a_liquid_is_water_fat_and_solids(void **state)
{
    struct sample s;

    (void)state;
    sample_empty(&s);
    sample_oil(&s, "olive", 1);
    s.recipe.water.liquids = 1;
    s.facts.liquid[0] = facts_liquid("milk-cow");
    s.facts.liquid_fat[0] = facts_oil(s.facts.liquid[0]->fat_oil);
    s.plan.purity[ALKALI_NAOH] = (struct ranged){true, 1, 1, 1};
    s.plan.oil[0].rounded_ug = ug(700);
    s.plan.alkali[ALKALI_NAOH].alkali.rounded_ug = ug(100);
    s.plan.water.water.rounded_ug = ug(50);
    s.plan.liquid[0].liquid.rounded_ug = ug(200);
    s.plan.batter_ug = ug(1050);
    density_plan(&s.in, &s.plan);

    double fat_g_ml = density_oil(facts_reference()->practice, s.facts.liquid_fat[0], 35);
    double lye_g_ml = density_lye(facts_reference(), 100.0 / 325, 0, 35);

    near(s.plan.batter_ml, 700 / 0.9008 + 325 / lye_g_ml + 7.4 / fat_g_ml + 17.6, 1e-9);
}

/* By hand: 300 g of a ready-made half NaOH, 98 % pure, and 140 g of water: 147 g pure in 440 g. */
static void ready_made_lye_counts_whole(void **state)
{
    struct sample s;

    (void)state;
    sample_empty(&s);
    sample_oil(&s, "olive", 1);
    s.plan.purity[ALKALI_NAOH] = (struct ranged){true, 0.98, 0.98, 0.98};
    s.plan.oil[0].rounded_ug = ug(1000);
    s.plan.alkali[ALKALI_NAOH].alkali.rounded_ug = ug(150);
    s.plan.alkali[ALKALI_NAOH].solution.rounded_ug = ug(300);
    s.plan.water.water.rounded_ug = ug(140);
    s.plan.batter_ug = ug(1440);
    density_plan(&s.in, &s.plan);
    near(s.plan.batter_ml, 1000 / 0.9008 + 440 / density_lye(facts_reference(), 147.0 / 440, 0, 35), 1e-9);
}

/* By hand: equal moles, 40 g NaOH and 56.1 g KOH in 200 g of water, take half of each alkali's figure. */
static void two_alkalis_share_the_lye_by_moles(void **state)
{
    struct sample s;
    double share = (39.99677 + 56.1053) / 296.10207;

    (void)state;
    sample_empty(&s);
    s.plan.purity[ALKALI_NAOH] = s.plan.purity[ALKALI_KOH] = (struct ranged){true, 1, 1, 1};
    s.plan.alkali[ALKALI_NAOH].alkali.rounded_ug = ug(39.99677);
    s.plan.alkali[ALKALI_KOH].alkali.rounded_ug = ug(56.1053);
    s.plan.water.water.rounded_ug = ug(200);
    s.plan.batter_ug = ug(296.10207);
    density_plan(&s.in, &s.plan);
    near(s.plan.density_g_ml,
         (density_lye(facts_reference(), share, 0, 35) + density_lye(facts_reference(), share, 1, 35)) / 2, 1e-7);
}

/* Source: CRC Handbook, sucrose 32 % 1.1366 and 34 % 1.1464: 10 g in 20 g of water are 26.24 mL at 20 C. Volumes
 * added, with the water at 35 C, come to 26.40: what adding leaves out is small beside a mould's uncertainty. */
static void adding_volumes_is_near_the_handbook_s_syrup(void **state)
{
    struct sample s;

    (void)state;
    sample_empty(&s);
    s.recipe.additives = 1;
    s.facts.additive[0] = facts_additive("sugar");
    s.plan.additive[0].additive.rounded_ug = ug(10);
    s.plan.water.water.rounded_ug = ug(20);
    s.plan.batter_ug = ug(30);
    density_plan(&s.in, &s.plan);
    near(s.plan.batter_ml, 26.24, 0.007 * 26.24);
}

/* By hand: 20 g of colour with 60 g of olive as carrier and 30 g of lavender (0.885) in the whole batter. */
static void colour_and_scent_put_into_the_batter_count(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    plan_compute(&s.in, &s.plan);

    double plain_ml = s.plan.batter_ml, plain_g = mass_g(s.plan.batter_ug);

    s.recipe.scent = s.recipe.colour = PUT_IN_BATTER;
    s.recipe.portion[1].colourants = 0;

    struct recipe_colourant *white = &s.recipe.portion[0].colourant[0];

    white->by = COLOUR_GRAMS;
    white->value = 20;
    strcpy(white->carrier_oil, "olive");
    white->carrier_ratio = 3;
    s.facts.carrier[0][0] = facts_oil("olive");
    plan_compute(&s.in, &s.plan);
    near(mass_g(s.plan.batter_ug), plain_g + 20 + 60 + 30, 1e-9);
    near(s.plan.batter_ml, plain_ml + 20 + 60 / 0.9008 + 30 / 0.885, 1e-6);
    near(s.plan.portion[0].filled_g, mass_g(s.plan.portion[0].batter_ug), 1e-9);

    white->carrier_reserved = true;
    plan_compute(&s.in, &s.plan);
    near(mass_g(s.plan.batter_ug), plain_g + 20 + 30, 1e-9);
}

static void random_parts(struct sample *s)
{
    static const char *const oil[] = {"olive", "coconut", "palm", "castor", "sunflower", "cocoa-butter"};

    sample_empty(s);
    for (int i = random_int(1, 6); i > 0; i--)
        sample_oil(s, oil[random_int(0, 5)], random_between(5, 1000));
    s->recipe.oils_by = OILS_BY_GRAMS;
    s->recipe.size.by = SIZE_AS_GRAMS;
    s->recipe.alkali.potassium_share = random_share() < 0.5 ? 0 : random_share();
    s->recipe.water.value = random_between(0.2, 0.5);
    s->recipe.scent = random_share() < 0.5 ? PUT_IN_BATTER : PUT_IN_PORTIONS;
    s->recipe.fragrances = 1;
    s->recipe.fragrance[0] = (struct recipe_fragrance){.by = FRAGRANCE_OF_BATTER, .value = random_between(0, 0.06)};
    s->facts.fragrance[0] = facts_fragrance("lavender");
    sample_scale(s, 0.001, 1e7);
}

/* Property: between oil and lye at their lightest and heaviest; and the exact density is the rounded one on a fine
 * scale. */
static void batter_is_between_its_lightest_and_heaviest_part(void **state)
{
    (void)state;
    for (int turn = 0; turn < 1000; turn++) {
        struct sample s;
        struct lye_exact exact;

        random_parts(&s);
        if (random_share() < 0.5) {
            sample_portion(&s, DEMAND_REST, 0);
            s.recipe.colour = PUT_IN_BATTER;
            sample_colour(&s, 0, "titanium-dioxide", COLOUR_OF_PORTION, 0.02)->carrier_ratio = 2;
            strcpy(s.recipe.portion[0].colourant[0].carrier_oil, "castor");
            s.facts.carrier[0][0] = facts_oil("castor");
        }
        plan_compute(&s.in, &s.plan);
        assert_true(s.plan.density_g_ml > 0.85 && s.plan.density_g_ml < 1.54);
        lye_exact(&s.in, &s.plan, s.plan.oils_exact_g, &exact);
        near(density_exact(&s.in, &s.plan, s.plan.oils_exact_g, &exact), s.plan.density_g_ml, 2e-4);
        near(lye_batter_g(&s.in, &s.plan, s.plan.oils_exact_g), mass_g(s.plan.batter_ug), 0.02);
    }
}

static void a_batter_of_nothing_has_a_density(void **state)
{
    struct sample s;

    (void)state;
    sample_empty(&s);
    density_plan(&s.in, &s.plan);
    assert_true(s.plan.density_g_ml == 1 && s.plan.batter_ml == 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(oils_are_brought_to_the_temperature),
        cmocka_unit_test(the_worked_example_has_the_density_written_there),
        cmocka_unit_test(a_measured_density_and_air_are_taken),
        cmocka_unit_test(a_liquid_is_water_fat_and_solids),
        cmocka_unit_test(ready_made_lye_counts_whole),
        cmocka_unit_test(two_alkalis_share_the_lye_by_moles),
        cmocka_unit_test(adding_volumes_is_near_the_handbook_s_syrup),
        cmocka_unit_test(colour_and_scent_put_into_the_batter_count),
        cmocka_unit_test(batter_is_between_its_lightest_and_heaviest_part),
        cmocka_unit_test(a_batter_of_nothing_has_a_density),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
