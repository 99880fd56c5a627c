/* What the tables take of an event, by its kind. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "lyeway/names.h"
#include "store/booked.h"

static struct batch_event event_of(int64_t id, enum event_kind kind)
{
    return (struct batch_event){.id = id, .at_s = 1709200000 + id, .kind = kind, .scale = -1};
}

static enum lw_status append(struct booked *booked, int64_t id, const struct batch_event *event)
{
    return batches_append(booked->store, id, NULL, 0, event, 1, &booked->error);
}

static bool count_event(void *context, const struct batch_event *event)
{
    ++*(int *)context;
    return event->id > 0;
}

static int events_of(struct booked *booked, int64_t id)
{
    int n = 0;

    booked_ok(booked, batches_events(booked->store, id, 0, count_event, &n, &booked->error));
    return n;
}

static void events_out_of_their_ranges_are_refused(void **state)
{
    static const struct {
        enum event_kind kind;
        double first, second;
    } bad[] = {
        {EVENT_WEIGHED, 0, 0},   {EVENT_WEIGHED, 3, 0},      {EVENT_STAGE, 8, 0},        {EVENT_STAGE, 1.5, 0},
        {EVENT_STAGE, -1, 0},    {EVENT_TIMER, -1, 0},       {EVENT_TIMER, 60, -1},      {EVENT_PLACED, -1, 0},
        {EVENT_REJECTS, 1e9, 0}, {EVENT_SCRAPED, -1e9, 0},   {EVENT_LEFT, 2, 0},         {EVENT_RECOUNTED, 1, -1},
        {EVENT_CUT, -1, 0},      {EVENT_NOTE, 1e300, 0},     {EVENT_TIMER_OFF, 0, 0},    {EVENT_TAKEN_BACK, 0, 0},
        {EVENT_DONE, 0, 0},      {EVENT_LYE_POURED, 1.5, 0}, {EVENT_SKIPPED, 0, 0},      {EVENT_STAGE, NAN, 0},
        {EVENT_PIECES, NAN, 0},  {EVENT_CURE_WEIGHED, 0, 0}, {EVENT_CURE_WEIGHED, 7, 0}, {EVENT_CURE_WEIGHED, 1.5, 0},
        {EVENT_TESTED, 3, 1},    {EVENT_TESTED, 1, 14.5},    {EVENT_TESTED, 1, -1},      {EVENT_TESTED, 1, NAN},
        {EVENT_OUTCOME, 0, 0},   {EVENT_OUTCOME, 4, 0},      {EVENT_OUTCOME, NAN, 0},    {EVENT_RESIDUE, 3, 1},
        {EVENT_RESIDUE, 0, 0},   {EVENT_RESIDUE, 0, 1001},   {EVENT_RESIDUE, 0, NAN},    {EVENT_DENSITY, 0, 0},
        {EVENT_DENSITY, NAN, 0},
    };
    static const struct {
        enum event_kind kind;
        int64_t mass_ug;
    } no_mass[] = {
        {EVENT_CURE_WEIGHED, 0}, {EVENT_CURE_WEIGHED, -1}, {EVENT_DENSITY, 0}, {EVENT_RESIDUE, -1}, {EVENT_LEFT, -1}};
    struct booked *booked = *state;
    int64_t id = booked_batch(booked, "Hedge Rose", 1709200000);
    struct batch_event event;

    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        event = event_of(1, bad[i].kind);
        event.mass_ug = 1;
        event.number[0] = bad[i].first;
        event.number[1] = bad[i].second;
        if (append(booked, id, &event) != LW_INVALID)
            fail_msg("taken: %s %g %g", name_of_event(bad[i].kind), bad[i].first, bad[i].second);
    }
    for (size_t i = 0; i < sizeof no_mass / sizeof no_mass[0]; i++) {
        event = event_of(1, no_mass[i].kind);
        event.mass_ug = no_mass[i].mass_ug;
        event.number[0] = event.number[1] = 1;
        if (append(booked, id, &event) != LW_INVALID)
            fail_msg("taken: %s of %lld", name_of_event(no_mass[i].kind), (long long)no_mass[i].mass_ug);
    }
    for (int part = PART_BATTER; part <= PART_SIZE; part++) {
        event = event_of(1, EVENT_NOTE);
        event.what = (struct part_ref){(enum part)part, part == PART_OIL ? 32 : 17, 0};
        assert_int_equal(append(booked, id, &event), LW_INVALID);
    }
    event = event_of(1, EVENT_NOTE);
    event.scale = RECIPE_SCALES;
    assert_int_equal(append(booked, id, &event), LW_INVALID);
    event = event_of(1, EVENT_KIND_COUNT);
    assert_int_equal(append(booked, id, &event), LW_INVALID);
    assert_int_equal(events_of(booked, id), 0);
}

static void what_is_said_of_a_finished_batch_is_taken_to_the_ends_of_its_ranges(void **state)
{
    static const struct {
        enum event_kind kind;
        int64_t mass_ug;
        double first, second;
    } good[] = {
        {EVENT_CURE_WEIGHED, 1, 1, 0},
        {EVENT_CURE_WEIGHED, 130000000, BATCH_MARKERS, 0},
        {EVENT_TESTED, 0, TEST_TONGUE, 0},
        {EVENT_TESTED, 0, TEST_PH, 14},
        {EVENT_TESTED, 0, TEST_LOOK, 1},
        {EVENT_OUTCOME, 0, OUTCOME_RELEASED, 0},
        {EVENT_OUTCOME, 0, OUTCOME_REJECTED, 0},
        {EVENT_LEFT_OUT, 0, 0, 0},
        {EVENT_RESIDUE, 0, RESIDUE_JUG, 1},
        {EVENT_RESIDUE, 5000000, RESIDUE_CUP, 1000},
        {EVENT_DENSITY, 1, 0.5, 0},
    };
    struct booked *booked = *state;
    int64_t id = booked_batch(booked, "Hedge Rose", 1709200000);

    booked_event(booked, id, 1, EVENT_FINISHED, 0);
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        struct batch_event event = event_of((int64_t)i + 2, good[i].kind);

        event.mass_ug = good[i].mass_ug;
        event.number[0] = good[i].first;
        event.number[1] = good[i].second;
        booked_ok(booked, append(booked, id, &event));
    }
    assert_int_equal(events_of(booked, id), 1 + sizeof good / sizeof good[0]);
    scratch_verify(booked->store);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, booked_setup, booked_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(events_out_of_their_ranges_are_refused),
        TEST(what_is_said_of_a_finished_batch_is_taken_to_the_ends_of_its_ranges),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
