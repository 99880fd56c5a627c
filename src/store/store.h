/* store.h - the maker's records in one SQLite file: opened, migrated, checked, backed up.
 *
 * WAL, synchronous FULL, foreign keys on, STRICT tables. Every sentence of an error says what a maker can do; no SQLite text
 * reaches a screen. A store belongs to the thread that opened it.
 */
#ifndef STORE_STORE_H
#define STORE_STORE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "lyeway/now.h"
#include "lyeway/status.h"

struct store;

enum store_how {
    STORE_CREATE,   /* made if absent, of `image` if there is one; folders above it are 0700, the file is 0600 */
    STORE_EXISTING, /* LW_NOT_FOUND if absent */
    STORE_IMAGE     /* private, in memory: copied from `image`, or new without one; nothing is written anywhere */
};

struct store_options {
    enum store_how how;
    /* Bytes of a database that a new store begins with, borrowed until store_close; NULL: it begins empty. */
    const unsigned char *image;
    size_t image_bytes;
    int64_t image_shift_s;         /* seconds that every moment in the copy is moved on by */
    int64_t image_running_shift_s; /* and by how many more those of batches on the bench; 0: none */
    int32_t image_offset_s;        /* seconds that are added to its batches' local time: the copy is of another place */
    /* Source of randomness for UUIDs. */
    void (*random)(void *context, uint8_t *bytes, size_t n);
    void *context;
};

/* Opens, checks application_id and user_version before any write, migrates after an automatic backup beside the file.
 * LW_CORRUPT: damaged or not a store of ours (nothing is written to it); LW_CONFLICT: from a newer program; LW_BUSY: held by
 * another for longer than 5 s; LW_IO: cannot be read or written (also a read-only disk). */
enum lw_status store_open(const char *path, const struct store_options *options, struct store **store,
                          struct lw_error *error);

/* Writes the log back and closes; a failure to do so is told, the data is in the log then. NULL is fine. */
enum lw_status store_close(struct store *store, struct lw_error *error);

/* A transaction that writes: holds off all other writers from the start, so that nothing read in it can be out of date. One
 * inside of another joins it. */
enum lw_status store_begin(struct store *store, struct lw_error *error);

/* Commits where `status` is LW_OK and takes everything since its store_begin back otherwise. Returns what became of it. */
enum lw_status store_end(struct store *store, enum lw_status status, struct lw_error *error);

/* When there is time: writes the log back if it has grown. */
enum lw_status store_idle(struct store *store, struct lw_error *error);

/* Another program has written since the last call. */
bool store_changed_elsewhere(struct store *store);

/* A descriptor that becomes readable when the file is written to by anybody (inotify where there is one), -1 where there is not. */
int store_watch_fd(const struct store *store);

/* Integrity, foreign keys, records of batches without gaps and as their flags say, recipes and batches that can be read; `each`
 * gets a sentence for each thing found wrong. */
enum lw_status store_verify(struct store *store, void (*each)(void *context, const char *sentence), void *context,
                            int *found, struct lw_error *error);

/* A copy by SQLite's own backup, into a new file beside `to` that then takes its place; `progress` (may be NULL) gets done
 * and all pages. An existing file is only replaced when `replace`. */
enum lw_status store_backup(struct store *store, const char *to, bool replace,
                            void (*progress)(void *context, int done, int all), void *context, struct lw_error *error);

/* Puts the store at `path` back to what `from` holds: `from` is checked whole first, what was there is kept as
 * path.before-restore. No program may have it open. */
enum lw_status store_restore(const char *path, const char *from, struct lw_error *error);

const char *store_path(const struct store *store);

#endif
