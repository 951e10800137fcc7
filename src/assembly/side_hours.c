#include "side_hours.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "beyond.h"
#include "bothways/air.h"
#include "climate_make.h"
#include "exposure.h"
#include "fail.h"
#include "room.h"

/* The equations are those of side_hours.h.
 *
 * Invariant: what lies beyond an outer face has neither sun, sky, wind nor
 * rain. */

static const double STEFAN_BOLTZMANN = 5.670374e-8; /* W/(m2 K4) */
static const double CALM = 2.0;        /* m/s where no wind is known */
static const double ALBEDO = 0.2;      /* grass and soil, common practice */
static const double ABSORPTANCE = 0.6; /* medium colour, ISO 52016 class */
static const double EMISSIVITY = 0.9;
/* Of the rain times wind, what blows straight at a face that no wind direction
 * is known for: the best hit of eight facings had 0.52 and 0.63 in two measured
 * wet years; estimate. */
static const double TOWARD = 0.65;
static const double RSI = 0.13;              /* m2 K/W, ISO 6946 */
static const double INDOOR_CONVECTION = 2.5; /* W/(m2 K) */
static const double LEWIS = 7e-9;            /* beta/h_c, kg K/(J Pa) */

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
/* column: what is missing is one, which another file of hours may give. */
static bw_status missing(bw_error *err, const bw_climate *climate,
                         const char *asked, const char *lacks, bool column,
                         const char *instead)
{
    if (!column || climate->kind != BW_CLIMATE_HOURLY)
        return bw_fail(err, BW_ERR_DOMAIN, climate->file, 0,
                       "%s, but %s; give that, or %s", asked, lacks, instead);
    return bw_fail(err, BW_ERR_DOMAIN, climate->file, 0,
                   "%s, but %s; bothways climate %s OTHER.csv --output "
                   "joined.csv takes it from another file of hours; or %s",
                   asked, lacks, climate->file, instead);
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
    year->against = bw_beyond_against(assembly);
    if (year->against != NULL)
        return BW_OK; /* no sun, sky, wind or rain */
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
                       out->has_facing && !has->solar,
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
        return missing(
            err, climate,
            out->has_driving_rain ? "driving rain is asked for"
                                  : "moderate driving rain is taken, since "
                                    "driving-rain= is not given",
            !has->rain         ? "the climate has no rain column"
            : !out->has_facing ? "no wall facing (faces=) to drive it against"
                               : "the climate has no wind speed",
            !has->rain || out->has_facing,
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
                              ? cos((w->wind_from - out->azimuth) * BW_RADIANS)
                              : TOWARD;
    const double driven = bw_exposure_factor(out) * BW_RAIN_FACTOR * w->wind *
                          fmax(toward, 0) * w->rain *
                          sin(out->tilt * BW_RADIANS);
    const double slope = cos(out->tilt * BW_RADIANS);
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

/* fog over supercooled water is no more than frost over ice here */
static double air_pressure(const bw_climate_hour *w)
{
    return fmin(fmax(w->vapour_pressure, 1),
                bw_saturation_pressure(w->temperature));
}

/* In the place of the air, day by day: a kind may prepare its year each time.
 */
static void add_beyond(bw_year *year, const bw_assembly *assembly,
                       const bw_climate *climate)
{
    enum { DAY = 24 };
    const bw_beyond_kind *kind = assembly->beyond.kind;
    for (int first = 0; first < BW_YEAR_HOURS; first += DAY) {
        bw_boundary day[DAY];
        bw_hourly *h = &year->hour[first];
        for (int i = 0; i < DAY; i++)
            day[i] = (bw_boundary){h[i].theta_e, h[i].p_e, h[i].theta_i,
                                   h[i].p_i};
        bw_beyond_moments(&(bw_moments){day, first, DAY, BW_YEAR_HOURS, 0.0},
                          assembly, climate);
        for (int i = 0; i < DAY; i++) {
            h[i].theta_e = day[i].theta_e;
            h[i].p_e = day[i].p_e;
            h[i].h_e = 1 / kind->contact;
            h[i].beta_e = BW_DELTA_0 / kind->contact_sd;
        }
    }
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
    h->p_e = air_pressure(w);
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
        const double view = 0.5 * (1 + cos(out->tilt * BW_RADIANS));
        h->gain += eps * view *
                   (w->longwave_down -
                    STEFAN_BOLTZMANN * kelvin * kelvin * kelvin * kelvin);
    }
    if (year->rain)
        add_rain(year, h, w, out);
}

/* ---- inside ---- */

/* Indoor state of an hour from the outdoor air's means of the 24 h around it,
 * whatever lies against the face. */
static void add_inside(bw_year *year, int hour, const bw_assembly *assembly,
                       const double (*part)[2])
{
    double theta = 0, p = 0;
    for (int k = -12; k < 12; k++) {
        const double *now = part[(hour + k + BW_YEAR_HOURS) % BW_YEAR_HOURS];
        theta += now[0];
        p += now[1];
    }
    bw_hourly *h = &year->hour[hour];
    bw_indoor_state(&assembly->indoors, bw_hour_month(hour), theta, p,
                    &h->theta_i, &h->p_i);
    h->p_i = fmax(h->p_i, 1);
}

static bw_status add_room(bw_year *year, const bw_assembly *assembly,
                          const bw_climate *climate, bw_error *err)
{
    /* of a day's means; more than a stack should be asked for */
    double(*part)[2] = malloc(BW_YEAR_HOURS * sizeof *part);
    if (part == NULL)
        return bw_fail_memory(err);
    for (int i = 0; i < BW_YEAR_HOURS; i++) {
        part[i][0] = climate->hour[i].temperature / 24;
        part[i][1] = air_pressure(&climate->hour[i]) / 24;
    }
    for (int i = 0; i < BW_YEAR_HOURS; i++)
        add_inside(year, i, assembly, (const double(*)[2])part);
    free(part);
    return BW_OK;
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

bw_status bw_side_hours(bw_year *year, const bw_assembly *assembly,
                        const bw_climate *climate, double leak,
                        bool allow_missing, bw_error *err)
{
    const bw_indoors *in = &assembly->indoors;
    memset(year, 0, sizeof *year);
    year->leak_fraction = leak;
    BW_TRY(plan(year, assembly, climate, allow_missing, err));
    year->local_wind = bw_local_wind(&assembly->outdoors);
    year->pressure = mean_pressure(climate);
    for (int i = 0; i < BW_YEAR_HOURS; i++)
        add_outside(year, &year->hour[i], i, assembly, climate);
    BW_TRY(add_room(year, assembly, climate, err));
    if (year->against != NULL)
        add_beyond(year, assembly, climate);
    year->h_i = in->has_surface_resistance ? 1 / in->surface_resistance
                                           : 1 / RSI;
    year->beta_i = LEWIS * INDOOR_CONVECTION;
    return check_room(year, assembly, err);
}
