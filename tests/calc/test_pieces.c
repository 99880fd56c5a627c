/* test_pieces.c - pieces and their batter: by hand, by common practice, by the worked example, and how they must
 * move. */
#include "calc/split_sample.h"

#include "calc/pieces.h"

static const struct practice *practice(void)
{
    return facts_reference()->practice;
}

/* Grams for pieces of which nothing is known but practice. */
static double by_practice_g(const struct practice *practice, const struct pieces *pieces, int n, double chance,
                            int *bags)
{
    struct pieces_known known = pieces_by_practice(practice, pieces);

    return pieces_batter_g(practice, &known, n, chance, bags);
}

/* Common practice: rejects 2 in 26 of simple pieces, 3 in 25 of flowers, 4 in 20 the first time, whatever the class. */
static void rejects_go_by_class_and_first_time(void **state)
{
    struct pieces pieces = sample_pieces("leaf", 24, 1);

    (void)state;
    assert_true(pieces_prior(practice(), &pieces).a == 2 && pieces_prior(practice(), &pieces).b == 24);
    pieces.class = PIECE_FLOWER;
    assert_true(pieces_prior(practice(), &pieces).a == 3 && pieces_prior(practice(), &pieces).b == 22);
    pieces.first_time = true;
    assert_true(pieces_prior(practice(), &pieces).a == 4 && pieces_prior(practice(), &pieces).b == 16);
}

/* By hand: 29 of 6.5 g are 188.5 g, spread 15 % within and 5 % between batches gives 202.326 g at 0.9 (z 1.281552);
 * two bags of 15 g lost each and 4 g in the cup. */
static void batter_for_pieces_has_their_spread_and_losses(void **state)
{
    struct pieces pieces = sample_pieces("rosette", 24, 6.5);
    int bags = 0;

    (void)state;
    near(by_practice_g(practice(), &pieces, 29, 0.9, &bags), 202.326 + 2 * 15 + 4, 5e-4);
    assert_int_equal(bags, 2);
    near(by_practice_g(practice(), &pieces, 29, 0.5, NULL), 188.5 + 2 * 15 + 4, 1e-9);

    struct practice steady = *practice();

    steady.piece_between_share = 0;
    near(by_practice_g(&steady, &pieces, 29, 0.9, NULL), 195.229 + 2 * 15 + 4, 5e-4);
}

/* By hand: 300 g in bags of 150 g that keep 6 g each are 3 bags and 318 g: 300 / 150 = 2 would be wrong. A bag that
 * holds no more than it keeps is refused. */
static void bags_hold_less_than_they_are_filled_with(void **state)
{
    struct pieces pieces = sample_pieces("petal", 100, 3);
    struct practice bagging = *practice();
    int bags = 0;

    (void)state;
    bagging.bag_fill_g = 150;
    bagging.bag_residue_g = 6;
    bagging.first_squeeze_g = bagging.cup_residue_g = 0;
    near(by_practice_g(&bagging, &pieces, 100, 0.5, &bags), 318, 1e-9);
    assert_int_equal(bags, 3);
    assert_int_equal(pieces_made(&bagging, &pieces, 318, &bags), 100);
    assert_int_equal(bags, 3);

    bagging.bag_fill_g = 6;
    assert_true(by_practice_g(&bagging, &pieces, 100, 0.5, &bags) == 0);
    assert_int_equal(bags, 0);
    assert_int_equal(pieces_made(&bagging, &pieces, 318, &bags), 0);
}

/* Common practice: 239.5 g of usable batter are 38 rosettes of 6.3 g, 34 of them good at 10 % rejects. Here with no
 * losses of bags and cup, since that figure has them in its 15 %. */
static void makers_get_as_many_rosettes(void **state)
{
    struct pieces pieces = sample_pieces("rosette", 34, 6.3);
    struct practice lossless = *practice();

    (void)state;
    lossless.bag_residue_g = lossless.first_squeeze_g = lossless.cup_residue_g = 0;
    assert_int_equal(pieces_made(&lossless, &pieces, 239.5, NULL), 38);
    near(floor(38 * 0.9), 34, 0);
}

/* By hand: of 217 g the cup keeps 4 and two bags 15 each, 183 g are 28 pieces of 6.5 g; 0 where the losses are all
 * there is. */
static void what_a_batter_makes_is_less_its_losses(void **state)
{
    struct pieces pieces = sample_pieces("rosette", 24, 6.5);
    int bags = 0;

    (void)state;
    assert_int_equal(pieces_made(practice(), &pieces, 217, &bags), 28);
    assert_int_equal(bags, 2);
    assert_int_equal(pieces_made(practice(), &pieces, 19 + 6.5, &bags), 1);
    assert_int_equal(bags, 1);
    assert_int_equal(pieces_made(practice(), &pieces, 15, NULL), 0);
    assert_int_equal(pieces_made(practice(), &pieces, 0, &bags), 0);
    assert_int_equal(bags, 0);
    pieces.mass_g = 0;
    assert_int_equal(pieces_made(practice(), &pieces, 217, NULL), 0);
    pieces.mass_g = 1e-6;
    assert_int_equal(pieces_made(practice(), &pieces, 1e6, NULL), PIECES_MOST);
}

/* By hand: 4 g of cup and one bag of 175 are 160 g of pieces; 10 g more open no second bag, which would only lose
 * them. */
static void a_bag_is_opened_only_where_it_brings_something(void **state)
{
    struct pieces pieces = sample_pieces("leaf", 24, 1);
    int bags = 0;

    (void)state;
    assert_int_equal(pieces_made(practice(), &pieces, 4 + 175, &bags), 160);
    assert_int_equal(bags, 1);
    assert_int_equal(pieces_made(practice(), &pieces, 4 + 175 + 10, &bags), 160);
    assert_int_equal(bags, 1);
    assert_int_equal(pieces_made(practice(), &pieces, 4 + 175 + 16, &bags), 161);
    assert_int_equal(bags, 2);
}

/* Source: the worked example of the exchange format. */
static void the_worked_example_pipes_what_is_written_there(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    plan_compute(&s.in, &s.plan);

    const struct plan_pieces *pieces = &s.plan.portion[2].pieces;

    assert_true(s.plan.portion[2].has_pieces && !s.plan.portion[0].has_pieces);
    assert_int_equal(pieces->wanted, 24);
    assert_int_equal(pieces->to_pipe, 29);
    near(pieces->made, 28, 0);
    near(pieces->chance, 0.877, 5e-4);
    near(pieces->expected_good, 25.8, 0.05);
    near(pieces->mass_g, 6.5, 0);
    assert_int_equal(pieces->bags, 2);
}

/* By hand: 29 of 6.5 g with two bags and the cup want 222.5 g, 5.5 more than the 217 of the worked example. */
static void a_use_that_falls_short_says_by_how_much(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    plan_compute(&s.in, &s.plan);

    const struct finding *lacking = find(&s.plan, FINDING_PIECES_SHORT);

    assert_non_null(lacking);
    assert_int_equal(lacking->level, LEVEL_CAUTION);
    assert_int_equal(lacking->about.part, PART_PORTION);
    assert_int_equal(lacking->about.index, 2);
    near(lacking->number[0], 24, 0);
    near(lacking->number[1], 28, 0);
    near(lacking->number[2], 0.876566, 5e-7);
    near(lacking->number[3], 0.9, 1e-12);
    near(lacking->number[4], 5.5, 1e-9);

    s.recipe.portion[2].demand = DEMAND_GRAMS;
    s.recipe.portion[2].amount = 217 + 6;
    s.recipe.portion[1].demand = DEMAND_REST;
    plan_compute(&s.in, &s.plan);
    assert_null(find(&s.plan, FINDING_PIECES_SHORT));
    assert_int_equal((int)s.plan.portion[2].pieces.made, 29);

    s.recipe.portion[2].amount = 217;
    s.recipe.portion[2].pieces.chance = 0.85;
    plan_compute(&s.in, &s.plan);
    assert_null(find(&s.plan, FINDING_PIECES_SHORT));
}

static void pieces_alone_agree_with_what_they_ask(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    s.recipe.portion[1].demand = DEMAND_REST;
    s.recipe.portion[2].demand = DEMAND_PIECES;
    plan_compute(&s.in, &s.plan);

    const struct plan_pieces *pieces = &s.plan.portion[2].pieces;

    near(mass_g(s.plan.portion[2].batter_ug), 236, 1e-9);
    assert_int_equal(pieces->to_pipe, 29);
    near(pieces->made, 29, 0);
    near(pieces->chance, 11657.0 / 12614, 1e-12);
    near(pieces->expected_good, 29 * 24 / 26.0, 1e-12);
    assert_int_equal(pieces->bags, 2);
    assert_null(find(&s.plan, FINDING_PIECES_SHORT));
}

/* A blossom is a petal part of 2.6 g and a centre of 0.15 g: one number to pipe for both, and the part with less
 * batter decides what comes of it. With exact fractions: 60 flowers need 77; 150 g are 50 petals (150 - 4 - 15 = 131
 * g), 40 g are 140 centres. */
static void parts_of_one_piece_share_its_number(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    s.recipe.portions = 0;

    struct recipe_portion *petals = sample_portion(&s, DEMAND_GRAMS, 150);
    struct recipe_portion *centres = sample_portion(&s, DEMAND_GRAMS, 40);
    struct recipe_portion *leaves = sample_portion(&s, DEMAND_GRAMS, 90);

    petals->has_pieces = centres->has_pieces = leaves->has_pieces = true;
    petals->pieces = sample_pieces("Blossom", 60, 2.6);
    centres->pieces = sample_pieces("blossom", 24, 0.15);
    leaves->pieces = sample_pieces("leaf", 24, 0.9);
    petals->pieces.class = PIECE_FLOWER;
    plan_compute(&s.in, &s.plan);

    const struct plan_pieces *petal = &s.plan.portion[0].pieces, *centre = &s.plan.portion[1].pieces;

    assert_int_equal(petal->to_pipe, 77);
    assert_int_equal(centre->to_pipe, 77);
    assert_int_equal(centre->wanted, 60);
    near(petal->made, 50, 0);
    near(centre->made, 140, 0);
    near(petal->chance, 0, 0);
    near(centre->chance, 0, 0);
    near(centre->expected_good, 50 * 22 / 25.0, 1e-9);
    assert_int_equal(s.plan.portion[2].pieces.to_pipe, 29);

    int from = 0;
    const struct finding *lacking = next_finding(&s.plan, FINDING_PIECES_SHORT, &from);

    assert_non_null(lacking);
    assert_int_equal(lacking->about.index, 0);
    assert_null(next_finding(&s.plan, FINDING_PIECES_SHORT, &from));
}

/* What one part says of the piece holds for all: its first time, a flower, the higher chance. */
static void parts_of_one_piece_share_its_rejects_and_chance(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    s.recipe.portion[0].has_pieces = s.recipe.portion[1].has_pieces = true;
    s.recipe.portion[0].pieces = s.recipe.portion[1].pieces = sample_pieces("rosette", 24, 6.5);
    s.recipe.portion[1].pieces.class = PIECE_FLOWER;
    plan_compute(&s.in, &s.plan);
    for (int i = 0; i < 3; i++)
        assert_int_equal(s.plan.portion[i].pieces.to_pipe, 31);
    s.recipe.portion[1].pieces.first_time = true;
    plan_compute(&s.in, &s.plan);
    for (int i = 0; i < 3; i++)
        assert_int_equal(s.plan.portion[i].pieces.to_pipe, 37);
    s.recipe.portion[1].pieces = sample_pieces("rosette", 24, 6.5);
    s.recipe.portion[1].pieces.chance = 0.99;
    plan_compute(&s.in, &s.plan);
    for (int i = 0; i < 3; i++)
        assert_int_equal(s.plan.portion[i].pieces.to_pipe, 34);
}

static void pieces_without_a_kind_are_not_parts(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    s.recipe.portion[0].has_pieces = true;
    s.recipe.portion[0].pieces = sample_pieces("", 100, 6.5);
    s.recipe.portion[2].pieces.kind[0] = '\0';
    plan_compute(&s.in, &s.plan);
    assert_int_equal(s.plan.portion[2].pieces.wanted, 24);
    assert_int_equal(s.plan.portion[2].pieces.to_pipe, 29);
}

/* Property: more wanted, a higher chance or more rejects never want fewer to pipe; and the number is the least. */
static void the_number_to_pipe_moves_the_right_way(void **state)
{
    (void)state;
    for (int turn = 0; turn < 2000; turn++) {
        struct reject_prior prior = {random_between(0.5, 12), random_between(8, 48)};
        struct reject_prior worse = {prior.a + random_between(0, 3), prior.b};
        int wanted = random_int(1, 120);
        double chance = random_between(0.05, 0.99);
        int n = pieces_to_pipe(wanted, chance, prior);

        assert_true(n >= wanted);
        assert_true(pieces_to_pipe(wanted + 1, chance, prior) >= n + 1);
        assert_true(pieces_to_pipe(wanted, chance + 0.005, prior) >= n);
        assert_true(pieces_to_pipe(wanted, chance, worse) >= n);
        assert_true(pieces_chance(n, wanted, prior) >= chance - 1e-11);
        assert_true(n == wanted || pieces_chance(n - 1, wanted, prior) < chance);
        assert_true(pieces_chance(n, wanted, prior) <= 1);
    }
}

/* Property: batter grows with the number and the chance; what it makes grows with it, and is at least that number
 * again for a chance over a half. */
static void batter_and_pieces_agree_both_ways(void **state)
{
    (void)state;
    for (int turn = 0; turn < 5000; turn++) {
        struct pieces pieces = sample_pieces("x", 1, random_between(0.1, 60));
        int n = random_int(1, 300), bags = 0, bags_back = 0;
        double chance = random_between(0.5, 0.99);
        double batter_g = by_practice_g(practice(), &pieces, n, chance, &bags);

        assert_true(by_practice_g(practice(), &pieces, n + 1, chance, NULL) > batter_g);
        assert_true(by_practice_g(practice(), &pieces, n, chance + 0.005, NULL) > batter_g);

        int made = pieces_made(practice(), &pieces, batter_g, &bags_back);

        assert_true(made >= n);
        assert_int_equal(bags, bags_back);
        assert_true(pieces_made(practice(), &pieces, batter_g + random_between(0, 40), NULL) >= made);
        assert_int_equal(pieces_made(practice(), &pieces, by_practice_g(practice(), &pieces, n, 0.5, NULL), NULL), n);
    }
}

/* A chance of practice where none is asked; certainty cannot be had. */
static void the_chance_asked_is_bounded(void **state)
{
    struct pieces pieces = sample_pieces("x", 24, 1);

    (void)state;
    near(pieces_chance_wanted(practice(), &pieces), 0.9, 1e-12);
    pieces.chance = 0.75;
    near(pieces_chance_wanted(practice(), &pieces), 0.75, 1e-12);
    pieces.chance = 1;
    near(pieces_chance_wanted(practice(), &pieces), 0.9999, 1e-12);
    assert_true(pieces_to_pipe(2000, 0.9999, (struct reject_prior){4, 16}) < PIECES_MOST);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rejects_go_by_class_and_first_time),
        cmocka_unit_test(batter_for_pieces_has_their_spread_and_losses),
        cmocka_unit_test(bags_hold_less_than_they_are_filled_with),
        cmocka_unit_test(makers_get_as_many_rosettes),
        cmocka_unit_test(what_a_batter_makes_is_less_its_losses),
        cmocka_unit_test(a_bag_is_opened_only_where_it_brings_something),
        cmocka_unit_test(the_worked_example_pipes_what_is_written_there),
        cmocka_unit_test(a_use_that_falls_short_says_by_how_much),
        cmocka_unit_test(pieces_alone_agree_with_what_they_ask),
        cmocka_unit_test(parts_of_one_piece_share_its_number),
        cmocka_unit_test(parts_of_one_piece_share_its_rejects_and_chance),
        cmocka_unit_test(pieces_without_a_kind_are_not_parts),
        cmocka_unit_test(the_number_to_pipe_moves_the_right_way),
        cmocka_unit_test(batter_and_pieces_agree_both_ways),
        cmocka_unit_test(the_chance_asked_is_bounded),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
