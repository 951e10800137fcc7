/* The wall through the year: depth across, months down, relative humidity as
 * shade with isolines, the place and the season that decide, and the hours in
 * which vapour is driven inwards. Of the last simulated year; where nothing was
 * simulated, of the months. A shade begins at its own isoline. */

#include <math.h>
#include <string.h>

#include "bothways/compare.h"
#include "names.h"
#include "part.h"
#include "plot.h"
#include "spot.h"
#include "year.h"

typedef bw_year_picture picture;

enum { WIDTH = 360, HEIGHT = 446, LEVELS = 4 };

static const struct level {
    double from; /* -, relative humidity */
    const char *shade, *line, *name;
} levels[LEVELS] = {
    {0.70, "shade1", NULL, "70 %"},
    {0.80, "shade2", "isoline", "80 %"},
    {0.90, "shade3", "isoline", "90 %"},
    {0.95, "shade4", "isoline", "95 %"},
};

static const double left_edge = 34.0, right_edge = 300.0, strip_left = 314.0,
                    strip_right = 352.0, section_top = 35.0,
                    section_bottom = 77.0, year_top = 96.0, year_bottom = 384.0;

/* ---- the year ---------------------------------------------------------- */

static void month_rows(picture *p)
{
    bw_chart *c = &p->chart;
    for (int k = 0; k <= BW_MONTHS; k++) {
        const double y = bw_chart_y(c, k);
        bw_chart_stroke(c, "axis", c->left - 3.0, y, c->left, y);
        if (k == BW_MONTHS)
            break;
        bw_chart_text(c, "num", c->left - 6.0, bw_chart_y(c, k + 0.5) + 3.5,
                      BW_END,
                      bw_phrase(p->page, "%.*s", 3,
                                bw_month_name((p->first + k) % BW_MONTHS)));
    }
}

static void layer_faces(picture *p)
{
    bw_chart *c = &p->chart;
    double at = 0.0;
    for (size_t i = 0; i + 1 < p->assembly->layer_count; i++) {
        at += p->assembly->layer[i].thickness;
        const double x = bw_chart_x(c, at);
        bw_chart_stroke(c, "layerface", x, c->top, x, c->bottom);
    }
}

static void draw_year(picture *p)
{
    bw_chart *c = &p->chart;
    for (size_t i = 0; i < LEVELS; i++)
        bw_chart_region(c, levels[i].shade, &p->field, levels[i].from);
    layer_faces(p);
    for (size_t i = 0; i < LEVELS; i++)
        if (levels[i].line != NULL)
            bw_chart_isoline(c, levels[i].line, &p->field, levels[i].from);
    bw_chart_rect(c, "frame", c->left, c->top,
                  bw_chart_x(c, p->total) - c->left, c->bottom - c->top);
    month_rows(p);
}

static void label_isolines(picture *p)
{
    bw_taken taken = {.count = 0};
    double at = 0.0;
    for (size_t i = 0; i < p->assembly->layer_count && i < BW_TAKEN; i++) {
        at += p->assembly->layer[i].thickness;
        taken.upright[taken.uprights++] = bw_chart_x(&p->chart, at);
    }
    for (size_t i = 0; i < LEVELS; i++)
        if (levels[i].line != NULL)
            bw_chart_isoline_label(&p->chart, &p->field, levels[i].from, 0.05,
                                   &taken, levels[i].name);
}

/* ---- the whole --------------------------------------------------------- */

static void draw_section(picture *p)
{
    bw_chart *c = &p->chart;
    bw_chart_box(c, left_edge, section_top, right_edge, section_bottom);
    bw_chart_range_x(c, 0.0, p->span);
    bw_layers_drawn(p->page, c, p->assembly, p->section);
    bw_chart_text(c, "soft", left_edge, 8.0, BW_START, "outside");
    bw_chart_text(c, "soft", bw_chart_x(c, p->total), 8.0, BW_END, "room");
}

static void draw_key(picture *p)
{
    static const char *const names[] = {"below 70", "70 %", "80 %", "90 %",
                                        "95 % RH and above"};
    static const double at[] = {34.0, 104.0, 150.0, 196.0, 242.0};
    bw_chart *c = &p->chart;
    const double y = HEIGHT - 16.0;
    for (size_t i = 0; i <= LEVELS; i++) {
        bw_chart_rect(c,
                      i == 0
                          ? "frame"
                          : bw_phrase(p->page, "%s frame", levels[i - 1].shade),
                      at[i], y, 12.0, 10.0);
        bw_chart_text(c, "num", at[i] + 16.0, y + 9.0, BW_START, names[i]);
    }
}

static void draw(picture *p)
{
    bw_page *page = p->page;
    const char *name = bw_section_title(page, p->part->section->name);
    const char *inward = p->simulated ? bw_year_inward_text(p) : "";
    bw_figure_start(page, "year", p->part->section->name,
                    p->simulated ? "transient" : "design");
    bw_figure_chart(page, &p->chart, WIDTH, HEIGHT,
                    bw_phrase(page, "The wall through the year, %s", name),
                    "Relative humidity over the depth of the wall, outside on "
                    "the left, and the months, downwards. %s %s",
                    p->says, inward);
    draw_section(p);
    bw_chart_box(&p->chart, left_edge, year_top, right_edge, year_bottom);
    bw_chart_range_y(&p->chart, BW_MONTHS, 0.0);
    draw_year(p);
    bw_depth_axis(&p->chart);
    if (p->simulated)
        bw_year_inward(p, strip_left, strip_right);
    if (p->mark.words != NULL)
        bw_year_mark_place(p, section_bottom);
    label_isolines(p);
    draw_key(p);
    bw_chart_end(&p->chart);
    bw_figure_end(page, "%s, to scale; relative humidity, %s. %s %s", name,
                  p->simulated ? "means of five days in the last simulated year"
                               : "by steady months (Glaser, ISO 13788)",
                  p->says, inward);
}

/* Of several pictures: no axis of one is shorter. */
typedef struct axes {
    double span, drive; /* m, Pa */
} axes;

static picture *new_picture(bw_page *page, const bw_assembly *assembly,
                            const bw_section_assessment *part, axes least)
{
    picture *p = BW_NEW(&page->arena, picture, 1);
    if (p == NULL)
        return NULL;
    *p = (picture){
        .page = page, .assembly = assembly, .part = part, .says = ""};
    for (size_t i = 0; i < assembly->layer_count; i++) {
        p->total += assembly->layer[i].thickness;
        if (i < part->section->dropped_layers)
            p->before += assembly->layer[i].thickness;
    }
    p->span = fmax(least.span, p->total);
    p->drive = least.drive;
    return p;
}

/* ---- of the simulation ------------------------------------------------- */

static bool is_drawable(const bw_section_assessment *part)
{
    return part->has_transient && part->transient.cell != NULL &&
           part->transient_section != NULL && part->transient.slab_count > 0;
}

static void mark_spot(picture *p, const bw_spot *spot)
{
    bw_page *page = p->page;
    const char *place = bw_monitor_text(page, &p->part->transient,
                                        spot->monitor);
    const bw_criterion *row = spot->criterion;
    p->mark = (bw_year_mark){
        "most humid here", bw_monitor_depth(p->part, spot->monitor), {false}};
    if (row == NULL) {
        p->says = bw_phrase(page, "Most humid %s.", place);
        return;
    }
    const bool fails = row->decides && row->verdict == BW_FAILS;
    memcpy(p->mark.bad, spot->bad, sizeof p->mark.bad);
    p->mark.words = fails ? "fails here" : "nearest to a limit here";
    const char *never = bw_not_within(page, row);
    p->says = bw_phrase(
        page, "It %s %s (%s %s, limit %s)%s.",
        fails ? "fails" : "comes nearest to a limit", place, row->title,
        never != NULL ? never : bw_shown_amount(page, row->value, row->unit),
        bw_shown_value(page, row->limit, row->unit),
        bw_year_season(p, spot->season));
}

static void draw_part(bw_page *page, const bw_assembly *assembly,
                      const bw_section_assessment *part, const bw_spot *spot,
                      axes least)
{
    picture *p = new_picture(page, assembly, part, least);
    if (p == NULL)
        return;
    p->simulated = true;
    p->cyclic = part->transient.periodic;
    p->section = part->transient_section;
    p->first = part->transient.first_month;
    p->spans = BW_SPANS;
    if (spot->part == part)
        mark_spot(p, spot);
    if (bw_year_lay(p))
        draw(p);
}

/* ---- of the months ----------------------------------------------------- */

static void mark_condensate(picture *p)
{
    const bw_monthly_result *run = &p->part->run[BW_RUN_DESIGN].result;
    const bw_plane *plane = &run->plane[run->peak_plane];
    if (run->peak_plane >= run->plane_count || !(run->peak > 0.0)) {
        p->says = "By months no water forms.";
        return;
    }
    p->mark = (bw_year_mark){
        "water forms here", bw_year_depth(p, plane->at), {false}};
    for (size_t k = 0; k < p->spans; k++)
        p->mark.bad[k] = bw_is_wet(
            &plane->month[((size_t)p->first + k) % BW_MONTHS]);
    p->says = bw_phrase(p->page, "Most water forms %s: %s%s.",
                        bw_plane_text(p->page, p->part->section, plane->at),
                        bw_amount(p->page, run->peak),
                        bw_year_season(p, "with water"));
}

static double condensate(const bw_section_assessment *part)
{
    return bw_has_planes(part) ? part->run[BW_RUN_DESIGN].result.peak
                               : -(double)INFINITY;
}

static bool draw_months(bw_page *page, const bw_assessment *assessment,
                        axes least)
{
    const bw_section_assessment *part = bw_worst_section(assessment,
                                                         condensate);
    picture *p = part != NULL
                     ? new_picture(page, assessment->assembly, part, least)
                     : NULL;
    if (p == NULL || !(p->total > 0.0))
        return false;
    p->section = part->section;
    p->first = part->run[BW_RUN_DESIGN].result.start_month;
    p->spans = BW_MONTHS;
    p->cyclic = true;
    mark_condensate(p);
    const bool laid = bw_year_lay(p);
    if (laid)
        draw(p);
    return laid;
}

/* ---- parts ------------------------------------------------------------- */

static void draw_wall(bw_page *page, const bw_assessment *assessment,
                      axes least)
{
    bw_spot spot;
    bw_plates(page, "cover");
    if (bw_spot_find(&spot, assessment) && is_drawable(spot.part))
        draw_part(page, assessment->assembly, spot.part, &spot, least);
    else if (!draw_months(page, assessment, least))
        return;
    bw_layer_key(page, assessment->assembly);
    bw_plates_end(page);
}

BW_DRAWN(year, "The wall through the year")
{
    draw_wall(page, of->wall[0], (axes){0.0, 0.0});
}

/* One under the other, on one scale of depth, of shade and of drive. */
BW_DRAWN(compare_years, "Each wall through the year")
{
    const bw_comparison *c = of->comparison;
    axes least = {0.0, 0.0};
    for (size_t i = 0; i < c->wall_count; i++) {
        const bw_assessment *wall = c->wall[i].assessment;
        bw_spot spot;
        least.span = fmax(least.span, c->wall[i].total_thickness);
        if (bw_spot_find(&spot, wall) && is_drawable(spot.part))
            least.drive = fmax(least.drive,
                               bw_drive_of(wall->assembly, spot.part).most);
    }
    for (size_t i = 0; i < c->wall_count; i++) {
        bw_subheading(page, "%s: %s", c->wall[i].label,
                      bw_verdict_text(c->wall[i].verdict));
        draw_wall(page, c->wall[i].assessment, least);
    }
}

BW_DRAWN(other_years, "The other sections through the year")
{
    bw_spot spot;
    if (!bw_spot_find(&spot, of->wall[0]))
        return;
    bw_plates(page, "plates");
    for (size_t i = 0; i < of->wall[0]->section_count; i++)
        if (&of->wall[0]->section[i] != spot.part &&
            is_drawable(&of->wall[0]->section[i]))
            draw_part(page, of->wall[0]->assembly, &of->wall[0]->section[i],
                      &spot, (axes){0.0, 0.0});
    bw_plates_end(page);
}
