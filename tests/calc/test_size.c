/* Oils by size. What is asked is measured back with the same functions that the plan uses for batter, residue and
 * volume. */
#include "kitchen.h"

#include <gsl/gsl_rng.h>
#include <math.h>

#include "calc/density.h"
#include "calc/fragrance.h"
#include "calc/mould.h"
#include "calc/pieces.h"
#include "calc/portion.h"

/* Grams for pieces of which nothing is known but practice. */
static double by_practice_g(const struct practice *practice, const struct pieces *pieces, int n, double chance,
                            int *bags)
{
    struct pieces_known known = pieces_by_practice(practice, pieces);

    return pieces_batter_g(practice, &known, n, chance, bags);
}

static struct kitchen *by_shares(struct recipe_size size)
{
    struct kitchen *k = kitchen_new();

    k->recipe.oils_by = OILS_BY_SHARE;
    k->recipe.size = size;
    kitchen_scale(k, 0.01, 100000, 0);
    kitchen_oil(k, &OLIVE, 0.45);
    kitchen_oil(k, &COCONUT, 0.25);
    kitchen_oil(k, &PALM_HYBRID, 0.30);
    return k;
}

static void oils_as_grams_are_as_entered(void **state)
{
    struct kitchen *k = kitchen_new();

    (void)state;
    kitchen_oil(k, &OLIVE, 450);
    kitchen_oil(k, &COCONUT, 150);
    kitchen_plan(k);
    assert_near(k->plan.oils_exact_g, 600, 1e-9);
    assert_near(k->plan.oil[1].exact_g, 150, 1e-9);
    assert_near(k->plan.oil_share[1], 0.25, 1e-12);
}

static void oils_in_grams_rescale_and_fixed_grams_stay(void **state)
{
    struct kitchen *k = kitchen_new();

    (void)state;
    kitchen_oil(k, &OLIVE, 450);
    kitchen_oil(k, &COCONUT, 150);
    kitchen_additive(k, &CITRIC, 10);
    k->recipe.size = (struct recipe_size){.by = SIZE_OILS, .grams = 1200};
    kitchen_plan(k);
    assert_near(k->plan.oil[0].exact_g, 900, 1e-9);
    assert_int_equal(k->plan.additive[0].additive.rounded_ug, 10000000);
}

static void shares_that_miss_by_a_hundredth_of_a_percent_are_normalised(void **state)
{
    struct kitchen *k = by_shares((struct recipe_size){.by = SIZE_OILS, .grams = 1000});

    (void)state;
    k->recipe.oil[2].amount = 0.30009;
    kitchen_plan(k);
    assert_near(k->plan.oils_exact_g, 1000, 1e-9);
    assert_near(k->plan.oil[0].exact_g, 450 / 1.00009, 1e-9);
    k->recipe.oil[2].amount = 0.25; /* while it is being entered */
    kitchen_plan(k);
    assert_near(k->plan.oils_exact_g, 950, 1e-9);
    assert_near(k->plan.oil[0].exact_g, 450, 1e-9);
}

/* By hand: 1000 g of oils of 200 with 5 % superfat take 135.448635 g NaOH (200 / 56.1053 * 0.95 * 39.99677) and at 1
 * to 2 270.89727 g of water. */
static void a_batter_worked_by_hand_gives_its_oils_back(void **state)
{
    struct kitchen *k = kitchen_new();

    (void)state;
    k->recipe.oils_by = OILS_BY_SHARE;
    k->recipe.size = (struct recipe_size){.by = SIZE_BATTER, .grams = 1000 + 3 * 135.448635};
    k->recipe.water.value = 1 / 3.0;
    kitchen_own(k, "oils", 1, 199, 200, 201);
    kitchen_plan(k);
    assert_near(k->plan.oils_exact_g, 1000, 1e-5);
}

static void vary(struct kitchen *k, gsl_rng *rng)
{
    if (gsl_rng_uniform_int(rng, 2))
        kitchen_additive(k, &CITRIC, 5 * gsl_rng_uniform(rng));
    if (gsl_rng_uniform_int(rng, 2))
        kitchen_additive(k, &LACTATE, 30 * gsl_rng_uniform(rng));
    if (gsl_rng_uniform_int(rng, 2))
        kitchen_liquid(k, &COCONUT_MILK, &COCONUT, gsl_rng_uniform(rng));
    if (gsl_rng_uniform_int(rng, 3) == 0)
        k->recipe.alkali.solution_share[ALKALI_NAOH] = 0.3 + 0.2 * gsl_rng_uniform(rng);
    k->recipe.residue_by = (enum residue_by)gsl_rng_uniform_int(rng, 3);
    k->recipe.residue = k->recipe.residue_by == RESIDUE_GRAMS ? 10 : 0.03;
}

/* Property: with fixed grams, milk, ready-made lye that brings too much water or not, the batter asked is the batter
 * got. */
static void any_batter_asked_is_the_batter_got(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

    (void)state;
    gsl_rng_set(rng, 7);
    for (int round = 0; round < 500; round++) {
        double asked = exp(log(60) + log(300) * gsl_rng_uniform(rng));
        struct kitchen *k = by_shares((struct recipe_size){.by = SIZE_BATTER, .grams = asked});

        vary(k, rng);
        kitchen_plan(k);
        assert_near(lye_batter_g(&k->in, &k->plan, k->plan.oils_exact_g), asked, 1e-9 * asked);
        assert_near(mass_g(k->plan.batter_ug), asked, 0.1);
    }
    gsl_rng_free(rng);
}

/* Property: what stays in the jug aside, the batter is what the pieces want, on both sides of the bend of the
 * residue. */
static void pieces_get_the_batter_they_want(void **state)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

    (void)state;
    gsl_rng_set(rng, 8);
    for (int round = 0; round < 200; round++) {
        struct recipe_size size = {.by = SIZE_PIECES};
        struct kitchen *k;
        double batter_g, chance, wanted_g;
        int n;

        size.pieces = (struct pieces){.count = 1 + (int)gsl_rng_uniform_int(rng, 60),
                                      .mass_g = 0.5 + 8 * gsl_rng_uniform(rng)};
        k = by_shares(size);
        vary(k, rng);
        k->recipe.additives = 0;
        kitchen_plan(k);
        chance = pieces_chance_wanted(&PRACTICE, &size.pieces);
        n = pieces_to_pipe(size.pieces.count, chance, pieces_prior(&PRACTICE, &size.pieces));
        wanted_g = by_practice_g(&PRACTICE, &size.pieces, n, chance, NULL);
        batter_g = lye_batter_g(&k->in, &k->plan, k->plan.oils_exact_g);
        assert_near(batter_g - portion_residue_g(&k->in, batter_g), wanted_g, 1e-9 * wanted_g);
    }
    gsl_rng_free(rng);
}

static struct recipe_size loaf(void)
{
    return (struct recipe_size){
        .by = SIZE_MOULD,
        .has_mould = true,
        .mould = {.shape = MOULD_BOX, .length_mm = 250, .width_mm = 90, .height_mm = 65, .fill = 0.9},
    };
}

/* mL of batter at its density with that much air, without what the jug keeps. */
static double plain_ml(struct kitchen *k)
{
    struct lye_exact exact;
    double batter_g = lye_batter_g(&k->in, &k->plan, k->plan.oils_exact_g);

    lye_exact(&k->in, &k->plan, k->plan.oils_exact_g, &exact);
    return (batter_g - portion_residue_g(&k->in, batter_g)) /
           (density_exact(&k->in, &k->plan, k->plan.oils_exact_g, &exact) * (1 - k->bench.air_share));
}

/* 250 x 90 x 65 mm at nine tenths are 1316.25 mL. */
static void a_mould_is_filled_to_its_fill(void **state)
{
    struct kitchen *k = by_shares(loaf());

    (void)state;
    kitchen_plan(k);
    assert_near(plain_ml(k), 1316.25, 1e-6);
    k->bench.air_share = 0.04;
    kitchen_plan(k);
    assert_near(plain_ml(k), 1316.25, 1e-6);
}

/* A measured density takes the place of the reckoned one: 1316.25 mL of 1.02 g/mL and the residue of practice, 8 g. */
static void a_measured_density_goes_first(void **state)
{
    struct kitchen *k = by_shares(loaf());

    (void)state;
    k->bench.density_g_ml = 1.02;
    kitchen_plan(k);
    assert_near(lye_batter_g(&k->in, &k->plan, k->plan.oils_exact_g), 1316.25 * 1.02 + 8, 1e-6);
}

/* Half of it scented at 3 % of its oils with a fragrance of 0.9 g/mL, the other half with 6 g of a colourant at 1
 * g/mL. */
static void fragrance_and_colourants_take_up_their_room(void **state)
{
    static const struct fragrance_fact lavender = {.density_g_ml = 0.9};
    struct kitchen *k = by_shares(loaf());
    double batter_g, scented_g, oils_g;

    (void)state;
    k->recipe.fragrances = 1;
    k->recipe.fragrance[0] = (struct recipe_fragrance){.by = FRAGRANCE_OF_OILS, .value = 0.03};
    k->facts.fragrance[0] = &lavender;
    k->recipe.portions = 2;
    k->recipe.portion[0] = (struct recipe_portion){.demand = DEMAND_SHARE, .amount = 0.5, .scented = true};
    k->recipe.portion[1] = (struct recipe_portion){.demand = DEMAND_REST, .colourants = 1};
    k->recipe.portion[1].colourant[0] = (struct recipe_colourant){.by = COLOUR_GRAMS, .value = 6};
    kitchen_plan(k);
    oils_g = k->plan.oils_exact_g;
    batter_g = lye_batter_g(&k->in, &k->plan, oils_g);
    scented_g = (batter_g - portion_residue_g(&k->in, batter_g)) / 2;
    assert_near(plain_ml(k) + 0.03 * scented_g * oils_g / batter_g / 0.9 + 6, 1316.25, 1e-6);
}

/* A layer, pieces and grams are served first; the rest alone is scented. Their carrier is coconut oil, twice the
 * colourant. */
static void demands_in_grams_leave_less_to_scent(void **state)
{
    static const struct oil_fact carrier = {.density_g_ml = 0.92, .density_temp_c = 35};
    static const struct fragrance_fact lavender = {.density_g_ml = 0.9};
    struct recipe_size size = loaf();
    struct kitchen *k = by_shares(size);
    struct lye_exact exact;
    double batter_g, rest_g, chance, oils_g;
    int n;

    (void)state;
    k->recipe.fragrances = 1;
    k->recipe.fragrance[0] = (struct recipe_fragrance){.by = FRAGRANCE_PER_KG_OILS, .value = 40};
    k->facts.fragrance[0] = &lavender;
    k->recipe.portions = 4;
    k->recipe.portion[0] = (struct recipe_portion){.demand = DEMAND_GRAMS, .amount = 200, .colourants = 1};
    k->recipe.portion[0].colourant[0] = (struct recipe_colourant){
        .by = COLOUR_GRAMS, .value = 5, .carrier_oil = "coconut", .carrier_ratio = 2};
    k->facts.carrier[0][0] = &carrier;
    k->recipe.portion[1] = (struct recipe_portion){.demand = DEMAND_LAYER, .amount = 10};
    k->recipe.portion[2] = (struct recipe_portion){
        .demand = DEMAND_PIECES, .has_pieces = true, .pieces = {.count = 12, .mass_g = 5}};
    k->recipe.portion[3] = (struct recipe_portion){.demand = DEMAND_REST, .scented = true};
    kitchen_plan(k);
    oils_g = k->plan.oils_exact_g;
    lye_exact(&k->in, &k->plan, oils_g, &exact);
    batter_g = lye_batter_g(&k->in, &k->plan, oils_g);
    chance = pieces_chance_wanted(&PRACTICE, &k->recipe.portion[2].pieces);
    n = pieces_to_pipe(12, chance, pieces_prior(&PRACTICE, &k->recipe.portion[2].pieces));
    rest_g = batter_g - portion_residue_g(&k->in, batter_g) - 200 -
             mould_layer_g(&size.mould, 10, density_exact(&k->in, &k->plan, oils_g, &exact)) -
             by_practice_g(&PRACTICE, &k->recipe.portion[2].pieces, n, chance, NULL);
    assert_near(plain_ml(k) + 0.04 * rest_g * oils_g / batter_g / 0.9 + 5 + 10 / density_oil(&PRACTICE, &carrier, 35),
                1316.25, 1e-6);
}

/* Parts of one piece are piped in one number, so the 12 small ones here are asked as the 30 of their other part, a use
 * of the rest. Only the rest is scented. */
static void pieces_of_a_kind_are_asked_together(void **state)
{
    static const struct fragrance_fact lavender = {.density_g_ml = 0.9};
    struct kitchen *k = by_shares(loaf());
    const struct pieces thirty = {.count = 30, .mass_g = 5, .kind = "blossom"};
    double batter_g, rest_g, oils_g;
    int n;

    (void)state;
    k->recipe.fragrances = 1;
    k->recipe.fragrance[0] = (struct recipe_fragrance){.by = FRAGRANCE_PER_KG_OILS, .value = 40};
    k->facts.fragrance[0] = &lavender;
    k->recipe.portions = 2;
    k->recipe.portion[0] = (struct recipe_portion){
        .demand = DEMAND_PIECES, .has_pieces = true, .pieces = {.count = 12, .mass_g = 5, .kind = "blossom"}};
    k->recipe.portion[1] = (struct recipe_portion){.demand = DEMAND_REST,
                                                   .scented = true,
                                                   .has_pieces = true,
                                                   .pieces = {.count = 30, .mass_g = 1, .kind = "blossom"}};
    kitchen_plan(k);
    oils_g = k->plan.oils_exact_g;
    batter_g = lye_batter_g(&k->in, &k->plan, oils_g);
    n = pieces_to_pipe(30, 0.9, pieces_prior(&PRACTICE, &thirty));
    rest_g = batter_g - portion_residue_g(&k->in, batter_g) - by_practice_g(&PRACTICE, &thirty, n, 0.9, NULL);
    assert_near(plain_ml(k) + 0.04 * rest_g * oils_g / batter_g / 0.9, 1316.25, 1e-6);
}

/* The oil is in the batter already: of 6 g of colour in 18 g of oil only the colour is more, at 1 g/mL. */
static void a_carrier_kept_back_takes_no_more_room(void **state)
{
    struct kitchen *k = by_shares(loaf());

    (void)state;
    k->recipe.portions = 1;
    k->recipe.portion[0] = (struct recipe_portion){.demand = DEMAND_REST, .colourants = 1};
    k->recipe.portion[0].colourant[0] = (struct recipe_colourant){
        .by = COLOUR_GRAMS, .value = 6, .carrier_oil = "olive", .carrier_ratio = 3, .carrier_reserved = true};
    k->facts.carrier[0][0] = &OLIVE;
    kitchen_plan(k);
    assert_near(plain_ml(k) + 6, 1316.25, 1e-6);
}

static void a_size_that_no_oils_give_is_a_stop(void **state)
{
    struct kitchen *k = by_shares((struct recipe_size){.by = SIZE_BATTER, .grams = 100});
    const struct finding *found;

    (void)state;
    kitchen_additive(k, &BICARBONATE, 150);
    kitchen_plan(k);
    found = kitchen_found(k, FINDING_PORTIONS_SHORT);
    assert_non_null(found);
    assert_int_equal(found->level, LEVEL_STOP);
    assert_int_equal(found->about.part, PART_SIZE);
    assert_true(found->number[0] > 50);
    assert_true(isfinite(k->plan.oils_exact_g) && k->plan.oils_exact_g >= 0);
}

static void a_residue_of_everything_ends_with_a_stop(void **state)
{
    struct recipe_size size = {.by = SIZE_PIECES, .pieces = {.count = 10, .mass_g = 3}};
    struct kitchen *k = by_shares(size);

    (void)state;
    k->recipe.residue_by = RESIDUE_SHARE;
    k->recipe.residue = 1;
    kitchen_plan(k);
    assert_non_null(kitchen_found(k, FINDING_PORTIONS_SHORT));
    assert_true(isfinite(k->plan.oils_exact_g));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CHECK(oils_as_grams_are_as_entered),
        CHECK(oils_in_grams_rescale_and_fixed_grams_stay),
        CHECK(shares_that_miss_by_a_hundredth_of_a_percent_are_normalised),
        CHECK(a_batter_worked_by_hand_gives_its_oils_back),
        CHECK(any_batter_asked_is_the_batter_got),
        CHECK(pieces_get_the_batter_they_want),
        CHECK(a_mould_is_filled_to_its_fill),
        CHECK(a_measured_density_goes_first),
        CHECK(fragrance_and_colourants_take_up_their_room),
        CHECK(demands_in_grams_leave_less_to_scent),
        CHECK(pieces_of_a_kind_are_asked_together),
        CHECK(a_carrier_kept_back_takes_no_more_room),
        CHECK(a_size_that_no_oils_give_is_a_stop),
        CHECK(a_residue_of_everything_ends_with_a_stop),
    };

    return cmocka_run_group_tests_name("size", tests, NULL, NULL);
}
