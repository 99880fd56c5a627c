/* bench_save.c - a durable save of an edit, and of an event at the bench, against the least that any durable save can do: appending to
 * a file in the same folder, and fdatasync. */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "bench/measure.h"
#include "store/batches.h"
#include "store/recipes.h"
#include "work/change.h"

enum { PATH_BYTES = 64, OILS = 12, PORTIONS = 8, RECIPES = 100, APPENDED_BYTES = 4096 };

static const double ratio_most = 2.0;

struct subject {
    struct store *store;
    int64_t id, version;
    struct recipe recipe;
    struct change change;
    int64_t batch;
    struct batch_event event;
    int failed;
};

struct floor {
    int fd;
    char bytes[APPENDED_BYTES]; /* a page, as much as the log takes of one row */
    int failed;
};

static const struct lw_now now = {.utc_s = 1709200000};

static void count_up(void *context, uint8_t *bytes, size_t n)
{
    unsigned *count = context;

    memset(bytes, 0, n);
    memcpy(bytes, count, sizeof *count);
    ++*count;
}

static void make_recipe(struct recipe *recipe)
{
    memset(recipe, 0, sizeof *recipe);
    snprintf(recipe->name, sizeof recipe->name, "Blossoms and leaves");
    recipe->oils = OILS;
    recipe->portions = PORTIONS;
    for (int i = 0; i < OILS; i++)
        snprintf(recipe->oil[i].name, sizeof recipe->oil[i].name, "oil %d", i);
}

/* One keystroke's worth: the amount of an oil. */
static void save(void *context, size_t times)
{
    struct subject *subject = context;
    struct lw_error error = {""};

    for (size_t i = 0; i < times; i++) {
        change_begin(&subject->recipe, CHANGE_OIL, (int)(i % OILS), &subject->change);
        subject->change.after.oil.amount = (double)(subject->version % 1000);
        if (recipes_save(subject->store, subject->id, &subject->version, &subject->change, 1, &now, &error) != LW_OK)
            subject->failed++;
    }
}

/* One weighing. */
static void weigh(void *context, size_t times)
{
    struct subject *subject = context;
    struct lw_error error = {""};

    for (size_t i = 0; i < times; i++) {
        subject->event.id++;
        if (batches_append(subject->store, subject->batch, NULL, 0, &subject->event, 1, &error) != LW_OK)
            subject->failed++;
    }
}

static void append(void *context, size_t times)
{
    struct floor *floor = context;

    for (size_t i = 0; i < times; i++)
        if (write(floor->fd, floor->bytes, sizeof floor->bytes) != (ssize_t)sizeof floor->bytes ||
            fdatasync(floor->fd) != 0)
            floor->failed++;
}

static bool begin_batch(struct subject *subject)
{
    struct batch_head head = {.number = "24-001", .recipe_id = subject->id, .started_s = now.utc_s};
    const struct step step = {.id = 1, .kind = STEP_WEIGH, .what = {PART_OIL, 1, 0}, .vessel = -1};
    struct lw_error error = {""};

    subject->event = (struct batch_event){.kind = EVENT_WEIGHED, .step = 1, .what = {PART_OIL, 1, 0}, .number = {1, 0}};
    if (recipes_seal(subject->store, subject->id, &now, &head.revision, &error) != LW_OK ||
        batches_create(subject->store, &head, 1, "{}", "", &step, 1, &error) != LW_OK)
        return false;
    subject->batch = head.id;
    return true;
}

static bool open_subject(struct subject *subject, const char *path, unsigned *count)
{
    struct store_options options = {.how = STORE_CREATE, .random = count_up, .context = count};
    struct lw_error error = {""};

    if (store_open(path, &options, &subject->store, &error) != LW_OK)
        return false;
    make_recipe(&subject->recipe);
    for (int i = 0; i < RECIPES; i++)
        if (recipes_create(subject->store, &subject->recipe, &now, &subject->id, &error) != LW_OK)
            return false;
    subject->version = 1;
    return begin_batch(subject);
}

static void remove_all(const char *folder)
{
    static const char *const names[] = {"store", "store-wal", "store-shm", "floor"};
    char path[2 * PATH_BYTES];

    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        snprintf(path, sizeof path, "%s/%s", folder, names[i]);
        unlink(path);
    }
    rmdir(folder);
}

/* Measures and prints one; false where it allocates. */
static bool told(const char *what, void (*run)(void *context, size_t times), struct subject *subject,
                 struct floor *floor)
{
    struct ratio result = measure(&(struct work){run, subject, 10}, &(struct work){append, floor, 10});
    size_t before = allocations();

    run(subject, 1);

    size_t allocated = allocations() - before;

    printf("%s: %.0f us, append and fdatasync %.0f us, ratio %.2f (at most %.1f), allocations of ours %zu (none)%s\n",
           what, result.subject_us, result.floor_us, result.ratio, ratio_most, allocated,
           result.ratio > ratio_most ? "  MISSED" : "");
    return allocated == 0;
}

int main(void)
{
    static struct subject subject;
    static struct floor floor;
    char folder[PATH_BYTES] = "/tmp/lyeway-bench-XXXXXX", store[2 * PATH_BYTES], file[2 * PATH_BYTES];
    unsigned count = 1;

    if (!mkdtemp(folder))
        return 1;
    snprintf(store, sizeof store, "%s/store", folder);
    snprintf(file, sizeof file, "%s/floor", folder);
    floor.fd = open(file, O_WRONLY | O_CREAT | O_APPEND, 0600);
    if (floor.fd < 0 || !open_subject(&subject, store, &count)) {
        fprintf(stderr, "The store that is measured cannot be made.\n");
        return 1;
    }

    bool good = told("save an edit", save, &subject, &floor) && told("save an event", weigh, &subject, &floor);

    store_close(subject.store, NULL);
    close(floor.fd);
    remove_all(folder);
    return good && subject.failed == 0 && floor.failed == 0 ? 0 : 1;
}
