/* What is still in the bag, whether it is enough, and what can be done where it is not. */
#include "calc/piping.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_rng.h>
#include <gsl/gsl_sf_gamma.h>

#include "base/text.h"
#include "calc/pace_stamped.h"
#include "calc/pieces.h"
#include "calc/scene.h"

enum { COMBINED = 1773480000, PETALS = 0, CENTRES = 1, LEAVES = 2, BLOSSOMS = 0, LEAF = 1, RUNS = 100 };

struct bench_scene {
    struct scene scene;
    struct practice practice;
    struct batch batch;
};

static void give_pieces(struct bench_scene *b, int portion, const char *kind, int count, double mass_g,
                        enum piece_class class)
{
    struct recipe_portion *asked = &b->scene.recipe.portion[portion];

    asked->has_pieces = true;
    asked->pieces = (struct pieces){.count = count, .mass_g = mass_g, .class = class};
    text_copy(asked->pieces.kind, sizeof asked->pieces.kind, kind);
    b->scene.plan.portion[portion].has_pieces = true;
}

/* 44 blossoms of petals (2.6 g) and a centre (0.15 g), 24 leaves (0.9 g), from 500 g of oils in 700 g of batter. The petals'
 * 128.8 g are 33 blossoms as planned, a cup, a first squeeze and 36 g. Nothing piped yet. There is one: a new one clears the last. */
static struct bench_scene *bench(void)
{
    static struct bench_scene b;

    memset(&b, 0, sizeof b);
    scene_start(&b.scene);
    b.practice = *facts_reference()->practice;
    b.scene.reference.practice = &b.practice;
    b.scene.plan.oils_ug = mass_ug(500.0);
    b.scene.plan.batter_ug = mass_ug(700.0);
    b.scene.plan.water.strength = b.practice.pace_ref_strength;
    b.scene.plan.acids.saturated = b.practice.pace_ref_saturated;
    scene_portion(&b.scene, 128.8, false, TECHNIQUE_PIPE);
    scene_portion(&b.scene, 40.0, false, TECHNIQUE_PIPE);
    scene_portion(&b.scene, 80.0, false, TECHNIQUE_PIPE);
    give_pieces(&b, PETALS, "blossom", 44, 2.6, PIECE_FLOWER);
    give_pieces(&b, CENTRES, "Blossom", 44, 0.15, PIECE_SIMPLE);
    give_pieces(&b, LEAVES, "leaf", 24, 0.9, PIECE_SIMPLE);
    b.batch.combined_s = COMBINED;
    for (int i = 0; i < RESIDUES; i++)
        b.batch.residue_g[i] = NAN;
    b.batch.lye_temp_c = b.batch.oil_temp_c = NAN;
    b.batch.stage = -1;
    b.batch.kinds = 2;
    b.batch.pieces[BLOSSOMS] = (struct batch_pieces){.portion = PETALS, .left_ug = -1};
    b.batch.pieces[LEAF] = (struct batch_pieces){.portion = LEAVES, .left_ug = -1};
    return &b;
}

static int64_t after(double minutes)
{
    return COMBINED + (int64_t)lround(minutes * 60.0);
}

/* 31 good ones and 2 rejects between the 48th and the 70th minute, then 36 g weighed. */
static struct bench_scene *in_the_middle(void)
{
    struct bench_scene *b = bench();

    b->batch.stage = 5;
    b->batch.stage_s[5] = after(46.0);
    b->batch.pieces[BLOSSOMS] = (struct batch_pieces){.portion = PETALS,
                                                      .good = 31,
                                                      .rejects = 2,
                                                      .first_s = after(48.0),
                                                      .last_s = after(70.0),
                                                      .left_weighed = true,
                                                      .left_ug = mass_ug(36.0),
                                                      .good_then = 33};
    return b;
}

static struct piping now(struct bench_scene *b, int kind)
{
    struct piping piping;

    piping_now(&b->scene.in, &b->scene.plan, &b->batch, kind, after(71.0), &piping);
    return piping;
}

static struct piping_help help(struct bench_scene *b, int kind, int pieces_a_bar)
{
    struct piping piping = now(b, kind);
    struct piping_help help;

    piping_short(&b->scene.in, &b->scene.plan, &b->batch, kind, &piping, pieces_a_bar, &help);
    return help;
}

/* The definition of the beta-binomial distribution with GSL's gamma functions: P(at least `wanted` of n good). */
static double by_gsl(int n, int wanted, double a, double b)
{
    double sum = 0.0;

    for (int k = n - wanted; k >= 0; k--)
        sum += exp(gsl_sf_lnchoose((unsigned)n, (unsigned)k) + gsl_sf_lnbeta(k + a, n - k + b) - gsl_sf_lnbeta(a, b));
    return sum;
}

static int least_by_gsl(int wanted, double chance, double a, double b)
{
    int n = wanted;

    while (by_gsl(n, wanted, a, b) < chance)
        n++;
    return n;
}

/* 128.8 g less a cup of 4 g and a bag's 15 g make 42 whole pieces of 2.6 g. Losses of common practice and memory. */
static void before_the_first_piece_the_rest_is_all_of_it(void **state)
{
    struct piping piping = now(bench(), BLOSSOMS);
    (void)state;

    assert_int_equal(piping.to_go, 44);
    assert_int_equal(piping.more, 42);
    assert_int_equal(piping.portion, PETALS);
    assert_near(piping.left_g, 124.8, 1e-9);
    assert_near(piping.mass_g, 2.6, 1e-12);
    assert_false(piping.own_mass);
    assert_near(piping.enough, 0.0, 0.0);
}

/* 124.8 g less the first squeeze of 3 g and 20 pieces of 2.6 g. */
static void until_the_bag_is_looked_at_pieces_go_off_as_planned(void **state)
{
    struct bench_scene *b = bench();
    (void)state;

    b->batch.pieces[BLOSSOMS].good = 18;
    b->batch.pieces[BLOSSOMS].rejects = 2;

    struct piping piping = now(b, BLOSSOMS);

    assert_int_equal(piping.more, 22);
    assert_near(piping.left_g, 69.8, 1e-9);
    assert_int_equal(piping.to_go, 26);
    assert_near(piping.enough, by_gsl(22, 26, 5, 40), 0.0);
}

/* 36 g less the 12 g that stay in the bag are 24 g: 9 pieces of 2.6 g. 13 pieces at 1320 s / 32, of which 53 in 58 are good, and
 * Beta(3, 22) with 2 rejects and 31 good is Beta(5, 53). */
static void the_middle_of_a_piping_is_the_worked_one(void **state)
{
    struct piping piping = now(in_the_middle(), BLOSSOMS);
    (void)state;

    assert_int_equal(piping.wanted, 44);
    assert_int_equal(piping.good, 31);
    assert_int_equal(piping.rejects, 2);
    assert_int_equal(piping.to_go, 13);
    assert_int_equal(piping.more, 9);
    assert_near(piping.left_g, 36.0, 1e-9);
    assert_true(piping.own_mass);
    assert_near(piping.mass_g, 2.6, 1e-9);
    assert_true(piping.own_rate);
    assert_near(piping.need_min, 13.0 * 58.0 / 53.0 * (1320.0 / 32.0) / 60.0, 1e-9);
    assert_near(piping.reject_a, 5.0, 1e-12);
    assert_near(piping.reject_b, 53.0, 1e-12);
    assert_near(piping.enough, 0.0, 0.0);
}

/* 185 g as poured in place of 128.8, 30 g left after 33: 148 g in pieces, 4.48 g each; 30 g less what stays in the bag are 4. */
static void the_batch_s_own_mass_counts_once_the_bag_was_weighed(void **state)
{
    struct bench_scene *b = in_the_middle();
    (void)state;

    b->batch.poured[PETALS] = (struct charge){.has = true, .mass_ug = mass_ug(185.0)};
    b->batch.pieces[BLOSSOMS].left_ug = mass_ug(30.0);

    struct piping piping = now(b, BLOSSOMS);

    /* 185 - 4 = 181 g fill two bags on paper, but the second would bring less than it loses: one */
    assert_true(piping.own_mass);
    assert_near(piping.mass_g, (185.0 - 4.0 - 3.0 - 30.0) / 33.0, 1e-9);
    assert_int_equal(piping.more, 4);
}

/* 300 g are 296 g in two bags. One is empty: its 15 g are no pieces either. */
static void a_bag_that_was_emptied_has_kept_its_losses(void **state)
{
    struct bench_scene *b = in_the_middle();
    (void)state;

    b->scene.plan.portion[PETALS].filled_g = 300.0;
    b->batch.pieces[BLOSSOMS].good = 78;
    b->batch.pieces[BLOSSOMS].good_then = 80;
    b->batch.pieces[BLOSSOMS].left_ug = mass_ug(60.0);

    struct piping piping = now(b, BLOSSOMS);

    assert_near(piping.mass_g, (300.0 - 4.0 - 3.0 - 15.0 - 60.0) / 80.0, 1e-9);
    assert_int_equal(piping.more, (int)((60.0 - 12.0) / piping.mass_g));
    b->batch.pieces[BLOSSOMS].left_ug = -1; /* as planned: 266 g of content, 208 gone, 58 and a bag's 12 left */
    piping = now(b, BLOSSOMS);
    assert_near(piping.left_g, 70.0, 1e-9);
    assert_int_equal(piping.more, 22);
}

static void a_mass_that_cannot_be_told_is_the_planned_one(void **state)
{
    struct bench_scene *b = in_the_middle();
    struct batch_pieces *pieces = &b->batch.pieces[BLOSSOMS];
    (void)state;

    pieces->left_weighed = false; /* an estimate */
    assert_false(now(b, BLOSSOMS).own_mass);
    assert_int_equal(now(b, BLOSSOMS).more, 9);
    pieces->left_weighed = true;
    pieces->good_then = 2; /* too few */
    pieces->good = 2;
    pieces->rejects = 0;
    assert_false(now(b, BLOSSOMS).own_mass);
    pieces->good_then = pieces->good = 7; /* 26 g gone, of which 7 g by estimate */
    pieces->left_ug = mass_ug(128.8 - 26.0);
    assert_false(now(b, BLOSSOMS).own_mass);
    pieces->left_ug = mass_ug(128.8 - 36.0);
    assert_true(now(b, BLOSSOMS).own_mass);
    pieces->good_then = pieces->good = 33;
    pieces->left_ug = mass_ug(360.0); /* more than there was */
    assert_false(now(b, BLOSSOMS).own_mass);
    pieces->good_then = pieces->good = 10; /* 12 g each: a slip */
    pieces->left_ug = mass_ug(1.8);
    assert_false(now(b, BLOSSOMS).own_mass);
}

static void what_is_piped_after_the_weighing_goes_off_by_the_own_mass(void **state)
{
    struct bench_scene *b = in_the_middle();
    (void)state;

    b->batch.pieces[BLOSSOMS].good += 4;
    b->batch.pieces[BLOSSOMS].rejects += 1;

    struct piping piping = now(b, BLOSSOMS);

    assert_int_equal(piping.more, 4);
    assert_near(piping.left_g, 36.0 - 5.0 * 2.6, 1e-9);
    b->batch.pieces[BLOSSOMS].scraped = 2; /* back in the bag, and no longer on the tray */
    piping = now(b, BLOSSOMS);
    assert_int_equal(piping.more, 6);
    assert_int_equal(piping.rejects, 1);
}

/* Beta(3, 22) of a flower with 35 good ones and 3 rejects is Beta(6, 57), of which 60 may count. Of the 3, 2 are then scraped back: they
 * are no rejects any more, Beta(4, 57), and the 1320 s between the first and the last are those of 36 pieces, not of 38. */
static void a_reject_scraped_back_is_no_reject_and_no_piece(void **state)
{
    struct bench_scene *b = in_the_middle();
    struct piping piping;
    (void)state;

    b->batch.pieces[BLOSSOMS].good = 35;
    b->batch.pieces[BLOSSOMS].rejects = 3;
    piping = now(b, BLOSSOMS);
    assert_near(piping.reject_a, 60.0 * 6.0 / 63.0, 1e-9);
    assert_near(piping.reject_b, 60.0 * 57.0 / 63.0, 1e-9);
    assert_near(piping.need_min, 9.0 * 63.0 / 57.0 * (1320.0 / 37.0) / 60.0, 1e-9);
    b->batch.pieces[BLOSSOMS].scraped = 2;
    piping = now(b, BLOSSOMS);
    assert_int_equal(piping.rejects, 1);
    assert_near(piping.reject_a, 60.0 * 4.0 / 61.0, 1e-9);
    assert_near(piping.reject_b, 60.0 * 57.0 / 61.0, 1e-9);
    assert_near(piping.need_min, 9.0 * 61.0 / 57.0 * (1320.0 / 35.0) / 60.0, 1e-9);
}

/* Centres: 36 g in the bag make 140; with 12 g poured, none less than the bag loses. The counter counts whole pieces. */
static void the_part_with_least_batter_decides(void **state)
{
    struct bench_scene *b = bench();
    (void)state;

    assert_int_equal(piping_part(&b->scene.in, &b->scene.plan, &b->batch, BLOSSOMS), PETALS);
    b->scene.plan.portion[CENTRES].filled_g = 22.0; /* 18 - 15 = 3 g: 20 */
    assert_int_equal(piping_part(&b->scene.in, &b->scene.plan, &b->batch, BLOSSOMS), CENTRES);

    struct piping piping = now(b, BLOSSOMS);

    assert_int_equal(piping.portion, CENTRES);
    assert_int_equal(piping.more, 20);
    assert_near(piping.mass_g, 0.15, 1e-12);
    b->batch.pieces[BLOSSOMS].left_ug = mass_ug(
        60.0); /* of the centres there is plenty after all: now the petals decide */
    b->batch.pieces[BLOSSOMS].left_weighed = true;
    piping = now(b, BLOSSOMS);
    assert_int_equal(piping.portion, PETALS);
    assert_int_equal(piping.more, 42);
}

static void of_parts_that_make_as_many_the_heavier_is_weighed(void **state)
{
    struct bench_scene *b = bench();
    (void)state;

    b->scene.plan.portion[CENTRES].filled_g = 19.0 + 42 * 0.15 + 0.01;
    assert_int_equal(now(b, BLOSSOMS).more, 42);
    assert_int_equal(piping_part(&b->scene.in, &b->scene.plan, &b->batch, BLOSSOMS), PETALS);
    b->batch.pieces[BLOSSOMS].portion = CENTRES; /* whichever stands first */
    assert_int_equal(piping_part(&b->scene.in, &b->scene.plan, &b->batch, BLOSSOMS), PETALS);
}

/* Exact: 11657/12614 is P(24 of 29 good) on Beta(2, 24); 3 rejects of 30 make it Beta(5, 51) and 0.923978. */
static void the_chance_is_the_exact_fraction(void **state)
{
    struct bench_scene *b = bench();
    struct batch_pieces *leaves = &b->batch.pieces[LEAF];
    (void)state;

    b->scene.plan.portion[LEAVES].filled_g = 4.0 + 15.0 + 29 * 0.9;
    assert_int_equal(now(b, LEAF).more, 29);
    assert_near(now(b, LEAF).enough, 11657.0 / 12614.0, 1e-12);
    b->scene.recipe.portion[LEAVES].pieces.count = 51;
    b->scene.plan.portion[LEAVES].filled_g = 4.0 + 15.0 + 59 * 0.9;
    leaves->good = 27;
    leaves->rejects = 3;
    assert_int_equal(now(b, LEAF).more, 29);
    assert_int_equal(now(b, LEAF).to_go, 24);
    assert_near(now(b, LEAF).enough, 0.923978, 5e-7);
    assert_near(now(b, LEAF).enough, by_gsl(29, 24, 5, 51), 1e-10);
}

/* Memory: 60 is the most that the counts weigh. 20 rejects of 200 on Beta(2, 24): 22 to 204 in 60. */
static void many_pieces_weigh_no_more_than_sixty(void **state)
{
    struct bench_scene *b = bench();
    (void)state;

    b->batch.pieces[LEAF].good = 180;
    b->batch.pieces[LEAF].rejects = 20;

    struct piping piping = now(b, LEAF);

    assert_near(piping.reject_a, 60.0 * 22.0 / 226.0, 1e-9);
    assert_near(piping.reject_b, 60.0 * 204.0 / 226.0, 1e-9);
    assert_int_equal(piping.to_go, 0);
    assert_near(piping.enough, 1.0, 0.0);
    assert_near(piping.need_min, 0.0, 0.0);
}

static void without_a_rate_of_its_own_a_piece_takes_what_practice_says(void **state)
{
    struct bench_scene *b = bench();
    struct piping piping = now(b, BLOSSOMS);
    (void)state;

    assert_false(piping.own_rate);
    assert_near(piping.need_min, 44.0 * 25.0 / 22.0 * 60.0 / 60.0, 1e-9); /* common practice: 60 s, 3 in 25 rejected */
    piping = now(b, LEAF);
    assert_near(piping.need_min, 24.0 * 26.0 / 24.0 * 45.0 / 60.0, 1e-9);
    b->scene.plan.portion[LEAVES].filled_g = 400.0; /* three bags: two changes of 3 min */
    piping = now(b, LEAF);
    assert_near(piping.need_min, 26.0 * 45.0 / 60.0 + 6.0, 1e-9);
    b->batch.pieces[LEAF] = (struct batch_pieces){
        .portion = LEAVES, .good = 3, .first_s = after(48), .last_s = after(49), .left_ug = -1};
    assert_false(now(b, LEAF).own_rate); /* too few */
    b->batch.pieces[LEAF].good = 10;
    b->batch.pieces[LEAF].last_s = after(48); /* all at once */
    assert_false(now(b, LEAF).own_rate);
}

static void workable_is_what_the_stamped_forecast_leaves(void **state)
{
    struct bench_scene *b = in_the_middle();
    struct quantiles from, until;
    struct piping piping = now(b, BLOSSOMS);
    (void)state;

    pace_stamped(&b->scene.in, &b->scene.plan, &b->scene.plan.portion[PETALS], &b->batch, after(71.0), &from, &until);
    assert_near(piping.workable_min.median, until.median - 71.0, 1e-9);
    assert_near(piping.workable_min.low, until.low - 71.0, 1e-9);
    assert_near(piping.workable_min.high, until.high - 71.0, 1e-9);
    b->batch.stage = 6;
    b->batch.stage_s[6] = after(69.0);
    piping = now(b, BLOSSOMS);
    assert_near(piping.workable_min.low, 0.0, 0.0);
    assert_near(piping.workable_min.median, 0.0, 0.0);
    assert_near(piping.workable_min.high, 0.0, 0.0);
}

/* A part that is layered is past its window at the stage at which the other begins to pipe. */
static void the_part_that_stiffens_first_says_how_long(void **state)
{
    struct bench_scene *b = in_the_middle();
    (void)state;

    assert_true(now(b, BLOSSOMS).workable_min.low > 0.0);
    for (int part = PETALS; part <= CENTRES; part++) {
        b->scene.plan.portion[part].technique = TECHNIQUE_LAYER;
        assert_near(now(b, BLOSSOMS).workable_min.low, 0.0, 0.0);
        assert_near(now(b, BLOSSOMS).workable_min.median, 0.0, 0.0);
        assert_near(now(b, BLOSSOMS).workable_min.high, 0.0, 0.0);
        b->scene.plan.portion[part].technique = TECHNIQUE_PIPE;
    }
    assert_true(now(b, LEAF).workable_min.low > 0.0);
}

/* The sketch of the bench screen: 9 more, 13 to go. Four are missing; 2 rejects are 5.2 g, and 29.2 g in 13 pieces 2.246 g each; all
 * 13 would have to be good. With what asks for 9 times in 10 they would be under 3/4 of 2.6 g. (31 + 9) / 2 bars. */
static void the_proposals_come_in_their_order(void **state)
{
    struct piping_help h = help(in_the_middle(), BLOSSOMS, 2);
    (void)state;

    assert_true(29.2 / least_by_gsl(13, 0.9, 5, 53) < 0.75 * 2.6);
    assert_int_equal(h.missing, 4);
    assert_int_equal(h.scrape, 2);
    assert_near(h.smaller_g, 29.2 / 13.0, 1e-9);
    assert_int_equal(h.smaller, 2);
    assert_near(h.enough, by_gsl(13, 13, 5, 53), 1e-10);
    assert_int_equal(h.bars, 20);
}

static void rejects_go_back_only_while_they_still_pipe(void **state)
{
    struct bench_scene *b = in_the_middle();
    (void)state;

    b->batch.stage = 6;
    assert_int_equal(help(b, BLOSSOMS, 2).scrape, 0);
    b->batch.stage = 4;
    assert_int_equal(help(b, BLOSSOMS, 2).scrape, 2);
    b->batch.going = true;
    assert_int_equal(help(b, BLOSSOMS, 2).scrape, 0);
    b->batch.going = false;
    b->batch.pieces[BLOSSOMS].recounted = true; /* set and lifted */
    assert_int_equal(help(b, BLOSSOMS, 2).scrape, 0);
    b->batch.pieces[BLOSSOMS].recounted = false;
    b->batch.pieces[BLOSSOMS].scraped = 2; /* there already */
    assert_int_equal(help(b, BLOSSOMS, 2).scrape, 0);
}

/* Beta(3, 22) with 34 good and 2 rejects, 10 to go: by GSL so many that the chance asked is met. */
static void smaller_pieces_meet_the_chance_where_three_quarters_allow(void **state)
{
    struct bench_scene *b = in_the_middle();
    (void)state;

    b->batch.pieces[BLOSSOMS].good = 34;
    b->batch.pieces[BLOSSOMS].good_then = 36;
    b->scene.plan.portion[PETALS].filled_g = 128.8 + 3 * 2.6;

    struct piping piping = now(b, BLOSSOMS);
    struct piping_help h = help(b, BLOSSOMS, 0);
    int n = least_by_gsl(10, 0.9, piping.reject_a, piping.reject_b);

    assert_true(n > 11);
    assert_int_equal(piping.more, 9);
    assert_int_equal(h.missing, 1);
    assert_near(h.smaller_g, 29.2 / n, 1e-9);
    assert_int_equal(h.smaller, n - 11);
    assert_true(h.enough >= 0.9);
    assert_int_equal(h.bars, 0);
}

static void pieces_under_three_quarters_are_not_proposed(void **state)
{
    struct bench_scene *b = in_the_middle();
    (void)state;

    b->scene.recipe.portion[PETALS].pieces.count = 31 + 14;
    b->scene.recipe.portion[CENTRES].pieces.count = 31 + 14;
    assert_near(help(b, BLOSSOMS, 2).smaller_g, 29.2 / 14.0, 1e-9); /* 2.09 g */
    b->scene.recipe.portion[PETALS].pieces.count = 31 + 15;
    assert_near(help(b, BLOSSOMS, 2).smaller_g, 0.0, 0.0); /* 1.947 g is under 1.95 */
    assert_int_equal(help(b, BLOSSOMS, 2).smaller, 0);
}

static void where_it_is_enough_nothing_is_proposed(void **state)
{
    struct bench_scene *b = bench();
    (void)state;

    b->scene.plan.portion[LEAVES].filled_g = 4.0 + 15.0 + 29 * 0.9; /* 29 for 24: 0.924 */

    struct piping_help h = help(b, LEAF, 2);

    assert_int_equal(h.missing + h.scrape + h.smaller + h.bars, 0);
    assert_near(h.smaller_g + h.second_oils_g, 0.0, 0.0);
    assert_near(h.enough, 11657.0 / 12614.0, 1e-12);
    b->scene.plan.portion[LEAVES].filled_g = 4.0 + 15.0 + 28 * 0.9; /* 0.877 */
    h = help(b, LEAF, 2);
    assert_int_equal(h.missing, 0);
    assert_true(h.smaller == 1 && h.second_oils_g > 0.0);
}

/* n mu + z sqrt(n sw^2 + (n sb)^2) of 29 pieces of 6.5 g is 202.326 g (worked; spreads from memory); in two bags 30 g, a cup 4 g,
 * and 8 g in the jug: 244.326 g of batter, of which 5/7 are oils. */
static void a_second_batter_is_sized_with_the_chance_asked(void **state)
{
    struct bench_scene *b = bench();
    (void)state;

    b->scene.recipe.portion[LEAVES].pieces.mass_g = 6.5;
    b->scene.plan.portion[LEAVES].filled_g = 4.0;
    assert_int_equal(now(b, LEAF).more, 0);
    assert_near(help(b, LEAF, 0).second_oils_g, (202.326 + 30.0 + 4.0 + 8.0) * 5.0 / 7.0, 1e-3);
    b->practice.piece_within_share = b->practice.piece_between_share = 0.0;
    b->scene.recipe.portion[LEAVES].pieces.mass_g = 300.0 / 29.0; /* bags of 150 g that keep 6: three, 318 g */
    b->practice.bag_fill_g = 150.0;
    b->practice.bag_residue_g = 6.0;
    b->practice.first_squeeze_g = b->practice.cup_residue_g = 0.0;
    b->scene.recipe.residue_by = RESIDUE_SHARE;
    b->scene.recipe.residue = 0.25;
    assert_near(help(b, LEAF, 0).second_oils_g, 318.0 / 0.75 * 5.0 / 7.0, 1e-3);
}

/* 13 to go; of 9 more, 53 in 58 are good: 8. For 5 more both parts of the blossom are made. */
static void a_second_batter_has_all_parts_and_counts_what_is_still_to_come(void **state)
{
    double z = gsl_cdf_ugaussian_Pinv(0.9), grams = 8.0;
    int n = least_by_gsl(5, 0.9, 5, 53);
    static const double mass[] = {2.6, 0.15};
    (void)state;

    for (size_t i = 0; i < ROWS(mass); i++) {
        double within = 0.15 * mass[i], between = n * 0.05 * mass[i];

        grams += n * mass[i] + z * sqrt(n * within * within + between * between) + 15.0 + 4.0;
    }
    /* residue: 5 % of a batter under 160 g (common practice) */
    assert_true((grams - 8.0) / 0.95 < 160.0);
    assert_near(help(in_the_middle(), BLOSSOMS, 2).second_oils_g, (grams - 8.0) / 0.95 * 5.0 / 7.0, 1e-6);
}

/* ---- Properties over random pipings. */

static struct bench_scene *any(gsl_rng *random)
{
    struct bench_scene *b = bench();
    struct batch_pieces *pieces = &b->batch.pieces[BLOSSOMS];

    b->scene.plan.portion[PETALS].filled_g = 20.0 + 600.0 * gsl_rng_uniform(random);
    b->scene.plan.portion[CENTRES].filled_g = 20.0 + 60.0 * gsl_rng_uniform(random);
    pieces->good = (int)gsl_rng_uniform_int(random, 60);
    pieces->rejects = (int)gsl_rng_uniform_int(random, 10);
    pieces->scraped = pieces->rejects / 3;
    pieces->good_then = (int)gsl_rng_uniform_int(random, (unsigned long)(pieces->good + pieces->rejects) + 1);
    pieces->left_weighed = gsl_rng_uniform_int(random, 2) == 1;
    pieces->left_ug = gsl_rng_uniform_int(random, 3) > 0 ? mass_ug(400.0 * gsl_rng_uniform(random)) : -1;
    pieces->first_s = after(40.0);
    pieces->last_s = after(40.0 + 30.0 * gsl_rng_uniform(random));
    b->batch.stage = (int)gsl_rng_uniform_int(random, 9) - 1;
    return b;
}

/* The mass a piece is the batch's own by the same weighing, so more left means smaller pieces too. */
static void more_left_never_makes_fewer_pieces(void **state)
{
    gsl_rng *random = gsl_rng_alloc(gsl_rng_mt19937);
    (void)state;

    for (int run = 0; run < RUNS; run++) {
        struct bench_scene *b = any(random);
        struct piping last = {.more = 0};

        b->batch.pieces[BLOSSOMS].left_weighed = false;
        for (double left = 0.0; left < 500.0; left += 9.7) {
            b->batch.pieces[BLOSSOMS].left_ug = mass_ug(left);

            struct piping piping = now(b, BLOSSOMS);

            assert_true(piping.more >= last.more && piping.enough >= last.enough);
            last = piping;
        }
    }
    gsl_rng_free(random);
}

static void more_rejects_never_raise_the_chance(void **state)
{
    gsl_rng *random = gsl_rng_alloc(gsl_rng_mt19937);
    (void)state;

    for (int run = 0; run < RUNS; run++) {
        struct bench_scene *b = any(random);
        double last = 1.0;

        for (int rejects = 0; rejects < 80; rejects += 1 + rejects / 8) {
            b->batch.pieces[BLOSSOMS].rejects = rejects;
            b->batch.pieces[BLOSSOMS].scraped = 0;

            double enough = now(b, BLOSSOMS).enough;

            assert_true(enough <= last + 1e-12);
            last = enough;
        }
    }
    gsl_rng_free(random);
}

static void every_piping_is_sound_and_every_chance_is_that_of_gsl(void **state)
{
    gsl_rng *random = gsl_rng_alloc(gsl_rng_mt19937);
    (void)state;

    for (int run = 0; run < RUNS; run++) {
        struct bench_scene *b = any(random);
        struct piping p = now(b, BLOSSOMS);
        struct piping_help h = help(b, BLOSSOMS, 2);

        assert_true(p.more >= 0 && p.left_g >= 0.0 && p.mass_g > 0.0 && isfinite(p.need_min) && p.need_min >= 0.0);
        assert_true(p.workable_min.low >= 0.0 && p.workable_min.low <= p.workable_min.median * (1.0 + 1e-9));
        assert_true(p.workable_min.median <= p.workable_min.high * (1.0 + 1e-9) && isfinite(p.workable_min.high));
        assert_true(p.reject_a + p.reject_b <= 60.0 + 1e-9);
        if (p.to_go > 0)
            assert_near(p.enough, by_gsl(p.more, p.to_go, p.reject_a, p.reject_b), 1e-9);
        assert_true(h.enough >= p.enough - 1e-12);
        assert_true(h.smaller_g == 0.0 ||
                    h.smaller_g >= 0.75 * b->scene.recipe.portion[p.portion].pieces.mass_g - 1e-12);
        assert_true((h.smaller_g > 0.0) == (h.smaller > 0) && isfinite(h.second_oils_g));
        assert_true(h.scrape == 0 || b->batch.stage <= 5);
        if (p.enough >= 0.9)
            assert_true(h.scrape == 0 && h.smaller == 0 && h.bars == 0 && h.second_oils_g == 0.0);
    }
    gsl_rng_free(random);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(before_the_first_piece_the_rest_is_all_of_it),
        cmocka_unit_test(until_the_bag_is_looked_at_pieces_go_off_as_planned),
        cmocka_unit_test(the_middle_of_a_piping_is_the_worked_one),
        cmocka_unit_test(the_batch_s_own_mass_counts_once_the_bag_was_weighed),
        cmocka_unit_test(a_bag_that_was_emptied_has_kept_its_losses),
        cmocka_unit_test(a_mass_that_cannot_be_told_is_the_planned_one),
        cmocka_unit_test(what_is_piped_after_the_weighing_goes_off_by_the_own_mass),
        cmocka_unit_test(a_reject_scraped_back_is_no_reject_and_no_piece),
        cmocka_unit_test(the_part_with_least_batter_decides),
        cmocka_unit_test(of_parts_that_make_as_many_the_heavier_is_weighed),
        cmocka_unit_test(the_chance_is_the_exact_fraction),
        cmocka_unit_test(many_pieces_weigh_no_more_than_sixty),
        cmocka_unit_test(without_a_rate_of_its_own_a_piece_takes_what_practice_says),
        cmocka_unit_test(workable_is_what_the_stamped_forecast_leaves),
        cmocka_unit_test(the_part_that_stiffens_first_says_how_long),
        cmocka_unit_test(the_proposals_come_in_their_order),
        cmocka_unit_test(rejects_go_back_only_while_they_still_pipe),
        cmocka_unit_test(smaller_pieces_meet_the_chance_where_three_quarters_allow),
        cmocka_unit_test(pieces_under_three_quarters_are_not_proposed),
        cmocka_unit_test(where_it_is_enough_nothing_is_proposed),
        cmocka_unit_test(a_second_batter_is_sized_with_the_chance_asked),
        cmocka_unit_test(a_second_batter_has_all_parts_and_counts_what_is_still_to_come),
        cmocka_unit_test(more_left_never_makes_fewer_pieces),
        cmocka_unit_test(more_rejects_never_raise_the_chance),
        cmocka_unit_test(every_piping_is_sound_and_every_chance_is_that_of_gsl),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
