/* demo_image.c - see the header. */
#include "demo_image.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "store/book.h"
#include "support/scratch.h"
#include "work/lessons.h"

static void now_is(void *context, struct lw_now *now)
{
    (void)context;
    *now = (struct lw_now){.utc_s = DEMO_IMAGE_S};
}

int demo_image_setup(void **state)
{
    struct scratch *scratch = NULL;
    struct workshop *workshop = NULL;
    struct lw_error error = {""};
    struct store_options store;
    char path[512];
    size_t n;

    scratch_setup((void **)&scratch);
    snprintf(path, sizeof path, "%s/generated/demo.db", getenv("LYEWAY_OBJ"));
    store = scratch_options(scratch, STORE_IMAGE);
    store.image = (const unsigned char *)scratch_read(path, &n);
    store.image_bytes = n;
    if (workshop_open(&(struct workshop_options){.path = "", .store = store, .now = now_is}, &workshop, &error) !=
            LW_OK ||
        workshop_learn(workshop, &error) != LW_OK)
        fail_msg("%s", error.text);
    free((void *)store.image);
    scratch_teardown((void **)&scratch);
    *state = workshop;
    return 0;
}

int demo_image_teardown(void **state)
{
    return workshop_close(*state, NULL) == LW_OK ? 0 : -1;
}

struct run *demo_image_run(struct workshop *workshop, const char *number)
{
    struct lw_error error = {""};
    struct run *run = NULL;
    int64_t id = 0;

    if (book_find(workshop_store(workshop), number, &id, &error) != LW_OK ||
        run_open(workshop, id, &run, &error) != LW_OK)
        fail_msg("%s: %s", number, error.text);
    return run;
}
