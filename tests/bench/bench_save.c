/* bench_save.c - a durable save of an edit against the least that any durable save can do: appending to a file in the same folder,
 * and fdatasync. */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "bench/measure.h"
#include "store/recipes.h"
#include "work/change.h"

enum { PATH_BYTES = 64, OILS = 12, PORTIONS = 8, RECIPES = 100, APPENDED_BYTES = 4096 };

static const double ratio_most = 2.0;

struct subject {
    struct store *store;
    int64_t id, version;
    struct recipe recipe;
    struct change change;
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

static void append(void *context, size_t times)
{
    struct floor *floor = context;

    for (size_t i = 0; i < times; i++)
        if (write(floor->fd, floor->bytes, sizeof floor->bytes) != (ssize_t)sizeof floor->bytes ||
            fdatasync(floor->fd) != 0)
            floor->failed++;
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
    return true;
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

    struct ratio result = measure(&(struct work){save, &subject, 10}, &(struct work){append, &floor, 10});
    size_t before = allocations();

    save(&subject, 1);

    size_t allocated = allocations() - before;

    store_close(subject.store, NULL);
    close(floor.fd);
    remove_all(folder);
    printf("save an edit: %.0f us, append and fdatasync %.0f us, ratio %.2f (at most %.1f), allocations of ours %zu "
           "(none)%s\n",
           result.subject_us, result.floor_us, result.ratio, ratio_most, allocated,
           result.ratio > ratio_most ? "  MISSED" : "");
    return subject.failed == 0 && floor.failed == 0 && allocated == 0 ? 0 : 1;
}
