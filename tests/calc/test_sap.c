/* Saponification values in use, and what there is to say about a maker's own. */
#include "kitchen.h"

#include "calc/constants.h"

static struct kitchen *own_value(const struct oil_fact *fact, double lo, double sap, double hi)
{
    struct kitchen *k = kitchen_new();

    kitchen_own(k, "Mill 7", 1000, lo, sap, hi);
    k->facts.oil[0] = fact;
    kitchen_plan(k);
    return k;
}

static void a_published_value_is_used_with_its_range(void **state)
{
    struct kitchen *k = kitchen_new();

    (void)state;
    kitchen_oil(k, &COCONUT, 1000);
    kitchen_plan(k);
    assert_near(k->plan.sap[0].lo, 248, 0);
    assert_near(k->plan.sap[0].nominal, 255, 0);
    assert_near(k->plan.sap[0].hi, 265, 0);
}

static void an_own_value_goes_before_the_published_one(void **state)
{
    struct kitchen *k = own_value(&OLIVE, 187, 189, 191);

    (void)state;
    assert_near(k->plan.sap[0].nominal, 189, 0);
    assert_near(k->plan.sap[0].hi, 191, 0);
    assert_null(kitchen_found(k, FINDING_SAP_NO_RANGE));
    assert_null(kitchen_found(k, FINDING_SAP_FAR));
}

/* 1 % either way: memory. */
static void an_own_value_without_a_range_gets_one_and_a_remark(void **state)
{
    struct kitchen *k = own_value(&OLIVE, 0, 190, 0);
    const struct finding *found = kitchen_found(k, FINDING_SAP_NO_RANGE);

    (void)state;
    assert_non_null(found);
    assert_int_equal(found->level, LEVEL_REMARK);
    assert_near(k->plan.sap[0].lo, 188.1, 1e-9);
    assert_near(k->plan.sap[0].hi, 191.9, 1e-9);
    assert_near(found->number[1], 188.1, 1e-9);
}

/* Olive 184 to 196: 5 % outside are 174.8 and 205.8. */
static void a_value_over_a_twentieth_outside_the_published_range_is_far(void **state)
{
    static const struct {
        double sap, outside;
        bool far;
    } worked[] = {{174.7, 9.3 / 184, true}, {174.9, 0, false}, {205.7, 0, false}, {206, 10 / 196.0, true}};

    (void)state;
    for (size_t i = 0; i < sizeof worked / sizeof worked[0]; i++) {
        const struct kitchen *k = own_value(&OLIVE, worked[i].sap, worked[i].sap, worked[i].sap);
        const struct finding *found = kitchen_found(k, FINDING_SAP_FAR);

        assert_int_equal(found != NULL, worked[i].far);
        if (!found)
            continue;
        assert_int_equal(found->level, LEVEL_CAUTION);
        assert_near(found->number[3], worked[i].outside, 1e-9);
        assert_near(k->plan.sap[0].nominal, worked[i].sap, 0);
    }
}

/* Trade tables give olive oil as about 0.1355 g NaOH or 0.190 g KOH per gram (the mg values times 40.00 / 56.11 /
 * 1000). */
static void a_value_in_grams_per_gram_is_a_stop_with_both_readings(void **state)
{
    struct kitchen *k = own_value(NULL, 0, 0.1355, 0);
    const struct finding *found = kitchen_found(k, FINDING_SAP_UNIT);

    (void)state;
    assert_non_null(found);
    assert_int_equal(found->level, LEVEL_STOP);
    assert_near(found->number[0], 0.1355, 0);
    assert_near(found->number[1], 135.5, 1e-9);
    assert_near(found->number[2], 190.07, 0.01);
    assert_near(k->plan.sap[0].nominal, 135.5, 1e-9);
    assert_null(kitchen_found(k, FINDING_SAP_NO_RANGE));

    k = own_value(&OLIVE, 0.18, 0.19, 0.20);
    assert_int_equal(kitchen_found(k, FINDING_SAP_UNIT)->level, LEVEL_STOP);
    assert_near(k->plan.sap[0].nominal, 190, 0);
    assert_near(k->plan.sap[0].lo, 184, 0);
}

static void a_value_like_mg_of_sodium_hydroxide_is_a_caution_unless_published(void **state)
{
    const struct finding *found;

    (void)state;
    found = kitchen_found(own_value(NULL, 134, 135.5, 137), FINDING_SAP_UNIT);
    assert_non_null(found);
    assert_int_equal(found->level, LEVEL_CAUTION);
    assert_near(found->number[2], 190.07, 0.01);
    assert_non_null(kitchen_found(own_value(&OLIVE, 134, 135.5, 137), FINDING_SAP_UNIT));
    assert_null(kitchen_found(own_value(&JOJOBA, 100, 101, 102), FINDING_SAP_UNIT));
    assert_null(kitchen_found(own_value(NULL, 90, 99, 100), FINDING_SAP_UNIT));
    assert_null(kitchen_found(own_value(NULL, 150, 151, 152), FINDING_SAP_UNIT));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CHECK(a_published_value_is_used_with_its_range),
        CHECK(an_own_value_goes_before_the_published_one),
        CHECK(an_own_value_without_a_range_gets_one_and_a_remark),
        CHECK(a_value_over_a_twentieth_outside_the_published_range_is_far),
        CHECK(a_value_in_grams_per_gram_is_a_stop_with_both_readings),
        CHECK(a_value_like_mg_of_sodium_hydroxide_is_a_caution_unless_published),
    };

    return cmocka_run_group_tests_name("saponification values", tests, NULL, NULL);
}
