/* A year of hours from monthly means (docs/methods.md, "Hourly weather from
 * monthly means").
 *
 * theta(h) = base(h) + spell(h) + daily(h)
 * p(h)     = min(saturation(h), scale e^(base'(h) + SLOPE spell(h)
 *                                + SLOPE_DAY daily(h) - DRYNESS fair(h)))
 * The base is piecewise linear between the middles of the months and such
 * that every month's mean is met; scale is then exact by one factor a
 * month. Where the months below 0 degC leave the vapour less room below
 * saturation than measured ones do, the spells of their temperature are made
 * wider. Wind and rain: weather_rain.c; sun: weather_sun.c.
 *
 * Invariant: the means of the hours are the given means; no vapour pressure
 * above saturation; the same input gives the same hours. Constants are
 * estimates, set beside two public typical years, two stations and a winter
 * measured in the north. */

#include "weather.h"

#include <math.h>

#include "bothways/constants.h"
#include "fail.h"
#include "number.h"

static const double SPREAD = 2.5;        /* K, of daily means */
static const double SPREAD_SEASON = 0.7; /* K less in summer, more in winter */
static const double WARM_IF_FAIR = 0.35; /* correlation, height of summer */
static const double RANGE = 3.5;         /* K, of a dull day */
static const double RANGE_SUN = 0.045;   /* K per W/m2 of monthly global */
static const double RANGE_MOST = 12.0;   /* K */
static const double WARMEST = 14.5;      /* h, local solar time */
static const double SLOPE = 0.065;       /* d ln p / d theta of spells, 1/K */
static const double SLOPE_DAY = 0.03;    /* the same of day and night */
static const double DRYNESS = 0.08;
/* Vapour pressure of a month below 0 degC, of its mean saturation, at most. The
 * three months measured in the north and two of a typical year had 0.96, 0.93,
 * 0.91, 0.89, 0.78: a hundredth more than the highest, to be no drier. */
static const double FULLEST = 0.97;
static const double SPREAD_MOST = 12.0;   /* K, estimate */
static const double SPREAD_GROWTH = 1.05; /* of one try to the next */

/* An hour between the middles of its month and of the next nearer one. */
struct between {
    int month, other;
    double share; /* of the other */
};

struct generator {
    bw_climate *out;
    bw_climate_hour *hour;
    bw_weather weather;
    double *spell;            /* K, departure of the temperature by spells */
    double *daily;            /* K, the same by day and night */
    double *series, *work;    /* BW_HOURS values */
    struct between *between;  /* of every hour */
    double season[BW_MONTHS]; /* -1 coldest .. +1 warmest */
    double wider[BW_MONTHS];  /* K, of daily means, beyond the usual */
};

static struct between place_hour(int hour)
{
    int m = bw_hour_month(hour);
    double centre = 0.5 * (bw_month_first_hour(m) + bw_month_first_hour(m + 1));
    double half = centre - bw_month_first_hour(m);
    int other = hour < centre ? (m + BW_MONTHS - 1) % BW_MONTHS
                              : (m + 1) % BW_MONTHS;
    double half_other = 12.0 * bw_month_seconds(other) / 86400.0;
    double share = fabs(hour - centre) / (half + half_other);
    return (struct between){m, other, share};
}

/* Value at an hour on the line through the middles of the months. */
static double between_months(const double knot[BW_MONTHS],
                             const struct between *at)
{
    return (1.0 - at->share) * knot[at->month] + at->share * knot[at->other];
}

static double month_mean(const double *value, int month)
{
    int first = bw_month_first_hour(month),
        end = bw_month_first_hour(month + 1);
    double sum = 0.0;
    for (int h = first; h < end; h++)
        sum += value[h];
    return sum / (end - first);
}

/* Adds the line whose knots make the monthly means of value the wanted ones.
 * A month's mean takes three quarters of its own knot, so the correction
 * halves the error at least and the loop ends at rounding. */
static void add_base(const struct generator *g, double *value,
                     const double wanted[BW_MONTHS])
{
    double *work = g->work;
    double knot[BW_MONTHS], target[BW_MONTHS];
    for (int m = 0; m < BW_MONTHS; m++)
        knot[m] = target[m] = wanted[m] - month_mean(value, m);
    for (int pass = 0; pass < 60; pass++) {
        for (int h = 0; h < BW_HOURS; h++)
            work[h] = between_months(knot, &g->between[h]);
        double worst = 0.0;
        for (int m = 0; m < BW_MONTHS; m++) {
            double miss = target[m] - month_mean(work, m);
            knot[m] += miss;
            worst = fmax(worst, fabs(miss));
        }
        if (worst < 1e-13)
            break;
    }
    for (int h = 0; h < BW_HOURS; h++)
        value[h] += work[h];
}

static void find_season(struct generator *g)
{
    const bw_climate_month *month = g->out->month;
    double low = month[0].temperature, high = low;
    for (int m = 1; m < BW_MONTHS; m++) {
        low = fmin(low, month[m].temperature);
        high = fmax(high, month[m].temperature);
    }
    for (int m = 0; m < BW_MONTHS; m++)
        g->season[m] = high - low > 0.5
                           ? 2.0 * (month[m].temperature - low) / (high - low) -
                                 1.0
                           : 0.0;
}

static double daily_range(const bw_climate_month *month, double season)
{
    double range = month->has_global
                       ? RANGE + RANGE_SUN * month->global_horizontal
                       : RANGE + 3.5 * (1.0 + season);
    return fmin(range, RANGE_MOST);
}

static void make_temperature(struct generator *g)
{
    double range[BW_MONTHS], wanted[BW_MONTHS];
    for (int m = 0; m < BW_MONTHS; m++) {
        range[m] = daily_range(&g->out->month[m], g->season[m]);
        wanted[m] = g->out->month[m].temperature;
    }
    double solar_lead = g->out->has_position ? g->out->longitude / 15.0 : 0.0;
    for (int h = 0; h < BW_HOURS; h++) {
        double season = between_months(g->season, &g->between[h]),
               fair = g->weather.fair[h];
        double tie = WARM_IF_FAIR * season;
        double spell = tie * fair + sqrt(1.0 - tie * tie) * g->weather.warm[h];
        g->spell[h] = (SPREAD - SPREAD_SEASON * season +
                       between_months(g->wider, &g->between[h])) *
                      spell;
        double swing = fmin(fmax(1.0 + 0.35 * fair, 0.3), 1.7);
        double clock = (h % 24 + solar_lead - WARMEST) / 24.0;
        g->daily[h] = 0.5 * swing * between_months(range, &g->between[h]) *
                      cos(2.0 * BW_PI * clock);
        g->series[h] = g->spell[h] + g->daily[h];
    }
    add_base(g, g->series, wanted);
    for (int h = 0; h < BW_HOURS; h++)
        g->hour[h].temperature = g->series[h];
}

static double month_saturation(const struct generator *g, int month,
                               double (*saturation)(double))
{
    int first = bw_month_first_hour(month),
        end = bw_month_first_hour(month + 1);
    double sum = 0.0;
    for (int h = first; h < end; h++)
        sum += saturation(g->hour[h].temperature);
    return sum / (end - first);
}

static bool too_full(const struct generator *g, int month)
{
    const bw_climate_month *is = &g->out->month[month];
    return is->temperature < 0.0 &&
           is->vapour_pressure >
               FULLEST * month_saturation(g, month, bw_saturation_pressure);
}

/* Saturation bends upwards with temperature, so a mean vapour pressure close
 * to it tells of temperatures that were further apart. */
static bw_status spread_temperature(struct generator *g, bw_error *err)
{
    double usual[BW_MONTHS];
    for (int m = 0; m < BW_MONTHS; m++)
        usual[m] = SPREAD - SPREAD_SEASON * g->season[m];
    bool grows = true;
    while (grows) {
        make_temperature(g);
        grows = false;
        for (int m = 0; m < BW_MONTHS; m++) {
            double spread = usual[m] + g->wider[m];
            if (spread < SPREAD_MOST - 1e-9 && too_full(g, m)) {
                g->wider[m] = fmin(SPREAD_GROWTH * spread, SPREAD_MOST) -
                              usual[m];
                grows = true;
            }
        }
    }
    for (int m = 0; m < BW_MONTHS; m++)
        if (g->wider[m] > 0.0)
            BW_TRY(bw_climate_add_note(
                g->out, err, BW_NOTE_INFO, 0,
                "%s: vapour pressure close to saturation over ice; the "
                "generated hours have warm and cold spells %.1f times as wide "
                "as usual",
                bw_month_name(m), 1.0 + g->wider[m] / usual[m]));
    return BW_OK;
}

/* One factor on the month's vapour pressures, saturation kept as the limit.
 * The mean is concave in the factor, so Newton's method from 0 climbs to the
 * root in finitely many steps. */
static void scale_vapour(struct generator *g, int month, double target,
                         double (*saturation)(double))
{
    int first = bw_month_first_hour(month),
        end = bw_month_first_hour(month + 1);
    double factor = 0.0, before = -1.0;
    while (factor > before) {
        double held = 0.0, free = 0.0;
        for (int h = first; h < end; h++) {
            double limit = saturation(g->hour[h].temperature);
            if (factor * g->series[h] >= limit)
                held += limit;
            else
                free += g->series[h];
        }
        before = factor;
        if (free > 0.0)
            factor = (target * (end - first) - held) / free;
    }
    for (int h = first; h < end; h++)
        g->hour[h].vapour_pressure = fmin(factor * g->series[h],
                                          saturation(g->hour[h].temperature));
}

static bw_status make_vapour(struct generator *g, bw_error *err)
{
    double wanted[BW_MONTHS];
    for (int m = 0; m < BW_MONTHS; m++)
        wanted[m] = log(g->out->month[m].vapour_pressure);
    for (int h = 0; h < BW_HOURS; h++)
        g->series[h] = SLOPE * g->spell[h] + SLOPE_DAY * g->daily[h] -
                       DRYNESS * g->weather.fair[h];
    add_base(g, g->series, wanted);
    for (int h = 0; h < BW_HOURS; h++)
        g->series[h] = exp(g->series[h]);
    for (int m = 0; m < BW_MONTHS; m++) {
        double target = g->out->month[m].vapour_pressure;
        double (*saturation)(double) = bw_saturation_pressure;
        if (target > month_saturation(g, m, saturation)) {
            saturation = bw_saturation_pressure_water;
            BW_TRY(bw_climate_add_note(
                g->out, err, BW_NOTE_INFO, 0,
                "%s: vapour pressure above saturation over ice; the generated "
                "hours are limited by saturation over water",
                bw_month_name(m)));
        }
        if (target > month_saturation(g, m, saturation))
            return bw_fail(err, BW_ERR_INPUT, g->out->file, 0,
                           "%s: a mean vapour pressure of %s Pa is above "
                           "saturation at %s degC; correct the column of "
                           "humidity",
                           bw_month_name(m), BW_G(target),
                           BW_G(g->out->month[m].temperature));
        scale_vapour(g, m, target, saturation);
    }
    return BW_OK;
}

static bool has_sun(const bw_climate_month *month)
{
    for (int f = 0; f < BW_FACINGS; f++)
        if (month->has_vertical[f])
            return true;
    return month->has_global;
}

static bw_status make_hours(struct generator *g, bw_error *err)
{
    bw_climate *out = g->out;
    find_season(g);
    BW_TRY(spread_temperature(g, err));
    BW_TRY(make_vapour(g, err));
    for (int h = 0; h < BW_HOURS; h++)
        g->hour[h].pressure = BW_STANDARD_PRESSURE;
    BW_TRY(bw_weather_rain(out, g->hour, &g->weather, err));
    if (!bw_months_all(out, has_sun))
        return bw_climate_add_note(out, err, BW_NOTE_INFO, 0,
                                   "no irradiance columns: the generated hours "
                                   "have no sun and no longwave radiation");
    if (!out->has_position)
        return bw_climate_add_note(out, err, BW_NOTE_WARNING, 0,
                                   "no latitude in the header: the generated "
                                   "hours have no sun and no longwave "
                                   "radiation; add '# latitude: ...'");
    BW_TRY(bw_weather_sun(out, g->hour, &g->weather, err));
    out->columns.solar = out->columns.longwave = true;
    return BW_OK;
}

static bw_status check_months(const bw_climate *monthly, bw_error *err)
{
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_climate_month *month = &monthly->month[m];
        if (!isfinite(month->temperature) ||
            !isfinite(month->vapour_pressure) || month->vapour_pressure <= 0.0)
            return bw_fail(err, BW_ERR_DOMAIN, monthly->file, 0,
                           "%s: temperature and vapour pressure must be finite "
                           "and the latter above 0",
                           bw_month_name(m));
    }
    return BW_OK;
}

/* The frame of the new climate: everything but hours and notes. */
static bw_status copy_frame(bw_climate *out, const bw_climate *monthly,
                            bw_error *err)
{
    bw_arena *arena = bw_climate_arena(out);
    out->place = bw_arena_copy(arena, monthly->place);
    out->source = bw_arena_copy(arena, monthly->source);
    out->licence = bw_arena_copy(arena, monthly->licence);
    out->remark = bw_arena_copy(arena, monthly->remark);
    BW_TRY_MEMORY(!arena->failed, err);
    out->kind = BW_CLIMATE_SYNTHETIC;
    out->humidity_reference = monthly->humidity_reference;
    out->has_position = monthly->has_position;
    out->latitude = monthly->latitude;
    out->longitude = monthly->longitude;
    out->has_altitude = monthly->has_altitude;
    out->altitude = monthly->altitude;
    out->has_prevailing_wind = monthly->has_prevailing_wind;
    out->prevailing_wind = monthly->prevailing_wind;
    out->time_offset = 0.5;
    for (int m = 0; m < BW_MONTHS; m++)
        out->month[m] = monthly->month[m];
    for (size_t i = 0; i < monthly->note_count; i++) {
        const bw_note *note = &monthly->note[i];
        BW_TRY(bw_climate_add_note(out, err, note->kind, note->line, "%s",
                                   note->message));
    }
    return bw_climate_add_note(
        out, err, BW_NOTE_INFO, 0,
        "the hours are synthetic: generated from the monthly means, not "
        "measured (docs/methods.md)");
}

static bw_status generate(bw_climate *out, const bw_climate *monthly,
                          bw_arena *scratch, bw_error *err)
{
    struct generator g = {.out = out};
    g.hour = BW_NEW(bw_climate_arena(out), bw_climate_hour, BW_HOURS);
    g.spell = BW_NEW(scratch, double, BW_HOURS);
    g.daily = BW_NEW(scratch, double, BW_HOURS);
    g.series = BW_NEW(scratch, double, BW_HOURS);
    g.work = BW_NEW(scratch, double, BW_HOURS);
    g.between = BW_NEW(scratch, struct between, BW_HOURS);
    BW_TRY_MEMORY(g.hour != NULL && g.spell != NULL && g.daily != NULL &&
                      g.series != NULL && g.work != NULL && g.between != NULL,
                  err);
    for (int h = 0; h < BW_HOURS; h++)
        g.between[h] = place_hour(h);
    BW_TRY(copy_frame(out, monthly, err));
    BW_TRY(bw_weather_make(&g.weather, scratch, err));
    BW_TRY(make_hours(&g, err));
    out->hour = g.hour;
    out->hour_count = BW_HOURS;
    return BW_OK;
}

bw_status bw_climate_generate(bw_climate **out, const bw_climate *monthly,
                              bw_error *err)
{
    BW_TRY(check_months(monthly, err));
    bw_climate *climate = bw_climate_new(monthly->file);
    BW_TRY_MEMORY(climate != NULL, err);
    bw_arena scratch = {0};
    bw_status status = generate(climate, monthly, &scratch, err);
    bw_arena_release(&scratch);
    if (status != BW_OK) {
        bw_climate_free(climate);
        return status;
    }
    *out = climate;
    return BW_OK;
}
