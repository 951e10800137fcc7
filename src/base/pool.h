#ifndef BW_POOL_H
#define BW_POOL_H

/* Independent tasks on a few threads. Each task writes only its own result, so
 * the number of threads cannot change a figure. A task may put further tasks
 * to the pool it runs on; all wait in one queue. */

#include <pthread.h>
#include <stdbool.h>
#include <stddef.h>

#include "bothways/error.h"
#include "shelf.h"

enum { BW_THREADS_MOST = 64 };

typedef bw_status bw_pool_task(void *payload, size_t index, bw_error *err);

/* What a thread of the pool is: the one that opened it is the first. */
typedef struct bw_pool_thread {
    struct bw_pool *pool;
    pthread_t id;
    int astray; /* tasks under way here, begun while it waited for another */
} bw_pool_thread;

typedef struct bw_pool {
    pthread_mutex_t lock;    /* of all below */
    pthread_cond_t changed;  /* more to do, a batch is done, or the end */
    struct bw_batch *newest; /* the batches, each linked to the one before */
    int most, count;         /* threads allowed, and there, this one too */
    int idle;                /* that wait for something to do */
    bool closing;
    bw_pool_thread thread[BW_THREADS_MOST];
    bw_shelf shelf; /* what its tasks share; it locks itself */
} bw_pool;

/* Opens a pool of so many threads, the caller's own among them (0: one a core;
 * 1: no other is ever started). The others are started when they have something
 * to do; where none is to be had there are fewer. Only the thread that opened a
 * pool, and its tasks, may use it; that thread closes it. */
void bw_pool_open(bw_pool *pool, int threads);
void bw_pool_close(bw_pool *pool);

/* Runs task(payload, 0..count-1), in this order where there is one thread.
 * Until all are done the caller does what is queued: of its own tasks first,
 * then of the newest. Returns BW_OK or the failure of the lowest index that
 * fails: after a failure no more tasks of this batch are begun. */
bw_status bw_pool_run(bw_pool *pool, size_t count, bw_pool_task *task,
                      void *payload, bw_error *err);

#endif
