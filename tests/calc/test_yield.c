/* Mass a piece with its spread from what was left in the bag, and the window that a batch has shown. */
#include "calc/yield.h"

#include "base/text.h"
#include "calc/pace_stamped.h"
#include "calc/piping.h"
#include "calc/scene.h"

enum { COMBINED = 1773480000, PETALS = 0, CENTRES = 1 };

struct piped {
    struct scene scene;
    struct practice practice;
    struct batch batch;
};

/* 44 blossoms of petals and a centre; the petals' 128.8 g fill one bag. */
static struct piped *piped(void)
{
    static const double poured_g[] = {128.8, 40};
    static const double mass_g_each[] = {2.6, 0.15};
    static struct piped p;

    memset(&p, 0, sizeof p);
    scene_start(&p.scene);
    p.practice = *facts_reference()->practice;
    p.scene.reference.practice = &p.practice;
    p.scene.plan.oils_ug = mass_ug(500.0);
    p.scene.plan.batter_ug = mass_ug(700.0);
    for (int i = 0; i < 2; i++) {
        struct recipe_portion *portion;

        scene_portion(&p.scene, poured_g[i], false, TECHNIQUE_PIPE);
        portion = &p.scene.recipe.portion[i];
        portion->has_pieces = true;
        portion->pieces = (struct pieces){.count = 44, .mass_g = mass_g_each[i], .class = PIECE_FLOWER};
        text_copy(portion->pieces.kind, sizeof portion->pieces.kind, "blossom");
        text_copy(portion->name, sizeof portion->name, i == PETALS ? "petals" : "centres");
        p.scene.plan.portion[i].has_pieces = true;
    }
    p.batch.combined_s = COMBINED;
    for (int i = 0; i < RESIDUES; i++)
        p.batch.residue_g[i] = NAN;
    p.batch.stage = -1;
    p.batch.kinds = 1;
    p.batch.pieces[0] = (struct batch_pieces){.portion = PETALS, .left_ug = -1};
    return &p;
}

static int64_t after(double minutes)
{
    return COMBINED + (int64_t)lround(minutes * 60.0);
}

/* By hand: 128.8 g less the cup's 4 g and the first squeeze's 3 g are 121.8 g in the bag. After 12 pieces 91.8 g are left, so they had
 * 2.5 g each; after 30 pieces 41.4 g, so the next 18 had 2.8 g. All together 80.4 g / 30 = 2.68 g, and the squares about it are
 * 12 * 0.18^2 + 18 * 0.12^2 = 0.648. */
static void mass_a_piece_and_its_spread_are_those_worked_by_hand(void **state)
{
    static const struct left_seen left[] = {{91800000, 12}, {41400000, 30}};
    struct piped *p = piped();
    struct book_pieces out[4];

    (void)state;
    p->batch.pieces[0] = (struct batch_pieces){.portion = PETALS,
                                               .good = 28,
                                               .rejects = 2,
                                               .left_weighed = true,
                                               .left_ug = left[1].left_ug,
                                               .good_then = left[1].made};
    p->batch.poured[PETALS] = (struct charge){.has = true, .mass_ug = mass_ug(128.8)};
    assert_int_equal(yield_of(&p->scene.in, &p->scene.plan, &p->batch, 0, left, 2, out, 4), 2);
    assert_string_equal(out[0].part, "petals");
    assert_int_equal(out[0].made, 30);
    assert_near(out[0].each_g, 2.68, 1e-9);
    assert_near(out[0].within_squares, 0.648, 1e-6);
    assert_int_equal(out[0].within_degrees, 1);
    assert_string_equal(out[1].part, "centres");
    assert_int_equal(out[1].made, 0); /* nobody weighed what was left of them */
    assert_true(isnan(out[1].each_g));
    for (int i = 0; i < 2; i++) {
        assert_string_equal(out[i].kind, "blossom");
        assert_int_equal(out[i].class, PIECE_FLOWER);
        assert_true(out[i].counted);
        assert_int_equal(out[i].good, 28);
        assert_int_equal(out[i].rejects, 2);
    }
}

/* The petals stay in the jug, and nobody weighed what they left there. After 12 pieces 91.8 g are left, after 30 41.4 g and after 40 16.4 g: 18 of
 * 2.8 g and 10 of 2.5 g, whose squares are 18 * 10 / 28 * 0.3^2 = 0.5785714. Once the jug was weighed the first 12 count too: what was
 * foreseen, 8 g, was in it, so they had 2.5 g. 22 of 2.5 g and 18 of 2.8 g are 22 * 18 / 40 * 0.3^2 = 0.891. */
static void what_was_not_weighed_into_the_bags_is_not_read_as_spread(void **state)
{
    static const struct left_seen left[] = {{91800000, 12}, {41400000, 30}, {16400000, 40}};
    struct piped *p = piped();
    struct book_pieces out[4];

    (void)state;
    p->scene.plan.batter_ug = mass_ug(176.8);
    p->scene.plan.residue_ug = mass_ug(8);
    p->batch.poured[CENTRES] = (struct charge){.has = true, .mass_ug = mass_ug(40)};
    p->batch.pieces[0] = (struct batch_pieces){
        .portion = PETALS, .good = 40, .left_weighed = true, .left_ug = mass_ug(16.4), .good_then = 40};
    assert_int_equal(yield_of(&p->scene.in, &p->scene.plan, &p->batch, 0, left, 3, out, 4), 2);
    assert_near(out[0].within_squares, 0.5785714, 1e-6);
    assert_int_equal(out[0].within_degrees, 1);
    yield_of(&p->scene.in, &p->scene.plan, &p->batch, 0, left, 2, out, 4);
    assert_int_equal(out[0].within_degrees, 0);
    p->batch.residue_g[RESIDUE_JUG] = 8;
    yield_of(&p->scene.in, &p->scene.plan, &p->batch, 0, left, 3, out, 4);
    assert_near(out[0].within_squares, 0.891, 1e-6);
    assert_int_equal(out[0].within_degrees, 2);
}

static double own_mass_g(struct piped *p)
{
    struct piping_terms terms;

    return piping_own(&p->scene.in, &p->scene.plan, &p->batch, 0, &terms) ? terms.each_g : NAN;
}

/* 176.8 g of batter, 8 g of which stay in the jug: petals 128.8 g, centres 40 g. Centres of 50 g leave 118.8 g for the petals, and
 * (118.8 - 7 - 41.4) / 30 = 2.34667 g. */
static void the_portion_that_stays_has_what_the_others_left(void **state)
{
    struct piped *p = piped();

    (void)state;
    p->scene.plan.batter_ug = mass_ug(176.8);
    p->scene.plan.residue_ug = mass_ug(8);
    p->batch.pieces[0] = (struct batch_pieces){
        .portion = PETALS, .good = 30, .left_weighed = true, .left_ug = mass_ug(41.4), .good_then = 30};
    p->batch.poured[CENTRES] = (struct charge){.has = true, .mass_ug = mass_ug(40)};
    assert_near(own_mass_g(p), 2.68, 1e-9);
    p->batch.poured[CENTRES].mass_ug = mass_ug(50);
    assert_near(own_mass_g(p), 70.4 / 30, 1e-9);
    p->batch.poured[PETALS] = (struct charge){.has = true, .mass_ug = mass_ug(128.8)}; /* weighed all the same */
    assert_near(own_mass_g(p), 2.68, 1e-9);
}

/* The same with 14.2 g found in the jug: 176.8 - 14.2 - 40 = 122.6 g for the petals, and (122.6 - 7 - 41.4) / 30 = 74.2 / 30. Scraped clean
 * they have 136.8 g, and 88.4 / 30. What was weighed into the bowl is not changed by it. */
static void what_was_found_in_the_jug_is_charged_to_the_portion_that_stays(void **state)
{
    struct piped *p = piped();

    (void)state;
    p->scene.plan.batter_ug = mass_ug(176.8);
    p->scene.plan.residue_ug = mass_ug(8);
    p->batch.pieces[0] = (struct batch_pieces){
        .portion = PETALS, .good = 30, .left_weighed = true, .left_ug = mass_ug(41.4), .good_then = 30};
    p->batch.poured[CENTRES] = (struct charge){.has = true, .mass_ug = mass_ug(40)};
    p->batch.residue_g[RESIDUE_JUG] = 14.2;
    assert_near(own_mass_g(p), 74.2 / 30, 1e-9);
    p->batch.residue_g[RESIDUE_JUG] = 0;
    assert_near(own_mass_g(p), 88.4 / 30, 1e-9);
    p->batch.residue_g[RESIDUE_JUG] = 14.2;
    p->batch.poured[PETALS] = (struct charge){.has = true, .mass_ug = mass_ug(128.8)};
    assert_near(own_mass_g(p), 2.68, 1e-9);
    p->batch.poured[PETALS].has = false;
    p->batch.poured[CENTRES].has = false; /* of two that nobody weighed, none is known to have borne it */
    assert_near(own_mass_g(p), 2.68, 1e-9);
}

/* All of 136.8 g of batter is for one portion, nothing is poured out: 128.8 g as planned, 122.6 g with 14.2 g found in the jug. */
static void a_batter_that_is_not_split_bears_what_was_found_in_the_jug(void **state)
{
    struct piped *p = piped();

    (void)state;
    p->scene.plan.portions = p->scene.recipe.portions = 1;
    p->scene.plan.batter_ug = mass_ug(136.8);
    p->scene.plan.residue_ug = mass_ug(8);
    p->batch.pieces[0] = (struct batch_pieces){
        .portion = PETALS, .good = 30, .left_weighed = true, .left_ug = mass_ug(41.4), .good_then = 30};
    assert_near(own_mass_g(p), 2.68, 1e-9);
    p->batch.residue_g[RESIDUE_JUG] = 14.2;
    assert_near(own_mass_g(p), 74.2 / 30, 1e-9);
}

/* Of 40 g the centres become (40 - 4 - 15) / 0.6 = 35 pieces, of 128.8 g the petals (128.8 - 4 - 15) / 2.6 = 42: the centres are weighed. 40 g
 * found in the jug leave the petals 96.8 g, 29 pieces; but by then the rest of the centres was weighed. */
static void a_residue_does_not_change_of_which_part_the_rest_was_weighed(void **state)
{
    struct piped *p = piped();

    (void)state;
    p->scene.plan.batter_ug = mass_ug(176.8);
    p->scene.plan.residue_ug = mass_ug(8);
    p->batch.poured[CENTRES] = (struct charge){.has = true, .mass_ug = mass_ug(40)};
    p->scene.recipe.portion[CENTRES].pieces.mass_g = 0.6;
    assert_int_equal(piping_part(&p->scene.in, &p->scene.plan, &p->batch, 0), CENTRES);
    p->batch.residue_g[RESIDUE_JUG] = 40;
    assert_int_equal(piping_part(&p->scene.in, &p->scene.plan, &p->batch, 0), CENTRES);
}

static double own_g(struct piped *p, double left_g, int made)
{
    p->batch.pieces[0] = (struct batch_pieces){
        .portion = PETALS, .good = made, .left_weighed = true, .left_ug = mass_ug(left_g), .good_then = made};
    return own_mass_g(p);
}

/* 238.05 g, less 4 g in the cup, are two bags: one of 175 g and one of 59.05 g. While less than 175 g are gone the first bag is not empty, though
 * what is left of both would go into one:
 *     150.6 g left of 12:  (238.05 - 4 - 3 - 150.6) / 12 = 80.45 / 12
 *      71.5 g left of 24:  (238.05 - 4 - 3 - 71.5) / 24 = 159.55 / 24
 *      58.4 g left of 24:  175.65 g are gone, so (238.05 - 4 - 3 - 58.4 - 15) / 24 = 157.65 / 24
 * The last bag is never emptied: with nothing left of 32, (238.05 - 4 - 3 - 15) / 32 = 216.05 / 32. */
static void a_bag_is_emptied_once_its_fill_is_gone(void **state)
{
    struct piped *p = piped();

    (void)state;
    p->scene.plan.portion[PETALS].filled_g = 238.05;
    assert_near(own_g(p, 150.6, 12), 80.45 / 12, 1e-9);
    assert_near(own_g(p, 71.5, 24), 159.55 / 24, 1e-9);
    assert_near(own_g(p, 58.4, 24), 157.65 / 24, 1e-9);
    assert_near(own_g(p, 0, 32), 216.05 / 32, 1e-9);
}

/* The same bags with 58.4 g left of 24: 9 g measured in a bag, of practice's 12, make (238.05 - 4 - 3 - 12 - 58.4) / 24 = 160.65 / 24; 4.5 g
 * measured in the cup besides (175.15 g are gone) 160.15 / 24. */
static void what_was_measured_in_bag_and_cup_is_taken_in_place_of_practice(void **state)
{
    struct piped *p = piped();

    (void)state;
    p->scene.plan.portion[PETALS].filled_g = 238.05;
    p->batch.residue_g[RESIDUE_BAG] = 9;
    assert_near(own_g(p, 58.4, 24), 160.65 / 24, 1e-9);
    p->batch.residue_g[RESIDUE_CUP] = 4.5;
    assert_near(own_g(p, 58.4, 24), 160.15 / 24, 1e-9);
}

/* Those of that bag as they are: 238.05 - 4 - 3 - 15 - 58.4 = 157.65 g. */
static void the_terms_are_those_of_the_sum(void **state)
{
    struct piped *p = piped();
    struct piping_terms terms;

    (void)state;
    p->scene.plan.portion[PETALS].filled_g = 238.05;
    own_g(p, 58.4, 24);
    assert_true(piping_own(&p->scene.in, &p->scene.plan, &p->batch, 0, &terms));
    assert_int_equal(terms.portion, PETALS);
    assert_near(terms.filled_g, 238.05, 1e-9);
    assert_near(terms.cup_g, 4, 1e-9);
    assert_near(terms.squeeze_g, 3, 1e-9);
    assert_near(terms.emptied_g, 15, 1e-9);
    assert_int_equal(terms.emptied, 1);
    assert_near(terms.left_g, 58.4, 1e-9);
    assert_int_equal(terms.made, 24);
    assert_near(terms.each_g, 157.65 / 24, 1e-9);
    p->batch.pieces[0].left_weighed = false;
    assert_false(piping_own(&p->scene.in, &p->scene.plan, &p->batch, 0, &terms));
}

static void one_weighing_tells_a_mean_and_no_spread(void **state)
{
    static const struct left_seen left[] = {{41400000, 30}};
    struct piped *p = piped();
    struct book_pieces out[4];

    (void)state;
    p->batch.pieces[0] = (struct batch_pieces){
        .portion = PETALS, .good = 30, .left_weighed = true, .left_ug = left[0].left_ug, .good_then = 30};
    assert_int_equal(yield_of(&p->scene.in, &p->scene.plan, &p->batch, 0, left, 1, out, 4), 2);
    assert_near(out[0].each_g, 2.68, 1e-9);
    assert_int_equal(out[0].within_degrees, 0);
}

static void without_a_weighing_counts_alone_are_known(void **state)
{
    struct piped *p = piped();
    struct book_pieces out[4];

    (void)state;
    p->batch.pieces[0].good = 20;
    assert_int_equal(yield_of(&p->scene.in, &p->scene.plan, &p->batch, 0, NULL, 0, out, 4), 2);
    assert_true(isnan(out[0].each_g));
    assert_true(out[0].counted);
    assert_int_equal(yield_of(&p->scene.in, &p->scene.plan, &p->batch, 0, NULL, 0, out, 1),
                     1); /* no more than there is room for */
}

/* From the first to the fifth are four times the time between two. */
static void seconds_a_piece_are_between_the_first_and_the_last(void **state)
{
    struct batch_pieces pieces = {.first_s = 1000, .last_s = 1080};

    (void)state;
    assert_near(yield_seconds(&pieces, 5), 20, 1e-12);
    assert_true(isnan(yield_seconds(&pieces, 3)));
    pieces.last_s = pieces.first_s;
    assert_true(isnan(yield_seconds(&pieces, 5)));
}

/* ---- the window */

static void stamp(struct batch *batch, int stage, double minutes)
{
    batch->stage = stage;
    batch->stage_s[stage] = after(minutes);
}

static void the_window_is_between_the_stages_that_the_technique_waits_for(void **state)
{
    struct piped *p = piped();
    double from, until;
    bool least;

    (void)state;
    stamp(&p->batch, 2, 6);
    stamp(&p->batch, 3, 17);
    stamp(&p->batch, 4, 30);
    stamp(&p->batch, 5, 46);
    stamp(&p->batch, 6, 80);
    pace_seen_of(&p->batch, TECHNIQUE_PIPE, 0, &from, &until, &least);
    assert_near(from, 46, 1e-12);
    assert_near(until, 80, 1e-12);
    assert_true(!least);
    pace_seen_of(&p->batch, TECHNIQUE_LAYER, 0, &from, &until, &least);
    assert_near(from, 17, 1e-12);
    assert_near(until, 46, 1e-12);
    assert_true(!least);
    pace_seen_of(&p->batch, TECHNIQUE_SWIRL, 0, &from, &until, &least);
    assert_near(from, 6, 1e-12);
    assert_near(until, 30, 1e-12);
    assert_true(!least);
}

static void what_was_used_up_while_workable_lasted_at_least_so_long(void **state)
{
    struct piped *p = piped();
    double from, until;
    bool least;

    (void)state;
    stamp(&p->batch, 5, 46);
    pace_seen_of(&p->batch, TECHNIQUE_PIPE, 0, &from, &until, &least);
    assert_near(until, 46, 1e-12);
    assert_true(least);
    p->batch.pieces[0].last_s = after(70);
    pace_seen_of(&p->batch, TECHNIQUE_PIPE, 0, &from, &until, &least);
    assert_near(from, 46, 1e-12);
    assert_near(until, 70, 1e-12);
    assert_true(least);
    pace_seen_of(&p->batch, TECHNIQUE_PIPE, after(75), &from, &until, &least);
    assert_near(until, 75, 1e-12);
    assert_true(least);
}

static void what_nobody_stamped_is_not_known(void **state)
{
    struct piped *p = piped();
    double from, until;
    bool least;

    (void)state;
    pace_seen_of(&p->batch, TECHNIQUE_PIPE, 0, &from, &until, &least);
    assert_true(isnan(from) && isnan(until) && !least);
    stamp(&p->batch, 6, 12); /* it set before anybody looked: from was before, and is not on record */
    pace_seen_of(&p->batch, TECHNIQUE_PIPE, 0, &from, &until, &least);
    assert_true(isnan(from));
    assert_near(until, 12, 1e-12);
    assert_true(!least);
    p->batch.combined_s = 0;
    pace_seen_of(&p->batch, TECHNIQUE_PIPE, 0, &from, &until, &least);
    assert_true(isnan(from) && isnan(until));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(mass_a_piece_and_its_spread_are_those_worked_by_hand),
        cmocka_unit_test(what_was_not_weighed_into_the_bags_is_not_read_as_spread),
        cmocka_unit_test(the_portion_that_stays_has_what_the_others_left),
        cmocka_unit_test(what_was_found_in_the_jug_is_charged_to_the_portion_that_stays),
        cmocka_unit_test(a_batter_that_is_not_split_bears_what_was_found_in_the_jug),
        cmocka_unit_test(a_residue_does_not_change_of_which_part_the_rest_was_weighed),
        cmocka_unit_test(a_bag_is_emptied_once_its_fill_is_gone),
        cmocka_unit_test(what_was_measured_in_bag_and_cup_is_taken_in_place_of_practice),
        cmocka_unit_test(the_terms_are_those_of_the_sum),
        cmocka_unit_test(one_weighing_tells_a_mean_and_no_spread),
        cmocka_unit_test(without_a_weighing_counts_alone_are_known),
        cmocka_unit_test(seconds_a_piece_are_between_the_first_and_the_last),
        cmocka_unit_test(the_window_is_between_the_stages_that_the_technique_waits_for),
        cmocka_unit_test(what_was_used_up_while_workable_lasted_at_least_so_long),
        cmocka_unit_test(what_nobody_stamped_is_not_known),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
