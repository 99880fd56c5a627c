/* failure.c - what SQLite says, in words that tell a maker what to do. */
#include "store/inside.h"

#include "base/error.h"

struct meaning {
    int code;
    enum lw_status status;
    const char *sentence; /* with one %s for the store */
};

/* The first whose code is the whole code or its primary part. */
static const struct meaning meanings[] = {
    {SQLITE_IOERR_NOMEM, LW_FULL, "There is no memory left to work on %s; close other programs and try again."},
    {SQLITE_NOMEM, LW_FULL, "There is no memory left to work on %s; close other programs and try again."},
    {SQLITE_BUSY, LW_BUSY, "Another program is writing to %s; wait for it or close it, then try again."},
    {SQLITE_LOCKED, LW_BUSY, "Another program is writing to %s; wait for it or close it, then try again."},
    {SQLITE_PROTOCOL, LW_BUSY, "Other programs keep %s busy; close them, then try again."},
    {SQLITE_FULL, LW_FULL, "There is no room left on the disk of %s; make room, then try again."},
    {SQLITE_TOOBIG, LW_FULL, "A text is too long for %s; make it shorter."},
    {SQLITE_READONLY, LW_IO, "%s cannot be written to; look at who may write to the file and its folder."},
    {SQLITE_CANTOPEN, LW_IO, "%s cannot be opened; look at who may read and write the file and its folder."},
    {SQLITE_PERM, LW_IO, "%s cannot be opened; look at who may read and write the file and its folder."},
    {SQLITE_AUTH, LW_IO, "%s cannot be opened; look at who may read and write the file and its folder."},
    {SQLITE_IOERR, LW_IO, "Reading or writing %s failed; look at the disk, then try again."},
    {SQLITE_CORRUPT, LW_CORRUPT, "%s is damaged; put a backup of it in its place."},
    {SQLITE_NOTADB, LW_CORRUPT,
     "%s is not a store of Lyeway, or is damaged at its beginning; nothing was written to it."},
    {SQLITE_FORMAT, LW_CORRUPT, "%s is damaged; put a backup of it in its place."},
    {SQLITE_CONSTRAINT, LW_INVALID, "A value is outside of what %s can hold; nothing of this step was saved."},
};

static const struct meaning *meaning_of(int code)
{
    for (size_t i = 0; i < sizeof meanings / sizeof meanings[0]; i++)
        if (meanings[i].code == code || meanings[i].code == (code & 0xFF))
            return &meanings[i];
    return NULL;
}

enum lw_status store_failed(const char *path, int code, struct lw_error *error)
{
    const char *what = path[0] ? path : "this store";
    const struct meaning *meaning = meaning_of(code);

    if (code == SQLITE_OK || code == SQLITE_ROW || code == SQLITE_DONE)
        return LW_OK;
    if (!meaning)
        return lw_fail(error, LW_IO, "Working on %s failed (SQLite result %d); close it and open it again.", what,
                       code);
    return lw_fail(error, meaning->status, meaning->sentence, what);
}
