/* Humidity and vapour flow in still air.
 *
 *   p = phi psat        v = p / (R_v T), R_v = 462 J/(kg K)      ISO 13788
 *   delta(T) = 2.0e-7 T^0.81 / P                                  EN 15026
 *
 * [both from memory, high confidence]. ISO 13788 fixes delta_0 = 2.0e-10
 * kg/(m s Pa) instead, which the monthly methods use: delta(T) passes through
 * it at 26 degC and 101325 Pa and is 7 % lower at 0 degC [derived].
 *
 * Met services measure relative humidity over liquid water below 0 degC too;
 * taken over ice the vapour pressure would come out 15 % too low in hard
 * frost. Hence the reference in bw_vapour_pressure. */

#include <math.h>

#include "bothways/air.h"

double bw_vapour_pressure(double theta, double phi,
                          bw_humidity_reference reference)
{
    return phi * (reference == BW_OVER_WATER
                      ? bw_saturation_pressure_water(theta)
                      : bw_saturation_pressure(theta));
}

double bw_relative_humidity(double theta, double p)
{
    return p / bw_saturation_pressure(theta);
}

double bw_vapour_concentration(double theta, double p)
{
    return p / (BW_R_V * (theta + BW_KELVIN));
}

double bw_vapour_permeability_of_air(double theta, double pressure)
{
    return 2.0e-7 * pow(theta + BW_KELVIN, 0.81) / pressure;
}
