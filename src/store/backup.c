/* backup.c - a copy of the open store, made whole beside its place and then put there in one step. */
#include "store/store.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/error.h"
#include "store/moments.h"
#include "store/place.h"

enum { PAGES_A_STEP = 256 };

struct progress {
    void (*call)(void *context, int done, int all);
    void *context;
};

static int copy_pages(sqlite3 *from, sqlite3 *to, const struct progress *progress)
{
    sqlite3_backup *backup = sqlite3_backup_init(to, "main", from, "main");
    int code = SQLITE_OK;

    if (!backup)
        return sqlite3_extended_errcode(to);
    while (code == SQLITE_OK) {
        code = sqlite3_backup_step(backup, PAGES_A_STEP);
        int all = sqlite3_backup_pagecount(backup);

        if (progress->call && (code == SQLITE_OK || code == SQLITE_DONE))
            progress->call(progress->context, all - sqlite3_backup_remaining(backup), all);
    }

    int ended = sqlite3_backup_finish(backup);

    return code == SQLITE_DONE ? ended : code;
}

static enum lw_status copy_into(sqlite3 *from, const char *path, const struct progress *progress,
                                struct lw_error *error)
{
    sqlite3 *to = NULL;
    int code = sqlite3_open_v2(path, &to, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE, NULL);

    if (code == SQLITE_OK)
        code = copy_pages(from, to, progress);

    int closed = sqlite3_close(to);

    if (code == SQLITE_OK)
        code = closed;
    return code == SQLITE_OK ? place_sync_file(path, error) : store_failed(path, code, error);
}

/* The backup keeps to the moment at which it began, so that another program's writes do not make it begin again. */
static enum lw_status copy_moment(struct store *store, const char *path, const struct progress *progress,
                                  struct lw_error *error)
{
    enum lw_status status = store_read_begin(store, error);

    if (status != LW_OK)
        return status;
    return store_read_end(store, copy_into(store->db, path, progress, error), error);
}

static enum lw_status check_target(const char *to, bool replace, struct lw_error *error)
{
    struct place place;
    enum lw_status status = place_look(to, &place, error);

    if (status != LW_OK)
        return status;
    if (place.kind == PLACE_FOLDER)
        return lw_fail(error, LW_INVALID, "%s is a folder; name the file for the backup in it.", to);
    if (place.kind != PLACE_MISSING && !replace)
        return lw_fail(error, LW_CONFLICT, "%s is there already; name another file.", to);
    if (place_has_beside(to, "-wal"))
        return lw_fail(error, LW_CONFLICT,
                       "%s is in use or was not closed (%s-wal stands beside it); name another file.", to, to);
    return LW_OK;
}

enum lw_status store_backup(struct store *store, const char *to, bool replace,
                            void (*progress)(void *context, int done, int all), void *context, struct lw_error *error)
{
    const struct progress call = {progress, context};
    char *temporary;
    enum lw_status status = check_target(to, replace, error);

    if (status == LW_OK)
        status = moments_settle(store, error);
    if (status == LW_OK)
        status = place_make_temporary(to, &temporary, error);
    if (status != LW_OK)
        return status;
    status = copy_moment(store, temporary, &call, error);
    if (status == LW_OK)
        status = place_move(temporary, to, error);
    if (status != LW_OK)
        unlink(temporary);
    free(temporary);
    return status;
}
