/* maker.c - see the header. */
#include "fault/maker.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "work/change.h"

enum { COLOURANTS = 3, OILS = 5 };

static void make_recipe(struct recipe *recipe)
{
    memset(recipe, 0, sizeof *recipe);
    snprintf(recipe->name, sizeof recipe->name, "Blossoms and leaves");
    snprintf(recipe->note, sizeof recipe->note, "0");
    recipe->oils = OILS;
    recipe->portions = 2;
    recipe->portion[1].colourants = COLOURANTS;
    recipe->scales = 1;
}

enum lw_status maker_begin(struct maker *maker, struct store *store, const struct lw_now *now, struct lw_error *error)
{
    enum lw_status status;

    maker->store = store;
    maker->saved = -1;
    make_recipe(&maker->recipe);
    status = recipes_create(store, &maker->recipe, now, &maker->id, error);
    maker->version = 1;
    maker->saved = status == LW_OK ? 0 : -1;
    return status;
}

static void make_changes(struct maker *maker, int n)
{
    struct change *change = maker->change;

    change_begin(&maker->recipe, CHANGE_HEAD, 0, &change[0]);
    change[0].after.head.residue = n;
    change_begin(&maker->recipe, CHANGE_NOTE, 0, &change[1]);
    snprintf(change[1].after.note, LW_NOTE_BYTES, "%d", n);
    change_begin(&maker->recipe, CHANGE_OIL, n % OILS, &change[2]);
    for (int i = 0; i < OILS; i++)
        change[2].after.oil.amount = n;
    change_begin(&maker->recipe, CHANGE_PORTION, 1, &change[3]);
    for (int i = 0; i < COLOURANTS; i++)
        change[3].after.portion.colourant[i].value = n;
}

enum lw_status maker_save(struct maker *maker, const struct lw_now *now, struct lw_error *error)
{
    enum lw_status status;

    make_changes(maker, maker->saved + 1);
    status = recipes_save(maker->store, maker->id, &maker->version, maker->change, 4, now, error);
    if (status != LW_OK)
        return status;
    maker->saved++;
    for (int i = 0; i < 4; i++)
        change_apply(&maker->recipe, &maker->change[i], true, NULL);
    return LW_OK;
}

static int save_of(const struct recipe *recipe)
{
    int n = (int)recipe->residue;

    assert_int_equal(strtol(recipe->note, NULL, 10), n);
    assert_int_equal(recipe->oils, OILS);
    assert_int_equal(recipe->portions, 2);
    assert_true(recipe->oil[n % OILS].amount == n);
    assert_int_equal(recipe->portion[1].colourants, COLOURANTS);
    for (int i = 0; i < COLOURANTS; i++)
        assert_true(recipe->portion[1].colourant[i].value == n);
    return n;
}

int maker_find(struct maker *maker, struct store *store)
{
    struct lw_error error = {""};
    enum lw_status status = recipes_find(store, NULL, "Blossoms and leaves", &maker->id, &error);

    if (status == LW_NOT_FOUND)
        return -1;
    if (status != LW_OK || recipes_load(store, maker->id, 0, &maker->loaded, &maker->version, &error) != LW_OK)
        fail_msg("%s", error.text);
    return save_of(&maker->loaded);
}
