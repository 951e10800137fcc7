/* Vapour pressure and saturation against the cumulative sd: straight lines
 * where vapour flows steadily. A layer that would fill the whole width is
 * drawn shorter, and says so; the lines in it stay straight. */

#include <math.h>

#include "bothways/air.h"
#include "part.h"
#include "plot.h"

enum { STEPS = 6 };

/* A layer with more than `dominates` times the sd of all smaller ones is drawn
 * as wide as those together; at most `MOST_SHORTENED` layers are. */
enum { MOST_SHORTENED = 2 };
static const double dominates = 4.0;

typedef struct plot {
    bw_page *page;
    const bw_section_assessment *section;
    bw_chart chart;
    size_t count;               /* planes */
    size_t slab[BW_PLOT_FACES]; /* between plane i - 1 and i */
    double at[BW_PLOT_FACES];   /* sd as drawn */
    size_t shortened;           /* slabs drawn shorter */
    size_t short_slab[MOST_SHORTENED];
    double factor[MOST_SHORTENED];
    double highest; /* Pa, over all months */
    bool small;
} plot;

/* ---- places ------------------------------------------------------------ */

static size_t slab_inside(bw_plane_at at)
{
    return at.slab; /* the slab on the outer side, or the one it lies in */
}

static double month_sd(const plot *p, size_t slab, int month)
{
    return p->section->run[BW_RUN_DESIGN].result.layer_sd[slab][month];
}

static double mean_sd(const plot *p, size_t slab)
{
    double sum = 0.0;
    for (int m = 0; m < BW_MONTHS; m++)
        sum += month_sd(p, slab, m);
    return sum / BW_MONTHS;
}

/* What all slabs narrower than this one have together. */
static double narrower(const plot *p, size_t slab)
{
    double sum = 0.0, own = mean_sd(p, slab);
    for (size_t j = 0; j < p->section->run[BW_RUN_DESIGN].result.slab_count;
         j++) {
        double other = mean_sd(p, j);
        bool counts = other < own || (other <= own && j > slab);
        sum += j != slab && counts ? other : 0.0;
    }
    return sum;
}

static size_t wider(const plot *p, size_t slab)
{
    size_t count = 0;
    double own = mean_sd(p, slab);
    for (size_t j = 0; j < p->section->run[BW_RUN_DESIGN].result.slab_count;
         j++) {
        double other = mean_sd(p, j);
        count += other > own || (other >= own && j < slab);
    }
    return count;
}

/* The narrowest of the widest slabs that dwarfs all below it decides: it and
 * those wider than it are drawn as wide as all below together. */
static void find_shortened(plot *p)
{
    const bw_monthly_result *run = &p->section->run[BW_RUN_DESIGN].result;
    double rest = 0.0;
    size_t ranks = 0;
    for (size_t k = 0; k < run->slab_count; k++) {
        size_t rank = wider(p, k);
        double below = narrower(p, k);
        if (rank < MOST_SHORTENED && below > 0.0 &&
            mean_sd(p, k) > dominates * below && rank + 1 > ranks) {
            ranks = rank + 1;
            rest = below;
        }
    }
    p->shortened = 0;
    for (size_t k = 0; k < run->slab_count && ranks > 0; k++)
        if (wider(p, k) < ranks && p->shortened < MOST_SHORTENED) {
            p->short_slab[p->shortened] = k;
            p->factor[p->shortened++] = rest / mean_sd(p, k);
        }
}

static void place_planes(plot *p, int month)
{
    const bw_monthly_result *run = &p->section->run[BW_RUN_DESIGN].result;
    p->count = run->plane_count;
    for (size_t i = 0; i < p->count; i++) {
        double sd = run->plane[i].month[month].sd_from_outside;
        p->slab[i] = slab_inside(run->plane[i].at);
        if (i == 0) {
            p->at[i] = sd;
            continue;
        }
        double step = sd - run->plane[i - 1].month[month].sd_from_outside;
        for (size_t k = 0; k < p->shortened; k++)
            step *= p->slab[i] == p->short_slab[k] ? p->factor[k] : 1.0;
        p->at[i] = p->at[i - 1] + step;
    }
}

static double widest(plot *p)
{
    double most = 0.0;
    for (int m = 0; m < BW_MONTHS; m++) {
        place_planes(p, m);
        most = fmax(most, p->at[p->count - 1]);
    }
    return most;
}

static double highest_pressure(const plot *p)
{
    const bw_monthly_result *run = &p->section->run[BW_RUN_DESIGN].result;
    double most = 0.0;
    for (int m = 0; m < BW_MONTHS; m++)
        for (size_t i = 0; i < run->plane_count; i++) {
            const bw_plane_month *at = &run->plane[i].month[m];
            most = fmax(most,
                        fmax(at->saturation_pressure, at->vapour_pressure));
        }
    return most;
}

/* ---- one month --------------------------------------------------------- */

static void data_of(plot *p, int month)
{
    const bw_monthly_result *run = &p->section->run[BW_RUN_DESIGN].result;
    double sd[BW_PLOT_FACES], pressure[BW_PLOT_FACES],
        saturation[BW_PLOT_FACES];
    bw_markup *out = bw_page_markup(p->page);
    for (size_t i = 0; i < p->count; i++) {
        const bw_plane_month *m = &run->plane[i].month[month];
        sd[i] = m->sd_from_outside;
        pressure[i] = m->vapour_pressure;
        saturation[i] = m->saturation_pressure;
    }
    bw_tag_set_number(out, "data-month", month + 1.0, 3);
    if (p->small)
        return; /* the table of the month says them */
    bw_tag_set_numbers(out, "data-sd", sd, p->count);
    bw_tag_set_numbers(out, "data-vapour-pressure", pressure, p->count);
    bw_tag_set_numbers(out, "data-saturation-pressure", saturation, p->count);
}

static void draw_faces(plot *p)
{
    bw_chart *c = &p->chart;
    const bw_section *s = p->section->section;
    double place[BW_PLOT_FACES];
    size_t number[BW_PLOT_FACES], count = 0;
    double from = p->at[0];
    for (size_t i = 1; i < p->count; i++) {
        bool face = i + 1 == p->count || p->slab[i + 1] != p->slab[i];
        if (!face)
            continue;
        double x = bw_chart_x(c, p->at[i]);
        bw_chart_stroke(c, "face", x, c->top, x, c->bottom);
        place[count] = 0.5 * (x + bw_chart_x(c, from));
        number[count++] = s->slab[p->slab[i]].layer + 1;
        from = p->at[i];
    }
    if (!p->small)
        bw_number_layers(p->page, c, place, number, count);
}

/* Saturation bends within a layer, as the temperature there is straight. */
static void saturation_line(plot *p, int month, const char *class_name)
{
    const bw_monthly_result *run = &p->section->run[BW_RUN_DESIGN].result;
    bw_path *path = &p->chart.path;
    for (size_t i = 0; i < p->count; i++) {
        const bw_plane_month *m = &run->plane[i].month[month];
        double x = bw_chart_x(&p->chart, p->at[i]);
        if (i == 0) {
            bw_path_move(path, x,
                         bw_chart_y(&p->chart, m->saturation_pressure));
            continue;
        }
        const bw_plane_month *m0 = &run->plane[i - 1].month[month];
        double x0 = bw_chart_x(&p->chart, p->at[i - 1]);
        bool bends = fabs(m->theta - m0->theta) > 1.0 && x - x0 > 3.0;
        for (int k = 1; bends && k < STEPS; k++) {
            double share = (double)k / STEPS;
            double theta = m0->theta + share * (m->theta - m0->theta);
            bw_path_line(path, x0 + share * (x - x0),
                         bw_chart_y(&p->chart, bw_saturation_pressure(theta)));
        }
        bw_path_line(path, x, bw_chart_y(&p->chart, m->saturation_pressure));
    }
    bw_chart_path(&p->chart, class_name);
    bw_chart_path_end(&p->chart);
}

static void pressure_line(plot *p, int month, const char *class_name)
{
    const bw_monthly_result *run = &p->section->run[BW_RUN_DESIGN].result;
    double y[BW_PLOT_FACES];
    for (size_t i = 0; i < p->count; i++)
        y[i] = run->plane[i].month[month].vapour_pressure;
    bw_chart_line(&p->chart, class_name, p->at, y, p->count);
}

/* A shortened layer: two short strokes through the axis, and its sd. */
static void draw_break(plot *p, size_t slab, int month)
{
    bw_chart *c = &p->chart;
    double from = 0.0, to = 0.0;
    for (size_t i = 1; i < p->count; i++)
        if (p->slab[i] == slab) {
            from = to > 0.0 ? from : bw_chart_x(c, p->at[i - 1]);
            to = bw_chart_x(c, p->at[i]);
        }
    double x = 0.5 * (from + to), y = c->bottom;
    bw_chart_stroke(c, "under", x - 2.0, y, x + 2.0, y);
    bw_chart_stroke(c, "axis", x - 4.0, y + 4.0, x, y - 4.0);
    bw_chart_stroke(c, "axis", x, y + 4.0, x + 4.0, y - 4.0);
    if (!p->small)
        bw_chart_text(c, "num", x, y + 14.0, BW_MIDDLE,
                      bw_phrase(p->page, "%.3g m", month_sd(p, slab, month)));
}

static size_t draw_water(plot *p, int month)
{
    const bw_monthly_result *run = &p->section->run[BW_RUN_DESIGN].result;
    size_t wet = 0;
    for (size_t i = 0; i < p->count; i++) {
        const bw_plane_month *m = &run->plane[i].month[month];
        if (!bw_is_wet(m))
            continue;
        bw_chart_mark(&p->chart, BW_SHAPE_DROP, "drop", p->at[i],
                      m->saturation_pressure);
        wet++;
    }
    return wet;
}

static void sd_axis(plot *p)
{
    bw_chart *c = &p->chart;
    if (p->small) {
        bw_chart_stroke(c, "axis", c->left, c->bottom, c->right, c->bottom);
        return;
    }
    if (p->shortened == 0) {
        bw_ticks x = bw_ticks_make(0.0, c->x.to, 6);
        bw_chart_axis_x(c, &x, "sd from outside, m");
        return;
    }
    bw_ticks x = {.count = 1};
    bw_chart_axis_x(c, &x, "sd from outside, m; broken layers are wider");
}

static void box(plot *p, double width)
{
    bw_chart *c = &p->chart;
    double top = p->highest;
    double zero = 0.0;
    bw_round_range(&zero, &top, 5);
    if (p->small)
        bw_chart_box(c, 4.0, 16.0, 156.0, 104.0);
    else
        bw_chart_box(c, 38.0, 38.0, 352.0, 200.0);
    bw_chart_range_x(c, 0.0, width);
    bw_chart_range_y(c, 0.0, top);
    bw_ticks y = bw_ticks_make(0.0, top, p->small ? 2 : 5);
    if (p->small) {
        bw_chart_rules_y(c, &y);
        bw_chart_text(c, "tiny soft halo", c->left + 1.0,
                      bw_chart_y(c, y.value[y.count - 1]) - 2.0, BW_START,
                      bw_phrase(p->page, "%.0f Pa", y.value[y.count - 1]));
    } else {
        bw_chart_axis_y(c, &y, "Pa");
    }
}

static void draw_month(plot *p, int month, double width)
{
    bw_page *page = p->page;
    const char *section = p->section->section->name;
    const char *name = bw_section_title(page, section);
    place_planes(p, month);
    bw_figure_start(page, p->small ? "vapour-small" : "vapour", section,
                    "design");
    data_of(p, month);
    bw_figure_chart(
        page, &p->chart, p->small ? 160 : 360, p->small ? 112 : 230,
        bw_phrase(page, "Vapour pressure, %s, %s", name, bw_month_name(month)),
        "Vapour pressure and saturation pressure in pascals over the "
        "diffusion-equivalent air layer thickness, outside on the "
        "left. Outside %.0f, in the room %.0f pascals.",
        p->section->boundary[month].p_e, p->section->boundary[month].p_i);
    box(p, width);
    draw_faces(p);
    sd_axis(p);
    saturation_line(p, month, "main");
    pressure_line(p, month, "wetdash");
    for (size_t k = 0; k < p->shortened; k++)
        draw_break(p, p->short_slab[k], month);
    size_t wet = draw_water(p, month);
    if (p->small)
        bw_chart_text(&p->chart, "num", p->chart.left, 9.0, BW_START,
                      bw_phrase(page, "%s%s", bw_month_name(month),
                                wet > 0 ? ", water stands" : ""));
    bw_chart_end(&p->chart);
    bw_figure_end(
        page, "%s",
        p->small ? ""
                 : bw_phrase(page,
                             "%s, %s. Solid: the most the air there can hold. "
                             "Dashed: what is there. %s",
                             name, bw_month_name(month),
                             wet > 0 ? "Drops: water stands."
                                     : "They do not meet: no water."));
}

static bool start_plot(plot *p, bw_page *page,
                       const bw_section_assessment *section)
{
    if (!bw_has_planes(section) ||
        section->run[BW_RUN_DESIGN].result.layer_sd == NULL)
        return false;
    *p = (plot){.page = page, .section = section};
    find_shortened(p);
    p->highest = highest_pressure(p);
    return p->highest > 0.0;
}

static void draw_year(bw_page *page, const bw_section_assessment *section)
{
    plot p;
    if (!start_plot(&p, page, section))
        return;
    p.small = true;
    double width = widest(&p);
    bw_fold(page, bw_phrase(page, "All twelve months, %s",
                            bw_section_title(page, section->section->name)));
    bw_plates(page, "small");
    for (int m = 0; m < BW_MONTHS; m++)
        draw_month(&p, m, width);
    bw_plates_end(page);
    bw_fold_end(page);
}

BW_DRAWN(vapour, "Vapour pressure through the wall")
{
    plot p;
    bw_text(page, "Drawn over the sd of the layers, which are numbered as in "
                  "the section: a straight dashed line is a steady flow of "
                  "vapour, downhill.");
    bw_plates(page, "plates");
    for (size_t i = 0; i < of->wall[0]->section_count; i++) {
        const bw_section_assessment *s = &of->wall[0]->section[i];
        if (!start_plot(&p, page, s))
            continue;
        double width = widest(&p);
        draw_month(&p, bw_coldest_month(s), width);
        draw_month(&p, bw_warmest_month(s), width);
    }
    bw_plates_end(page);
    for (size_t i = 0; i < of->wall[0]->section_count; i++)
        draw_year(page, &of->wall[0]->section[i]);
}
