/* test_names.c - names of the model's enumerations. They are part of the exchange format, so they are spelled out here. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "lyeway/names.h"

static void names_and_values_lead_to_each_other(void **state)
{
    static const char *const purposes[] = {"skin", "shaving", "cleaning", "liquid"};
    static const char *const techniques[] = {"pour", "swirl", "layer", "pipe", "mould"};
    enum purpose purpose;
    enum technique technique;

    (void)state;
    for (size_t i = 0; i < 4; i++) {
        assert_true(purpose_named(purposes[i], &purpose));
        assert_int_equal(purpose, i);
        assert_string_equal(name_of_purpose(purpose), purposes[i]);
    }
    for (size_t i = 0; i < 5; i++) {
        assert_true(technique_named(techniques[i], &technique));
        assert_int_equal(technique, i);
        assert_string_equal(name_of_technique(technique), techniques[i]);
    }
}

static void the_small_lists_are_whole(void **state)
{
    enum piece_class class;
    enum put_in put_in;

    (void)state;
    assert_true(class_named("simple", &class) && class == PIECE_SIMPLE);
    assert_true(class_named("flower", &class) && class == PIECE_FLOWER);
    assert_true(put_in_named("portions", &put_in) && put_in == PUT_IN_PORTIONS);
    assert_true(put_in_named("batter", &put_in) && put_in == PUT_IN_BATTER);
    assert_string_equal(name_of_class(PIECE_FLOWER), "flower");
    assert_string_equal(name_of_put_in(PUT_IN_BATTER), "batter");
    assert_string_equal(name_of_alkali(ALKALI_NAOH), "NaOH");
    assert_string_equal(name_of_alkali(ALKALI_KOH), "KOH");
}

static void standings_are_said_in_the_words_of_the_format(void **state)
{
    (void)state;
    assert_string_equal(name_of_standing(STANDING_CERTIFICATE), "certificate");
    assert_string_equal(name_of_standing(STANDING_OWN), "own");
    assert_string_equal(name_of_standing(STANDING_SEEN), "published");
    assert_string_equal(name_of_standing(STANDING_COMPUTED), "computed");
    assert_string_equal(name_of_standing(STANDING_PRACTICE), "practice");
    assert_string_equal(name_of_standing(STANDING_MEMORY), "memory");
}

/* Whatever the list, no two share a name and none is without. */
static void all_differ(const char *(*name)(int), int n)
{
    for (int i = 0; i < n; i++) {
        assert_string_not_equal(name(i), "?");
        for (int j = 0; j < i; j++)
            assert_string_not_equal(name(i), name(j));
    }
    assert_string_equal(name(n), "?");
}

static const char *step_name(int i)
{
    return name_of_step((enum step_kind)i);
}

static const char *event_name(int i)
{
    return name_of_event((enum event_kind)i);
}

static const char *part_name(int i)
{
    return name_of_part((enum part)i);
}

static const char *use_name(int i)
{
    return name_of_vessel_use((enum vessel_use)i);
}

static void steps_events_parts_and_vessels_have_names(void **state)
{
    (void)state;
    all_differ(step_name, STEP_KIND_COUNT);
    all_differ(event_name, EVENT_KIND_COUNT);
    all_differ(part_name, PART_CARRIER + 1);
    all_differ(use_name, VESSEL_BAG + 1);
    assert_string_equal(name_of_step(STEP_LAY_OUT), "lay out");
    assert_string_equal(name_of_step(STEP_PUT_RIGHT), "put right");
    assert_string_equal(name_of_event(EVENT_TAKEN_BACK), "taken back");
    assert_string_equal(name_of_event(EVENT_FINISHED), "finished");
    assert_string_equal(name_of_part(PART_BATTER), "batter");
    assert_string_equal(name_of_part(PART_COLOURANT), "colourant");
    assert_string_equal(name_of_vessel_use(VESSEL_ALKALI_CUP), "alkali cup");
}

static void an_unknown_name_changes_nothing(void **state)
{
    enum purpose purpose = PURPOSE_CLEANING;
    enum technique technique = TECHNIQUE_PIPE;

    (void)state;
    assert_false(purpose_named("", &purpose));
    assert_false(purpose_named("Skin", &purpose));
    assert_false(purpose_named("skin ", &purpose));
    assert_int_equal(purpose, PURPOSE_CLEANING);
    assert_false(technique_named("skin", &technique));
    assert_int_equal(technique, TECHNIQUE_PIPE);
}

static void every_finding_has_its_own_name(void **state)
{
    (void)state;
    assert_string_equal(finding_name(FINDING_LYE_HEAVY), "lye-heavy");
    assert_string_equal(finding_name(FINDING_DOSE_SMALL), "dose-small");
    assert_string_equal(finding_name(FINDING_SCALE_SMALL), "scale-small");
    for (int i = 0; i < FINDING_COUNT; i++) {
        for (int j = 0; j < i; j++)
            assert_string_not_equal(finding_name((enum finding_code)i), finding_name((enum finding_code)j));
        assert_string_not_equal(finding_name((enum finding_code)i), "?");
    }
    assert_string_equal(finding_level_name(LEVEL_STOP), "stop");
    assert_string_equal(finding_level_name(LEVEL_CAUTION), "caution");
    assert_string_equal(finding_level_name(LEVEL_REMARK), "remark");
}

/* recipe.hushed is one bit a code. */
static void all_codes_fit_the_bits_of_hushed(void **state)
{
    (void)state;
    assert_true(FINDING_COUNT <= 8 * sizeof((struct recipe){0}).hushed);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_and_values_lead_to_each_other),
        cmocka_unit_test(the_small_lists_are_whole),
        cmocka_unit_test(standings_are_said_in_the_words_of_the_format),
        cmocka_unit_test(steps_events_parts_and_vessels_have_names),
        cmocka_unit_test(an_unknown_name_changes_nothing),
        cmocka_unit_test(every_finding_has_its_own_name),
        cmocka_unit_test(all_codes_fit_the_bits_of_hushed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
