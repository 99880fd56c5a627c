/* pace_stamped.h - the window of a portion once its batch is under way: what the stage stamps say (calculations, section 11).
 *
 * The belief of pace.h gives log(from) of this batch, its own residual in it, as a Student variable. Call it e. Trace stage k
 * comes at
 *     log(t_k) = e + gap_k + noise,    gap_k = (stage_k - stage_F) * log(pace_until_pipe / pace_from_pour)
 * where F is the stage that the technique waits for (thin trace for pouring, swirling and moulding, medium for layers,
 * piping consistency for piping) and stage_k the share of log time in practice. The noise has the deviation stage_spread times the root of
 * |gap_k|: a stage far from F says little, F itself says all. So a stamp is one observation of e, and e given the stamp
 * is the conjugate update of belief.h: its middle moves by q / (q + r) of the surprise, q and r being the variances of e and of the
 * noise, and its spread shrinks. Of several stamps the furthest stage counts; the way there is in it.
 *
 * log(until) = e + ratio as in pace.h. Once F was stamped, e is known, and a stamp between F and the stage U at which it is
 * too stiff (thick trace for pouring, piping consistency for layers, over-stiff for piping) is an observation of its share of the ratio in
 * the same way.
 *
 * What is seen bounds what is predicted, by conditioning: F not stamped and no piece counted, so from is after now; a stage past
 * F or a piece counted, so from was before that; neither U stamped nor the batter given up, so until is after now.
 *
 * Stages stamped against their order: the last stamp is what the maker sees, so thicker stages stamped before it do not count;
 * a thicker stage is never before a thinner one, so it is taken at the moment of the thinner one where it was stamped before that.
 */
#ifndef CALC_PACE_STAMPED_H
#define CALC_PACE_STAMPED_H

#include <stdbool.h>

#include "lyeway/batch.h"

/* Minutes from combining at which the portion is workable from and until, as forecast at now_s (UTC seconds).
 *
 * Temperatures taken at combining go in place of the bench's (the middle of both; the one where only one was taken). Before
 * combining it is the prediction for the plan. `from` is one moment where its stage was stamped, `until` where the batter is
 * past it: then, and only then, is it not after now. A clock that was put back counts as standing at the last thing seen.
 * Every number is finite, low <= median <= high, and until is nowhere before from but where it was seen to be. */
void pace_stamped(const struct plan_input *in, const struct plan *plan, const struct plan_portion *portion,
                  const struct batch *batch, int64_t now_s, struct quantiles *from_min, struct quantiles *until_min);

/* Minutes from combining to now_s by that rule; 0 before combining. */
double pace_elapsed_min(const struct batch *batch, int64_t now_s);

/* What a batch has shown of its window for that technique, minutes from combining: *from_min when the stage was stamped that it
 * waits for, *until_min when that or a later one was at which it is too stiff. Where none was, *at_least and *until_min is the last
 * moment at which it was seen to be workable: a stage stamped, a piece counted, or `poured_s` (0: not poured). NAN: nothing is known. */
void pace_seen_of(const struct batch *batch, enum technique technique, int64_t poured_s, double *from_min,
                  double *until_min, bool *at_least);

#endif
