/* A year's gain at each place: g = mass - start; cycle.h has what follows. */

#include "cycle.h"

#include <math.h>

static const double same_state = 1e-6; /* kg/m2 */
static const double same_gain = 1e-9;  /* kg/m2, and relative */

bw_cycle bw_cycle_of(double *gain, const double *mass, const double *start,
                     const double *span, size_t count, double water, bool first)
{
    bool as_before = !first;
    double largest = 0.0, growth = 0.0, scale = fmax(1.0, water);
    for (size_t j = 0; j < count; ++j) {
        double now = mass[j] - start[j], over = span != NULL ? span[j] : 1.0;
        if (!(fabs(now - gain[j]) <= same_gain * scale * over))
            as_before = false;
        gain[j] = now;
        largest = fmax(largest, fabs(now) / over);
        growth += now;
    }
    bool periodic = largest <= same_state;
    return (bw_cycle){.growth = growth,
                      .periodic = periodic,
                      .accumulates = !periodic && as_before &&
                                     growth > same_state};
}

int bw_cycle_start(const bool condenses_from_dry[BW_MONTHS])
{
    int month = 0;
    for (int i = 0; i < BW_MONTHS && condenses_from_dry[month]; ++i)
        month = (month + BW_MONTHS - 1) % BW_MONTHS;
    for (int i = 0; i < BW_MONTHS && !condenses_from_dry[month]; ++i)
        month = (month + 1) % BW_MONTHS;
    return month;
}

int bw_cycle_wetting(const double theta_e[BW_MONTHS])
{
    int coldest = 0;
    for (int m = 1; m < BW_MONTHS; ++m)
        if (theta_e[m] < theta_e[coldest])
            coldest = m;
    return (coldest + BW_MONTHS - 3) % BW_MONTHS;
}
