/* Findings that wait for a maker, and whose word a plan goes by. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "kitchen_bench.h"
#include "work/version.h"
#include "work/waiting.h"
#include "work/words_learned.h"

#define TEST(name) cmocka_unit_test_setup_teardown(name, kitchen_setup, kitchen_teardown)

static int waits(struct kitchen *kitchen, struct waiting waiting[], int most)
{
    struct lw_error error = {""};
    int n = -1;

    if (waiting_findings(kitchen->workshop, waiting, most, &n, &error) != LW_OK)
        fail_msg("%s", error.text);
    return n;
}

static const struct waiting *of(const struct waiting waiting[], int n, const char *name)
{
    for (int i = 0; i < n; i++)
        if (strcmp(waiting[i].name, name) == 0)
            return &waiting[i];
    return NULL;
}

/* Of the demo's recipes two have cautions (tests/oracle finds the same) and one has none. */
static void recipes_with_cautions_wait_and_others_do_not(void **state)
{
    struct waiting waiting[8];
    int n = waits(*state, waiting, 8);
    const struct waiting *blossoms = of(waiting, n, BLOSSOMS);

    assert_int_equal(n, 2);
    assert_non_null(of(waiting, n, "Quince Orchard base"));
    assert_null(of(waiting, n, "Hedge Rose base"));
    assert_int_equal(blossoms->level, LEVEL_CAUTION);
    assert_int_equal(blossoms->others, 1); /* petals, and centres besides */
    assert_non_null(strstr(blossoms->what, "Portion petals needs about"));
    assert_int_equal(waits(*state, waiting, 1), 1);
}

static void a_stop_goes_before_a_caution(void **state)
{
    struct kitchen *kitchen = *state;
    struct store *store = workshop_store(kitchen->workshop);
    struct lw_error error = {""};
    struct recipe recipe;
    struct waiting waiting[8];
    int64_t id;
    int n;

    assert_int_equal(recipes_find(store, NULL, "Hedge Rose base", &id, &error), LW_OK);
    assert_int_equal(recipes_load(store, id, 0, &recipe, NULL, &error), LW_OK);
    memset(recipe.uuid, 0, sizeof recipe.uuid);
    recipe.revision = 0;
    recipe.water.value = 0.6; /* more alkali than dissolves */
    strcpy(recipe.name, "Too strong");
    assert_int_equal(recipes_create(store, &recipe, &kitchen->now, &id, &error), LW_OK);
    n = waits(kitchen, waiting, 8);
    assert_int_equal(n, 3);
    assert_int_equal(of(waiting, n, "Too strong")->level, LEVEL_STOP);
    assert_int_equal(recipes_archive(store, id, true, &kitchen->now, &error), LW_OK);
    assert_int_equal(waits(kitchen, waiting, 8), 2);
}

static void a_plan_says_whose_word_it_goes_by(void **state)
{
    static struct plan plan;
    char words[160];

    (void)state;
    plan.portion[0].pace = (struct plan_pace){.from = {.median = 75}, .until = {.median = 126}};
    words_of_learned(&plan, 0, words, sizeof words);
    assert_string_equal(words, "workable 75 to 126 min, common practice: no batch of yours speaks");
    plan.portion[0].has_pieces = true;
    plan.portion[0].pieces = (struct plan_pieces){.mass_g = 2.768, .mass_batches = 6, .reject_batches = 7};
    plan.portion[0].pace.batches = 34;
    words_of_learned(&plan, 0, words, sizeof words);
    assert_string_equal(words,
                        "2.77 g each by 6 of your batches, rejects by 7; workable 75 to 126 min by 34 of your batches");
    plan.portion[0].pieces.mass_batches = 0;
    words_of_learned(&plan, 0, words, sizeof words);
    assert_string_equal(words, "rejects by 7 of your batches; workable 75 to 126 min by 34 of your batches");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(recipes_with_cautions_wait_and_others_do_not),
        TEST(a_stop_goes_before_a_caution),
        cmocka_unit_test(a_plan_says_whose_word_it_goes_by),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
