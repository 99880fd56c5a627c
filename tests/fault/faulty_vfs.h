/* faulty_vfs.h - stands between SQLite and the disk, counts what is written, and lets the Nth write, sync or truncation fail. */
#ifndef FAULT_FAULTY_VFS_H
#define FAULT_FAULTY_VFS_H

#include <stdbool.h>

struct faulty {
    int at;                /* the operation that fails, counted from 1; 0: none */
    bool forever;          /* and all behind it, as on a full disk */
    int operations, syncs; /* so far */
    bool fired;
};

/* Makes it the way by which SQLite opens all files from now on. Returns what is counted and planned; the same one each time. */
struct faulty *faulty_vfs(void);

#endif
