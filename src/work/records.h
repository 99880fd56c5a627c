/* records.h - exchange files into the records and out of them. */
#ifndef WORK_RECORDS_H
#define WORK_RECORDS_H

#include <stddef.h>

#include "base/buffer.h"
#include "work/workshop.h"

/* A file's bytes, as they were read; `name` is for messages. */
struct records_source {
    const char *name, *text;
    size_t bytes;
};

struct records_count {
    int new, changed, unchanged; /* recipes */
    int shelf;                   /* entries of the shelf, new or put in place of what was there */
};

/* Brings files in, all of them or none: one transaction. A recipe is matched by its uuid, else by its name; one whose content
 * differs from the newest revision becomes a new revision. Every name must be known, in the file, on the shelf or in the
 * reference. The sentence names the file and the place in it. */
enum lw_status records_import(struct workshop *workshop, const struct records_source sources[], size_t count,
                              struct records_count *counted, struct lw_error *error);

struct records_choice {
    bool recipes, shelf;
    const char *const *names; /* of recipes; none: all that are not archived */
    size_t count;
};

/* Writes recipes and shelf as one exchange file. Recipes are sealed first, so that what left has a number. LW_NOT_FOUND for a name
 * that no recipe has. */
enum lw_status records_export(struct workshop *workshop, const struct records_choice *choice, struct buffer *out,
                              struct lw_error *error);

/* The plan of a recipe of the records by its name, for a sheet or as JSON; size and form as in plan_file.h. NULL: the sheets of all that
 * are not archived, by name. *stop: whether one has a stop. LW_NOT_FOUND; LW_INVALID for JSON without a name. */
struct plan_size;
enum lw_status records_plan(struct workshop *workshop, const char *name, const struct plan_size *size, bool json,
                            struct buffer *out, bool *stop, struct lw_error *error);

/* The bench sheet of the recipe that is called so, or else of the batch of that number, as it was planned when it was started: a recipe
 * may be called as a batch is numbered, and goes first. LW_NOT_FOUND. */
enum lw_status records_sheet(struct workshop *workshop, const char *called, struct buffer *out, struct lw_error *error);

#endif
