/* place.c - files and folders by POSIX. */
#include "store/place.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/error.h"

static const char no_memory[] = "There is no memory left to work on %s; close other programs and try again.";

enum lw_status place_look(const char *path, struct place *place, struct lw_error *error)
{
    struct stat found;

    *place = (struct place){PLACE_MISSING, 0};
    if (stat(path, &found) != 0) {
        if (errno == ENOENT)
            return LW_OK;
        return lw_fail(error, LW_IO, "%s cannot be looked at; check the path and who may read its folders.", path);
    }
    place->kind = S_ISREG(found.st_mode) ? PLACE_FILE : S_ISDIR(found.st_mode) ? PLACE_FOLDER : PLACE_OTHER;
    place->bytes = found.st_size;
    return LW_OK;
}

char *place_beside(const char *path, const char *suffix)
{
    size_t size = strlen(path) + strlen(suffix) + 1;
    char *name = malloc(size);

    if (name)
        snprintf(name, size, "%s%s", path, suffix);
    return name;
}

char *place_free_beside(const char *path, const char *suffix)
{
    size_t size = strlen(path) + strlen(suffix) + 16;
    char *name = malloc(size);
    struct stat found;

    if (!name)
        return NULL;
    snprintf(name, size, "%s%s", path, suffix);
    for (int i = 2; lstat(name, &found) == 0; i++)
        snprintf(name, size, "%s%s-%d", path, suffix, i);
    return name;
}

bool place_has_beside(const char *path, const char *suffix)
{
    char *name = place_beside(path, suffix);
    struct stat found;
    bool has = name && stat(name, &found) == 0 && found.st_size > 0;

    free(name);
    return has;
}

/* The folder of a path: "." where it names none. NULL without memory. */
static char *folder_of(const char *path)
{
    const char *slash = strrchr(path, '/');
    char *folder;

    if (!slash)
        return place_beside(".", "");
    folder = place_beside(path, "");
    if (folder)
        folder[slash == path ? 1 : slash - path] = '\0';
    return folder;
}

enum lw_status place_folder_writable(const char *path, struct lw_error *error)
{
    char *folder = folder_of(path);
    enum lw_status status = LW_OK;

    if (!folder)
        return lw_fail(error, LW_FULL, no_memory, path);
    if (access(folder, W_OK | X_OK) != 0)
        status = lw_fail(error, LW_IO,
                         "The folder %s cannot be written to, which a store needs for its log; copy the store to a "
                         "folder of your own.",
                         folder);
    free(folder);
    return status;
}

enum lw_status place_make_folders(const char *path, struct lw_error *error)
{
    char *folder = folder_of(path);
    enum lw_status status = LW_OK;

    if (!folder)
        return lw_fail(error, LW_FULL, no_memory, path);
    for (char *end = folder; status == LW_OK && *end; end++) {
        char after = end[1];

        if (after != '/' && after != '\0')
            continue;
        end[1] = '\0';
        if (mkdir(folder, 0700) != 0 && errno != EEXIST)
            status = lw_fail(error, LW_IO, "The folder %s cannot be made; check the path and who may write there.",
                             folder);
        end[1] = after;
    }
    free(folder);
    return status;
}

/* Makes sure that the names in the folder of the path outlast a power cut. */
static bool sync_folder(const char *path)
{
    char *folder = folder_of(path);
    int fd = folder ? open(folder, O_RDONLY | O_CLOEXEC) : -1;
    bool good = fd >= 0 && (fsync(fd) == 0 || errno == EINVAL); /* some file systems have no such thing */

    if (fd >= 0)
        close(fd);
    free(folder);
    return good;
}

enum lw_status place_make_file(const char *path, struct lw_error *error)
{
    int fd = open(path, O_RDWR | O_CREAT | O_CLOEXEC, 0600);

    if (fd < 0 || close(fd) != 0 || !sync_folder(path))
        return lw_fail(error, LW_IO, "%s cannot be made; check the path, the disk and who may write there.", path);
    return LW_OK;
}

enum lw_status place_make_temporary(const char *path, char **name, struct lw_error *error)
{
    *name = place_beside(path, ".XXXXXX");
    if (!*name)
        return lw_fail(error, LW_FULL, no_memory, path);

    int fd = mkstemp(*name);

    if (fd >= 0 && close(fd) == 0)
        return LW_OK;
    free(*name);
    *name = NULL;
    return lw_fail(error, LW_IO, "No file can be made beside %s; check the path, the disk and who may write there.",
                   path);
}

enum lw_status place_sync_file(const char *path, struct lw_error *error)
{
    int fd = open(path, O_RDWR | O_CLOEXEC);
    bool good = fd >= 0 && fsync(fd) == 0;

    if (fd >= 0 && close(fd) != 0)
        good = false;
    return good ? LW_OK : lw_fail(error, LW_IO, "Writing %s failed; look at the disk, then try again.", path);
}

static bool write_all(int fd, const char *bytes, ssize_t n)
{
    while (n > 0) {
        ssize_t written = write(fd, bytes, (size_t)n);

        if (written < 0 && errno != EINTR)
            return false;
        if (written > 0) {
            bytes += written;
            n -= written;
        }
    }
    return true;
}

static bool copy_bytes(int from, int to)
{
    char bytes[65536];

    for (;;) {
        ssize_t n = read(from, bytes, sizeof bytes);

        if (n == 0)
            return true;
        if ((n < 0 && errno != EINTR) || !write_all(to, bytes, n))
            return false;
    }
}

enum lw_status place_copy(const char *from, const char *to, struct lw_error *error)
{
    int source = open(from, O_RDONLY | O_CLOEXEC);
    int target = source < 0 ? -1 : open(to, O_WRONLY | O_CLOEXEC);
    bool good = target >= 0 && copy_bytes(source, target) && fsync(target) == 0;

    if (source >= 0)
        close(source);
    if (target >= 0 && close(target) != 0)
        good = false;
    return good ? LW_OK : lw_fail(error, LW_IO, "%s cannot be copied; look at the disk, then try again.", from);
}

enum lw_status place_move(const char *from, const char *to, struct lw_error *error)
{
    if (rename(from, to) != 0)
        return lw_fail(error, LW_IO, "%s cannot be put in place as %s; check who may write there.", from, to);
    if (!sync_folder(to))
        return lw_fail(error, LW_IO, "%s was written, but the disk did not confirm it; look at the disk.", to);
    return LW_OK;
}
