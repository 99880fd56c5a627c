/* faulty_vfs.c - by https://www.sqlite.org/c3ref/vfs.html: every file of the real VFS is wrapped, all methods are passed on. */
#include "fault/faulty_vfs.h"

#include <string.h>

#include <sqlite3.h>

struct file {
    sqlite3_file base;
    sqlite3_file *real; /* behind this struct */
};

static struct faulty plan;

static sqlite3_file *real_of(sqlite3_file *file)
{
    return ((struct file *)(void *)file)->real;
}

static bool fails(void)
{
    int now = ++plan.operations;
    bool fire = plan.at > 0 && (now == plan.at || (plan.forever && now > plan.at));

    plan.fired = plan.fired || fire;
    return fire;
}

static int file_close(sqlite3_file *file)
{
    return real_of(file)->pMethods->xClose(real_of(file));
}

static int file_read(sqlite3_file *file, void *bytes, int n, sqlite3_int64 at)
{
    return real_of(file)->pMethods->xRead(real_of(file), bytes, n, at);
}

/* A full disk takes the beginning of what is written. */
static int file_write(sqlite3_file *file, const void *bytes, int n, sqlite3_int64 at)
{
    if (!fails())
        return real_of(file)->pMethods->xWrite(real_of(file), bytes, n, at);
    real_of(file)->pMethods->xWrite(real_of(file), bytes, n / 2, at);
    return SQLITE_FULL;
}

static int file_truncate(sqlite3_file *file, sqlite3_int64 size)
{
    return fails() ? SQLITE_IOERR_TRUNCATE : real_of(file)->pMethods->xTruncate(real_of(file), size);
}

static int file_sync(sqlite3_file *file, int flags)
{
    plan.syncs++;
    return fails() ? SQLITE_IOERR_FSYNC : real_of(file)->pMethods->xSync(real_of(file), flags);
}

static int file_size(sqlite3_file *file, sqlite3_int64 *size)
{
    return real_of(file)->pMethods->xFileSize(real_of(file), size);
}

static int file_lock(sqlite3_file *file, int lock)
{
    return real_of(file)->pMethods->xLock(real_of(file), lock);
}

static int file_unlock(sqlite3_file *file, int lock)
{
    return real_of(file)->pMethods->xUnlock(real_of(file), lock);
}

static int file_check_lock(sqlite3_file *file, int *out)
{
    return real_of(file)->pMethods->xCheckReservedLock(real_of(file), out);
}

static int file_control(sqlite3_file *file, int operation, void *argument)
{
    return real_of(file)->pMethods->xFileControl(real_of(file), operation, argument);
}

static int file_sector(sqlite3_file *file)
{
    return real_of(file)->pMethods->xSectorSize(real_of(file));
}

static int file_device(sqlite3_file *file)
{
    return real_of(file)->pMethods->xDeviceCharacteristics(real_of(file));
}

static int file_shm_map(sqlite3_file *file, int page, int size, int extend, void volatile **at)
{
    return real_of(file)->pMethods->xShmMap(real_of(file), page, size, extend, at);
}

static int file_shm_lock(sqlite3_file *file, int offset, int n, int flags)
{
    return real_of(file)->pMethods->xShmLock(real_of(file), offset, n, flags);
}

static void file_shm_barrier(sqlite3_file *file)
{
    real_of(file)->pMethods->xShmBarrier(real_of(file));
}

static int file_shm_unmap(sqlite3_file *file, int remove)
{
    return real_of(file)->pMethods->xShmUnmap(real_of(file), remove);
}

static const sqlite3_io_methods methods = {
    .iVersion = 2,
    .xClose = file_close,
    .xRead = file_read,
    .xWrite = file_write,
    .xTruncate = file_truncate,
    .xSync = file_sync,
    .xFileSize = file_size,
    .xLock = file_lock,
    .xUnlock = file_unlock,
    .xCheckReservedLock = file_check_lock,
    .xFileControl = file_control,
    .xSectorSize = file_sector,
    .xDeviceCharacteristics = file_device,
    .xShmMap = file_shm_map,
    .xShmLock = file_shm_lock,
    .xShmBarrier = file_shm_barrier,
    .xShmUnmap = file_shm_unmap,
};

static int vfs_open(sqlite3_vfs *vfs, sqlite3_filename name, sqlite3_file *file, int flags, int *out)
{
    sqlite3_vfs *real = vfs->pAppData;
    struct file *wrapped = (struct file *)(void *)file;

    memset(wrapped, 0, sizeof *wrapped);
    wrapped->real = (sqlite3_file *)(void *)(wrapped + 1);

    int code = real->xOpen(real, name, wrapped->real, flags, out);

    if (wrapped->real->pMethods)
        wrapped->base.pMethods = &methods;
    return code;
}

struct faulty *faulty_vfs(void)
{
    static sqlite3_vfs vfs;

    if (!vfs.pAppData) {
        sqlite3_vfs *real = sqlite3_vfs_find(NULL);

        vfs = *real;
        vfs.zName = "faulty";
        vfs.pAppData = real;
        vfs.szOsFile = (int)sizeof(struct file) + real->szOsFile;
        vfs.xOpen = vfs_open;
        sqlite3_vfs_register(&vfs, 1);
    }
    return &plan;
}
