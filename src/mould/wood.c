/* Equilibrium moisture content of wood, u(theta, phi).
 *
 *   u = 18/W [ K h/(1 - K h)
 *              + (K1 K h + 2 K1 K2 K^2 h^2)/(1 + K1 K h + K1 K2 K^2 h^2) ]
 *
 * Hailwood & Horrobin with the coefficients of the Wood Handbook, chapter 4,
 * theta in degC [from memory, high confidence]. The handbook's table 4-2 runs
 * from 30 to 270 degF: outside, the value at the end is taken. Invariants:
 * 0 at h = 0, rising in h, about 0.27..0.30 at h = 1 and room temperature. */

#include <math.h>

#include "bothways/mould.h"

static const double table_from = -1.1, table_to = 132.2; /* degC */

double bw_wood_moisture(double theta, double phi)
{
    double t = fmin(fmax(theta, table_from), table_to);
    double h = fmin(fmax(phi, 0.0), 1.0);
    double w = 349.0 + (1.29 + 0.0135 * t) * t;
    double k = 0.805 + (0.000736 - 0.00000273 * t) * t;
    double k1 = 6.27 - (0.00938 + 0.000303 * t) * t;
    double k2 = 1.91 + (0.0407 - 0.000293 * t) * t;
    double kh = k * h;
    double one = k1 * kh, two = k1 * k2 * kh * kh;
    return 18.0 / w * (kh / (1.0 - kh) + (one + 2.0 * two) / (1.0 + one + two));
}
