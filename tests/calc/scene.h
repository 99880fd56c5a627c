/* scene.h - a recipe, its facts and a plan up to the split, for tests of what follows the split. */
#ifndef TESTS_SCENE_H
#define TESTS_SCENE_H

#include <string.h>

#include "base/mass.h"
#include "calc/limit_sample.h"
#include "calc/near.h"
#include "lyeway/plan.h"

#define ROWS(table) (sizeof(table) / sizeof(table)[0])

struct scene {
    struct recipe recipe;
    struct recipe_facts facts;
    struct reference reference; /* the program's, with the limits and allergens of limit_sample.h */
    struct bench bench;
    struct plan_input in;
    struct plan plan;
};

/* Empty, on scales of 1 g to 5 kg and 0.01 g to 200 g. */
static inline void scene_start(struct scene *scene)
{
    memset(scene, 0, sizeof *scene);
    scene->bench.combine_temp_c = 35.0;
    scene->reference = *facts_reference();
    scene->reference.limit = sample_limit;
    scene->reference.limits = ROWS(sample_limit);
    scene->reference.allergen = sample_allergen;
    scene->reference.allergens = ROWS(sample_allergen);
    scene->in = (struct plan_input){&scene->recipe, &scene->facts, &scene->reference, &scene->bench};
    scene->plan.scales = 2;
    scene->plan.scale[0] = (struct scale){.division_ug = 1000000, .capacity_ug = 5000000000};
    scene->plan.scale[1] = (struct scale){.division_ug = 10000, .capacity_ug = 200000000};
}

/* Adds a portion of that batter, of which the oils are the batch's share; returns its index. */
static inline int scene_portion(struct scene *scene, double batter_g, bool scented, enum technique technique)
{
    int p = scene->plan.portions++;
    struct plan_portion *portion = &scene->plan.portion[p];

    scene->recipe.portions = p + 1;
    scene->recipe.portion[p].scented = scented;
    scene->recipe.portion[p].technique = technique;
    portion->source = p;
    portion->technique = technique;
    portion->batter_ug = mass_ug(batter_g);
    portion->filled_g = batter_g;
    portion->volume_ml = batter_g;
    portion->oils_g = batter_g * mass_g(scene->plan.oils_ug) / mass_g(scene->plan.batter_ug);
    return p;
}

/* Adds a fragrance by share of the oils; returns its index. */
static inline int scene_fragrance(struct scene *scene, const struct fragrance_fact *fact, double share)
{
    int i = scene->recipe.fragrances++;

    scene->recipe.fragrance[i].by = FRAGRANCE_OF_OILS;
    scene->recipe.fragrance[i].value = share;
    scene->facts.fragrance[i] = fact;
    return i;
}

static inline void scene_certify(struct scene *scene, int fragrance, double limit)
{
    scene->recipe.fragrance[fragrance].has_limit = true;
    scene->recipe.fragrance[fragrance].limit_share = limit;
}

/* The worked recipe of the exchange format as split: 1000 g of oils, 1456.24 g of batter, 299 g of water. Its colourants (2.98
 * and 0.99 g) are in the filled masses. Volumes are those of the batter at 1.0096 g/mL, colourants at 1. */
static inline void scene_worked_recipe(struct scene *scene)
{
    static const double colour_g[] = {2.98, 0.99, 0.0};

    scene_start(scene);
    scene->plan.oils_ug = mass_ug(1000.0);
    scene->plan.batter_ug = mass_ug(1456.24);
    scene->plan.water.water.rounded_ug = mass_ug(299.0);
    scene->plan.water.strength = 0.33;
    scene_portion(scene, 869.0, true, TECHNIQUE_SWIRL);
    scene_portion(scene, 362.0, true, TECHNIQUE_SWIRL);
    scene_portion(scene, 217.0, false, TECHNIQUE_PIPE);
    for (int p = 0; p < 3; p++) {
        scene->plan.portion[p].volume_ml = scene->plan.portion[p].volume_ml / 1.0096 + colour_g[p];
        scene->plan.portion[p].filled_g += colour_g[p];
        scene->recipe.portion[p].colourants = p < 2;
    }
}

static inline int scene_count(const struct scene *scene, enum finding_code code)
{
    int count = 0;

    for (int i = 0; i < scene->plan.findings; i++)
        count += scene->plan.finding[i].code == code;
    return count;
}

/* The first finding of that code; NULL if there is none. */
static inline const struct finding *scene_finding(const struct scene *scene, enum finding_code code)
{
    for (int i = 0; i < scene->plan.findings; i++)
        if (scene->plan.finding[i].code == code)
            return &scene->plan.finding[i];
    return NULL;
}

#endif
