/* The section to scale, with temperature and dew point in the coldest month:
 * where the two lines touch, vapour becomes water. */

#include <math.h>

#include "bothways/air.h"
#include "part.h"
#include "plot.h"

enum { WIDTH = 360, HEIGHT = 262, STEPS = 8 };

static const double left_edge = 30.0, right_edge = 354.0, top_edge = 44.0,
                    bottom_edge = 214.0, air_width = 16.0;

typedef struct drawing {
    bw_page *page;
    const bw_assembly *assembly;
    const bw_section_assessment *section;
    bw_chart chart;
    double total;  /* m, with what lies beyond a ventilated cavity */
    double before; /* m, of it */
    int month;
} drawing;

static void measure_wall(drawing *d)
{
    const bw_section *s = d->section->section;
    d->total = d->before = 0.0;
    for (size_t i = 0; i < d->assembly->layer_count; i++) {
        d->total += d->assembly->layer[i].thickness;
        if (i < s->dropped_layers)
            d->before += d->assembly->layer[i].thickness;
    }
}

/* Place of a plane in metres from the outer face of the wall. */
static double place_of(const drawing *d, bw_plane_at at)
{
    const bw_section *s = d->section->section;
    double x = d->before;
    for (size_t i = 0; i < at.slab && i < s->slab_count; i++)
        x += s->slab[i].thickness;
    return x + at.depth;
}

typedef struct curve {
    size_t count;
    double x[BW_PLOT_POINTS], theta[BW_PLOT_POINTS], dew[BW_PLOT_POINTS];
} curve;

/* Temperature and vapour pressure are straight within a layer, the dew point
 * is not: it gets points between. */
static void fill_curve(const drawing *d, curve *out)
{
    const bw_monthly_result *run = &d->section->run[BW_RUN_DESIGN].result;
    out->count = 0;
    for (size_t i = 0; i < run->plane_count; i++) {
        const bw_plane_month *m = &run->plane[i].month[d->month];
        double x = place_of(d, run->plane[i].at);
        size_t steps = i == 0 ? 1 : STEPS;
        double x0 = i > 0 ? out->x[out->count - 1] : x;
        const bw_plane_month *m0 = i > 0 ? &run->plane[i - 1].month[d->month]
                                         : m;
        for (size_t k = 1; k <= steps && out->count < BW_PLOT_POINTS; k++) {
            double share = (double)k / (double)steps;
            double p = m0->vapour_pressure +
                       share * (m->vapour_pressure - m0->vapour_pressure);
            out->x[out->count] = x0 + share * (x - x0);
            out->theta[out->count] = m0->theta + share * (m->theta - m0->theta);
            out->dew[out->count] = bw_dew_point(p);
            out->count++;
        }
    }
}

static void temperature_range(drawing *d, const curve *line)
{
    const bw_boundary *b = &d->section->boundary[d->month];
    double low = fmin(b->theta_e, b->theta_i),
           high = fmax(b->theta_e, b->theta_i);
    for (size_t i = 0; i < line->count; i++) {
        low = fmin(low, fmin(line->dew[i], line->theta[i]));
        high = fmax(high, line->theta[i]);
    }
    bw_round_range(&low, &high, 6);
    bw_chart_range_y(&d->chart, low, high);
}

/* The air on both sides, joined to the faces. */
static void draw_lines(drawing *d, const curve *line)
{
    bw_chart *c = &d->chart;
    const bw_boundary *b = &d->section->boundary[d->month];
    size_t last = line->count - 1;
    double reach = air_width / (c->x.at_to - c->x.at_from) *
                   (c->x.to - c->x.from);
    double ax[] = {line->x[0] - (d->before > 0.0 ? 0.0 : reach), line->x[0]};
    double ay[] = {b->theta_e, line->theta[0]};
    double bx[] = {line->x[last], line->x[last] + reach};
    double by[] = {line->theta[last], b->theta_i};
    bw_chart_line(c, "under", line->x, line->theta, line->count);
    bw_chart_line(c, "under", line->x, line->dew, line->count);
    bw_chart_line(c, "main", ax, ay, 2);
    bw_chart_line(c, "main", bx, by, 2);
    bw_chart_line(c, "main", line->x, line->theta, line->count);
    bw_chart_line(c, "wetdash", line->x, line->dew, line->count);
}

static void faces_data(drawing *d)
{
    const bw_monthly_result *run = &d->section->run[BW_RUN_DESIGN].result;
    double theta[BW_PLOT_FACES], p[BW_PLOT_FACES];
    size_t count = 0;
    for (size_t i = 0; i < run->plane_count && count < BW_PLOT_FACES; i++) {
        theta[count] = run->plane[i].month[d->month].theta;
        p[count++] = run->plane[i].month[d->month].vapour_pressure;
    }
    bw_figure_data(d->page, "data-temperature", theta, count);
    bw_figure_data(d->page, "data-vapour-pressure", p, count);
}

static size_t draw_drops(drawing *d)
{
    const bw_monthly_result *run = &d->section->run[BW_RUN_DESIGN].result;
    size_t drops = 0;
    for (size_t i = 0; i < run->plane_count; i++) {
        const bw_plane_month *m = &run->plane[i].month[d->month];
        if (!bw_is_wet(m))
            continue;
        bw_chart_mark(&d->chart, BW_SHAPE_DROP, "drop",
                      place_of(d, run->plane[i].at), m->theta);
        drops++;
    }
    return drops;
}

static void draw_axes(drawing *d)
{
    bw_chart *c = &d->chart;
    bw_page *page = d->page;
    const bw_boundary *b = &d->section->boundary[d->month];
    bw_ticks y = bw_ticks_make(c->y.from, c->y.to, 6);
    bw_chart_axis_y(c, &y, "\u00b0C");
    bw_depth_axis(c);
    bw_chart_text(c, "soft", c->left - 26.0, c->bottom + 41.0, BW_START,
                  bw_phrase(page, "outside %.1f \u00b0C", b->theta_e));
    bw_chart_text(c, "soft", c->right + 16.0, c->bottom + 41.0, BW_END,
                  bw_phrase(page, "room %.1f \u00b0C", b->theta_i));
}

static void draw_section(bw_page *page, const bw_assessment *assessment,
                         const bw_section_assessment *section)
{
    drawing d = {.page = page,
                 .assembly = assessment->assembly,
                 .section = section,
                 .month = bw_coldest_month(section)};
    curve *line = BW_NEW(&page->arena, curve, 1);
    if (line == NULL)
        return;
    const char *name = bw_section_title(page, section->section->name);
    const char *month = bw_month_name(d.month);
    measure_wall(&d);
    fill_curve(&d, line);
    if (line->count < 2 || !(d.total > 0.0))
        return;
    bw_figure_start(page, "section", section->section->name, "design");
    bw_tag_set_number(bw_page_markup(page), "data-month", d.month + 1.0, 3);
    faces_data(&d);
    bw_figure_chart(
        page, &d.chart, WIDTH, HEIGHT,
        bw_phrase(page, "Section to scale, %s, %s", name, month),
        "Temperature from %.1f degrees outside to %.1f degrees in the "
        "room, and dew point, through %zu layers, %.0f mm in all.",
        section->boundary[d.month].theta_e, section->boundary[d.month].theta_i,
        d.assembly->layer_count, 1e3 * d.total);
    bw_chart_box(&d.chart, left_edge + air_width, top_edge,
                 right_edge - air_width, bottom_edge);
    bw_chart_range_x(&d.chart, 0.0, d.total);
    temperature_range(&d, line);
    bw_layers_drawn(page, &d.chart, d.assembly, section->section);
    draw_axes(&d);
    draw_lines(&d, line);
    size_t drops = draw_drops(&d);
    bw_chart_end(&d.chart);
    bw_figure_end(page,
                  "%s, %s, as built. Solid: temperature. Dashed: dew point. %s",
                  name, month,
                  drops > 0 ? "Drops: water stands where the lines meet."
                            : "The lines do not meet: no water forms inside.");
}

/* It shows the method that does not decide where there is a simulation. */
BW_DRAWN(drawing, "One steady month")
{
    const bw_assessment *assessment = of->wall[0];
    size_t drawn = 0;
    for (size_t i = 0; i < assessment->section_count; i++)
        drawn += bw_has_planes(&assessment->section[i]);
    if (drawn == 0)
        return;
    bw_page_begin(page);
    bw_fold(page, "Temperature and dew point in the coldest month, as if it "
                  "never changed: the monthly method, without rain, storage "
                  "or hours");
    bw_plates(page, "plates");
    for (size_t i = 0; i < assessment->section_count; i++)
        if (bw_has_planes(&assessment->section[i]))
            draw_section(page, assessment, &assessment->section[i]);
    bw_plates_end(page);
    bw_fold_end(page);
}
