/* A humidity-variable layer: its sd over the mean humidity of its two faces,
 * and where on that curve it stood in each month. */

#include <math.h>

#include "html.h"
#include "html_plot.h"
#include "names.h"

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

static void draw_membrane(bw_html *html, const bw_section_assessment *s,
                          size_t slab)
{
    bw_page *page = &html->page;
    const bw_slab *layer = &s->section->slab[slab];
    double phi[BW_MONTHS];
    const double *sd = s->design.layer_sd[slab];
    if (!mean_humidity(&s->design, slab, phi))
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
    bw_html_figure(html, "membrane", s->section->name, "design");
    bw_tag_set_number(&html->out, "data-layer", (double)layer->layer + 1.0, 4);
    bw_tag_set_numbers(&html->out, "data-humidity", phi, BW_MONTHS);
    bw_tag_set_numbers(&html->out, "data-layer-sd", sd, BW_MONTHS);
    bw_chart_start(
        &c, &html->out, 360, 240,
        bw_phrase(page, "sd by humidity: %s", layer->label),
        bw_phrase(page, "Tightest in %s at %s m, most open in %s at %s m.",
                  bw_month_name(most), bw_significant(page, sd[most], 3),
                  bw_month_name(least), bw_significant(page, sd[least], 3)));
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
    bw_html_figure_end(
        html,
        bw_phrase(page,
                  "%s: %s (layer %zu). Tightest in %s (%s m), most open in %s "
                  "(%s m).",
                  bw_html_section_name(html, s->section->name), layer->label,
                  layer->layer + 1, bw_month_name(most),
                  bw_significant(page, sd[most], 3), bw_month_name(least),
                  bw_significant(page, sd[least], 3)));
}

void bw_html_membranes(bw_html *html, const bw_assessment *assessment)
{
    bool any = false;
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *s = &assessment->section[i];
        for (size_t k = 0; bw_has_planes(s) && k < s->design.slab_count; k++)
            any = any || s->section->slab[k].sd_curve != NULL;
    }
    if (!any)
        return;
    bw_page_heading(&html->page, "Layers that open and close with humidity");
    bw_html_plates(html, "plates");
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *s = &assessment->section[i];
        for (size_t k = 0; bw_has_planes(s) && k < s->design.slab_count; k++)
            if (s->section->slab[k].sd_curve != NULL)
                draw_membrane(html, s, k);
    }
    bw_html_plates_end(html);
}
