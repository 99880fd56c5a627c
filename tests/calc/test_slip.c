/* What a reading that is far off most likely is, and that ordinary scatter accuses nobody.
 *
 * An ounce is 28.349523125 g (NIST Handbook 44, Appendix C). Molar masses of NaOH and KOH: CIAAW. That flake of KOH is about
 * 90 % is common practice. */
#include "calc/making.h"
#include "support/random_recipe.h"

static struct slip read_with(double target_g, double read_g, double vessel_g, double tolerance_g)
{
    return put_right_slip(mass_ug(target_g), mass_ug(read_g), mass_ug(vessel_g), mass_ug(tolerance_g), false,
                          ALKALI_NAOH, NULL, 0);
}

static void a_reading_that_is_vessel_and_target_was_not_tared(void **state)
{
    (void)state;
    assert_int_equal(read_with(250, 462, 212, 1).kind, SLIP_NOT_TARED);
    assert_int_equal(read_with(250, 463, 212, 1).kind, SLIP_NOT_TARED);
    assert_int_equal(read_with(250, 464, 212, 1).kind, SLIP_NONE);
    assert_int_equal(read_with(250, 462, 0, 1).kind, SLIP_NONE); /* the vessel is not known */
}

static void a_reading_that_is_the_number_of_ounces_is_in_ounces(void **state)
{
    (void)state;
    assert_int_equal(read_with(340.19, 12, 0, 0.02).kind, SLIP_OUNCES); /* 12 oz, read 12 */
    assert_int_equal(read_with(12, 340.2, 0, 0.02).kind, SLIP_OUNCES);  /* 12 g, read in ounces */
    assert_int_equal(read_with(340.19, 12.3, 0, 0.02).kind, SLIP_NONE);
}

static void twice_the_target_is_the_same_thing_twice(void **state)
{
    (void)state;
    assert_int_equal(read_with(450, 901, 0, 1).kind, SLIP_TWICE);
    assert_int_equal(read_with(450, 902, 212, 1).kind, SLIP_TWICE);
    assert_int_equal(read_with(450, 904, 0, 1).kind, SLIP_NONE);
}

/* A vessel as heavy as what goes in: twice, or not tared? Nothing is named that the next step could hang on. */
static void where_two_slips_fit_none_is_named(void **state)
{
    (void)state;
    assert_int_equal(read_with(450, 900, 450, 1).kind, SLIP_NONE);
}

static void the_target_of_another_batch_is_named(void **state)
{
    const int64_t others[] = {mass_ug(120), mass_ug(97.3), mass_ug(0)};
    struct slip slip = put_right_slip(mass_ug(140.49), mass_ug(97.31), 0, mass_ug(0.02), true, ALKALI_NAOH, others, 3);

    (void)state;
    assert_int_equal(slip.kind, SLIP_OTHER_BATCH);
    assert_int_equal(slip.batch, 1);
    /* another batch that asks for nearly the same says nothing */
    slip = put_right_slip(mass_ug(120.05), mass_ug(120), 0, mass_ug(0.02), true, ALKALI_NAOH, others, 3);
    assert_int_equal(slip.kind, SLIP_NONE);
}

/* 140.49 g of NaOH are as many moles as 197.07 g of pure KOH, or 218.97 g of 90 %. */
static void the_mass_that_the_other_hydroxide_would_need_is_named(void **state)
{
    const int64_t soda = mass_ug(140.49), potash[] = {mass_ug(197.07), mass_ug(218.97)};

    (void)state;
    for (int i = 0; i < 2; i++) {
        assert_int_equal(put_right_slip(soda, potash[i], 0, 10000, true, ALKALI_NAOH, NULL, 0).kind, SLIP_WRONG_ALKALI);
        assert_int_equal(put_right_slip(potash[i], soda, 0, 10000, true, ALKALI_KOH, NULL, 0).kind, SLIP_WRONG_ALKALI);
        assert_int_equal(put_right_slip(soda, potash[i], 0, 10000, false, ALKALI_NAOH, NULL, 0).kind, SLIP_NONE);
    }
}

/* Whatever vessels and other batches there are: within the tolerance, and where another slip would read nearly the same. */
static void scatter_accuses_nobody(void **state)
{
    struct chance chance = chance_of(7);

    (void)state;
    for (int round = 0; round < 100000; round++) {
        int64_t target = 1 + chance_below(&chance, 1000000000), tolerance = chance_below(&chance, 2000000);
        int64_t off = tolerance > 0 ? chance_below(&chance, (int)tolerance + 1) : 0;
        int64_t others[2] = {target + chance_below(&chance, 4000000) - 2000000, chance_below(&chance, 1000000000)};
        int64_t vessel = chance_below(&chance, 3) * chance_below(&chance, 3000000);
        int64_t read = target + (chance_below(&chance, 2) ? off : -off);

        assert_int_equal(put_right_slip(target, read, vessel, tolerance, true, ALKALI_NAOH, others, 2).kind, SLIP_NONE);
    }
}

static void readings_that_cannot_be_are_nothing(void **state)
{
    (void)state;
    assert_int_equal(read_with(0, 5, 5, 1).kind, SLIP_NONE);
    assert_int_equal(read_with(5, 0, 5, 1).kind, SLIP_NONE);
    assert_int_equal(read_with(-5, -10, 5, 1).kind, SLIP_NONE);
    assert_int_equal(put_right_slip(INT64_MAX, INT64_MAX, INT64_MAX, 1, true, ALKALI_KOH, NULL, 0).kind, SLIP_NONE);
}

/* The jug of making.h: 450, 250 and 300 g of oils, 140.49 g of NaOH and 285 g of water; a jug of 812 g. Nothing is named within
 * 1.5 or 2 g for the weighings and half a percent, 5 or 7 g. */
static struct batch *jug_of(struct making **m)
{
    static struct batch batch;

    *m = making_of(three_oils());
    memset(&batch, 0, sizeof batch);
    batch.charges = (*m)->charges;
    batch.head.vessels = 2;
    batch.head.vessel[1].empty_ug = mass_ug(812);
    batch.steps = 2;
    batch.step[0].step = (struct step){.use = VESSEL_LYE, .vessel = 0};
    batch.step[1].step = (struct step){.use = VESSEL_JUG, .vessel = 1};
    return &batch;
}

struct jug_case {
    bool lye;
    double reads_g;
    enum slip_kind kind;
    struct part_ref what;
};

#define LYE_FULL (1000 + 140.49 + 285)

static void the_jug_tells_what_is_missing_or_in_it_twice(void **state)
{
    static const struct jug_case cases[] = {
        {false, 1000, SLIP_NONE, {0}},
        {false, 1006, SLIP_NONE, {0}},
        {false, 994, SLIP_NONE, {0}},
        {false, 750, SLIP_FORGOTTEN, {PART_OIL, 1, 0}},
        {false, 704, SLIP_FORGOTTEN, {PART_OIL, 2, 0}},
        {false, 550, SLIP_FORGOTTEN, {PART_OIL, 0, 0}},
        {false, 1450, SLIP_EXTRA, {PART_OIL, 0, 0}},
        {false, 1250, SLIP_EXTRA, {PART_OIL, 1, 0}},
        {false, 1812, SLIP_NOT_TARED, {0}},
        {false, 1100, SLIP_NONE, {0}},
        {false, 860, SLIP_NONE, {0}}, /* 140 g less before the lye: no lye is missing yet */
        {true, LYE_FULL, SLIP_NONE, {0}},
        {true, LYE_FULL - 8, SLIP_NONE, {0}}, /* films and steam */
        {true, LYE_FULL - 140, SLIP_PLAIN_WATER, {0}},
        {true, LYE_FULL - 450, SLIP_FORGOTTEN, {PART_OIL, 0, 0}},
        {true, LYE_FULL - 285, SLIP_FORGOTTEN, {PART_WATER, 0, 0}},
        {true, LYE_FULL + 140, SLIP_EXTRA, {PART_ALKALI, 0, 0}},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct making *m;
        const struct batch *batch = jug_of(&m);
        struct slip slip = put_right_jug(&m->k->in, &m->plan, batch, cases[i].lye, mass_ug(cases[i].reads_g));

        if (slip.kind != cases[i].kind)
            fail_msg("case %zu is %d, not %d", i, (int)slip.kind, (int)cases[i].kind);
        if (slip.kind == SLIP_FORGOTTEN || slip.kind == SLIP_EXTRA) {
            assert_int_equal(slip.what.part, cases[i].what.part);
            assert_int_equal(slip.what.index, cases[i].what.index);
        }
    }
}

/* Of two oils of nearly the same mass it cannot be told which is missing; that one is, can. */
static void of_two_oils_of_one_mass_neither_is_named(void **state)
{
    struct kitchen *k = three_oils();
    static struct batch batch;
    struct making *m;
    struct slip slip;

    (void)state;
    k->recipe.oil[1].amount = 300;
    m = making_of(k);
    batch.charges = m->charges;
    slip = put_right_jug(&k->in, &m->plan, &batch, false, mass_ug(750));
    assert_int_equal(slip.kind, SLIP_FORGOTTEN);
    assert_int_equal(slip.what.part, PART_BATTER);
    slip = put_right_jug(&k->in, &m->plan, &batch, false, mass_ug(1350));
    assert_int_equal(slip.kind, SLIP_EXTRA);
    assert_int_equal(slip.what.part, PART_BATTER);
}

/* What is in by the record is expected: a doubled oil that is known, and one known to be forgotten. */
static void what_is_known_already_is_no_slip(void **state)
{
    struct making *m;
    struct batch *batch = jug_of(&m);

    (void)state;
    batch->charges.oil[0] = (struct charge){true, mass_ug(900), 0, 0};
    batch->charges.oil[1] = (struct charge){true, 0, 0, 0};
    assert_int_equal(put_right_jug(&m->k->in, &m->plan, batch, false, mass_ug(1200)).kind, SLIP_NONE);
    assert_int_equal(put_right_jug(&m->k->in, &m->plan, batch, false, mass_ug(900)).kind, SLIP_FORGOTTEN);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CHECK(a_reading_that_is_vessel_and_target_was_not_tared),
        CHECK(a_reading_that_is_the_number_of_ounces_is_in_ounces),
        CHECK(twice_the_target_is_the_same_thing_twice),
        CHECK(where_two_slips_fit_none_is_named),
        CHECK(the_target_of_another_batch_is_named),
        CHECK(the_mass_that_the_other_hydroxide_would_need_is_named),
        CHECK(scatter_accuses_nobody),
        CHECK(readings_that_cannot_be_are_nothing),
        CHECK(the_jug_tells_what_is_missing_or_in_it_twice),
        CHECK(of_two_oils_of_one_mass_neither_is_named),
        CHECK(what_is_known_already_is_no_slip),
    };

    return cmocka_run_group_tests_name("slip", tests, NULL, NULL);
}
