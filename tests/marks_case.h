#ifndef BW_TESTS_MARKS_CASE_H
#define BW_TESTS_MARKS_CASE_H

/* The page of the wall made by hand, filled with random results. Saturation and
 * dew point by ISO 13788:2012, equations E.7 to E.10. */

#include <math.h>

#include "drawing.h"
#include "one_document.h"
#include "random_wall.h"
#include "report_wall.h"

static dice die;

static inline void start(int seed)
{
    die = (dice){.state = 0x9e3779b97f4a7c15u * (uint64_t)(seed + 1)};
}

static inline void print_page(void)
{
    paper_clear(&page);
    ck_assert_int_eq(check_report(BW_FORM_PAGE, &wall.assessment, NULL,
                                  paper_take, &page, NULL),
                     BW_OK);
    parse();
}

static inline double most(const double *value, size_t count)
{
    double high = value[0];
    for (size_t i = 1; i < count; i++)
        high = fmax(high, value[i]);
    return high;
}

/* The axis does not end before its data, nor far beyond them. */
static inline void holds_all(const axis *a, double low, double high)
{
    const double from = fmin(axis_value(a, a->from), axis_value(a, a->to));
    const double to = fmax(axis_value(a, a->from), axis_value(a, a->to));
    const double slack = 1e-6 * (to - from);
    ck_assert_double_le(from, low + slack);
    ck_assert_double_ge(to, high - slack);
    ck_assert_double_ge(high - low, 0.2 * (to - from));
}

static inline double psat(double theta)
{
    return theta >= 0.0 ? 610.5 * exp(17.269 * theta / (237.3 + theta))
                        : 610.5 * exp(21.875 * theta / (265.5 + theta));
}

static inline double dew(double p)
{
    const double x = log(p / 610.5);
    return p >= 610.5 ? 237.3 * x / (17.269 - x) : 265.5 * x / (21.875 - x);
}

/* ---- the monthly method -------------------------------------------------- */

static inline void random_months(void)
{
    for (size_t i = 1; i < WALL_PLANES; i++)
        wall.plane[i].at.depth = wall.slab[i - 1].thickness;
    for (int m = 0; m < BW_MONTHS; m++) {
        double sd = 0.0, theta = between(&die, -15.0, 5.0);
        bw_boundary *b = &wall.checked.boundary[m];
        *b = (bw_boundary){.theta_e = theta - between(&die, 0.5, 3.0),
                           .p_e = between(&die, 200.0, 900.0),
                           .theta_i = between(&die, 18.0, 24.0),
                           .p_i = between(&die, 900.0, 1400.0)};
        for (size_t i = 0; i < WALL_PLANES; i++) {
            if (i > 0)
                sd += wall.layer_sd[i - 1][m] = between(&die, 0.5, 1.5);
            theta = i == 3 ? theta + 0.4 : theta + between(&die, 1.5, 6.0);
            bw_plane_month *p = &wall.plane[i].month[m];
            *p = (bw_plane_month){.theta = theta,
                                  .saturation_pressure = psat(theta),
                                  .vapour_pressure = psat(theta) *
                                                     between(&die, 0.3, 0.95),
                                  .relative_humidity = between(&die, 0.3, 0.98),
                                  .sd_from_outside = sd};
        }
    }
}

static inline int extreme(double sign)
{
    int best = 0;
    for (int m = 1; m < BW_MONTHS; m++)
        if (sign * wall.checked.boundary[m].theta_e >
            sign * wall.checked.boundary[best].theta_e)
            best = m;
    return best;
}

static inline void water_at(size_t plane)
{
    double stands = 0.0;
    for (int m = 0; m < BW_MONTHS; m++) {
        const double gain = between(&die, -0.4, 0.5);
        stands = fmax(stands + gain, 0.0);
        wall.plane[plane].month[m].condensation = gain;
        wall.plane[plane].month[m].accumulated = stands;
        wall.plane[plane].peak = fmax(wall.plane[plane].peak, stands);
    }
}

#endif
