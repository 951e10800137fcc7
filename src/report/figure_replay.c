/* Charts of a replay: temperature and humidity at each place, measured and
 * computed, by the hour or as means of days where there are many.
 *
 * Invariant: where nothing was measured the line of what was ends. */

#include <math.h>

#include "bothways/replay.h"
#include "day.h"
#include "part.h"
#include "plot.h"

enum { DAY = 24, BY_DAYS = 45 }; /* days and more: their means */
static const double A_DAY = 86400.0;
static const double LEFT = 38.0, RIGHT = 330.0, TOP = 22.0, BOTTOM = 150.0;

typedef struct course {
    size_t count;
    double each;                     /* days a point */
    double *x, *measured, *computed; /* x in days from the first hour */
    double *difference;              /* of the hours compared */
    double low, high;
    double most; /* the largest difference, either way */
} course;

static double value_of(const bw_replay_hour *h, bool humidity, bool computed)
{
    if (humidity)
        return 100.0 * (computed ? h->rh_computed : h->rh);
    return computed ? h->theta_computed : h->theta;
}

/* The mean of hours of which most are there. */
static double mean(const bw_replay_place *place, size_t from, size_t count,
                   bool humidity, bool computed)
{
    double sum = 0.0;
    size_t n = 0;
    for (size_t h = from; h < from + count; h++) {
        const double v = value_of(&place->hour[h], humidity, computed);
        if (isnan(v))
            continue;
        sum += v;
        n++;
    }
    return 2 * n > count ? sum / (double)n : (double)NAN;
}

static double difference(const bw_replay_place *place, size_t from,
                         size_t count, bool humidity)
{
    for (size_t h = from; h < from + count; h++)
        if (!place->hour[h].compared)
            return (double)NAN;
    return mean(place, from, count, humidity, true) -
           mean(place, from, count, humidity, false);
}

static bool take(course *c, bw_page *page, const bw_replay *r,
                 const bw_replay_place *place, bool humidity)
{
    const size_t each = r->hour_count >= (size_t)BY_DAYS * DAY ? DAY : 1;
    c->count = r->hour_count / each;
    c->each = (double)each / DAY;
    c->x = BW_NEW(&page->arena, double, 4 * c->count + 1);
    c->most = 0.0;
    c->low = HUGE_VAL;
    c->high = -HUGE_VAL;
    if (c->x == NULL)
        return false;
    c->measured = c->x + c->count;
    c->computed = c->measured + c->count;
    c->difference = c->computed + c->count;
    for (size_t i = 0; i < c->count; i++) {
        c->x[i] = ((double)i + (each > 1 ? 0.5 : 0.0)) * c->each;
        c->measured[i] = mean(place, i * each, each, humidity, false);
        c->computed[i] = mean(place, i * each, each, humidity, true);
        c->difference[i] = difference(place, i * each, each, humidity);
        c->most = fmax(c->most, fabs(c->difference[i]));
        c->low = fmin(c->low, fmin(c->measured[i], c->computed[i]));
        c->high = fmax(c->high, fmax(c->measured[i], c->computed[i]));
    }
    return isfinite(c->low) && isfinite(c->high) && c->count > 1;
}

/* In pieces, where it has gaps. */
static void draw(bw_chart *chart, const char *class_name, const course *c,
                 const double *y)
{
    for (size_t i = 0; i < c->count; i++) {
        size_t end = i;
        while (end < c->count && !isnan(y[end]))
            end++;
        if (end > i + 1)
            bw_chart_line(chart, class_name, c->x + i, y + i, end - i);
        i = end;
    }
}

/* ---- the axis of time ---------------------------------------------------- */

static void tick(bw_chart *chart, double day, const char *text)
{
    const double x = bw_chart_x(chart, day);
    bw_chart_stroke(chart, "axis", x, chart->bottom, x, chart->bottom + 4.0);
    bw_chart_text(chart, "num", x, chart->bottom + 13.0, BW_MIDDLE, text);
}

/* The first of each month by its name, or every so many days. */
static void time_axis(bw_chart *chart, bw_page *page, const bw_replay *r)
{
    enum { NAMES = 12, TICKS = 6 };
    const long first = (long)floor(r->start / A_DAY);
    const double begun = r->start / A_DAY - (double)first;
    const double days = (double)(r->hour_count - 1) / DAY;
    const bool by_months = days >= BY_DAYS;
    const long every = by_months ? 1 + (long)(days / 30.5) / NAMES
                                 : 1 + (long)(days / TICKS);
    bw_chart_range_x(chart, 0.0, days);
    bw_chart_stroke(chart, "axis", chart->left, chart->bottom, chart->right,
                    chart->bottom);
    for (long d = begun > 0.0 ? 1 : 0, months = 0; (double)d - begun <= days;
         d++) {
        char text[BW_DAY_TEXT];
        bw_day_text(text, first + d);
        const int month = 10 * (text[5] - '0') + text[6] - '0' - 1;
        const bool start = text[8] == '0' && text[9] == '1';
        months += start;
        if (by_months ? start && (months - 1) % every == 0 : d % every == 0)
            tick(chart, (double)d - begun,
                 by_months ? bw_month_name(month)
                           : bw_phrase(page, "%s", text + 5));
    }
}

static void legend(bw_chart *chart)
{
    bw_chart_stroke(chart, "main", 96.0, 9.0, 116.0, 9.0);
    bw_chart_text(chart, "num", 120.0, 12.5, BW_START, "measured");
    bw_chart_stroke(chart, "wetdash", 196.0, 9.0, 216.0, 9.0);
    bw_chart_text(chart, "num", 220.0, 12.5, BW_START, "computed");
}

/* ---- charts ---------------------------------------------------------------
 */

static void tag(bw_page *page, const bw_replay_place *place, bool humidity)
{
    const bw_replay_figures *f = &place->all;
    bw_tag_set(bw_page_markup(page), "data-position", place->channel->name);
    if (isnan(humidity ? f->rh_bias : f->theta_bias))
        return;
    bw_tag_set_number(bw_page_markup(page), "data-bias",
                      humidity ? 100.0 * f->rh_bias : f->theta_bias, 9);
    bw_tag_set_number(bw_page_markup(page), "data-rms",
                      humidity ? 100.0 * f->rh_rms : f->theta_rms, 9);
}

static void draw_course(bw_page *page, const bw_replay *r,
                        const bw_replay_place *place, bool humidity)
{
    const char *what = humidity ? "Relative humidity" : "Temperature";
    course c;
    bw_chart chart;
    if (!(humidity ? place->channel->has_humidity
                   : place->channel->has_temperature) ||
        !take(&c, page, r, place, humidity))
        return;
    bw_figure_start(page, humidity ? "replay-humidity" : "replay-temperature",
                    place->section, "replay");
    tag(page, place, humidity);
    bw_figure_chart(page, &chart, 360, 180,
                    bw_phrase(page, "%s %s", what, place->words),
                    "Measured and computed, %s, between %.0f and %.0f %s.",
                    c.each < 1.0 ? "by the hour" : "means of days", c.low,
                    c.high, humidity ? "percent" : "degrees");
    bw_round_range(&c.low, &c.high, 5);
    bw_chart_box(&chart, LEFT, TOP, RIGHT, BOTTOM);
    time_axis(&chart, page, r);
    bw_upright_axis(&chart, c.low, c.high, 5, humidity ? "RH %" : "\u00b0C");
    const double run_in = (double)r->run_in / DAY;
    if (r->run_in < r->hour_count)
        bw_chart_stroke(&chart, "limit", bw_chart_x(&chart, run_in), TOP,
                        bw_chart_x(&chart, run_in), BOTTOM);
    draw(&chart, "main", &c, c.measured);
    draw(&chart, "wetdash", &c, c.computed);
    legend(&chart);
    bw_chart_end(&chart);
    bw_figure_end(page, "%s %s", what, place->words);
}

/* With what such loggers tell, on both sides of none. */
static void draw_difference(bw_page *page, const bw_replay *r,
                            const bw_replay_place *place, bool humidity)
{
    static const double TELL[2] = {0.5, 3.0};
    const char *what = humidity ? "Relative humidity" : "Temperature";
    course c;
    bw_chart chart;
    if (!r->assessed ||
        !(humidity ? place->channel->has_humidity
                   : place->channel->has_temperature) ||
        !take(&c, page, r, place, humidity))
        return;
    double high = fmax(c.most, 2.0 * TELL[humidity]), zero = 0.0;
    bw_round_range(&zero, &high, 3);
    bw_figure_start(page, "replay-difference", place->section, "replay");
    tag(page, place, humidity);
    bw_figure_chart(page, &chart, 360, 130,
                    bw_phrase(page, "%s, computed less measured", what),
                    "At most %.1f %s either way.", c.most,
                    humidity ? "percent" : "kelvin");
    bw_chart_box(&chart, LEFT, 14.0, RIGHT, 104.0);
    time_axis(&chart, page, r);
    bw_upright_axis(&chart, -high, high, 6, humidity ? "RH %" : "K");
    bw_limit_line(&chart, TELL[humidity], humidity ? "+3" : "+0.5");
    bw_limit_line(&chart, -TELL[humidity], humidity ? "-3" : "-0.5");
    draw(&chart, "main", &c, c.difference);
    bw_chart_end(&chart);
    bw_figure_end(page, "%s, computed less measured", what);
}

BW_DRAWN(replay_drawn, "Measured and computed")
{
    const bw_replay *r = of->replay;
    if (r->place_count == 0)
        return;
    bw_text(page,
            "%s Left of the upright line: the run-in, not compared. Broken "
            "lines: what such loggers tell.",
            r->hour_count >= (size_t)BY_DAYS * DAY
                ? "Means of days (UTC blocks of 24 hours)."
                : "By the hour, UTC.");
    bw_plates(page, "plates");
    for (size_t p = 0; p < r->place_count; p++) {
        draw_course(page, r, &r->place[p], false);
        draw_course(page, r, &r->place[p], true);
        draw_difference(page, r, &r->place[p], false);
        draw_difference(page, r, &r->place[p], true);
    }
    bw_plates_end(page);
}
