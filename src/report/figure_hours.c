/* The simulation's last year by the hour, as a band from the least to the most
 * of each day: humidity and temperature at the place that decides, humidity at
 * all others. Without hours the monthly means stand for the days. */

#include <math.h>

#include "names.h"
#include "part.h"
#include "plot.h"
#include "spot.h"

/* Days of a column in the drawings of all places: many, and kept small. */
enum { DAYS_EACH = BW_SPAN_HOURS / 24 };

typedef struct days {
    size_t each; /* days a column */
    size_t count;
    double hour[BW_TRANSIENT_HOURS];
    double x[BW_TRANSIENT_DAYS], low[BW_TRANSIENT_DAYS],
        high[BW_TRANSIENT_DAYS], mean[BW_TRANSIENT_DAYS];
} days;

typedef enum field { HUMIDITY, TEMPERATURE } field; /* in %, in degC */

static int first_month(const bw_transient_result *run)
{
    return run->last_hours != NULL && run->first_month >= 0
               ? run->first_month % BW_MONTHS
               : 0;
}

static void fill_days(days *d, const bw_transient_result *run, size_t monitor,
                      field which)
{
    d->count = BW_TRANSIENT_DAYS / d->each;
    for (size_t h = 0; h < BW_TRANSIENT_HOURS; h++) {
        const bw_monitor_hour *row =
            &run->last_hours[h * run->monitor_count + monitor];
        d->hour[h] = which == HUMIDITY ? 100.0 * (double)row->phi
                                       : (double)row->theta;
    }
    bw_columns_of(d->hour, 1, BW_TRANSIENT_HOURS, d->count, d->low, d->high,
                  d->mean);
    for (size_t i = 0; i < d->count; i++)
        d->x[i] = bw_year_place(first_month(run),
                                ((double)i + 0.5) / (double)d->count);
}

/* Monthly values as steps over the calendar year, times a factor. */
static void month_steps(days *d, const double month[BW_MONTHS], double factor)
{
    d->count = 2 * (size_t)BW_MONTHS;
    for (size_t k = 0; k < BW_MONTHS; k++) {
        d->x[2 * k] = (double)k;
        d->x[2 * k + 1] = (double)k + 1.0;
        for (size_t i = 2 * k; i < 2 * k + 2; i++)
            d->low[i] = d->high[i] = d->mean[i] = factor * month[k];
    }
}

typedef struct range {
    double low, high;
} range;

static range take(days *d, const bw_transient_result *run, size_t monitor,
                  field which)
{
    const bw_monitor *m = &run->monitor[monitor];
    if (run->last_hours != NULL)
        fill_days(d, run, monitor, which);
    else if (which == HUMIDITY)
        month_steps(d, m->month_rh, 100.0);
    else
        month_steps(d, m->month_theta, 1.0);
    range r = {d->low[0], d->high[0]};
    for (size_t i = 0; i < d->count; i++) {
        r.low = fmin(r.low, d->low[i]);
        r.high = fmax(r.high, d->high[i]);
    }
    return r;
}

static void start_figure(bw_page *page, const char *chart,
                         const bw_section_assessment *s, const char *place,
                         range r)
{
    bw_figure_start(page, chart, s->section->name, "transient");
    bw_tag_set(bw_page_markup(page), "data-position", place);
    bw_tag_set_number(bw_page_markup(page), "data-lowest", r.low, 9);
    bw_tag_set_number(bw_page_markup(page), "data-highest", r.high, 9);
}

static void draw_days(bw_chart *c, const bw_transient_result *run,
                      const days *d)
{
    if (run->last_hours != NULL)
        bw_chart_band(c, "band", d->x, d->low, d->high, d->count);
    bw_chart_line(c, "mean", d->x, d->mean, d->count);
}

static void draw_humidity(bw_page *page, const bw_section_assessment *s,
                          size_t monitor, days *d)
{
    const bw_transient_result *run = &s->transient;
    const range r = take(d, run, monitor, HUMIDITY);
    const char *place = bw_monitor_text(page, run, monitor);
    bw_chart c;
    start_figure(page, "humidity", s, place, r);
    bw_figure_chart(page, &c, 360, 148,
                    bw_phrase(page, "Relative humidity, %s", place),
                    "Over the last simulated year, between %.0f and "
                    "%.0f percent; %.0f hours over 80 percent, %.0f over 95.",
                    r.low, r.high, run->monitor[monitor].hours_above_80,
                    run->monitor[monitor].hours_above_95);
    bw_year_box(&c, 20.0, 330.0, 128.0, first_month(run));
    bw_upright_axis(&c, fmin(60.0, 20.0 * floor(r.low / 20.0)), 100.0, 5,
                    "RH %");
    draw_days(&c, run, d);
    bw_limit_line(&c, 80.0, "80");
    bw_limit_line(&c, 95.0, "95");
    bw_chart_end(&c);
    bw_figure_end(page, "%s", bw_capital(page, place));
}

static void draw_temperature(bw_page *page, const bw_section_assessment *s,
                             size_t monitor, days *d)
{
    const bw_transient_result *run = &s->transient;
    range r = take(d, run, monitor, TEMPERATURE);
    const char *place = bw_monitor_text(page, run, monitor);
    bw_chart c;
    start_figure(page, "temperature", s, place, r);
    bw_figure_chart(page, &c, 360, 148,
                    bw_phrase(page, "Temperature, %s", place),
                    "Over the last simulated year, between %.1f and "
                    "%.1f degrees.",
                    r.low, r.high);
    r.low = fmin(r.low, 0.0);
    bw_round_range(&r.low, &r.high, 5);
    bw_year_box(&c, 20.0, 330.0, 128.0, first_month(run));
    bw_upright_axis(&c, r.low, r.high, 5, "\u00b0C");
    draw_days(&c, run, d);
    bw_limit_line(&c, 0.0, "frost");
    bw_chart_end(&c);
    bw_figure_end(page, "%s", bw_capital(page, place));
}

static days *make_days(bw_page *page, size_t each)
{
    days *d = BW_NEW(&page->arena, days, 1);
    if (d != NULL)
        d->each = each;
    return d;
}

BW_DRAWN(place, "Humidity and temperature where it decides")
{
    bw_spot spot;
    days *d = make_days(page, 1);
    if (d == NULL || !bw_spot_find(&spot, of->wall[0]))
        return;
    bw_text(page, "%s%s",
            spot.part->transient.last_hours != NULL
                ? "The last simulated year. Band: from the least to the most "
                  "of each day, by the hour; line in it: the mean of the day. "
                : "Monthly means of the last simulated year. ",
            "Broken lines: 80 %, above which mould may grow, 95 %, near which "
            "a hidden face is to be inspected, and frost.");
    bw_plates(page, "plates");
    bw_figure_begin(page);
    draw_humidity(page, spot.part, spot.monitor, d);
    draw_temperature(page, spot.part, spot.monitor, d);
    bw_plates_end(page);
}

static bool has_places(const bw_section_assessment *part)
{
    return part->has_transient && part->transient.monitor_count > 0;
}

BW_DRAWN(hours, "Humidity at all places")
{
    const bw_assessment *assessment = of->wall[0];
    bool any = false;
    for (size_t i = 0; i < assessment->section_count; i++)
        any = any || has_places(&assessment->section[i]);
    days *d = any ? make_days(page, DAYS_EACH) : NULL;
    if (d == NULL)
        return;
    bw_page_begin(page);
    bw_fold(page, "Band: from the least to the most of five days; line in it: "
                  "their mean");
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *s = &assessment->section[i];
        if (!has_places(s))
            continue;
        bw_subheading(page, "%s", bw_section_title(page, s->section->name));
        bw_plates(page, "plates");
        for (size_t k = 0; k < s->transient.monitor_count; k++)
            draw_humidity(page, s, k, d);
        bw_plates_end(page);
    }
    bw_fold_end(page);
}
