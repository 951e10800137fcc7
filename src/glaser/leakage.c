/* Air flow into a component by buoyancy.
 *
 *   dp = (rho_e - rho_i) g h/2      pressure at the top of h, the neutral
 *                                   plane at half its height
 *   V  = k_CL dp                    m3/(m2 h)
 *   k_CL = 0.004, 0.007, 0.010 m3/(m2 h Pa) for q50 <= 1, 3, 5 m3/(m2 h)
 *
 * Model of German moisture practice; k_CL [from memory, low confidence]. The
 * three figures lie on one straight line, which is also taken below 1 and
 * above 5. No leakage (q50 = 0) gives no flow. Dry air as an ideal gas at
 * 101325 Pa. Invariant: never negative; none when it is not colder outside,
 * for then the air at the top moves inwards. */

#include <math.h>

#include "bothways/air.h"
#include "bothways/glaser.h"

static const double gas_constant_air = 287.05; /* J/(kg K) */
static const double gravity = 9.81;            /* m/s2 */
static const double seconds_per_hour = 3600.0;
static const double k_at_zero = 0.0025; /* m3/(m2 h Pa) */
static const double k_slope = 0.0015;   /* per m3/(m2 h) of q50 */

static double density(double theta)
{
    return BW_STANDARD_PRESSURE / (gas_constant_air * (theta + BW_KELVIN));
}

double bw_leakage_air_flow(double q50, double height, double theta_e,
                           double theta_i)
{
    if (q50 <= 0.0 || height <= 0.0)
        return 0.0;
    double k_cl = k_at_zero + k_slope * q50 * seconds_per_hour;
    double dp = (density(theta_e) - density(theta_i)) * gravity * height / 2.0;
    return fmax(0.0, k_cl * dp) / seconds_per_hour;
}
