/* version.h - one version of a recipe with its plan and words: a draft as it is or would be, or a sealed revision. */
#ifndef WORK_VERSION_H
#define WORK_VERSION_H

#include "lyeway/document.h"
#include "lyeway/settings.h"
#include "store/recipes.h"
#include "store/shelf.h"
#include "work/lessons.h"

struct version;

/* Loads and plans revision `number` of recipe `id`, 0 for its draft. To be freed. Shelf, settings and lessons (NULL: practice alone)
 * stay the caller's and must outlive it. */
enum lw_status version_open(struct store *store, int64_t id, int number, const struct shelf *shelf,
                            const struct settings *settings, const struct lessons *lessons, struct version **version,
                            struct lw_error *error);

/* Plans this recipe. To be freed. */
enum lw_status version_of(const struct recipe *recipe, const struct shelf *shelf, const struct settings *settings,
                          const struct lessons *lessons, struct version **version, struct lw_error *error);
void version_free(struct version *version);

/* Takes over another recipe and plans it; on failure the version is as it was before. */
enum lw_status version_set(struct version *version, const struct recipe *recipe, struct lw_error *error);

const struct recipe *version_recipe(const struct version *version);
const struct plan_document *version_document(const struct version *version);

#endif
