/* scratch.c - see the header. */
#include "support/scratch.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include <dirent.h>

int scratch_setup(void **state)
{
    struct scratch *scratch = calloc(1, sizeof *scratch);
    const char *base = getenv("TMPDIR");

    if (!scratch)
        return -1;
    snprintf(scratch->folder, sizeof scratch->folder, "%s/lyeway-test-XXXXXX", base ? base : "/tmp");
    if (!mkdtemp(scratch->folder)) {
        free(scratch);
        return -1;
    }
    snprintf(scratch->path, sizeof scratch->path, "%.200s/bench.lyeway", scratch->folder);
    scratch->chance = chance_of(20240229);
    scratch->now = (struct lw_now){.utc_s = 1709200000};
    *state = scratch;
    return 0;
}

static void remove_folder(const char *folder)
{
    DIR *dir = opendir(folder);
    char path[2 * SCRATCH_PATH_BYTES];

    if (!dir)
        return;
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        struct stat found;

        if (strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0)
            continue;
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        if (lstat(path, &found) == 0 && S_ISDIR(found.st_mode))
            remove_folder(path);
        else
            unlink(path);
    }
    closedir(dir);
    rmdir(folder);
}

int scratch_teardown(void **state)
{
    struct scratch *scratch = *state;

    chmod(scratch->folder, 0700);
    remove_folder(scratch->folder);
    free(scratch);
    return 0;
}

struct store_options scratch_options(struct scratch *scratch, enum store_how how)
{
    return (struct store_options){.how = how, .random = chance_bytes, .context = &scratch->chance};
}

struct store *scratch_open(struct scratch *scratch)
{
    struct store_options options = scratch_options(scratch, STORE_CREATE);
    struct lw_error error = {""};
    struct store *store;

    if (store_open(scratch->path, &options, &store, &error) != LW_OK)
        fail_msg("%s", error.text);
    return store;
}

void scratch_close(struct store *store)
{
    struct lw_error error = {""};

    if (store_close(store, &error) != LW_OK)
        fail_msg("%s", error.text);
}

char *scratch_read(const char *path, size_t *n)
{
    FILE *file = fopen(path, "rb");
    struct stat found;
    char *bytes;

    assert_non_null(file);
    assert_int_equal(fstat(fileno(file), &found), 0);
    bytes = malloc((size_t)found.st_size + 1);
    assert_non_null(bytes);
    assert_int_equal(fread(bytes, 1, (size_t)found.st_size, file), found.st_size);
    bytes[found.st_size] = '\0';
    fclose(file);
    *n = (size_t)found.st_size;
    return bytes;
}

void scratch_write(const char *path, const void *bytes, size_t n)
{
    FILE *file = fopen(path, "wb");

    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, n, file), n);
    assert_int_equal(fclose(file), 0);
}

bool scratch_exists(const char *path)
{
    struct stat found;

    return lstat(path, &found) == 0;
}

int scratch_files(const struct scratch *scratch)
{
    DIR *dir = opendir(scratch->folder);
    int n = 0;

    assert_non_null(dir);
    while (readdir(dir))
        n++;
    closedir(dir);
    return n - 2; /* "." and ".." */
}

static void tell(void *context, const char *sentence)
{
    (void)context;
    print_error("%s\n", sentence);
}

void scratch_verify(struct store *store)
{
    struct lw_error error = {""};
    int found;

    if (store_verify(store, tell, NULL, &found, &error) != LW_OK)
        fail_msg("%s", error.text);
    assert_int_equal(found, 0);
}
