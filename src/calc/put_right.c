/* put_right.c - the table of calculations, section 4: what is proposed in which state for what went wrong. */
#include "calc/put_right.h"

#include <stddef.h>

#include "calc/put_right_parts.h"

/* States of what was weighed. */
enum row {
    ROW_ALONE,     /* still alone in its vessel */
    ROW_TOGETHER,  /* with others, but nothing is dissolved */
    ROW_LYE_MIXED, /* lye is mixed, not combined */
    ROW_COMBINED,  /* whole, fluid, at most thin trace */
    ROW_SPLIT,     /* split, coloured, scented, thicker, or poured */
    ROWS
};

/* What went wrong. A liquid or additive matters by its acid and fat: more of it is less alkali to spare. */
enum column {
    ALKALI_OVER,
    ALKALI_SHORT,
    OIL_OVER,
    OIL_SHORT,
    WATER_OVER,
    WATER_SHORT,
    OTHER_OVER,
    OTHER_SHORT,
    NOTHING, /* as planned, or not a part that is weighed */
    COLUMNS
};

enum { CELL = 3 }; /* proposals in a cell, at most two and the end */

/* clang-format off */
static put_right_proposer *const table[ROWS][COLUMNS][CELL] = {
    [ROW_ALONE][ALKALI_OVER]      = {put_right_take_out},
    [ROW_ALONE][ALKALI_SHORT]     = {put_right_add_alkali},
    [ROW_ALONE][OIL_OVER]         = {put_right_take_out},
    [ROW_ALONE][OIL_SHORT]        = {put_right_add},
    [ROW_ALONE][WATER_OVER]       = {put_right_take_out},
    [ROW_ALONE][WATER_SHORT]      = {put_right_add},
    [ROW_ALONE][OTHER_OVER]       = {put_right_take_out},
    [ROW_ALONE][OTHER_SHORT]      = {put_right_add},

    [ROW_TOGETHER][ALKALI_OVER]   = {put_right_pour_share}, /* once it is dissolved */
    [ROW_TOGETHER][ALKALI_SHORT]  = {put_right_add_alkali, put_right_leave},
    [ROW_TOGETHER][OIL_OVER]      = {put_right_add_alkali_over, put_right_leave},
    [ROW_TOGETHER][OIL_SHORT]     = {put_right_add},
    [ROW_TOGETHER][WATER_OVER]    = {put_right_leave},
    [ROW_TOGETHER][WATER_SHORT]   = {put_right_add},
    [ROW_TOGETHER][OTHER_OVER]    = {put_right_add_alkali_over, put_right_leave},
    [ROW_TOGETHER][OTHER_SHORT]   = {put_right_add},

    [ROW_LYE_MIXED][ALKALI_OVER]  = {put_right_pour_share},
    [ROW_LYE_MIXED][ALKALI_SHORT] = {put_right_add_alkali, put_right_leave},
    [ROW_LYE_MIXED][OIL_OVER]     = {put_right_add_lye_over, put_right_leave},
    [ROW_LYE_MIXED][OIL_SHORT]    = {put_right_add},
    [ROW_LYE_MIXED][WATER_OVER]   = {put_right_leave},
    [ROW_LYE_MIXED][WATER_SHORT]  = {put_right_add},
    [ROW_LYE_MIXED][OTHER_OVER]   = {put_right_add_alkali_over, put_right_leave},
    [ROW_LYE_MIXED][OTHER_SHORT]  = {put_right_add},

    [ROW_COMBINED][ALKALI_OVER]   = {put_right_add_oils},
    [ROW_COMBINED][ALKALI_SHORT]  = {put_right_add_lye},
    [ROW_COMBINED][OIL_OVER]      = {put_right_leave},
    [ROW_COMBINED][OIL_SHORT]     = {put_right_add_the_oil},
    [ROW_COMBINED][WATER_OVER]    = {put_right_leave},
    [ROW_COMBINED][WATER_SHORT]   = {put_right_leave},
    [ROW_COMBINED][OTHER_OVER]    = {put_right_add_lye_over, put_right_leave},
    [ROW_COMBINED][OTHER_SHORT]   = {put_right_add_oils},

    [ROW_SPLIT][ALKALI_OVER]      = {put_right_set_aside},
    [ROW_SPLIT][ALKALI_SHORT]     = {put_right_set_aside},
    [ROW_SPLIT][OIL_OVER]         = {put_right_leave},
    [ROW_SPLIT][OIL_SHORT]        = {put_right_set_aside},
    [ROW_SPLIT][WATER_OVER]       = {put_right_leave},
    [ROW_SPLIT][WATER_SHORT]      = {put_right_leave},
    [ROW_SPLIT][OTHER_OVER]       = {put_right_set_aside},
    [ROW_SPLIT][OTHER_SHORT]      = {put_right_set_aside},
};
/* clang-format on */

/* What is alone can be taken out; a liquid or additive may be so later than the rest, still in its cup. */
static bool still_alone(const struct put_right_input *input)
{
    switch (input->what.part) {
    case PART_ALKALI:
        return input->alone[0] && input->phase == PHASE_APART;
    case PART_OIL:
        return input->alone[1] && (input->phase == PHASE_APART || input->phase == PHASE_LYE_MIXED);
    case PART_WATER:
        return input->alone[2] && input->phase == PHASE_APART;
    case PART_LIQUID:
    case PART_ADDITIVE:
        return input->alone[3] && input->phase != PHASE_SPLIT;
    case PART_BATTER:
    case PART_FRAGRANCE:
    case PART_PORTION:
    case PART_COLOURANT:
    case PART_CONSTITUENT:
    case PART_SIZE:
    case PART_CARRIER:
        break;
    }
    return false;
}

static enum row row_of(const struct put_right_input *input)
{
    if (still_alone(input))
        return ROW_ALONE;
    switch (input->phase) {
    case PHASE_APART:
        return ROW_TOGETHER;
    case PHASE_LYE_MIXED:
        return ROW_LYE_MIXED;
    case PHASE_COMBINED:
        return ROW_COMBINED;
    case PHASE_SPLIT:
        break;
    }
    return ROW_SPLIT;
}

static enum column column_of(const struct standing_batch *batch)
{
    struct part_ref what = batch->input->what;
    int64_t over = put_right_mass_ug(batch, what) - put_right_planned_ug(batch, what);

    if (over == 0)
        return NOTHING;
    if (what.part == PART_ALKALI)
        return over > 0 ? ALKALI_OVER : ALKALI_SHORT;
    if (what.part == PART_OIL)
        return over > 0 ? OIL_OVER : OIL_SHORT;
    if (what.part == PART_WATER)
        return over > 0 ? WATER_OVER : WATER_SHORT;
    return over > 0 ? OTHER_OVER : OTHER_SHORT;
}

static void propose(struct standing_batch *batch, enum row row, enum column column)
{
    for (int i = 0; i < CELL && table[row][column][i]; i++)
        table[row][column][i](batch);
}

/* Something else than what was asked about may be wrong too: the batch is met as it stands. */
static void meet_the_rest(struct standing_batch *batch)
{
    enum row row = row_of(&(struct put_right_input){.phase = batch->input->phase});

    if (!put_right_sound(batch, &batch->now))
        propose(batch, row, ALKALI_OVER);
    else if (batch->now.margin.nominal > batch->most)
        propose(batch, row, ALKALI_SHORT);
}

int put_right(const struct put_right_input *input, struct remedy remedies[REMEDIES])
{
    struct standing_batch batch;

    put_right_stand(input, remedies, &batch);
    if (batch.now.margin.nominal <= batch.most)
        put_right_leave(&batch);
    propose(&batch, row_of(input), column_of(&batch));
    if (!put_right_dissolves(&batch, &batch.now) && input->what.part != PART_WATER)
        put_right_add_water(&batch);
    if (batch.remedies == 0)
        meet_the_rest(&batch);
    if (batch.remedies == 0)
        put_right_leave(&batch);
    put_right_set_aside(&batch);
    return batch.remedies;
}
