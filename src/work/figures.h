/* figures.h - what a batch comes to: its row in the book, found from its record. */
#ifndef WORK_FIGURES_H
#define WORK_FIGURES_H

#include "base/buffer.h"
#include "lyeway/book.h"
#include "store/book.h"
#include "work/run.h"

void figures_of(const struct run *run, struct book_row *row);

/* Everything said in the record, and its oils, as words to find it by. */
void figures_said(const struct run *run, struct buffer *out);
/* Names of the colourants or fragrances (BOOK_IN_COLOURANT, BOOK_IN_FRAGRANCE). */
void figures_names(const struct run *run, enum book_in in, struct buffer *out);

#endif
