/* A batch on the bench: what it asks, what it lets by, and that its record alone says where it stands. Recipes are the demo's. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/mass.h"
#include "base/text.h"
#include "kitchen_bench.h"

#define BLOSSOMS "Blossoms and leaves"

static void expect_refused(enum lw_status status, const struct lw_error *error, const char *part)
{
    assert_int_equal(status, LW_INVALID);
    if (!strstr(error->text, part))
        fail_msg("\"%s\" does not say \"%s\"", error->text, part);
}

static struct ask asked(struct kitchen *kitchen, const struct run *run)
{
    struct ask ask;

    run_ask(run, run_at(run), &kitchen->now, &ask);
    return ask;
}

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

/* ---- order */

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

/* ---- alkali and combining */

static void alkali_is_neither_skipped_nor_put_off_nor_taken_without_a_reading(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    while (kitchen_at(run)->what.part != PART_ALKALI)
        kitchen_step(kitchen, run);
    assert_true(asked(kitchen, run).typed);
    assert_true(asked(kitchen, run).safety);
    expect_refused(run_skip(run, &kitchen->now, &error), &error, "Alkali is never skipped");
    expect_refused(run_done(run, &kitchen->now, &error), &error, "Type what the scale reads");
    expect_refused(run_later(run, &kitchen->now, &error), &error, "has to come before");
    expect_refused(run_combine(run, &kitchen->now, 35, 35, &error), &error, "not the step at hand");
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
    expect_refused(run_combine(run, &kitchen->now, 35, 35, &error), &error, "would be lye-heavy");
    expect_refused(run_done(run, &kitchen->now, &error), &error, "would be lye-heavy");
    expect_refused(run_skip(run, &kitchen->now, &error), &error, "cannot be skipped");
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
    expect_refused(run_combine(run, &kitchen->now, 35, 35, &error), &error, "would be lye-heavy");
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
    expect_refused(run_combine(run, &kitchen->now, 35, 35, &error), &error, "more than dissolves");
    run_free(run);
}

/* ---- readings */

static void readings_run_on_what_was_weighed(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);

    while (kitchen_at(run)->what.part != PART_OIL)
        kitchen_step(kitchen, run);
    assert_int_equal(asked(kitchen, run).reading_ug, mass_ug(91.20));
    kitchen_weigh(kitchen, run, mass_ug(91.70));
    assert_int_equal(asked(kitchen, run).before_ug, mass_ug(91.70));
    assert_int_equal(asked(kitchen, run).reading_ug, mass_ug(91.70 + 41.80));
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
    assert_int_equal(asked(kitchen, run).before_ug, mass_ug(212));
    assert_int_equal(asked(kitchen, run).reading_ug, mass_ug(212) + run_planned(run)->plan->oil[0].rounded_ug);
    assert_non_null(strstr(asked(kitchen, run).explain, "jug B 212 g"));
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
    assert_int_equal(asked(kitchen, run).before_ug, mass_ug(133.00));
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
    expect_refused(run_judge(run, mass_ug(200.01), &judgement, &error), &error, "more than the scale holds");
    expect_refused(run_judge(run, -1, &judgement, &error), &error, "does not read below 0");
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
    assert_int_equal(asked(kitchen, run).target_ug, run_planned(run)->plan->portion[1].batter_ug);
    kitchen_weigh(kitchen, run, asked(kitchen, run).reading_ug + mass_ug(10)); /* 10 g too much of the centres */
    /* Petals and leaves, 64 to 25, share what is left: leaves lose 25/89 of the 10 g. */
    assert_true(llabs(asked(kitchen, run).target_ug - (leaves - mass_ug(10.0 * 25 / 89))) <= mass_ug(0.01));
    run_free(run);
}

/* ---- putting right */

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
    assert_int_equal(asked(kitchen, run).reading_ug, mass_ug(26.31)); /* what then is in the cup */
    assert_true(asked(kitchen, run).typed);
    kitchen_step(kitchen, run);
    assert_int_equal(run_batch(run)->charges.alkali[ALKALI_NAOH].mass_ug, mass_ug(26.31));
    assert_true(fabs(nominal(run) - run_planned(run)->plan->margin.nominal) < 1e-9);
    kitchen_until(kitchen, run, STEP_EMULSIFY);
    assert_true(run_batch(run)->combined_s > 0);
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

static void what_is_combined_can_not_be_taken_back(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    char echo[256];
    struct lw_error error;

    kitchen_until(kitchen, run, STEP_EMULSIFY);
    expect_refused(run_back(run, &kitchen->now, echo, sizeof echo, &error), &error, "stays combined");
    run_free(run);
}

/* ---- the record */

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
    assert_int_equal(asked(kitchen, run).before_ug, 0);
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

/* ---- starting */

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
    expect_refused(run_start(kitchen->workshop, &choice, &id, &error), &error, "55 %");
    text_copy(choice.reason, sizeof choice.reason, "I know better");
    expect_refused(run_start(kitchen->workshop, &choice, &id, &error), &error, "55 %");
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

/* ---- timers, stages, counting */

static void timers_start_with_combining_and_go_on_after_the_program_was_ended(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    int64_t id = run_batch(run)->head.id, combined;

    kitchen_until(kitchen, run, STEP_STAND);
    combined = run_batch(run)->combined_s;
    run_free(run);
    kitchen_reopen(kitchen);
    run = kitchen_open(kitchen, id);
    assert_int_equal(run_batch(run)->timers, 2);
    assert_string_equal(run_batch(run)->timer[0].name, "workable");
    assert_int_equal(run_batch(run)->timer[0].start_s, combined);
    assert_int_equal(run_batch(run)->timer[1].repeat_s, 600);
    kitchen_step(kitchen, run); /* standing is over, and with it the looking */
    assert_int_equal(run_batch(run)->timers, 1);
    run_free(run);
}

static void a_stamp_moves_the_forecast_and_ends_what_can_be_put_right(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;
    struct ask before, after;

    assert_int_equal(run_stage(run, &kitchen->now, 2, &error), LW_INVALID);
    kitchen_until(kitchen, run, STEP_EMULSIFY);
    assert_int_equal(run_batch(run)->phase, PHASE_COMBINED);
    assert_int_equal(run_stage(run, &kitchen->now, 4, &error), LW_OK);
    assert_int_equal(run_batch(run)->phase, PHASE_SPLIT); /* past thin trace */
    kitchen_until(kitchen, run, STEP_STAND);
    before = asked(kitchen, run);
    assert_int_equal(run_stage(run, &kitchen->now, 5, &error), LW_OK);
    after = asked(kitchen, run);
    assert_string_not_equal(before.line[before.lines - 1], after.line[after.lines - 1]);
    assert_int_equal(run_batch(run)->stage_s[5], kitchen->now.utc_s);
    run_free(run);
}

static const struct batch_timer *window_of(const struct run *run)
{
    for (int i = 0; i < run_batch(run)->timers; i++)
        if (strcmp(run_batch(run)->timer[i].name, "workable") == 0)
            return &run_batch(run)->timer[i];
    return NULL;
}

static void a_batter_that_thickens_early_has_less_time_left(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;
    int64_t end;

    kitchen_until(kitchen, run, STEP_STAND);
    end = window_of(run)->start_s + window_of(run)->length_s;
    assert_int_equal(run_stage(run, &kitchen->now, 4, &error), LW_OK); /* thick some ten minutes after combining */
    assert_non_null(window_of(run));
    assert_true(window_of(run)->start_s + window_of(run)->length_s < end - 1800);
    assert_int_equal(run_stage(run, &kitchen->now, 7, &error), LW_OK); /* set up: there is none left */
    assert_null(window_of(run));
    run_free(run);
}

static void pieces_are_counted_one_by_one_and_taken_back(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct piping piping;
    struct lw_error error;

    kitchen_until(kitchen, run, STEP_PIPE);
    expect_refused(run_count(run, &kitchen->now, EVENT_PIECES, -1, &error), &error, "none to take back");
    expect_refused(run_count(run, &kitchen->now, EVENT_SCRAPED, 1, &error), &error, "no more rejects");
    for (int i = 0; i < 31; i++) {
        kitchen_wait(kitchen, 50);
        assert_int_equal(run_count(run, &kitchen->now, EVENT_PIECES, 1, &error), LW_OK);
    }
    assert_int_equal(run_count(run, &kitchen->now, EVENT_REJECTS, 2, &error), LW_OK);
    assert_int_equal(run_count(run, &kitchen->now, EVENT_SCRAPED, 1, &error), LW_OK);
    assert_int_equal(run_count(run, &kitchen->now, EVENT_PIECES, -1, &error), LW_OK);
    assert_int_equal(run_left(run, &kitchen->now, mass_ug(36), true, &error), LW_OK);
    run_piping(run, &kitchen->now, &piping);
    assert_int_equal(piping.good, 30);
    assert_int_equal(piping.rejects, 1);
    assert_int_equal(piping.wanted, 44);
    assert_int_equal(piping.to_go, 14);
    assert_true(piping.more > 0 && piping.more < 20); /* 36 g less what stays in a bag, at 2.6 g a piece */
    assert_string_equal(asked(kitchen, run).large, "30");
    assert_int_equal(run_done(run, &kitchen->now, &error), LW_OK);
    kitchen_until(kitchen, run, STEP_RECOUNT);
    assert_int_equal(run_recount(run, &kitchen->now, 28, 3, &error), LW_OK);
    assert_int_equal(run_batch(run)->pieces[0].good, 28);
    assert_true(run_batch(run)->pieces[0].recounted);
    run_free(run);
}

static bool take_pieces(void *context, const struct pieces_line *line)
{
    *(struct pieces_line *)context = *line;
    return true;
}

static int on_shelf(struct kitchen *kitchen, struct pieces_line *line)
{
    struct lw_error error = {""};

    memset(line, 0, sizeof *line);
    if (batches_pieces(workshop_store(kitchen->workshop), take_pieces, line, &error) != LW_OK)
        fail_msg("%s", error.text);
    return line->on_shelf;
}

static void pieces_go_onto_the_shelf_when_they_are_counted_and_from_there_onto_a_loaf(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *blossoms = kitchen_start(kitchen, BLOSSOMS), *base;
    struct pieces_line line;
    struct lw_error error = {""};
    char echo[256];

    kitchen_until(kitchen, blossoms, STEP_RECOUNT);
    assert_int_equal(on_shelf(kitchen, &line), 0); /* piped, but not lifted yet */
    assert_int_equal(run_recount(blossoms, &kitchen->now, 40, 4, &error), LW_OK);
    assert_int_equal(run_save(blossoms, &error), LW_OK);
    assert_int_equal(on_shelf(kitchen, &line), 40);
    assert_string_equal(line.kind, "quince blossom");
    assert_int_equal(line.made_s, kitchen->now.utc_s);
    assert_int_equal(run_back(blossoms, &kitchen->now, echo, sizeof echo, &error), LW_OK);
    assert_int_equal(run_recount(blossoms, &kitchen->now, 38, 6, &error), LW_OK); /* counted once more */
    assert_int_equal(run_save(blossoms, &error), LW_OK);
    assert_int_equal(on_shelf(kitchen, &line), 38);
    base = kitchen_start(kitchen, "Quince Orchard base");
    kitchen_until(kitchen, base, STEP_PLACE);
    expect_refused(run_place(base, &kitchen->now, 39, &line, &error), &error, "38 on the shelf");
    assert_int_equal(run_place(base, &kitchen->now, 24, &line, &error), LW_OK);
    assert_int_equal(kitchen_at(base)->kind, STEP_PLACE); /* there may be leaves too */
    assert_int_equal(run_save(base, &error), LW_OK);
    assert_int_equal(on_shelf(kitchen, &line), 14);
    run_free(base);
    run_free(blossoms);
}

static void when_it_is_going_what_can_be_left_out_is(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    assert_int_equal(run_going(run, &kitchen->now, &error), LW_INVALID);
    kitchen_until(kitchen, run, STEP_POUR_OUT);
    assert_int_equal(run_going(run, &kitchen->now, &error), LW_OK);
    assert_true(run_batch(run)->going);
    assert_int_equal(kitchen_at(run)->kind, STEP_FILL_BAGS);
    run_free(run);
}

static void safety_notes_are_acknowledged_once_a_day_for_all_batches(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *one = kitchen_start(kitchen, BLOSSOMS), *two = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    assert_true(run_acknowledge_due(one, &kitchen->now));
    assert_int_equal(run_acknowledge(one, &kitchen->now, &error), LW_OK);
    assert_int_equal(run_save(one, &error), LW_OK);
    assert_false(run_acknowledge_due(two, &kitchen->now));
    kitchen_wait(kitchen, 86400);
    assert_true(run_acknowledge_due(two, &kitchen->now));
    run_free(one);
    run_free(two);
}

static void a_splash_starts_twenty_minutes_of_rinsing_once(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    assert_int_equal(run_splash(run, &kitchen->now, &error), LW_OK);
    kitchen_wait(kitchen, 60);
    assert_int_equal(run_splash(run, &kitchen->now, &error), LW_OK);
    assert_int_equal(run_batch(run)->timers, 1);
    assert_int_equal(run_batch(run)->timer[0].length_s, 1200);
    run_free(run);
}

static void a_batch_set_aside_takes_nothing_more(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    kitchen_until(kitchen, run, STEP_EMULSIFY);
    assert_int_equal(run_set_aside(run, &kitchen->now, "oil forgotten", &error), LW_OK);
    expect_refused(run_done(run, &kitchen->now, &error), &error, "is closed");
    assert_int_equal(run_note(run, &kitchen->now, "kept for rebatching", &error), LW_OK);
    run_free(run);
}

static void own_steps_come_before_the_one_at_hand(void **state)
{
    struct kitchen *kitchen = *state;
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error;

    kitchen_step(kitchen, run);
    assert_int_equal(run_add_step(run, &kitchen->now, "light the stove", &error), LW_OK);
    assert_int_equal(kitchen_at(run)->kind, STEP_OTHER);
    assert_string_equal(asked(kitchen, run).title, "light the stove");
    assert_int_equal(run_add_step(run, &kitchen->now, "", &error), LW_INVALID);
    kitchen_step(kitchen, run);
    assert_int_equal(kitchen_at(run)->kind, STEP_WEIGH);
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
        TEST(alkali_over_in_its_cup_is_spooned_back_and_all_is_as_planned),
        TEST(oil_found_out_to_be_forgotten_is_added_while_the_batter_is_whole),
        TEST(what_is_combined_can_not_be_taken_back),
        TEST(a_reading_taken_back_is_asked_again_and_stays_in_the_record),
        TEST(opened_again_it_stands_where_it_was),
        TEST(what_a_recipe_shelf_and_settings_become_later_does_not_touch_it),
        TEST(two_windows_on_one_batch_lose_nothing_of_either),
        TEST(a_recipe_with_a_stop_is_not_started),
        TEST(a_caution_about_lye_wants_a_reason_and_keeps_it),
        TEST(batch_numbers_follow_the_pattern_and_begin_anew_with_the_year),
        TEST(a_batch_is_made_at_the_size_that_was_asked),
        TEST(timers_start_with_combining_and_go_on_after_the_program_was_ended),
        TEST(a_stamp_moves_the_forecast_and_ends_what_can_be_put_right),
        TEST(a_batter_that_thickens_early_has_less_time_left),
        TEST(pieces_are_counted_one_by_one_and_taken_back),
        TEST(pieces_go_onto_the_shelf_when_they_are_counted_and_from_there_onto_a_loaf),
        TEST(when_it_is_going_what_can_be_left_out_is),
        TEST(safety_notes_are_acknowledged_once_a_day_for_all_batches),
        TEST(a_splash_starts_twenty_minutes_of_rinsing_once),
        TEST(a_batch_set_aside_takes_nothing_more),
        TEST(own_steps_come_before_the_one_at_hand),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
