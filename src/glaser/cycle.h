#ifndef BW_GLASER_CYCLE_H
#define BW_GLASER_CYCLE_H

/* Years of the monthly method, in one dimension and in two: where they begin,
 * and when they need not be followed any further, ISO 13788 [from memory, high
 * confidence].
 *
 * A year repeats the last if it ends as it began. It is proven to accumulate if
 * it gains at every place what the year before did: the places that gain are
 * wet all year, so each later year sees the same profiles. */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/climate.h"

enum { BW_CYCLES_MOST = 10 }; /* ISO 13788 on drying [from memory] */

/* What a year brought, and what follows of it. */
typedef struct bw_cycle {
    double growth; /* of all places, in the unit of `mass` */
    bool periodic;
    bool accumulates;
} bw_cycle;

/* `mass` of `count` places after the year, `start` before it; `gain`: of the
 * year before in, of this one out. `span`: of each place [m], masses are kg/m;
 * NULL: masses are kg/m2. `water`: all of it. */
bw_cycle bw_cycle_of(double *gain, const double *mass, const double *start,
                     const double *span, size_t count, double water,
                     bool first);

/* From a trial month with condensation back to the first of such months, from
 * one without on to the next with. January is tried. */
int bw_cycle_start(const bool condenses_from_dry[BW_MONTHS]);

/* Where a drying test begins: three months before the coldest. */
int bw_cycle_wetting(const double theta_e[BW_MONTHS]);

#endif
