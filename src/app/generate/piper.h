/* piper.h - runs while building: the invented maker pipes the pieces at hand. */
#ifndef GENERATE_PIPER_H
#define GENERATE_PIPER_H

#include "maker.h"

/* Pipes until enough are good, the bag is empty or the batter too stiff (so many seconds after combining), with two weighings of
 * what is left. */
void piper_pipe(struct maker *maker, struct run *run, double too_stiff_s);

#endif
