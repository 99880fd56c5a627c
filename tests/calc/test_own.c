/* What the maker's own batches taught in the place of practice: where it stands in a plan, and where it does not. */
#include "calc/own.h"

#include <gsl/gsl_cdf.h>

#include "calc/learn.h"
#include "calc/pace_stamped.h"
#include "calc/piping.h"
#include "calc/portion.h"
#include "calc/split_sample.h"

enum { BASE, MOSS, ROSETTES };

/* The sample base with residue by practice. There is one: a new one clears the last. */
static struct sample *base(void)
{
    static struct sample s;

    sample_base(&s);
    s.recipe.residue_by = RESIDUE_PRACTICE;
    return &s;
}

static struct learned_value value_of(int batches, double mean)
{
    return (struct learned_value){batches, mean, 0.1 * mean};
}

/* Worked: batch means 6.1, 6.8, 6.4, 7.2, 6.5 g have mean 6.6 and deviation 0.418330; nothing within. */
static struct learned_pieces five_batches(void)
{
    return (struct learned_pieces){.weighed = 5, .mass_g = 6.6, .between_g = 0.41833001, .within_g = 0, .within_degrees = 9};
}

/* ---- Nothing, and too little */

/* To the last bit. */
static void assert_same_plan(struct sample *s, void (*change)(struct learned *))
{
    static struct plan before;
    const struct plan *now = &s->plan;

    plan_compute(&s->in, &s->plan);
    before = s->plan;
    change(&s->bench.learned);
    plan_compute(&s->in, &s->plan);
    assert_true(now->batter_ug == before.batter_ug && now->residue_ug == before.residue_ug);
    assert_true(now->oils_exact_g == before.oils_exact_g && now->density_g_ml == before.density_g_ml);
    assert_int_equal(now->findings, before.findings);
    assert_int_equal(now->portions, before.portions);
    for (int i = 0; i < now->portions; i++) {
        const struct plan_portion *a = &now->portion[i], *b = &before.portion[i];

        assert_true(a->batter_ug == b->batter_ug && a->cured_g == b->cured_g);
        assert_memory_equal(&a->pieces, &b->pieces, sizeof a->pieces);
        assert_memory_equal(&a->pace.from, &b->pace.from, sizeof a->pace.from);
        assert_memory_equal(&a->pace.until, &b->pace.until, sizeof a->pace.until);
    }
}

static void two_of_everything(struct learned *learned)
{
    learned->jug_residue_g = value_of(2, 21);
    learned->bag_residue_g = value_of(2, 4);
    learned->air = value_of(2, 0.06);
    learned->cure_loss = value_of(2, 0.3);
    learned->piece[ROSETTES] = five_batches();
    learned->piece[ROSETTES].weighed = 2;
}

/* House rule: fewer than LEARNED_LEAST batches are shown and not used. */
static void two_batches_change_nothing_that_is_planned(void **state)
{
    struct sample *s = base();
    (void)state;

    s->recipe.portion[ROSETTES].demand = DEMAND_PIECES;
    s->recipe.portion[BASE].demand = DEMAND_REST;
    assert_same_plan(s, two_of_everything);
}

static void the_belief_of_practice(struct learned *learned)
{
    learned->pace_batches = 2;
    pace_prior(facts_reference()->practice, &learned->pace);
}

static void a_belief_that_is_that_of_practice_predicts_the_same(void **state)
{
    (void)state;
    assert_same_plan(base(), the_belief_of_practice);
}

/* ---- Residues */

static void the_own_residue_of_the_jug_stands_where_the_recipe_says_nothing(void **state)
{
    struct sample *s = base();
    (void)state;

    near(portion_residue_g(&s->in, 1000), 8, 0);
    near(portion_residue_g(&s->in, 100), 5, 1e-12);
    s->bench.learned.jug_residue_g = value_of(3, 21);
    near(portion_residue_g(&s->in, 1000), 21, 0);
    near(portion_residue_g(&s->in, 100), 21, 0); /* taken at its word ... */
    near(portion_residue_g(&s->in, 30), 15, 0);  /* ... up to half of the batter */
    s->recipe.residue_by = RESIDUE_GRAMS;
    s->recipe.residue = 12;
    near(portion_residue_g(&s->in, 1000), 12, 0);
    s->recipe.residue_by = RESIDUE_SHARE;
    s->recipe.residue = 0.02;
    near(portion_residue_g(&s->in, 1000), 20, 1e-12);
}

static void a_recipe_sized_by_pieces_brings_its_own_residues(void **state)
{
    struct sample *s = base();
    (void)state;

    s->recipe.size.by = SIZE_PIECES;
    s->recipe.size.pieces = sample_pieces("", 24, 6.5);
    plan_compute(&s->in, &s->plan);

    double before = s->plan.oils_exact_g * mass_g(s->plan.batter_ug) / mass_g(s->plan.oils_ug);

    s->bench.learned.jug_residue_g = value_of(3, 28);
    s->bench.learned.bag_residue_g = value_of(3, 7);
    plan_compute(&s->in, &s->plan);

    double after = s->plan.oils_exact_g * mass_g(s->plan.batter_ug) / mass_g(s->plan.oils_ug);

    near(after - before, 20 - 2 * 5, 0.5); /* two bags; rounding of the batter */
}

/* By hand: 217 g are a cup's 4 g and two bags that lose 15 g each: 183 g, 28 of 6.5 g. With 5 g left in a bag 197 g are 30. */
static void the_own_residue_of_a_bag_makes_more_pieces(void **state)
{
    struct sample *s = base();
    (void)state;

    s->recipe.portion[ROSETTES].demand = DEMAND_GRAMS;
    s->recipe.portion[ROSETTES].amount = 217;
    s->recipe.portion[BASE].demand = DEMAND_REST;
    plan_compute(&s->in, &s->plan);
    assert_true(s->plan.portion[ROSETTES].pieces.made == 28);
    s->bench.learned.bag_residue_g = value_of(3, 5);
    plan_compute(&s->in, &s->plan);
    assert_true(s->plan.portion[ROSETTES].pieces.made == 30);
    assert_int_equal(s->plan.portion[ROSETTES].pieces.mass_batches, 0);
}

/* ---- Air and cure */

static void own_air_makes_the_batter_lighter_unless_it_is_set_or_measured(void **state)
{
    struct sample *s = base();
    (void)state;

    plan_compute(&s->in, &s->plan);

    double without = s->plan.density_g_ml;

    s->bench.learned.air = value_of(3, 0.06);
    plan_compute(&s->in, &s->plan);
    near(s->plan.density_g_ml, without * 0.94, 1e-12);
    s->bench.air_share = 0.02;
    plan_compute(&s->in, &s->plan);
    near(s->plan.density_g_ml, without * 0.98, 1e-12);
    s->bench.air_share = 0;
    s->bench.density_g_ml = 0.97;
    plan_compute(&s->in, &s->plan);
    near(s->plan.density_g_ml, 0.97, 1e-12);
    s->bench.density_g_ml = 0;
    s->bench.learned.air = value_of(9, -0.02); /* heavier than it can be: a slip of the scale */
    plan_compute(&s->in, &s->plan);
    near(s->plan.density_g_ml, without, 1e-12);
}

/* Definition: a mould of so many mL is filled by batter with its air. */
static void a_mould_takes_less_batter_with_own_air(void **state)
{
    struct sample *s = base();
    (void)state;

    s->recipe.size.by = SIZE_MOULD;
    s->recipe.size.has_mould = true;
    s->recipe.size.mould = (struct mould){.shape = MOULD_VOLUME, .volume_ml = 1400, .fill = 1};
    plan_compute(&s->in, &s->plan);
    near(s->plan.filled_ml, 1400, 3);

    double without = s->plan.oils_exact_g;

    s->bench.learned.air = value_of(3, 0.06);
    plan_compute(&s->in, &s->plan);
    near(s->plan.filled_ml, 1400, 3);
    near(s->plan.oils_exact_g / without, 0.94, 0.003);
}

/* Fragrance counts in the cured bar: the less is lost, the smaller its share. Never more than all the water goes. */
static void own_loss_in_the_cure_sets_the_cured_mass(void **state)
{
    struct sample *s = base();
    const struct plan_portion *portion = &s->plan.portion[BASE];
    (void)state;

    s->bench.learned.cure_loss = value_of(3, 0.08);
    plan_compute(&s->in, &s->plan);
    near(portion->cured_g, 0.92 * portion->filled_g, 1e-9);
    s->bench.learned.cure_loss = value_of(3, 0.9);
    plan_compute(&s->in, &s->plan);
    assert_true(portion->cured_g > 0.7 * portion->filled_g);
}

/* ---- Pieces */

/* Worked: 29 pieces of that mean with t of 4 degrees and the mean's own spread: 211.775 g. */
static void batter_for_pieces_has_students_t_and_the_spread_of_the_mean(void **state)
{
    const struct practice *practice = facts_reference()->practice;
    struct sample *s = base();
    struct pieces_known known;
    (void)state;

    s->bench.learned.piece[ROSETTES] = five_batches();
    known = pieces_of_portion(&s->in, ROSETTES);
    assert_int_equal(known.mass_batches, 5);
    near(known.pieces.mass_g, 6.6, 0);
    near(pieces_batter_g(practice, &known, 29, 0.9, NULL), 211.775 + 2 * 15 + 4, 5e-4);
    near(pieces_batter_g(practice, &known, 29, 0.5, NULL), 29 * 6.6 + 2 * 15 + 4, 1e-9);

    /* Source: GSL's t. Spread within is the batches' own where it is known, else practice's 15 %. */
    double between = 29 * 0.41833001 * sqrt(1.2), t = gsl_cdf_tdist_Pinv(0.95, 4);

    s->bench.learned.piece[ROSETTES].within_g = 0.8;
    known = pieces_of_portion(&s->in, ROSETTES);
    near(pieces_batter_g(practice, &known, 29, 0.95, NULL),
         29 * 6.6 + t * sqrt(29 * 0.64 + between * between) + 2 * 15 + 4, 1e-6);
    s->bench.learned.piece[ROSETTES].within_g = NAN;
    s->bench.learned.piece[ROSETTES].within_degrees = 0;
    known = pieces_of_portion(&s->in, ROSETTES);
    near(pieces_batter_g(practice, &known, 29, 0.95, NULL),
         29 * 6.6 + t * sqrt(29 * 0.99 * 0.99 + between * between) + 2 * 15 + 4, 1e-6);
}

static void a_plan_says_how_many_batches_its_pieces_are_from(void **state)
{
    struct sample *s = base();
    const struct plan_pieces *pieces = &s->plan.portion[ROSETTES].pieces;
    (void)state;

    plan_compute(&s->in, &s->plan);
    assert_int_equal(pieces->mass_batches, 0);
    assert_int_equal(pieces->reject_batches, 0);
    near(pieces->mass_g, 6.5, 0);
    assert_int_equal(pieces->to_pipe, 29);

    s->bench.learned.piece[ROSETTES] = five_batches();
    s->bench.learned.piece[ROSETTES].counted = 1;
    s->bench.learned.piece[ROSETTES].reject_a = 5; /* worked: 3 of 30 rejects; 24 good ones still want 29 */
    s->bench.learned.piece[ROSETTES].reject_b = 51;
    plan_compute(&s->in, &s->plan);
    assert_int_equal(pieces->mass_batches, 5);
    assert_int_equal(pieces->reject_batches, 1);
    near(pieces->mass_g, 6.6, 0);
    assert_int_equal(pieces->to_pipe, 29);
    near(pieces->expected_good / pieces->made, 51.0 / 56.0, 1e-12);
}

/* Parts of one piece are counted together; a part that is younger than the piece has the others' rejects, not their mass. */
static void parts_of_one_piece_share_their_rejects(void **state)
{
    struct sample *s = base();
    struct learned_pieces *learned = s->bench.learned.piece;
    (void)state;

    s->recipe.portion[MOSS].has_pieces = true;
    s->recipe.portion[MOSS].pieces = sample_pieces("ROSETTE", 24, 1.5);
    learned[ROSETTES] = five_batches();
    learned[ROSETTES].counted = 4;
    learned[ROSETTES].reject_a = 9;
    learned[ROSETTES].reject_b = 51;
    learned[MOSS].counted = 1;
    learned[MOSS].reject_a = 2;
    learned[MOSS].reject_b = 54;
    for (int i = MOSS; i <= ROSETTES; i++) {
        struct pieces_known known = pieces_of_portion(&s->in, i);

        assert_int_equal(known.reject_batches, 4);
        near(known.prior.a, 9, 0);
        near(known.prior.b, 51, 0);
    }
    near(pieces_of_portion(&s->in, MOSS).pieces.mass_g, 1.5, 0);
    assert_int_equal(pieces_of_portion(&s->in, MOSS).mass_batches, 0);
}

static void the_size_by_pieces_goes_by_the_portion_of_its_kind(void **state)
{
    struct sample *s = base();
    struct learned_pieces *learned = &s->bench.learned.piece[ROSETTES];
    (void)state;

    *learned = five_batches();
    learned->counted = 3;
    learned->reject_a = 9;
    learned->reject_b = 51;
    s->recipe.size.pieces = sample_pieces("leaf", 24, 6.5);
    assert_int_equal(pieces_of_size(&s->in).mass_batches, 0);
    assert_int_equal(pieces_of_size(&s->in).reject_batches, 0);
    s->recipe.size.pieces = sample_pieces("Rosette", 24, 6.5);
    assert_int_equal(pieces_of_size(&s->in).mass_batches, 5);
    assert_int_equal(pieces_of_size(&s->in).reject_batches, 3);
    near(pieces_of_size(&s->in).pieces.mass_g, 6.6, 0);
    s->recipe.portion[MOSS].has_pieces = true; /* now the portion is only a part of it */
    s->recipe.portion[MOSS].pieces = sample_pieces("rosette", 24, 1.5);
    assert_int_equal(pieces_of_size(&s->in).mass_batches, 0);
    assert_int_equal(pieces_of_size(&s->in).reject_batches, 3);
    near(pieces_of_size(&s->in).pieces.mass_g, 6.5, 0);
}

/* Property: whatever was learned every plan is finite and its portions add up. */
static void plans_with_random_learning_still_add_up(void **state)
{
    struct sample *s = base();
    (void)state;

    for (int run = 0; run < 300; run++) {
        struct learned *learned = &s->bench.learned;

        learned->jug_residue_g = value_of(random_int(0, 6), random_between(-5, 60));
        learned->bag_residue_g = value_of(random_int(0, 6), random_between(0, 200));
        learned->air = value_of(random_int(0, 6), random_between(-0.1, 0.9));
        learned->cure_loss = value_of(random_int(0, 6), random_between(-0.1, 1.2));
        learned->piece[ROSETTES] = (struct learned_pieces){.weighed = random_int(0, 6),
                                                           .mass_g = random_between(2, 20),
                                                           .between_g = random_between(0, 3),
                                                           .within_degrees = random_int(0, 1),
                                                           .within_g = random_between(0, 3),
                                                           .counted = random_int(0, 3),
                                                           .reject_a = random_between(1, 30),
                                                           .reject_b = random_between(1, 30)};
        s->recipe.portion[ROSETTES].demand = random_int(0, 1) ? DEMAND_PIECES : DEMAND_GRAMS;
        s->recipe.portion[ROSETTES].amount = random_between(50, 300);
        s->recipe.portion[BASE].demand = DEMAND_REST;
        plan_compute(&s->in, &s->plan);
        if (s->plan.split_valid)
            assert_true(portions_ug(&s->plan) + s->plan.residue_ug == s->plan.batter_ug);
        for (int i = 0; i < s->plan.portions; i++) {
            assert_true(isfinite(s->plan.portion[i].cured_g) && s->plan.portion[i].cured_g >= 0);
            assert_true(s->plan.portion[i].cured_g <= s->plan.portion[i].filled_g);
            assert_true(isfinite(s->plan.portion[i].volume_ml) && isfinite(s->plan.portion[i].pieces.chance));
        }
    }
}

/* ---- Pace */

/* Of so many batches made as the plan says, their window 40 to 55 minutes. */
static void teach_pace(struct sample *s, int batches)
{
    struct pace_seen seen[20];

    plan_compute(&s->in, &s->plan);

    struct pace_terms terms = pace_terms_of(&s->in, &s->plan, &s->plan.portion[ROSETTES]);

    for (int i = 0; i < batches; i++) {
        seen[i] = (struct pace_seen){.from_min = 40, .until_min = 55};
        pace_numbers(facts_reference()->practice, &terms, seen[i].x);
    }
    s->bench.learned.pace_batches = learn_pace(facts_reference()->practice, seen, batches, &s->bench.learned.pace);
    plan_compute(&s->in, &s->plan);
}

static void own_batches_set_the_pace_and_are_counted(void **state)
{
    struct sample *s = base();
    const struct plan_pace *pace = &s->plan.portion[ROSETTES].pace;
    (void)state;

    teach_pace(s, 0);
    assert_int_equal(pace->batches, 0);

    double width = log(pace->until.high / pace->until.low);

    teach_pace(s, 16);
    assert_int_equal(pace->batches, 16);
    near(pace->from.median, 40, 3);
    near(pace->until.median, 55, 5);
    assert_true(log(pace->until.high / pace->until.low) < width);
}

/* From three own batches on the need has to end before the low end of until; with fewer before its median. Twelve rosettes are well
 * within the median of practice and well beyond its low end. */
static void three_own_batches_ask_for_the_low_end(void **state)
{
    struct sample *s = base();
    const struct plan_pace *pace = &s->plan.portion[ROSETTES].pace;
    int from = 0;
    (void)state;

    s->recipe.portion[ROSETTES].pieces.count = 12;
    the_belief_of_practice(&s->bench.learned);
    plan_compute(&s->in, &s->plan);
    assert_int_equal(pace->batches, 2);
    assert_true(pace->from.median + pace->need < pace->until.median - 5);
    assert_true(pace->from.median + pace->need > pace->until.low + 5);
    assert_null(find(&s->plan, FINDING_WINDOW_SHORT));

    s->bench.learned.pace_batches = LEARNED_LEAST;
    plan_compute(&s->in, &s->plan);

    const struct finding *finding = next_finding(&s->plan, FINDING_WINDOW_SHORT, &from);

    assert_non_null(finding);
    near(finding->number[0], pace->need, 0);
    near(finding->number[1], fmax(pace->until.low - pace->from.median, 0), 0);
    near(finding->number[3], pace->until.low, 0);
    near(finding->number[4], LEARNED_LEAST, 0);
}

/* The forecast on the bench begins with the same belief; a batch that is not combined yet has the plan's own prediction. */
static void the_bench_forecasts_by_the_same_belief(void **state)
{
    static struct batch batch;
    struct sample *s = base();
    const struct plan_portion *portion = &s->plan.portion[ROSETTES];
    struct quantiles from, until;
    (void)state;

    teach_pace(s, 16);
    memset(&batch, 0, sizeof batch);
    batch.stage = -1;
    batch.lye_temp_c = batch.oil_temp_c = NAN;
    pace_stamped(&s->in, &s->plan, portion, &batch, 0, &from, &until);
    near(from.median, portion->pace.from.median, 0);
    near(until.high, portion->pace.until.high, 0);
    batch.combined_s = 1773480000;
    pace_stamped(&s->in, &s->plan, portion, &batch, batch.combined_s, &from, &until);
    near(from.median / portion->pace.from.median, 1, 0.01);
    near(until.median / portion->pace.until.median, 1, 0.01);
}

/* On the bench rejects go on from what was learned: worked, Beta(5, 51) and 3 of 30 more are capped at 60. */
static void the_bench_counts_on_from_what_was_learned(void **state)
{
    static struct batch batch;
    struct sample *s = base();
    struct piping piping;
    (void)state;

    s->bench.learned.piece[ROSETTES] = five_batches();
    s->bench.learned.piece[ROSETTES].counted = 1;
    s->bench.learned.piece[ROSETTES].reject_a = 5;
    s->bench.learned.piece[ROSETTES].reject_b = 51;
    plan_compute(&s->in, &s->plan);
    memset(&batch, 0, sizeof batch);
    batch.stage = -1;
    batch.lye_temp_c = batch.oil_temp_c = NAN;
    batch.kinds = 1;
    batch.pieces[0] = (struct batch_pieces){.portion = ROSETTES, .left_ug = -1};
    piping_now(&s->in, &s->plan, &batch, 0, 0, &piping);
    near(piping.reject_a, 5, 1e-12);
    near(piping.reject_b, 51, 1e-12);
    near(piping.mass_g, 6.6, 0);
    batch.pieces[0].good = 27;
    batch.pieces[0].rejects = 3;
    piping_now(&s->in, &s->plan, &batch, 0, 0, &piping);
    near(piping.reject_a, 60.0 * 8 / 86, 1e-12);
    near(piping.reject_b, 60.0 * 78 / 86, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_batches_change_nothing_that_is_planned),
        cmocka_unit_test(a_belief_that_is_that_of_practice_predicts_the_same),
        cmocka_unit_test(the_own_residue_of_the_jug_stands_where_the_recipe_says_nothing),
        cmocka_unit_test(a_recipe_sized_by_pieces_brings_its_own_residues),
        cmocka_unit_test(the_own_residue_of_a_bag_makes_more_pieces),
        cmocka_unit_test(own_air_makes_the_batter_lighter_unless_it_is_set_or_measured),
        cmocka_unit_test(a_mould_takes_less_batter_with_own_air),
        cmocka_unit_test(own_loss_in_the_cure_sets_the_cured_mass),
        cmocka_unit_test(batter_for_pieces_has_students_t_and_the_spread_of_the_mean),
        cmocka_unit_test(a_plan_says_how_many_batches_its_pieces_are_from),
        cmocka_unit_test(parts_of_one_piece_share_their_rejects),
        cmocka_unit_test(the_size_by_pieces_goes_by_the_portion_of_its_kind),
        cmocka_unit_test(plans_with_random_learning_still_add_up),
        cmocka_unit_test(own_batches_set_the_pace_and_are_counted),
        cmocka_unit_test(three_own_batches_ask_for_the_low_end),
        cmocka_unit_test(the_bench_forecasts_by_the_same_belief),
        cmocka_unit_test(the_bench_counts_on_from_what_was_learned),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
