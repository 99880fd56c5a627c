/* show.c - figures for screens. */
#include "ui/screens/show.h"

#include <stdio.h>
#include <string.h>

#include "base/mass.h"
#include "base/number.h"
#include "base/text.h"
#include "work/words.h"

enum { ALIGN_DECIMALS = 2 };
#define OUNCE_G 28.349523125 /* NIST Handbook 44, appendix C */

static void align(char out[SHOW_BYTES], int decimals)
{
    for (int i = decimals; i < ALIGN_DECIMALS; i++)
        text_add(out, SHOW_BYTES, " ");
    if (decimals == 0)
        text_add(out, SHOW_BYTES, " "); /* where the point would be */
}

void show_mass(char out[SHOW_BYTES], int64_t ug, int64_t division_ug, const struct settings *settings)
{
    if (settings->mass_unit == MASS_LB) {
        words_of_mass(mass_g(ug), division_ug, MASS_LB, out, SHOW_BYTES);
        return;
    }
    if (settings->mass_unit == MASS_OZ) {
        show_number(out, mass_g(ug) / OUNCE_G, ALIGN_DECIMALS);
        return;
    }
    number_write_mass(out, ug, division_ug);
    align(out, division_ug > 0 ? number_decimals(division_ug) : ALIGN_DECIMALS);
}

const char *show_unit(const struct settings *settings)
{
    static const char *const units[] = {[MASS_G] = "g", [MASS_OZ] = "oz", [MASS_LB] = ""};

    return units[settings->mass_unit];
}

void show_number(char out[SHOW_BYTES], double number, int decimals)
{
    char digits[NUMBER_BYTES];

    number_write(digits, number, decimals);
    text_copy(out, SHOW_BYTES, digits);
}

void show_percent(char out[SHOW_BYTES], double share, int decimals)
{
    show_number(out, share * 100, decimals);
}

void show_temperature(char out[SHOW_BYTES], double c, const struct settings *settings)
{
    show_number(out, settings->fahrenheit ? c * 1.8 + 32 : c, 0);
    text_add(out, SHOW_BYTES, settings->fahrenheit ? " F" : " C");
}
