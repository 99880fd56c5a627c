/* settings.c - what a bench has before its maker says otherwise. */
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "lyeway/settings.h"

enum { UG_PER_KG = 1000 * UG_PER_G };

static struct scale common_scale(const char *name, int64_t division_ug, int64_t capacity_ug)
{
    struct scale scale = {.division_ug = division_ug, .capacity_ug = capacity_ug, .accuracy_ug = division_ug};

    text_copy(scale.name, sizeof scale.name, name);
    return scale;
}

void settings_common(struct settings *settings)
{
    static const struct purpose_defaults defaults[PURPOSES] = {
        [PURPOSE_SKIN] = {0.05, 0.33},
        [PURPOSE_SHAVING] = {0.03, 0.33},
        [PURPOSE_CLEANING] = {0.005, 0.33},
        [PURPOSE_LIQUID] = {0.02, 0.25},
    };

    memset(settings, 0, sizeof *settings);
    settings->scales = 2;
    settings->scale[0] = common_scale("coarse scale", UG_PER_G, (int64_t)5 * UG_PER_KG);
    settings->scale[1] = common_scale("fine scale", UG_PER_G / 100, (int64_t)200 * UG_PER_G);
    memcpy(settings->purpose, defaults, sizeof defaults);
}
