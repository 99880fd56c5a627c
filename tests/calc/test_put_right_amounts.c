/* Every amount that puts a batch right, by the tests' own arithmetic: with it the batch has the superfat asked, with a division
 * less of it (or, of what leaves less alkali to spare, more) it has not. */
#include "calc/making.h"

static const struct additive_fact ACID = {
    .key = "citric-acid", .active_share = 1, .molar_mass = 192.123, .equivalents = 3, .add_to = "water"};

static const struct remedy *first_of(const struct making *m, enum remedy_kind kind)
{
    for (int i = 0; i < m->remedies; i++)
        if (m->remedy[i].kind == kind)
            return &m->remedy[i];
    fail_msg("no proposal of kind %d", (int)kind);
    return NULL;
}

/* The margin that a proposal states is that of its charges. */
static void margin_is_true(const struct making *m, const struct remedy *remedy)
{
    assert_near(remedy->margin.nominal, own_superfat(m, &remedy->charges), 1e-9);
}

/* D = 207.45 / 56.1053 = 3.697504 mol; 0.95 of it are 140.494 g of NaOH. 149.49 are in: 8.996 too much, so 9.00 go out. */
static void alkali_over_is_taken_out_to_the_superfat_asked(void **state)
{
    struct making *m = making_of(three_oils());
    const struct remedy *out;

    (void)state;
    assert_near(planned_g(m, SODA), 140.49, 1e-9);
    alone(m, true);
    weigh_off(m, SODA, 9);
    ask(m, PHASE_APART, SODA);
    out = first_of(m, REMEDY_TAKE_OUT);
    assert_int_equal(out->mass_ug, mass_ug(9));
    assert_int_equal(out->charges.alkali[0].mass_ug, mass_ug(140.49));
    assert_near(out->margin.nominal, 1 - 140.49 / 39.99677 / (207.45 / 56.1053), 1e-6);
    margin_is_true(m, out);
}

/* What was weighed of the oils counts: with 40 g of olive oil more, of 149.49 g 145.641 are right and 3.85 go out. */
static void alkali_is_taken_out_for_the_oils_that_were_weighed(void **state)
{
    struct making *m = making_of(three_oils());
    const struct remedy *out;

    (void)state;
    alone(m, true);
    weigh(m, OIL_0, 490);
    weigh_off(m, SODA, 9);
    ask(m, PHASE_APART, SODA);
    out = first_of(m, REMEDY_TAKE_OUT);
    assert_near(0.95 * (207.45 + 40 * 0.19) / 56.1053 * 39.99677, 145.641, 5e-4);
    assert_int_equal(out->mass_ug, mass_ug(3.85));
    margin_is_true(m, out);
}

/* 12 g short: 12.004 would be right, rounded down to 12.00. */
static void alkali_short_is_made_up_rounded_down(void **state)
{
    struct making *m = making_of(three_oils());
    const struct remedy *add;

    (void)state;
    weigh_off(m, SODA, -12);
    for (int phase = PHASE_APART; phase <= PHASE_LYE_MIXED; phase++) {
        ask(m, (enum batch_phase)phase, SODA);
        add = first_of(m, REMEDY_ADD);
        assert_int_equal(add->what.part, PART_ALKALI);
        assert_int_equal(add->mass_ug, mass_ug(12));
        margin_is_true(m, add);
    }
}

/* An oil that is still alone is taken out to what was planned, and never further than superfat allows: with 3 g of NaOH too
 * much, what 143.49 g are for stays in. */
static void an_oil_is_taken_out_as_far_as_superfat_allows(void **state)
{
    struct making *m = making_of(three_oils());
    const struct remedy *out;
    double needed_g = (143.49 / 39.99677 / 0.95 * 56.1053 - 207.45) / 0.190;

    (void)state;
    alone(m, true);
    weigh_off(m, OIL_0, 60);
    ask(m, PHASE_APART, OIL_0);
    out = first_of(m, REMEDY_TAKE_OUT);
    assert_int_equal(out->mass_ug, mass_ug(60));
    margin_is_true(m, out);
    weigh_off(m, SODA, 3);
    ask(m, PHASE_APART, OIL_0);
    out = first_of(m, REMEDY_TAKE_OUT);
    assert_near(mass_g(out->mass_ug), floor((60 - needed_g) * 100) / 100, 1e-9); /* on the scale of 0.01 g */
    assert_true(out->margin.nominal >= 0.05 - 1e-12);
    margin_is_true(m, out);
}

/* A forgotten oil goes in whole; with 3 g of NaOH too much, more of it. */
static void an_oil_that_is_missing_is_made_up(void **state)
{
    static const enum remedy_kind kind[] = {REMEDY_ADD, REMEDY_ADD, REMEDY_ADD_OIL};

    (void)state;
    for (int phase = PHASE_APART; phase <= PHASE_COMBINED; phase++) {
        struct making *m = making_of(three_oils());
        const struct remedy *add;
        double needed_g = (143.49 / 39.99677 / 0.95 * 56.1053 - 207.45) / 0.255;

        weigh(m, OIL_1, 0);
        ask(m, (enum batch_phase)phase, OIL_1);
        add = first_of(m, kind[phase]);
        assert_int_equal(add->mass_ug, mass_ug(250));
        assert_int_equal(add->what.index, 1);
        margin_is_true(m, add);
        weigh_off(m, SODA, 3);
        ask(m, (enum batch_phase)phase, OIL_1);
        add = first_of(m, kind[phase]);
        assert_int_equal(add->mass_ug, mass_ug(ceil(250 + needed_g)));
        margin_is_true(m, add);
    }
}

/* Lye of 149.49 g in 434.49: 140.494 / 149.49 of it is right, 408.34 g, poured on the scale of 1 g: 408. */
static void of_mixed_lye_only_the_right_share_is_poured(void **state)
{
    struct making *m = making_of(three_oils());
    const struct remedy *pour;

    (void)state;
    weigh_off(m, SODA, 9);
    ask(m, PHASE_LYE_MIXED, SODA);
    pour = first_of(m, REMEDY_POUR_SHARE);
    assert_near(0.95 * 207.45 / 56.1053 * 39.99677 / 149.49 * 434.49, 408.34, 0.005);
    assert_int_equal(pour->mass_ug, mass_ug(408));
    assert_near(pour->share, 408 / 434.49, 1e-12);
    margin_is_true(m, pour);
    assert_true(pour->margin.nominal >= 0.05);
}

/* Citric acid that is in the lye leaves with it: per gram of lye there is less alkali to spare. */
static void acid_in_the_lye_is_shared_out_with_it(void **state)
{
    struct kitchen *k = three_oils();
    struct making *m;
    const struct remedy *pour;
    double alkali, acid = 20 * 3 / 192.123, room = 0.95 * 207.45 / 56.1053;

    (void)state;
    kitchen_additive(k, &ACID, 20);
    m = making_of(k);
    weigh_off(m, SODA, 9);
    ask(m, PHASE_LYE_MIXED, SODA);
    pour = first_of(m, REMEDY_POUR_SHARE);
    alkali = (planned_g(m, SODA) + 9) / 39.99677;
    assert_near(pour->share, room / (alkali - acid), 0.5 / 400);
    assert_true(pour->share <= room / (alkali - acid));
    margin_is_true(m, pour);
}

/* With each proposal of oil the batch has at least the superfat asked, and with a division less of any oil it has less. */
static void oils_are_rounded_up_from_what_is_just_enough(void **state)
{
    struct making *m = making_of(three_oils());
    double lacking = 149.49 / 39.99677 / 0.95 * 56.1053 - 207.45; /* g KOH, as S is in mg per g */

    (void)state;
    weigh_off(m, SODA, 9);
    assert_int_equal(ask(m, PHASE_COMBINED, SODA), 3);
    for (int r = 0; r < 3; r++) {
        const struct remedy *add = &m->remedy[r];
        struct charges less = add->charges;

        margin_is_true(m, add);
        assert_true(add->margin.nominal >= 0.05);
        for (int i = 0; i < 3; i++)
            if (add->oil_ug[i] > 0)
                less.oil[i].mass_ug -= 10000;
        assert_true(own_superfat(m, &less) < 0.05);
    }
    /* in proportion 450 : 250 : 300; then all of it olive (the most), then palm */
    for (int i = 0; i < 3; i++) {
        static const double share[] = {0.45, 0.25, 0.30};
        double grams = share[i] * lacking / 0.20745;

        assert_int_equal(m->remedy[0].oil_ug[i], mass_ug(ceil(grams * 100) / 100));
    }
    assert_int_equal(m->remedy[1].what.index, 0);
    assert_int_equal(m->remedy[1].mass_ug, mass_ug(ceil(lacking / 0.190 * 100) / 100));
    assert_int_equal(m->remedy[2].what.index, 2);
    assert_int_equal(m->remedy[2].mass_ug, mass_ug(ceil(lacking / 0.194 * 100) / 100));
}

/* 12 g short of 140.494: 12.004 g of NaOH are in 36.38 g of lye of 33 %, weighed to 0.01 g, down. */
static void lye_is_added_in_the_strength_planned(void **state)
{
    struct making *m = making_of(three_oils());
    const struct remedy *add;

    (void)state;
    weigh_off(m, SODA, -12);
    ask(m, PHASE_COMBINED, SODA);
    add = first_of(m, REMEDY_ADD_LYE);
    assert_near(mass_g(add->mass_ug), floor((0.95 * 207.45 / 56.1053 * 39.99677 - 128.49) / 0.33 * 100) / 100, 1e-9);
    assert_int_equal(add->mass_ug, mass_ug(36.37));
    assert_int_equal(add->alkali_ug, mass_ug(36.37 * 0.33));
    assert_int_equal(add->alkali_ug + add->water_ug, add->mass_ug);
    assert_int_equal(add->charges.added_lye[ALKALI_NAOH].mass_ug, add->mass_ug);
    assert_int_equal(add->batter_ug, m->plan.batter_ug - mass_ug(12) + add->mass_ug);
    margin_is_true(m, add);
}

/* 140.49 g of NaOH dissolve in 128.65 g of water at 20 C (52.2 %); what is added makes up the plan's 285. */
static void water_is_made_up_to_the_plan_and_until_all_dissolves(void **state)
{
    struct making *m = making_of(three_oils());

    (void)state;
    weigh(m, WATER, 125);
    ask(m, PHASE_LYE_MIXED, WATER);
    assert_int_equal(first_of(m, REMEDY_ADD)->mass_ug, mass_ug(160));
    assert_near(m->remedy[0].strength, 140.49 / (140.49 + 285), 1e-9);
    weigh(m, SODA, 400); /* far too much as well: 366.3 g of water would dissolve it */
    ask(m, PHASE_LYE_MIXED, SODA);
    assert_int_equal(first_of(m, REMEDY_ADD)->what.part, PART_WATER);
    assert_near(mass_g(m->remedy[0].mass_ug), ceil(400 / 0.522 - 400 - 125), 1e-9);
    assert_true(m->remedy[0].strength <= 0.522);
}

/* Half of the moles KOH of 90 %: each alkali is put right by itself. */
static struct making *both_alkalis(bool ready_made)
{
    struct kitchen *k = three_oils();

    k->recipe.alkali.potassium_share = 0.5;
    k->recipe.alkali.purity[ALKALI_KOH] = (struct ranged){true, 0.89, 0.9, 0.91};
    k->recipe.alkali.solution_share[ALKALI_NAOH] = ready_made ? 0.5 : 0;
    k->recipe.alkali.solution_share[ALKALI_KOH] = ready_made ? 0.45 : 0;
    return making_of(k);
}

static void each_alkali_of_a_mixture_is_put_right_by_itself(void **state)
{
    (void)state;
    for (int ready_made = 0; ready_made < 2; ready_made++)
        for (int i = 0; i < ALKALIS; i++) {
            struct part_ref what = i == ALKALI_KOH ? POTASH : SODA;
            struct making *m = both_alkalis(ready_made);
            const struct remedy *r;

            alone(m, true);
            weigh_off(m, what, 30);
            ask(m, PHASE_APART, what);
            r = first_of(m, REMEDY_TAKE_OUT);
            assert_near(mass_g(r->mass_ug), 30, 1.001);
            margin_is_true(m, r);
            weigh_off(m, what, -30);
            ask(m, PHASE_APART, what);
            r = first_of(m, REMEDY_ADD);
            assert_int_equal(r->what.index, i);
            assert_near(mass_g(r->mass_ug), 30, 1.001);
            margin_is_true(m, r);
            ask(m, PHASE_COMBINED, what);
            r = first_of(m, REMEDY_ADD_LYE);
            assert_int_equal(r->what.index, i);
            assert_true(r->margin.nominal >= 0.05 && r->margin.nominal < 0.055);
            margin_is_true(m, r);
        }
}

/* Potassium hydroxide in the cup where sodium hydroxide belongs, 147 g: it goes out whole, though superfat would bear it. */
static void an_alkali_that_the_recipe_does_not_have_goes_out_whole(void **state)
{
    struct making *m = making_of(three_oils());

    (void)state;
    alone(m, true);
    m->charges.alkali[ALKALI_KOH] = (struct charge){true, mass_ug(147), mass_ug(0.005), 1};
    weigh(m, SODA, 0);
    ask(m, PHASE_APART, POTASH);
    assert_int_equal(first_of(m, REMEDY_TAKE_OUT)->mass_ug, mass_ug(147));
    ask(m, PHASE_LYE_MIXED, SODA);
    assert_int_equal(m->remedy[0].kind, REMEDY_ADD);
}

static void acid_that_is_missing_or_over_is_put_right(void **state)
{
    static const enum remedy_kind forgotten[] = {REMEDY_ADD, REMEDY_ADD, REMEDY_ADD_OILS};
    static const enum remedy_kind over[] = {REMEDY_TAKE_OUT, REMEDY_ADD, REMEDY_ADD_LYE};

    (void)state;
    for (int phase = PHASE_APART; phase <= PHASE_COMBINED; phase++) {
        struct kitchen *k = three_oils();
        const struct remedy *r;
        struct making *m;

        kitchen_additive(k, &ACID, 20);
        m = making_of(k);
        alone(m, phase == PHASE_APART);
        weigh(m, ADDITIVE_0, 0);
        ask(m, (enum batch_phase)phase, ADDITIVE_0);
        r = first_of(m, forgotten[phase]);
        assert_true(r->margin.nominal >= fmin(0.05, m->plan.margin.nominal) - 1e-12 && r->margin.nominal < 0.055);
        if (phase < PHASE_COMBINED)
            assert_int_equal(r->mass_ug, mass_ug(20));
        margin_is_true(m, r);
        weigh(m, ADDITIVE_0, 40);
        ask(m, (enum batch_phase)phase, ADDITIVE_0);
        r = first_of(m, over[phase]);
        assert_true(r->margin.nominal >= fmin(0.05, m->plan.margin.nominal) - 1e-12 && r->margin.nominal < 0.055);
        margin_is_true(m, r);
    }
}

/* 100 g of olive oil need 12.87 g of NaOH; on a scale of 1 g 12 are planned (11.4 %). With 13 g (4.0 %) the batch is within a
 * point of what was asked; with 14 g it is lye-heavy, and what puts it right comes to what was asked. */
static void a_coarse_scale_is_no_slip(void **state)
{
    struct kitchen *k = kitchen_new();
    struct making *m;

    (void)state;
    kitchen_scale(k, 1, 5000, 0);
    kitchen_oil(k, &OLIVE, 100);
    m = making_of(k);
    assert_near(planned_g(m, SODA), 12, 0);
    assert_near(m->plan.margin.nominal, 0.1141, 1e-4);
    weigh(m, SODA, 12);
    assert_int_equal(ask(m, PHASE_COMBINED, SODA), 1);
    assert_int_equal(m->remedy[0].kind, REMEDY_LEAVE);
    weigh(m, SODA, 13);
    ask(m, PHASE_COMBINED, SODA);
    assert_int_equal(m->remedy[0].kind, REMEDY_LEAVE);
    assert_near(m->remedy[0].margin.nominal, 0.0403, 1e-4);
    weigh(m, SODA, 14);
    ask(m, PHASE_COMBINED, SODA);
    assert_int_equal(m->remedy[0].kind, REMEDY_ADD_OILS);
    assert_int_equal(m->remedy[0].mass_ug, mass_ug(9)); /* 8.78: 14 g are for 108.78 g of olive oil */
    margin_is_true(m, &m->remedy[0]);
}

/* What fits no longer is said: 9 g of NaOH too much want 64 g of oil, in a mould that was full. */
static void what_no_longer_fits_is_said(void **state)
{
    struct kitchen *k = three_oils();
    struct making *m;

    (void)state;
    k->recipe.size.has_mould = true;
    k->recipe.size.mould = (struct mould){.shape = MOULD_VOLUME, .volume_ml = 1420, .fill = 1};
    m = making_of(k);
    weigh_off(m, SODA, 9);
    ask(m, PHASE_COMBINED, SODA);
    assert_int_equal(m->plan.findings > 0 && m->plan.finding[0].code == FINDING_MOULD_OVER, 0);
    assert_true(m->remedy[0].mould_over);
    assert_false(m->remedy[0].pieces_short);
    assert_true(m->remedy[0].batter_ml > m->plan.batter_ml + 60);
    ask(m, PHASE_LYE_MIXED, SODA);
    assert_false(m->remedy[0].mould_over);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CHECK(alkali_over_is_taken_out_to_the_superfat_asked),
        CHECK(alkali_is_taken_out_for_the_oils_that_were_weighed),
        CHECK(alkali_short_is_made_up_rounded_down),
        CHECK(an_oil_is_taken_out_as_far_as_superfat_allows),
        CHECK(an_oil_that_is_missing_is_made_up),
        CHECK(of_mixed_lye_only_the_right_share_is_poured),
        CHECK(acid_in_the_lye_is_shared_out_with_it),
        CHECK(oils_are_rounded_up_from_what_is_just_enough),
        CHECK(lye_is_added_in_the_strength_planned),
        CHECK(water_is_made_up_to_the_plan_and_until_all_dissolves),
        CHECK(each_alkali_of_a_mixture_is_put_right_by_itself),
        CHECK(an_alkali_that_the_recipe_does_not_have_goes_out_whole),
        CHECK(acid_that_is_missing_or_over_is_put_right),
        CHECK(a_coarse_scale_is_no_slip),
        CHECK(what_no_longer_fits_is_said),
    };

    return cmocka_run_group_tests_name("put right, amounts", tests, NULL, NULL);
}
