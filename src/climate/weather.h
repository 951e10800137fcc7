#ifndef BW_CLIMATE_WEATHER_H
#define BW_CLIMATE_WEATHER_H

/* Parts of the generator of hours (generator.c): the pseudo-random course of
 * the weather, and the sun that goes with it. */

#include "climate_make.h"

/* A year of weather without units, hour by hour; each series has mean about 0
 * and variance about 1, and its end runs into its beginning. */
typedef struct bw_weather {
    double *fair;   /* spells of days: + clear and dry, - dull and wet */
    double *warm;   /* spells of days, not tied to fair */
    double *shower; /* spells of hours */
    double *gust;   /* spells of days, for the wind */
} bw_weather;

/* The same year every time; NULL pointers never remain after BW_OK. */
bw_status bw_weather_make(bw_weather *out, bw_arena *scratch, bw_error *err);

/* A pseudo-random number in (0, 1) that belongs to `hour`, the same every
 * time; from BW_HOURS on to a day. */
double bw_weather_uniform(int hour);

/* Fills direct, diffuse and longwave of every hour so that each month's mean
 * of global (or, without it, the mean of its vertical columns) is met.
 * BW_ERR_INPUT: more sun than the latitude allows. */
bw_status bw_weather_sun(bw_climate *climate, bw_climate_hour *hour,
                         const bw_weather *weather, bw_error *err);

/* Fills rain, wind and its direction of every hour, and which columns there
 * are, with what the months give. BW_OK or BW_ERR_MEMORY. */
bw_status bw_weather_rain(bw_climate *climate, bw_climate_hour *hour,
                          const bw_weather *weather, bw_error *err);

#endif
