/* The list of findings. */
#include "kitchen.h"

static void add(struct plan *plan, enum finding_level level, int index)
{
    plan_find(plan, &(struct finding){.level = level, .about = {PART_OIL, (int16_t)index, 0}});
}

static void findings_stand_worst_first_then_as_they_came(void **state)
{
    static const struct {
        enum finding_level level;
        int index;
    } expected[] = {{LEVEL_STOP, 2}, {LEVEL_STOP, 4}, {LEVEL_CAUTION, 1}, {LEVEL_REMARK, 0}, {LEVEL_REMARK, 3}};
    struct plan plan = {0};

    (void)state;
    add(&plan, LEVEL_REMARK, 0);
    add(&plan, LEVEL_CAUTION, 1);
    add(&plan, LEVEL_STOP, 2);
    add(&plan, LEVEL_REMARK, 3);
    add(&plan, LEVEL_STOP, 4);
    assert_int_equal(plan.findings, 5);
    for (int i = 0; i < 5; i++) {
        assert_int_equal(plan.finding[i].level, expected[i].level);
        assert_int_equal(plan.finding[i].about.index, expected[i].index);
    }
}

static void a_full_list_drops_remarks_before_cautions_before_stops(void **state)
{
    struct plan plan = {0};
    enum finding_level worst;
    int count[3];

    (void)state;
    for (int i = 0; i < PLAN_FINDINGS; i++)
        add(&plan, LEVEL_REMARK, i);
    add(&plan, LEVEL_REMARK, 999);
    assert_int_equal(plan.findings, PLAN_FINDINGS);
    assert_int_equal(plan.finding[PLAN_FINDINGS - 1].about.index, PLAN_FINDINGS - 1);
    for (int i = 0; i < PLAN_FINDINGS; i++)
        add(&plan, LEVEL_CAUTION, i);
    add(&plan, LEVEL_STOP, 7);
    assert_true(plan_worst(&plan, &worst, count));
    assert_int_equal(worst, LEVEL_STOP);
    assert_int_equal(count[LEVEL_STOP], 1);
    assert_int_equal(count[LEVEL_CAUTION], PLAN_FINDINGS - 1);
    assert_int_equal(count[LEVEL_REMARK], 0);
    assert_int_equal(plan.finding[PLAN_FINDINGS - 1].about.index, PLAN_FINDINGS - 2);
}

static void a_plan_without_findings_has_no_worst(void **state)
{
    struct plan plan = {0};
    enum finding_level worst = LEVEL_CAUTION;
    int count[3] = {5, 5, 5};

    (void)state;
    assert_false(plan_worst(&plan, &worst, count));
    assert_int_equal(worst, LEVEL_CAUTION);
    assert_int_equal(count[LEVEL_STOP] + count[LEVEL_CAUTION] + count[LEVEL_REMARK], 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(findings_stand_worst_first_then_as_they_came),
        cmocka_unit_test(a_full_list_drops_remarks_before_cautions_before_stops),
        cmocka_unit_test(a_plan_without_findings_has_no_worst),
    };

    return cmocka_run_group_tests_name("findings", tests, NULL, NULL);
}
