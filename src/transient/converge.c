/* The same year three times: as set, with a tenth of the tolerance, with
 * halved cells. */

#include <math.h>
#include <string.h>

#include "fail.h"
#include "watch.h"

static const double TIGHTER = 0.1;
static const double THETA = 0.01; /* K, RH: the defaults of bw_transient */
static const double PHI = 0.0005;
enum { FIRST_HOUR = 24 };

/* Largest differences at every watched place but the outer face. */
static void compare(const bw_transient_result *a, const bw_transient_result *b,
                    double *theta, double *phi, double *water)
{
    const size_t n = a->monitor_count;
    *theta = *phi = 0;
    for (size_t i = FIRST_HOUR * n; i < a->hour_count * n; i++) {
        if (i % n == 0)
            continue;
        *theta = fmax(*theta, fabs(a->hour[i].theta - b->hour[i].theta));
        *phi = fmax(*phi, fabs(a->hour[i].phi - b->hour[i].phi));
    }
    *water = fabs(a->year_end_water[0] - b->year_end_water[0]);
}

static bw_transient_options varied(const bw_transient_options *options,
                                   double tolerance, double refinement)
{
    bw_transient_options o = *options;
    o.max_years = 1;
    o.keep_hours = true;
    if (tolerance < 1) {
        o.temperature_tolerance = tolerance * (o.temperature_tolerance > 0
                                                   ? o.temperature_tolerance
                                                   : THETA);
        o.humidity_tolerance =
            tolerance * (o.humidity_tolerance > 0 ? o.humidity_tolerance : PHI);
    }
    o.grid_refinement = refinement * fmax(o.grid_refinement, 1);
    return o;
}

bw_status bw_transient_converge(bw_transient_convergence *out,
                                const bw_assembly *assembly,
                                const bw_section *section,
                                const bw_climate *climate,
                                const bw_transient_options *options,
                                bw_error *err)
{
    const bw_transient_options defaults = {0};
    const bw_transient_options *given = options != NULL ? options : &defaults;
    const bw_transient_options o[3] = {
        varied(given, 1, 1), varied(given, TIGHTER, 1), varied(given, 1, 2)};
    bw_transient_result r[3];
    memset(r, 0, sizeof r);
    bw_status status = BW_OK;
    for (int k = 0; k < 3 && status == BW_OK; k++)
        status = bw_transient(&r[k], assembly, section, climate, &o[k], err);
    if (status == BW_OK) {
        bw_transient_convergence c = {.cells = r[0].cells, .steps = r[0].steps};
        compare(&r[0], &r[1], &c.theta_time, &c.phi_time, &c.water_time);
        compare(&r[0], &r[2], &c.theta_grid, &c.phi_grid, &c.water_grid);
        *out = c;
    }
    for (int k = 0; k < 3; k++)
        bw_transient_free(&r[k]);
    return status;
}
