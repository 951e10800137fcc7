#include "arena.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
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

void *bw_arena_get(bw_arena *arena, size_t count, size_t size)
{
    if (size != 0 && count > (SIZE_MAX / 2) / size)
        return NULL;
    const size_t align = sizeof(max_align_t);
    size_t wanted = (count * size + align - 1) / align * align;
    if (wanted == 0)
        wanted = align;
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
            return NULL;
    }
    void *memory = (char *)block->data + block->used;
    block->used += wanted;
    return memset(memory, 0, wanted);
}

char *bw_arena_copy(bw_arena *arena, const char *text)
{
    size_t length = strlen(text) + 1;
    char *copy = bw_arena_get(arena, length, 1);
    return copy != NULL ? memcpy(copy, text, length) : NULL;
}

char *bw_arena_printf(bw_arena *arena, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    int length = vsnprintf(NULL, 0, format, args);
    va_end(args);
    if (length < 0)
        return NULL;
    char *text = bw_arena_get(arena, (size_t)length + 1, 1);
    if (text == NULL)
        return NULL;
    va_start(args, format);
    vsnprintf(text, (size_t)length + 1, format, args);
    va_end(args);
    return text;
}

void bw_arena_release(bw_arena *arena)
{
    struct bw_arena_block *block = arena->first;
    while (block != NULL) {
        struct bw_arena_block *next = block->next;
        free(block);
        block = next;
    }
    arena->first = NULL;
}
