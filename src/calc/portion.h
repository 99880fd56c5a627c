/* portion.h - splitting the batter so that nothing is lost (calculations, section 6).
 *
 * Usable is the batter less the residue asked for, rounded down to one division: that of the scale which the largest
 * portion is weighed on. Grams, layers and pieces are rounded to nearest and served first. Percents, which are of
 * the whole usable batter, and rests, which share equally what is then left over, share what remains by largest
 * remainder. What no portion asks for is an implied portion at the end, unless it is less than a division; a recipe
 * without portions has only that one. */
#ifndef CALC_PORTION_H
#define CALC_PORTION_H

#include "lyeway/plan.h"

/* Residue asked for, in grams, of a batter of batter_g: never more than the batter. */
double portion_residue_g(const struct plan_input *in, double batter_g);

/* plan->portion[] up to batter_ug, division_ug, oils_g, technique, and filled_g and volume_ml of the bare batter;
 * residue_ug; split_valid. After density_plan; colourants already weighed into portion[] are left alone.
 *
 * batter_ug == residue_ug + sum of portions where split_valid. Otherwise the portions are as asked (percents of the
 * usable batter to nearest, rests 0 where nothing is left for them) and residue_ug is as asked.
 *
 * portions-over: percents sum to over 100.01.
 * portions-short: about the first portion that does not get what it asks; a rest must get at least a division. The
 * oils that would do allow for what rounding takes; 0 where no size would (100 percent and more beside). */
void portion_plan(const struct plan_input *in, struct plan *plan);

#endif
