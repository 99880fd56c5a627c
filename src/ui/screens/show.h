/* show.h - figures as a screen writes them: in the maker's units, aligned on the decimal. */
#ifndef SCREENS_SHOW_H
#define SCREENS_SHOW_H

#include <stddef.h>
#include <stdint.h>

#include "lyeway/settings.h"

enum { SHOW_BYTES = 64 };

/* A mass as its scale shows it, with blanks for the decimals that a scale of 0.01 g would show more: "450   ", "80.00". In
 * ounces: two decimals; in pounds: "1 lb 3.2 oz". Without the unit for grams and ounces. */
void show_mass(char out[SHOW_BYTES], int64_t ug, int64_t division_ug, const struct settings *settings);

/* "g", "oz"; "" for pounds, which say it themselves. */
const char *show_unit(const struct settings *settings);

/* A share as percent with that many decimals, without the sign. */
void show_percent(char out[SHOW_BYTES], double share, int decimals);

/* A number with that many decimals. */
void show_number(char out[SHOW_BYTES], double number, int decimals);

/* "108 C" or "226 F". */
void show_temperature(char out[SHOW_BYTES], double c, const struct settings *settings);

#endif
