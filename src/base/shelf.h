#ifndef BW_SHELF_H
#define BW_SHELF_H

/* What was computed once, under all that it was computed from, for tasks that
 * would compute it again. A copy is put there and a copy taken, so that no
 * figure depends on who came first; what has lain longest makes room. */

#include <pthread.h>
#include <stdbool.h>
#include <stddef.h>

enum { BW_SHELF_MOST = 96 };

/* A key is its bytes. */
typedef struct bw_shelf_key {
    const void *at;
    size_t size;
} bw_shelf_key;

typedef struct bw_shelf {
    pthread_mutex_t lock; /* of all below */
    size_t next;          /* place of the one put next */
    struct {
        unsigned char *at; /* key, then value; NULL: empty */
        size_t key, value; /* bytes */
    } kept[BW_SHELF_MOST];
} bw_shelf;

void bw_shelf_open(bw_shelf *shelf);
void bw_shelf_close(bw_shelf *shelf);

/* Copies what lies under the key; false where nothing of this size does, and
 * where there is no shelf (NULL). */
bool bw_shelf_take(bw_shelf *shelf, bw_shelf_key key, void *value, size_t size);

/* Puts a copy there, if there are a shelf and memory. */
void bw_shelf_put(bw_shelf *shelf, bw_shelf_key key, const void *value,
                  size_t size);

#endif
