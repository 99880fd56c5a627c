/* apportion.h - share a whole among parts so that they add up to it to the last division: largest remainder (Hamilton). */
#ifndef CALC_APPORTION_H
#define CALC_APPORTION_H

#include <stddef.h>
#include <stdint.h>

#include "lyeway/status.h"

enum { APPORTION_MAX = 32 };

/* Shares whole_ug among n parts in proportion to weight, each part a multiple of division_ug.
 *
 * weight       n values, each >= 0 and finite, not all 0; any unit
 * whole_ug     micrograms, >= 0 and a multiple of division_ug
 * division_ug  micrograms, > 0
 * part_ug      n values out; their sum is whole_ug exactly, each is its exact share rounded down or up to a division
 *
 * A tie goes to the larger weight, then to the earlier part. LW_INVALID where the inputs are not as said, LW_FULL for n above
 * APPORTION_MAX; part_ug is then untouched. */
enum lw_status apportion(size_t n, const double weight[], int64_t whole_ug, int64_t division_ug, int64_t part_ug[]);

#endif
