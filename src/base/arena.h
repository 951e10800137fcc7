#ifndef BW_BASE_ARENA_H
#define BW_BASE_ARENA_H

/* Memory of one model: allocate as it is read, release all at once. */

#include <stddef.h>

typedef struct bw_arena {
    struct bw_arena_block *first;
} bw_arena;

/* Zeroed memory for count objects of size bytes; NULL when out of memory or
 * when the product overflows. Lives until bw_arena_release. */
void *bw_arena_get(bw_arena *arena, size_t count, size_t size);

#define BW_NEW(arena, type, count)                                             \
    ((type *)bw_arena_get((arena), (count), sizeof(type)))

/* A copy of a string; NULL when out of memory. */
char *bw_arena_copy(bw_arena *arena, const char *text);

/* A printf-formatted string; NULL when out of memory. */
char *bw_arena_printf(bw_arena *arena, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* Frees everything; the arena may be used again. */
void bw_arena_release(bw_arena *arena);

#endif
