/* srgb.h - colours of a screen as light that can be reckoned with, and back (IEC 61966-2-1). */
#ifndef CALC_SRGB_H
#define CALC_SRGB_H

/* Linear light, 0 to 1, of one channel's code 0 to 255; above that as 255. */
double srgb_light(unsigned code);

/* The code whose light is nearest: 0 for what is not above 0, 255 from 1 on. */
unsigned srgb_code(double linear);

#endif
