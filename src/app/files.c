/* files.c - the only place of the program that says in words what the system says in numbers. */
#include "app/files.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "base/error.h"
#include "base/utf8.h"

enum { CHUNK_BYTES = 64 * 1024, SHOWN_BYTES = 256, SHOWN_COLUMNS = 96, BYTES_A_MIB = 1024 * 1024 };

/* clang-format off */
static const struct { int number; enum lw_status status; const char *text; } reason[] = {
    {ENOENT,       LW_NOT_FOUND, "there is no such file"},
    {ENOTDIR,      LW_NOT_FOUND, "there is no such folder"},
    {EACCES,       LW_IO,        "there is no permission for it"},
    {EISDIR,       LW_IO,        "it is a folder, not a file"},
    {ENAMETOOLONG, LW_IO,        "the name is too long"},
    {ELOOP,        LW_IO,        "its links lead in a circle"},
    {EMFILE,       LW_IO,        "too many files are open"},
    {EBADF,        LW_IO,        "it is closed"},
    {EPIPE,        LW_IO,        "nobody reads it any more"},
    {ENOSPC,       LW_FULL,      "the disk is full"},
    {EDQUOT,       LW_FULL,      "the share of the disk is used up"},
    {EFBIG,        LW_FULL,      "the file would become too large"},
};
/* clang-format on */

static enum lw_status refuse(struct lw_error *error, int number, const char *name, const char *doing)
{
    char shown[SHOWN_BYTES];

    utf8_clean(shown, sizeof shown, name, SHOWN_COLUMNS);
    for (size_t i = 0; i < sizeof reason / sizeof *reason; i++)
        if (reason[i].number == number)
            return lw_fail(error, reason[i].status, "%s: cannot be %s: %s.", shown, doing, reason[i].text);
    return lw_fail(error, LW_IO, "%s: cannot be %s: the device does not answer as it should (error %d).", shown, doing,
                   number);
}

bool files_exist(const char *name)
{
    struct stat about;

    return stat(name, &about) == 0;
}

static enum lw_status read_all(FILE *file, const char *name, struct buffer *out, struct lw_error *error)
{
    char chunk[CHUNK_BYTES];
    size_t n = 0;

    errno = 0;
    while (!out->failed && (n = fread(chunk, 1, sizeof chunk, file)) > 0)
        buffer_add_bytes(out, chunk, n);
    if (ferror(file))
        return refuse(error, errno, name, "read");
    if (out->failed)
        return lw_fail(error, LW_FULL, "%s: is larger than %zu MiB, the most that is read.", name,
                       out->limit / BYTES_A_MIB);
    return LW_OK;
}

enum lw_status files_read(const char *name, struct buffer *out, struct lw_error *error)
{
    if (strcmp(name, "-") == 0)
        return read_all(stdin, name, out, error);

    FILE *file = fopen(name, "rb");

    if (!file)
        return refuse(error, errno, name, "read");

    enum lw_status status = read_all(file, name, out, error);

    fclose(file);
    return status;
}

enum lw_status files_print(const char *text, struct lw_error *error)
{
    size_t n = strlen(text);

    errno = 0;
    if (fwrite(text, 1, n, stdout) == n && fflush(stdout) == 0)
        return LW_OK;
    return refuse(error, errno, "standard output", "written");
}
