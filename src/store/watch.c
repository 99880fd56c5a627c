/* watch.c - by inotify, where there is one. */
#include "store/watch.h"

#ifdef __linux__

#include <fcntl.h>
#include <stdio.h>
#include <sys/inotify.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PATH_BYTES = 4096 };

void watch_begin(struct watch *watch, const char *path)
{
    char log[PATH_BYTES];
    int length = snprintf(log, sizeof log, "%s-wal", path);

    watch->fd = inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
    if (watch->fd < 0)
        return;
    if (length < (int)sizeof log && inotify_add_watch(watch->fd, log, IN_MODIFY) >= 0 &&
        inotify_add_watch(watch->fd, path, IN_MODIFY | IN_ATTRIB) >= 0)
        return;
    watch_end(watch);
}

void watch_tell(const char *path)
{
    utimensat(AT_FDCWD, path, NULL, 0);
}

void watch_drain(struct watch *watch)
{
    char events[4096];

    if (watch->fd >= 0)
        while (read(watch->fd, events, sizeof events) > 0)
            ;
}

void watch_end(struct watch *watch)
{
    if (watch->fd >= 0)
        close(watch->fd);
    watch->fd = -1;
}

#else

void watch_begin(struct watch *watch, const char *path)
{
    (void)path;
    watch->fd = -1;
}

void watch_tell(const char *path)
{
    (void)path;
}

void watch_drain(struct watch *watch)
{
    (void)watch;
}

void watch_end(struct watch *watch)
{
    (void)watch;
}

#endif
