/* plan_file.h - from the bytes of an exchange file to a plan with all its words: what the command line and the screens share.
 *
 * Open reads and checks the file, choose finds one of its recipes, compute makes the plan of it at a size. The document is
 * then complete, for a sheet or for JSON. No records are needed: facts are the file's own and the reference.
 */
#ifndef WORK_PLAN_FILE_H
#define WORK_PLAN_FILE_H

#include <stddef.h>

#include "base/buffer.h"
#include "lyeway/document.h"
#include "lyeway/status.h"

struct plan_file;

enum { PLAN_FILE_MOST_BYTES = 64 * 1024 * 1024 };
#define PLAN_SIZE_MOST_G 1e6 /* as for every mass of the exchange format */

/* Another size than the recipe's own: oils or batter in grams. */
struct plan_size {
    enum { PLAN_SIZE_OWN, PLAN_SIZE_OILS, PLAN_SIZE_BATTER } by;
    double grams;
};

/* LW_INVALID with a sentence unless the grams are above 0 and at most PLAN_SIZE_MOST_G, or the size is the recipe's own. */
enum lw_status plan_size_check(const struct plan_size *size, struct lw_error *error);

/* Reads n bytes of a file; `name` is for messages, "-" standard input. *out is to be freed; NULL on failure. */
enum lw_status plan_file_open(const char *text, size_t n, const char *name, struct plan_file **out,
                              struct lw_error *error);
void plan_file_free(struct plan_file *plan_file);

size_t plan_file_recipes(const struct plan_file *plan_file);

/* The recipe of that name, in any ASCII case; NULL chooses the only one. LW_NOT_FOUND if none has it, LW_INVALID if NULL and
 * the file has several, or if several have that name; the sentence lists the names. */
enum lw_status plan_file_choose(const struct plan_file *plan_file, const char *name, size_t *index,
                                struct lw_error *error);

/* Plans recipe `index`. LW_INVALID for a size that plan_size_check refuses, LW_NOT_FOUND for a name that is not known; the
 * sentence has the file and the JSON pointer. */
enum lw_status plan_file_compute(struct plan_file *plan_file, size_t index, const struct plan_size *size,
                                 enum mass_unit unit, struct lw_error *error);

/* The last plan computed; borrowed, until the next compute or free. */
const struct plan_document *plan_file_document(const struct plan_file *plan_file);

enum plan_form { PLAN_FORM_SHEET, PLAN_FORM_JSON };

/* Adds the last plan computed to *out: the bench sheet for people, or one JSON object. */
void plan_file_write(const struct plan_file *plan_file, enum plan_form form, struct buffer *out);

#endif
