/* heat.h - how hot dissolving the alkali can get (calculations, section 10). */
#ifndef CALC_HEAT_H
#define CALC_HEAT_H

#include "lyeway/plan.h"

/* Adiabatic end temperature in C of dissolving pure moles[] of NaOH and KOH in water_g of water, all from start_c; water below
 * 0 C is ice of 0 C and takes 333.6 J/g to melt. Capped at the solution's boiling point. */
void heat_of_dissolving(const struct reference *reference, const double moles[ALKALIS], double water_g, double start_c,
                        struct plan_heat *out);

/* plan->heat, and the finding heat-boil where it is capped. */
void heat_plan(const struct plan_input *in, struct plan *plan);

#endif
