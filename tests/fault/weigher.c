/* weigher.c - see the header. */
#include "fault/weigher.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "store/recipes.h"

enum { EVENTS_AN_APPEND = 3 };

static enum lw_status keep_recipe(struct store *store, const struct lw_now *now, int64_t *id, struct lw_error *error)
{
    static const struct recipe recipe = {.name = "Orchard base"};
    int number;
    enum lw_status status = recipes_create(store, &recipe, now, id, error);

    return status == LW_OK ? recipes_seal(store, *id, now, &number, error) : status;
}

enum lw_status weigher_begin(struct weigher *weigher, struct store *store, const struct lw_now *now,
                             struct lw_error *error)
{
    struct batch_head head = {.number = "26-001", .name = "Orchard base", .revision = 1, .started_s = now->utc_s};
    struct step step = {.id = 1, .kind = STEP_WEIGH, .vessel = -1};
    enum lw_status status = keep_recipe(store, now, &head.recipe_id, error);

    weigher->store = store;
    weigher->appended = -1;
    if (status == LW_OK)
        status = batches_create(store, &head, 1000000000, "{}", "", &step, 1, error);
    if (status != LW_OK)
        return status;
    weigher->id = head.id;
    weigher->appended = 0;
    return LW_OK;
}

enum lw_status weigher_append(struct weigher *weigher, struct lw_error *error)
{
    static const enum event_kind kinds[EVENTS_AN_APPEND] = {EVENT_WEIGHED, EVENT_NOTE, EVENT_DONE};
    struct batch_event events[EVENTS_AN_APPEND] = {0};
    int n = weigher->appended + 1;
    enum lw_status status;

    for (int i = 0; i < EVENTS_AN_APPEND; i++) {
        events[i].id = EVENTS_AN_APPEND * weigher->appended + i + 1;
        events[i].kind = kinds[i];
        events[i].step = 1;
        events[i].mass_ug = n;
        events[i].number[0] = 1;
        snprintf(events[i].text, sizeof events[i].text, "%d", n);
    }
    status = batches_append(weigher->store, weigher->id, NULL, 0, events, EVENTS_AN_APPEND, error);
    if (status == LW_OK)
        weigher->appended = n;
    return status;
}

static bool check_event(void *context, const struct batch_event *event)
{
    int *events = context, n = *events / EVENTS_AN_APPEND + 1;

    assert_int_equal(event->id, ++*events);
    assert_int_equal(event->mass_ug, n);
    assert_int_equal(strtol(event->text, NULL, 10), n);
    return true;
}

static bool take_id(void *context, const struct batch_line *line)
{
    *(int64_t *)context = line->id;
    return false;
}

int weigher_find(struct weigher *weigher, struct store *store)
{
    struct lw_error error = {""};
    int64_t id = 0;
    int events = 0;

    if (batches_each(store, BATCHES_RUNNING, take_id, &id, &error) != LW_OK)
        fail_msg("%s", error.text);
    if (id == 0)
        return -1;
    weigher->store = store;
    weigher->id = id;
    if (batches_events(store, id, 0, check_event, &events, &error) != LW_OK)
        fail_msg("%s", error.text);
    assert_int_equal(events % EVENTS_AN_APPEND, 0);
    return events / EVENTS_AN_APPEND;
}
