/* faulty_memory.c - see the header. */
#include "fault/faulty_memory.h"

#include <stddef.h>

#include <sqlite3.h>

static struct faulty_memory ours, sqlite;
static sqlite3_mem_methods real_sqlite;
static int sqlite_held;

/* The linker makes malloc of every object here __wrap_malloc, and calls the C library's __real_malloc. */
void *__real_malloc(size_t size);
void *__real_calloc(size_t n, size_t size);
void *__real_realloc(void *old, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t n, size_t size);
void *__wrap_realloc(void *old, size_t size);

static bool fails(struct faulty_memory *memory)
{
    int now = ++memory->allocations;
    bool fire = memory->at > 0 && (now == memory->at || (memory->forever && now > memory->at));

    memory->fired = memory->fired || fire;
    return fire;
}

void *__wrap_malloc(size_t size)
{
    return fails(&ours) ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t n, size_t size)
{
    return fails(&ours) ? NULL : __real_calloc(n, size);
}

void *__wrap_realloc(void *old, size_t size)
{
    return fails(&ours) ? NULL : __real_realloc(old, size);
}

static void *sqlite_malloc(int size)
{
    void *made = fails(&sqlite) ? NULL : real_sqlite.xMalloc(size);

    sqlite_held += made != NULL;
    return made;
}

static void sqlite_free(void *old)
{
    sqlite_held -= old != NULL;
    real_sqlite.xFree(old);
}

static void *sqlite_realloc(void *old, int size)
{
    return fails(&sqlite) ? NULL : real_sqlite.xRealloc(old, size);
}

struct faulty_memory *faulty_memory_ours(void)
{
    return &ours;
}

struct faulty_memory *faulty_memory_sqlite(void)
{
    sqlite3_mem_methods counted;

    if (!real_sqlite.xMalloc && sqlite3_config(SQLITE_CONFIG_GETMALLOC, &real_sqlite) == SQLITE_OK) {
        counted = real_sqlite;
        counted.xMalloc = sqlite_malloc;
        counted.xFree = sqlite_free;
        counted.xRealloc = sqlite_realloc;
        sqlite3_config(SQLITE_CONFIG_MALLOC, &counted);
    }
    return &sqlite;
}

int faulty_memory_sqlite_held(void)
{
    return sqlite_held;
}
