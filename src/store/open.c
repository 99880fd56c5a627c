/* open.c - SQLite opens nearly anything without a word, writes to a newer version and takes an empty file for a new one. So the
 * file is looked at before, its first bytes are read without SQLite's page cache, and only then it is used.
 */
#include "store/open.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "store/migrate.h"
#include "store/moments.h"
#include "store/place.h"
#include "store/query.h"

/* The database header, by https://www.sqlite.org/fileformat2.html#the_database_header. */
enum {
    HEADER_BYTES = 100,
    HEADER_PAGE_SIZE = 16, /* two bytes; 1 is 65536 */
    HEADER_WRITE_VERSION = 18,
    HEADER_READ_VERSION = 19,
    HEADER_CHANGE_COUNTER = 24,
    HEADER_PAGES = 28, /* valid where the next two counters agree */
    HEADER_USER_VERSION = 60,
    HEADER_APPLICATION_ID = 68,
    HEADER_VALID_FOR = 92,
    VERSION_ROLLBACK = 1,
    VERSION_LOG = 2
};
static const char magic[16] = "SQLite format 3";

static uint32_t number_at(const unsigned char *header, int at)
{
    return (uint32_t)header[at] << 24 | (uint32_t)header[at + 1] << 16 | (uint32_t)header[at + 2] << 8 | header[at + 3];
}

static int64_t page_size(const unsigned char *header)
{
    int64_t size = header[HEADER_PAGE_SIZE] << 8 | header[HEADER_PAGE_SIZE + 1];

    return size == 1 ? 65536 : size;
}

static bool header_sound(const unsigned char *header)
{
    int64_t size = page_size(header);

    return size >= 512 && (size & (size - 1)) == 0 && header[HEADER_WRITE_VERSION] >= VERSION_ROLLBACK &&
           header[HEADER_WRITE_VERSION] <= VERSION_LOG && header[HEADER_READ_VERSION] >= VERSION_ROLLBACK &&
           header[HEADER_READ_VERSION] <= VERSION_LOG;
}

static enum lw_status damaged(const char *path, struct lw_error *error)
{
    return lw_fail(error, LW_CORRUPT, "%s is damaged and nothing was written to it; put a backup of it in its place.",
                   path);
}

/* What the first bytes say. `bytes` is the length of the whole; pending: a log or journal holds what makes it whole. */
static enum lw_status judge_header(const unsigned char *header, int64_t bytes, bool pending, const char *path,
                                   struct lw_error *error)
{
    if (bytes < HEADER_BYTES || memcmp(header, magic, sizeof magic) != 0)
        return lw_fail(error, LW_CORRUPT,
                       "%s is not a store of Lyeway; nothing was written to it, choose another file.", path);
    if (number_at(header, HEADER_APPLICATION_ID) != STORE_APPLICATION_ID)
        return lw_fail(error, LW_CORRUPT,
                       "%s is a database of another program; nothing was written to it, choose another file.", path);
    if (!header_sound(header))
        return damaged(path, error);
    if (number_at(header, HEADER_USER_VERSION) > migrations_all().count)
        return lw_fail(error, LW_CONFLICT,
                       "%s was written by a newer Lyeway; nothing was written to it, use the newer program.", path);
    if (!pending && number_at(header, HEADER_CHANGE_COUNTER) == number_at(header, HEADER_VALID_FOR) &&
        bytes < number_at(header, HEADER_PAGES) * page_size(header))
        return lw_fail(
            error, LW_CORRUPT,
            "%s is shorter than it should be and nothing was written to it; put a backup of it in its place.", path);
    return LW_OK;
}

/* Reads through SQLite's own descriptor: to open and close another one would drop this process's locks on the file. */
static enum lw_status check_header(struct store *store, struct lw_error *error)
{
    unsigned char header[HEADER_BYTES] = {0};
    sqlite3_file *file = NULL;
    sqlite3_int64 bytes = 0;
    int code = sqlite3_file_control(store->db, "main", SQLITE_FCNTL_FILE_POINTER, &file);

    if (code == SQLITE_OK)
        code = file->pMethods->xFileSize(file, &bytes);
    if (code == SQLITE_OK)
        code = file->pMethods->xRead(file, header, sizeof header, 0);
    if (code != SQLITE_OK && code != SQLITE_IOERR_SHORT_READ)
        return store_failed(store->path, code, error);

    bool journal = place_has_beside(store->path, "-journal");

    /* The power went while the store was made: SQLite takes back what there is of it. */
    if (journal && memcmp(header, (unsigned char[sizeof header]){0}, sizeof header) == 0)
        return LW_OK;
    return judge_header(header, bytes, journal || place_has_beside(store->path, "-wal"), store->path, error);
}

static int note_log_pages(void *context, sqlite3 *db, const char *name, int pages)
{
    struct store *store = context;

    (void)db;
    (void)name;
    store->log_pages = pages;
    return SQLITE_OK;
}

/* Nothing here reads or writes the database. */
static void set_up(struct store *store)
{
    sqlite3_busy_timeout(store->db, STORE_BUSY_MS);
    sqlite3_extended_result_codes(store->db, 1);
    sqlite3_db_config(store->db, SQLITE_DBCONFIG_ENABLE_FKEY, 1, NULL);
    sqlite3_db_config(store->db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
    sqlite3_db_config(store->db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
    /* A store that is refused must not be written to by closing it; store_close does this itself and looks at the result. */
    sqlite3_db_config(store->db, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, NULL);
    sqlite3_wal_hook(store->db, note_log_pages, store);
}

static enum lw_status connect(struct store *store, const char *name, int flags, struct lw_error *error)
{
    int code;

    /* Nobody asks SQLite how much memory it has, and to keep count takes a lock at each allocation. It counts on where it is in
     * use already. */
    sqlite3_config(SQLITE_CONFIG_MEMSTATUS, 0);
    code = sqlite3_open_v2(name, &store->db, flags | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE, NULL);

    if (code != SQLITE_OK)
        return store_failed(store->path, code, error);
    set_up(store);
    return LW_OK;
}

static enum lw_status connect_file(struct store *store, int flags, struct lw_error *error)
{
    /* ":memory:" and the like are files here. */
    char *name = place_beside(store->path[0] == ':' ? "./" : "", store->path);
    enum lw_status status;

    if (!name)
        return store_failed(store->path, SQLITE_NOMEM, error);
    status = connect(store, name, flags, error);
    free(name);
    return status;
}

/* Half a MiB of pages is kept: what a list or learning has read once is not soon read again, and the system keeps it too. */
static enum lw_status set_durability(struct store *store, struct lw_error *error)
{
    return store_run(
        store,
        "PRAGMA synchronous = FULL; PRAGMA secure_delete = OFF; PRAGMA cell_size_check = ON; PRAGMA cache_size = -512",
        error);
}

static int take_mode(void *mode, int columns, char **values, char **names)
{
    (void)columns;
    (void)names;
    return !text_copy(mode, 16, values[0] ? values[0] : "");
}

/* A database that uses the log already is not written to by this. */
static enum lw_status use_log(struct store *store, struct lw_error *error)
{
    char mode[16] = "";
    int code = sqlite3_exec(store->db, "PRAGMA journal_mode = WAL", take_mode, mode, NULL);

    if (code != SQLITE_OK)
        return store_failed(store->path, code, error);
    if (strcmp(mode, "wal") != 0)
        return lw_fail(error, LW_IO,
                       "%s is on a disk that several programs cannot share safely; copy it to a disk of this computer.",
                       store->path);
    return LW_OK;
}

/* The first read through the log: with it the log's file is there to be watched. */
static enum lw_status read_once(struct store *store, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, SQL_APPLICATION_ID);
    if (query_row(&query) && query_int(&query) != STORE_APPLICATION_ID)
        query_corrupt(&query);
    return query_end(&query, error);
}

static enum lw_status refuse_kind(const char *path, enum place_kind kind, struct lw_error *error)
{
    if (kind == PLACE_FOLDER)
        return lw_fail(error, LW_IO, "%s is a folder, not a store; name a file in it.", path);
    return lw_fail(error, LW_IO, "%s is not a plain file; name another.", path);
}

/* SQLite would throw a log away whose database is empty: it may be all that is left. */
static enum lw_status refuse_orphan_log(const char *path, struct lw_error *error)
{
    return lw_fail(
        error, LW_CORRUPT,
        "%s is empty but a log with records stands beside it (%s-wal); put both back from a backup, or move the "
        "log away to begin anew.",
        path, path);
}

/* Decides from what stands there whether to go on, and makes an empty file where there is none. *fresh: nothing in it yet. */
static enum lw_status prepare_place(const char *path, enum store_how how, bool *fresh, struct lw_error *error)
{
    struct place place;
    enum lw_status status = place_look(path, &place, error);

    if (status != LW_OK)
        return status;
    if (place.kind == PLACE_FOLDER || place.kind == PLACE_OTHER)
        return refuse_kind(path, place.kind, error);
    *fresh = place.kind == PLACE_MISSING || place.bytes == 0;
    if (how == STORE_EXISTING && place.kind == PLACE_MISSING)
        return lw_fail(error, LW_NOT_FOUND,
                       "There are no records at %s yet; check the path, or begin with lyeway or lyeway import.", path);
    if (*fresh && place_has_beside(path, "-wal"))
        return refuse_orphan_log(path, error);
    if (how == STORE_EXISTING && *fresh)
        return lw_fail(error, LW_CORRUPT,
                       "%s is empty, so there are no records in it; put a backup of it in its place.", path);
    if (place.kind == PLACE_FILE)
        return LW_OK;
    status = place_make_folders(path, error);
    return status == LW_OK ? place_make_file(path, error) : status;
}

enum lw_status open_file(struct store *store, enum store_how how, struct lw_error *error)
{
    const struct migrations migrations = migrations_all();
    bool fresh = false;
    enum lw_status status = prepare_place(store->path, how, &fresh, error);

    if (status == LW_OK)
        status = connect_file(store, SQLITE_OPEN_READWRITE, error);
    if (status == LW_OK && sqlite3_db_readonly(store->db, "main") == 1)
        status = store_failed(store->path, SQLITE_READONLY, error);
    if (status == LW_OK)
        status = place_folder_writable(store->path, error);
    if (status == LW_OK && !fresh)
        status = check_header(store, error);
    if (status == LW_OK)
        status = set_durability(store, error);
    /* The tables are made before the log is used, so that the file itself says at any time whose it is. */
    if (status == LW_OK)
        status = migrate(store, &migrations, error);
    if (status == LW_OK)
        status = use_log(store, error);
    if (status == LW_OK)
        status = read_once(store, error);
    return status;
}

/* Takes a copy of the image for the database that is connected. */
static enum lw_status copy_image(struct store *store, const unsigned char *image, size_t bytes, struct lw_error *error)
{
    unsigned char *copy = sqlite3_malloc64(bytes);

    if (!copy)
        return store_failed(store->path, SQLITE_NOMEM, error);
    memcpy(copy, image, bytes);
    /* There is no log in memory. */
    copy[HEADER_WRITE_VERSION] = copy[HEADER_READ_VERSION] = VERSION_ROLLBACK;
    return store_failed(store->path,
                        sqlite3_deserialize(store->db, "main", copy, (sqlite3_int64)bytes, (sqlite3_int64)bytes,
                                            SQLITE_DESERIALIZE_FREEONCLOSE | SQLITE_DESERIALIZE_RESIZEABLE),
                        error);
}

enum lw_status open_image(struct store *store, const struct store_options *options, struct lw_error *error)
{
    const struct migrations migrations = migrations_all();
    size_t bytes = options->image ? options->image_bytes : 0;
    enum lw_status status = bytes > 0 ? judge_header(options->image, (int64_t)bytes, false, "The image", error) : LW_OK;

    if (status == LW_OK)
        status = connect(store, ":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, error);
    if (status == LW_OK && bytes > 0)
        status = copy_image(store, options->image, bytes, error);
    if (status == LW_OK)
        status = migrate(store, &migrations, error);
    if (status == LW_OK &&
        (options->image_shift_s != 0 || options->image_running_shift_s != 0 || options->image_offset_s != 0))
        status = moments_shift(store, options->image_shift_s, options->image_running_shift_s, options->image_offset_s,
                               error);
    return status;
}

enum lw_status open_copy(struct store *store, const char *copy, struct lw_error *error)
{
    enum lw_status status = connect(store, copy, SQLITE_OPEN_READWRITE, error);

    if (status == LW_OK)
        status = check_header(store, error);
    /* Closing it leaves the one file, without a log. */
    if (store->db)
        sqlite3_db_config(store->db, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 0, NULL);
    return status;
}
