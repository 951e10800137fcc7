/* Invariant: what is taken has the bytes that were put under the same key. */

#include "shelf.h"

#include <stdlib.h>
#include <string.h>

void bw_shelf_open(bw_shelf *shelf)
{
    memset(shelf, 0, sizeof *shelf);
    pthread_mutex_init(&shelf->lock, NULL);
}

void bw_shelf_close(bw_shelf *shelf)
{
    for (size_t i = 0; i < BW_SHELF_MOST; i++)
        free(shelf->kept[i].at);
    pthread_mutex_destroy(&shelf->lock);
}

/* BW_SHELF_MOST: none. Locked. */
static size_t find(const bw_shelf *shelf, bw_shelf_key key, size_t size)
{
    size_t i = 0;
    while (i < BW_SHELF_MOST &&
           (shelf->kept[i].at == NULL || shelf->kept[i].key != key.size ||
            shelf->kept[i].value != size ||
            memcmp(shelf->kept[i].at, key.at, key.size) != 0))
        i++;
    return i;
}

bool bw_shelf_take(bw_shelf *shelf, bw_shelf_key key, void *value, size_t size)
{
    if (shelf == NULL)
        return false;
    pthread_mutex_lock(&shelf->lock);
    const size_t i = find(shelf, key, size);
    if (i < BW_SHELF_MOST)
        memcpy(value, shelf->kept[i].at + key.size, size);
    pthread_mutex_unlock(&shelf->lock);
    return i < BW_SHELF_MOST;
}

void bw_shelf_put(bw_shelf *shelf, bw_shelf_key key, const void *value,
                  size_t size)
{
    unsigned char *made = shelf != NULL ? malloc(key.size + size) : NULL;
    if (made == NULL)
        return;
    memcpy(made, key.at, key.size);
    memcpy(made + key.size, value, size);
    pthread_mutex_lock(&shelf->lock);
    if (find(shelf, key, size) == BW_SHELF_MOST) {
        const size_t i = shelf->next;
        unsigned char *old = shelf->kept[i].at;
        shelf->kept[i].at = made;
        shelf->kept[i].key = key.size;
        shelf->kept[i].value = size;
        shelf->next = (i + 1) % BW_SHELF_MOST;
        made = old;
    }
    pthread_mutex_unlock(&shelf->lock);
    free(made);
}
