/* A junction to scale, with isotherms of its coldest month, the coldest place
 * of each room's surface, and where water stands by months.
 *
 * Invariant: one scale both ways; isotherms stop at the materials' edges. */

#include <limits.h>
#include <math.h>

#include "bothways/assessment.h"
#include "coldest.h"
#include "figure.h"
#include "isotherms.h"
#include "part.h"

static const double wide = 520.0, high = 420.0, edge = 34.0; /* on paper */
static const double shown = 0.5; /* m of a wall beyond the junction's lines */

typedef struct picture {
    bw_page *page;
    const bw_junction_assessment *a;
    bw_chart chart;
    double x0, x1, y0, y1; /* m, what is shown */
    int month;
} picture;

typedef struct span {
    double low, high; /* m */
} span;

static void reach(span *s, double at)
{
    s->low = fmin(s->low, at);
    s->high = fmax(s->high, at);
}

/* Where it ends within the drawing. */
static void reach_ends(span *s, double from, double to, const span *all)
{
    if (from > all->low + 1e-6 && from < all->high - 1e-6)
        reach(s, from);
    if (to > all->low + 1e-6 && to < all->high - 1e-6)
        reach(s, to);
}

/* What goes on the same to a cut is not drawn to its end. A plane wall has no
 * line across it: then it is its coldest place that is shown. */
static void find_window(picture *p)
{
    const bw_raster *g = &p->a->heat->raster;
    const bw_junction *j = p->a->junction;
    const span none = {HUGE_VAL, -HUGE_VAL};
    span all_x = none, all_y = none, x = none, y = none;
    for (size_t c = 0; c < g->nx * g->ny; c++) {
        if (g->material[c] == BW_NOT_THERE)
            continue;
        reach(&all_x, g->x[c % g->nx]);
        reach(&all_x, g->x[c % g->nx + 1]);
        reach(&all_y, g->y[c / g->nx]);
        reach(&all_y, g->y[c / g->nx + 1]);
    }
    for (size_t k = 0; k < j->filling_count + j->space_count; k++) {
        const bw_rectangle *r = k < j->filling_count
                                    ? &j->filling[k].at
                                    : &j->space[k - j->filling_count].at;
        reach_ends(&x, r->x0, r->x1, &all_x);
        reach_ends(&y, r->y0, r->y1, &all_y);
    }
    for (size_t r = 0; r < p->a->room_count; r++) {
        reach(&x, p->a->heat->coldest[r * BW_SURFACES_FLOW].x);
        reach(&y, p->a->heat->coldest[r * BW_SURFACES_FLOW].y);
    }
    const bool *cut = j->symmetry;
    const double low_x = cut[BW_EDGE_LEFT] ? x.low - shown : -HUGE_VAL;
    const double high_x = cut[BW_EDGE_RIGHT] ? x.high + shown : HUGE_VAL;
    const double low_y = cut[BW_EDGE_BELOW] ? y.low - shown : -HUGE_VAL;
    const double high_y = cut[BW_EDGE_ABOVE] ? y.high + shown : HUGE_VAL;
    p->x0 = fmax(all_x.low, low_x);
    p->x1 = fmin(all_x.high, high_x);
    p->y0 = fmax(all_y.low, low_y);
    p->y1 = fmin(all_y.high, high_y);
}

/* Air that takes the place of fillings up to a line of the file. */
static size_t draw_air(picture *p, size_t next, long line)
{
    const bw_junction *j = p->a->junction;
    for (; next < j->space_count && j->space[next].line <= line; next++) {
        const bw_rectangle *r = &j->space[next].at;
        const double x0 = fmax(r->x0, p->x0), x1 = fmin(r->x1, p->x1);
        const double y0 = fmax(r->y0, p->y0), y1 = fmin(r->y1, p->y1);
        const double left = bw_chart_x(&p->chart, x0);
        const double top = bw_chart_y(&p->chart, y1);
        if (j->space[next].over && j->space[next].line > 0 && x1 > x0 &&
            y1 > y0)
            bw_chart_rect(&p->chart, "paper", left, top,
                          bw_chart_x(&p->chart, x1) - left,
                          bw_chart_y(&p->chart, y0) - top);
    }
    return next;
}

/* A filling where it is seen, cell by cell joined to rows. */
static void draw_materials(picture *p)
{
    const bw_junction *j = p->a->junction;
    bw_chart *c = &p->chart;
    size_t air = 0;
    for (size_t k = 0; k < j->filling_count; k++) {
        const bw_rectangle *r = &j->filling[k].at;
        air = draw_air(p, air, j->filling[k].line);
        const double x0 = fmax(r->x0, p->x0), x1 = fmin(r->x1, p->x1);
        const double y0 = fmax(r->y0, p->y0), y1 = fmin(r->y1, p->y1);
        if (x1 <= x0 || y1 <= y0)
            continue;
        const double left = bw_chart_x(c, x0), top = bw_chart_y(c, y1);
        const double w = bw_chart_x(c, x1) - left;
        const double h = bw_chart_y(c, y0) - top;
        /* paper below, so that what is painted over does not show through */
        bw_chart_rect(c, "paper", left, top, w, h);
        bw_hatched(p->page, c, j->material[j->filling[k].material].material,
                   left, top, w, h);
    }
    draw_air(p, air, LONG_MAX);
}

static void draw_places(picture *p)
{
    const bw_junction_assessment *a = p->a;
    bw_chart *c = &p->chart;
    for (size_t r = 0; r < a->room_count; r++) {
        const bw_coldest *at = &a->heat->coldest[r * BW_SURFACES_FLOW];
        const bw_surface_result *s = &a->room[r].surface[BW_SURFACES_MOISTURE];
        bw_chart_mark(c, BW_SHAPE_DOT, "", at->x, at->y);
        bw_chart_text(
            c, "halo", bw_chart_x(c, at->x) + 7.0, bw_chart_y(c, at->y) - 7.0,
            BW_START,
            bw_phrase(p->page, "%.1f \u00b0C", s->month[p->month].theta_si));
    }
    for (size_t k = 0; k < a->junction->space_count; k++) {
        const bw_rectangle *r = &a->junction->space[k].at;
        const double x0 = fmax(r->x0, p->x0), x1 = fmin(r->x1, p->x1);
        const double y0 = fmax(r->y0, p->y0), y1 = fmin(r->y1, p->y1);
        const char *name =
            a->junction->environment[a->junction->space[k].environment].id;
        if (x1 > x0 && y1 > y0 &&
            bw_chart_x(c, x1) - bw_chart_x(c, x0) > 50.0 &&
            bw_chart_y(c, y0) - bw_chart_y(c, y1) > 14.0)
            bw_chart_text(c, "soft", bw_chart_x(c, 0.5 * (x0 + x1)),
                          bw_chart_y(c, 0.5 * (y0 + y1)) + 4.0, BW_MIDDLE,
                          name);
    }
}

static void take(bw_taken *taken, double x, double y)
{
    if (taken->count == BW_TAKEN)
        return;
    taken->x[taken->count] = x;
    taken->y[taken->count++] = y;
}

/* Where figures and names stand, which no label of an isotherm is to cover. */
static void take_places(const picture *p, bw_taken *taken)
{
    const bw_junction_assessment *a = p->a;
    const bw_chart *c = &p->chart;
    for (size_t r = 0; r < a->room_count; r++) {
        const bw_coldest *at = &a->heat->coldest[r * BW_SURFACES_FLOW];
        take(taken, bw_chart_x(c, at->x) + 18.0, bw_chart_y(c, at->y) - 10.0);
        take(taken, bw_chart_x(c, at->x) + 40.0, bw_chart_y(c, at->y) - 10.0);
    }
    for (size_t k = 0; k < a->water.place_count; k++)
        take(taken, bw_chart_x(c, a->water.place[k].x) + 12.0,
             bw_chart_y(c, a->water.place[k].y) + 8.0);
}

/* Where most of each place's water stands, and when. */
static void draw_water(picture *p)
{
    const bw_junction_water *water = &p->a->water;
    bw_chart *c = &p->chart;
    for (size_t k = 0; k < water->place_count; k++) {
        const bw_water_place *at = &water->place[k];
        if (at->x < p->x0 || at->x > p->x1 || at->y < p->y0 || at->y > p->y1)
            continue;
        bw_chart_mark(c, BW_SHAPE_DROP, "", at->x, at->y);
        bw_chart_text(c, "halo", bw_chart_x(c, at->x) + 7.0,
                      bw_chart_y(c, at->y) + 12.0, BW_START,
                      bw_month_name(at->month));
    }
}

/* Where each room's surface is coldest, and what it is like there. */
static const char *places_said(const picture *p, bool where)
{
    const bw_junction_assessment *a = p->a;
    const char *said = "";
    for (size_t r = 0; r < a->room_count; r++) {
        const bw_coldest *at = &a->heat->coldest[r * BW_SURFACES_FLOW];
        const bw_surface_month *m =
            &a->room[r].surface[BW_SURFACES_MOISTURE].month[p->month];
        said = bw_phrase(p->page, "%s%s%s ", said, r > 0 ? "; " : "",
                         a->junction->environment[at->environment].id);
        said = where ? bw_phrase(p->page, "%sx %.0f mm, y %.0f mm", said,
                                 1e3 * at->x, 1e3 * at->y)
                     : bw_phrase(p->page, "%s%.1f degC and %.0f %% RH%s", said,
                                 m->theta_si, fmin(100.0 * m->rh_si, 100.0),
                                 m->rh_si > 1.0 ? ", condensing" : "");
    }
    return said;
}

static void draw(bw_page *page, const bw_junction_assessment *a,
                 const char *name)
{
    picture p = {.page = page, .a = a, .month = bw_junction_coldest(a)};
    double step = 1.0;
    find_window(&p);
    const double margin = 0.06; /* m of air around */
    p.x0 -= p.a->junction->symmetry[BW_EDGE_LEFT] ? 0.0 : margin;
    p.x1 += p.a->junction->symmetry[BW_EDGE_RIGHT] ? 0.0 : margin;
    p.y0 -= p.a->junction->symmetry[BW_EDGE_BELOW] ? 0.0 : margin;
    p.y1 += p.a->junction->symmetry[BW_EDGE_ABOVE] ? 0.0 : margin;
    const double scale = fmin((wide - 2.0 * edge) / (p.x1 - p.x0),
                              (high - 2.0 * edge) / (p.y1 - p.y0));
    const double w = scale * (p.x1 - p.x0), h = scale * (p.y1 - p.y0);
    bw_figure_start(page, "junction", name, "design");
    bw_tag_set_number(bw_page_markup(page), "data-month", p.month + 1.0, 3);
    bw_figure_chart(
        page, &p.chart, wide, h + 2.0 * edge, "Junction to scale",
        "The materials of the junction with isotherms; the coldest place of "
        "the surface: %s.",
        places_said(&p, true));
    bw_chart_box(&p.chart, edge, edge, edge + w, edge + h);
    bw_chart_range_x(&p.chart, p.x0, p.x1);
    bw_chart_range_y(&p.chart, p.y0, p.y1);
    draw_materials(&p);
    bw_taken taken = {0};
    take_places(&p, &taken);
    bw_isotherms_draw(page, &p.chart, a, p.month, &taken, &step);
    draw_places(&p);
    draw_water(&p);
    bw_chart_end(&p.chart);
    bw_figure_end(page,
                  "%s, to scale; walls go on beyond the edges of the picture. "
                  "Lines: isotherms every %.1f K, with their degC. Dot: the "
                  "coldest place of a "
                  "room's surface: %s.%s",
                  bw_month_name(p.month), step, places_said(&p, false),
                  p.a->water.place_count > 0
                      ? " Drops: where water stands by the monthly method, "
                        "with the month of most."
                      : "");
}

BW_DRAWN(junction_drawn, "Drawn to scale")
{
    bw_page_begin(page);
    bw_plates(page, "plates");
    draw(page, of->junction, "whole");
    bw_plates_end(page);
}

BW_DRAWN(junctions_drawn, "Junctions to scale")
{
    const bw_assessment *wall = of->wall[0];
    if (wall->junction_count == 0)
        return;
    bw_page_begin(page);
    bw_plates(page, "plates");
    for (size_t i = 0; i < wall->junction_count; i++)
        draw(page, wall->junction[i], wall->junction[i]->junction->id);
    bw_plates_end(page);
}
