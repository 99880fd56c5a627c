/* faulty_memory.h - lets the Nth allocation fail: those of our own objects, which are linked through --wrap, and those of SQLite. */
#ifndef FAULT_FAULTY_MEMORY_H
#define FAULT_FAULTY_MEMORY_H

#include <stdbool.h>

struct faulty_memory {
    int at;       /* the allocation that fails, counted from 1; 0: none */
    bool forever; /* and all behind it */
    int allocations;
    bool fired;
};

struct faulty_memory *faulty_memory_ours(void);

/* Before SQLite is used at all. */
struct faulty_memory *faulty_memory_sqlite(void);

/* Allocations that SQLite has made and not freed, from faulty_memory_sqlite on. */
int faulty_memory_sqlite_held(void);

#endif
