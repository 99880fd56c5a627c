/* density.h - density and volume of the batter and its portions by additive volumes (calculations, section 7). */
#ifndef CALC_DENSITY_H
#define CALC_DENSITY_H

#include "lyeway/plan.h"

/* g/mL of a lye of that mass share (pure alkali) at temp_c, by straight lines between the preferred rows at 20, 40 and 60 C;
 * potassium_share mixes both alkalis by moles. Beyond the table the nearest row. */
double density_lye(const struct reference *reference, double share, double potassium_share, double temp_c);

/* g/mL of an oil brought to temp_c; NULL or without a density: 0.91 at 20 C. */
double density_oil(const struct practice *practice, const struct oil_fact *oil, double temp_c);

struct lye_exact;

/* g/mL of the batter without air, from exact masses at those oils. */
double density_exact(const struct plan_input *in, const struct plan *plan, double oils_g, const struct lye_exact *exact);

/* plan->density_g_ml and batter_ml, from rounded masses: the measured density where the bench has one, air taken off. */
void density_plan(const struct plan_input *in, struct plan *plan);

#endif
