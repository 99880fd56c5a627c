/* settings.c - what a bench begins with. */
#include "lyeway/settings.h"

#include <string.h>

#include "base/mass.h"
#include "base/text.h"

/* Common practice, by enum purpose; skin as most recipes for the bath have it, cleaning as laundry bars are made. */
static const struct purpose_defaults defaults[PURPOSES] = {
    [PURPOSE_SKIN] = {.superfat = 0.05, .water_strength = 0.33},
    [PURPOSE_SHAVING] = {.superfat = 0.03, .water_strength = 0.33},
    [PURPOSE_CLEANING] = {.superfat = 0.005, .water_strength = 0.33},
    [PURPOSE_LIQUID] = {.superfat = 0.02, .water_strength = 0.25},
};

/* An accuracy of one division either way is what is taken of a scale of which nothing is known: common practice. */
static struct scale plain_scale(const char *name, int64_t division_ug, int64_t capacity_g)
{
    struct scale scale = {.division_ug = division_ug, .capacity_ug = capacity_g * UG_PER_G, .accuracy_ug = division_ug};

    text_copy(scale.name, sizeof scale.name, name);
    return scale;
}

void settings_common(struct settings *settings)
{
    memset(settings, 0, sizeof *settings);
    settings->mass_unit = MASS_G;
    settings->scales = 2;
    settings->scale[0] = plain_scale("kitchen scale", UG_PER_G, 5000);
    settings->scale[1] = plain_scale("fine scale", UG_PER_G / 100, 200);
    memcpy(settings->purpose, defaults, sizeof defaults);
    text_copy(settings->batch_pattern, sizeof settings->batch_pattern, "%y-###");
}
