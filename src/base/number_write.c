/* number_write.c - numbers as decimal text, exactly and whatever the locale. */
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/mass.h"
#include "base/number.h"

enum { DECIMALS_MOST = 15, MASS_DECIMALS = 6 };

/* The binary digits after the point, 32 in each word, first word most significant. What lies beyond 2^-128 cannot reach half of
 * the 15th decimal, so nothing that matters is lost. */
struct fraction {
    uint32_t word[4];
};

static struct fraction fraction_of(double below_one)
{
    struct fraction fraction;

    for (size_t i = 0; i < 4; i++) {
        below_one *= 4294967296.0; /* 2^32, exact */
        fraction.word[i] = (uint32_t)below_one;
        below_one -= fraction.word[i];
    }
    return fraction;
}

/* Multiplies by ten and takes off what comes before the point: the next decimal. */
static unsigned next_decimal(struct fraction *fraction)
{
    uint64_t carry = 0;

    for (size_t i = 4; i-- > 0;) {
        carry += (uint64_t)fraction->word[i] * 10;
        fraction->word[i] = (uint32_t)carry;
        carry >>= 32;
    }
    return (unsigned)carry;
}

static bool half_or_more(const struct fraction *fraction)
{
    return fraction->word[0] >> 31 != 0;
}

static void write_parts(char out[NUMBER_BYTES], bool negative, uint64_t whole, uint64_t decimal, int decimals)
{
    const char *sign = negative && (whole != 0 || decimal != 0) ? "-" : "";

    if (decimals > 0)
        snprintf(out, NUMBER_BYTES, "%s%" PRIu64 ".%0*" PRIu64, sign, whole, decimals, decimal);
    else
        snprintf(out, NUMBER_BYTES, "%s%" PRIu64, sign, whole);
}

void number_write(char out[NUMBER_BYTES], double value, int decimals)
{
    double magnitude = fabs(value);

    if (!(magnitude < NUMBER_WRITE_BELOW)) {
        memcpy(out, "?", sizeof "?");
        return;
    }
    if (decimals < 0)
        decimals = 0;
    if (decimals > DECIMALS_MOST)
        decimals = DECIMALS_MOST;

    uint64_t whole = (uint64_t)magnitude;
    struct fraction fraction = fraction_of(magnitude - (double)whole);
    uint64_t decimal = 0, one = 1;
    for (int i = 0; i < decimals; i++) {
        decimal = decimal * 10 + next_decimal(&fraction);
        one *= 10;
    }
    if (half_or_more(&fraction) && ++decimal == one) {
        decimal = 0;
        whole++;
    }
    write_parts(out, value < 0, whole, decimal, decimals);
}

void number_write_short(char out[NUMBER_BYTES], double value, int decimals)
{
    number_write(out, value, decimals);
    if (!strchr(out, '.'))
        return;

    size_t length = strlen(out);
    while (out[length - 1] == '0')
        length--;
    if (out[length - 1] == '.')
        length--;
    out[length] = '\0';
}

int number_decimals(int64_t division_ug)
{
    int64_t unit = UG_PER_G;
    int decimals = 0;

    while (decimals < MASS_DECIMALS && division_ug % unit != 0) {
        unit /= 10;
        decimals++;
    }
    return decimals;
}

void number_write_mass(char out[NUMBER_BYTES], int64_t ug, int64_t division_ug)
{
    uint64_t magnitude = ug < 0 ? -(uint64_t)ug : (uint64_t)ug;
    uint64_t decimal = magnitude % UG_PER_G;
    int shown = number_decimals(division_ug), needed = number_decimals(ug);
    int decimals = shown > needed ? shown : needed;

    for (int i = decimals; i < MASS_DECIMALS; i++)
        decimal /= 10;
    write_parts(out, ug < 0, magnitude / UG_PER_G, decimal, decimals);
}
