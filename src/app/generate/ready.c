/* ready.c - runs while building: makes the demo's store by the program's own calls, so that the demo need not do it at every start.
 *
 *   ready STORE RECIPES EARLIER HISTORY
 *
 * EARLIER are the recipes as they were two years ago, RECIPES those of today; both exchange files. HISTORY is the table of what was
 * made. The same files give the same store: the clock stands where it is put, and what is random elsewhere is a count here. */
#include <stdio.h>
#include <string.h>

#include "app/demo.h"
#include "app/files.h"
#include "base/day.h"
#include "base/error.h"
#include "history.h"
#include "work/book.h"
#include "work/plan_file.h"
#include "work/records.h"

enum { YEARS_BEFORE_DAYS = 735, CHANGED_BEFORE_DAYS = 200, MORNING_S = 9 * 3600, STORE_MOST_BYTES = 64 * 1024 * 1024 };

/* This bench's batter goes a fifth faster than practice says. */
static const double FASTER = 0.8;

static const uint64_t SEED = 20260127;

static void count_up(void *context, uint8_t *bytes, size_t n)
{
    uint64_t *count = context;

    ++*count;
    memset(bytes, 0, n);
    for (size_t i = 0; i < n && i < sizeof *count; i++)
        bytes[n - 1 - i] = (uint8_t)(*count >> (8 * i));
}

static void clock_of(void *context, struct lw_now *now)
{
    *now = ((struct maker *)context)->now;
}

static void read_file(const char *name, struct buffer *text)
{
    struct lw_error error = {""};

    buffer_init(text, STORE_MOST_BYTES);
    must(files_read(name, text, &error), &error);
}

static void bring_in(struct maker *maker, const char *name)
{
    struct buffer text;
    struct records_count count;
    struct lw_error error = {""};

    read_file(name, &text);
    must(records_import(maker->workshop, &(struct records_source){name, buffer_text(&text), text.length}, 1, &count,
                        &error),
         &error);
    buffer_done(&text);
}

static void live(struct maker *maker, const char *recipes, const char *history)
{
    struct happening happening;
    struct buffer text;
    const char *at;
    bool changed = false;

    read_file(history, &text);
    at = buffer_text(&text);
    while (history_next(&at, &happening)) {
        if (!changed && happening.days < CHANGED_BEFORE_DAYS) {
            maker->now.utc_s = DEMO_DAY_S - (int64_t)CHANGED_BEFORE_DAYS * DAY_S;
            bring_in(maker, recipes);
            changed = true;
        }
        maker->now.utc_s = DEMO_DAY_S - (int64_t)happening.days * DAY_S + MORNING_S;
        maker->skill = 1 - happening.days / (double)YEARS_BEFORE_DAYS;
        maker_make(maker, happening.recipe, happening.story, happening.note);
    }
    buffer_done(&text);
}

static void open_workshop(struct maker *maker, struct store_options *store)
{
    struct workshop_options options = {.store = *store, .path = "", .now = clock_of, .context = maker};
    struct lw_error error = {""};

    options.store.how = STORE_IMAGE;
    options.store.random = count_up;
    must(workshop_open(&options, &maker->workshop, &error), &error);
}

static void write_store(struct maker *maker, const char *name)
{
    struct lw_error error = {""};

    must(book_catch_up(maker->workshop, NULL, NULL, &error), &error);
    remove(name);
    must(workshop_backup(maker->workshop, name, NULL, NULL, &error), &error);
    must(workshop_close(maker->workshop, &error), &error);
}

/* The batches on the bench are moved so that the last that was said of them was said when the demo's day begins: the program moves
 * them on to the minute. */
static void move_present(struct maker *maker, const char *name, struct store_options *store, int64_t last_s)
{
    struct buffer image;

    read_file(name, &image);
    store->image = (const unsigned char *)buffer_text(&image);
    store->image_bytes = image.length;
    store->image_running_shift_s = DEMO_DAY_S - last_s;
    open_workshop(maker, store);
    write_store(maker, name);
    buffer_done(&image);
}

int main(int argc, char *argv[])
{
    uint64_t count = 0;
    struct store_options store = {.context = &count};
    struct maker maker = {.seed = SEED, .end_s = DEMO_DAY_S, .skill = 1, .own_pace = FASTER};
    struct lw_error error = {""};
    int64_t last_s;

    if (argc != 5) {
        fprintf(stderr, "usage: ready STORE RECIPES EARLIER HISTORY\n");
        return 2;
    }
    maker.now.utc_s = DEMO_DAY_S - (int64_t)YEARS_BEFORE_DAYS * DAY_S;
    open_workshop(&maker, &store);
    bring_in(&maker, argv[3]);
    bring_in(&maker, argv[2]);
    bring_in(&maker, argv[3]);
    live(&maker, argv[2], argv[4]);
    maker.now.utc_s = DEMO_DAY_S - DAY_S + MORNING_S;
    must(workshop_learn(maker.workshop, &error), &error);
    maker.own_pace = 1; /* plans know it by now */
    last_s = history_present(&maker);
    write_store(&maker, argv[1]);
    move_present(&maker, argv[1], &store, last_s);
    return 0;
}
