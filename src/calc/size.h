/* size.h - the oils that a recipe's size asks for. */
#ifndef CALC_SIZE_H
#define CALC_SIZE_H

#include "lyeway/plan.h"

/* Fills plan->oil_share (they always sum to 1), oils_exact_g and oil[].exact_g.
 *
 * Size by batter (before rounding, residue in it), by pieces (batter left without the residue) and by mould (that,
 * filled with its fragrance and colourants, of the volume to fill) is linear in the oils but for fixed grams and a
 * bend or two, so it is solved by chords. Oils in grams are rescaled in proportion to a size, additives in grams
 * stay as they are. Shares that sum to 1 within 0.0001 are normalised; others, of a recipe being entered, give with
 * a size by oils what each asks for. A size that cannot be reached is the stop portions-short about the size, its
 * figures in grams (mL for a mould). */
void size_plan(const struct plan_input *in, struct plan *plan);

#endif
