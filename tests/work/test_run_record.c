/* Putting right at the bench, and the record that alone says where a batch stands. Recipes are the demo's. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/mass.h"
#include "base/text.h"
#include "kitchen_bench.h"

static double nominal(const struct run *run)
{
    return run_charged(run)->margin.nominal;
}

static void alkali_over_in_its_cup_is_spooned_back_and_all_is_as_planned(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct remedy remedies[REMEDIES];
    struct words words[REMEDIES];
    struct part_ref alkali = {PART_ALKALI, ALKALI_NAOH, 0};
    struct lw_error error;
    int n, out = -1;

    while (kitchen_at(run)->what.part != PART_ALKALI)
        kitchen_step(kitchen, run);
    kitchen_weigh(kitchen, run, mass_ug(29.31));
    n = run_remedies(run, alkali, remedies, words);
    for (int i = 0; i < n && out < 0; i++)
        if (remedies[i].kind == REMEDY_TAKE_OUT)
            out = i;
    assert_true(out >= 0);
    assert_int_equal(remedies[out].mass_ug, mass_ug(3.00));
    assert_int_equal(run_put_right(run, &kitchen->now, &remedies[out], words[out].what, &error), LW_OK);
    assert_int_equal(kitchen_at(run)->kind, STEP_PUT_RIGHT);
    assert_int_equal(kitchen_asked(kitchen, run).reading_ug, mass_ug(26.31)); /* what then is in the cup */
    assert_true(kitchen_asked(kitchen, run).typed);
    kitchen_step(kitchen, run);
    assert_int_equal(run_batch(run)->charges.alkali[ALKALI_NAOH].mass_ug, mass_ug(26.31));
    assert_true(fabs(nominal(run) - run_planned(run)->plan->margin.nominal) < 1e-9);
    kitchen_until(kitchen, run, STEP_EMULSIFY);
    assert_true(run_batch(run)->combined_s > 0);
    run_free(run);
}

static bool says(const struct ask *ask, const char *text)
{
    for (int i = 0; i < ask->lines; i++)
        if (strstr(ask->line[i], text))
            return true;
    return false;
}

/* 29.31 g of alkali in 58.57 g of water, for the oils that 26.31 g were meant for: about nine tenths of it go in. */
static void of_a_lye_that_is_too_much_only_the_right_share_is_poured(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct part_ref alkali = {PART_ALKALI, ALKALI_NAOH, 0};
    struct remedy remedies[REMEDIES];
    struct lw_error error;
    struct ask ask;
    int n, share = -1;

    while (kitchen_at(run)->what.part != PART_ALKALI)
        kitchen_step(kitchen, run);
    kitchen_weigh(kitchen, run, mass_ug(29.31));
    kitchen_until(kitchen, run, STEP_COMBINE);
    n = run_remedies(run, alkali, remedies, NULL);
    for (int i = 0; i < n && share < 0; i++)
        if (remedies[i].kind == REMEDY_POUR_SHARE)
            share = i;
    assert_true(share >= 0);
    assert_int_equal(run_put_right(run, &kitchen->now, &remedies[share], "pour the share", &error), LW_OK);
    assert_true(nominal(run) < 0); /* said, but not done yet */
    assert_true(kitchen_asked(kitchen, run).typed);
    assert_int_equal(run_combine(run, &kitchen->now, 35, 35, &error), LW_INVALID);
    kitchen_step(kitchen, run);
    assert_true(nominal(run) > 0.049 && nominal(run) < 0.055);
    ask = kitchen_asked(kitchen, run);
    assert_true(says(&ask, "Pour only"));
    assert_int_equal(run_combine(run, &kitchen->now, 35, 35, &error), LW_OK);
    run_free(run);
}

static void steps_that_colour_and_scent_name_their_doses(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, "Quince Orchard base");
    struct ask ask;

    kitchen_until(kitchen, run, STEP_COLOUR);
    ask = kitchen_asked(kitchen, run);
    assert_true(says(&ask, "Titanium dioxide, "));
    kitchen_until(kitchen, run, STEP_SCENT);
    ask = kitchen_asked(kitchen, run);
    assert_true(says(&ask, "Lavender"));
    run_free(run);
}

static void oil_found_out_to_be_forgotten_is_added_while_the_batter_is_whole(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct part_ref castor = {PART_OIL, 3, 0};
    struct remedy remedies[REMEDIES];
    struct lw_error error;
    int n, add = -1;

    kitchen_until(kitchen, run, STEP_EMULSIFY);
    assert_int_equal(run_correct(run, &kitchen->now, castor, 0, &error), LW_OK);
    assert_true(nominal(run) < 0);
    n = run_remedies(run, castor, remedies, NULL);
    for (int i = 0; i < n && add < 0; i++)
        if (remedies[i].kind == REMEDY_ADD || remedies[i].kind == REMEDY_ADD_OIL)
            add = i;
    assert_true(add >= 0);
    assert_int_equal(run_put_right(run, &kitchen->now, &remedies[add], "add it", &error), LW_OK);
    assert_int_equal(kitchen_at(run)->kind, STEP_PUT_RIGHT);
    kitchen_step(kitchen, run);
    assert_true(nominal(run) > 0.04);
    run_free(run);
}

/* 120 typed for 128: what was to be added for it must not be added once the right reading is in. */
static void what_was_to_be_put_right_goes_with_the_reading_that_was_wrong(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct part_ref alkali = {PART_ALKALI, ALKALI_NAOH, 0};
    struct remedy remedies[REMEDIES];
    struct lw_error error;
    char echo[256];
    int n, add = -1;

    while (kitchen_at(run)->what.part != PART_ALKALI)
        kitchen_step(kitchen, run);
    kitchen_weigh(kitchen, run, mass_ug(22.00));
    n = run_remedies(run, alkali, remedies, NULL);
    for (int i = 0; i < n && add < 0; i++)
        if (remedies[i].kind == REMEDY_ADD)
            add = i;
    assert_true(add >= 0);
    assert_int_equal(run_put_right(run, &kitchen->now, &remedies[add], "add", &error), LW_OK);
    assert_int_equal(kitchen_at(run)->kind, STEP_PUT_RIGHT);
    assert_int_equal(run_back(run, &kitchen->now, echo, sizeof echo, &error), LW_OK);
    assert_int_equal(kitchen_at(run)->kind, STEP_WEIGH);
    kitchen_weigh(kitchen, run, mass_ug(26.31));
    assert_int_equal(kitchen_at(run)->kind, STEP_DISSOLVE);
    assert_int_equal(run_back(run, &kitchen->now, echo, sizeof echo, &error), LW_OK);
    assert_int_equal(kitchen_at(run)->kind, STEP_WEIGH); /* and does not come back with the next one */
    run_free(run);
}

static void a_jug_that_does_not_fit_is_not_combined(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct part_ref castor = {PART_OIL, 3, 0};
    struct lw_error error;

    kitchen_until(kitchen, run, STEP_JUG_CHECK);
    kitchen_weigh(kitchen, run, mass_ug(174.80)); /* without the 15.20 g of castor oil */
    kitchen_refuses(run_combine(run, &kitchen->now, 35, 35, &error), &error, "by its weighings it should be");
    kitchen_refuses(run_correct(run, &kitchen->now, castor, mass_ug(99999), &error), &error, "more than any scale");
    assert_int_equal(run_correct(run, &kitchen->now, castor, 0, &error), LW_OK);
    kitchen_refuses(run_combine(run, &kitchen->now, 35, 35, &error), &error, "lye-heavy");
    run_free(run);
}

static void what_is_combined_can_not_be_taken_back(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    char echo[256];
    struct lw_error error;

    kitchen_until(kitchen, run, STEP_EMULSIFY);
    kitchen_refuses(run_back(run, &kitchen->now, echo, sizeof echo, &error), &error, "stays combined");
    run_free(run);
}

static void a_reading_taken_back_is_asked_again_and_stays_in_the_record(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    char echo[256];
    struct lw_error error;
    int64_t events;

    while (kitchen_at(run)->what.part != PART_OIL)
        kitchen_step(kitchen, run);
    kitchen_weigh(kitchen, run, mass_ug(9.12));
    events = run_batch(run)->last_event;
    assert_int_equal(run_back(run, &kitchen->now, echo, sizeof echo, &error), LW_OK);
    assert_non_null(strstr(echo, "Olive oil"));
    assert_int_equal(kitchen_at(run)->what.part, PART_OIL);
    assert_int_equal(kitchen_at(run)->what.index, 0);
    assert_false(run_batch(run)->charges.oil[0].has);
    assert_int_equal(run_batch(run)->last_event, events + 1);
    assert_int_equal(kitchen_asked(kitchen, run).before_ug, 0);
    run_free(run);
}

/* Saved after each step and opened again, as after kill -9: the state is the same. */
static void opened_again_it_stands_where_it_was(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, "Quince Orchard base");

    for (int i = 0; run_at(run) >= 0; i++) {
        struct run *again;
        int64_t id = run_batch(run)->head.id;

        if (i % 5 == 0)
            kitchen_reopen(kitchen);
        again = kitchen_open(kitchen, id);
        kitchen_same(again, run);
        run_free(run);
        run = again;
        kitchen_step(kitchen, run);
    }
    run_free(run);
}

static void what_a_recipe_shelf_and_settings_become_later_does_not_touch_it(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS), *later;
    struct settings settings = *workshop_settings(kitchen->workshop);
    struct oil_fact own = *facts_oil("olive");
    struct change change = {.part = CHANGE_HEAD, .kind = CHANGE_REPLACE};
    struct recipe recipe;
    struct lw_error error;
    int64_t version, id = run_batch(run)->head.id, recipe_id = run_batch(run)->head.recipe_id;

    own.key = own.name = "olive";
    own.sap_lo = own.sap_nominal = own.sap_hi = 150;
    assert_int_equal(shelf_put_oil(workshop_store(kitchen->workshop), &own, &kitchen->now, &error), LW_OK);
    settings.scales = 1;
    settings.scale[0].division_ug = mass_ug(5);
    settings.mass_unit = MASS_LB;
    assert_int_equal(workshop_set(kitchen->workshop, &settings, &error), LW_OK);
    assert_int_equal(recipes_load(workshop_store(kitchen->workshop), recipe_id, 0, &recipe, &version, &error), LW_OK);
    recipe_head_read(&recipe, &change.before.head);
    change.after = change.before;
    change.after.head.superfat = 0.2;
    assert_int_equal(
        recipes_save(workshop_store(kitchen->workshop), recipe_id, &version, &change, 1, &kitchen->now, &error), LW_OK);
    kitchen_reopen(kitchen);
    later = kitchen_open(kitchen, id);
    kitchen_same(later, run);
    assert_true(run_planned(later)->plan->demand_mol == run_planned(run)->plan->demand_mol);
    assert_true(run_planned(later)->plan->margin.worst.lo == run_planned(run)->plan->margin.worst.lo);
    assert_int_equal(run_settings(later)->mass_unit, MASS_G);
    run_free(later);
    run_free(run);
}

static void two_windows_on_one_batch_lose_nothing_of_either(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *one = kitchen_start(kitchen, BLOSSOMS), *two = kitchen_open(kitchen, run_batch(one)->head.id);
    struct lw_error error;

    assert_int_equal(run_note(one, &kitchen->now, "from the first", &error), LW_OK);
    assert_int_equal(run_timer(two, &kitchen->now, "tea", 600, 0, &error), LW_OK);
    assert_int_equal(run_timer_off(two, &kitchen->now, run_batch(two)->timer[0].event, &error), LW_OK);
    assert_int_equal(run_timer(two, &kitchen->now, "bread", 900, 0, &error), LW_OK);
    assert_int_equal(run_save(one, &error), LW_OK);
    assert_int_equal(run_save(two, &error), LW_OK);
    assert_int_equal(run_batch(two)->timers, 1); /* what names another event still names that one */
    assert_string_equal(run_batch(two)->timer[0].name, "bread");
    assert_true(run_refresh(one, &error));
    kitchen_same(one, two);
    assert_int_equal(run_batch(one)->last_event, 4);
    run_free(one);
    run_free(two);
}

static void a_recipe_with_a_stop_is_not_started(void **state)
{
    struct kitchen *kitchen = *state;
    struct run_choice choice = kitchen_choice(kitchen, BLOSSOMS);
    struct change change = {.part = CHANGE_HEAD, .kind = CHANGE_REPLACE};
    struct recipe recipe;
    struct lw_error error;
    int64_t version, id;

    assert_int_equal(recipes_load(workshop_store(kitchen->workshop), choice.recipe_id, 0, &recipe, &version, &error),
                     LW_OK);
    recipe_head_read(&recipe, &change.before.head);
    change.after = change.before;
    change.after.head.water_value = 0.55; /* no more than 52.2 % dissolves at 20 C */
    assert_int_equal(
        recipes_save(workshop_store(kitchen->workshop), choice.recipe_id, &version, &change, 1, &kitchen->now, &error),
        LW_OK);
    kitchen_refuses(run_start(kitchen->workshop, &choice, &id, &error), &error, "55 %");
    text_copy(choice.reason, sizeof choice.reason, "I know better");
    kitchen_refuses(run_start(kitchen->workshop, &choice, &id, &error), &error, "55 %");
}

static void a_caution_about_lye_wants_a_reason_and_keeps_it(void **state)
{
    struct kitchen *kitchen = *state;
    struct run_choice choice = kitchen_choice(kitchen, BLOSSOMS);
    struct change change = {.part = CHANGE_HEAD, .kind = CHANGE_REPLACE};
    struct recipe recipe;
    struct lw_error error;
    struct run *run;
    int64_t version, id;

    assert_int_equal(recipes_load(workshop_store(kitchen->workshop), choice.recipe_id, 0, &recipe, &version, &error),
                     LW_OK);
    recipe_head_read(&recipe, &change.before.head);
    change.after = change.before;
    change.after.head.superfat = 0.005;
    assert_int_equal(
        recipes_save(workshop_store(kitchen->workshop), choice.recipe_id, &version, &change, 1, &kitchen->now, &error),
        LW_OK);
    assert_int_equal(run_start(kitchen->workshop, &choice, &id, &error), LW_INVALID);
    text_copy(choice.reason, sizeof choice.reason, "certificate on the shelf");
    if (run_start(kitchen->workshop, &choice, &id, &error) != LW_OK)
        fail_msg("%s", error.text);
    run = kitchen_open(kitchen, id);
    assert_int_equal(run_batch(run)->last_event, 1);
    run_free(run);
}

static void batch_numbers_follow_the_pattern_and_begin_anew_with_the_year(void **state)
{
    struct kitchen *kitchen = *state;
    struct settings settings = *workshop_settings(kitchen->workshop);
    struct run_choice choice;
    struct lw_error error;

    text_copy(settings.batch_pattern, sizeof settings.batch_pattern, "Q%y-###");
    assert_int_equal(workshop_set(kitchen->workshop, &settings, &error), LW_OK);
    run_free(kitchen_start(kitchen, BLOSSOMS));
    run_free(kitchen_start(kitchen, BLOSSOMS));
    choice = kitchen_choice(kitchen, BLOSSOMS);
    assert_string_equal(choice.number, "Q26-003");
    kitchen_wait(kitchen, 365 * 86400);
    choice = kitchen_choice(kitchen, BLOSSOMS);
    assert_string_equal(choice.number, "Q27-001");
}

static void a_batch_is_made_at_the_size_that_was_asked(void **state)
{
    struct kitchen *kitchen = *state;
    struct run_choice choice = kitchen_choice(kitchen, BLOSSOMS);
    struct lw_error error;
    struct run *run;
    int64_t id;

    choice.size = (struct plan_size){PLAN_SIZE_OILS, 300};
    if (run_start(kitchen->workshop, &choice, &id, &error) != LW_OK)
        fail_msg("%s", error.text);
    run = kitchen_open(kitchen, id);
    assert_int_equal(run_planned(run)->plan->oils_ug, mass_ug(300));
    run_free(run);
    choice.size.grams = -1;
    assert_int_equal(run_start(kitchen->workshop, &choice, &id, &error), LW_INVALID);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, kitchen_setup, kitchen_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(alkali_over_in_its_cup_is_spooned_back_and_all_is_as_planned),
        TEST(of_a_lye_that_is_too_much_only_the_right_share_is_poured),
        TEST(steps_that_colour_and_scent_name_their_doses),
        TEST(oil_found_out_to_be_forgotten_is_added_while_the_batter_is_whole),
        TEST(what_was_to_be_put_right_goes_with_the_reading_that_was_wrong),
        TEST(a_jug_that_does_not_fit_is_not_combined),
        TEST(what_is_combined_can_not_be_taken_back),
        TEST(a_reading_taken_back_is_asked_again_and_stays_in_the_record),
        TEST(opened_again_it_stands_where_it_was),
        TEST(what_a_recipe_shelf_and_settings_become_later_does_not_touch_it),
        TEST(two_windows_on_one_batch_lose_nothing_of_either),
        TEST(a_recipe_with_a_stop_is_not_started),
        TEST(a_caution_about_lye_wants_a_reason_and_keeps_it),
        TEST(batch_numbers_follow_the_pattern_and_begin_anew_with_the_year),
        TEST(a_batch_is_made_at_the_size_that_was_asked),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
