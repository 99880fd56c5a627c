/* scales.h - which scale weighs what, and what it will read (calculations, section 5). */
#ifndef CALC_SCALES_H
#define CALC_SCALES_H

#include "lyeway/plan.h"

/* Puts the scales in use into plan->scale: the recipe's, or one of 1 g and 5000 g where it names none. */
void scales_plan(const struct plan_input *in, struct plan *plan);

/* The finest scale whose capacity holds `grams` and that scale's own usual vessel; the one with the largest capacity if none
 * does, *held (may be NULL) is then false. Of equal divisions the larger capacity. */
int scales_for(const struct plan *plan, double grams, bool *held);

enum scales_direction { SCALES_NEAREST, SCALES_DOWN };

/* Weighs exact_g (>= 0) on the scale that scales_for gives: exact to whole micrograms first, then to its divisions. */
struct weighing scales_weigh(const struct plan *plan, double exact_g, enum scales_direction direction);

/* Rounds the oils (plan->oil[].exact_g, oils_exact_g) and sums oils_ug. A recipe by shares: the total rounded to the coarsest
 * division in use; oils on the coarse scale share their rounded subtotal and those on a finer one the rest, both by largest
 * remainder. A recipe in grams: each oil singly. */
void scales_round_oils(const struct plan_input *in, struct plan *plan);

/* Adds FINDING_SCALE_SMALL for each weighing of oils, alkali, water, liquids and additives that no scale holds. */
void scales_find(const struct plan_input *in, struct plan *plan);

#endif
