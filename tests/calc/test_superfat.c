/* Superfat as an interval, against figures worked outside the program. Shares here are percents. */
#include "kitchen.h"

#include "calc/coarse.h"
#include "calc/reserve.h"

static struct kitchen *exact_scale(void)
{
    struct kitchen *k = kitchen_new();

    kitchen_scale(k, 0.000001, 100000, 0);
    return k;
}

static void check_margin(const struct margin *m, double mean, double sd, double lo, double hi, double tolerance)
{
    assert_near(100 * m->mean, mean, tolerance);
    assert_near(100 * m->sd, sd, tolerance);
    assert_near(100 * m->worst.lo, lo, tolerance);
    assert_near(100 * m->worst.hi, hi, tolerance);
}

/* s = 1 - 0.95 S0/S for one oil with everything else exact, closed form: edges at S = 184 and 196 (first order: the
 * mean is 5, the standard uncertainty 95 * 6 / 190 / sqrt 3). JCGM 100:2008, 4.3.7 and 5.1.2. */
static void one_oil_of_a_narrow_range_has_the_closed_form(void **state)
{
    struct kitchen *k = exact_scale();

    (void)state;
    kitchen_oil(k, &OLIVE, 1000);
    kitchen_plan(k);
    check_margin(&k->plan.margin, 5, 1.7321, 1.9022, 7.9082, 1e-4);
    assert_near(100 * k->plan.margin.likely.hi, 7.9082, 1e-4); /* mean + 2 u is 8.4641: clipped to what is possible */
    assert_near(100 * k->plan.margin.likely.lo, 1.9022, 1e-4); /* mean - 2 u is 1.5359 */
}

/* The same with S from 160 to 195. */
static void one_oil_of_a_wide_range_has_the_closed_form(void **state)
{
    struct kitchen *k = exact_scale();

    (void)state;
    kitchen_own(k, "wide", 1000, 160, 177.5, 195);
    kitchen_plan(k);
    check_margin(&k->plan.margin, 5, 5.4076, -5.3906, 13.5256, 1e-4);
    assert_int_equal(kitchen_found(k, FINDING_LYE_LIKELY)->level, LEVEL_CAUTION);
}

static struct kitchen *two_oils(double share)
{
    struct kitchen *k = kitchen_new();

    k->recipe.alkali.purity[ALKALI_NAOH] = (struct ranged){true, 0.98, 0.99, 1.00};
    kitchen_scale(k, 1, 5000, 0);
    kitchen_own(k, "first", 700 * share, 184, 190, 196);
    kitchen_own(k, "second", 300 * share, 248, 256.5, 265);
    kitchen_plan(k);
    return k;
}

/* 700 g (184 to 196) and 300 g (248 to 265), 5 %, NaOH 98 to 100 %, all on a 1 g scale: worked with fractions, and
 * by Monte Carlo over 2,000,000 draws (JCGM 101:2008): mean 5.396, sd 1.4071. */
static void two_oils_on_a_coarse_scale_have_the_worked_interval(void **state)
{
    const struct kitchen *k = two_oils(1);
    const struct margin *m = &k->plan.margin;

    (void)state;
    assert_near(k->plan.demand_mol, 3.742071, 1e-6);
    assert_near(naoh_exact(&k->plan), 143.6234, 1e-4);
    assert_int_equal(k->plan.alkali[ALKALI_NAOH].alkali.rounded_ug, 143000000);
    check_margin(m, 5.4124, 1.4057, 0.833, 9.698, 6e-4);
    assert_near(100 * m->nominal, 5.4124, 1e-4);
    assert_near(100 * m->likely.lo, 2.601, 6e-4);
    assert_near(100 * m->likely.hi, 8.224, 6e-4);
    assert_near(100 * m->mean, 5.396, 0.05);
    assert_near(100 * m->sd, 1.4071, 0.05);
    assert_int_equal(m->mostly_from, CAUSE_SAP);
    assert_int_equal(m->mostly.part, PART_OIL);
    assert_int_equal(m->mostly.index, 0);
    assert_near(100 * m->mostly_share, 60.4, 0.06);
}

/* The same at 140 and 60 g: NaOH 28.7247 g exact, 28 weighed; the weighings are 33.9 % of the variance. */
static void a_small_batch_on_a_coarse_scale_is_wide_by_its_weighings(void **state)
{
    const struct kitchen *k = two_oils(0.2);
    const struct margin *m = &k->plan.margin;

    (void)state;
    assert_near(naoh_exact(&k->plan), 28.7247, 1e-4);
    assert_int_equal(k->plan.alkali[ALKALI_NAOH].alkali.rounded_ug, 28000000);
    check_margin(m, 7.3967, 1.6763, 1.103, 13.235, 6e-4);
    assert_near(100 * m->mass_share, 33.9, 0.06);
}

/* The sample recipe of the exchange format: worked outside the program from section 3 of the calculations. */
static struct kitchen *sample_base(void)
{
    struct kitchen *k = kitchen_new();

    k->recipe.oils_by = OILS_BY_SHARE;
    k->recipe.size = (struct recipe_size){.by = SIZE_OILS, .grams = 1000};
    k->recipe.alkali.purity[ALKALI_NAOH] = (struct ranged){true, 0.985, 1, 1};
    kitchen_scale(k, 1, 5000, 0);
    kitchen_scale(k, 0.01, 200, 0);
    kitchen_oil(k, &OLIVE, 0.45);
    kitchen_oil(k, &COCONUT, 0.25);
    kitchen_own(k, "House blend", 0.30, 194, 196.5, 199);
    kitchen_additive(k, &CITRIC, 0);
    k->recipe.additive[0] = (struct recipe_additive){.by = ADDITIVE_OF_OILS, .value = 0.01};
    kitchen_plan(k);
    return k;
}

static void the_sample_recipe_has_its_published_figures(void **state)
{
    const struct kitchen *k = sample_base();
    const struct margin *m = &k->plan.margin;

    (void)state;
    assert_near(naoh_exact(&k->plan), 147.2475, 5e-5);
    assert_int_equal(k->plan.alkali[ALKALI_NAOH].alkali.rounded_ug, 147240000);
    assert_int_equal(k->plan.alkali[ALKALI_NAOH].alkali.division_ug, 10000);
    assert_int_equal(k->plan.water.water.rounded_ug, 299000000);
    assert_int_equal(k->plan.additive[0].additive.rounded_ug, 10000000);
    assert_int_equal(k->plan.batter_ug, 1456240000);
    assert_near(100 * k->plan.water.strength, 33.0, 1e-9);
    assert_near(100 * k->plan.water.strength_rounded, 33.0, 0.05);
    assert_near(100 * m->nominal, 5.005, 5e-4);
    assert_near(100 * m->likely.lo, 3.89, 0.005);
    assert_near(100 * m->likely.hi, 7.94, 0.005);
    assert_near(100 * m->worst.lo, 2.42, 0.005);
    assert_near(100 * m->worst.hi, 9.24, 0.008);
    assert_near(100 * m->chance_lye_heavy, 0.0, 0.05);
    assert_int_equal(m->mostly_from, CAUSE_SAP);
    assert_int_equal(m->mostly.index, 0);
    assert_near(100 * m->mostly_share, 48, 0.5);
    assert_int_equal(k->plan.findings, 0);
}

/* Accuracy of one division on both scales: worked in a few lines of another language with the same inputs. */
static void accuracy_of_the_scales_widens_the_interval(void **state)
{
    struct kitchen *k = kitchen_new();
    const struct margin *m = &k->plan.margin;

    (void)state;
    k->recipe.alkali.purity[ALKALI_NAOH] = (struct ranged){true, 0.985, 1, 1};
    kitchen_scale(k, 1, 5000, 1);
    kitchen_scale(k, 0.01, 200, 0.01);
    kitchen_oil(k, &OLIVE, 450);
    kitchen_oil(k, &COCONUT, 250);
    kitchen_oil(k, &PALM_HYBRID, 220);
    kitchen_oil(k, &CASTOR, 80);
    kitchen_plan(k);
    assert_near(naoh_exact(&k->plan), 139.81, 0.01);
    assert_near(100 * m->likely.lo, 3.8, 0.05);
    assert_near(100 * m->likely.hi, 8.0, 0.05);
    assert_near(100 * m->worst.lo, 1.7, 0.05);
    assert_near(100 * m->worst.hi, 9.8, 0.05);
}

/* Two lines of one oil go up and down together: the spread is that of one line, not smaller by the square root of
 * two. */
static void one_oil_on_two_lines_is_one_input(void **state)
{
    struct kitchen *k = exact_scale();

    (void)state;
    kitchen_oil(k, &OLIVE, 500);
    kitchen_oil(k, &OLIVE, 500);
    kitchen_plan(k);
    check_margin(&k->plan.margin, 5, 1.7321, 1.9022, 7.9082, 1e-4);
    assert_near(k->plan.margin.mostly_share, 1, 1e-6);
}

/* By hand: everything on one scale that reads 1 % of the oils high or low moves oils and alkali together, which
 * leaves s. */
static void a_scale_that_is_off_moves_all_of_its_weighings_together(void **state)
{
    struct kitchen *k = kitchen_new();
    double oils_g = 1000, off_g = 10, naoh_g;

    (void)state;
    kitchen_scale(k, 0.000001, 100000, off_g);
    kitchen_own(k, "exact", oils_g, 200, 200, 200);
    kitchen_plan(k);
    naoh_g = naoh_exact(&k->plan);
    /* s = 1 - 0.95 (m_n + t) / m_n * m_o / (m_o + t); alkali is the smaller mass, so t > 0 brings s down */
    assert_near(k->plan.margin.worst.lo, 1 - 0.95 * (naoh_g + off_g) / naoh_g * oils_g / (oils_g + off_g), 1e-6);
    assert_near(k->plan.margin.worst.hi, 1 - 0.95 * (naoh_g - off_g) / naoh_g * oils_g / (oils_g - off_g), 1e-6);
    assert_int_equal(k->plan.margin.mostly_from, CAUSE_SCALE);
    assert_int_equal(k->plan.margin.mostly.part, PART_ALKALI);
    assert_near(k->plan.margin.mass_share, 1, 1e-9);
}

static void purity_that_is_wide_is_named(void **state)
{
    struct kitchen *k = exact_scale();

    (void)state;
    k->recipe.alkali.potassium_share = 1;
    k->recipe.alkali.purity[ALKALI_KOH] = (struct ranged){true, 0.85, 0.90, 0.95};
    kitchen_oil(k, &PALM_HYBRID, 1000);
    kitchen_plan(k);
    assert_int_equal(k->plan.margin.mostly_from, CAUSE_PURITY);
    assert_int_equal(k->plan.margin.mostly.part, PART_ALKALI);
    assert_int_equal(k->plan.margin.mostly.index, ALKALI_KOH);
}

/* Ready-made lye: half a division of the solution is only its strength of alkali. Closed form, S and purity exact. */
static void ready_made_lye_is_uncertain_by_its_own_weighing(void **state)
{
    struct kitchen *k = kitchen_new();
    double solution_g, demand_g = 0.2 * 1000 / 1.402745794; /* NaOH for all of the oils */

    (void)state;
    kitchen_scale(k, 1, 500, 0);
    kitchen_scale(k, 1000, 100000, 0); /* the oils: 1000 g fit only here, half a division is 500 g */
    k->recipe.alkali.solution_share[ALKALI_NAOH] = 0.5;
    kitchen_own(k, "exact", 1000, 200, 200, 200);
    kitchen_plan(k);
    solution_g = mass_g(k->plan.alkali[ALKALI_NAOH].solution.rounded_ug);
    assert_near(k->plan.margin.worst.lo, 1 - (solution_g + 0.5) * 0.5 / (demand_g * 0.5), 1e-6);
    assert_near(k->plan.margin.worst.hi, 1 - (solution_g - 0.5) * 0.5 / (demand_g * 1.5), 1e-6);
}

/* Levels by section 3 of the calculations: rules of the program, not of nature. The chance is one in four where the
 * superfat is 0.6745 standard uncertainties (normal table), which are 1.28 points here: between 0.8 and 0.9 %. */
static void what_is_said_about_lye_follows_superfat_and_purpose(void **state)
{
    static const struct {
        double superfat;
        enum purpose purpose;
        enum finding_code code;
        enum finding_level level;
    } worked[] = {
        {0.00, PURPOSE_SKIN, FINDING_LYE_HEAVY, LEVEL_STOP},
        {0.008, PURPOSE_SKIN, FINDING_LYE_HEAVY, LEVEL_STOP},
        {0.008, PURPOSE_SHAVING, FINDING_LYE_HEAVY, LEVEL_STOP},
        {0.009, PURPOSE_SKIN, FINDING_LYE_LIKELY, LEVEL_CAUTION},
        {0.02, PURPOSE_SKIN, FINDING_LYE_LIKELY, LEVEL_CAUTION},
        {0.00, PURPOSE_LIQUID, FINDING_LYE_LIKELY, LEVEL_REMARK},
        {0.01, PURPOSE_CLEANING, FINDING_LYE_LIKELY, LEVEL_REMARK},
        {0.031, PURPOSE_SKIN, FINDING_LYE_WORST, LEVEL_REMARK},
        {0.031, PURPOSE_LIQUID, FINDING_LYE_WORST, LEVEL_REMARK},
        {0.08, PURPOSE_SKIN, FINDING_COUNT, LEVEL_REMARK},
    };

    (void)state;
    for (size_t i = 0; i < sizeof worked / sizeof worked[0]; i++) {
        struct kitchen *k = exact_scale();
        const struct finding *found;

        k->recipe.superfat = worked[i].superfat;
        k->recipe.purpose = worked[i].purpose;
        kitchen_oil(k, &OLIVE, 500);
        kitchen_own(k, "second", 500, 184, 190, 196);
        kitchen_plan(k);
        assert_int_equal(k->plan.findings, worked[i].code == FINDING_COUNT ? 0 : 1);
        if (worked[i].code == FINDING_COUNT)
            continue;
        found = &k->plan.finding[0];
        assert_int_equal(found->code, worked[i].code);
        assert_int_equal(found->level, worked[i].level);
        assert_int_equal(found->about.part, PART_BATTER);
        assert_near(found->number[0], k->plan.margin.nominal, 0);
        assert_near(found->number[3], k->plan.margin.worst.lo, 0);
    }
}

/* A batter that is over by weighing alone: 0 % asked of a value that is exact, with more alkali than the oils take. */
static void excess_alkali_is_a_stop_for_every_purpose(void **state)
{
    (void)state;
    for (int purpose = PURPOSE_SKIN; purpose <= PURPOSE_LIQUID; purpose++) {
        struct kitchen *k = exact_scale();

        k->recipe.purpose = (enum purpose)purpose;
        kitchen_oil(k, &OLIVE, 1000);
        kitchen_plan(k);
        k->plan.findings = 0;
        k->plan.alkali[ALKALI_NAOH].alkali.rounded_ug += mass_ug(10);
        superfat_plan(&k->in, &k->plan);
        assert_true(k->plan.margin.nominal < 0);
        assert_int_equal(k->plan.finding[0].code, FINDING_LYE_HEAVY);
        assert_int_equal(k->plan.finding[0].level, LEVEL_STOP);
    }
}

/* By hand: half the batter with 20 g of a carrier of S 190 has D of 500 * 190 + 20 * 190 and the alkali of 500 at 5
 * %. */
static void carrier_oil_raises_the_superfat_of_its_part(void **state)
{
    struct kitchen *k = exact_scale();
    struct superfat_extra carrier = {&OLIVE, 20};
    struct margin margin;

    (void)state;
    kitchen_oil(k, &OLIVE, 1000);
    kitchen_plan(k);
    superfat_of_part(&k->in, &k->plan, 0.5, 1, &carrier, &margin);
    assert_near(margin.nominal, 1 - 0.95 * 500 / 520, 1e-6);
    superfat_of_part(&k->in, &k->plan, 0.5, 0, NULL, &margin);
    assert_near(margin.nominal, k->plan.margin.nominal, 1e-12);
    assert_near(margin.worst.lo, k->plan.margin.worst.lo, 1e-12);
    assert_near(margin.sd, k->plan.margin.sd, 1e-12);
}

/* The same where colourants go into the whole batter before the split: then it is the batter's superfat that rises. */
static void carriers_in_the_batter_count_in_its_superfat(void **state)
{
    struct kitchen *k = exact_scale();

    (void)state;
    kitchen_oil(k, &OLIVE, 1000);
    k->recipe.colour = PUT_IN_BATTER;
    kitchen_plan(k);
    k->recipe.portions = k->recipe.portion[0].colourants = 1;
    k->facts.carrier[0][0] = &COCONUT;
    k->plan.portion[0].colourant[0].carrier.rounded_ug = mass_ug(20);
    superfat_plan(&k->in, &k->plan);
    assert_near(k->plan.margin.nominal, 1 - 0.95 * 1000 * 190 / (1000 * 190 + 20 * 255), 1e-6);
}

/* Asked is 5 %, on an exact scale, with all that brings fat and acid: what is weighed gives it back. */
static void fat_and_acid_of_everything_count_in_the_superfat(void **state)
{
    struct kitchen *k = exact_scale();

    (void)state;
    kitchen_oil(k, &OLIVE, 1000);
    kitchen_additive(k, &MILK_POWDER, 80);
    kitchen_additive(k, &CITRIC, 15);
    k->facts.additive_fat[0] = &COCONUT;
    kitchen_liquid(k, &COCONUT_MILK, &COCONUT, 0.5);
    kitchen_liquid(k, &VINEGAR, NULL, 0.2);
    kitchen_plan(k);
    assert_near(k->plan.margin.nominal, 0.05, 1e-6);
}

/* Section 6 of the calculations: 15 g reserved of 200 leave the plain half lye-heavy, s = 1 - 0.95 * 200 / 185 =
 * -2.7 %. */
static void oil_kept_back_for_a_carrier_leaves_the_rest_lye_heavy(void **state)
{
    struct kitchen *k = exact_scale();
    struct superfat_extra carrier = {&OLIVE, 15};
    struct margin plain, coloured;

    (void)state;
    kitchen_oil(k, &OLIVE, 200);
    kitchen_plan(k);
    k->plan.oil_kept_ug[0] = mass_ug(15);
    superfat_of_part(&k->in, &k->plan, 0.5, 0, NULL, &plain);
    superfat_of_part(&k->in, &k->plan, 0.5, 1, &carrier, &coloured);
    assert_near(plain.nominal, 1 - 0.95 * 200 / 185, 1e-6);
    assert_near(coloured.nominal, 1 - 0.95 * 100 / (92.5 + 15), 1e-6);
}

/* A portion of the plan, as the split and the doses would have filled it. */
static void give_portion(struct kitchen *k, int i, double share, const struct oil_fact *carrier, double carrier_g,
                         bool reserved)
{
    struct plan_portion *portion = &k->plan.portion[i];

    k->plan.portions = k->recipe.portions = i + 1;
    portion->source = i;
    portion->batter_ug = (int64_t)((double)k->plan.batter_ug * share);
    k->recipe.portion[i].colourants = carrier_g > 0;
    k->recipe.portion[i].colourant[0].carrier_reserved = reserved;
    k->facts.carrier[i][0] = carrier;
    portion->colourant[0].carrier.rounded_ug = mass_ug(carrier_g);
}

/* By hand: of a jug of 185 g of oil with all of the alkali, one half of the batter gets its half, the other what it
 * holds beside its carrier. */
static void portions_have_their_own_margin_and_are_named_where_worse(void **state)
{
    struct kitchen *k = exact_scale();
    double batter_g, jug;

    (void)state;
    kitchen_oil(k, &OLIVE, 200);
    kitchen_plan(k);
    give_portion(k, 0, 0.5, NULL, 0, false);
    give_portion(k, 1, 0.5, &OLIVE, 15, true);
    reserve_plan(&k->in, &k->plan);
    superfat_portions(&k->in, &k->plan);
    batter_g = mass_g(k->plan.batter_ug);
    jug = (batter_g / 2 - 15) / (batter_g - 15);
    assert_near(k->plan.portion[0].margin.nominal, 1 - 0.95 * 200 / 185, 1e-6);
    assert_near(k->plan.portion[1].margin.nominal, 1 - 0.95 * 200 * jug / (185 * jug + 15), 1e-6);
    assert_int_equal(k->plan.findings, 1);
    assert_int_equal(k->plan.finding[0].code, FINDING_LYE_HEAVY);
    assert_int_equal(k->plan.finding[0].about.part, PART_PORTION);
    assert_int_equal(k->plan.finding[0].about.index, 0);
}

static void a_portion_like_the_batter_is_not_named_again(void **state)
{
    struct kitchen *k = exact_scale();

    (void)state;
    k->recipe.superfat = 0.01;
    kitchen_oil(k, &OLIVE, 200);
    kitchen_plan(k);
    give_portion(k, 0, 0.5, NULL, 0, false);
    give_portion(k, 1, 0.5, &OLIVE, 1, false);
    superfat_portions(&k->in, &k->plan);
    assert_int_equal(k->plan.findings, 1);
    assert_int_equal(k->plan.finding[0].about.part, PART_BATTER);
    assert_near(k->plan.portion[0].margin.nominal, k->plan.margin.nominal, 1e-12);
    assert_true(k->plan.portion[1].margin.nominal > k->plan.margin.nominal);
}

/* A carrier named after an oil of the recipe that only the maker's value is known of counts with that value. */
static void a_carrier_without_a_fact_is_found_among_the_oils(void **state)
{
    struct kitchen *k = exact_scale();

    (void)state;
    kitchen_own(k, "House blend", 200, 188, 190, 192);
    kitchen_plan(k);
    give_portion(k, 0, 0.5, NULL, 15, false);
    strcpy(k->recipe.portion[0].colourant[0].carrier_oil, "House blend");
    superfat_portions(&k->in, &k->plan);
    assert_near(k->plan.portion[0].margin.nominal, 1 - 0.95 * 100 / 115, 1e-5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CHECK(one_oil_of_a_narrow_range_has_the_closed_form),
        CHECK(one_oil_of_a_wide_range_has_the_closed_form),
        CHECK(two_oils_on_a_coarse_scale_have_the_worked_interval),
        CHECK(a_small_batch_on_a_coarse_scale_is_wide_by_its_weighings),
        CHECK(the_sample_recipe_has_its_published_figures),
        CHECK(accuracy_of_the_scales_widens_the_interval),
        CHECK(one_oil_on_two_lines_is_one_input),
        CHECK(a_scale_that_is_off_moves_all_of_its_weighings_together),
        CHECK(purity_that_is_wide_is_named),
        CHECK(ready_made_lye_is_uncertain_by_its_own_weighing),
        CHECK(what_is_said_about_lye_follows_superfat_and_purpose),
        CHECK(excess_alkali_is_a_stop_for_every_purpose),
        CHECK(carrier_oil_raises_the_superfat_of_its_part),
        CHECK(carriers_in_the_batter_count_in_its_superfat),
        CHECK(fat_and_acid_of_everything_count_in_the_superfat),
        CHECK(oil_kept_back_for_a_carrier_leaves_the_rest_lye_heavy),
        CHECK(portions_have_their_own_margin_and_are_named_where_worse),
        CHECK(a_portion_like_the_batter_is_not_named_again),
        CHECK(a_carrier_without_a_fact_is_found_among_the_oils),
    };

    return cmocka_run_group_tests_name("superfat", tests, NULL, NULL);
}
