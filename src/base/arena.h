#ifndef BW_BASE_ARENA_H
#define BW_BASE_ARENA_H

/* Memory of one model: allocate as it is read, release all at once. */

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

typedef struct bw_arena {
    struct bw_arena_block *first;
    bool failed; /* something asked of it was refused */
} bw_arena;

/* Zeroed memory for count objects of size bytes; NULL when out of memory or
 * when the product overflows. Lives until bw_arena_release. */
void *bw_arena_get(bw_arena *arena, size_t count, size_t size);

/* The same, but it holds anything: for what is written before it is read. */
void *bw_arena_raw(bw_arena *arena, size_t count, size_t size);

/* How many things a field holds. */
#define BW_COUNT(field) (sizeof(field) / sizeof((field)[0]))

#define BW_NEW(arena, type, count)                                             \
    ((type *)bw_arena_get((arena), (count), sizeof(type)))

/* An array with room for one more object: `items` while *room tells of some,
 * else a copy of its `count` objects with twice the room, *room told anew. NULL
 * when out of memory; the array is then as it was. */
void *bw_arena_more(bw_arena *arena, void *items, size_t count, size_t *room,
                    size_t size);

/* A copy of a string; NULL when out of memory. */
char *bw_arena_copy(bw_arena *arena, const char *text);

/* A string made as printf does, NULL when out of memory; but %.1f is a number
 * of so many decimals, %.3g one of at most so many significant digits with an
 * exponent only where a person would write one, the same in every locale, and
 * "-" for what is not finite. No width, and no other conversions than s, c, d,
 * ld, zu. */
char *bw_arena_compose(bw_arena *arena, const char *format, va_list args)
    __attribute__((format(printf, 2, 0)));
char *bw_arena_printf(bw_arena *arena, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* The same for those who look once, at the end: "" and arena->failed. */
const char *bw_arena_say(bw_arena *arena, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* Of a time in "weeks" or "months" that was not reached: "not in 10 years",
 * "not in 12 months". */
const char *bw_arena_not_within(bw_arena *arena, double time, const char *unit);

/* Frees everything; the arena may be used again. */
void bw_arena_release(bw_arena *arena);

#endif
