/* restore.c - puts a backup in the place of a store. The backup is copied first and the copy checked, so that what is checked is
 * what will be there, and the backup is only read. */
#include <stdlib.h>
#include <unistd.h>

#include "base/error.h"
#include "store/open.h"
#include "store/place.h"

static enum lw_status check_source(const char *from, struct lw_error *error)
{
    struct place place;
    enum lw_status status = place_look(from, &place, error);

    if (status != LW_OK)
        return status;
    if (place.kind == PLACE_MISSING)
        return lw_fail(error, LW_NOT_FOUND, "There is no backup at %s; check the path.", from);
    if (place.kind != PLACE_FILE)
        return lw_fail(error, LW_INVALID, "%s is not a file, so no backup.", from);
    if (place_has_beside(from, "-wal"))
        return lw_fail(
            error, LW_CONFLICT,
            "%s is in use or was not closed (%s-wal stands beside it); open it with Lyeway and close it first.", from,
            from);
    return LW_OK;
}

static void count_fault(void *context, const char *sentence)
{
    (void)sentence;
    ++*(int *)context;
}

/* Every page and every reference; that of an older version too, which is brought up to date when it is opened. */
static enum lw_status check_copy(const char *copy, const char *from, struct lw_error *error)
{
    struct store_options options = {.how = STORE_EXISTING};
    struct store *store = store_new(from, &options);
    int faults = 0, found;
    enum lw_status status;

    if (!store)
        return store_failed(from, SQLITE_NOMEM, error);
    status = open_copy(store, copy, error);
    if (status == LW_OK)
        status = store_verify(store, count_fault, &faults, &found, error);
    store_free(store);
    if (status == LW_OK && faults > 0)
        return lw_fail(error, LW_CORRUPT, "%s is damaged, so nothing was restored; choose another backup.", from);
    return status;
}

/* Holds the old store alone for a moment, to see that nobody else has it open, and brings its log home so that the one file is
 * all of it. A store that is too damaged for that is kept as it is, with its log. */
static enum lw_status settle_old(const char *path, struct lw_error *error)
{
    sqlite3 *db = NULL;
    int code = sqlite3_open_v2(path, &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE, NULL);

    if (code == SQLITE_OK)
        code = sqlite3_exec(db, "PRAGMA locking_mode = EXCLUSIVE; SELECT count(*) FROM sqlite_schema", NULL, NULL,
                            NULL);
    if (code == SQLITE_OK)
        code = sqlite3_wal_checkpoint_v2(db, "main", SQLITE_CHECKPOINT_TRUNCATE, NULL, NULL);
    sqlite3_close(db);
    if ((code & 0xFF) == SQLITE_BUSY || (code & 0xFF) == SQLITE_LOCKED)
        return lw_fail(error, LW_BUSY, "Another program has %s open; close it, then restore again.", path);
    return LW_OK;
}

/* Moves path + suffix to kept + suffix, if it is there. */
static enum lw_status keep_beside(const char *path, const char *kept, const char *suffix, struct lw_error *error)
{
    char *from = place_beside(path, suffix), *to = place_beside(kept, suffix);
    enum lw_status status = LW_OK;

    if (!from || !to)
        status = store_failed(path, SQLITE_NOMEM, error);
    else if (place_has_beside(path, suffix))
        status = place_move(from, to, error);
    free(from);
    free(to);
    return status;
}

/* The log goes first: a log without its database is refused by store_open, a database with the log of another is ruined. */
static enum lw_status keep_old(const char *path, struct lw_error *error)
{
    char *kept = place_free_beside(path, ".before-restore");
    char *index = place_beside(path, "-shm");
    enum lw_status status = LW_OK;

    if (!kept || !index)
        status = store_failed(path, SQLITE_NOMEM, error);
    if (status == LW_OK)
        status = keep_beside(path, kept, "-wal", error);
    if (status == LW_OK)
        status = keep_beside(path, kept, "", error);
    if (status == LW_OK && index)
        unlink(index); /* holds nothing that the log does not */
    free(kept);
    free(index);
    return status;
}

static enum lw_status put_in_place(const char *temporary, const char *path, struct lw_error *error)
{
    struct place place;
    enum lw_status status = place_look(path, &place, error);

    if (status == LW_OK && place.kind == PLACE_FOLDER)
        status = lw_fail(error, LW_INVALID, "%s is a folder, not a store.", path);
    if (status == LW_OK && place.kind == PLACE_FILE && place.bytes > 0)
        status = settle_old(path, error);
    if (status == LW_OK)
        status = keep_old(path, error);
    return status == LW_OK ? place_move(temporary, path, error) : status;
}

static enum lw_status restore(const char *path, const char *from, const char *temporary, struct lw_error *error)
{
    enum lw_status status = place_copy(from, temporary, error);

    if (status == LW_OK)
        status = check_copy(temporary, from, error);
    if (status == LW_OK)
        status = put_in_place(temporary, path, error);
    return status;
}

enum lw_status store_restore(const char *path, const char *from, struct lw_error *error)
{
    char *temporary;
    enum lw_status status = check_source(from, error);

    if (status == LW_OK)
        status = place_make_temporary(path, &temporary, error);
    if (status != LW_OK)
        return status;
    status = restore(path, from, temporary, error);
    if (status != LW_OK)
        unlink(temporary);
    free(temporary);
    return status;
}
