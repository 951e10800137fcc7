#ifndef BW_TESTS_FENCE_H
#define BW_TESTS_FENCE_H

/* Copies of arrays, each of which ends where no memory is: whoever reads one
 * past it ends the program there. What an allocator puts behind an array, or
 * what stands behind it in a struct, is read without anybody noticing. */

#include <check.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

static const size_t fence_room = (size_t)64 << 22; /* of addresses alone */
static char *fence_from, *fence_at;

static inline void fence_open(void)
{
    const int zero = open("/dev/zero", O_RDWR | O_CLOEXEC);
    fence_from = mmap(NULL, fence_room, PROT_NONE, MAP_PRIVATE, zero, 0);
    ck_assert(fence_from != MAP_FAILED);
    close(zero);
    fence_at = fence_from;
}

static inline void fence_close(void)
{
    ck_assert_int_eq(munmap(fence_from, fence_room), 0);
    fence_from = fence_at = NULL;
}

/* `element` bytes behind it are out of reach, too. */
static inline void *fenced(const void *array, size_t count, size_t element)
{
    const size_t page = (size_t)sysconf(_SC_PAGESIZE), size = count * element;
    const size_t pages = (size + page - 1) / page * page;
    const size_t behind = (element + page - 1) / page * page + page;
    if (array == NULL)
        return NULL;
    ck_assert_uint_lt(pages + behind,
                      fence_room - (size_t)(fence_at - fence_from));
    char *start = fence_at, *end = start + pages;
    if (size > 0) {
        ck_assert_int_eq(mprotect(start, pages, PROT_READ | PROT_WRITE), 0);
        memcpy(end - size, array, size);
    }
    fence_at = end + behind;
    return end - size;
}

#define FENCE(array, count)                                                    \
    ((array) = fenced((array), (size_t)(count), sizeof *(array)))

#endif
