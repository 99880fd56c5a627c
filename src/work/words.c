/* words.c - the table from codes to those who speak for them, masses, and the one large word. */
#include "work/words.h"

#include <math.h>

#include "base/number.h"
#include "base/text.h"
#include "work/words_speech.h"

/* Avoirdupois, NIST Handbook 44 Appendix C; exact. */
#define OUNCE_G 28.349523125

enum { TENTHS_A_POUND = 160 }; /* of an ounce, 16 to the pound */

static words_speaker *const speaker[FINDING_COUNT] = {
    [FINDING_LYE_HEAVY] = words_lye_heavy,
    [FINDING_LYE_LIKELY] = words_lye_likely,
    [FINDING_LYE_WORST] = words_lye_worst,
    [FINDING_DIVISION_COARSE] = words_division_coarse,
    [FINDING_STRENGTH_OVER] = words_strength_over,
    [FINDING_STRENGTH_HIGH] = words_strength_high,
    [FINDING_STRENGTH_LOW] = words_strength_low,
    [FINDING_SOLUTION_WEAK] = words_solution_weak,
    [FINDING_SAP_UNIT] = words_sap_unit,
    [FINDING_SAP_NO_RANGE] = words_sap_no_range,
    [FINDING_SAP_FAR] = words_sap_far,
    [FINDING_PORTIONS_OVER] = words_portions_over,
    [FINDING_PORTIONS_SHORT] = words_portions_short,
    [FINDING_DOSE_SMALL] = words_dose_small,
    [FINDING_FRAGRANCE_LIMIT] = words_fragrance_limit,
    [FINDING_FRAGRANCE_FAST] = words_fragrance_fast,
    [FINDING_COLOUR_SHIFTS] = words_colour_shifts,
    [FINDING_RANCID_RISK] = words_rancid_risk,
    [FINDING_MOULD_OVER] = words_mould_over,
    [FINDING_PIECES_SHORT] = words_pieces_short,
    [FINDING_WINDOW_SHORT] = words_window_short,
    [FINDING_ON_HAND_SHORT] = words_on_hand_short,
    [FINDING_HEAT_BOIL] = words_heat_boil,
    [FINDING_SCALE_SMALL] = words_scale_small,
};

void words_of_finding(const struct plan_input *input, const struct plan *plan, const struct finding *finding,
                      enum mass_unit unit, struct words *out)
{
    struct speech speech = {input, plan, finding, unit};

    out->what[0] = out->todo[0] = '\0';
    speaker[finding->code](&speech, out);
}

/* Decimals for a figure that no scale's division speaks for: about four figures in all. */
static int helpful_decimals(double value)
{
    static const double step[] = {1000, 10, 1, 0};

    for (int decimals = 0; decimals < 4; decimals++)
        if (fabs(value) >= step[decimals])
            return decimals;
    return 3;
}

static void write_grams(double g, long long division_ug, char *out, size_t size)
{
    char number[NUMBER_BYTES];

    if (division_ug > 0)
        number_write(number, g, number_decimals(division_ug));
    else
        number_write_short(number, g, helpful_decimals(g));
    text_add(out, size, "%s g", number);
}

/* An ounce is some thirty grams, so it takes one to two decimals more than grams to say the same. */
static void write_ounces(double g, char *out, size_t size)
{
    double oz = g / OUNCE_G;
    int decimals = fabs(oz) >= 1 ? 2 : fabs(oz) >= 0.1 ? 3 : 4;
    char number[NUMBER_BYTES];

    number_write_short(number, oz, decimals);
    text_add(out, size, "%s oz", number);
}

/* Rounded to a tenth of an ounce as a whole, so that 15.96 oz becomes the next pound and never 16 oz. */
static void write_pounds(double g, char *out, size_t size)
{
    long long tenths = llround(g / OUNCE_G * 10);
    char number[NUMBER_BYTES];

    if (tenths < TENTHS_A_POUND) {
        write_ounces(g, out, size);
        return;
    }
    text_add(out, size, "%lld lb", tenths / TENTHS_A_POUND);
    if (tenths % TENTHS_A_POUND == 0)
        return;
    number_write_short(number, (double)(tenths % TENTHS_A_POUND) / 10, 1);
    text_add(out, size, " %s oz", number);
}

void words_of_mass(double g, long long division_ug, enum mass_unit unit, char *out, size_t size)
{
    out[0] = '\0';
    if (!isfinite(g) || unit == MASS_G || fabs(g) > 9e12)
        write_grams(g, division_ug, out, size);
    else if (unit == MASS_OZ)
        write_ounces(g, out, size);
    else
        write_pounds(g, out, size);
}

const char *words_of_margin(const struct plan *plan)
{
    const char *word = "WIDE";

    for (int i = 0; i < plan->findings; i++) {
        enum finding_code code = plan->finding[i].code;

        if (code == FINDING_LYE_HEAVY)
            return "LYE-HEAVY";
        if (code == FINDING_LYE_LIKELY || code == FINDING_LYE_WORST)
            word = "TIGHT";
    }
    return word;
}
