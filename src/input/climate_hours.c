/* From a complete table of hours to the climate's hours and monthly means:
 * temperature, vapour pressure (never a mean relative humidity) and
 * irradiance are averaged, rain is summed.
 *
 * Where the public TMY file does not say at which moment of the hour its
 * irradiance holds, the moment is found from the file itself: its three
 * components close, G(h) = Gb(n) sin(elevation) + Gd(h), at that moment only.
 *
 * Invariant: nothing negative, no vapour pressure above saturation over
 * water. */

#include <math.h>

#include "bothways/constants.h"
#include "climate_reader.h"
#include "fail.h"

/* Vapour pressure this far above saturation is taken as saturation. */
static const double TOLERANCE = 1.05;
/* Below this relative humidity the unit is doubted. */
static const double DRIEST = 0.001;
/* Own hourly files: radiation is the mean of the hour that begins. */
static const double MID_HOUR = 0.5;
/* Beam from which an hour counts for the closure [W/m2], fewest such hours,
 * and the closure that is believed [W/m2 rms]. */
static const double CLOSING_BEAM = 100.0, GOOD_CLOSURE = 5.0;
enum { CLOSING_HOURS = 100 };

static double at(const bw_hour_table *table, int kind, int hour)
{
    return table->value[kind] != NULL ? table->value[kind][hour] : 0.0;
}

static bw_status vapour_pressure(double *out, size_t *clamped,
                                 const bw_hour_table *table, int hour,
                                 bw_climate_reader *reader)
{
    double theta = table->value[BW_H_TEMPERATURE][hour];
    double most = bw_saturation_pressure_water(theta);
    double p = table->value[BW_H_RH] != NULL
                   ? bw_vapour_pressure(theta,
                                        table->value[BW_H_RH][hour] / 100.0,
                                        reader->climate->humidity_reference)
                   : table->value[BW_H_VAPOUR][hour];
    if (p > most * TOLERANCE)
        return BW_REFUSE(reader, table->line[hour],
                         "vapour_pressure_Pa: %s is above saturation at %s "
                         "degC (%s Pa over water)",
                         BW_G(p), BW_G(theta), BW_G(most));
    if (p < DRIEST * most)
        return BW_REFUSE(reader, table->line[hour],
                         "a humidity of less than 0.1 %% of saturation at %s "
                         "degC: wrong unit or missing value?",
                         BW_G(theta));
    *clamped += p > most;
    *out = fmin(p, most);
    return BW_OK;
}

static bw_status store_hours(bw_climate_hour *out, const bw_hour_table *table,
                             bw_climate_reader *reader)
{
    size_t clamped = 0;
    for (int h = 0; h < BW_HOURS; h++) {
        bw_climate_hour *hour = &out[h];
        hour->temperature = at(table, BW_H_TEMPERATURE, h);
        BW_TRY(vapour_pressure(&hour->vapour_pressure, &clamped, table, h,
                               reader));
        hour->direct_normal = at(table, BW_H_DIRECT, h);
        hour->diffuse_horizontal = at(table, BW_H_DIFFUSE, h);
        hour->longwave_down = at(table, BW_H_LONGWAVE, h);
        hour->wind = at(table, BW_H_WIND, h);
        hour->wind_from = at(table, BW_H_WIND_FROM, h);
        if (hour->wind_from >= 360.0)
            hour->wind_from = 0.0;
        hour->rain = at(table, BW_H_RAIN, h);
        hour->pressure = table->value[BW_H_PRESSURE] != NULL
                             ? table->value[BW_H_PRESSURE][h]
                             : BW_STANDARD_PRESSURE;
    }
    if (clamped == 0)
        return BW_OK;
    return bw_climate_add_note(reader->climate, reader->err, BW_NOTE_INFO, 0,
                               "vapour_pressure_Pa: %zu value%s slightly above "
                               "saturation taken as saturation",
                               clamped, clamped == 1 ? "" : "s");
}

struct closure {
    double rms;   /* W/m2 */
    double shift; /* h, to first order where it would vanish */
    int hours;
};

static struct closure close_at(const bw_hour_table *table,
                               const bw_climate *climate, double offset)
{
    const double step = 0.05; /* h */
    double squares = 0.0, product = 0.0, slopes = 0.0;
    int hours = 0;
    for (int h = 0; h < BW_HOURS; h++) {
        double beam = table->value[BW_H_DIRECT][h];
        if (beam < CLOSING_BEAM)
            continue;
        double now = (h + offset) / 24.0;
        double low = sin(BW_RADIANS * bw_sun_position(climate->latitude,
                                                      climate->longitude,
                                                      now - step / 24.0)
                                          .elevation);
        double high = sin(BW_RADIANS * bw_sun_position(climate->latitude,
                                                       climate->longitude,
                                                       now + step / 24.0)
                                           .elevation);
        double miss = table->value[BW_H_GLOBAL][h] -
                      table->value[BW_H_DIFFUSE][h] - beam * 0.5 * (low + high);
        double slope = beam * (high - low) / (2.0 * step);
        squares += miss * miss;
        product += miss * slope;
        slopes += slope * slope;
        hours++;
    }
    return (struct closure){.rms = hours > 0 ? sqrt(squares / hours) : 0.0,
                            .shift = slopes > 0.0 ? product / slopes : 0.0,
                            .hours = hours};
}

static bw_status find_offset(const bw_hour_table *table,
                             bw_climate_reader *reader)
{
    bw_climate *climate = reader->climate;
    double offset = 0.0;
    struct closure before = {0}, closure = {0};
    if (climate->has_position && table->value[BW_H_GLOBAL] != NULL) {
        before = closure = close_at(table, climate, offset);
        for (int i = 0; i < 2; i++) {
            offset = fmin(fmax(offset + closure.shift, -1.0), 1.0);
            closure = close_at(table, climate, offset);
        }
    }
    if (closure.hours < CLOSING_HOURS || closure.rms > GOOD_CLOSURE ||
        closure.rms > before.rms)
        return bw_climate_add_note(
            climate, reader->err, BW_NOTE_WARNING, 0,
            "the header has no Irradiance Time Offset: 0 is used, so that the "
            "sun may stand up to an hour wrong");
    climate->time_offset = offset;
    return bw_climate_add_note(
        climate, reader->err, BW_NOTE_INFO, 0,
        "the header has no Irradiance Time Offset: %s h is used, at which the "
        "file's own beam, diffuse and global irradiance agree to %s W/m2 rms "
        "(%s with 0 h)",
        BW_NUMBER_F(offset, 2), BW_NUMBER_F(closure.rms, 1),
        BW_NUMBER_F(before.rms, 1));
}

static double global_of(const bw_hour_table *table, const bw_climate *climate,
                        int hour)
{
    if (table->value[BW_H_GLOBAL] != NULL)
        return table->value[BW_H_GLOBAL][hour];
    double beam = table->value[BW_H_DIRECT][hour];
    double diffuse = table->value[BW_H_DIFFUSE][hour];
    if (beam <= 0.0)
        return diffuse;
    bw_sun sun = bw_sun_position(climate->latitude, climate->longitude,
                                 bw_hour_sun_day(climate, hour));
    return diffuse + beam * fmax(sin(sun.elevation * BW_RADIANS), 0.0);
}

/* What rain and wind do together; a month without rain has an even rose. */
static void store_rain(bw_climate *climate, int m)
{
    bw_climate_month *month = &climate->month[m];
    int first = bw_month_first_hour(m), end = bw_month_first_hour(m + 1);
    bool windy = climate->columns.wind;
    bool rose = windy && climate->columns.wind_from;
    double driven = 0.0, day = 0.0;
    for (int h = first; h < end; h++) {
        const bw_climate_hour *hour = &climate->hour[h];
        day = hour->rain + (h % 24 == 0 ? 0.0 : day);
        month->wettest_day = fmax(month->wettest_day, day);
        driven += hour->rain * hour->wind;
        int octant = (int)(hour->wind_from / 45.0 + 0.5) % BW_FACINGS;
        month->rain_rose[octant] += hour->rain * hour->wind;
    }
    month->has_wettest_day = true;
    month->has_rain_wind = windy;
    month->rain_wind = month->rain > 0.0 ? driven / month->rain : month->wind;
    month->has_rain_rose = rose;
    for (int f = 0; f < BW_FACINGS; f++)
        month->rain_rose[f] = driven > 0.0 ? month->rain_rose[f] / driven
                                           : 1.0 / BW_FACINGS;
}

static void store_months(const bw_hour_table *table, bw_climate *climate)
{
    bool global = table->value[BW_H_GLOBAL] != NULL ||
                  (climate->columns.solar && climate->has_position);
    for (int m = 0; m < BW_MONTHS; m++) {
        bw_climate_month sum = {.has_global = global,
                                .has_wind = climate->columns.wind,
                                .has_rain = climate->columns.rain};
        int first = bw_month_first_hour(m), end = bw_month_first_hour(m + 1);
        for (int h = first; h < end; h++) {
            const bw_climate_hour *hour = &climate->hour[h];
            sum.temperature += hour->temperature;
            sum.vapour_pressure += hour->vapour_pressure;
            sum.global_horizontal += global ? global_of(table, climate, h)
                                            : 0.0;
            sum.wind += hour->wind;
            sum.rain += hour->rain;
        }
        sum.temperature /= end - first;
        sum.vapour_pressure /= end - first;
        sum.global_horizontal /= end - first;
        sum.wind /= end - first;
        climate->month[m] = sum;
        if (climate->columns.rain)
            store_rain(climate, m);
    }
}

bw_status bw_hours_store(const bw_hour_table *table, bw_climate_reader *reader)
{
    bw_climate *climate = reader->climate;
    bw_climate_hour *hour = BW_NEW(bw_climate_arena(climate), bw_climate_hour,
                                   BW_HOURS);
    BW_TRY_MEMORY(hour != NULL, reader->err);
    BW_TRY(store_hours(hour, table, reader));
    climate->kind = BW_CLIMATE_HOURLY;
    climate->hour = hour;
    climate->hour_count = BW_HOURS;
    climate->columns = (bw_hourly_columns){
        .solar = table->value[BW_H_DIRECT] != NULL,
        .longwave = table->value[BW_H_LONGWAVE] != NULL,
        .wind = table->value[BW_H_WIND] != NULL,
        .wind_from = table->value[BW_H_WIND_FROM] != NULL,
        .rain = table->value[BW_H_RAIN] != NULL,
        .pressure = table->value[BW_H_PRESSURE] != NULL,
    };
    if (climate->columns.solar && !reader->has_time_offset) {
        if (reader->public_tmy)
            BW_TRY(find_offset(table, reader));
        else
            climate->time_offset = MID_HOUR;
    }
    store_months(table, climate);
    return BW_OK;
}
