/* book_rows.h - which column of the book's tables is which member. */
#ifndef STORE_BOOK_ROWS_H
#define STORE_BOOK_ROWS_H

#include "store/member.h"

/* Of struct book_row without batch_id and pieces, of struct book_pieces, and of struct book_line. */
const struct members *book_row_members(void);
const struct members *book_pieces_members(void);
const struct members *book_line_members(void);

#endif
