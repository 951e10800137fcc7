#include "meter.h"

#include <assert.h>
#include <math.h>

void bw_run_meter_start(bw_run_meter *meter,
                        const bw_transient_options *options, size_t count)
{
    assert(count <= BW_RUN_METER_MOST);
    *meter = (bw_run_meter){.progress = options->progress,
                            .payload = options->payload,
                            .count = count};
    pthread_mutex_init(&meter->lock, NULL);
}

void bw_run_meter_end(bw_run_meter *meter)
{
    pthread_mutex_destroy(&meter->lock);
}

bool bw_run_meter_tell(void *payload, double fraction_done)
{
    const bw_metered *metered = payload;
    bw_run_meter *meter = metered->meter;
    pthread_mutex_lock(&meter->lock);
    double *done = &meter->done[metered->index];
    /* what is done twice goes no further meanwhile */
    *done = fmax(*done, metered->from + metered->share * fraction_done);
    double sum = 0.0;
    for (size_t i = 0; i < meter->count; i++)
        sum += meter->done[i];
    if (!meter->stopped && meter->progress != NULL &&
        !meter->progress(meter->payload, sum / (double)meter->count))
        meter->stopped = true;
    const bool go_on = !meter->stopped;
    pthread_mutex_unlock(&meter->lock);
    return go_on;
}
