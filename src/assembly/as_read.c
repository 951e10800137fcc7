#include "as_read.h"

#include <math.h>

/* What a resistance meter set to 20 degC and the reference species shows, put
 * right for the temperature of the wood:
 *
 *   u = (m + 0.567 - 0.0260 T + 0.000051 T^2) / (0.881 * 1.0056^T)
 *
 * m the figure shown and u the moisture, % by mass, T in degC (Pfaff and
 * Garrahan 1986, from memory). Wood colder than frost conducts otherwise,
 * warmer than 50 degC no site is. Species: no coefficient is at hand, so that
 * none is applied. Invariant: as the formula is from memory it makes no reading
 * lower. */

static const double COLDEST = 0.0, WARMEST = 50.0; /* degC, estimate */

bool bw_reading_is_correctable(const bw_reading *reading)
{
    return reading->as_read && reading->has_wood_temperature &&
           reading->wood_temperature >= COLDEST &&
           reading->wood_temperature <= WARMEST;
}

double bw_moisture_at_temperature(double shown, double theta)
{
    const double m = 100.0 * shown;
    return 0.01 * (m + 0.567 - 0.0260 * theta + 0.000051 * theta * theta) /
           (0.881 * pow(1.0056, theta));
}

double bw_reading_moisture(const bw_reading *reading)
{
    if (!bw_reading_is_correctable(reading))
        return reading->shown;
    return fmax(reading->shown, bw_moisture_at_temperature(
                                    reading->shown, reading->wood_temperature));
}
