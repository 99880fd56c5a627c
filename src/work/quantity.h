/* quantity.h - reads a mass as a maker types it: "500", "12 oz", "1lb 3oz", "250/3", "2 * (150 g + 40 g)", "1,5 kg".
 *
 *   sum     = product { ("+" | "-") product }
 *   product = mass { ("*" | "/") mass }
 *   mass    = ("(" sum ")" | number) [unit], then further numbers with smaller units: "1 lb 3 oz" is one mass
 *
 * A number has digits and at most one decimal point or comma: "1,5" is one and a half. "1,500" is refused, since it means
 * one and a half to some and fifteen hundred to others. A unit is g, kg, mg or a unit of mass of the reference table.
 */
#ifndef WORK_QUANTITY_H
#define WORK_QUANTITY_H

#include "lyeway/status.h"

enum { QUANTITY_MOST_BYTES = 128, QUANTITY_MOST_DEPTH = 16 };

/* Reads the whole of `text` into *g, grams; any finite value, also 0 or below. A result without any unit is in `unit`, a unit
 * of mass ("g"). LW_INVALID, *g untouched, with a sentence that names the place as "character 4" where the text is not a
 * mass: an unknown unit, a volume, a number without a unit beside one that has it, a division by nothing. */
enum lw_status quantity_mass(const char *text, const char *unit, double *g, struct lw_error *error);

#endif
