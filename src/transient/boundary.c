#include "boundary.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bothways/air.h"
#include "bothways/glaser.h"
#include "exposure.h"
#include "fail.h"
#include "room.h"

#define RADIANS (3.14159265358979323846 / 180)
#define STEFAN_BOLTZMANN 5.670374e-8 /* W/(m2 K4) */
#define CALM 2.0                     /* m/s where no wind is known */
#define ALBEDO 0.2                   /* grass and soil, common practice */
#define ABSORPTANCE 0.6              /* medium colour, ISO 52016 class */
#define EMISSIVITY 0.9
/* Of the rain times wind, what blows straight at a face that no wind direction
 * is known for: the best hit of eight facings had 0.52 and 0.63 in two measured
 * wet years; estimate. */
#define TOWARD 0.65
#define RSI 0.13              /* m2 K/W, ISO 6946 */
#define INDOOR_CONVECTION 2.5 /* W/(m2 K) */
#define LEWIS 7e-9            /* beta/h_c, kg K/(J Pa) */

void bw_year_no_rain(bw_year *year)
{
    for (int i = 0; i < BW_YEAR_HOURS; i++)
        year->hour[i].rain = year->hour[i].rain_leak = 0;
}

int bw_hour_in_month(int hour)
{
    assert(hour >= 0 && hour < BW_YEAR_HOURS);
    int month = 0;
    double end = bw_month_seconds(0) / 3600;
    while (hour >= end)
        end += bw_month_seconds(++month) / 3600;
    return month;
}

/* The mean of the column, else standard. */
static double mean_pressure(const bw_climate *climate)
{
    if (!climate->columns.pressure)
        return BW_STANDARD_PRESSURE;
    double sum = 0;
    for (size_t i = 0; i < climate->hour_count; i++)
        sum += climate->hour[i].pressure;
    return sum / (double)climate->hour_count;
}

/* ---- what can be had ---- */

/* What the assembly's author can do about it; a program may set
 * allow_missing instead. */
static bw_status missing(bw_error *err, const bw_climate *climate,
                         const char *asked, const char *lacks,
                         const char *instead)
{
    return bw_fail(err, BW_ERR_DOMAIN, climate->file, 0,
                   "%s, but %s; give that, or %s", asked, lacks, instead);
}

static bw_status plan(bw_year *year, const bw_assembly *assembly,
                      const bw_climate *climate, bool allow, bw_error *err)
{
    const bw_outdoors *out = &assembly->outdoors;
    const bw_hourly_columns *has = &climate->columns;
    if (climate->hour_count != BW_YEAR_HOURS)
        return bw_fail(err, BW_ERR_DOMAIN, climate->file, 0,
                       "the hourly calculation needs a climate with 8760 "
                       "hours; this one has %zu: give a whole year",
                       climate->hour_count);
    const bool can_sun = has->solar && climate->has_position;
    year->sun = can_sun && out->has_facing;
    year->default_absorptance = year->sun && !out->has_solar_absorptance;
    year->missing_sun = out->has_solar_absorptance && !year->sun;
    if (year->missing_sun && !allow)
        return missing(err, climate, "the wall's solar absorptance is given",
                       !out->has_facing
                           ? "without a facing (faces=) no sun can be computed"
                       : has->solar ? "the climate has no latitude and "
                                      "longitude"
                                    : "the climate has no radiation columns",
                       "leave solar-absorptance= out to have no sun counted");
    year->sky = has->longwave;
    year->wind = has->wind;
    const bool asked = out->driving_rain != BW_RAIN_NONE ||
                       year->leak_fraction > 0;
    const bool can_rain = has->rain && has->wind && out->has_facing;
    year->rain = asked && can_rain;
    year->rain_from = has->wind_from;
    year->missing_rain = asked && !can_rain;
    if (year->missing_rain && !allow)
        return missing(err, climate, "driving rain is asked for",
                       !has->rain ? "the climate has no rain column"
                       : !out->has_facing
                           ? "no wall facing (faces=) to drive it against"
                           : "the climate has no wind speed",
                       "write driving-rain=\"none\" and no <rain-leak> where "
                       "no rain reaches the wall");
    return BW_OK;
}

/* ---- outside ---- */

/* Rain on the plane [kg/(m2 s)]; the leak gets its part even where the face
 * itself is told to see none. */
static void add_rain(const bw_year *year, bw_hourly *h,
                     const bw_climate_hour *w, const bw_outdoors *out)
{
    const double toward = year->rain_from
                              ? cos((w->wind_from - out->azimuth) * RADIANS)
                              : TOWARD;
    const double driven = bw_exposure_factor(out) * BW_RAIN_FACTOR * w->wind *
                          fmax(toward, 0) * w->rain * sin(out->tilt * RADIANS);
    const double slope = cos(out->tilt * RADIANS);
    const double falling = slope > 1e-9 ? w->rain * slope : 0;
    const double leak = year->leak_fraction;
    h->rain_leak = leak * (driven + falling) / 3600;
    if (out->driving_rain != BW_RAIN_NONE)
        h->rain = fmin(1 - leak, bw_driven_share(out)) * driven / 3600 +
                  fmin(1 - leak, bw_falling_share(out)) * falling / 3600;
}

static double sun_on(const bw_climate *climate, const bw_outdoors *out,
                     int hour)
{
    const bw_climate_hour *w = &climate->hour[hour];
    if (w->direct_normal <= 0 && w->diffuse_horizontal <= 0)
        return 0;
    const bw_sun sun = bw_sun_position(climate->latitude, climate->longitude,
                                       (hour + climate->time_offset) / 24);
    return bw_plane_irradiance(sun, w->direct_normal, w->diffuse_horizontal,
                               out->azimuth, out->tilt, ALBEDO);
}

static void add_outside(const bw_year *year, bw_hourly *h, int hour,
                        const bw_assembly *assembly, const bw_climate *climate)
{
    const bw_outdoors *out = &assembly->outdoors;
    const bw_climate_hour *w = &climate->hour[hour];
    const double kelvin = w->temperature + BW_KELVIN;
    const double eps = out->emissivity > 0 ? out->emissivity : EMISSIVITY;
    const double wind = year->wind ? year->local_wind * w->wind : CALM;
    h->theta_e = w->temperature;
    /* fog over supercooled water is no more than frost over ice here */
    h->p_e = fmin(fmax(w->vapour_pressure, 1),
                  bw_saturation_pressure(w->temperature));
    h->h_e = 4 + 4 * wind +
             4 * eps * STEFAN_BOLTZMANN * kelvin * kelvin * kelvin;
    if (out->has_surface_resistance)
        h->h_e = 1 / out->surface_resistance;
    h->beta_e = BW_DELTA_0 * (67 + 90 * wind);
    const double absorptance = out->has_solar_absorptance
                                   ? out->solar_absorptance
                                   : ABSORPTANCE;
    if (year->sun)
        h->gain = absorptance * sun_on(climate, out, hour);
    if (year->sky) {
        const double view = 0.5 * (1 + cos(out->tilt * RADIANS));
        h->gain += eps * view *
                   (w->longwave_down -
                    STEFAN_BOLTZMANN * kelvin * kelvin * kelvin * kelvin);
    }
    if (year->rain)
        add_rain(year, h, w, out);
}

/* ---- inside ---- */

/* Indoor state of an hour from the means of the 24 h around it. */
static void add_inside(bw_year *year, int hour, const bw_assembly *assembly)
{
    double theta = 0, p = 0;
    for (int k = -12; k < 12; k++) {
        const bw_hourly *h =
            &year->hour[(hour + k + BW_YEAR_HOURS) % BW_YEAR_HOURS];
        theta += h->theta_e / 24;
        p += h->p_e / 24;
    }
    bw_hourly *h = &year->hour[hour];
    bw_indoor_state(&assembly->indoors, bw_hour_in_month(hour), theta, p,
                    &h->theta_i, &h->p_i);
    h->p_i = fmax(h->p_i, 1);
}

static bw_status check_room(const bw_year *year, const bw_assembly *assembly,
                            bw_error *err)
{
    double highest = 0;
    int hours = 0;
    for (int i = 0; i < BW_YEAR_HOURS; i++) {
        const bw_hourly *h = &year->hour[i];
        const double rh = bw_room_humidity(h->theta_i, h->p_i);
        highest = fmax(highest, rh);
        hours += bw_room_impossible(rh);
    }
    if (hours == 0)
        return BW_OK;
    char when[64], text[200];
    snprintf(when, sizeof when, "%d hour%s of the year", hours,
             hours == 1 ? "" : "s");
    bw_room_reason(text, sizeof text, &assembly->indoors, highest, when);
    return bw_fail(err, BW_ERR_DOMAIN, assembly->file, 0, "%s", text);
}

static void add_air_flow(bw_year *year, const bw_assembly *assembly)
{
    const bw_air_leakage *leak = &assembly->air_leakage;
    if (!leak->given)
        return;
    for (int i = 0; i < BW_YEAR_HOURS; i++)
        year->hour[i].air_flow = bw_leakage_air_flow(
            leak->q50, leak->connected_height, year->hour[i].theta_e,
            year->hour[i].theta_i);
}

/* Between the means of two hours: their mean, but no more than twice the lesser
 * of the two, and 0 between different signs. Then the parabola through it of
 * an hour's own mean stays on that mean's side of 0: at 0 and 1 it is 0 to
 * 2 m, and with both at 2 m it is m/2 half way. */
static double between(double a, double b)
{
    if (a * b <= 0)
        return 0;
    const double least = 2 * fmin(fabs(a), fabs(b));
    return copysign(fmin(0.5 * fabs(a + b), least), a);
}

static void join_hours(bw_year *year)
{
    for (int i = 0; i < BW_YEAR_HOURS; i++) {
        const bw_hourly *a =
            &year->hour[(i + BW_YEAR_HOURS - 1) % BW_YEAR_HOURS];
        bw_hourly *b = &year->hour[i];
        b->h_e_0 = between(a->h_e, b->h_e);
        b->gain_0 = between(a->gain, b->gain);
        b->beta_e_0 = between(a->beta_e, b->beta_e);
    }
}

bw_status bw_year_make(bw_year *year, const bw_assembly *assembly,
                       const bw_climate *climate,
                       const bw_transient_options *options, bw_error *err)
{
    memset(year, 0, sizeof *year);
    if (options->rain_leak > 0)
        year->leak_fraction = fmin(options->rain_leak, 1);
    else if (assembly->rain_leak.given)
        year->leak_fraction = assembly->rain_leak.fraction;
    BW_TRY(plan(year, assembly, climate, options->allow_missing, err));
    year->local_wind = bw_local_wind(&assembly->outdoors);
    year->pressure = mean_pressure(climate);
    for (int i = 0; i < BW_YEAR_HOURS; i++)
        add_outside(year, &year->hour[i], i, assembly, climate);
    for (int i = 0; i < BW_YEAR_HOURS; i++)
        add_inside(year, i, assembly);
    BW_TRY(check_room(year, assembly, err));
    if (!options->no_air_leakage)
        add_air_flow(year, assembly);
    join_hours(year);
    year->redistribution = options->redistribution == BW_REDISTRIBUTION_RULE;
    const bw_indoors *in = &assembly->indoors;
    year->h_i = in->has_surface_resistance ? 1 / in->surface_resistance
                                           : 1 / RSI;
    year->beta_i = LEWIS * INDOOR_CONVECTION;
    return BW_OK;
}

void bw_year_coat(bw_year *year, double absorption)
{
    int n = 0;
    for (int i = 0; i < BW_YEAR_HOURS; i++) {
        bw_hourly *h = &year->hour[i];
        n = h->rain > 0 ? n + 1 : 0;
        if (n > 0)
            h->rain = fmin(h->rain, bw_coat_rate(absorption, n));
    }
}

/* From a to b with the mean m. */
static double course(double a, double b, double m, double f)
{
    return a + f * (b - a) + 6 * f * (1 - f) * (m - 0.5 * (a + b));
}

void bw_hour_edge(const void *ctx, double t, bw_edge *edge)
{
    const bw_hour_span *span = ctx;
    const bw_hourly *a = &span->year->hour[span->hour];
    const bw_hourly *b = &span->year->hour[(span->hour + 1) % BW_YEAR_HOURS];
    const double f = (t - span->from) / 3600;
    *edge = (bw_edge){
        .theta_e = a->theta_e + f * (b->theta_e - a->theta_e),
        .p_e = a->p_e + f * (b->p_e - a->p_e),
        .theta_i = a->theta_i + f * (b->theta_i - a->theta_i),
        .p_i = a->p_i + f * (b->p_i - a->p_i),
        .h_e = course(a->h_e_0, b->h_e_0, a->h_e, f),
        .gain = course(a->gain_0, b->gain_0, a->gain, f),
        .beta_e = course(a->beta_e_0, b->beta_e_0, a->beta_e, f),
        .rain = a->rain,
        .rain_leak = a->rain_leak,
        .air_flow = a->air_flow,
        .h_i = span->year->h_i,
        .beta_i = span->year->beta_i,
        .redistributes = span->year->redistribution &&
                         !(a->rain > 0 || a->rain_leak > 0),
    };
}

/* ---- several hours as one ---- */

static bool is_wet(const bw_hourly *h)
{
    return h->rain > 0 || h->rain_leak > 0;
}

bw_window bw_window_from(const bw_year *year, int hour, int most, double from)
{
    bw_window w = {.year = year, .hour = hour, .from = from};
    const bool wet = is_wet(&year->hour[hour]);
    while (w.hours < most) {
        const bw_hourly *h = &year->hour[(hour + w.hours) % BW_YEAR_HOURS];
        if (w.hours > 0 && (wet || is_wet(h)))
            break;
        w.h_e += h->h_e;
        w.gain += h->gain;
        w.beta_e += h->beta_e;
        w.air_flow += h->air_flow;
        w.hours++;
    }
    w.h_e /= w.hours;
    w.gain /= w.hours;
    w.beta_e /= w.hours;
    w.air_flow /= w.hours;
    return w;
}

void bw_window_edge(const void *ctx, double t, bw_edge *edge)
{
    const bw_window *w = ctx;
    const bw_hourly *a = &w->year->hour[w->hour];
    const bw_hourly *b = &w->year->hour[(w->hour + w->hours) % BW_YEAR_HOURS];
    const double f = (t - w->from) / (3600.0 * w->hours);
    *edge = (bw_edge){
        .theta_e = a->theta_e + f * (b->theta_e - a->theta_e),
        .p_e = a->p_e + f * (b->p_e - a->p_e),
        .theta_i = a->theta_i + f * (b->theta_i - a->theta_i),
        .p_i = a->p_i + f * (b->p_i - a->p_i),
        .h_e = course(a->h_e_0, b->h_e_0, w->h_e, f),
        .gain = course(a->gain_0, b->gain_0, w->gain, f),
        .beta_e = course(a->beta_e_0, b->beta_e_0, w->beta_e, f),
        .rain = a->rain,
        .rain_leak = a->rain_leak,
        .air_flow = w->air_flow,
        .h_i = w->year->h_i,
        .beta_i = w->year->beta_i,
        .redistributes = w->year->redistribution && !is_wet(a),
    };
}
