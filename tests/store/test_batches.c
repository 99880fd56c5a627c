/* Batches in the store: a record that only grows, two programs at one of them, and lists that need not read the records. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "base/text.h"
#include "lyeway/names.h"
#include "store/batches.h"
#include "store/inside.h"
#include "store/recipes.h"
#include "support/scratch.h"

enum { EVENTS = 400, STEPS = 3 };

struct fixture {
    struct scratch *scratch;
    struct store *store;
    int64_t recipe_id;
    struct batch_head head;
    struct step step[STEPS];
    struct batch_event written[EVENTS], read[EVENTS];
    int reads;
    struct lw_error error;
};

static void ok(struct fixture *fixture, enum lw_status status)
{
    if (status != LW_OK)
        fail_msg("status %d: %s", (int)status, fixture->error.text);
}

/* A recipe with one revision that is kept, since a batch is made of one. */
static void keep_recipe(struct fixture *fixture)
{
    struct recipe *recipe = calloc(1, sizeof *recipe);
    int number;

    assert_non_null(recipe);
    text_copy(recipe->name, sizeof recipe->name, "Blossoms and leaves");
    recipe->oils = 2;
    text_copy(recipe->oil[1].name, LW_NAME_BYTES, "coconut");
    ok(fixture, recipes_create(fixture->store, recipe, &fixture->scratch->now, &fixture->recipe_id, &fixture->error));
    ok(fixture, recipes_seal(fixture->store, fixture->recipe_id, &fixture->scratch->now, &number, &fixture->error));
    free(recipe);
}

static int setup(void **state)
{
    struct fixture *fixture = calloc(1, sizeof *fixture);

    if (!fixture || scratch_setup((void **)&fixture->scratch) != 0)
        return -1;
    fixture->store = scratch_open(fixture->scratch);
    keep_recipe(fixture);
    *state = fixture;
    return 0;
}

static int teardown(void **state)
{
    struct fixture *fixture = *state;

    scratch_close(fixture->store);
    scratch_teardown((void **)&fixture->scratch);
    free(fixture);
    return 0;
}

/* What the shell of SQLite would do, by a connection of its own: its result, and its words in *said. */
static int shell(struct fixture *fixture, const char *sql, char said[LW_ERROR_BYTES])
{
    sqlite3 *db;
    int code;

    assert_int_equal(sqlite3_open(fixture->scratch->path, &db), SQLITE_OK);
    code = sqlite3_exec(db, sql, NULL, NULL, NULL);
    text_copy(said, LW_ERROR_BYTES, sqlite3_errmsg(db));
    sqlite3_close(db);
    return code;
}

static void shell_does(struct fixture *fixture, const char *sql)
{
    char said[LW_ERROR_BYTES];

    if (shell(fixture, sql, said) != SQLITE_OK)
        fail_msg("%s: %s", sql, said);
}

static void make_steps(struct fixture *fixture)
{
    fixture->step[0] = (struct step){.id = 1, .kind = STEP_LAY_OUT, .place = 1, .use = VESSEL_NONE, .vessel = -1};
    fixture->step[1] = (struct step){.id = 2,
                                     .kind = STEP_WEIGH,
                                     .place = 2,
                                     .what = {PART_OIL, 1, 0},
                                     .use = VESSEL_JUG,
                                     .vessel = 1,
                                     .target_ug = 250000000};
    fixture->step[2] = (struct step){.id = 3, .kind = STEP_OTHER, .place = 2.5, .vessel = -1, .target_ug = -1};
    text_copy(fixture->step[2].text, LW_NAME_BYTES, "ring Ida");
}

/* Begins a batch with three steps. */
static int64_t begin(struct fixture *fixture, const char *number)
{
    struct batch_head *head = &fixture->head;

    memset(head, 0, sizeof *head);
    text_copy(head->number, sizeof head->number, number);
    text_copy(head->name, sizeof head->name, "Blossoms and leaves");
    head->recipe_id = fixture->recipe_id;
    head->revision = 1;
    head->started_s = fixture->scratch->now.utc_s;
    head->offset_s = -3600;
    head->vessels = 2;
    text_copy(head->vessel[1].name, LW_NAME_BYTES, "jug B");
    head->vessel[1].empty_ug = 212000000;
    make_steps(fixture);
    ok(fixture, batches_create(fixture->store, head, 190000000, "{\"recipe\": 1}", "superfat_most 0.1\n", fixture->step,
                               STEPS, &fixture->error));
    return head->id;
}

static struct batch_event event_of(int64_t id, enum event_kind kind)
{
    return (struct batch_event){.id = id, .at_s = 1709200000 + id, .kind = kind, .scale = -1};
}

static enum lw_status append(struct fixture *fixture, int64_t id, const struct batch_event *event)
{
    return batches_append(fixture->store, id, NULL, 0, event, 1, &fixture->error);
}

/* Appends one that has nothing but its kind, and the event it names. */
static void add(struct fixture *fixture, int64_t id, int64_t event_id, enum event_kind kind, int64_t other)
{
    struct batch_event event = event_of(event_id, kind);

    event.other = other;
    ok(fixture, append(fixture, id, &event));
}

static bool keep_event(void *context, const struct batch_event *event)
{
    struct fixture *fixture = context;

    assert_true(fixture->reads < EVENTS);
    fixture->read[fixture->reads++] = *event;
    return true;
}

static int read_after(struct fixture *fixture, int64_t id, int64_t after)
{
    fixture->reads = 0;
    ok(fixture, batches_events(fixture->store, id, after, keep_event, fixture, &fixture->error));
    return fixture->reads;
}

static bool same_number(double a, double b)
{
    return (isnan(a) && isnan(b)) || a == b;
}

static void same_event(const struct batch_event *a, const struct batch_event *b)
{
    assert_int_equal(a->id, b->id);
    assert_int_equal(a->at_s, b->at_s);
    assert_int_equal(a->kind, b->kind);
    assert_int_equal(a->step, b->step);
    assert_int_equal(a->what.part, b->what.part);
    assert_int_equal(a->what.index, b->what.index);
    assert_int_equal(a->what.sub, b->what.sub);
    assert_int_equal(a->mass_ug, b->mass_ug);
    assert_int_equal(a->planned_ug, b->planned_ug);
    assert_int_equal(a->reading_ug, b->reading_ug);
    assert_int_equal(a->scale, b->scale);
    assert_true(same_number(a->number[0], b->number[0]) && same_number(a->number[1], b->number[1]));
    assert_int_equal(a->other, b->other);
    assert_string_equal(a->text, b->text);
}

static bool keep_step(void *context, const struct step *step)
{
    struct step *steps = context;

    steps[step->id - 1] = *step;
    return step->id < STEPS;
}

static void a_batch_comes_back_with_its_head_texts_and_steps(void **state)
{
    struct fixture *fixture = *state;
    struct batch_head loaded;
    struct step steps[STEPS] = {0};
    char *frozen, *bench;
    int64_t id = begin(fixture, "26-001");

    ok(fixture, batches_load(fixture->store, id, &loaded, &frozen, &bench, &fixture->error));
    assert_int_equal(loaded.id, id);
    assert_memory_equal(loaded.uuid, fixture->head.uuid, LW_UUID_BYTES);
    assert_string_equal(loaded.number, "26-001");
    assert_string_equal(loaded.name, "Blossoms and leaves");
    assert_int_equal(loaded.recipe_id, fixture->recipe_id);
    assert_int_equal(loaded.revision, 1);
    assert_int_equal(loaded.started_s, fixture->scratch->now.utc_s);
    assert_int_equal(loaded.offset_s, -3600);
    assert_int_equal(loaded.vessels, 2);
    assert_string_equal(loaded.vessel[1].name, "jug B");
    assert_int_equal(loaded.vessel[1].empty_ug, 212000000);
    assert_string_equal(frozen, "{\"recipe\": 1}");
    assert_string_equal(bench, "superfat_most 0.1\n");
    ok(fixture, batches_steps(fixture->store, id, keep_step, steps, &fixture->error));
    assert_memory_equal(steps, fixture->step, sizeof steps);
    free(frozen);
    free(bench);
    assert_int_equal(batches_load(fixture->store, id + 1, &loaded, &frozen, &bench, &fixture->error), LW_NOT_FOUND);
    assert_null(frozen);
    scratch_verify(fixture->store);
}

/* RFC 9562, section 5.4: the version is 4, the variant 10 in binary. */
static void a_batch_without_uuid_gets_one(void **state)
{
    struct fixture *fixture = *state;

    begin(fixture, "26-001");
    assert_int_equal(fixture->head.uuid[6] >> 4, 4);
    assert_int_equal(fixture->head.uuid[8] >> 6, 2);
}

static void neither_a_number_nor_a_uuid_comes_twice(void **state)
{
    struct fixture *fixture = *state;
    struct batch_head again;

    begin(fixture, "26-001");
    again = fixture->head;
    memset(again.uuid, 0, sizeof again.uuid);
    assert_int_equal(batches_create(fixture->store, &again, 1, "{}", "", NULL, 0, &fixture->error), LW_CONFLICT);
    assert_non_null(strstr(fixture->error.text, "26-001"));
    again = fixture->head;
    text_copy(again.number, sizeof again.number, "26-002");
    assert_int_equal(batches_create(fixture->store, &again, 1, "{}", "", NULL, 0, &fixture->error), LW_CONFLICT);
    assert_int_equal(again.id, fixture->head.id);
}

static void a_batch_is_made_of_a_revision_that_is_kept(void **state)
{
    struct fixture *fixture = *state;
    struct batch_head head;

    begin(fixture, "26-001");
    head = fixture->head;
    memset(head.uuid, 0, sizeof head.uuid);
    text_copy(head.number, sizeof head.number, "26-002");
    head.revision = 0;
    assert_int_equal(batches_create(fixture->store, &head, 1, "{}", "", NULL, 0, &fixture->error), LW_INVALID);
    assert_non_null(strstr(fixture->error.text, "keep the draft"));
    head.revision = 2;
    assert_int_equal(batches_create(fixture->store, &head, 1, "{}", "", NULL, 0, &fixture->error), LW_NOT_FOUND);
    head.revision = 1;
    head.recipe_id++;
    assert_int_equal(batches_create(fixture->store, &head, 1, "{}", "", NULL, 0, &fixture->error), LW_NOT_FOUND);
    scratch_verify(fixture->store);
}

static void a_batch_that_does_not_fit_is_not_begun_at_all(void **state)
{
    struct fixture *fixture = *state;
    struct batch_head head;
    int64_t serial;

    begin(fixture, "26-001");
    head = fixture->head;
    memset(head.uuid, 0, sizeof head.uuid);
    text_copy(head.number, sizeof head.number, "26-002");
    fixture->step[2].vessel = 16;
    assert_int_equal(batches_create(fixture->store, &head, 1, "{}", "", fixture->step, STEPS, &fixture->error),
                     LW_INVALID);
    fixture->step[2].vessel = -1;
    fixture->step[2].id = 7;
    assert_int_equal(batches_create(fixture->store, &head, 1, "{}", "", fixture->step, STEPS, &fixture->error),
                     LW_INVALID);
    head.vessels = 17;
    assert_int_equal(batches_create(fixture->store, &head, 1, "{}", "", NULL, 0, &fixture->error), LW_FULL);
    ok(fixture, batches_serial(fixture->store, "26-", "", &serial, &fixture->error));
    assert_int_equal(serial, 1);
    scratch_verify(fixture->store);
}

/* Some value for every member, as far as the kind allows. */
static struct batch_event random_event(struct chance *chance, int64_t id)
{
    static const int16_t most[] = {0, 31, 1, 0, 3, 15, 7, 16, 15};
    struct batch_event event = event_of(id, (enum event_kind)chance_below(chance, EVENT_KIND_COUNT));
    int part = chance_below(chance, PART_COLOURANT + 1);

    event.step = chance_below(chance, STEPS) + 1;
    event.what = (struct part_ref){(enum part)part, (int16_t)chance_below(chance, most[part] + 1),
                                   (int16_t)chance_below(chance, 8)};
    event.mass_ug = chance_below(chance, 1000000000);
    event.planned_ug = -chance_below(chance, 1000000000);
    event.reading_ug = chance_below(chance, 1000000000);
    event.scale = chance_below(chance, 9) - 1;
    event.number[0] = event.kind == EVENT_LEFT || event.kind == EVENT_LYE_POURED ? 1 : 1 + chance_below(chance, 2);
    event.number[1] = event.kind == EVENT_COMBINED ? (double)NAN : 1 + chance_below(chance, 100) / 8.0;
    event.other = event.kind == EVENT_TIMER_OFF ? chance_below(chance, (int)id - 1) + 1 : 0;
    text_add(event.text, sizeof event.text, "event %lld", (long long)id);
    return event;
}

static void every_member_of_an_event_comes_back(void **state)
{
    struct fixture *fixture = *state;
    int64_t id = begin(fixture, "26-001");

    begin(fixture, "26-002");
    fixture->written[0] = event_of(1, EVENT_ACKNOWLEDGED);
    for (int i = 1; i < EVENTS; i++) {
        do {
            fixture->written[i] = random_event(&fixture->scratch->chance, i + 1);
        } while (fixture->written[i].kind == EVENT_TAKEN_BACK);
    }
    /* In one go, then in others of different sizes. */
    for (int from = 0, n = 1; from < EVENTS; from += n, n = 1 + chance_below(&fixture->scratch->chance, 20)) {
        n = from + n > EVENTS ? EVENTS - from : n;
        ok(fixture, batches_append(fixture->store, id, NULL, 0, &fixture->written[from], n, &fixture->error));
    }
    assert_int_equal(read_after(fixture, id, 0), EVENTS);
    for (int i = 0; i < EVENTS; i++)
        same_event(&fixture->written[i], &fixture->read[i]);
    assert_int_equal(read_after(fixture, id, EVENTS - 5), 5);
    same_event(&fixture->written[EVENTS - 5], &fixture->read[0]);
    assert_int_equal(read_after(fixture, id + 1, 0), 0);
    scratch_verify(fixture->store);
}

static void steps_are_added_with_the_events_that_name_them(void **state)
{
    struct fixture *fixture = *state;
    int64_t id = begin(fixture, "26-001");
    struct step more = {.id = 4, .kind = STEP_PUT_RIGHT, .place = 2.25, .what = {PART_ALKALI, 0, 0}, .vessel = -1};
    struct batch_event event = event_of(1, EVENT_DONE);

    event.step = 5;
    assert_int_equal(batches_append(fixture->store, id, &more, 1, &event, 1, &fixture->error), LW_INVALID);
    event.step = 4;
    ok(fixture, batches_append(fixture->store, id, &more, 1, &event, 1, &fixture->error));
    assert_int_equal(read_after(fixture, id, 0), 1);
    assert_int_equal(batches_append(fixture->store, id, &more, 1, NULL, 0, &fixture->error), LW_CONFLICT);
    scratch_verify(fixture->store);
}

static void a_batch_has_no_more_steps_than_the_model_holds(void **state)
{
    struct fixture *fixture = *state;
    struct step steps[BATCH_STEPS];
    int64_t id = begin(fixture, "26-001");

    for (int i = 0; i < BATCH_STEPS; i++)
        steps[i] = (struct step){.id = i + 1, .kind = STEP_OTHER, .place = i, .vessel = -1};
    assert_int_equal(batches_append(fixture->store, id, &steps[STEPS], BATCH_STEPS - STEPS, NULL, 0, &fixture->error),
                     LW_OK);
    steps[0].id = BATCH_STEPS + 1;
    assert_int_equal(batches_append(fixture->store, id, &steps[0], 1, NULL, 0, &fixture->error), LW_FULL);
    assert_non_null(strstr(fixture->error.text, "768"));
}

static void who_appends_second_is_told_and_goes_on_after_reading(void **state)
{
    struct fixture *fixture = *state;
    int64_t id = begin(fixture, "26-001");
    struct store *other = scratch_open(fixture->scratch);
    struct batch_event mine = event_of(1, EVENT_NOTE), theirs = event_of(1, EVENT_GOING);

    ok(fixture, batches_append(other, id, NULL, 0, &theirs, 1, &fixture->error));
    assert_int_equal(append(fixture, id, &mine), LW_CONFLICT);
    assert_non_null(strstr(fixture->error.text, "Another program"));
    assert_int_equal(read_after(fixture, id, 0), 1);
    assert_int_equal(fixture->read[0].kind, EVENT_GOING);
    mine.id = fixture->read[0].id + 1;
    ok(fixture, append(fixture, id, &mine));
    assert_int_equal(read_after(fixture, id, 0), 2);
    assert_int_equal(fixture->read[1].kind, EVENT_NOTE);
    scratch_close(other);
}

static void events_that_leave_a_gap_or_are_of_no_batch_are_refused(void **state)
{
    struct fixture *fixture = *state;
    int64_t id = begin(fixture, "26-001");
    struct batch_event events[2] = {event_of(1, EVENT_NOTE), event_of(3, EVENT_NOTE)};

    assert_int_equal(batches_append(fixture->store, id, NULL, 0, events, 2, &fixture->error), LW_INVALID);
    events[0].id = 2;
    assert_int_equal(append(fixture, id, &events[0]), LW_INVALID);
    events[0].id = 0;
    assert_int_equal(append(fixture, id, &events[0]), LW_INVALID);
    events[0].id = 1;
    assert_int_equal(append(fixture, id + 1, &events[0]), LW_NOT_FOUND);
    assert_int_equal(read_after(fixture, id, 0), 0);
}

/* Meanings and ranges of the numbers: EVENT_KINDS in lyeway/batch.h. */
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
    struct fixture *fixture = *state;
    int64_t id = begin(fixture, "26-001");
    struct batch_event event;

    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        event = event_of(1, bad[i].kind);
        event.mass_ug = 1;
        event.number[0] = bad[i].first;
        event.number[1] = bad[i].second;
        if (append(fixture, id, &event) != LW_INVALID)
            fail_msg("taken: %s %g %g", name_of_event(bad[i].kind), bad[i].first, bad[i].second);
    }
    for (size_t i = 0; i < sizeof no_mass / sizeof no_mass[0]; i++) {
        event = event_of(1, no_mass[i].kind);
        event.mass_ug = no_mass[i].mass_ug;
        event.number[0] = event.number[1] = 1;
        if (append(fixture, id, &event) != LW_INVALID)
            fail_msg("taken: %s of %lld", name_of_event(no_mass[i].kind), (long long)no_mass[i].mass_ug);
    }
    for (int part = PART_BATTER; part <= PART_SIZE; part++) {
        event = event_of(1, EVENT_NOTE);
        event.what = (struct part_ref){(enum part)part, part == PART_OIL ? 32 : 17, 0};
        assert_int_equal(append(fixture, id, &event), LW_INVALID);
    }
    event = event_of(1, EVENT_NOTE);
    event.scale = RECIPE_SCALES;
    assert_int_equal(append(fixture, id, &event), LW_INVALID);
    event = event_of(1, EVENT_KIND_COUNT);
    assert_int_equal(append(fixture, id, &event), LW_INVALID);
    assert_int_equal(read_after(fixture, id, 0), 0);
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
    struct fixture *fixture = *state;
    int64_t id = begin(fixture, "26-001");

    add(fixture, id, 1, EVENT_FINISHED, 0);
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        struct batch_event event = event_of((int64_t)i + 2, good[i].kind);

        event.mass_ug = good[i].mass_ug;
        event.number[0] = good[i].first;
        event.number[1] = good[i].second;
        ok(fixture, append(fixture, id, &event));
    }
    assert_int_equal(read_after(fixture, id, 1), sizeof good / sizeof good[0]);
    scratch_verify(fixture->store);
}

static bool add_line(void *context, const struct batch_line *line)
{
    text_add(context, LW_ERROR_BYTES, "%s%s%s ", line->number, line->finished_s > 0 ? " finished" : "",
             line->set_aside ? " aside" : "");
    return true;
}

static void listed(struct fixture *fixture, enum batches_which which, const char *expected)
{
    char found[LW_ERROR_BYTES] = "";

    ok(fixture, batches_each(fixture->store, which, add_line, found, &fixture->error));
    assert_string_equal(found, expected);
}

static bool take_line(void *context, const struct batch_line *line)
{
    *(struct batch_line *)context = *line;
    return false;
}

static void batches_are_listed_running_oldest_first_and_all_newest_first(void **state)
{
    struct fixture *fixture = *state;
    struct batch_line line = {0};

    fixture->scratch->now.utc_s = 300;
    begin(fixture, "c");
    fixture->scratch->now.utc_s = 100;
    begin(fixture, "a");
    fixture->scratch->now.utc_s = 200;
    begin(fixture, "b");
    begin(fixture, "b2");
    listed(fixture, BATCHES_RUNNING, "a b b2 c ");
    listed(fixture, BATCHES_ALL, "c b2 b a ");
    ok(fixture, batches_each(fixture->store, BATCHES_RUNNING, take_line, &line, &fixture->error));
    assert_string_equal(line.number, "a");
    assert_string_equal(line.name, "Blossoms and leaves");
    assert_int_equal(line.started_s, 100);
    assert_int_equal(line.oils_ug, 190000000);
    assert_int_equal(line.id, 2);
}

static void finishing_and_setting_aside_move_a_batch_off_the_bench(void **state)
{
    struct fixture *fixture = *state;
    int64_t a = begin(fixture, "a"), b = begin(fixture, "b");
    struct batch_line line = {0};

    begin(fixture, "c");
    add(fixture, a, 1, EVENT_FINISHED, 0);
    add(fixture, b, 1, EVENT_NOTE, 0);
    add(fixture, b, 2, EVENT_SET_ASIDE, 0);
    listed(fixture, BATCHES_RUNNING, "c ");
    listed(fixture, BATCHES_ALL, "c b aside a finished ");
    add(fixture, b, 3, EVENT_FINISHED, 0);
    listed(fixture, BATCHES_ALL, "c b finished aside a finished ");
    fixture->scratch->now.utc_s++;
    begin(fixture, "d");
    add(fixture, 4, 1, EVENT_FINISHED, 0);
    ok(fixture, batches_each(fixture->store, BATCHES_ALL, take_line, &line, &fixture->error));
    assert_int_equal(line.finished_s, event_of(1, EVENT_FINISHED).at_s);
    scratch_verify(fixture->store);
}

static void what_was_taken_back_brings_it_to_the_bench_again(void **state)
{
    struct fixture *fixture = *state;
    int64_t a = begin(fixture, "a");
    struct batch_event again = event_of(6, EVENT_TAKEN_BACK);

    add(fixture, a, 1, EVENT_FINISHED, 0);
    add(fixture, a, 2, EVENT_SET_ASIDE, 0);
    add(fixture, a, 3, EVENT_TAKEN_BACK, 1);
    listed(fixture, BATCHES_ALL, "a aside ");
    add(fixture, a, 4, EVENT_TAKEN_BACK, 2);
    listed(fixture, BATCHES_RUNNING, "a ");
    add(fixture, a, 5, EVENT_FINISHED, 0);
    listed(fixture, BATCHES_ALL, "a finished ");
    /* Taking back is not taken back: what was taken back is done again. */
    again.other = 3;
    assert_int_equal(append(fixture, a, &again), LW_INVALID);
    /* An event that is not there yet cannot be meant. */
    again.other = 7;
    assert_int_equal(append(fixture, a, &again), LW_INVALID);
    scratch_verify(fixture->store);
}

/* Whoever writes, and whichever way. */
static void a_record_cannot_be_changed_by_sql(void **state)
{
    static const char *const statements[] = {
        "UPDATE batch_event SET mass_ug = 1",
        "DELETE FROM batch_event",
        "INSERT OR REPLACE INTO batch_event SELECT * FROM batch_event",
        "UPDATE OR REPLACE batch_event SET id = 1 WHERE id = 2",
        "INSERT INTO batch_event SELECT batch_id, 9, at_s, kind, step, part, part_index, part_sub, mass_ug, planned_ug,"
        " reading_ug, scale, number_1, number_2, other, text FROM batch_event WHERE id = 1",
        "UPDATE batch_step SET place = 1",
        "DELETE FROM batch_step",
        "INSERT OR REPLACE INTO batch_step SELECT * FROM batch_step",
        "UPDATE batch SET name = 'x'",
        "UPDATE batch SET number = 'x'",
        "UPDATE batch SET id = 9",
        "UPDATE batch SET set_aside = 1",
        "UPDATE batch SET finished_s = 0",
        "DELETE FROM batch",
        "INSERT OR REPLACE INTO batch SELECT * FROM batch",
        "UPDATE OR REPLACE batch SET number = '26-001' WHERE number = '26-002'",
        "INSERT OR REPLACE INTO batch (uuid, number, name, recipe_id, revision, started_s, utc_offset, oils_ug)"
        " SELECT uuid, 'x', name, recipe_id, revision, started_s, utc_offset, oils_ug FROM batch",
        "INSERT INTO batch (uuid, number, name, recipe_id, revision, started_s, utc_offset, oils_ug, set_aside)"
        " SELECT randomblob(16), 'x', name, recipe_id, revision, started_s, utc_offset, oils_ug, 1 FROM batch LIMIT 1",
        "UPDATE batch_frozen SET recipe = ''",
        "DELETE FROM batch_frozen",
        "INSERT OR REPLACE INTO batch_frozen SELECT * FROM batch_frozen",
        "UPDATE batch_vessel SET empty_ug = 1",
        "DELETE FROM batch_vessel",
        "INSERT OR REPLACE INTO batch_vessel SELECT * FROM batch_vessel",
        "INSERT INTO batch_vessel SELECT batch_id, 9, name, empty_ug FROM batch_vessel LIMIT 1",
    };
    struct fixture *fixture = *state;
    int64_t id = begin(fixture, "26-001");
    char said[LW_ERROR_BYTES];

    begin(fixture, "26-002");
    add(fixture, id, 1, EVENT_NOTE, 0);
    add(fixture, id, 2, EVENT_FINISHED, 0);
    for (size_t i = 0; i < sizeof statements / sizeof statements[0]; i++) {
        int code = shell(fixture, statements[i], said);

        if (code != SQLITE_CONSTRAINT || (!strstr(said, "only grows") && !strstr(said, "a batch is new")))
            fail_msg("not refused: %s (%s)", statements[i], said);
    }
    assert_int_equal(read_after(fixture, id, 0), 2);
    listed(fixture, BATCHES_ALL, "26-002 26-001 finished ");
    scratch_verify(fixture->store);
}

static void a_revision_stays_while_a_batch_is_made_of_it(void **state)
{
    struct fixture *fixture = *state;
    char said[LW_ERROR_BYTES];

    begin(fixture, "26-001");
    assert_int_equal(
        shell(fixture,
              "PRAGMA foreign_keys = ON; DROP TRIGGER revision_delete; DELETE FROM revision WHERE number = "
              "1",
              said),
        SQLITE_CONSTRAINT);
}

static void the_highest_serial_is_found_among_the_numbers_of_a_pattern(void **state)
{
    static const char *const numbers[] = {"26-007", "26-012", "26-1002", "26-9x",
                                          "25-900", "26-",    "26",      "26-99999999999999999999",
                                          "Q5/26",  "Q17/26", "Q18/25",  "QX9/26"};
    static const struct {
        const char *prefix, *suffix;
        int64_t serial;
    } expected[] = {{"26-", "", 1002}, {"25-", "", 900}, {"24-", "", 0},    {"Q", "/26", 17},
                    {"Q", "/25", 18},  {"Q", "", 0},     {"26-", "2", 100}, {"", "", 26}};
    struct fixture *fixture = *state;
    int64_t serial;

    ok(fixture, batches_serial(fixture->store, "26-", "", &serial, &fixture->error));
    assert_int_equal(serial, 0);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
        begin(fixture, numbers[i]);
    for (size_t i = 0; i < sizeof expected / sizeof expected[0]; i++) {
        ok(fixture, batches_serial(fixture->store, expected[i].prefix, expected[i].suffix, &serial, &fixture->error));
        if (serial != expected[i].serial)
            fail_msg("%s#%s: %lld", expected[i].prefix, expected[i].suffix, (long long)serial);
    }
}

static void the_last_time_the_safety_notes_were_read_is_that_of_any_batch(void **state)
{
    struct fixture *fixture = *state;
    int64_t a = begin(fixture, "a"), b = begin(fixture, "b"), at_s = -1;
    struct batch_event event = event_of(1, EVENT_ACKNOWLEDGED);

    ok(fixture, batches_acknowledged(fixture->store, &at_s, &fixture->error));
    assert_int_equal(at_s, 0);
    event.at_s = 500;
    ok(fixture, append(fixture, b, &event));
    event.at_s = 400;
    ok(fixture, append(fixture, a, &event));
    ok(fixture, batches_acknowledged(fixture->store, &at_s, &fixture->error));
    assert_int_equal(at_s, 500);
    add(fixture, b, 2, EVENT_TAKEN_BACK, 1);
    ok(fixture, batches_acknowledged(fixture->store, &at_s, &fixture->error));
    assert_int_equal(at_s, 400);
}

/* Steps of SQLite's machine that a statement took since this was last asked. */
static int steps_taken(struct fixture *fixture, enum sql sql)
{
    return sqlite3_stmt_status(fixture->store->statement[sql], SQLITE_STMTSTATUS_VM_STEP, 1);
}

static int steps_to_acknowledged(struct fixture *fixture)
{
    int64_t at_s;

    ok(fixture, batches_acknowledged(fixture->store, &at_s, &fixture->error));
    return steps_taken(fixture, SQL_BATCH_ACKNOWLEDGED);
}

static int steps_to_add(struct fixture *fixture, int64_t id, int64_t event_id, enum event_kind kind, int64_t other)
{
    steps_taken(fixture, SQL_BATCH_EVENT_INSERT);
    add(fixture, id, event_id, kind, other);
    return steps_taken(fixture, SQL_BATCH_EVENT_INSERT);
}

/* A look-up that finds a row takes a few steps more than one that finds none; a walk would take some for each event. */
static void hardly_more(int steps, int before)
{
    if (steps > before + EVENTS / 10)
        fail_msg("%d steps, in a short record %d", steps, before);
}

/* By count, not by time: https://www.sqlite.org/c3ref/c_stmtstatus_counter.html */
static void nothing_takes_more_steps_in_a_long_record_than_in_a_short_one(void **state)
{
    struct fixture *fixture = *state;
    int64_t a = begin(fixture, "26-001"), b = begin(fixture, "26-002");
    int acknowledged, finished, taken_back, note;

    add(fixture, a, 1, EVENT_ACKNOWLEDGED, 0);
    acknowledged = steps_to_acknowledged(fixture);
    note = steps_to_add(fixture, a, 2, EVENT_NOTE, 0);
    finished = steps_to_add(fixture, a, 3, EVENT_FINISHED, 0);
    taken_back = steps_to_add(fixture, a, 4, EVENT_TAKEN_BACK, 3);
    add(fixture, b, 1, EVENT_ACKNOWLEDGED, 0);
    for (int64_t i = 2; i < EVENTS; i++)
        add(fixture, b, i, EVENT_NOTE, 0);
    hardly_more(steps_to_acknowledged(fixture), acknowledged);
    hardly_more(steps_to_add(fixture, b, EVENTS, EVENT_NOTE, 0), note);
    hardly_more(steps_to_add(fixture, b, EVENTS + 1, EVENT_FINISHED, 0), finished);
    hardly_more(steps_to_add(fixture, b, EVENTS + 2, EVENT_TAKEN_BACK, EVENTS + 1), taken_back);
}

/* What the keystroke waits for: https://www.sqlite.org/c3ref/c_stmtstatus_counter.html */
static void nothing_at_the_bench_scans_a_table_or_sorts(void **state)
{
    static const enum event_kind kinds[] = {EVENT_NOTE, EVENT_SET_ASIDE, EVENT_FINISHED, EVENT_ACKNOWLEDGED};
    struct fixture *fixture = *state;
    struct store *store = fixture->store;
    struct batch_head head;
    char *frozen, *bench;
    int64_t serial, id = 0;
    int looked_at = 0;

    for (int i = 0; i < 20; i++) {
        char number[BATCH_NUMBER_BYTES] = "";

        text_add(number, sizeof number, "26-%03d", i);
        id = begin(fixture, number);
        for (int64_t k = 0; i % 2 == 0 && k < 4; k++)
            add(fixture, id, k + 1, kinds[k], 0);
        if (i % 4 == 0)
            add(fixture, id, 5, EVENT_TAKEN_BACK, 2);
        read_after(fixture, id, 1);
        ok(fixture, batches_load(store, id, &head, &frozen, &bench, &fixture->error));
        free(frozen);
        free(bench);
        ok(fixture, batches_steps(store, id, keep_step, (struct step[STEPS]){0}, &fixture->error));
    }
    listed(fixture, BATCHES_RUNNING, "26-001 26-003 26-005 26-007 26-009 26-011 26-013 26-015 26-017 26-019 ");
    ok(fixture, batches_each(store, BATCHES_ALL, take_line, &(struct batch_line){0}, &fixture->error));
    ok(fixture, batches_serial(store, "26-", "", &serial, &fixture->error));
    ok(fixture, batches_acknowledged(store, &serial, &fixture->error));
    for (enum sql sql = SQL_BATCHES_RUNNING; sql <= SQL_BATCH_ACKNOWLEDGED; sql++) {
        sqlite3_stmt *statement = store->statement[sql];

        assert_non_null(statement);
        looked_at++;
        assert_int_equal(sqlite3_stmt_status(statement, SQLITE_STMTSTATUS_SORT, 0), 0);
        assert_int_equal(sqlite3_stmt_status(statement, SQLITE_STMTSTATUS_AUTOINDEX, 0), 0);
        if (sqlite3_stmt_status(statement, SQLITE_STMTSTATUS_FULLSCAN_STEP, 0) != 0)
            fail_msg("scans: %s", sql_text(sql));
    }
    assert_true(looked_at > 10);
}

static void the_words_in_the_tables_are_those_of_the_model(void **state)
{
    struct fixture *fixture = *state;
    int64_t id = begin(fixture, "26-001"), next = 1;
    sqlite3_stmt *row;

    for (int kind = 0; kind < EVENT_KIND_COUNT; kind++) {
        struct batch_event event = event_of(next, (enum event_kind)kind);

        event.step = 1;
        event.mass_ug = 1;
        event.number[0] = event.number[1] = 1;
        event.what.part = (enum part)(kind % (PART_COLOURANT + 1));
        event.other = kind == EVENT_TIMER_OFF || kind == EVENT_TAKEN_BACK ? 1 : 0;
        ok(fixture, append(fixture, id, &event));
        next++;
    }
    assert_int_equal(
        sqlite3_prepare_v2(fixture->store->db, "SELECT kind, part FROM batch_event ORDER BY id", -1, &row, NULL),
        SQLITE_OK);
    for (int kind = 0; kind < EVENT_KIND_COUNT; kind++) {
        assert_int_equal(sqlite3_step(row), SQLITE_ROW);
        assert_string_equal((const char *)sqlite3_column_text(row, 0), name_of_event((enum event_kind)kind));
        assert_string_equal((const char *)sqlite3_column_text(row, 1),
                            name_of_part((enum part)(kind % (PART_COLOURANT + 1))));
    }
    sqlite3_finalize(row);
    for (int kind = 0; kind < STEP_KIND_COUNT; kind++) {
        struct step step = {.id = STEPS + 1 + kind,
                            .kind = (enum step_kind)kind,
                            .use = (enum vessel_use)(kind % (VESSEL_BAG + 1)),
                            .vessel = -1};

        ok(fixture, batches_append(fixture->store, id, &step, 1, NULL, 0, &fixture->error));
    }
    assert_int_equal(sqlite3_prepare_v2(fixture->store->db,
                                        "SELECT kind, vessel_use FROM batch_step WHERE id > 3 ORDER BY id", -1, &row,
                                        NULL),
                     SQLITE_OK);
    for (int kind = 0; kind < STEP_KIND_COUNT; kind++) {
        assert_int_equal(sqlite3_step(row), SQLITE_ROW);
        assert_string_equal((const char *)sqlite3_column_text(row, 0), name_of_step((enum step_kind)kind));
        assert_string_equal((const char *)sqlite3_column_text(row, 1),
                            name_of_vessel_use((enum vessel_use)(kind % (VESSEL_BAG + 1))));
    }
    sqlite3_finalize(row);
}

/* What the shell is given to begin with. */
static void begin_reading(struct fixture *fixture)
{
    size_t n;
    char *reading = scratch_read("schema/reading.sql", &n);

    assert_int_equal(sqlite3_exec(fixture->store->db, reading, NULL, NULL, NULL), SQLITE_OK);
    free(reading);
}

/* One cell of a view, as the shell of SQLite shows it. */
static void reads(struct fixture *fixture, const char *sql, const char *expected)
{
    sqlite3_stmt *row;

    if (sqlite3_prepare_v2(fixture->store->db, sql, -1, &row, NULL) != SQLITE_OK)
        fail_msg("%s: %s", sql, sqlite3_errmsg(fixture->store->db));
    assert_int_equal(sqlite3_step(row), SQLITE_ROW);
    assert_string_equal((const char *)sqlite3_column_text(row, 0), expected);
    sqlite3_finalize(row);
}

static void the_readings_for_the_shell_say_what_was_done(void **state)
{
    struct fixture *fixture = *state;
    int64_t id = begin(fixture, "26-001");
    struct batch_event weighed = event_of(1, EVENT_WEIGHED);

    weighed.step = 2;
    weighed.what = (struct part_ref){PART_OIL, 1, 0};
    weighed.mass_ug = 251500000;
    weighed.planned_ug = 250000000;
    weighed.reading_ug = 463500000;
    weighed.number[0] = 1;
    ok(fixture, append(fixture, id, &weighed));
    add(fixture, id, 2, EVENT_SET_ASIDE, 0);
    begin_reading(fixture);
    reads(fixture,
          "SELECT batch || ', ' || step || ' ' || what || ': ' || mass_g || ' for ' || planned_g || ', off ' || off_g"
          " || ', read ' || reading_g || ', counts ' || counts FROM weighing_reading",
          "26-001, weigh coconut: 251.5 for 250.0, off 1.5, read 463.5, counts 1");
    add(fixture, id, 3, EVENT_TAKEN_BACK, 1);
    reads(fixture, "SELECT counts || ' by ' || taken_back_by FROM event_reading WHERE event = 1", "0 by 3");
    /* 1709200000 is 2024-02-29 09:46:40 UTC (from memory, as date(1) has it); the maker is an hour behind. */
    reads(fixture,
          "SELECT number || ' ' || recipe || ' ' || started_local || ' ' || state || ' ' || oils_g || ' ' || events"
          " FROM batch_reading",
          "26-001 Blossoms and leaves 2024-02-29 08:46:40 set aside 190.0 3");
}

struct sentences {
    int n;
    char last[LW_ERROR_BYTES];
};

static void keep_sentence(void *context, const char *sentence)
{
    struct sentences *sentences = context;

    sentences->n++;
    text_copy(sentences->last, sizeof sentences->last, sentence);
}

/* The triggers are gone, as where another program has mended the file. */
static void a_record_that_is_torn_is_found_and_named(void **state)
{
    static const struct {
        const char *damage, *mended, *words;
    } torn[] = {
        {"DELETE FROM batch_event WHERE id = 2", "INSERT INTO batch_event SELECT * FROM kept WHERE id = 2",
         "gap in its events"},
        {"UPDATE batch_event SET id = 9 WHERE id = 3", "UPDATE batch_event SET id = 3 WHERE id = 9",
         "gap in its events"},
        {"UPDATE batch_step SET id = 9 WHERE id = 3", "UPDATE batch_step SET id = 3 WHERE id = 9", "gap in its steps"},
        {"UPDATE batch_event SET step = 9 WHERE id = 1", "UPDATE batch_event SET step = NULL WHERE id = 1",
         "step that is not there"},
        {"UPDATE batch SET set_aside = 1", "UPDATE batch SET set_aside = 0", "set aside"},
        {"UPDATE batch SET finished_s = 5", "UPDATE batch SET finished_s = 0", "finished"},
        {"CREATE TABLE texts AS SELECT * FROM batch_frozen; DELETE FROM batch_frozen",
         "INSERT INTO batch_frozen SELECT * FROM texts", "lost the recipe"},
    };
    struct fixture *fixture = *state;
    int64_t id = begin(fixture, "26-001");

    for (int64_t i = 1; i <= 3; i++)
        add(fixture, id, i, EVENT_NOTE, 0);
    shell_does(fixture, "CREATE TABLE kept AS SELECT * FROM batch_event;"
                        "DROP TRIGGER batch_event_insert; DROP TRIGGER batch_event_update; DROP TRIGGER "
                        "batch_event_delete; DROP TRIGGER batch_step_update; DROP TRIGGER batch_update;"
                        "DROP TRIGGER batch_frozen_delete");
    scratch_verify(fixture->store);
    for (size_t i = 0; i < sizeof torn / sizeof torn[0]; i++) {
        struct sentences sentences = {0};
        int found;

        shell_does(fixture, torn[i].damage);
        ok(fixture, store_verify(fixture->store, keep_sentence, &sentences, &found, &fixture->error));
        if (found != sentences.n || found == 0 || !strstr(sentences.last, "26-001") ||
            !strstr(sentences.last, torn[i].words))
            fail_msg("%s: %d \"%s\"", torn[i].damage, found, sentences.last);
        shell_does(fixture, torn[i].mended);
        scratch_verify(fixture->store);
    }
}

/* CHECKs can be passed by; what is read is looked at again. */
static void a_record_with_words_of_no_meaning_is_damage(void **state)
{
    struct fixture *fixture = *state;
    int64_t id = begin(fixture, "26-001");
    struct sentences sentences = {0};
    int found;

    add(fixture, id, 1, EVENT_NOTE, 0);
    shell_does(fixture, "DROP TRIGGER batch_event_update; PRAGMA ignore_check_constraints = ON;"
                        "UPDATE batch_event SET kind = 'sung'");
    assert_int_equal(batches_events(fixture->store, id, 0, keep_event, fixture, &fixture->error), LW_CORRUPT);
    assert_int_equal(fixture->reads, 0);
    ok(fixture, store_verify(fixture->store, keep_sentence, &sentences, &found, &fixture->error));
    assert_int_equal(found, 1);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_batch_comes_back_with_its_head_texts_and_steps),
        TEST(a_batch_without_uuid_gets_one),
        TEST(neither_a_number_nor_a_uuid_comes_twice),
        TEST(a_batch_is_made_of_a_revision_that_is_kept),
        TEST(a_batch_that_does_not_fit_is_not_begun_at_all),
        TEST(every_member_of_an_event_comes_back),
        TEST(steps_are_added_with_the_events_that_name_them),
        TEST(a_batch_has_no_more_steps_than_the_model_holds),
        TEST(who_appends_second_is_told_and_goes_on_after_reading),
        TEST(events_that_leave_a_gap_or_are_of_no_batch_are_refused),
        TEST(events_out_of_their_ranges_are_refused),
        TEST(what_is_said_of_a_finished_batch_is_taken_to_the_ends_of_its_ranges),
        TEST(batches_are_listed_running_oldest_first_and_all_newest_first),
        TEST(finishing_and_setting_aside_move_a_batch_off_the_bench),
        TEST(what_was_taken_back_brings_it_to_the_bench_again),
        TEST(a_record_cannot_be_changed_by_sql),
        TEST(a_revision_stays_while_a_batch_is_made_of_it),
        TEST(the_highest_serial_is_found_among_the_numbers_of_a_pattern),
        TEST(the_last_time_the_safety_notes_were_read_is_that_of_any_batch),
        TEST(nothing_takes_more_steps_in_a_long_record_than_in_a_short_one),
        TEST(nothing_at_the_bench_scans_a_table_or_sorts),
        TEST(the_words_in_the_tables_are_those_of_the_model),
        TEST(the_readings_for_the_shell_say_what_was_done),
        TEST(a_record_that_is_torn_is_found_and_named),
        TEST(a_record_with_words_of_no_meaning_is_damage),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
