/* batch_rows.h - which column of a batch's tables is which member. */
#ifndef STORE_BATCH_ROWS_H
#define STORE_BATCH_ROWS_H

#include "store/member.h"

/* Of struct batch_line, of struct batch_head without id, uuid and vessels, and of the elements of a record. */
const struct members *batch_line_members(void);
const struct members *batch_head_members(void);
const struct members *batch_vessel_members(void);
const struct members *batch_step_members(void);
const struct members *batch_event_members(void);

#endif
