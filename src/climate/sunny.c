/* The sun on a plane while it shines, from the month's mean.
 *
 * A month is taken as clear days and overcast days, seen on the day in its
 * middle. Through a clear sky comes a beam of 0.7^(AM^0.678) of that outside
 * the atmosphere (A. B. and M. P. Meinel, Applied Solar Energy, 1976, from
 * memory, high confidence), and of its global 0.18 is diffuse (D. G. Erbs, S.
 * A. Klein, J. A. Duffie, Solar Energy 28 (1982) 293-302, at a clearness of
 * 0.75: 0.183; from memory, high confidence). Through an overcast one 0.25
 * comes, all diffuse (A. Angstrom's line as in FAO Irrigation and Drainage
 * Paper 56, from memory, high confidence). The share of clear days is the one
 * that gives the plane its mean:
 *
 *   mean = s clear + (1 - s) overcast
 *   share of the time in the sun = s (time of the day with the sun before the
 *                                     plane) / (24 h)
 *
 * Invariant: share times irradiance is at most the mean. */

#include "climate_make.h"

#include <math.h>

#include "bothways/constants.h"

static const double OVERCAST = 0.25;
static const double DIFFUSE_IF_CLEAR = 0.18 / 0.82; /* of the level beam */
static const double ALBEDO = 0.2;                   /* as in irradiance.c */

enum { STEPS = 48 }; /* of a day */

/* Sums over a day's steps. */
typedef struct day {
    double clear, overcast; /* W/m2 on the plane */
    double in_sun;          /* of `clear`, with the sun before the plane */
    int steps_in_sun;
} day;

static bool before(bw_sun sun, double azimuth, double tilt)
{
    double h = sun.elevation * BW_RADIANS;
    return sun.elevation > 0.0 &&
           sin(h) * cos(tilt * BW_RADIANS) +
                   cos(h) * sin(tilt * BW_RADIANS) *
                       cos((sun.azimuth - azimuth) * BW_RADIANS) >
               0.0;
}

static day middle_of(const bw_climate *climate, int month, double azimuth,
                     double tilt)
{
    day d = {0};
    double middle = floor(
        (bw_month_first_hour(month) + bw_month_first_hour(month + 1)) / 48.0);
    for (int i = 0; i < STEPS; i++) {
        bw_sun sun = bw_sun_position(climate->latitude, climate->longitude,
                                     middle + (i + 0.5) / STEPS);
        if (sun.elevation <= 0.0)
            continue;
        double beam = sun.extraterrestrial *
                      pow(0.7, pow(bw_air_mass(sun.elevation), 0.678));
        double level = sin(sun.elevation * BW_RADIANS);
        double clear = bw_plane_irradiance(
            sun, beam, beam * level * DIFFUSE_IF_CLEAR, azimuth, tilt, ALBEDO);
        d.clear += clear;
        d.overcast += bw_plane_irradiance(
            sun, 0.0, OVERCAST * sun.extraterrestrial * level, azimuth, tilt,
            ALBEDO);
        if (before(sun, azimuth, tilt)) {
            d.in_sun += clear;
            d.steps_in_sun++;
        }
    }
    return d;
}

bool bw_climate_sunny(const bw_climate *climate, double azimuth, double tilt,
                      const double mean[BW_MONTHS],
                      double irradiance[BW_MONTHS], double share[BW_MONTHS])
{
    if (!climate->has_position || !isfinite(azimuth) || !isfinite(tilt))
        return false;
    for (int m = 0; m < BW_MONTHS; m++) {
        day d = middle_of(climate, m, azimuth, tilt);
        double clear = d.clear / STEPS, overcast = d.overcast / STEPS;
        irradiance[m] = mean[m];
        share[m] = 1.0;
        if (d.steps_in_sun == 0 || clear <= overcast || mean[m] <= overcast)
            continue;
        double days = fmin((mean[m] - overcast) / (clear - overcast), 1.0);
        /* brighter than this clear day: as much brighter all through */
        double more = fmax(mean[m] / clear, 1.0);
        double in_sun = more * d.in_sun / d.steps_in_sun;
        if (in_sun <= mean[m])
            continue; /* low sun, duller than the sky at noon */
        irradiance[m] = in_sun;
        share[m] = days * d.steps_in_sun / STEPS;
    }
    return true;
}
