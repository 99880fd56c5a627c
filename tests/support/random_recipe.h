/* random_recipe.h - recipes with every member set to something within its range, and changes of them, from a seed. */
#ifndef SUPPORT_RANDOM_RECIPE_H
#define SUPPORT_RANDOM_RECIPE_H

#include <stdint.h>

#include "lyeway/change.h"

/* A sequence of numbers that depends on nothing but the seed: xorshift64*, Vigna 2016 (from memory). */
struct chance {
    uint64_t state;
};

struct chance chance_of(uint64_t seed);

/* 0 to n - 1. */
int chance_below(struct chance *chance, int n);

/* In the form of store_options.random, with a struct chance as context. */
void chance_bytes(void *context, uint8_t *bytes, size_t n);

/* What does not belong to a member is 0, so that equal recipes have equal bytes. */
void random_recipe(struct chance *chance, struct recipe *recipe);

/* A change that can be applied to the recipe as it is. */
void random_change(struct chance *chance, const struct recipe *recipe, struct change *change);

#endif
