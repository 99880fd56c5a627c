/* book.h - the rows of the book: written beside the records, found by words, walked through in the orders that are offered.
 *
 * A row is a copy of what a record comes to. Whenever a batch or an event is written, by whatever program, the batch is marked
 * as due, and book_due names it until its row is written anew.
 */
#ifndef STORE_BOOK_H
#define STORE_BOOK_H

#include "lyeway/book.h"
#include "store/store.h"

/* At most `most` batches whose row is missing or old, oldest first; how many. */
enum lw_status book_due(struct store *store, int64_t id[], int most, int *n, struct lw_error *error);

/* How many there are. */
enum lw_status book_due_count(struct store *store, int *n, struct lw_error *error);

/* Writes the row of a batch and the words it is found by, in place of those before, in one transaction; it is due again if its record
 * has grown past row->last_event. LW_NOT_FOUND. */
enum lw_status book_write(struct store *store, const struct book_row *row, const struct book_words *words,
                          struct lw_error *error);

/* ---- finding */

/* Where a term is looked for: anywhere, or in one kind of word. BOOK_IN_OUTCOME and BOOK_IN_DAY are the store's own words: the
 * outcome, and the day it was started as "2026", "2026-03", "2026-03-14", by the maker's clock then. */
enum book_in {
    BOOK_ANYWHERE,
    BOOK_IN_RECIPE,
    BOOK_IN_COLOURANT,
    BOOK_IN_FRAGRANCE,
    BOOK_IN_OUTCOME,
    BOOK_IN_DAY,
    BOOK_INS
};

enum { BOOK_TERMS = 12, BOOK_TERM_BYTES = 64, BOOK_PAGE = 256 };

/* What is to be shown: batches that have every term, each by the beginning of a word (unless `whole`), in any case, accents apart.
 * A term of several words wants them one after the other. One without a letter or digit is left out. */
struct book_filter {
    int terms;
    struct book_term {
        enum book_in in;
        bool whole;
        char text[BOOK_TERM_BYTES];
    } term[BOOK_TERMS];
    int64_t from_s, before_s; /* started then; before_s 0: no end */
    bool counted_only;        /* finished, and not left out */
};

/* Each has an index. Those by a figure show only the batches that have it. */
enum book_order {
    BOOK_NEWEST,
    BOOK_BY_RECIPE,
    BOOK_BY_SUPERFAT,
    BOOK_BY_REJECTS,
    BOOK_BY_EACH,
    BOOK_BY_WINDOW,
    BOOK_ORDERS
};

/* At most `most` lines in that order (newest first, recipes by name and newest first in each, figures from the least), from the one
 * after `beyond` on (NULL: from the beginning); backwards: those before it (NULL: from the end), the nearest first. With a filter
 * that has terms or counted_only only BOOK_NEWEST: LW_INVALID else. False from `each` stops. No scan and no sort (but words of a
 * filter are looked up in their index). */
enum lw_status book_page(struct store *store, const struct book_filter *filter, enum book_order order,
                         const struct book_line *beyond, bool backwards, int most,
                         bool (*each)(void *context, const struct book_line *line), void *context,
                         struct lw_error *error);

/* Batches that want something from `from_s` up to `until_s`, the soonest first, at most `most`. */
enum lw_status book_wants(struct store *store, int64_t from_s, int64_t until_s, int most,
                          bool (*each)(void *context, const struct book_line *line), void *context,
                          struct lw_error *error);

/* How many batches the filter finds, counted up to `most`. */
enum lw_status book_count(struct store *store, const struct book_filter *filter, int most, int *n,
                          struct lw_error *error);

/* One line. LW_NOT_FOUND where it has no row. */
enum lw_status book_line(struct store *store, int64_t batch_id, struct book_line *line, struct lw_error *error);

/* The batch of that number. LW_NOT_FOUND. */
enum lw_status book_find(struct store *store, const char *number, int64_t *batch_id, struct lw_error *error);

/* Pieces in finished batches that are not left out, the newest batches first, at most `most` parts. */
enum lw_status book_pieces_each(struct store *store, int most,
                                bool (*each)(void *context, int64_t batch_id, const struct book_pieces *pieces),
                                void *context, struct lw_error *error);

/* Names in the recipes of batches that a filter may ask for, in the order of the alphabet: recipes (as the batches were called),
 * colourants or fragrances. */
enum lw_status book_names(struct store *store, enum book_in in, int most, bool (*each)(void *context, const char *name),
                          void *context, struct lw_error *error);

#endif
