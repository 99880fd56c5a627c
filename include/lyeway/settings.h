/* settings.h - what a maker sets once for the whole bench. */
#ifndef LYEWAY_SETTINGS_H
#define LYEWAY_SETTINGS_H

#include <stdbool.h>

#include "lyeway/document.h"
#include "lyeway/recipe.h"

enum { SETTINGS_VESSELS = 16, SETTINGS_KEYS = 16, PURPOSES = 4, BATCH_PATTERN_BYTES = 32 };

struct vessel {
    char name[LW_NAME_BYTES];
    int64_t empty_ug;
};

/* Which is done first at the bench: lye cools while oils melt, or oils are ready before it is made. */
enum lye_order { ORDER_DISSOLVE_FIRST, ORDER_OILS_FIRST };

/* A key of the bench that does something else than usual. */
struct bench_key {
    char action[24]; /* the word that help has for it */
    char key[16];    /* as help writes it: "F5", "PgDn" */
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
    char batch_pattern[BATCH_PATTERN_BYTES]; /* of batch numbers, see batch_pattern_valid */
    enum lye_order lye_order;
    double superfat_most; /* share above which a batch is too soft; 0: five points above what the recipe asks */
    int keys;
    struct bench_key key[SETTINGS_KEYS];
};

/* What a new store begins with: grams, Celsius, one scale of 1 g to 5 kg and one of 0.01 g to 200 g with an accuracy of one
 * division, superfat 5 % (skin), 3 % (shaving), 0.5 % (cleaning), 2 % (liquid), strength 33 %, liquid 25 %: common practice. Batch numbers
 * are "%y-###", lye is dissolved first, no key is changed. */
void settings_common(struct settings *settings);

/* Whether batch numbers can be made by it: the conversions %Y %y %m %d %j of strftime (POSIX.1) for the day the batch is started,
 * one run of up to 9 '#' for the serial number, filled with zeros to its length, and other characters as they are. The longest
 * number that it makes has to fit BATCH_NUMBER_BYTES. */
bool batch_pattern_valid(const char *pattern);

#endif
