/* heat.h - how hot dissolving the alkali can get (calculations, section 10).
 *
 * Source: the tables of schema/reference/ (NBS tables of 1982 for sodium hydroxide; potassium hydroxide has no published table
 * at hand and is an estimate). No heat is taken to leave the jug, so a real one reads lower.
 */
#ifndef CALC_HEAT_H
#define CALC_HEAT_H

#include "lyeway/plan.h"

/* Without moles or water out->has is false and the rest 0.
 *
 * Adiabatic end temperature in C of dissolving pure moles[] of NaOH and KOH in water_g of water, all from start_c; water below
 * 0 C is ice of 0 C and takes 333.6 J/g to melt. Capped at the solution's boiling point. */
void heat_of_dissolving(const struct reference *reference, const double moles[ALKALIS], double water_g, double start_c,
                        struct plan_heat *out);

/* plan->heat, and the finding heat-boil where it is capped. Ready-made lye gives off nothing: of two alkalis only a dry one
 * heats, in all of the water, as if the dissolved one were not there (the hotter reading). The impurity of dry alkali counts
 * as water; that flake holds its water bound, and so heats less, is left out. */
void heat_plan(const struct plan_input *in, struct plan *plan);

#endif
