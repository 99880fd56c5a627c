/* fragrance_sample.h - fragrances, and a batter to put them in, for the tests of fragrance and its limits. Each fragrance holds
 * only the constituents that the tests are about. */
#ifndef TESTS_FRAGRANCE_SAMPLE_H
#define TESTS_FRAGRANCE_SAMPLE_H

#include "calc/fragrance.h"
#include "calc/scene.h"

#define CONSTITUENTS(array) .constituent = (array), .constituents = ROWS(array)

/* Ph. Eur. 10 and ISO 3515:2002; geraniol, coumarin and density from memory. */
static const struct constituent of_lavender[] = {
    {SAMPLE_LINALOOL, 0.20, 0.45}, {SAMPLE_LINALYL_ACETATE, 0.25, 0.47}, {SAMPLE_LIMONENE, 0, 0.01},
    {SAMPLE_CAMPHOR, 0, 0.015},    {SAMPLE_TERPINEOL, 0, 0.02},          {SAMPLE_GERANIOL, 0, 0.01},
    {SAMPLE_COUMARIN, 0, 0.001},
};
static const struct fragrance_fact lavender = {
    .allergen = 10, CONSTITUENTS(of_lavender), .density_g_ml = 0.885, .acceleration = ACCELERATION_NONE};

static const struct constituent of_clove[] = {
    {SAMPLE_EUGENOL, 0.75, 0.88}, {SAMPLE_ISOEUGENOL, 0, 0.003}, {SAMPLE_METHYL_EUGENOL, 0, 0.0005}};
static const struct fragrance_fact clove = {
    .allergen = -1, CONSTITUENTS(of_clove), .density_g_ml = 1.055, .acceleration = ACCELERATION_STRONG};

static const struct constituent of_lemongrass[] = {{SAMPLE_CITRAL, 0.65, 0.85}, {SAMPLE_GERANIOL, 0.01, 0.08}};
static const struct fragrance_fact lemongrass = {
    .allergen = -1, CONSTITUENTS(of_lemongrass), .density_g_ml = 0.885, .acceleration = ACCELERATION_SOME};

static const struct constituent of_litsea[] = {{SAMPLE_CITRAL, 0.60, 0.80}};
static const struct fragrance_fact litsea = {.allergen = -1, CONSTITUENTS(of_litsea)};

static const struct constituent of_pine[] = {{SAMPLE_ALPHA_PINENE, 0.2, 0.3}, {SAMPLE_BETA_PINENE, 0.1, 0.3}};
static const struct fragrance_fact pine = {.allergen = -1, CONSTITUENTS(of_pine)};

static const struct constituent of_balsam[] = {{SAMPLE_BALSAM, 1, 1}};
static const struct fragrance_fact balsam = {.allergen = -1, CONSTITUENTS(of_balsam)};

static const struct constituent of_banned[] = {{SAMPLE_BANNED, 0, 0.001}};
static const struct fragrance_fact banned = {.allergen = -1, CONSTITUENTS(of_banned)};

static const struct fragrance_fact unknown_blend = {.allergen = -1};

static inline void plan_fragrance(struct scene *scene)
{
    fragrance_into_batter(&scene->in, &scene->plan);
    fragrance_doses(&scene->in, &scene->plan);
    fragrance_plan(&scene->in, &scene->plan);
}

/* A scene of one scented portion that is the whole batter of 1000 g, 700 g of oils and 200 g of water. */
static inline void one_portion(struct scene *scene, enum technique technique)
{
    scene_start(scene);
    scene->plan.oils_ug = mass_ug(700.0);
    scene->plan.batter_ug = mass_ug(1000.0);
    scene->plan.water.water.rounded_ug = mass_ug(200.0);
    scene_portion(scene, 1000.0, true, technique);
}

#endif
