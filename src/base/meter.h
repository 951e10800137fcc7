#ifndef BW_METER_H
#define BW_METER_H

/* How far work on several threads has come, told as one; and whether the caller
 * wants it stopped. Its function is called by one thread at a time. */

#include <pthread.h>
#include <stdbool.h>

typedef struct bw_meter {
    pthread_mutex_t lock;
    bool (*progress)(void *payload, double fraction_done); /* may be NULL */
    void *payload;
    double done, total; /* total may be an estimate */
    bool stopped;
} bw_meter;

/* A part of it, done by one thread at a time. */
typedef struct bw_metered {
    bw_meter *meter;
    double from, share; /* of the total: from + share fraction_done is done */
    double told;        /* done so far; leave 0 */
} bw_metered;

void bw_meter_start(bw_meter *meter,
                    bool (*progress)(void *payload, double fraction_done),
                    void *payload, double total);
void bw_meter_end(bw_meter *meter);

/* So much more is done. False for all as soon as the caller wants to stop. */
bool bw_meter_add(bw_meter *meter, double amount);

/* A function of progress whose payload is a bw_metered. What is done twice
 * goes no further meanwhile. */
bool bw_meter_tell(void *metered, double fraction_done);

/* The same whose payload is the bw_meter: goes no further, but may be stopped.
 */
bool bw_meter_alive(void *meter, double fraction_done);

#endif
