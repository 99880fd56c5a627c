/* freeze.h - a recipe with every fact that it uses, as a text that stands for itself.
 *
 * A batch keeps this text, so that its plan can be found again as it was whatever becomes of the recipe, the shelf and the
 * reference. It is an exchange file: the recipe, with the names of its ingredients as people read them, and a shelf that
 * has each of them.
 */
#ifndef WORK_FREEZE_H
#define WORK_FREEZE_H

#include "base/buffer.h"
#include "lyeway/plan.h"
#include "lyeway/settings.h"
#include "store/shelf.h"

/* Appends the text for a recipe whose names are resolved. */
enum lw_status freeze(const struct plan_input *input, struct buffer *out, struct lw_error *error);

/* What a text holds: the recipe, and its facts as a shelf. */
struct frozen {
    struct recipe recipe;
    struct shelf shelf;
    void *file; /* memory behind the rows */
};

/* LW_CORRUPT where it is not such a text. *frozen is to be freed by freeze_free. */
enum lw_status freeze_read(const char *text, struct frozen **frozen, struct lw_error *error);
void freeze_free(struct frozen *frozen);

/* The settings that a batch goes by for as long as it runs, a line each: units and the bounds of what is put right. Read back into
 * settings that hold everything else. */
void freeze_bench(const struct settings *settings, struct buffer *out);
enum lw_status freeze_bench_read(const char *text, struct settings *settings, struct lw_error *error);

#endif
