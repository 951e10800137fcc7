#include "pool.h"

#include <unistd.h>

enum { THREADS_MOST = 64 };

void bw_meter_start(bw_meter *meter, bw_progress *progress, void *payload,
                    size_t total)
{
    *meter = (bw_meter){
        .progress = progress, .payload = payload, .total = total};
    pthread_mutex_init(&meter->lock, NULL);
}

void bw_meter_end(bw_meter *meter)
{
    pthread_mutex_destroy(&meter->lock);
}

/* The estimate of the total may be too low: the last bit is kept back. */
static bool tell(bw_meter *meter, size_t steady, size_t simulated)
{
    pthread_mutex_lock(&meter->lock);
    meter->steady += steady;
    meter->simulated += simulated;
    meter->done += steady + BW_TICKS_SIMULATED * simulated;
    if (!meter->stopped && meter->progress != NULL) {
        double fraction = meter->total > 0
                              ? (double)meter->done / (double)meter->total
                              : 0.0;
        if (!meter->progress(meter->payload, fraction < 0.99 ? fraction : 0.99))
            meter->stopped = true;
    }
    bool go_on = !meter->stopped;
    pthread_mutex_unlock(&meter->lock);
    return go_on;
}

bool bw_meter_tick(bw_meter *meter)
{
    return bw_meter_count(meter, false);
}

bool bw_meter_count(bw_meter *meter, bool simulated)
{
    return tell(meter, !simulated, simulated);
}

bool bw_meter_alive(void *payload, double fraction_done)
{
    (void)fraction_done;
    return tell(payload, 0, 0);
}

typedef struct pool {
    pthread_mutex_t lock;
    bw_pool_task *task;
    void *payload;
    size_t next, count;
    bw_status status; /* of the lowest index that failed */
    size_t failed;
    bw_error fault;
} pool;

static bool take(pool *p, size_t *index)
{
    pthread_mutex_lock(&p->lock);
    bool more = p->status == BW_OK && p->next < p->count;
    if (more)
        *index = p->next++;
    pthread_mutex_unlock(&p->lock);
    return more;
}

static void *work(void *payload)
{
    pool *p = payload;
    size_t index;
    while (take(p, &index)) {
        bw_error fault = {0};
        bw_status status = p->task(p->payload, index, &fault);
        if (status == BW_OK)
            continue;
        pthread_mutex_lock(&p->lock);
        if (p->status == BW_OK || index < p->failed) {
            p->status = status;
            p->failed = index;
            p->fault = fault;
        }
        pthread_mutex_unlock(&p->lock);
    }
    return NULL;
}

static int thread_count(int wanted, size_t tasks)
{
    long count = wanted > 0 ? wanted : sysconf(_SC_NPROCESSORS_ONLN);
    if (count < 1)
        count = 1;
    if (count > THREADS_MOST)
        count = THREADS_MOST;
    return tasks < (size_t)count ? (int)tasks : (int)count;
}

bw_status bw_pool_run(int threads, size_t count, bw_pool_task *task,
                      void *payload, bw_error *err)
{
    pool p = {.task = task, .payload = payload, .count = count};
    pthread_t thread[THREADS_MOST];
    int wanted = thread_count(threads, count), started = 0;
    pthread_mutex_init(&p.lock, NULL);
    /* This thread works, too; where no other is to be had it works alone. */
    while (started < wanted - 1 &&
           pthread_create(&thread[started], NULL, work, &p) == 0)
        started++;
    work(&p);
    for (int i = 0; i < started; i++)
        pthread_join(thread[i], NULL);
    pthread_mutex_destroy(&p.lock);
    if (p.status != BW_OK && err != NULL)
        *err = p.fault;
    return p.status;
}
