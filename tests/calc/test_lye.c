/* Alkali that oils and acids ask for. Figures of each check were worked outside the program from the law named with
 * it. */
#include "kitchen.h"

#include "calc/constants.h"

/* mg KOH per g of a pure triglyceride or acid that takes up `moles` of hydroxide per mole (definition, ISO 3657). */
static double sap_of(double moles, double molar_mass)
{
    return moles * MOLAR_KOH * 1000 / molar_mass;
}

static double naoh_for(const char *name, double grams, double sap, double superfat)
{
    struct kitchen *k = kitchen_new();

    k->recipe.superfat = superfat;
    kitchen_own(k, name, grams, sap * 0.99, sap, sap * 1.01);
    return naoh_exact(kitchen_plan(k));
}

/* CIAAW standard atomic weights: 0.712888 g NaOH for a gram of KOH, 1.402746 the other way. */
static void the_alkalis_stand_in_the_ratio_of_their_molar_masses(void **state)
{
    (void)state;
    assert_near(MOLAR_NAOH / MOLAR_KOH, 0.712888, 1e-6);
    assert_near(MOLAR_KOH / MOLAR_NAOH, 1.402746, 1e-6);
}

/* Timberlake, Chemistry, 13th edition, problem 15.89c: 10.0 g tristearin take 67.3 mL of 0.500 mol/L NaOH. M
 * 891.501. */
static void tristearin_takes_the_alkali_of_the_textbook(void **state)
{
    (void)state;
    assert_near(sap_of(3, 891.501), 188.80, 0.05);
    assert_near(naoh_for("tristearin", 10, sap_of(3, 891.501), 0) / MOLAR_NAOH / 0.5 * 1000, 67.3, 0.2);
    assert_near(naoh_for("tristearin", 1000, sap_of(3, 891.501), 0), 134.59, 0.01);
}

/* A school textbook problem: 17.24 g of a triglyceride consume 0.060 mol NaOH, 2.40 g. */
static void a_textbook_fat_consumes_its_sodium_hydroxide(void **state)
{
    (void)state;
    assert_near(naoh_for("fat", 17.24, sap_of(0.060, 17.24), 0), 2.40, 0.01);
}

/* A public exercise on bars of pure sodium oleate: 405 g of soap want 392.6 g triolein (M 885.4) and 53.21 g NaOH. */
static void triolein_takes_the_alkali_of_the_exercise(void **state)
{
    (void)state;
    assert_near(naoh_for("triolein", 392.6, sap_of(3, 885.4), 0), 53.21, 0.05);
}

/* A textbook problem: tristearin with stearic acid, acid value 7, has an ester value of 182 and so a saponification
 * value of 189.1. The two parts are asked for here as two oils; M(stearic acid) 284.48. */
static void free_acid_counts_as_an_oil_with_its_own_value(void **state)
{
    double acid_share = 7 / sap_of(1, 284.48);
    struct kitchen *k = kitchen_new();

    (void)state;
    k->recipe.superfat = 0;
    kitchen_own(k, "tristearin", 1000 * (1 - acid_share), 188, sap_of(3, 891.501), 190);
    kitchen_own(k, "stearic acid", 1000 * acid_share, 196, sap_of(1, 284.48), 199);
    assert_near(naoh_exact(kitchen_plan(k)) / MOLAR_NAOH * MOLAR_KOH, 189.1, 0.3);
}

/* M(stearic acid) 284.48, one equivalent: 50 g take 7.030 g NaOH or 9.861 g KOH. */
static void stearic_acid_takes_one_equivalent(void **state)
{
    (void)state;
    assert_near(naoh_for("stearic acid", 50, sap_of(1, 284.48), 0), 7.030, 0.005);
    assert_near(naoh_for("stearic acid", 50, sap_of(1, 284.48), 0) / MOLAR_NAOH * MOLAR_KOH, 9.861, 0.005);
}

/* CXS 210-1999: coconut 248 to 265. At 257, 1000 g take 183.21 g NaOH or 257.00 g KOH; 174.05 g at a discount of 5
 * %. */
static void coconut_oil_takes_what_its_value_says(void **state)
{
    struct kitchen *k;

    (void)state;
    assert_near(naoh_for("coconut", 1000, 257, 0), 183.21, 0.05);
    assert_near(naoh_for("coconut", 1000, 257, 0.05), 174.05, 0.05);
    k = kitchen_new();
    k->recipe.superfat = 0;
    k->recipe.alkali.potassium_share = 1;
    kitchen_own(k, "coconut", 1000, 248, 257, 265);
    kitchen_plan(k);
    assert_near(koh_exact(&k->plan), 257.00, 0.05);
    assert_int_equal(k->plan.alkali[ALKALI_NAOH].alkali.division_ug, 0);
}

/* Pure over purity: 174.05 g as 98 % NaOH are 177.60 g; 244.15 g as 90 % KOH are 271.28 g. */
static void impure_alkali_is_weighed_with_its_impurity(void **state)
{
    struct kitchen *k = kitchen_new();

    (void)state;
    k->recipe.alkali.purity[ALKALI_NAOH] = (struct ranged){true, 0.98, 0.98, 0.98};
    kitchen_own(k, "coconut", 1000, 248, 257, 265);
    assert_near(naoh_exact(kitchen_plan(k)), 177.60, 0.05);

    k = kitchen_new();
    k->recipe.alkali.potassium_share = 1;
    k->recipe.alkali.purity[ALKALI_KOH] = (struct ranged){true, 0.90, 0.90, 0.90};
    kitchen_own(k, "coconut", 1000, 248, 257, 265);
    assert_near(koh_exact(kitchen_plan(k)), 271.28, 0.05);
}

/* Common practice: sodium hydroxide as sold is taken as pure, potassium hydroxide as 90 %. */
static void purity_not_given_is_that_of_practice(void **state)
{
    struct kitchen *k = kitchen_new();

    (void)state;
    k->recipe.alkali.purity[ALKALI_NAOH] = k->recipe.alkali.purity[ALKALI_KOH] = (struct ranged){0};
    kitchen_oil(k, &OLIVE, 1000);
    kitchen_plan(k);
    assert_near(k->plan.purity[ALKALI_NAOH].nominal, 1, 0);
    assert_near(k->plan.purity[ALKALI_NAOH].lo, 0.985, 0);
    assert_near(k->plan.purity[ALKALI_KOH].nominal, 0.9, 0);
    assert_near(k->plan.purity[ALKALI_KOH].hi, 0.95, 0);
}

/* 60:40 by moles, 1000 g oils of 195, 5 %, KOH of 90 %: 79.24 g NaOH, 74.10 g pure KOH, 82.33 g flake. */
static void two_alkalis_share_the_fat_by_moles(void **state)
{
    struct kitchen *k = kitchen_new();

    (void)state;
    k->recipe.alkali.potassium_share = 0.4;
    k->recipe.alkali.purity[ALKALI_KOH] = (struct ranged){true, 0.90, 0.90, 0.90};
    kitchen_own(k, "oils", 1000, 190, 195, 200);
    kitchen_plan(k);
    assert_near(naoh_exact(&k->plan), 79.24, 0.05);
    assert_near(koh_exact(&k->plan), 82.33, 0.05);
    assert_near(koh_exact(&k->plan) * 0.9, 74.10, 0.05);
}

/* NaOH that an additive adds to a recipe, at 0 and at 5 % superfat: acid takes up alkali whole, superfat is of the
 * oils only. */
static void check_acid(const struct additive_fact *fact, double grams, double naoh_g)
{
    for (int i = 0; i < 2; i++) {
        struct kitchen *k = kitchen_new();
        double without;

        k->recipe.superfat = 0.05 * i;
        kitchen_oil(k, &OLIVE, 1000);
        without = naoh_exact(kitchen_plan(k));
        kitchen_additive(k, fact, grams);
        assert_near(naoh_exact(kitchen_plan(k)) - without, naoh_g, 0.005);
        assert_near(k->plan.acid_mol, naoh_g / MOLAR_NAOH, 1e-3);
    }
}

/* Molar masses CIAAW, equivalents 3, 3, 1, 1; lactic acid weighed as 80 % (24.12 g of pure acid make 30 g of
 * lactate). */
static void acids_take_up_their_equivalents_whatever_the_superfat(void **state)
{
    (void)state;
    check_acid(&CITRIC, 20, 12.491);
    check_acid(&CITRIC_MONOHYDRATE, 20, 11.420);
    check_acid(&LACTIC, 24.12 / 0.8, 10.71);
    check_acid(&BICARBONATE, 10, 4.761);
}

static void an_additive_of_the_oils_follows_them(void **state)
{
    struct kitchen *k = kitchen_new();

    (void)state;
    kitchen_oil(k, &OLIVE, 2000);
    kitchen_additive(k, &CITRIC, 0);
    k->recipe.additive[0] = (struct recipe_additive){.by = ADDITIVE_OF_OILS, .value = 0.01};
    kitchen_plan(k);
    assert_int_equal(k->plan.additive[0].additive.rounded_ug, 20000000);
    assert_near(k->plan.additive[0].acid_mol, 3 * 20 / 192.123, 1e-9);
}

/* By hand: 100 g of powder with 28 % fat of 190 add 28 * 190 / 1000 / 56.1053 mol, less 5 %. */
static void fat_in_an_additive_asks_for_alkali(void **state)
{
    struct kitchen *k = kitchen_new();
    double without;

    (void)state;
    kitchen_oil(k, &OLIVE, 1000);
    without = naoh_exact(kitchen_plan(k));
    kitchen_additive(k, &MILK_POWDER, 100);
    k->facts.additive_fat[0] = &OLIVE;
    assert_near(naoh_exact(kitchen_plan(k)) - without, 0.95 * 28 * 190 / 1000 / MOLAR_KOH * MOLAR_NAOH, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CHECK(the_alkalis_stand_in_the_ratio_of_their_molar_masses),
        CHECK(tristearin_takes_the_alkali_of_the_textbook),
        CHECK(a_textbook_fat_consumes_its_sodium_hydroxide),
        CHECK(triolein_takes_the_alkali_of_the_exercise),
        CHECK(free_acid_counts_as_an_oil_with_its_own_value),
        CHECK(stearic_acid_takes_one_equivalent),
        CHECK(coconut_oil_takes_what_its_value_says),
        CHECK(impure_alkali_is_weighed_with_its_impurity),
        CHECK(purity_not_given_is_that_of_practice),
        CHECK(two_alkalis_share_the_fat_by_moles),
        CHECK(acids_take_up_their_equivalents_whatever_the_superfat),
        CHECK(an_additive_of_the_oils_follows_them),
        CHECK(fat_in_an_additive_asks_for_alkali),
    };

    return cmocka_run_group_tests_name("lye", tests, NULL, NULL);
}
