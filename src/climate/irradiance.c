/* Monthly mean irradiance on a plane: from the columns of the file where they
 * answer, else hour by hour.
 *
 * Invariant: a vertical value between two columns lies between them. */

#include "climate_make.h"

#include <math.h>

/* Share of the sun the ground throws back: grass and soil, common practice. */
static const double ALBEDO = 0.2;
static const double STEP = 360.0 / BW_FACINGS; /* degrees between facings */
/* Columns further apart than this [steps] say too little of what lies
 * between. */
enum { WIDEST_STEPS = 2 };

static int compass(int steps)
{
    return (steps + BW_FACINGS) % BW_FACINGS;
}

static bool has_facing(const bw_climate *climate, int steps)
{
    int facing = compass(steps);
    for (int m = 0; m < BW_MONTHS; m++)
        if (!climate->month[m].has_vertical[facing])
            return false;
    return true;
}

static bool from_columns(const bw_climate *climate, double azimuth,
                         double out[BW_MONTHS])
{
    double place = fmod(azimuth, 360.0);
    if (place < 0.0)
        place += 360.0;
    place /= STEP;
    double nearest = floor(place + 0.5);
    if (fabs(place - nearest) < 1e-9)
        place = nearest;
    /* left <= place <= right, in steps round the compass; either may lie
     * beyond north. */
    int left = (int)floor(place), right = (int)ceil(place);
    while (!has_facing(climate, left) && right - left <= WIDEST_STEPS)
        left--;
    while (!has_facing(climate, right) && right - left <= WIDEST_STEPS)
        right++;
    if (right - left > WIDEST_STEPS)
        return false;
    double share = right > left ? (place - left) / (right - left) : 0.0;
    for (int m = 0; m < BW_MONTHS; m++) {
        const double *vertical = climate->month[m].vertical;
        out[m] = (1.0 - share) * vertical[compass(left)] +
                 share * vertical[compass(right)];
    }
    return true;
}

static bool from_global(const bw_climate *climate, double out[BW_MONTHS])
{
    for (int m = 0; m < BW_MONTHS; m++) {
        if (!climate->month[m].has_global)
            return false;
        out[m] = climate->month[m].global_horizontal;
    }
    return true;
}

static bool from_hours(const bw_climate *climate, double azimuth, double tilt,
                       double out[BW_MONTHS])
{
    if (climate->hour_count == 0 || !climate->columns.solar ||
        !climate->has_position)
        return false;
    for (int m = 0; m < BW_MONTHS; m++) {
        double sum = 0.0;
        int first = bw_month_first_hour(m), end = bw_month_first_hour(m + 1);
        for (int h = first; h < end; h++) {
            const bw_climate_hour *hour = &climate->hour[h];
            if (hour->direct_normal <= 0.0 && hour->diffuse_horizontal <= 0.0)
                continue;
            bw_sun sun = bw_sun_position(climate->latitude, climate->longitude,
                                         bw_hour_sun_day(climate, h));
            sum += bw_plane_irradiance(sun, hour->direct_normal,
                                       hour->diffuse_horizontal, azimuth, tilt,
                                       ALBEDO);
        }
        out[m] = sum / (end - first);
    }
    return true;
}

bool bw_climate_irradiance(const bw_climate *climate, double azimuth,
                           double tilt, double out[BW_MONTHS])
{
    if (!isfinite(azimuth) || !isfinite(tilt))
        return false;
    if (fabs(tilt - 90.0) < 1e-9 && from_columns(climate, azimuth, out))
        return true;
    if (fabs(tilt) < 1e-9 && from_global(climate, out))
        return true;
    return from_hours(climate, azimuth, tilt, out);
}
