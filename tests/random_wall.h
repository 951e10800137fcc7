#ifndef BW_TESTS_RANDOM_WALL_H
#define BW_TESTS_RANDOM_WALL_H

/* Random walls and climates from a fixed seed. */

#include <math.h>
#include <stdint.h>

#include "wall_case.h"

typedef struct dice {
    uint64_t state;
} dice;

/* xorshift64*, 0 <= x < 1 */
static inline double uniform(dice *d)
{
    d->state ^= d->state >> 12;
    d->state ^= d->state << 25;
    d->state ^= d->state >> 27;
    return (double)((d->state * 2685821657736338717u) >> 11) /
           9007199254740992.0;
}

static inline double between(dice *d, double low, double high)
{
    return low + (high - low) * uniform(d);
}

static inline double decades(dice *d, double low, double high)
{
    return pow(10.0, between(d, low, high));
}

/* sd between 10^low and 10^high m in each layer. */
static inline void random_wall(dice *d, wall_case *wall, double low,
                               double high)
{
    slab_row row[CASE_SLABS_MOST];
    size_t count = 1 + (size_t)between(d, 0, 8);
    for (size_t k = 0; k < count; ++k) {
        bool membrane = uniform(d) < 0.25;
        row[k] = (slab_row){.label = "layer",
                            .thickness = membrane ? 0 : between(d, 0.01, 0.3),
                            .resistance = membrane ? 0 : decades(d, -2, 0.7),
                            .sd = decades(d, low, high)};
    }
    wall_of(wall, row, count, 0.04, between(d, 0.1, 0.3));
}

static inline void random_climate(dice *d, bw_boundary b[BW_MONTHS])
{
    double mean = between(d, -5, 28), swing = between(d, 0, 18);
    double room = between(d, 16, 26), phi_i = between(d, 0.3, 0.85);
    for (int m = 0; m < BW_MONTHS; ++m) {
        double te = mean - swing * cos(m * 0.5235987755982988) +
                    between(d, -3, 3);
        b[m] = (bw_boundary){
            .theta_e = te,
            .p_e = bw_vapour_pressure(te, between(d, 0.4, 1.0), BW_OVER_ICE),
            .theta_i = room,
            .p_i = bw_vapour_pressure(room, phi_i, BW_OVER_ICE)};
    }
}

#endif
