/* book_match.h - what a filter asks for, as an expression of the index of words. */
#ifndef STORE_BOOK_MATCH_H
#define STORE_BOOK_MATCH_H

#include "store/book.h"

/* A term twice, its quotes doubled, with what stands around it. */
enum { BOOK_MATCH_BYTES = BOOK_TERMS * (4 * BOOK_TERM_BYTES + 48) };

/* "" where no term has a letter or digit. Whatever stands in a term, it is looked for and never an expression of its own. */
enum lw_status book_match(struct store *store, const struct book_filter *filter, char match[BOOK_MATCH_BYTES],
                          struct lw_error *error);

#endif
