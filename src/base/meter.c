#include "meter.h"

#include <math.h>

/* Invariant: done = what was added + the furthest that each part has told. */

void bw_meter_start(bw_meter *meter,
                    bool (*progress)(void *payload, double fraction_done),
                    void *payload, double total)
{
    *meter = (bw_meter){
        .progress = progress, .payload = payload, .total = total};
    pthread_mutex_init(&meter->lock, NULL);
}

void bw_meter_end(bw_meter *meter)
{
    pthread_mutex_destroy(&meter->lock);
}

/* An estimate of the total may be too low. Locked before and after. */
static bool go_on(bw_meter *meter)
{
    const double fraction = meter->total > 0 ? meter->done / meter->total : 0;
    if (!meter->stopped && meter->progress != NULL &&
        !meter->progress(meter->payload, fmin(fraction, 1)))
        meter->stopped = true;
    return !meter->stopped;
}

bool bw_meter_add(bw_meter *meter, double amount)
{
    pthread_mutex_lock(&meter->lock);
    meter->done += amount;
    const bool more = go_on(meter);
    pthread_mutex_unlock(&meter->lock);
    return more;
}

bool bw_meter_tell(void *metered, double fraction_done)
{
    bw_metered *part = metered;
    bw_meter *meter = part->meter;
    const double done = part->from + part->share * fraction_done;
    pthread_mutex_lock(&meter->lock);
    meter->done += fmax(done - part->told, 0);
    part->told = fmax(done, part->told);
    const bool more = go_on(meter);
    pthread_mutex_unlock(&meter->lock);
    return more;
}

bool bw_meter_alive(void *meter, double fraction_done)
{
    (void)fraction_done;
    return bw_meter_add(meter, 0);
}
