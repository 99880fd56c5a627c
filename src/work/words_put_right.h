/* words_put_right.h - what can be done about a wrong weighing, and what it most likely was, in the maker's words and units. */
#ifndef WORK_WORDS_PUT_RIGHT_H
#define WORK_WORDS_PUT_RIGHT_H

#include <stddef.h>

#include "calc/put_right.h"
#include "lyeway/document.h"

/* what: what is done and what superfat becomes, "Take 20 g of Coconut oil out again; superfat is then 5.0 % (likely 3.8 to
 * 8.0)." or "Leave it: superfat is now 6.1 % (likely 4.9 to 9.0).", and what no longer fits.
 * todo: why, and how it is done. `input` is what put_right was asked with. */
void words_of_remedy(const struct put_right_input *input, const struct remedy *remedy, enum mass_unit unit,
                     struct words *out);

/* The safety notes where alkali or lye is handled by it, "" elsewhere. */
const char *words_of_remedy_safety(const struct remedy *remedy);

/* A slip with the weighing that it is about. */
struct slip_told {
    struct slip slip;
    struct part_ref what;       /* that was weighed; PART_BATTER for the full jug */
    int64_t target_ug, read_ug; /* of the full jug: what it should weigh and what it does, without its vessel */
    int64_t vessel_ug;          /* SLIP_NOT_TARED: its empty mass */
    const char *vessel, *batch; /* their names; NULL or "": not known. batch: SLIP_OTHER_BATCH */
};

/* One sentence, "The reading is jug B and Olive oil together: 212 g of it is jug B; it was not tared."; "" for SLIP_NONE. */
void words_of_slip(const struct plan_input *input, const struct plan *plan, const struct slip_told *told,
                   enum mass_unit unit, char *out, size_t size);

#endif
