/* A batch on the bench: its steps, its readings, and what is never let by. Recipes are the demo's. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/mass.h"
#include "kitchen_bench.h"

static double nominal(const struct run *run)
{
    return run_charged(run)->margin.nominal;
}

static int first_of(const struct run *run, enum step_kind kind)
{
    const struct batch *batch = run_batch(run);

    for (int i = 0; i < batch->steps; i++)
        if (batch->step[i].step.kind == kind)
            return i;
    return -1;
}

/* Common practice: dissolve first, so that the lye cools while the oils melt; split, then colour, then stand, then pipe. */
static void the_steps_come_in_the_order_of_the_trade(void **state)
{
    static const enum step_kind order[] = {STEP_LAY_OUT,   STEP_WEIGH,   STEP_DISSOLVE,  STEP_COOL,     STEP_MELT,
                                           STEP_JUG_CHECK, STEP_COMBINE, STEP_EMULSIFY,  STEP_POUR_OUT, STEP_STAYS,
                                           STEP_COLOUR,    STEP_STAND,   STEP_FILL_BAGS, STEP_PIPE,     STEP_CHILL,
                                           STEP_RECOUNT,   STEP_CURE};
    struct run *run = kitchen_start(*state, BLOSSOMS);

    for (size_t i = 1; i < sizeof order / sizeof *order; i++) {
        assert_true(first_of(run, order[i]) > first_of(run, order[i - 1]));
        assert_true(first_of(run, order[i - 1]) >= 0);
    }
    run_free(run);
}

static void oils_come_first_for_a_maker_who_likes_it_so(void **state)
{
    struct run_choice choice = kitchen_choice(*state, BLOSSOMS);
    struct kitchen *kitchen = *state;
    struct lw_error error;
    struct run *run;
    int64_t id;

    choice.order = ORDER_OILS_FIRST;
    if (run_start(kitchen->workshop, &choice, &id, &error) != LW_OK)
        fail_msg("%s", error.text);
    run = kitchen_open(kitchen, id);
    assert_true(first_of(run, STEP_MELT) < first_of(run, STEP_DISSOLVE));
    assert_true(first_of(run, STEP_DISSOLVE) < first_of(run, STEP_COMBINE));
    run_free(run);
}

static bool make_one(void *context, const struct recipe_line *line)
{
    struct kitchen *kitchen = context;
    struct run *run = kitchen_start(kitchen, line->name);
    struct lw_error error = {""};

    while (run_at(run) >= 0)
        kitchen_step(kitchen, run);
    assert_true(run_batch(run)->combined_s > 0);
    assert_true(fabs(nominal(run) - run_planned(run)->plan->margin.nominal) < 0.005);
    for (int i = 0; i < QUESTIONS; i++) {
        assert_int_equal(run_answered(run), i);
        assert_int_equal(run_answer(run, &kitchen->now, i, 1, &error), LW_OK);
    }
    assert_int_equal(run_finish(run, &kitchen->now, &error), LW_OK);
    assert_int_equal(run_save(run, &error), LW_OK);
    run_free(run);
    return true;
}

static void every_recipe_of_the_demo_is_made_from_laying_out_to_the_last_question(void **state)
{
    struct kitchen *kitchen = *state;
    struct lw_error error;

    assert_int_equal(
        recipes_each(workshop_store(kitchen->workshop), "", false, RECIPES_BY_NAME, make_one, kitchen, &error), LW_OK);
    scratch_verify(workshop_store(kitchen->workshop));
}

static void alkali_is_neither_skipped_nor_put_off_nor_taken_without_a_reading(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    while (kitchen_at(run)->what.part != PART_ALKALI)
        kitchen_step(kitchen, run);
    assert_true(kitchen_asked(kitchen, run).typed);
    assert_true(kitchen_asked(kitchen, run).safety);
    kitchen_refuses(run_skip(run, &kitchen->now, &error), &error, "Alkali is never skipped");
    kitchen_refuses(run_done(run, &kitchen->now, &error), &error, "Type what the scale reads");
    kitchen_refuses(run_later(run, &kitchen->now, &error), &error, "has to come before");
    kitchen_refuses(run_combine(run, &kitchen->now, 35, 35, &error), &error, "not the step at hand");
    run_free(run);
}

static void no_way_leads_to_combining_before_everything_is_weighed(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    /* Put off whatever can be, and skip it where it cannot: combining is never at hand with alkali to weigh. */
    for (int i = 0; i < 300 && run_at(run) >= 0; i++) {
        if (kitchen_at(run)->kind == STEP_COMBINE) {
            enum lw_status status = run_combine(run, &kitchen->now, NAN, NAN, &error);

            assert_int_equal(status, LW_INVALID);
            break;
        }
        if (run_later(run, &kitchen->now, &error) == LW_OK && i < 100)
            continue;
        if (run_skip(run, &kitchen->now, &error) == LW_OK)
            continue;
        break;
    }
    assert_int_equal(run_batch(run)->combined_s, 0);
    run_free(run);
}

/* With all else as planned, superfat = 1 - (1 - s) * alkali / planned alkali: from its definition. */
static void what_is_lye_heavy_as_weighed_is_not_combined(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    double planned_g = mass_g(run_planned(run)->plan->alkali[ALKALI_NAOH].alkali.rounded_ug);
    double planned = run_planned(run)->plan->margin.nominal;
    struct lw_error error;

    while (kitchen_at(run)->what.part != PART_ALKALI)
        kitchen_step(kitchen, run);
    kitchen_weigh(kitchen, run, mass_ug(29.31));
    assert_true(fabs(nominal(run) - (1 - (1 - planned) * 29.31 / planned_g)) < 1e-9);
    kitchen_until(kitchen, run, STEP_COMBINE);
    kitchen_refuses(run_combine(run, &kitchen->now, 35, 35, &error), &error, "would be lye-heavy");
    kitchen_refuses(run_done(run, &kitchen->now, &error), &error, "would be lye-heavy");
    kitchen_refuses(run_skip(run, &kitchen->now, &error), &error, "cannot be skipped");
    assert_int_equal(run_batch(run)->combined_s, 0);
    run_free(run);
}

static void an_oil_that_is_skipped_is_not_in_the_batch(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    while (kitchen_at(run)->what.part != PART_OIL)
        kitchen_step(kitchen, run);
    assert_int_equal(run_skip(run, &kitchen->now, &error), LW_OK); /* 91.20 g of olive oil, nearly half of all */
    assert_true(nominal(run) < -0.5);
    kitchen_until(kitchen, run, STEP_COMBINE);
    kitchen_refuses(run_combine(run, &kitchen->now, 35, 35, &error), &error, "would be lye-heavy");
    run_free(run);
}

static void what_was_weighed_short_of_water_is_not_combined(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    while (kitchen_at(run)->what.part != PART_WATER)
        kitchen_step(kitchen, run);
    kitchen_weigh(kitchen, run, mass_ug(20.00)); /* 26.31 of 46.31 g is 57 %; 52.2 % dissolve at 20 C */
    kitchen_until(kitchen, run, STEP_COMBINE);
    kitchen_refuses(run_combine(run, &kitchen->now, 35, 35, &error), &error, "more than dissolves");
    run_free(run);
}

static void readings_run_on_what_was_weighed(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);

    while (kitchen_at(run)->what.part != PART_OIL)
        kitchen_step(kitchen, run);
    assert_int_equal(kitchen_asked(kitchen, run).reading_ug, mass_ug(91.20));
    kitchen_weigh(kitchen, run, mass_ug(91.70));
    assert_int_equal(kitchen_asked(kitchen, run).before_ug, mass_ug(91.70));
    assert_int_equal(kitchen_asked(kitchen, run).reading_ug, mass_ug(91.70 + 41.80));
    run_free(run);
}

static void a_vessel_that_is_known_stands_on_the_scale_with_what_is_in_it(void **state)
{
    struct kitchen *kitchen = *state;
    struct settings settings = *workshop_settings(kitchen->workshop);
    struct run_choice choice;
    struct lw_error error;
    struct run *run;
    int64_t id;

    settings.vessels = 1;
    settings.vessel[0] = (struct vessel){.name = "jug B", .empty_ug = mass_ug(212)};
    assert_int_equal(workshop_set(kitchen->workshop, &settings, &error), LW_OK);
    choice = kitchen_choice(kitchen, "Quince Orchard base");
    choice.jug = 0;
    if (run_start(kitchen->workshop, &choice, &id, &error) != LW_OK)
        fail_msg("%s", error.text);
    run = kitchen_open(kitchen, id);
    while (kitchen_at(run)->what.part != PART_OIL)
        kitchen_step(kitchen, run);
    assert_int_equal(kitchen_asked(kitchen, run).before_ug, mass_ug(212));
    assert_int_equal(kitchen_asked(kitchen, run).reading_ug, mass_ug(212) + run_planned(run)->plan->oil[0].rounded_ug);
    assert_non_null(strstr(kitchen_asked(kitchen, run).explain, "jug B 212 g"));
    run_free(run);
}

static void a_reading_that_was_tared_before_is_taken_as_what_went_in(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);

    while (kitchen_at(run)->what.part != PART_OIL)
        kitchen_step(kitchen, run);
    kitchen_weigh(kitchen, run, mass_ug(91.20));
    kitchen_weigh(kitchen, run, mass_ug(41.80)); /* 133.00 with what is in the jug */
    assert_int_equal(run_batch(run)->charges.oil[1].mass_ug, mass_ug(41.80));
    assert_int_equal(kitchen_asked(kitchen, run).before_ug, mass_ug(133.00));
    run_free(run);
}

static void a_reading_beyond_the_scale_or_below_nothing_is_refused(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct judgement judgement;
    struct lw_error error;

    while (kitchen_at(run)->what.part != PART_ALKALI)
        kitchen_step(kitchen, run);
    kitchen_refuses(run_judge(run, mass_ug(200.01), &judgement, &error), &error, "more than the scale holds");
    kitchen_refuses(run_judge(run, -1, &judgement, &error), &error, "does not read below 0");
    run_free(run);
}

static void what_is_a_little_off_is_fine_and_what_is_further_off_is_told(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct judgement judgement;
    struct lw_error error;

    while (kitchen_at(run)->what.part != PART_ALKALI)
        kitchen_step(kitchen, run);
    assert_int_equal(run_judge(run, mass_ug(26.40), &judgement, &error), LW_OK);
    assert_true(judgement.fine);
    assert_int_equal(run_judge(run, mass_ug(29.31), &judgement, &error), LW_OK);
    assert_false(judgement.fine);
    assert_non_null(strstr(judgement.what, "3.00 g more than it should be"));
    assert_non_null(strstr(judgement.what, "Superfat would be -5.8"));
    assert_int_equal(run_batch(run)->charges.alkali[ALKALI_NAOH].has, false); /* looked at, not recorded */
    run_free(run);
}

static void a_number_meant_for_the_other_batch_is_known(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *base = kitchen_start(kitchen, "Quince Orchard base"), *run = kitchen_start(kitchen, BLOSSOMS);
    int64_t other = run_planned(base)->plan->alkali[ALKALI_NAOH].alkali.rounded_ug;
    struct judgement judgement;
    struct lw_error error;

    while (kitchen_at(run)->what.part != PART_ALKALI)
        kitchen_step(kitchen, run);
    assert_int_equal(run_judge(run, other, &judgement, &error), LW_OK);
    assert_int_equal(judgement.slip.kind, SLIP_OTHER_BATCH);
    assert_non_null(strstr(judgement.what, "Quince Orchard base"));
    run_free(run);
    run_free(base);
}

static void portions_to_pour_follow_what_was_poured(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    int64_t leaves;

    kitchen_until(kitchen, run, STEP_POUR_OUT);
    leaves = run_planned(run)->plan->portion[2].batter_ug;
    assert_int_equal(kitchen_asked(kitchen, run).target_ug, run_planned(run)->plan->portion[1].batter_ug);
    kitchen_weigh(kitchen, run,
                  kitchen_asked(kitchen, run).reading_ug + mass_ug(10)); /* 10 g too much of the centres */
    /* Petals and leaves, 64 to 25, share what is left: leaves lose 25/89 of the 10 g. */
    assert_true(llabs(kitchen_asked(kitchen, run).target_ug - (leaves - mass_ug(10.0 * 25 / 89))) <= mass_ug(0.01));
    run_free(run);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, kitchen_setup, kitchen_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(the_steps_come_in_the_order_of_the_trade),
        TEST(oils_come_first_for_a_maker_who_likes_it_so),
        TEST(every_recipe_of_the_demo_is_made_from_laying_out_to_the_last_question),
        TEST(alkali_is_neither_skipped_nor_put_off_nor_taken_without_a_reading),
        TEST(no_way_leads_to_combining_before_everything_is_weighed),
        TEST(what_is_lye_heavy_as_weighed_is_not_combined),
        TEST(an_oil_that_is_skipped_is_not_in_the_batch),
        TEST(what_was_weighed_short_of_water_is_not_combined),
        TEST(readings_run_on_what_was_weighed),
        TEST(a_vessel_that_is_known_stands_on_the_scale_with_what_is_in_it),
        TEST(a_reading_that_was_tared_before_is_taken_as_what_went_in),
        TEST(a_reading_beyond_the_scale_or_below_nothing_is_refused),
        TEST(what_is_a_little_off_is_fine_and_what_is_further_off_is_told),
        TEST(a_number_meant_for_the_other_batch_is_known),
        TEST(portions_to_pour_follow_what_was_poured),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
