/* density.h - density and volume of the batter and its portions by additive volumes (calculations, section 7).
 *
 * What goes into the batter, each at its own density: the lye (alkali as weighed or its ready-made solution, with
 * plain water and the liquids' own water) by the table, in the strength of its pure alkali; oils at the batter's
 * temperature, and so the fat of liquids and carrier oil; the liquids' other solids and colourants 1.0; additives
 * whole and fragrances as their rows say, 1.0 where they have no density. Volumes add: what little lye and oil
 * contract on mixing is left out. */
#ifndef CALC_DENSITY_H
#define CALC_DENSITY_H

#include "lyeway/plan.h"

/* g/mL of a lye of that mass share (pure alkali) at temp_c, by straight lines in share and temperature between rows
 * of the table; potassium_share (by moles) mixes the two alkalis' figures in proportion. Beyond the table the
 * nearest row. */
double density_lye(const struct reference *reference, double share, double potassium_share, double temp_c);

/* g/mL of an oil brought to temp_c; NULL or without a density: 0.91 at 20 C. */
double density_oil(const struct practice *practice, const struct oil_fact *oil, double temp_c);

struct lye_exact;

/* g/mL of the batter without air, from exact masses at those oils; a measured density is not looked at. */
double density_exact(const struct plan_input *in, const struct plan *plan, double oils_g,
                     const struct lye_exact *exact);

/* plan->density_g_ml and batter_ml, from rounded masses: the measured density where the bench has one, air taken
 * off. */
void density_plan(const struct plan_input *in, struct plan *plan);

#endif
