/* A plan with what was weighed in it, against the tests' own arithmetic and against the plan itself. */
#include "calc/making.h"
#include "calc/split_sample.h"

/* Every part weighed just as planned. */
static void weigh_all(struct charges *charges, const struct plan_input *in, const struct plan *plan)
{
    memset(charges, 0, sizeof *charges);
    charges->lye_used = 1;
    for (int part = PART_OIL; part <= PART_ADDITIVE; part++)
        for (int i = 0; i < RECIPE_OILS; i++) {
            struct part_ref what = {(enum part)part, (int16_t)i, 0};
            const struct weighing *w = charged_weighing(in, plan, what);

            if (w && w->division_ug > 0)
                *charged_of(in, charges, what) = (struct charge){true, w->rounded_ug, w->division_ug / 2, w->scale};
        }
}

static void same_margin(const struct margin *a, const struct margin *b)
{
    assert_near(a->nominal, b->nominal, 1e-15);
    assert_near(a->mean, b->mean, 1e-15);
    assert_near(a->sd, b->sd, 1e-15);
    assert_near(a->likely.lo, b->likely.lo, 1e-15);
    assert_near(a->worst.lo, b->worst.lo, 1e-15);
    assert_near(a->worst.hi, b->worst.hi, 1e-15);
    assert_near(a->chance_lye_heavy, b->chance_lye_heavy, 1e-15);
}

static void same_split(const struct plan *a, const struct plan *b)
{
    assert_int_equal(a->portions, b->portions);
    assert_int_equal(a->residue_ug, b->residue_ug);
    for (int i = 0; i < a->portions; i++) {
        const struct plan_portion *p = &a->portion[i], *q = &b->portion[i];

        assert_int_equal(p->batter_ug, q->batter_ug);
        assert_int_equal(p->kept_ug, q->kept_ug);
        assert_int_equal(p->fragrance_ug, q->fragrance_ug);
        assert_near(p->filled_g, q->filled_g, 0);
        assert_near(p->volume_ml, q->volume_ml, 0);
        assert_near(p->layer_mm, q->layer_mm, 0);
        assert_near(p->cured_g, q->cured_g, 0);
        assert_near(p->pieces.chance, q->pieces.chance, 0);
        assert_near(p->pace.until.median, q->pace.until.median, 0);
        assert_int_equal(p->colourant[0].colourant.rounded_ug, q->colourant[0].colourant.rounded_ug);
        same_margin(&p->margin, &q->margin);
    }
}

static void same_plan(const struct plan *a, const struct plan *b)
{
    assert_int_equal(a->batter_ug, b->batter_ug);
    assert_int_equal(a->oils_ug, b->oils_ug);
    assert_int_equal(a->kept_ug, b->kept_ug);
    assert_near(a->alkali[0].moles, b->alkali[0].moles, 0);
    assert_near(a->alkali[1].moles, b->alkali[1].moles, 0);
    assert_near(a->water.strength_rounded, b->water.strength_rounded, 0);
    assert_near(a->density_g_ml, b->density_g_ml, 0);
    assert_near(a->filled_ml, b->filled_ml, 0);
    assert_near(a->heat.up_to_c, b->heat.up_to_c, 0);
    assert_int_equal(a->fragrance[0].rounded_ug, b->fragrance[0].rounded_ug);
    assert_int_equal(a->allergens, b->allergens);
    assert_near(a->limit.scale, b->limit.scale, 0);
    same_margin(&a->margin, &b->margin);
    same_split(a, b);
}

/* The worked example of the exchange format: with portions, colourants, fragrance and pieces. */
static void what_was_weighed_as_planned_is_the_plan(void **state)
{
    static struct sample s;
    static struct plan charged;
    struct charges charges;

    (void)state;
    for (int way = 0; way < 4; way++) {
        sample_base(&s);
        s.recipe.scent = way & 1 ? PUT_IN_BATTER : PUT_IN_PORTIONS;
        s.recipe.colour = way & 2 ? PUT_IN_BATTER : PUT_IN_PORTIONS;
        s.recipe.size.has_mould = true;
        s.recipe.size.mould = (struct mould){
            .shape = MOULD_BOX, .length_mm = 250, .width_mm = 80, .height_mm = 60, .fill = 1};
        s.recipe.portion[0].colourant[0].carrier_ratio = 2;
        s.recipe.portion[0].colourant[0].carrier_reserved = true;
        strcpy(s.recipe.portion[0].colourant[0].carrier_oil, "olive");
        s.facts.carrier[0][0] = s.facts.oil[0];
        s.recipe.alkali.potassium_share = 0.3;
        s.recipe.alkali.solution_share[ALKALI_KOH] = way & 1 ? 0.45 : 0;
        plan_compute(&s.in, &s.plan);
        assert_true(s.plan.filled_ml > 0 && (s.plan.kept_ug > 0) == (way < 2));
        weigh_all(&charges, &s.in, &s.plan);
        charged_plan(&s.in, &s.plan, &charges, &charged);
        same_plan(&charged, &s.plan);
        memset(&charges, 0, sizeof charges); /* nothing weighed yet: all counts as planned */
        charged_plan(&s.in, &s.plan, &charges, &charged);
        same_plan(&charged, &s.plan);
    }
}

/* By hand: 453 g olive, 250 g coconut, 300 g palm and 141.20 g of NaOH. */
static void superfat_follows_what_was_weighed(void **state)
{
    struct making *m = making_of(three_oils());
    static struct plan charged;
    double demand = (453 * 190 + 250 * 255 + 300 * 194) / 1000.0 / 56.1053, soda = 141.20 / 39.99677;

    (void)state;
    weigh(m, OIL_0, 453);
    weigh(m, SODA, 141.20);
    charged_plan(&m->k->in, &m->plan, &m->charges, &charged);
    assert_near(charged.margin.nominal, 1 - soda / demand, 1e-9);
    assert_near(charged.alkali[ALKALI_NAOH].moles, soda, 1e-9);
    assert_int_equal(charged.oils_ug, mass_ug(1003));
    assert_int_equal(charged.batter_ug, mass_ug(1003 + 141.20 + 285));
    assert_near(charged.water.strength_rounded, 141.20 / (141.20 + 285), 1e-12);
    assert_near(charged.margin.nominal, own_superfat(m, &m->charges), 1e-9);
}

/* The edge of the interval moves with what a reading may be off by: a difference of two readings on a 1 g scale is 1 g off. */
static void a_difference_of_two_readings_is_off_by_a_whole_division(void **state)
{
    struct making *m = making_of(three_oils());
    static struct plan one, two;
    double naoh = mass_g(m->plan.alkali[0].alkali.rounded_ug) + 0.005;

    (void)state;
    weigh_off(m, OIL_0, 0);
    charged_plan(&m->k->in, &m->plan, &m->charges, &one);
    m->charges.oil[0].half_ug = mass_ug(1);
    charged_plan(&m->k->in, &m->plan, &m->charges, &two);
    assert_near(one.margin.worst.lo, 1 - naoh / 39.99677 / ((449.5 * 184 + 249.5 * 248 + 299.5 * 189) / 1000 / 56.1053),
                1e-9);
    assert_near(two.margin.worst.lo, 1 - naoh / 39.99677 / ((449 * 184 + 249.5 * 248 + 299.5 * 189) / 1000 / 56.1053),
                1e-9);
}

/* Of the lye 0.8 is poured: 0.8 of its alkali, water, vinegar and citric acid, whole bicarbonate. */
static void of_a_share_of_the_lye_each_part_counts_in_that_share(void **state)
{
    static const struct additive_fact citric = {
        .key = "citric-acid", .active_share = 1, .molar_mass = 192.123, .equivalents = 3, .add_to = "water"};
    static const struct additive_fact soda_ash = {
        .key = "bicarbonate", .active_share = 1, .molar_mass = 84.006, .equivalents = 1, .add_to = "batter"};
    struct kitchen *k = three_oils();
    static struct plan charged;
    struct making *m;
    double naoh, acid, vinegar;

    (void)state;
    kitchen_additive(k, &citric, 10);
    kitchen_additive(k, &soda_ash, 5);
    kitchen_liquid(k, &VINEGAR, NULL, 0.5);
    m = making_of(k);
    m->charges.lye_used = 0.8;
    charged_plan(&k->in, &m->plan, &m->charges, &charged);
    naoh = 0.8 * planned_g(m, SODA);
    vinegar = 0.8 * planned_g(m, LIQUID_0);
    acid = 8 * 3 / 192.123 + 5 / 84.006 + vinegar * 50 / 60.052 / 1000;
    assert_near(charged.margin.nominal, 1 - (naoh / 39.99677 - acid) / (207.45 / 56.1053), 1e-8);
    assert_near(charged.margin.nominal, own_superfat(m, &m->charges), 1e-9);
    assert_int_equal(charged.additive[1].additive.rounded_ug, mass_ug(5));
    assert_near(mass_g(charged_lye_ug(&k->in, &charged)), 0.8 * mass_g(charged_lye_ug(&k->in, &m->plan)), 1e-5);
}

/* 0.8 of 425.49 g is poured on the scale of 1 g: half a gram of lye more is 0.165 g of NaOH more, beside 0.8 of 0.005 g. */
static void a_poured_share_is_as_uncertain_as_its_pouring(void **state)
{
    struct making *m = making_of(three_oils());
    static struct plan charged;
    double naoh = 0.8 * (140.49 + 0.005) + 0.5 * 140.49 / 425.49;

    (void)state;
    m->charges.lye_used = 0.8;
    charged_plan(&m->k->in, &m->plan, &m->charges, &charged);
    assert_near(charged.margin.worst.lo,
                1 - naoh / 39.99677 / ((449.5 * 184 + 249.5 * 248 + 299.5 * 189) / 1000 / 56.1053), 1e-7);
}

/* 60 g of lye of 33 % bring 19.8 g of NaOH and 40.2 g of water. Into a batch of ready-made lye of 50 % it counts as 39.6 g
 * of that and 20.4 g of water. */
static void added_lye_is_alkali_and_water_in_the_planned_strength(void **state)
{
    (void)state;
    for (int ready = 0; ready < 2; ready++) {
        struct kitchen *k = three_oils();
        static struct plan charged;
        struct making *m;

        k->recipe.alkali.solution_share[ALKALI_NAOH] = ready ? 0.5 : 0;
        m = making_of(k);
        m->charges.added_lye[ALKALI_NAOH] = (struct charge){true, mass_ug(60), mass_ug(0.5), 0};
        charged_plan(&k->in, &m->plan, &m->charges, &charged);
        assert_near(mass_g(charged.alkali[0].alkali.rounded_ug - m->plan.alkali[0].alkali.rounded_ug), 19.8, 2e-6);
        assert_near(mass_g(charged.water.water.rounded_ug - m->plan.water.water.rounded_ug), ready ? 20.4 : 40.2, 2e-6);
        assert_int_equal(charged.batter_ug - m->plan.batter_ug, mass_ug(60));
        assert_near(charged.margin.nominal, own_superfat(m, &m->charges), 1e-8);
    }
}

static void masses_that_cannot_be_leave_every_number_finite(void **state)
{
    static const double grams[] = {0, -5, 1e-6, 1e9, 9e12};
    static struct plan charged;

    (void)state;
    for (size_t i = 0; i < sizeof grams / sizeof grams[0]; i++) {
        struct making *m = making_of(three_oils());

        for (int part = 0; part < 3; part++)
            weigh(m, (struct part_ref){PART_OIL, (int16_t)part, 0}, grams[i]);
        weigh(m, WATER, grams[i]);
        for (int soda = 0; soda < 2; soda++) {
            if (soda)
                weigh(m, SODA, grams[i]);
            charged_plan(&m->k->in, &m->plan, &m->charges, &charged);
            assert_true(isfinite(charged.margin.nominal) && isfinite(charged.margin.sd));
            assert_true(isfinite(charged.margin.worst.lo) && isfinite(charged.margin.worst.hi));
            assert_true(isfinite(charged.batter_ml) && isfinite(charged.heat.up_to_c));
            assert_true(charged.batter_ug >= 0);
            for (int p = 0; p < charged.portions; p++)
                assert_true(isfinite(charged.portion[p].volume_ml) && charged.portion[p].batter_ug >= 0);
        }
    }
}

static bool finds(const struct plan *plan, enum finding_code code)
{
    for (int i = 0; i < plan->findings; i++)
        if (plan->finding[i].code == code)
            return true;
    return false;
}

/* 3 g too much of 140.49 is 2.9 %; 200 g of water leave 41.3 % lye; 120 g 53.9 %. */
static void findings_are_about_what_was_weighed(void **state)
{
    struct making *m = making_of(three_oils());
    static struct plan charged;

    (void)state;
    weigh_off(m, SODA, 9);
    weigh(m, WATER, 200);
    charged_plan(&m->k->in, &m->plan, &m->charges, &charged);
    assert_true(finds(&charged, FINDING_LYE_HEAVY));
    assert_true(finds(&charged, FINDING_STRENGTH_HIGH));
    weigh(m, WATER, 120);
    charged_plan(&m->k->in, &m->plan, &m->charges, &charged);
    assert_true(finds(&charged, FINDING_STRENGTH_OVER));
    assert_false(finds(&m->plan, FINDING_LYE_HEAVY));
    m->plan = charged; /* and what was true of the plan no longer is */
    weigh(m, SODA, 140.49);
    weigh(m, WATER, 285);
    charged_plan(&m->k->in, &m->plan, &m->charges, &charged);
    assert_false(finds(&charged, FINDING_LYE_HEAVY));
    assert_false(finds(&charged, FINDING_STRENGTH_OVER));
}

/* Portions of 40 and 25 %, 100 g, and the rest, of a batter of 1425.49 g. */
static struct making *four_portions(void)
{
    struct kitchen *k = three_oils();
    static const double amount[] = {0.4, 0.25, 100, 0};
    static const enum demand demand[] = {DEMAND_SHARE, DEMAND_SHARE, DEMAND_GRAMS, DEMAND_REST};

    for (int i = 0; i < 4; i++)
        k->recipe.portion[k->recipe.portions++] = (struct recipe_portion){.demand = demand[i], .amount = amount[i]};
    return making_of(k);
}

static int64_t sum_of(const int64_t target[PLAN_PORTIONS])
{
    int64_t sum = 0;

    for (int i = 0; i < PLAN_PORTIONS; i++)
        sum += target[i];
    return sum;
}

static void before_any_is_poured_the_targets_are_the_split(void **state)
{
    struct making *m = four_portions();
    const struct charge none[PLAN_PORTIONS] = {{0}};
    int64_t target[PLAN_PORTIONS];

    (void)state;
    charged_split(&m->k->in, &m->plan, none, target);
    for (int i = 0; i < 4; i++)
        assert_int_equal(target[i], m->plan.portion[i].batter_ug);
    assert_int_equal(sum_of(target) + m->plan.residue_ug, m->plan.batter_ug);
}

/* The first got 60 g too much: the 100 g stay 100, and what is missing is shared by the second and the rest 25 to 28. */
static void what_was_poured_too_much_is_shared_by_those_that_follow(void **state)
{
    struct making *m = four_portions();
    struct charge poured[PLAN_PORTIONS] = {{0}};
    int64_t target[PLAN_PORTIONS], planned[PLAN_PORTIONS];

    (void)state;
    for (int i = 0; i < 4; i++)
        planned[i] = m->plan.portion[i].batter_ug;
    poured[0] = (struct charge){true, planned[0] + mass_ug(60), 0, 0};
    charged_split(&m->k->in, &m->plan, poured, target);
    assert_int_equal(target[0], 0);
    assert_int_equal(target[2], mass_ug(100));
    assert_int_equal(poured[0].mass_ug + sum_of(target) + m->plan.residue_ug, m->plan.batter_ug);
    assert_near(mass_g(target[1]) / mass_g(target[3]), mass_g(planned[1]) / mass_g(planned[3]), 0.005);
}

static void where_too_little_is_left_the_targets_are_what_there_is(void **state)
{
    struct making *m = four_portions();
    struct charge poured[PLAN_PORTIONS] = {{0}};
    int64_t target[PLAN_PORTIONS];

    (void)state;
    poured[0] = (struct charge){true, m->plan.batter_ug - m->plan.residue_ug - mass_ug(60.5), 0, 0};
    charged_split(&m->k->in, &m->plan, poured, target);
    assert_int_equal(target[2], mass_ug(60));
    assert_int_equal(sum_of(target), mass_ug(60));
    poured[0].mass_ug = 2 * m->plan.batter_ug;
    charged_split(&m->k->in, &m->plan, poured, target);
    assert_int_equal(sum_of(target), 0);
}

/* Oils of 1000 g, 10 g of them kept back; with the lye 140.49 and 285 more. Off: half a gram each, 0.005 for the alkali. */
static void the_full_jug_weighs_what_went_into_it(void **state)
{
    struct making *m = making_of(three_oils());
    static struct batch batch;
    int64_t expected, tolerance;

    (void)state;
    weigh(m, OIL_1, 260);
    batch.charges = m->charges;
    batch.kept_ug[0] = mass_ug(10);
    charged_jug(&m->k->in, &m->plan, &batch, false, &expected, &tolerance);
    assert_int_equal(expected, mass_ug(1000));
    assert_int_equal(tolerance, mass_ug(1.5));
    charged_jug(&m->k->in, &m->plan, &batch, true, &expected, &tolerance);
    assert_int_equal(expected, mass_ug(1000 + 140.49 + 285));
    assert_int_equal(tolerance, mass_ug(2.005));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CHECK(what_was_weighed_as_planned_is_the_plan),
        CHECK(superfat_follows_what_was_weighed),
        CHECK(a_difference_of_two_readings_is_off_by_a_whole_division),
        CHECK(of_a_share_of_the_lye_each_part_counts_in_that_share),
        CHECK(a_poured_share_is_as_uncertain_as_its_pouring),
        CHECK(added_lye_is_alkali_and_water_in_the_planned_strength),
        CHECK(masses_that_cannot_be_leave_every_number_finite),
        CHECK(findings_are_about_what_was_weighed),
        CHECK(before_any_is_poured_the_targets_are_the_split),
        CHECK(what_was_poured_too_much_is_shared_by_those_that_follow),
        CHECK(where_too_little_is_left_the_targets_are_what_there_is),
        CHECK(the_full_jug_weighs_what_went_into_it),
    };

    return cmocka_run_group_tests_name("charged", tests, NULL, NULL);
}
