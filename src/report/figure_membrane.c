/* A humidity-variable layer: its sd over the mean humidity of its two faces,
 * and where on that curve it stood in each month. */

#include <math.h>

#include "part.h"
#include "plot.h"

enum { CURVE_POINTS = 61, MARKS = BW_MONTHS };

/* Mean humidity of the two faces of a slab; false where a face is not among
 * the planes. */
static bool mean_humidity(const bw_monthly_result *run, size_t slab,
                          double out[BW_MONTHS])
{
    const bw_plane *outer = NULL, *inner = NULL;
    for (size_t i = 0; i < run->plane_count; i++) {
        const bw_plane *p = &run->plane[i];
        if (p->at.layer_face && p->at.slab == slab)
            inner = p;
        if (slab == 0 ? i == 0 : p->at.layer_face && p->at.slab == slab - 1)
            outer = p;
    }
    if (outer == NULL || inner == NULL)
        return false;
    for (int m = 0; m < BW_MONTHS; m++)
        out[m] = 0.5 * (outer->month[m].relative_humidity +
                        inner->month[m].relative_humidity);
    return true;
}

static void draw_curve(bw_chart *c, const bw_curve *curve)
{
    double x[CURVE_POINTS], y[CURVE_POINTS];
    for (int i = 0; i < CURVE_POINTS; i++) {
        double phi = (double)i / (CURVE_POINTS - 1);
        x[i] = 100.0 * phi;
        y[i] = bw_curve_log(curve, phi);
    }
    bw_chart_line(c, "main", x, y, CURVE_POINTS);
}

/* The months as letters in a row above, led to their points. */
static void mark_months(bw_chart *c, const double *phi, const double *sd)
{
    int order[BW_MONTHS];
    double label[BW_MONTHS];
    for (int m = 0; m < BW_MONTHS; m++) {
        int at = m;
        for (; at > 0 && phi[order[at - 1]] > phi[m]; at--)
            order[at] = order[at - 1];
        order[at] = m;
    }
    for (int k = 0; k < BW_MONTHS; k++)
        label[k] = bw_chart_x(c, 100.0 * phi[order[k]]);
    bw_spread(label, BW_MONTHS, 22.0, c->left + 8.0, c->right - 6.0);
    for (int k = 0; k < BW_MONTHS; k++) {
        int m = order[k];
        double x = bw_chart_x(c, 100.0 * phi[m]), y = bw_chart_y(c, sd[m]);
        bw_chart_stroke(c, "face", label[k], c->top - 6.0, x, y - 3.0);
        bw_chart_text(c, "tiny", label[k], c->top - 8.0, BW_MIDDLE,
                      bw_month_name(m));
    }
    for (int m = 0; m < BW_MONTHS; m++)
        bw_chart_mark(c, BW_SHAPE_RING, "ring", 100.0 * phi[m], sd[m]);
}

static void draw_membrane(bw_page *page, const bw_section_assessment *s,
                          size_t slab)
{
    const bw_slab *layer = &s->section->slab[slab];
    double phi[BW_MONTHS];
    const double *sd = s->run[BW_RUN_DESIGN].result.layer_sd[slab];
    if (!mean_humidity(&s->run[BW_RUN_DESIGN].result, slab, phi))
        return;
    double low = (double)INFINITY, high = 0.0;
    for (size_t i = 0; i < layer->sd_curve->count; i++) {
        low = fmin(low, layer->sd_curve->y[i]);
        high = fmax(high, layer->sd_curve->y[i]);
    }
    if (!(low > 0.0) || !(high >= low))
        return;
    int least = 0, most = 0;
    for (int m = 1; m < BW_MONTHS; m++) {
        least = sd[m] < sd[least] ? m : least;
        most = sd[m] > sd[most] ? m : most;
    }
    bw_chart c;
    bw_figure_start(page, "membrane", s->section->name, "design");
    bw_tag_set_number(bw_page_markup(page), "data-layer",
                      (double)layer->layer + 1.0, 4);
    bw_figure_data(page, "data-humidity", phi, BW_MONTHS);
    bw_figure_data(page, "data-layer-sd", sd, BW_MONTHS);
    bw_figure_chart(
        page, &c, 360, 240, bw_phrase(page, "sd by humidity: %s", layer->label),
        "Tightest in %s at %.3g m, most open in %s at %.3g m.",
        bw_month_name(most), sd[most], bw_month_name(least), sd[least]);
    bw_chart_box(&c, 38.0, 38.0, 352.0, 204.0);
    bw_chart_range_x(&c, 0.0, 100.0);
    c.y = (bw_scale){low * 0.8, high * 1.25, c.bottom, c.top, true};
    bw_ticks x = bw_ticks_make(0.0, 100.0, 5);
    bw_ticks y = bw_ticks_log(c.y.from, c.y.to, 6);
    bw_chart_axis_x(&c, &x, "mean humidity of its two faces, %");
    bw_chart_axis_y(&c, &y, "");
    bw_chart_text(&c, "unit", 1.0, 12.0, BW_START, "sd, m");
    bw_chart_rules_y(&c, &y);
    draw_curve(&c, layer->sd_curve);
    mark_months(&c, phi, sd);
    bw_chart_end(&c);
    bw_figure_end(page,
                  "%s: %s (layer %zu). Tightest in %s (%.3g m), most open "
                  "in %s (%.3g m).",
                  bw_section_title(page, s->section->name), layer->label,
                  layer->layer + 1, bw_month_name(most), sd[most],
                  bw_month_name(least), sd[least]);
}

/* The slab changes its sd with humidity, and months of it were computed. */
static bool opens(const bw_section_assessment *s, size_t slab)
{
    return bw_has_planes(s) && slab < s->run[BW_RUN_DESIGN].result.slab_count &&
           s->section->slab[slab].sd_curve != NULL;
}

BW_DRAWN(membranes, "Layers that open and close with humidity")
{
    bw_plates(page, "plates");
    for (size_t i = 0; i < of->wall[0]->section_count; i++) {
        const bw_section_assessment *s = &of->wall[0]->section[i];
        for (size_t k = 0; k < s->section->slab_count; k++)
            if (opens(s, k))
                draw_membrane(page, s, k);
    }
    bw_plates_end(page);
}
