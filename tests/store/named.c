/* named.c - see the header. */
#include "store/named.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base/text.h"

void path_of(char path[SCRATCH_PATH_BYTES], const struct scratch *scratch, const char *suffix)
{
    snprintf(path, SCRATCH_PATH_BYTES, "%.200s%s", scratch->path, suffix);
}

void add_recipe(struct store *store, struct scratch *scratch, const char *name)
{
    struct recipe *recipe = calloc(1, sizeof *recipe);
    struct lw_error error = {""};
    int64_t id;

    assert_non_null(recipe);
    text_copy(recipe->name, sizeof recipe->name, name);
    if (recipes_create(store, recipe, &scratch->now, &id, &error) != LW_OK)
        fail_msg("%s", error.text);
    free(recipe);
}

bool has_recipe(struct store *store, const char *name)
{
    int64_t id;

    return recipes_find(store, NULL, name, &id, NULL) == LW_OK;
}

char *make_store(struct scratch *scratch, size_t *n)
{
    struct store *store = scratch_open(scratch);

    add_recipe(store, scratch, "Hedge Rose");
    scratch_close(store);
    return scratch_read(scratch->path, n);
}
