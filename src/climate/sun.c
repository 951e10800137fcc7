/* Where the sun stands: low-precision solar theory of J. Meeus, Astronomical
 * Algorithms, 2nd ed. 1998, chapters 12, 13, 22 and 25, from memory (high
 * confidence; checked in the tests against a table made with another
 * algorithm). Nutation is reduced to its leading term, as there.
 *
 * Invariant: elevation within [-90, 90], azimuth within [0, 360). */

#include <math.h>

#include "bothways/climate.h"
#include "bothways/constants.h"

/* Total solar irradiance at one astronomical unit [W/m2]; Kopp and Lean 2011,
 * from memory, high confidence. */
static const double SOLAR_CONSTANT = 1361.0;
/* Days from 2000 January 1st 12:00 UTC to January 1st 2019 00:00 UTC: the year
 * before a leap year, half way between the extremes of the calendar's drift. */
static const double YEAR_START = 6939.5;
/* Terrestrial time less UTC, 2017 on [s]: 37 leap seconds + 32.184. */
static const double TT_LESS_UTC = 69.184;
/* Horizontal parallax of the sun [degrees] (8.794 seconds of arc). */
static const double PARALLAX = 8.794 / 3600.0;

static double circle(double degrees)
{
    double rest = fmod(degrees, 360.0);
    return rest < 0.0 ? rest + 360.0 : rest;
}

struct ecliptic {
    double longitude; /* apparent, radians */
    double obliquity; /* radians */
    double nutation;  /* in right ascension, degrees */
    double distance;  /* astronomical units */
};

/* t: Julian centuries of terrestrial time since 2000.0 */
static struct ecliptic solar_theory(double t)
{
    double mean_longitude = 280.46646 + t * (36000.76983 + t * 0.0003032);
    double anomaly = 357.52911 + t * (35999.05029 - t * 0.0001537);
    double eccentricity = 0.016708634 - t * (0.000042037 + t * 0.0000001267);
    double m = circle(anomaly) * BW_RADIANS;
    double centre = (1.914602 - t * (0.004817 + t * 0.000014)) * sin(m) +
                    (0.019993 - t * 0.000101) * sin(2.0 * m) +
                    0.000289 * sin(3.0 * m);
    double true_anomaly = m + centre * BW_RADIANS;
    double node = circle(125.04 - 1934.136 * t) * BW_RADIANS;
    double nutation = -0.00478 * sin(node);
    double obliquity = 23.0 + 26.0 / 60.0 + 21.448 / 3600.0 -
                       t * (0.013004167 + t * 1.6e-7) + 0.00256 * cos(node);
    return (struct ecliptic){
        .longitude = circle(mean_longitude + centre - 0.00569 + nutation) *
                     BW_RADIANS,
        .obliquity = obliquity * BW_RADIANS,
        .nutation = nutation * cos(obliquity * BW_RADIANS),
        .distance = 1.000001018 * (1.0 - eccentricity * eccentricity) /
                    (1.0 + eccentricity * cos(true_anomaly)),
    };
}

bw_sun bw_sun_position(double latitude, double longitude,
                       double day_of_year_utc)
{
    const double days = YEAR_START + day_of_year_utc;
    double t = (days + TT_LESS_UTC / 86400.0) / 36525.0;
    struct ecliptic sun = solar_theory(t);
    double sin_long = sin(sun.longitude);
    double right_ascension = atan2(cos(sun.obliquity) * sin_long,
                                   cos(sun.longitude));
    double sin_dec = sin(sun.obliquity) * sin_long;
    double cos_dec = sqrt(1.0 - sin_dec * sin_dec);

    double sidereal = 280.46061837 + circle(360.98564736629 * days) +
                      0.000387933 * t * t + sun.nutation;
    double hour_angle = circle(sidereal + longitude) * BW_RADIANS -
                        right_ascension;
    double sin_lat = sin(latitude * BW_RADIANS),
           cos_lat = cos(latitude * BW_RADIANS);
    double cos_hour = cos(hour_angle);

    /* East, north and up components of the direction to the sun. */
    double up = sin_lat * sin_dec + cos_lat * cos_dec * cos_hour;
    double north = cos_lat * sin_dec - sin_lat * cos_dec * cos_hour;
    double east = -cos_dec * sin(hour_angle);
    double level = hypot(north, east);

    bw_sun out;
    out.elevation = atan2(up, level) / BW_RADIANS - PARALLAX * level;
    if (out.elevation < -90.0)
        out.elevation = -90.0;
    out.azimuth = circle(atan2(east, north) / BW_RADIANS);
    out.extraterrestrial = SOLAR_CONSTANT / (sun.distance * sun.distance);
    return out;
}
