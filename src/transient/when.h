#ifndef BW_TRANSIENT_WHEN_H
#define BW_TRANSIENT_WHEN_H

#include "bothways/climate.h"

/* When runs and wettings begin, 0..11: in October, before a winter; in April
 * where the half of the year from then on is the colder one, as south of the
 * equator. */
int bw_start_month(const bw_climate *climate);

#endif
