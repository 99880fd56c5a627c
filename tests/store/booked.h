/* booked.h - batches of one recipe with rows in the book. */
#ifndef STORE_TESTS_BOOKED_H
#define STORE_TESTS_BOOKED_H

#include "store/batches.h"
#include "store/book.h"
#include "store/inside.h"
#include "support/scratch.h"

struct booked {
    struct scratch *scratch;
    struct store *store;
    int64_t recipe_id;
    int batches; /* made so far, numbered "26-001" on */
    struct lw_error error;
};

/* A new store with a recipe "Hedge Rose" of which one revision is kept. As setup and teardown of a test. */
int booked_setup(void **state);
int booked_teardown(void **state);

/* The test fails where the status is not LW_OK. */
void booked_ok(struct booked *booked, enum lw_status status);

/* A batch without events, begun then; its id. */
int64_t booked_batch(struct booked *booked, const char *name, int64_t started_s);

/* The next event of a batch. */
void booked_event(struct booked *booked, int64_t batch_id, int64_t id, enum event_kind kind, int64_t other);

/* A row with no figure. */
struct book_row booked_row(int64_t batch_id);

void booked_write(struct booked *booked, const struct book_row *row, const char *recipe, const char *said);

/* No statement of SQLite from first to last that has been used has scanned a table or sorted; how many have been used. */
int booked_unscanned(struct booked *booked, enum sql first, enum sql last);

#endif
