/* allocations.c - counts what our own code asks of the heap. The linker leads its calls here (--wrap). */
#include <stdlib.h>

#include "bench/measure.h"

/* The names are the linker's. */
void *__real_malloc(size_t size);
void *__real_calloc(size_t n, size_t size);
void *__real_realloc(void *old, size_t size);
void __real_free(void *old);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t n, size_t size);
void *__wrap_realloc(void *old, size_t size);
void __wrap_free(void *old);

static size_t calls;

size_t allocations(void)
{
    return calls;
}

void *__wrap_malloc(size_t size)
{
    calls++;
    return __real_malloc(size);
}

void *__wrap_calloc(size_t n, size_t size)
{
    calls++;
    return __real_calloc(n, size);
}

void *__wrap_realloc(void *old, size_t size)
{
    calls++;
    return __real_realloc(old, size);
}

void __wrap_free(void *old)
{
    calls++;
    __real_free(old);
}
