#include "pool.h"

#include <unistd.h>

/* Invariants: indices of a batch are begun in order, and what has begun is
 * ended, so that every index below one that failed is run whatever the number
 * of threads: the lowest failure is always the same. A thread sleeps only where
 * nothing is queued, or where it already does ASTRAY_MOST tasks that it was
 * not waiting for: so a stack does not grow with the number of tasks. */

enum { ASTRAY_MOST = 8 };

/* On the stack of the thread that waits for it. */
typedef struct bw_batch {
    struct bw_batch *older;
    bw_pool_task *task;
    void *payload;
    size_t next, count, running;
    bw_status status; /* of the lowest index that failed */
    size_t failed;
    bw_error fault;
} batch;

static bool has_tasks(const batch *b)
{
    return b->status == BW_OK && b->next < b->count;
}

static batch *newest_with_tasks(const bw_pool *pool)
{
    batch *b = pool->newest;
    while (b != NULL && !has_tasks(b))
        b = b->older;
    return b;
}

/* The next task of a batch. Locked before and after. */
static void run_next(bw_pool *pool, batch *b)
{
    const size_t index = b->next++;
    bw_error fault = {0};
    b->running++;
    pthread_mutex_unlock(&pool->lock);
    const bw_status status = b->task(b->payload, index, &fault);
    pthread_mutex_lock(&pool->lock);
    b->running--;
    if (status != BW_OK && (b->status == BW_OK || index < b->failed)) {
        b->status = status;
        b->failed = index;
        b->fault = fault;
    }
    if (b->running == 0 && !has_tasks(b))
        pthread_cond_broadcast(&pool->changed);
}

static void sleep_until_changed(bw_pool *pool)
{
    pool->idle++;
    pthread_cond_wait(&pool->changed, &pool->lock);
    pool->idle--;
}

static void *work(void *payload)
{
    bw_pool *pool = ((bw_pool_thread *)payload)->pool;
    pthread_mutex_lock(&pool->lock);
    while (!pool->closing) {
        batch *b = newest_with_tasks(pool);
        if (b != NULL)
            run_next(pool, b);
        else
            sleep_until_changed(pool);
    }
    pthread_mutex_unlock(&pool->lock);
    return NULL;
}

static bw_pool_thread *this_thread(bw_pool *pool)
{
    bw_pool_thread *t = pool->thread;
    while (!pthread_equal(t->id, pthread_self()))
        t++;
    return t;
}

/* So many tasks are queued, of which the caller begins the first. */
static void call_others(bw_pool *pool, size_t tasks)
{
    if (pool->idle > 0)
        pthread_cond_broadcast(&pool->changed);
    for (size_t n = (size_t)pool->idle + 1;
         n < tasks && pool->count < pool->most; n++) {
        bw_pool_thread *t = &pool->thread[pool->count];
        *t = (bw_pool_thread){.pool = pool};
        if (pthread_create(&t->id, NULL, work, t) != 0)
            pool->most = pool->count;
        else
            pool->count++;
    }
}

/* Until every task of `own` is done. */
static void help(bw_pool *pool, batch *own)
{
    bw_pool_thread *self = this_thread(pool);
    while (has_tasks(own) || own->running > 0) {
        batch *other = newest_with_tasks(pool);
        if (has_tasks(own)) {
            run_next(pool, own);
        } else if (other != NULL && self->astray < ASTRAY_MOST) {
            self->astray++;
            run_next(pool, other);
            self->astray--;
        } else {
            sleep_until_changed(pool);
        }
    }
}

static void leave(bw_pool *pool, const batch *done)
{
    batch **link = &pool->newest;
    while (*link != done)
        link = &(*link)->older;
    *link = done->older;
}

bw_status bw_pool_run(bw_pool *pool, size_t count, bw_pool_task *task,
                      void *payload, bw_error *err)
{
    batch own = {.task = task, .payload = payload, .count = count};
    pthread_mutex_lock(&pool->lock);
    own.older = pool->newest;
    pool->newest = &own;
    call_others(pool, count);
    help(pool, &own);
    leave(pool, &own);
    pthread_mutex_unlock(&pool->lock);
    if (own.status != BW_OK && err != NULL)
        *err = own.fault;
    return own.status;
}

void bw_pool_open(bw_pool *pool, int threads)
{
    const long wanted = threads > 0 ? threads : sysconf(_SC_NPROCESSORS_ONLN);
    *pool = (bw_pool){.count = 1};
    pool->most = wanted < 1                 ? 1
                 : wanted > BW_THREADS_MOST ? BW_THREADS_MOST
                                            : (int)wanted;
    pool->thread[0] = (bw_pool_thread){.pool = pool, .id = pthread_self()};
    pthread_mutex_init(&pool->lock, NULL);
    pthread_cond_init(&pool->changed, NULL);
    bw_shelf_open(&pool->shelf);
}

void bw_pool_close(bw_pool *pool)
{
    pthread_mutex_lock(&pool->lock);
    pool->closing = true;
    pthread_cond_broadcast(&pool->changed);
    pthread_mutex_unlock(&pool->lock);
    for (int i = 1; i < pool->count; i++)
        pthread_join(pool->thread[i].id, NULL);
    bw_shelf_close(&pool->shelf);
    pthread_cond_destroy(&pool->changed);
    pthread_mutex_destroy(&pool->lock);
}
