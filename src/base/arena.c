#include "arena.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* Invariant: blocks form a list, newest first; only the newest has room.
 * With BW_ARENA_DEBUG every allocation is a block of its own, so that
 * sanitizers and valgrind see each end. */

enum { BLOCK_SIZE = 16 * 1024 };

struct bw_arena_block {
    struct bw_arena_block *next;
    size_t used, size;
    max_align_t data[];
};

static struct bw_arena_block *add_block(bw_arena *arena, size_t size)
{
    struct bw_arena_block *block = malloc(sizeof *block + size);
    if (block == NULL)
        return NULL;
    block->next = arena->first;
    block->used = 0;
    block->size = size;
    arena->first = block;
    return block;
}

static void *refuse(bw_arena *arena)
{
    arena->failed = true;
    return NULL;
}

/* How many bytes are taken for so many; 0: more than there can be. */
static size_t wanted_for(size_t count, size_t size)
{
    if (size != 0 && count > (SIZE_MAX / 2) / size)
        return 0;
    const size_t align = sizeof(max_align_t);
    const size_t wanted = (count * size + align - 1) / align * align;
    return wanted > 0 ? wanted : align;
}

static void *take(bw_arena *arena, size_t wanted)
{
    if (wanted == 0)
        return refuse(arena);
#ifdef BW_ARENA_DEBUG
    struct bw_arena_block *block = NULL;
    const size_t least = wanted;
#else
    struct bw_arena_block *block = arena->first;
    const size_t least = wanted > BLOCK_SIZE ? wanted : BLOCK_SIZE;
#endif
    if (block == NULL || block->size - block->used < wanted) {
        block = add_block(arena, least);
        if (block == NULL)
            return refuse(arena);
    }
    void *memory = (char *)block->data + block->used;
    block->used += wanted;
    return memory;
}

void *bw_arena_raw(bw_arena *arena, size_t count, size_t size)
{
    return take(arena, wanted_for(count, size));
}

void *bw_arena_get(bw_arena *arena, size_t count, size_t size)
{
    const size_t wanted = wanted_for(count, size);
    void *memory = take(arena, wanted);
    return memory != NULL ? memset(memory, 0, wanted) : NULL;
}

void *bw_arena_more(bw_arena *arena, void *items, size_t count, size_t *room,
                    size_t size)
{
    enum { FIRST = 16 };
    if (count < *room)
        return items;
    const size_t wanted = *room > 0 ? 2 * *room : FIRST;
    void *more = bw_arena_get(arena, wanted, size);
    if (more == NULL)
        return NULL;
    if (count > 0)
        memcpy(more, items, count * size);
    *room = wanted;
    return more;
}

char *bw_arena_copy(bw_arena *arena, const char *text)
{
    size_t length = strlen(text) + 1;
    char *copy = bw_arena_get(arena, length, 1);
    return copy != NULL ? memcpy(copy, text, length) : NULL;
}

void bw_arena_release(bw_arena *arena)
{
    struct bw_arena_block *block = arena->first;
    while (block != NULL) {
        struct bw_arena_block *next = block->next;
        free(block);
        block = next;
    }
    *arena = (bw_arena){0};
}
