#include "boundary.h"

#include <math.h>

#include "bothways/glaser.h"
#include "exposure.h"
#include "fail.h"

void bw_year_no_rain(bw_year *year)
{
    for (int i = 0; i < BW_YEAR_HOURS; i++)
        year->hour[i].rain = year->hour[i].rain_leak = 0;
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
    const double leak = options->rain_leak > 0 ? fmin(options->rain_leak, 1)
                        : assembly->rain_leak.given
                            ? assembly->rain_leak.fraction
                            : 0;
    BW_TRY(bw_side_hours(year, assembly, climate, leak, options->allow_missing,
                         err));
    if (!options->no_air_leakage)
        add_air_flow(year, assembly);
    join_hours(year);
    year->redistribution = options->redistribution == BW_REDISTRIBUTION_RULE;
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
