#ifndef BW_MARGIN_POOL_H
#define BW_MARGIN_POOL_H

/* Many independent tasks on a few threads. Each task writes only its own
 * result, so the number of threads cannot change a figure. */

#include <pthread.h>
#include <stdbool.h>
#include <stddef.h>

#include "bothways/transient.h"

/* Progress and cancelling, shared by all threads. */
/* A simulation takes as long as so many steady assessments, about. */
enum { BW_TICKS_SIMULATED = 300 };

typedef struct bw_meter {
    pthread_mutex_t lock;
    bw_progress *progress; /* may be NULL */
    void *payload;
    size_t done, total;       /* in steady evaluations; total is an estimate */
    size_t steady, simulated; /* assessments made */
    bool stopped;
} bw_meter;

void bw_meter_start(bw_meter *meter, bw_progress *progress, void *payload,
                    size_t total);
void bw_meter_end(bw_meter *meter);

/* One more assessment is done; false: the caller asked to stop. */
bool bw_meter_tick(bw_meter *meter);
bool bw_meter_count(bw_meter *meter, bool simulated);

/* A bw_progress for within one evaluation; payload is the meter. */
bool bw_meter_alive(void *payload, double fraction_done);

typedef bw_status bw_pool_task(void *payload, size_t index, bw_error *err);

/* Runs task(payload, 0..count-1) on so many threads (0: one a core). Returns
 * BW_OK or the failure of the lowest index that failed; after one failure no
 * more tasks are begun. */
bw_status bw_pool_run(int threads, size_t count, bw_pool_task *task,
                      void *payload, bw_error *err);

#endif
