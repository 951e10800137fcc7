/* The sun of the generated hours.
 *
 * Clearness of an hour = month's scale x e^(SWING fair) x (a + b cos w), the
 * daily course of M. Collares-Pereira and A. Rabl, Solar Energy 22 (1979)
 * 155-164; diffuse part by D. Erbs, S. Klein, J. Duffie, Solar Energy 28
 * (1982) 293-302; clear-sky emissivity by P. Berdahl and M. Martin,
 * Solar Energy 32 (1984) 663-664. All from memory, high confidence, and set
 * beside two public typical years (docs/methods.md).
 *
 * Invariant: no sun with the sun's centre below the horizon, nothing
 * negative, clearness at most CLEAREST. */

#include "weather.h"

#include <math.h>

#include "bothways/constants.h"
#include "fail.h"
#include "number.h"
#include "split.h"

static const double SWING = 0.7;     /* estimate */
static const double CLEAREST = 0.80; /* of an hour; estimate */
/* Part of the gap between a clear sky and a black one that clouds close, by
 * the month's clearness: drawn by eye through the 24 months of two public
 * typical years (45 N and 56 N); an estimate elsewhere. */
static const double CLOUD_AT_0 = 1.08, CLOUD_SLOPE = -1.55, CLOUD_SWING = 0.2,
                    CLOUD_MOST = 0.95, CLOUD_NO_SUN = 0.65;
static const double STEFAN_BOLTZMANN = 5.670374419e-8; /* W/(m2 K4), SI */
/* Twilight a month may hold without the sun having risen [W/m2]. */
static const double TWILIGHT = 3.0;
static const double ALBEDO = 0.2;

enum { MOST_HOURS = 24 * 31 };

struct sunny_hour {
    bw_sun sun;
    double on_top; /* extraterrestrial, on a horizontal plane [W/m2] */
    double shape;  /* clearness for scale 1 */
};

struct sunny_month {
    int first, count;
    double on_top; /* mean [W/m2] */
    struct sunny_hour hour[MOST_HOURS];
};

/* a + b cos w, from the sun's position alone. */
static double daily_course(double latitude, bw_sun sun)
{
    double el = sun.elevation * BW_RADIANS, lat = latitude * BW_RADIANS;
    double sin_dec = sin(lat) * sin(el) +
                     cos(lat) * cos(el) * cos(sun.azimuth * BW_RADIANS);
    double cos_dec = sqrt(fmax(1.0 - sin_dec * sin_dec, 1e-12));
    double cos_lat = fmax(fabs(cos(lat)), 1e-6);
    double noon = sin(lat) * sin_dec / (cos_lat * cos_dec);
    double sunset = acos(fmin(fmax(-noon, -1.0), 1.0));
    double cos_hour = sin(el) / (cos_lat * cos_dec) - noon;
    double a = 0.409 + 0.5016 * sin(sunset - BW_PI / 3.0);
    double b = 0.6609 - 0.4767 * sin(sunset - BW_PI / 3.0);
    return fmax(a + b * fmin(cos_hour, 1.0), 0.1);
}

static void lay_out(struct sunny_month *out, const bw_climate *climate,
                    int month, const double *fair)
{
    out->first = bw_month_first_hour(month);
    out->count = bw_month_first_hour(month + 1) - out->first;
    out->on_top = 0.0;
    for (int i = 0; i < out->count; i++) {
        struct sunny_hour *hour = &out->hour[i];
        int h = out->first + i;
        hour->sun = bw_sun_position(climate->latitude, climate->longitude,
                                    bw_hour_sun_day(climate, h));
        hour->on_top = hour->shape = 0.0;
        if (hour->sun.elevation <= 0.0)
            continue;
        hour->on_top = hour->sun.extraterrestrial *
                       sin(hour->sun.elevation * BW_RADIANS);
        hour->shape = exp(SWING * fair[h]) *
                      daily_course(climate->latitude, hour->sun);
        out->on_top += hour->on_top / out->count;
    }
}

static double clearness(const struct sunny_hour *hour, double scale)
{
    return fmin(scale * hour->shape, CLEAREST);
}

static void split(const struct sunny_hour *hour, double scale, double *direct,
                  double *diffuse)
{
    *direct = *diffuse = 0.0;
    if (hour->on_top <= 0.0)
        return;
    double k = clearness(hour, scale), part = bw_diffuse_part(k);
    *diffuse = part * k * hour->on_top;
    *direct = (1.0 - part) * k * hour->sun.extraterrestrial;
}

/* What the scale is fitted to: mean global, or mean over the vertical
 * columns given. */
static double yield(const struct sunny_month *month, const bw_climate_month *is,
                    double scale)
{
    double sum = 0.0;
    int facings = 0;
    for (int i = 0; i < month->count; i++) {
        const struct sunny_hour *hour = &month->hour[i];
        if (hour->on_top <= 0.0)
            continue;
        if (is->has_global) {
            sum += clearness(hour, scale) * hour->on_top;
            continue;
        }
        double direct, diffuse;
        split(hour, scale, &direct, &diffuse);
        facings = 0;
        for (int f = 0; f < BW_FACINGS; f++)
            if (is->has_vertical[f]) {
                facings++;
                sum += bw_plane_irradiance(hour->sun, direct, diffuse,
                                           360.0 * f / BW_FACINGS, 90.0,
                                           ALBEDO);
            }
    }
    return sum / month->count / (facings > 0 ? facings : 1);
}

static double wanted(const bw_climate_month *month)
{
    if (month->has_global)
        return month->global_horizontal;
    double sum = 0.0;
    int facings = 0;
    for (int f = 0; f < BW_FACINGS; f++)
        if (month->has_vertical[f]) {
            sum += month->vertical[f];
            facings++;
        }
    return sum / facings;
}

/* The scale at which yield is target, halved down from where every hour is
 * at its clearest (it grows with the scale). */
static double fit(const struct sunny_month *month, const bw_climate_month *is,
                  double target)
{
    double low = 0.0, high = 1.0;
    while (high < 1e6 && yield(month, is, high) < target)
        high *= 2.0;
    double f_low = -target, f_high = yield(month, is, high) - target;
    int same_side = 0;
    for (int i = 0; i < 100 && high - low > 1e-14 * high; i++) {
        /* Regula falsi, Illinois variant, with a bisection now and then. */
        double middle = i % 8 == 7 || f_high <= f_low
                            ? 0.5 * (low + high)
                            : (low * f_high - high * f_low) / (f_high - f_low);
        double f = yield(month, is, middle) - target;
        if (fabs(f) <= 1e-13 * target)
            return middle;
        if (f < 0.0) {
            low = middle;
            f_low = f;
            f_high *= same_side < 0 ? 0.5 : 1.0;
            same_side = -1;
        } else {
            high = middle;
            f_high = f;
            f_low *= same_side > 0 ? 0.5 : 1.0;
            same_side = 1;
        }
    }
    return 0.5 * (low + high);
}

static double longwave(const bw_climate_hour *hour, double cloud)
{
    double dew = bw_dew_point(hour->vapour_pressure) / 100.0;
    double clear = fmin(0.711 + dew * (0.56 + dew * 0.73), 1.0);
    double emissivity = clear +
                        (1.0 - clear) * fmin(fmax(cloud, 0.0), CLOUD_MOST);
    double t = hour->temperature + BW_KELVIN;
    return emissivity * STEFAN_BOLTZMANN * t * t * t * t;
}

static bw_status sun_of_month(bw_climate *climate, bw_climate_hour *hour,
                              struct sunny_month *month, int m,
                              const double *fair, bw_error *err)
{
    const bw_climate_month *is = &climate->month[m];
    lay_out(month, climate, m, fair);
    double target = wanted(is), most = yield(month, is, 1e6), scale = 1e6;
    if (target > most && target > TWILIGHT)
        return bw_fail(err, BW_ERR_INPUT, climate->file, 0,
                       "%s: a mean irradiance of %s W/m2 is more than a "
                       "cloudless month gives at latitude %s (%s W/m2); "
                       "check the column's unit (W/m2, mean over day and "
                       "night) and the latitude",
                       bw_month_name(m), BW_G(target), BW_G(climate->latitude),
                       BW_G(most));
    if (target > most)
        BW_TRY(bw_climate_add_note(
            climate, err, BW_NOTE_INFO, 0,
            "%s: the sun rises too little for the %s W/m2 given; the "
            "generated hours have %s",
            bw_month_name(m), BW_G(target), BW_G(most)));
    else
        scale = target > 0.0 ? fit(month, is, target) : 0.0;
    double mean = 0.0;
    for (int i = 0; i < month->count; i++) {
        bw_climate_hour *out = &hour[month->first + i];
        split(&month->hour[i], scale, &out->direct_normal,
              &out->diffuse_horizontal);
        mean += clearness(&month->hour[i], scale) * month->hour[i].on_top /
                month->count;
    }
    double cloud = month->on_top > 1.0
                       ? CLOUD_AT_0 + CLOUD_SLOPE * mean / month->on_top
                       : CLOUD_NO_SUN;
    for (int i = 0; i < month->count; i++) {
        int h = month->first + i;
        hour[h].longwave_down = longwave(&hour[h],
                                         cloud - CLOUD_SWING * fair[h]);
    }
    return BW_OK;
}

bw_status bw_weather_sun(bw_climate *climate, bw_climate_hour *hour,
                         const bw_weather *weather, bw_error *err)
{
    bw_arena scratch = {0};
    struct sunny_month *month = BW_NEW(&scratch, struct sunny_month, 1);
    bw_status status = month != NULL ? BW_OK : bw_fail_memory(err);
    for (int m = 0; m < BW_MONTHS && status == BW_OK; m++)
        status = sun_of_month(climate, hour, month, m, weather->fair, err);
    bw_arena_release(&scratch);
    return status;
}
