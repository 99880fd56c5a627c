/* charged.h - a plan with what was really weighed in place of what was asked (calculations, section 3, last words).
 *
 * With it the live superfat is found by the very functions that find the planned one. The mixed lye is alkali or its
 * solution, water, liquids, and the additives that go into the water (additive_fact.add_to is "water" or "lye").
 */
#ifndef CALC_CHARGED_H
#define CALC_CHARGED_H

#include "lyeway/batch.h"

/* Copies *plan to *out with the charges that there are in place of the planned masses, and finds anew what depends on them:
 * alkali in moles, strength_rounded, batter_ug, oils_ug, margin, portions with their doses, volumes, fragrance, pieces
 * and heat. What was asked stays as planned: exact masses, demand_mol, acid_mol, oil_share, the water's other figures,
 * fatty acids, pace, and the doses that go into the whole batter.
 *
 * Of lye of which only a share is used each part counts in that share, to whole micrograms; added lye counts as alkali (or
 * its solution) and water. No findings but those about lye (superfat, strength, heat) and what no longer fits: mould-over,
 * pieces-short. Whatever the charges, every number is finite; a mass below 0 is 0. */
void charged_plan(const struct plan_input *in, const struct plan *plan, const struct charges *charges,
                  struct plan *out);

/* Whether an additive goes into the water before the alkali, and so is part of the lye. */
bool charged_in_lye(const struct plan_input *in, int additive);

/* Whether an additive is in the full jug: one that goes into the oils or, once the lye is in, into the water. */
bool charged_in_jug(const struct plan_input *in, int additive, bool lye);

/* Where a part's mass stands in a plan and in charges: an oil, alkali (or its ready-made solution), water, liquid or additive;
 * NULL for another part or one that the recipe does not have. */
const struct weighing *charged_weighing(const struct plan_input *in, const struct plan *plan, struct part_ref part);
struct charge *charged_of(const struct plan_input *in, struct charges *charges, struct part_ref part);

/* The mixed lye of a plan, planned or charged, ug. */
int64_t charged_lye_ug(const struct plan_input *in, const struct plan *plan);

/* Mass share of alkali as weighed in lye that is added to put a batch right: plan->water.strength, or where that is less the
 * strength of the ready-made solution it is made of. */
double charged_added_share(const struct plan_input *in, const struct plan *plan, enum alkali alkali);

/* Targets of the portions that are still to be poured out of the jug, ug (without oil kept back for their carriers): those already
 * poured keep what they got; grams, layers and pieces are served first, in order; the others share what is left in the jug
 * less the residue in proportion to what was planned, by largest remainder, to the plan's division. A portion poured has
 * target 0. Poured, targets, residue and kept oil add up to batter_ug to within a division, which stays in the jug, as
 * does what nobody asks for; where too little is left, the targets sum to what there is. */
void charged_split(const struct plan_input *in, const struct plan *charged, const struct charge poured[PLAN_PORTIONS],
                   int64_t target_ug[PLAN_PORTIONS]);

/* What the full jug should weigh without its vessel before the lye goes in (`lye` false) or after, ug: oils less those kept
 * back, what goes into the oils, and the lye; what was not weighed yet counts as planned. Additives that go into the
 * batter are not in it yet.
 *
 * Tolerance: what each of its weighings may be off, by reading and by the accuracy of its scale, summed; at least a
 * division of the scale that the jug stands on. */
void charged_jug(const struct plan_input *in, const struct plan *plan, const struct batch *batch, bool lye,
                 int64_t *expected_ug, int64_t *tolerance_ug);

#endif
