/* batches.h - batches in the store: a line each for lists, and records that only grow. */
#ifndef STORE_BATCHES_H
#define STORE_BATCHES_H

#include "lyeway/batch.h"
#include "store/store.h"

struct batch_line {
    int64_t id;
    char number[BATCH_NUMBER_BYTES];
    char name[LW_NAME_BYTES];
    int64_t started_s, finished_s; /* 0: still on the bench */
    bool set_aside;
    int64_t oils_ug; /* as planned */
};

/* Batches on the bench, oldest first; or all, newest first. False from `each` stops. */
enum batches_which { BATCHES_RUNNING, BATCHES_ALL };
enum lw_status batches_each(struct store *store, enum batches_which which,
                            bool (*each)(void *context, const struct batch_line *line), void *context,
                            struct lw_error *error);

/* Writes a new batch with its steps, in one transaction. `frozen` is the recipe and the facts that it used, as an exchange file;
 * `bench` the settings then, by name (settings_freeze in work). A uuid of zeros gets a new one. head->id is set.
 * LW_CONFLICT where the number is there already. */
enum lw_status batches_create(struct store *store, struct batch_head *head, int64_t oils_ug, const char *frozen,
                              const char *bench, const struct step steps[], int n, struct lw_error *error);

/* The head, and the texts, which are to be freed. LW_NOT_FOUND. */
enum lw_status batches_load(struct store *store, int64_t id, struct batch_head *head, char **frozen, char **bench,
                            struct lw_error *error);
enum lw_status batches_steps(struct store *store, int64_t id, bool (*each)(void *context, const struct step *step),
                             void *context, struct lw_error *error);

/* Events with an id above `after`, in order. */
enum lw_status batches_events(struct store *store, int64_t id, int64_t after,
                              bool (*each)(void *context, const struct batch_event *event), void *context,
                              struct lw_error *error);

/* Adds steps and events at the end of the record, in one transaction; they must have the ids that come next, LW_CONFLICT where
 * another program has added to the record since (read what is new, number again, append again). `finished` and `set_aside` events
 * move the batch out of BATCHES_RUNNING. */
enum lw_status batches_append(struct store *store, int64_t id, const struct step steps[], int n_steps,
                              const struct batch_event events[], int n_events, struct lw_error *error);

/* Highest serial among numbers that begin with `prefix` and end with `suffix` around digits alone; 0: none. */
enum lw_status batches_serial(struct store *store, const char *prefix, const char *suffix, int64_t *serial,
                              struct lw_error *error);

/* Pieces that were counted after lifting and not placed yet. */
struct pieces_line {
    char number[BATCH_NUMBER_BYTES]; /* of their batch */
    char kind[LW_NAME_BYTES];
    int on_shelf;
    int64_t made_s; /* when they were counted */
};

/* Kinds of pieces on the shelf, the oldest first. What is placed (EVENT_PLACED) names batch and kind: "26-001 quince blossom". */
enum lw_status batches_pieces(struct store *store, bool (*each)(void *context, const struct pieces_line *line),
                              void *context, struct lw_error *error);

/* When the safety notes were last acknowledged in any batch, UTC s; 0: never. */
enum lw_status batches_acknowledged(struct store *store, int64_t *at_s, struct lw_error *error);

#endif
