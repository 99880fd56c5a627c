/* watch.h - learns when anybody writes to the files of the store, so that a loop can sleep until then. */
#ifndef STORE_WATCH_H
#define STORE_WATCH_H

struct watch {
    int fd; /* becomes readable; -1 where the system offers no such thing */
};

/* Watches the database and its log, both of which must be there. */
void watch_begin(struct watch *watch, const char *path);

/* Wakes whoever watches the database at path. SQLite writes a commit to the log before it lets others see it, so that
 * they look too early when the log's own changes wake them; this is to be called once a commit can be seen. */
void watch_tell(const char *path);

/* Takes what has been reported, so that fd is not readable any more. */
void watch_drain(struct watch *watch);

void watch_end(struct watch *watch);

#endif
