/* booked.c - see the header. */
#include "store/booked.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base/text.h"
#include "store/recipes.h"

void booked_ok(struct booked *booked, enum lw_status status)
{
    if (status != LW_OK)
        fail_msg("status %d: %s", (int)status, booked->error.text);
}

static void keep_recipe(struct booked *booked)
{
    struct recipe *recipe = calloc(1, sizeof *recipe);
    int number;

    assert_non_null(recipe);
    text_copy(recipe->name, sizeof recipe->name, "Hedge Rose");
    recipe->fragrances = 2;
    text_copy(recipe->fragrance[0].name, LW_NAME_BYTES, "vetiver");
    text_copy(recipe->fragrance[1].name, LW_NAME_BYTES, "Lavender");
    recipe->portions = 2;
    recipe->portion[0].colourants = recipe->portion[1].colourants = 1;
    text_copy(recipe->portion[0].colourant[0].name, LW_NAME_BYTES, "pink clay");
    text_copy(recipe->portion[1].colourant[0].name, LW_NAME_BYTES, "Moss");
    booked_ok(booked, recipes_create(booked->store, recipe, &booked->scratch->now, &booked->recipe_id, &booked->error));
    booked_ok(booked, recipes_seal(booked->store, booked->recipe_id, &booked->scratch->now, &number, &booked->error));
    free(recipe);
}

int booked_setup(void **state)
{
    struct booked *booked = calloc(1, sizeof *booked);

    if (!booked || scratch_setup((void **)&booked->scratch) != 0)
        return -1;
    booked->store = scratch_open(booked->scratch);
    keep_recipe(booked);
    *state = booked;
    return 0;
}

int booked_teardown(void **state)
{
    struct booked *booked = *state;

    scratch_close(booked->store);
    scratch_teardown((void **)&booked->scratch);
    free(booked);
    return 0;
}

int64_t booked_batch(struct booked *booked, const char *name, int64_t started_s)
{
    struct batch_head head = {.recipe_id = booked->recipe_id, .revision = 1, .started_s = started_s, .offset_s = -3600};

    snprintf(head.number, sizeof head.number, "26-%03d", ++booked->batches);
    text_copy(head.name, sizeof head.name, name);
    booked_ok(booked, batches_create(booked->store, &head, 1, "{}", "", NULL, 0, &booked->error));
    return head.id;
}

void booked_event(struct booked *booked, int64_t batch_id, int64_t id, enum event_kind kind, int64_t other)
{
    const struct batch_event event = {.id = id, .at_s = 1709200000 + id, .kind = kind, .scale = -1, .other = other};

    booked_ok(booked, batches_append(booked->store, batch_id, NULL, 0, &event, 1, &booked->error));
}

struct book_row booked_row(int64_t batch_id)
{
    struct book_row row = {.batch_id = batch_id};

    for (int i = 0; i < BOOK_FIGURE_COUNT; i++)
        row.figure[i] = (double)NAN;
    return row;
}

void booked_write(struct booked *booked, const struct book_row *row, const char *recipe, const char *said)
{
    const struct book_words words = {
        .recipe = recipe, .colourants = "pink clay", .fragrances = "vetiver", .said = said};

    booked_ok(booked, book_write(booked->store, row, &words, &booked->error));
}

/* By count, not by time: https://www.sqlite.org/c3ref/c_stmtstatus_counter.html */
int booked_unscanned(struct booked *booked, enum sql first, enum sql last)
{
    int used = 0;

    for (enum sql sql = first; sql <= last; sql++) {
        sqlite3_stmt *statement = booked->store->statement[sql];

        if (!statement)
            continue;
        used++;
        if (sqlite3_stmt_status(statement, SQLITE_STMTSTATUS_FULLSCAN_STEP, 0) != 0)
            fail_msg("scans: %s", sql_text(sql));
        if (sqlite3_stmt_status(statement, SQLITE_STMTSTATUS_SORT, 0) != 0 ||
            sqlite3_stmt_status(statement, SQLITE_STMTSTATUS_AUTOINDEX, 0) != 0)
            fail_msg("sorts: %s", sql_text(sql));
    }
    return used;
}
