/* settings.h - what a maker sets once for the whole bench. */
#ifndef LYEWAY_SETTINGS_H
#define LYEWAY_SETTINGS_H

#include <stdbool.h>

#include "lyeway/document.h"
#include "lyeway/recipe.h"

enum { SETTINGS_VESSELS = 16, PURPOSES = 4 };

struct vessel {
    char name[LW_NAME_BYTES];
    int64_t empty_ug;
};

struct purpose_defaults {
    double superfat;       /* share */
    double water_strength; /* share */
};

struct settings {
    enum mass_unit mass_unit;
    bool fahrenheit;
    int scales;
    struct scale scale[RECIPE_SCALES];   /* accuracy stated or one division (common practice); vessels included */
    int vessels;
    struct vessel vessel[SETTINGS_VESSELS];
    char currency[8];                    /* ISO 4217 code */
    char maker_name[LW_NAME_BYTES], maker_address[LW_NAME_BYTES * 2];
    struct purpose_defaults purpose[PURPOSES];
    bool tour_seen;
};

/* What a new store begins with: grams, Celsius, one scale of 1 g to 5 kg and one of 0.01 g to 200 g with an accuracy of one
 * division, superfat 5 % (skin), 3 % (shaving), 0.5 % (cleaning), 2 % (liquid), strength 33 %, liquid 25 %: common practice. */
void settings_common(struct settings *settings);

#endif
