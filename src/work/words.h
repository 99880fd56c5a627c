/* words.h - what a finding says to a maker: what, why with numbers, and what to do, in the maker's units. */
#ifndef WORK_WORDS_H
#define WORK_WORDS_H

#include "lyeway/document.h"

void words_of_finding(const struct plan_input *input, const struct plan *plan, const struct finding *finding,
                      enum mass_unit unit, struct words *out);

/* A mass for people: "147.24 g", "5.19 oz", "1 lb 3.2 oz". Decimals follow division_ug in grams, 0: as many as help. */
void words_of_mass(double g, long long division_ug, enum mass_unit unit, char *out, size_t size);

/* One large word for the bench and the sheet: LYE-HEAVY, TIGHT or WIDE, never "safe". */
const char *words_of_margin(const struct plan *plan);

#endif
