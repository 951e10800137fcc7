/* The section to scale, with temperature and dew point in the coldest month:
 * where the two lines touch, vapour becomes water. */

#include <math.h>
#include <string.h>

#include "bothways/air.h"
#include "html.h"
#include "html_plot.h"
#include "names.h"

enum { WIDTH = 360, HEIGHT = 262, STEPS = 8 };

static const double left_edge = 30.0, right_edge = 354.0, top_edge = 44.0,
                    bottom_edge = 214.0, air_width = 16.0;

/* ---- hatches ----------------------------------------------------------- */

typedef struct hatch {
    const char *name;
    double width, height;
    const char *class_name, *path;
} hatch;

static const hatch hatches[] = {
    /* waves for what is soft, dots for plaster, grain for wood ... */
    {"insulation", 14, 10, "h", "M0 0c7 1 7 9 14 10M0 10c7-1 7-9 14-10"},
    {"board", 5, 5, "h", "M1 2.5h3M2.5 1v3"},
    {"panel", 6, 6, "h", "M0 1.5h3M3 4.5h3"},
    {"wood", 12, 9, "h", "M0 1.5c4 2 8-2 12 0M0 4.5h12M0 7.5c4-2 8 2 12 0"},
    {"masonry", 8, 8, "h", "M-2 2l4-4M0 8l8-8M6 10l4-4"},
    {"plaster", 6, 6, "h f",
     "M1 1h.9v.9h-.9zM4 2.6h.9v.9h-.9zM2 4.4h.9v.9h-.9z"},
    {"loss", 4, 4, "h w", "M-1 1l2-2M0 4l4-4M3 5l2-2"},
    {"bad", 4, 4, "h b", "M-1 3l2 2M0 0l4 4M3-1l2 2"},
};

void bw_html_hatches(bw_html *html)
{
    bw_markup *out = &html->out;
    bw_tag_open(out, "svg", "defs");
    bw_tag_set(out, "xmlns", "http://www.w3.org/2000/svg");
    bw_tag_set(out, "aria-hidden", "true");
    bw_tag_open(out, "defs", NULL);
    for (size_t i = 0; i < sizeof hatches / sizeof hatches[0]; i++) {
        const hatch *h = &hatches[i];
        bw_tag_open(out, "pattern", NULL);
        bw_tag_set(out, "id", bw_phrase(&html->page, "hatch-%s", h->name));
        bw_tag_set_number(out, "width", h->width, 4);
        bw_tag_set_number(out, "height", h->height, 4);
        bw_tag_set(out, "patternUnits", "userSpaceOnUse");
        bw_tag_open(out, "path", h->class_name);
        bw_tag_set(out, "d", h->path);
        bw_tag_close_short(out);
        bw_tag_close(out);
    }
    bw_tag_close(out);
    bw_tag_close(out);
}

const char *bw_hatch_name(const bw_material *material)
{
    static const char *const names[] = {"insulation", "wood",     "masonry",
                                        "plaster",    "membrane", "air"};
    if (material == NULL)
        return "hatch-air";
    if (material->wood_kind == BW_SOLID_WOOD)
        return "hatch-wood";
    if (material->wood_kind != BW_NOT_WOOD)
        return "hatch-panel";
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (strcmp(material->group, names[i]) == 0)
            return i == 0   ? "hatch-insulation"
                   : i == 1 ? "hatch-wood"
                   : i == 2 ? "hatch-masonry"
                   : i == 3 ? "hatch-plaster"
                   : i == 4 ? "hatch-membrane"
                            : "hatch-air";
    return "hatch-board";
}

/* ---- the wall on paper ------------------------------------------------- */

typedef struct drawing {
    bw_html *html;
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

static const bw_material *material_of(const drawing *d, size_t layer)
{
    const bw_section *s = d->section->section;
    for (size_t i = 0; i < s->slab_count; i++)
        if (s->slab[i].layer == layer)
            return s->slab[i].kind == BW_LAYER_CAVITY ? NULL
                                                      : s->slab[i].material;
    return d->assembly->layer[layer].kind == BW_LAYER_CAVITY
               ? NULL
               : d->assembly->layer[layer].material;
}

static void draw_layers(drawing *d)
{
    bw_chart *c = &d->chart;
    double at = 0.0, height = c->bottom - c->top;
    double place[BW_PLOT_FACES], label[BW_PLOT_FACES];
    size_t count = 0;
    for (size_t i = 0; i < d->assembly->layer_count; i++) {
        const bw_layer *layer = &d->assembly->layer[i];
        double x1 = bw_chart_x(c, at),
               x2 = bw_chart_x(c, at + layer->thickness);
        at += layer->thickness;
        /* A film has no thickness on paper: it is drawn as a stroke. */
        bool thin = x2 - x1 < 1.2;
        const char *name = thin ? "hatch-membrane"
                                : bw_hatch_name(material_of(d, i));
        bw_chart_rect(
            c, thin ? name : bw_phrase(&d->html->page, "%s hatch-edge", name),
            thin ? 0.5 * (x1 + x2) - 0.8 : x1, c->top, thin ? 1.6 : x2 - x1,
            height);
        if (count < BW_PLOT_FACES) {
            place[count] = label[count] = 0.5 * (x1 + x2);
            count++;
        }
    }
    bw_spread(label, count, 11.5, c->left, c->right);
    for (size_t i = 0; i < count; i++) {
        bw_chart_stroke(c, "face", label[i], c->top - 12.0, place[i], c->top);
        bw_chart_text(c, "num", label[i], c->top - 15.0, BW_MIDDLE,
                      bw_phrase(&d->html->page, "%zu", i + 1));
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
    const bw_monthly_result *run = &d->section->design;
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
    const bw_monthly_result *run = &d->section->design;
    double theta[BW_PLOT_FACES], p[BW_PLOT_FACES];
    size_t count = 0;
    for (size_t i = 0; i < run->plane_count && count < BW_PLOT_FACES; i++) {
        theta[count] = run->plane[i].month[d->month].theta;
        p[count++] = run->plane[i].month[d->month].vapour_pressure;
    }
    bw_tag_set_numbers(&d->html->out, "data-temperature", theta, count);
    bw_tag_set_numbers(&d->html->out, "data-vapour-pressure", p, count);
}

static size_t draw_drops(drawing *d)
{
    const bw_monthly_result *run = &d->section->design;
    size_t drops = 0;
    for (size_t i = 0; i < run->plane_count; i++) {
        const bw_plane_month *m = &run->plane[i].month[d->month];
        if (m->accumulated <= 0.0 && m->condensation <= 0.0)
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
    bw_page *page = &d->html->page;
    const bw_boundary *b = &d->section->boundary[d->month];
    bw_ticks y = bw_ticks_make(c->y.from, c->y.to, 6);
    bw_scale mm = c->x;
    mm.from *= 1e3;
    mm.to *= 1e3;
    bw_scale metres = c->x;
    bw_ticks x = bw_ticks_make(mm.from, mm.to, 6);
    bw_chart_axis_y(c, &y, "\u00b0C");
    c->x = mm;
    bw_chart_axis_x(c, &x, "mm from the outer face");
    c->x = metres;
    bw_chart_text(
        c, "soft", c->left - 26.0, c->bottom + 41.0, BW_START,
        bw_phrase(page, "outside %s \u00b0C", bw_fixed(page, b->theta_e, 1)));
    bw_chart_text(
        c, "soft", c->right + 16.0, c->bottom + 41.0, BW_END,
        bw_phrase(page, "room %s \u00b0C", bw_fixed(page, b->theta_i, 1)));
}

static void draw_section(bw_html *html, const bw_assessment *assessment,
                         const bw_section_assessment *section)
{
    bw_page *page = &html->page;
    drawing d = {.html = html,
                 .assembly = assessment->assembly,
                 .section = section,
                 .month = bw_coldest_month(section)};
    curve *line = BW_NEW(&page->arena, curve, 1);
    if (line == NULL) {
        page->no_memory = true;
        return;
    }
    const char *name = bw_html_section_name(html, section->section->name);
    const char *month = bw_month_name(d.month);
    measure_wall(&d);
    fill_curve(&d, line);
    if (line->count < 2 || !(d.total > 0.0))
        return;
    bw_html_figure(html, "section", section->section->name, "design");
    bw_tag_set_number(&html->out, "data-month", d.month + 1.0, 3);
    faces_data(&d);
    bw_chart_start(
        &d.chart, &html->out, WIDTH, HEIGHT,
        bw_phrase(page, "Section to scale, %s, %s", name, month),
        bw_phrase(page,
                  "Temperature from %s degrees outside to %s degrees in the "
                  "room, and dew point, through %zu layers, %s mm in all.",
                  bw_fixed(page, section->boundary[d.month].theta_e, 1),
                  bw_fixed(page, section->boundary[d.month].theta_i, 1),
                  d.assembly->layer_count, bw_fixed(page, 1e3 * d.total, 0)));
    bw_chart_box(&d.chart, left_edge + air_width, top_edge,
                 right_edge - air_width, bottom_edge);
    bw_chart_range_x(&d.chart, 0.0, d.total);
    temperature_range(&d, line);
    draw_layers(&d);
    draw_axes(&d);
    draw_lines(&d, line);
    size_t drops = draw_drops(&d);
    bw_chart_end(&d.chart);
    bw_html_figure_end(
        html,
        bw_phrase(page,
                  "%s, %s, as built. Solid: temperature. Dashed: dew point. %s",
                  name, month,
                  drops > 0 ? "Drops: water stands where the lines meet."
                            : "The lines do not meet: no water forms inside."));
}

static void put_key(bw_html *html, const bw_assembly *assembly)
{
    bw_markup *out = &html->out;
    bw_page *page = &html->page;
    bw_tag_open(out, "ol", "key");
    for (size_t i = 0; i < assembly->layer_count; i++) {
        const bw_layer *layer = &assembly->layer[i];
        bool thin = layer->thickness < 0.001;
        const char *lines = layer->kind == BW_LAYER_CAVITY ? "hatch-air"
                            : thin                         ? "hatch-membrane"
                                   : bw_hatch_name(layer->material);
        bw_tag_open(out, "li", NULL);
        bw_tag_whole(out, "span", "no", bw_phrase(page, "%zu", i + 1));
        bw_tag_open(out, "svg", "chart");
        bw_tag_set(out, "xmlns", "http://www.w3.org/2000/svg");
        bw_tag_set(out, "viewBox", "0 0 42 19");
        bw_tag_set(out, "aria-hidden", "true");
        bw_tag_open(out, "rect",
                    thin ? lines : bw_phrase(page, "%s hatch-edge", lines));
        bw_tag_set(out, "x", thin ? "20" : "1");
        bw_tag_set(out, "y", "1");
        bw_tag_set(out, "width", thin ? "1.6" : "40");
        bw_tag_set(out, "height", "17");
        bw_tag_close_short(out);
        bw_tag_close(out);
        bw_tag_open(out, "span", NULL);
        bw_html_text(html, layer->name);
        if (layer->thickness > 0.0) {
            bw_tag_text(out, " ");
            bw_tag_whole(
                out, "span", "mm",
                bw_phrase(page, "%s mm",
                          bw_significant(page, layer->thickness * 1e3, 4)));
        }
        bw_tag_close(out);
        bw_tag_close(out);
    }
    bw_tag_close(out);
}

void bw_html_drawing(bw_html *html, const bw_assessment *assessment)
{
    bool any = false;
    for (size_t i = 0; i < assessment->section_count; i++)
        any = any || bw_has_planes(&assessment->section[i]);
    bw_page_heading(&html->page, "The wall, drawn to scale");
    bw_html_plates(html, "plates");
    for (size_t i = 0; any && i < assessment->section_count; i++)
        if (bw_has_planes(&assessment->section[i]))
            draw_section(html, assessment, &assessment->section[i]);
    put_key(html, assessment->assembly);
    bw_html_plates_end(html);
}
