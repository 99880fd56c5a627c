/* scratch.h - a folder of a test's own, and stores in it. */
#ifndef SUPPORT_SCRATCH_H
#define SUPPORT_SCRATCH_H

#include <stdbool.h>
#include <stddef.h>

#include "store/store.h"
#include "support/random_recipe.h"

enum { SCRATCH_PATH_BYTES = 256 };

struct scratch {
    char folder[SCRATCH_PATH_BYTES];
    char path[SCRATCH_PATH_BYTES]; /* of a store in it, which is not there yet */
    struct chance chance;
    struct lw_now now;
};

/* As cmocka wants its setup and teardown: *state becomes a struct scratch, and all of the folder goes. */
int scratch_setup(void **state);
int scratch_teardown(void **state);

/* Opens the store at scratch->path; the test fails where that fails. */
struct store *scratch_open(struct scratch *scratch);

/* Closes it; the test fails where that fails. */
void scratch_close(struct store *store);

struct store_options scratch_options(struct scratch *scratch, enum store_how how);

/* A whole file, closed by a NUL; to be freed. The test fails where it cannot be read. */
char *scratch_read(const char *path, size_t *n);
void scratch_write(const char *path, const void *bytes, size_t n);
bool scratch_exists(const char *path);

/* How many files are in the folder. */
int scratch_files(const struct scratch *scratch);

/* The sound of a store that has no fault: nothing found by store_verify. */
void scratch_verify(struct store *store);

#endif
