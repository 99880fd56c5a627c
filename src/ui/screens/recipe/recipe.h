/* recipe.h - the recipe screen: oils, lye with the superfat band, portions under the strip, findings; all of it live. */
#ifndef SCREENS_RECIPE_RECIPE_H
#define SCREENS_RECIPE_RECIPE_H

#include "ui/screens/top.h"

/* Opens recipe `id` of the workshop's store on top of the desk. What is changed is saved by recipe_screen_save. */
enum lw_status recipe_screen_open(const struct top *top, int64_t id, struct lw_error *error);

/* The same, with its findings listed over it, the worst one marked. */
enum lw_status recipe_screen_open_findings(const struct top *top, int64_t id, struct lw_error *error);

#endif
