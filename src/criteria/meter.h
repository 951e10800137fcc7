#ifndef BW_CRITERIA_METER_H
#define BW_CRITERIA_METER_H

/* How far several simulations side by side have come, told as one. */

#include <pthread.h>

#include "bothways/transient.h"

enum { BW_RUN_METER_MOST = 8 };

/* The caller's function is called by one thread at a time. */
typedef struct bw_run_meter {
    pthread_mutex_t lock;
    bw_progress *progress; /* may be NULL */
    void *payload;
    double done[BW_RUN_METER_MOST];
    size_t count;
    bool stopped;
} bw_run_meter;

/* One of the simulations: what bw_run_meter_tell takes for its payload. */
typedef struct bw_metered {
    bw_run_meter *meter;
    size_t index;
    double from, share; /* of its own whole: done = from + share fraction */
} bw_metered;

void bw_run_meter_start(bw_run_meter *meter,
                        const bw_transient_options *options, size_t count);
void bw_run_meter_end(bw_run_meter *meter);

/* A bw_progress; false for all as soon as the caller wants to stop. */
bool bw_run_meter_tell(void *metered, double fraction_done);

#endif
