/* test_reserve.c - oil kept back for carriers: worked by hand from the definition of superfat, and conservation. */
#include "calc/split_sample.h"

#include "calc/product.h"
#include "calc/reserve.h"

/* 150 g of olive and 50 g of coconut at 5 %, on a scale fine enough to be exact, in two halves without residue. */
static void two_halves(struct sample *s)
{
    sample_empty(s);
    s->recipe.oils_by = OILS_BY_GRAMS;
    s->recipe.size.by = SIZE_AS_GRAMS;
    sample_oil(s, "olive", 150);
    sample_oil(s, "coconut", 50);
    sample_scale(s, 1e-6, 5000);
    s->recipe.alkali.purity[ALKALI_NAOH] = (struct ranged){true, 1, 1, 1};
    s->recipe.residue_by = RESIDUE_GRAMS;
    sample_portion(s, DEMAND_SHARE, 0.5);
    sample_portion(s, DEMAND_REST, 0);
}

/* Gives portion i so many grams of that oil with a third of kaolin in it; kept back, or on top. */
static void carry(struct sample *s, int i, const char *oil, double grams, bool reserved)
{
    struct recipe_colourant *white = sample_colour(s, i, "kaolin", COLOUR_GRAMS, grams / 3);

    strcpy(white->carrier_oil, oil);
    white->carrier_ratio = 3;
    white->carrier_reserved = reserved;
    s->facts.carrier[i][s->recipe.portion[i].colourants - 1] = facts_oil(oil);
}

static double sap_of(const char *oil)
{
    return facts_oil(oil)->sap_nominal;
}

/* Hydroxide demand of the two halves' oils, mg KOH. */
static double demand_of_both(void)
{
    return 150 * sap_of("olive") + 50 * sap_of("coconut");
}

static double portion_superfat(const struct sample *s, int i)
{
    return s->plan.portion[i].margin.nominal;
}

/* By hand: what is kept back is coconut, which takes up a third more than the mean of the oils. The plain half has no
 * carrier: its superfat is that of the jug, 1 - 0.95 D / (D - 15 S). The other pours half of the batter less 15 g. */
static void the_jug_is_poorer_by_the_oil_that_is_named(void **state)
{
    struct sample s;
    double demand = demand_of_both(), kept = 15 * sap_of("coconut"), batter_g, jug;

    (void)state;
    two_halves(&s);
    carry(&s, 0, "coconut", 15, true);
    plan_compute(&s.in, &s.plan);
    batter_g = mass_g(s.plan.batter_ug);
    jug = (batter_g / 2 - 15) / (batter_g - 15);
    assert_int_equal(s.plan.oil_kept_ug[0], 0);
    assert_int_equal(s.plan.oil_kept_ug[1], ug(15));
    assert_int_equal(s.plan.portion[0].kept_ug, ug(15));
    assert_int_equal(s.plan.portion[1].kept_ug, 0);
    near(portion_superfat(&s, 1), 1 - 0.95 * demand / (demand - kept), 1e-6);
    near(portion_superfat(&s, 0), 1 - 0.95 * demand * jug / ((demand - kept) * jug + kept), 1e-6);
    assert_true(portion_superfat(&s, 1) < 1 - 0.95 * 200 / 185.0); /* worse than by the recipe's proportions */
    assert_non_null(find(&s.plan, FINDING_LYE_HEAVY));
}

/* By hand: one oil known exactly, 200 g on a scale of 1 g. The half gram stays with what is in the jug, 185 g. */
static void the_jug_stays_as_uncertain_as_the_oil_was(void **state)
{
    struct sample s;
    double alkali_g;

    (void)state;
    two_halves(&s);
    s.recipe.oils = 1;
    s.recipe.oil[0].amount = 200;
    s.recipe.oil[0].sap = (struct ranged){true, 190, 190, 190};
    s.recipe.scale[0] = (struct scale){.division_ug = ug(1), .capacity_ug = ug(5000)};
    carry(&s, 0, "olive", 15, true);
    plan_compute(&s.in, &s.plan);
    alkali_g = mass_g(s.plan.alkali[ALKALI_NAOH].alkali.rounded_ug);
    near(s.plan.portion[1].margin.worst.lo, 1 - (alkali_g + 0.5) / 39.99677 / (184.5 * 190 / 56105.30), 1e-9);
    near(s.plan.portion[1].margin.worst.hi, 1 - (alkali_g - 0.5) / 39.99677 / (185.5 * 190 / 56105.30), 1e-9);
}

/* By hand: 50 g of coconut are all there is; 60 g wanted leave a jug of olive alone, and 10 g more come from elsewhere. */
static void no_more_is_kept_back_than_there_is(void **state)
{
    struct sample s;
    double demand = demand_of_both(), batter_g, jug;

    (void)state;
    two_halves(&s);
    carry(&s, 0, "coconut", 60, true);
    plan_compute(&s.in, &s.plan);
    batter_g = mass_g(s.plan.batter_ug);
    jug = (batter_g / 2 - 60) / (batter_g - 50);
    assert_int_equal(s.plan.oil_kept_ug[1], ug(50));
    near(portion_superfat(&s, 1), 1 - 0.95 * demand / (150 * sap_of("olive")), 1e-6);
    near(portion_superfat(&s, 0), 1 - 0.95 * demand * jug / (150 * sap_of("olive") * jug + 60 * sap_of("coconut")),
         1e-6);
}

/* By hand: the jug has no castor to lose. */
static void an_oil_that_the_recipe_has_not_is_not_kept_back(void **state)
{
    struct sample s;
    double demand = demand_of_both(), batter_g, jug;

    (void)state;
    two_halves(&s);
    carry(&s, 0, "castor", 15, true);
    plan_compute(&s.in, &s.plan);
    batter_g = mass_g(s.plan.batter_ug);
    jug = (batter_g / 2 - 15) / batter_g;
    near(portion_superfat(&s, 1), 0.05, 1e-6);
    near(portion_superfat(&s, 0), 1 - 0.95 * demand * jug / (demand * jug + 15 * sap_of("castor")), 1e-6);
}

static void lines_of_one_oil_are_kept_back_in_turn(void **state)
{
    struct sample s;

    (void)state;
    two_halves(&s);
    sample_oil(&s, "olive", 20);
    carry(&s, 0, "olive", 90, true);
    carry(&s, 1, "olive", 66, true);
    plan_compute(&s.in, &s.plan);
    assert_int_equal(s.plan.oil_kept_ug[0], ug(150));
    assert_int_equal(s.plan.oil_kept_ug[1], 0);
    assert_int_equal(s.plan.oil_kept_ug[2], ug(6));
}

/* Then it comes back before the split: nothing is poorer, and nothing less certain. */
static void what_is_kept_back_for_the_whole_batter_changes_nothing(void **state)
{
    struct sample s;
    struct margin plain;

    (void)state;
    two_halves(&s);
    plan_compute(&s.in, &s.plan);
    plain = s.plan.margin;
    s.recipe.colour = PUT_IN_BATTER;
    carry(&s, 0, "coconut", 15, true);
    plan_compute(&s.in, &s.plan);
    near(s.plan.margin.nominal, plain.nominal, 1e-12);
    near(s.plan.margin.sd, plain.sd, 1e-9);
    near(s.plan.margin.worst.lo, plain.worst.lo, 1e-9);
    near(portion_superfat(&s, 0), plain.nominal, 1e-12);
    near(portion_superfat(&s, 1), plain.nominal, 1e-12);
    assert_int_equal(s.plan.oil_kept_ug[1], 0);
}

/* By hand: of one oil, 5 % falls to half where 1 - 0.95 * 200 / (200 - r) is 0.025: r = 5.128 g. */
static void a_reserve_fits_down_to_half_of_what_was_asked(void **state)
{
    static const struct {
        double grams;
        bool reserved, fits;
    } worked[] = {{5.12, true, true}, {5.14, true, false}, {15, true, false}, {15, false, true}};

    (void)state;
    for (size_t i = 0; i < sizeof worked / sizeof worked[0]; i++) {
        struct sample s;

        two_halves(&s);
        s.recipe.oils = 1;
        s.recipe.oil[0].amount = 200;
        carry(&s, 0, "olive", worked[i].grams, worked[i].reserved);
        plan_compute(&s.in, &s.plan);
        assert_true(plan_reserve_fits(&s.in, &s.plan) == worked[i].fits);
    }
}

/* A batter that is low by its own rounding is not brought there by a reserve. */
static void a_batter_that_is_low_itself_is_not_held_against_a_reserve(void **state)
{
    struct sample s;

    (void)state;
    two_halves(&s);
    plan_compute(&s.in, &s.plan);
    s.plan.margin.nominal = s.plan.portion[0].margin.nominal = s.plan.portion[1].margin.nominal = 0.01;
    assert_true(plan_reserve_fits(&s.in, &s.plan));
    s.plan.portion[1].margin.nominal = 0.009;
    assert_false(plan_reserve_fits(&s.in, &s.plan));
}

/* By hand: the plain half pours B/2 of a jug of B - 15 g, which holds all of the water and of the batter's scent. Cured
 * with a tenth of water: (filled - water) / 0.9. */
static void water_and_scent_come_out_of_the_jug(void **state)
{
    struct sample s;
    double batter_g, jug, water_g, scent_g;

    (void)state;
    two_halves(&s);
    s.recipe.scent = PUT_IN_BATTER;
    s.recipe.fragrances = 1;
    s.recipe.fragrance[0] = (struct recipe_fragrance){.by = FRAGRANCE_OF_OILS, .value = 0.03};
    s.facts.fragrance[0] = facts_fragrance("lavender");
    carry(&s, 0, "coconut", 15, true);
    plan_compute(&s.in, &s.plan);
    batter_g = mass_g(s.plan.batter_ug);
    jug = batter_g / 2 / (batter_g - 15);
    water_g = mass_g(s.plan.water.water.rounded_ug);
    scent_g = product_fragrance_g(&s.in, &s.plan, &s.plan.portion[1], 0);
    near(scent_g, 6 * jug, 1e-6);
    near(s.plan.portion[1].cured_g, (batter_g / 2 - water_g * jug) / 0.9, 1e-5);
}

/* Any recipe with carriers of its own oils, kept back or on top, on coarse or fine scales. */
static void random_recipe(struct sample *s)
{
    static const char *const oils[] = {"olive", "coconut", "castor", "sunflower", "palm"};

    sample_empty(s);
    s->recipe.superfat = random_between(0, 0.12);
    for (int i = 0; i < 5; i++)
        sample_oil(s, oils[i], 0.2);
    s->recipe.size.grams = random_between(150, 3000);
    if (random_int(0, 1)) {
        s->recipe.additives = 1;
        s->recipe.additive[0] = (struct recipe_additive){.by = ADDITIVE_OF_OILS, .value = 0.01};
        s->facts.additive[0] = facts_additive("citric-acid");
    }
    s->recipe.residue_by = random_int(0, 1) ? RESIDUE_GRAMS : RESIDUE_PRACTICE;
    s->recipe.residue = random_between(0, 20);
    sample_scale(s, 1, 5000);
    if (random_int(0, 1))
        sample_scale(s, 0.01, 200);
    for (int i = random_int(2, 5); i > 1; i--)
        sample_portion(s, DEMAND_SHARE, random_between(0.05, 0.2));
    sample_portion(s, DEMAND_REST, 0);
    for (int i = 0; i < s->recipe.portions; i++)
        for (int c = random_int(0, 2); c > 0; c--)
            carry(s, i, oils[random_int(0, 4)], random_between(0, 0.01) * s->recipe.size.grams, random_int(0, 2) > 0);
}

/* Demand of a portion's carriers, mg KOH, and of those on top alone; grams of those kept back. */
struct carried {
    double demand, on_top, kept_g;
};

static struct carried carried_by(const struct sample *s, int i)
{
    struct carried sum = {0, 0, 0};

    for (int c = 0; c < s->recipe.portion[i].colourants; c++) {
        double grams = mass_g(s->plan.portion[i].colourant[c].carrier.rounded_ug);
        double demand = grams * s->facts.carrier[i][c]->sap_nominal;
        bool kept = s->recipe.portion[i].colourant[c].carrier_reserved;

        sum.demand += demand;
        sum.on_top += kept ? 0 : demand;
        sum.kept_g += kept ? grams : 0;
    }
    return sum;
}

/* What is not taken up, demand times superfat, of all portions and of what stays in the jug is that of the whole and of
 * the carriers on top; and all of the alkali is somewhere. */
static void nothing_is_lost_or_counted_twice(const struct sample *s)
{
    double demand = 0, kept = 0, kept_g = 0, on_top = 0, free = 0, residue = 1;
    double whole = s->plan.margin.nominal, batter_g = mass_g(s->plan.batter_ug);

    for (int i = 0; i < s->recipe.oils; i++)
        demand += mass_g(s->plan.oil[i].rounded_ug) * s->facts.oil[i]->sap_nominal;
    for (int i = 0; i < s->recipe.portions; i++) {
        struct carried carried = carried_by(s, i);

        kept += carried.demand - carried.on_top;
        kept_g += carried.kept_g;
        on_top += carried.on_top;
    }
    for (int i = 0; i < s->plan.portions; i++) {
        struct carried carried = i < s->recipe.portions ? carried_by(s, i) : (struct carried){0, 0, 0};
        double jug = (mass_g(s->plan.portion[i].batter_ug) - carried.kept_g) / (batter_g - kept_g);

        near(reserve_share(&s->plan, &s->plan.portion[i]), jug, 1e-12);
        free += portion_superfat(s, i) * ((demand - kept) * jug + carried.demand);
        residue -= jug;
    }
    near(residue * (batter_g - kept_g), mass_g(s->plan.residue_ug), 1e-6);
    free += (demand - kept - demand * (1 - whole)) * residue;
    near(free / demand, whole + on_top / demand, 1e-9);
}

static void portions_and_residue_add_up_to_the_whole(void **state)
{
    int kept = 0;

    (void)state;
    for (int turn = 0; turn < 2000; turn++) {
        struct sample s;

        random_recipe(&s);
        plan_compute(&s.in, &s.plan);
        assert_true(s.plan.split_valid);
        nothing_is_lost_or_counted_twice(&s);
        for (int i = 0; i < s.plan.portions; i++)
            kept += s.plan.portion[i].kept_ug > 0;
    }
    assert_true(kept > 2000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_jug_is_poorer_by_the_oil_that_is_named),
        cmocka_unit_test(the_jug_stays_as_uncertain_as_the_oil_was),
        cmocka_unit_test(no_more_is_kept_back_than_there_is),
        cmocka_unit_test(an_oil_that_the_recipe_has_not_is_not_kept_back),
        cmocka_unit_test(lines_of_one_oil_are_kept_back_in_turn),
        cmocka_unit_test(what_is_kept_back_for_the_whole_batter_changes_nothing),
        cmocka_unit_test(a_reserve_fits_down_to_half_of_what_was_asked),
        cmocka_unit_test(a_batter_that_is_low_itself_is_not_held_against_a_reserve),
        cmocka_unit_test(water_and_scent_come_out_of_the_jug),
        cmocka_unit_test(portions_and_residue_add_up_to_the_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
