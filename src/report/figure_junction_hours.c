/* The places of a junction that have a name through the last simulated year, in
 * means of five days: humidity and temperature, and the moisture of wood where
 * there is some. */

#include <math.h>

#include "names.h"
#include "part.h"
#include "plot.h"

enum { OCTOBER = 9 }; /* 0..11, with which the year begins */

typedef struct course {
    double x[BW_SPANS], y[BW_SPANS];
    double low, high;
} course;

static void take(course *c, const double value[BW_SPANS], double factor)
{
    c->low = HUGE_VAL;
    c->high = -HUGE_VAL;
    for (size_t i = 0; i < BW_SPANS; i++) {
        c->x[i] = bw_year_place(OCTOBER, ((double)i + 0.5) / BW_SPANS);
        c->y[i] = factor * value[i];
        c->low = fmin(c->low, c->y[i]);
        c->high = fmax(c->high, c->y[i]);
    }
}

static void start(bw_page *page, const char *chart, const bw_hour_spot *s,
                  const course *c)
{
    bw_figure_start(page, chart, "junction", "transient");
    bw_tag_set(bw_page_markup(page), "data-position", s->name);
    bw_tag_set_number(bw_page_markup(page), "data-lowest", c->low, 9);
    bw_tag_set_number(bw_page_markup(page), "data-highest", c->high, 9);
}

static void draw_humidity(bw_page *page, const bw_hour_spot *s)
{
    course c;
    bw_chart chart;
    take(&c, s->phi, 100.0);
    start(page, "humidity", s, &c);
    bw_figure_chart(page, &chart, 360, 148,
                    bw_phrase(page, "Relative humidity, %s", s->name),
                    "Over the last simulated year, between %.0f and %.0f "
                    "percent.",
                    c.low, c.high);
    bw_year_box(&chart, 20.0, 330.0, 128.0, OCTOBER);
    bw_upright_axis(&chart, fmin(60.0, 20.0 * floor(c.low / 20.0)), 100.0, 5,
                    "RH %");
    bw_chart_line(&chart, "mean", c.x, c.y, BW_SPANS);
    bw_limit_line(&chart, 80.0, "80");
    bw_limit_line(&chart, 95.0, "95");
    bw_chart_end(&chart);
    bw_figure_end(page, "%s: humidity", bw_capital(page, s->name));
}

static void draw_temperature(bw_page *page, const bw_hour_spot *s)
{
    course c;
    bw_chart chart;
    take(&c, s->theta, 1.0);
    start(page, "temperature", s, &c);
    bw_figure_chart(page, &chart, 360, 148,
                    bw_phrase(page, "Temperature, %s", s->name),
                    "Over the last simulated year, between %.1f and %.1f "
                    "degrees.",
                    c.low, c.high);
    double low = fmin(c.low, 0.0), high = c.high;
    bw_round_range(&low, &high, 5);
    bw_year_box(&chart, 20.0, 330.0, 128.0, OCTOBER);
    bw_upright_axis(&chart, low, high, 5, "\u00b0C");
    bw_chart_line(&chart, "mean", c.x, c.y, BW_SPANS);
    bw_limit_line(&chart, 0.0, "frost");
    bw_chart_end(&chart);
    bw_figure_end(page, "%s: temperature", bw_capital(page, s->name));
}

static void draw_wood(bw_page *page, const bw_hour_spot *s, double limit)
{
    course c;
    bw_chart chart;
    take(&c, s->moisture, 100.0);
    start(page, "wood", s, &c);
    bw_figure_chart(page, &chart, 360, 148,
                    bw_phrase(page, "Moisture of the wood, %s", s->name),
                    "Over the last simulated year, between %.1f and %.1f "
                    "percent by mass.",
                    c.low, c.high);
    double low = 0.0, high = fmax(c.high, 100.0 * limit);
    bw_round_range(&low, &high, 5);
    bw_year_box(&chart, 20.0, 330.0, 128.0, OCTOBER);
    bw_upright_axis(&chart, low, high, 5, "% by mass");
    bw_chart_line(&chart, "mean", c.x, c.y, BW_SPANS);
    bw_limit_line(&chart, 100.0 * limit, "limit");
    bw_chart_end(&chart);
    bw_figure_end(page, "%s: moisture of the wood", bw_capital(page, s->name));
}

BW_DRAWN(junction_year, "Named places through the year")
{
    const bw_junction_hours *h = &of->junction->hours;
    if (!h->ran || h->spot_count == 0)
        return;
    bw_text(page,
            "The last simulated year, means of five days at the nearest "
            "face. Broken lines: 80 %%, above which mould may grow, 95 %%, "
            "frost, and the limit of wood.");
    bw_plates(page, "plates");
    bw_figure_begin(page);
    for (size_t k = 0; k < h->spot_count; k++) {
        const bw_hour_spot *s = &h->spot[k];
        draw_humidity(page, s);
        draw_temperature(page, s);
        if (s->wood >= 0)
            draw_wood(page, s, h->wood[s->wood].limit);
    }
    bw_plates_end(page);
}
