#ifndef BW_CLIMATE_SUN_H
#define BW_CLIMATE_SUN_H

/* The sun at any date; the public function is this one in a fixed year. */

#include "bothways/climate.h"

/* The year whose calendar bw_sun_position uses: the one before a leap year,
 * half way between the extremes of the calendar's drift. */
#define BW_SUN_YEAR 2019
/* Days from 2000 January 1st 12:00 UTC to its January 1st 00:00 UTC. */
#define BW_SUN_YEAR_START 6939.5

/* Position at `days` (UTC) after 2000 January 1st 12:00 UTC; good to 0.01
 * degrees from 1900 to 2100. */
bw_sun bw_sun_at(double latitude, double longitude, double days);

#endif
