/* mass.h - masses as whole micrograms, so that sums and differences are exact. */
#ifndef BASE_MASS_H
#define BASE_MASS_H

#include <math.h>
#include <stdint.h>

enum { UG_PER_G = 1000000 };

/* Nearest whole microgram, halves away from zero. Grams up to 9e12 either way; nothing larger is a mass here. */
static inline int64_t mass_ug(double g)
{
    return llround(g * UG_PER_G);
}

static inline double mass_g(int64_t ug)
{
    return (double)ug / UG_PER_G;
}

/* To a multiple of division_ug > 0, ug >= 0: nearest with halves up, down, or up. */
static inline int64_t mass_nearest(int64_t ug, int64_t division_ug)
{
    return (ug + division_ug / 2) / division_ug * division_ug;
}

static inline int64_t mass_down(int64_t ug, int64_t division_ug)
{
    return ug / division_ug * division_ug;
}

static inline int64_t mass_up(int64_t ug, int64_t division_ug)
{
    return (ug + division_ug - 1) / division_ug * division_ug;
}

#endif
