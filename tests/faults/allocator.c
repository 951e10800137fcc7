#include "allocator.h"

#include <errno.h>
#include <stdbool.h>
#include <stddef.h>

/* The C library's own, behind its replaceable ones. */
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *memory, size_t size);
void __libc_free(void *memory);

void *malloc(size_t size);
void *calloc(size_t count, size_t size);
void *realloc(void *old, size_t size);
void free(void *memory);

static _Atomic long made, live, fail_at;

void allocator_start(long n)
{
    made = 0;
    fail_at = n;
}

long allocator_stop(void)
{
    fail_at = 0;
    return made;
}

long allocator_live(void)
{
    return live;
}

static bool refused(void)
{
    if (++made != fail_at)
        return false;
    errno = ENOMEM;
    return true;
}

void *malloc(size_t size)
{
    void *memory = refused() ? NULL : __libc_malloc(size);
    live += memory != NULL;
    return memory;
}

void *calloc(size_t count, size_t size)
{
    void *memory = refused() ? NULL : __libc_calloc(count, size);
    live += memory != NULL;
    return memory;
}

void *realloc(void *old, size_t size)
{
    void *memory = refused() ? NULL : __libc_realloc(old, size);
    live += memory != NULL && old == NULL;
    return memory;
}

void free(void *memory)
{
    live -= memory != NULL;
    __libc_free(memory);
}
