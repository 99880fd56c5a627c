/* book_causes.h - why a figure differs between the two of the batches compared that differ most in it. */
#ifndef WORK_BOOK_CAUSES_H
#define WORK_BOOK_CAUSES_H

#include "work/book.h"
#include "work/run.h"

/* Fills causes and summary of *compare, whose lines are those of the runs. */
void book_find_causes(struct workshop *workshop, const struct run *const run[], enum book_figure about,
                      struct compare *compare);

#endif
