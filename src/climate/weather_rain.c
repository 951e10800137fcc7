/* Rain and wind of hours made from monthly means (docs/methods.md, "Hourly
 * weather from monthly means").
 *
 * Day total T = n D, n its wet hours, D exponential, so that a few days are
 * heavy (exponential amounts of wet days: common in weather generators, from
 * memory, hi); it falls in exponential amounts by hour. Where the wettest day
 * W of a month is known, T is raised to the power g that makes
 * max(T^g)/sum(T^g) = W/rain.
 *
 * Wind of a wet hour is 1 + a times that of a dry one, a such that the mean
 * wind weighted by rain is the month's own, or RAIN_WIND times its mean.
 *
 * Direction: hours in the order of the warm and cold spells; the share of the
 * month's rain times wind that came before an hour is its place in the
 * cumulative rose of the month. So the rose is met whatever the weather.
 *
 * Invariant: the month's rain and mean wind are the given ones. */

#include <math.h>
#include <stdlib.h>

#include "bothways/constants.h"
#include "weather.h"

enum { OCTANTS = BW_FACINGS, MOST_DAYS = 31, MOST_HOURS = 24 * MOST_DAYS };

static const double RAIN_RATE = 0.6; /* kg/(m2 h), of a wet hour */
static const double WETTEST = 0.5;   /* share of hours with rain at most */
/* Wind in rain by the month's mean: 1.10 and 1.35 over two measured wet
 * years; estimate. */
static const double RAIN_WIND = 1.2;
/* Least and most a. */
static const double CALMER = -0.8, STRONGER = 3.0;
/* Shares of rain times wind by octant, the first around the prevailing wind:
 * of a normal distribution wrapped round the circle whose mean vector is
 * 0.45 long (derived); 0.38 and 0.54 in two measured wet years; estimate. */
static const double ROSE[OCTANTS] = {0.244, 0.202, 0.116, 0.048,
                                     0.024, 0.048, 0.116, 0.202};

struct months_weather {
    bw_climate *climate;
    bw_climate_hour *hour;
    const bw_weather *weather;
    int first, count; /* hours of the month at hand */
};

/* ---- rain ---- */

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* The wettest hours by spell and shower; wet hours of each day. */
static void choose_hours(struct months_weather *w, double rain,
                         int wet[MOST_DAYS])
{
    double dullness[MOST_HOURS] = {0}, sorted[MOST_HOURS] = {0};
    int count = (int)fmin(ceil(rain / RAIN_RATE), floor(WETTEST * w->count));
    for (int i = 0; i < w->count; i++)
        dullness[i] = sorted[i] = w->weather->fair[w->first + i] +
                                  0.8 * w->weather->shower[w->first + i];
    qsort(sorted, (size_t)w->count, sizeof *sorted, ascending);
    for (int i = 0; i < w->count; i++) {
        if (dullness[i] > sorted[count - 1])
            continue;
        w->hour[w->first + i].rain = -log(bw_weather_uniform(w->first + i));
        wet[i / 24]++;
    }
}

/* sum((T/max T)^power): 1 where all falls on one day. */
static double in_wettest_days(const double total[], int days, double power)
{
    double sum = 0.0;
    for (int d = 0; d < days; d++)
        sum += total[d] > 0.0 ? pow(total[d], power) : 0.0;
    return sum;
}

/* Makes the wettest day's share of the month's rain the given one, or comes
 * as near as the wet days allow. */
static void fit_wettest_day(double total[], int days, double share)
{
    double most = 0.0, low = 0.0, high = 16.0;
    for (int d = 0; d < days; d++)
        most = fmax(most, total[d]);
    for (int d = 0; d < days; d++)
        total[d] /= most;
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (low + high);
        if (in_wettest_days(total, days, middle) * share > 1.0)
            low = middle;
        else
            high = middle;
    }
    for (int d = 0; d < days; d++)
        total[d] = total[d] > 0.0 ? pow(total[d], low) : 0.0;
}

/* Shares the day's total out among its wet hours. */
static void share_out(bw_climate_hour *hour, double total)
{
    double sum = 0.0;
    for (int i = 0; i < 24; i++)
        sum += hour[i].rain;
    for (int i = 0; i < 24; i++)
        hour[i].rain *= sum > 0.0 ? total / sum : 0.0;
}

static void make_rain(struct months_weather *w, const bw_climate_month *month)
{
    if (month->rain <= 0.0)
        return;
    int wet[MOST_DAYS] = {0}, days = w->count / 24;
    double total[MOST_DAYS], sum = 0.0;
    choose_hours(w, month->rain, wet);
    for (int d = 0; d < days; d++)
        total[d] = -wet[d] *
                   log(bw_weather_uniform(BW_HOURS + w->first / 24 + d));
    if (month->has_wettest_day)
        fit_wettest_day(total, days, month->wettest_day / month->rain);
    for (int d = 0; d < days; d++)
        sum += total[d];
    for (int d = 0; d < days; d++)
        share_out(&w->hour[w->first + 24 * d], month->rain * total[d] / sum);
}

/* ---- wind ---- */

/* a of the head of this file. */
static double strengthening(const struct months_weather *w,
                            const bw_climate_month *month)
{
    double rain = 0.0, driven = 0.0, mean = 0.0, wet = 0.0;
    for (int i = 0; i < w->count; i++) {
        const bw_climate_hour *hour = &w->hour[w->first + i];
        rain += hour->rain;
        driven += hour->rain * hour->wind;
        mean += hour->wind / w->count;
        wet += hour->rain > 0.0 ? hour->wind / w->count : 0.0;
    }
    if (!(rain > 0.0) || !(month->wind > 0.0))
        return 0.0;
    double in_rain = driven / rain;
    double wanted = month->has_rain_wind ? month->rain_wind / month->wind
                                         : RAIN_WIND;
    if (in_rain <= wanted * wet)
        return STRONGER;
    double a = (wanted * mean - in_rain) / (in_rain - wanted * wet);
    return fmin(fmax(a, CALMER), STRONGER);
}

static void make_wind(struct months_weather *w, const bw_climate_month *month)
{
    for (int h = w->first; h < w->first + w->count; h++) {
        double noon = cos(2.0 * BW_PI * (h % 24 - 14) / 24.0);
        w->hour[h].wind = fmax(1.0 + 0.35 * w->weather->gust[h] -
                                   0.12 * w->weather->fair[h] + 0.12 * noon,
                               0.1);
    }
    double more = 1.0 + strengthening(w, month), sum = 0.0;
    for (int h = w->first; h < w->first + w->count; h++) {
        w->hour[h].wind *= w->hour[h].rain > 0.0 ? more : 1.0;
        sum += w->hour[h].wind;
    }
    for (int h = w->first; h < w->first + w->count; h++)
        w->hour[h].wind *= month->wind * w->count / sum;
}

/* ---- direction ---- */

/* The direction [degrees] below which a share of the rose lies, counted from
 * the beginning of the octant opposite to `around`. */
static double on_rose(const double rose[OCTANTS], double around, double share)
{
    int octant = OCTANTS / 2;
    double left = share;
    for (int i = 0; i < OCTANTS - 1 && left > rose[octant]; i++) {
        left -= rose[octant];
        octant = (octant + 1) % OCTANTS;
    }
    double within = rose[octant] > 0.0 ? fmin(left / rose[octant], 1.0) : 0.5;
    double from = fmod(around + 45.0 * (octant + within - 0.5) + 360.0, 360.0);
    return from < 360.0 ? from : 0.0;
}

struct place {
    double warmth;
    int hour;
};

static int colder(const void *a, const void *b)
{
    const struct place *x = a, *y = b;
    if (x->warmth != y->warmth)
        return x->warmth < y->warmth ? -1 : 1;
    return x->hour - y->hour;
}

static void make_direction(struct months_weather *w,
                           const bw_climate_month *month)
{
    struct place place[MOST_HOURS] = {{0}};
    double driven = 0.0, before = 0.0;
    for (int i = 0; i < w->count; i++) {
        const bw_climate_hour *hour = &w->hour[w->first + i];
        place[i].hour = w->first + i;
        place[i].warmth = w->weather->warm[w->first + i];
        driven += hour->rain * hour->wind;
    }
    qsort(place, (size_t)w->count, sizeof *place, colder);
    for (int i = 0; i < w->count; i++) {
        bw_climate_hour *hour = &w->hour[place[i].hour];
        double share = driven > 0.0 ? hour->rain * hour->wind / driven
                                    : 1.0 / w->count;
        hour->wind_from = month->has_rain_rose
                              ? on_rose(month->rain_rose, 0.0,
                                        before + 0.5 * share)
                              : on_rose(ROSE, w->climate->prevailing_wind,
                                        before + 0.5 * share);
        before += share;
    }
}

/* ---- the year ---- */

static bool has_wind(const bw_climate_month *month)
{
    return month->has_wind;
}

static bool has_rain(const bw_climate_month *month)
{
    return month->has_rain;
}

static bool has_rose(const bw_climate_month *month)
{
    return month->has_rain_rose;
}

static bw_status tell(bw_climate *climate, bool rose, bw_error *err)
{
    if (!climate->columns.rain || !climate->columns.wind || rose)
        return BW_OK;
    if (!climate->has_prevailing_wind)
        return bw_climate_add_note(
            climate, err, BW_NOTE_WARNING, 0,
            "neither rain_from_N_pct ... columns nor a prevailing-wind in the "
            "header: the generated wind has no direction");
    return bw_climate_add_note(
        climate, err, BW_NOTE_INFO, 0,
        "no rain_from_N_pct ... columns: the generated rain comes from a usual "
        "rose around the prevailing wind, 24 %% of it from its octant and 2 %% "
        "from the opposite one (an estimate)");
}

bw_status bw_weather_rain(bw_climate *climate, bw_climate_hour *hour,
                          const bw_weather *weather, bw_error *err)
{
    bw_hourly_columns *made = &climate->columns;
    bool rose = bw_months_all(climate, has_rose);
    made->rain = bw_months_all(climate, has_rain);
    made->wind = bw_months_all(climate, has_wind);
    made->wind_from = made->wind && (rose || climate->has_prevailing_wind);
    for (int m = 0; m < BW_MONTHS; m++) {
        struct months_weather w = {.climate = climate,
                                   .hour = hour,
                                   .weather = weather,
                                   .first = bw_month_first_hour(m)};
        w.count = bw_month_first_hour(m + 1) - w.first;
        if (made->rain)
            make_rain(&w, &climate->month[m]);
        if (made->wind)
            make_wind(&w, &climate->month[m]);
        if (made->wind_from)
            make_direction(&w, &climate->month[m]);
    }
    return tell(climate, rose, err);
}
