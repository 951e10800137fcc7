/* Decay dose by day, u the daily mean moisture in % by mass, T in degC:
 *
 *   D_u = 6.75e-10 u^5 - 3.50e-7 u^4 + 7.18e-5 u^3 - 7.22e-3 u^2
 *         + 0.34 u - 4.98                                     u >= 25, else 0
 *   D_T = -1.8e-6 T^4 + 9.57e-5 T^3 - 1.55e-3 T^2 + 4.17e-2 T
 *                                                        0 < T < 40, else 0
 *   D   = (3.2 D_T + D_u)/4.2                          both > 0, else 0
 *   rating = 4 exp(-exp(1.7716 - 0.0032 dose))
 *
 * Brischke & Rapp 2008, 2010; Isaksson, Brischke & Thelandersson 2013 [from
 * memory, high confidence].
 *
 * Choice: D_u is highest at 51 % and the polynomial means nothing far above
 * (negative at 150, 4.6 at 200 %): from 60 % on the value at 60 %, which
 * lies above what the falling curve would give [estimate]. */

#include <assert.h>
#include <math.h>

#include "bothways/decay.h"

static const double active_from = 25.0, held_from = 60.0; /* % by mass */
static const double cold = 0.0, hot = 40.0;               /* degC */
static const double weight_theta = 3.2;

static double moisture_dose(double percent)
{
    if (percent < active_from)
        return 0.0;
    const double u = fmin(percent, held_from);
    return ((((6.75e-10 * u - 3.50e-7) * u + 7.18e-5) * u - 7.22e-3) * u +
            0.34) *
               u -
           4.98;
}

static double temperature_dose(double t)
{
    if (t <= cold || t >= hot)
        return 0.0;
    return (((-1.8e-6 * t + 9.57e-5) * t - 1.55e-3) * t + 4.17e-2) * t;
}

double bw_decay_dose_of_day(double u, double theta)
{
    const double by_moisture = moisture_dose(100.0 * u);
    const double by_theta = temperature_dose(theta);
    if (by_moisture <= 0.0 || by_theta <= 0.0)
        return 0.0;
    return (weight_theta * by_theta + by_moisture) / (weight_theta + 1.0);
}

double bw_decay_rating(double dose)
{
    return 4.0 * exp(-exp(1.7716 - 0.0032 * dose));
}

bw_decay_dose_result bw_decay_dose_year(const double *u, const double *theta,
                                        size_t days, double critical)
{
    bw_decay_dose_result r = {0};
    assert(critical > 0.0);
    for (size_t d = 0; d < days; d++) {
        const double dose = bw_decay_dose_of_day(u[d], theta[d]);
        r.dose += dose;
        r.active_days += dose > 0.0;
    }
    r.rating = bw_decay_rating(r.dose);
    r.years = r.dose > 0.0 ? critical / r.dose : HUGE_VAL;
    return r;
}
