/* What lies around a junction, month by month: each environment as it is of a
 * wall (side.h). Invariant: the outside is the climate's means, without the
 * loss to the sky of a roof. */

#include "beyond.h"
#include "bothways/junction.h"

void bw_junction_months(double *theta, double *p, const bw_junction *junction,
                        const bw_climate *climate)
{
    for (size_t e = 0; e < junction->environment_count; e++) {
        const bw_environment *at = &junction->environment[e];
        bw_boundary soil[BW_MONTHS] = {0};
        const bw_moments year = {
            .at = soil, .count = BW_MONTHS, .all = BW_MONTHS, .middle = 0.5};
        if (at->kind == BW_ENVIRONMENT_GROUND)
            at->beyond.kind->moments(&year, &at->beyond, climate);
        for (int m = 0; m < BW_MONTHS; m++) {
            const bw_climate_month *month = &climate->month[m];
            double t = month->temperature, v = month->vapour_pressure;
            if (at->kind == BW_ENVIRONMENT_ROOM)
                bw_indoor_state(&at->indoors, m, t, v, &t, &v);
            if (at->kind == BW_ENVIRONMENT_GROUND) {
                t = soil[m].theta_e;
                v = soil[m].p_e;
            }
            theta[e * BW_MONTHS + (size_t)m] = t;
            if (p != NULL)
                p[e * BW_MONTHS + (size_t)m] = v;
        }
    }
}
