/* The criterion line for embedded timber.
 *
 *   phi_allowed = 0.95 at 0 degC, linear to 0.86 at 30 degC, constant outside
 *
 * WTA leaflet 6-8 [from memory, high confidence], for daily means of the
 * wettest 10 mm. Invariant: longest run <= days above <= days. */

#include <assert.h>
#include <math.h>

#include "bothways/decay.h"

static const double at_0 = 0.95, at_30 = 0.86;

double bw_timber_line(double theta)
{
    return at_0 + (at_30 - at_0) * fmin(fmax(theta, 0.0), 30.0) / 30.0;
}

bw_timber_line_result bw_timber_line_year(const double *theta,
                                          const double *phi, size_t days)
{
    bw_timber_line_result r = {0};
    assert(days >= 1);
    for (size_t d = 0; d < days; d++) {
        const double over = phi[d] - bw_timber_line(theta[d]);
        r.days_above += over > 0.0;
        if (over > r.overshoot) {
            r.overshoot = over;
            r.worst_day = d;
        }
    }
    /* twice round, for the run over the year's end */
    size_t run = 0;
    for (size_t d = 0; d < 2 * days; d++) {
        const bool above = phi[d % days] > bw_timber_line(theta[d % days]);
        run = above ? run + 1 : 0;
        if (run > r.longest_run && run <= days)
            r.longest_run = run;
    }
    return r;
}
