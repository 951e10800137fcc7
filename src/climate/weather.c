/* The pseudo-random course of the weather: first-order autoregressive series
 * driven by a linear congruential generator (multiplier and increment of D.
 * Knuth's MMIX, from memory, high confidence). Persistence: estimates, set
 * beside daily statistics of two public typical years (docs/methods.md).
 *
 * Invariant: no state outlives a call; the year is the same every time. */

#include "weather.h"

#include <math.h>
#include <stdint.h>

#include "fail.h"

enum { DAYS = 365 };

/* Correlation of a day with the next (of an hour, for showers). */
static const double KEEP_FAIR = 0.5, KEEP_WARM = 0.8, KEEP_GUST = 0.6,
                    KEEP_SHOWER = 0.7;

static double next_uniform(uint64_t *state)
{
    *state = *state * UINT64_C(6364136223846793005) +
             UINT64_C(1442695040888963407);
    return ((double)(*state >> 11) + 0.5) / 9007199254740992.0; /* 2^53 */
}

/* Mean 0, variance 1: twelve uniforms, the same on every machine. */
static double next_normal(uint64_t *state)
{
    double sum = -6.0;
    for (int i = 0; i < 12; i++)
        sum += next_uniform(state);
    return sum;
}

/* A cyclic series: the same noise is run through twice and the second pass
 * kept, then brought to mean 0 and variance 1. */
static void fill(double *out, int count, double keep, uint64_t seed)
{
    double value = 0.0, fresh = sqrt(1.0 - keep * keep);
    for (int pass = 0; pass < 2; pass++) {
        uint64_t state = seed;
        for (int i = 0; i < count; i++) {
            value = keep * value + fresh * next_normal(&state);
            out[i] = value;
        }
    }
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < count; i++) {
        sum += out[i];
        squares += out[i] * out[i];
    }
    double mean = sum / count, spread = sqrt(squares / count - mean * mean);
    for (int i = 0; i < count; i++)
        out[i] = (out[i] - mean) / spread;
}

/* Hours between the noons of days, by a smooth step. */
static double *days_to_hours(bw_arena *scratch, double keep, uint64_t seed)
{
    double day[DAYS];
    double *hour = BW_NEW(scratch, double, BW_HOURS);
    if (hour == NULL)
        return NULL;
    fill(day, DAYS, keep, seed);
    for (int h = 0; h < BW_HOURS; h++) {
        int left = (h + BW_HOURS - 12) / 24 % DAYS;
        double t = (h + 12) % 24 / 24.0;
        t = t * t * (3.0 - 2.0 * t);
        hour[h] = (1.0 - t) * day[left] + t * day[(left + 1) % DAYS];
    }
    return hour;
}

bw_status bw_weather_make(bw_weather *out, bw_arena *scratch, bw_error *err)
{
    out->fair = days_to_hours(scratch, KEEP_FAIR, 1);
    out->warm = days_to_hours(scratch, KEEP_WARM, 2);
    out->gust = days_to_hours(scratch, KEEP_GUST, 3);
    out->shower = BW_NEW(scratch, double, BW_HOURS);
    BW_TRY_MEMORY(!scratch->failed, err);
    fill(out->shower, BW_HOURS, KEEP_SHOWER, 4);
    return BW_OK;
}

double bw_weather_uniform(int hour)
{
    uint64_t state = (uint64_t)hour * UINT64_C(0x9e3779b97f4a7c15) + 5;
    next_uniform(&state);
    next_uniform(&state);
    return next_uniform(&state);
}
