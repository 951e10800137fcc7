/* Courses that rows are judged by, with the limit of each: moisture of wood as
 * it is judged, mould index and water over the years, the wetting test. */

#include <math.h>
#include <string.h>

#include "names.h"
#include "part.h"
#include "plot.h"
#include "spot.h"

/* ---- wood -------------------------------------------------------------- */

enum { DAYS = BW_TRANSIENT_DAYS };

typedef struct wood_days {
    double x[DAYS], last[DAYS], first[DAYS];
    double highest;
} wood_days;

static void take_wood(wood_days *w, const bw_slab_moisture *slab, int month)
{
    w->highest = 0.0;
    for (size_t i = 0; i < DAYS; i++) {
        w->x[i] = bw_year_place(month, ((double)i + 0.5) / DAYS);
        w->last[i] = 100.0 * slab->last_days[i].moisture;
        w->first[i] = 100.0 * slab->first_days[i].moisture;
        w->highest = fmax(w->highest, fmax(w->last[i], w->first[i]));
    }
}

static void draw_wood(bw_page *page, const bw_spot *spot)
{
    const bw_transient_result *run = &spot->part->transient;
    const bw_slab_moisture *slab = &run->slab[spot->slab];
    const double limit = spot->criterion->limit;
    wood_days *w = BW_NEW(&page->arena, wood_days, 1);
    if (w == NULL || slab->last_days == NULL || slab->first_days == NULL)
        return;
    take_wood(w, slab, run->first_month);
    const char *name = bw_short_name(page, bw_simulated_slab(run, spot->slab));
    double low = 0.0, high = fmax(w->highest, 1.2 * limit);
    bw_chart c;
    bw_round_range(&low, &high, 5);
    bw_figure_start(page, "wood", spot->part->section->name, "transient");
    bw_tag_set_number(bw_page_markup(page), "data-highest", w->highest, 9);
    bw_tag_set_number(bw_page_markup(page), "data-limit", limit, 9);
    bw_figure_chart(page, &c, 360, 180, bw_phrase(page, "Moisture of %s", name),
                    "Daily means of the wettest 10 millimetres in percent by "
                    "mass: at most %.1f in the last year, the limit is %.3g.",
                    100.0 * slab->highest_wood_moisture, limit);
    bw_year_box(&c, 20.0, 330.0, 156.0, run->first_month);
    bw_upright_axis(&c, low, high, 5, "% by mass");
    if (run->years > 1)
        bw_chart_line(&c, "wetdash", w->x, w->first, DAYS);
    bw_chart_line(&c, "main", w->x, w->last, DAYS);
    bw_limit_line(&c, limit, "limit");
    bw_chart_end(&c);
    bw_figure_end(page,
                  "%s, %s: the wettest 10 mm, mean of each day. Solid: the "
                  "last year%s.",
                  bw_section_title(page, spot->part->section->name), name,
                  run->years > 1 ? "; dashed: the first" : "");
}

typedef void draw_row(bw_page *page, const bw_spot *spot);

/* All sections' rows of that name, each at its place. */
static void each_row(bw_page *page, const bw_assessment *assessment,
                     const char *criterion, draw_row *draw)
{
    for (size_t i = 0; i < assessment->section_count; i++) {
        bw_spot spot;
        const bw_section_assessment *part = &assessment->section[i];
        const bw_criterion *row = bw_row_of(assessment, part, criterion);
        if (row != NULL && bw_spot_of_row(&spot, part, row))
            draw(page, &spot);
    }
}

BW_DRAWN(wood, "Moisture of wood, as it is judged")
{
    bw_plates(page, "plates");
    each_row(page, of->wall[0], "wood-moisture", draw_wood);
    each_row(page, of->wall[0], "panel-moisture", draw_wood);
    bw_plates_end(page);
}

/* ---- over the years ---------------------------------------------------- */

/* A box over the years of a run. */
static void years_box(bw_chart *c, int years, double bottom)
{
    bw_chart_box(c, 38.0, 20.0, 330.0, bottom);
    bw_chart_range_x(c, 0.0, years);
    const bw_ticks ticks = bw_ticks_make(0.0, years, years < 10 ? 9 : 6);
    bw_ticks whole = {.count = 0};
    for (size_t i = 0; i < ticks.count; i++)
        if (fabs(ticks.value[i] - round(ticks.value[i])) < 1e-9)
            whole.value[whole.count++] = ticks.value[i];
    bw_chart_axis_x(c, &whole, "years");
}

enum { MOST_POINTS = BW_MOST_YEARS * BW_SPANS + 1 };

typedef struct course {
    size_t count;
    double x[MOST_POINTS], y[MOST_POINTS];
} course;

/* From a clean start. */
static double take_mould(course *m, const bw_transient_result *run,
                         size_t monitor)
{
    double most = 0.0;
    m->count = (size_t)run->years * BW_SPANS + 1;
    m->x[0] = m->y[0] = 0.0;
    for (size_t i = 1; i < m->count; i++) {
        m->x[i] = (double)i / BW_SPANS;
        m->y[i] = run->mould_course[(i - 1) * run->monitor_count + monitor];
        most = fmax(most, m->y[i]);
    }
    return most;
}

static void draw_mould(bw_page *page, const bw_spot *spot)
{
    const bw_transient_result *run = &spot->part->transient;
    const double limit = spot->criterion->limit;
    course *m = BW_NEW(&page->arena, course, 1);
    if (m == NULL || run->mould_course == NULL || run->years < 1 ||
        run->years > BW_MOST_YEARS)
        return;
    const double most = take_mould(m, run, spot->monitor);
    const char *place = bw_monitor_text(page, run, spot->monitor);
    double zero = 0.0, top = fmax(1.1 * limit, most);
    bw_round_range(&zero, &top, 6);
    bw_chart c;
    bw_figure_start(page, "mould", spot->part->section->name, "transient");
    bw_tag_set_number(bw_page_markup(page), "data-highest", most, 9);
    bw_tag_set_number(bw_page_markup(page), "data-limit", limit, 9);
    bw_figure_chart(page, &c, 360, 180,
                    bw_phrase(page, "Mould index, %s", place),
                    "Over the %d simulated years on a scale from 0 to 6: "
                    "highest %.2f, the limit is %.3g.",
                    run->years, most, limit);
    years_box(&c, run->years, 146.0);
    bw_upright_axis(&c, 0.0, top, 6, "index");
    bw_chart_line(&c, "main", m->x, m->y, m->count);
    bw_limit_line(&c, limit, "limit");
    bw_chart_end(&c);
    bw_figure_end(page,
                  "%s, %s: mould index over %d simulated years; with the last "
                  "one repeated to the end it reaches %.2f.",
                  bw_section_title(page, spot->part->section->name), place,
                  run->years, spot->criterion->value);
}

BW_DRAWN(mould, "Mould index over the years")
{
    bw_plates(page, "plates");
    each_row(page, of->wall[0], "mould-index-hidden", draw_mould);
    each_row(page, of->wall[0], "mould-index-room", draw_mould);
    bw_plates_end(page);
}

static void draw_years(bw_page *page, const bw_section_assessment *part)
{
    const bw_transient_result *run = &part->transient;
    double x[BW_MOST_YEARS + 1], y[BW_MOST_YEARS + 1], high = 0.0, zero = 0.0;
    if (run->years < 2 || run->years > BW_MOST_YEARS)
        return;
    const size_t count = (size_t)run->years + 1;
    for (size_t i = 0; i < count; i++) {
        x[i] = (double)i;
        y[i] = i == 0 ? run->initial_water : run->year_end_water[i - 1];
        high = fmax(high, y[i]);
    }
    const char *unit = "";
    const double factor = bw_water_factor(high, &unit);
    bw_chart c;
    bw_figure_start(page, "years", part->section->name, "transient");
    bw_figure_data(page, "data-water", y, count);
    bw_figure_chart(page, &c, 360, 180, "Water in the wall over the years",
                    "At the start %s, after %d years %s.",
                    bw_amount(page, y[0]), run->years,
                    bw_amount(page, y[count - 1]));
    for (size_t i = 0; i < count; i++)
        y[i] *= factor;
    high *= factor;
    bw_round_range(&zero, &high, 5);
    years_box(&c, run->years, 146.0);
    bw_upright_axis(&c, zero, high, 5, unit);
    bw_chart_line(&c, "main", x, y, count);
    for (size_t i = 0; i < count; i++)
        bw_chart_mark(&c, BW_SHAPE_DOT, "ink", x[i], y[i]);
    bw_chart_end(&c);
    bw_figure_end(page, "%s: all water in the wall at the end of each year.%s",
                  bw_section_title(page, part->section->name),
                  run->carried_years > 0
                      ? bw_phrase(page,
                                  " %d of the years are carried forward "
                                  "and not simulated.",
                                  run->carried_years)
                      : "");
}

BW_DRAWN(years, "Water over the years")
{
    bw_plates(page, "plates");
    for (size_t i = 0; i < of->wall[0]->section_count; i++)
        if (of->wall[0]->section[i].has_transient)
            draw_years(page, &of->wall[0]->section[i]);
    bw_plates_end(page);
}

/* ---- the wetting test -------------------------------------------------- */

enum { WAYS = 3 };

typedef struct wetting {
    const bw_section_assessment *part;
    const bw_wetting_result *way[WAYS];
    size_t ways;
    size_t days; /* of the longest */
} wetting;

static wetting wetting_of(const bw_section_assessment *part)
{
    const bw_section_wetting *test = &part->wetting_test;
    wetting w = {.part = part,
                 .way = {&test->both, &test->outwards, &test->inwards},
                 .ways = test->one_way ? WAYS : 1};
    for (size_t i = 0; i < w.ways; i++)
        if (w.way[i]->excess != NULL && w.way[i]->day_count > w.days)
            w.days = w.way[i]->day_count;
    return w;
}

static const double DAYS_A_MONTH = 365.0 / 12.0;

static void draw_way(bw_page *page, bw_chart *c, const wetting *w, size_t way)
{
    const bw_wetting_result *r = w->way[way];
    const size_t count = r->excess != NULL ? r->day_count + 1 : 0;
    double *x = BW_NEW(&page->arena, double, 2 * count + 1);
    if (x == NULL)
        return;
    double *y = x + count;
    for (size_t i = 0; i < count; i++) {
        x[i] = (double)i / DAYS_A_MONTH;
        y[i] = i == 0 ? w->part->wetting_test.water : r->excess[i - 1];
    }
    if (count > 0)
        bw_chart_line(c, bw_way_class[way], x, y, count);
}

static double most_excess(const wetting *w)
{
    double most = w->part->wetting_test.water;
    for (size_t i = 0; i < w->ways; i++)
        for (size_t d = 0;
             w->way[i]->excess != NULL && d < w->way[i]->day_count; d++)
            most = fmax(most, w->way[i]->excess[d]);
    return most;
}

static void draw_wetting(bw_page *page, const wetting *w)
{
    const bw_section_wetting *test = &w->part->wetting_test;
    double zero = 0.0, high = most_excess(w);
    const double months = fmax(1.0, ceil((double)w->days / DAYS_A_MONTH));
    const char *times = "";
    for (size_t i = 0; i < w->ways; i++)
        times = bw_phrase(page, "%s%s%s %s", times, i > 0 ? ", " : "",
                          bw_way_name[i],
                          bw_wetting_time(page, test, w->way[i]));
    bw_chart c;
    bw_figure_start(page, "wetting", w->part->section->name, "transient");
    bw_tag_set_number(bw_page_markup(page), "data-water", test->water, 9);
    bw_figure_chart(page, &c, 360, 200, "Wetting test",
                    "Water beyond that of the wall not wetted: %s.", times);
    bw_round_range(&zero, &high, 5);
    bw_chart_box(&c, 38.0, 30.0, 330.0, 166.0);
    bw_chart_range_x(&c, 0.0, months);
    const bw_ticks ticks = bw_ticks_make(0.0, months, 8);
    bw_chart_axis_x(&c, &ticks, "months");
    bw_upright_axis(&c, zero, high, 5, "kg/m\u00b2");
    for (size_t i = w->ways; i-- > 0;)
        draw_way(page, &c, w, i);
    bw_limit_line(&c, 0.1 * test->water, "10 %");
    bw_ways_legend(&c, w->ways);
    bw_chart_end(&c);
    bw_figure_end(page,
                  "%s: what is left of %.3g kg/m2 put in %s %s, beyond the "
                  "water of the wall not wetted. %s%s.",
                  bw_section_title(page, w->part->section->name), test->water,
                  bw_month_name(test->month),
                  bw_plane_text(page, w->part->transient_section, test->place),
                  bw_capital(page, times),
                  test->place_alone ? ": the place alone, from where it goes "
                                      "sideways, too; drawn is the whole"
                                    : "");
}

BW_DRAWN(wetting, "How a wetting dries")
{
    bw_plates(page, "plates");
    for (size_t i = 0; i < of->wall[0]->section_count; i++) {
        const bw_section_assessment *part = &of->wall[0]->section[i];
        const wetting w = wetting_of(part);
        if (part->has_transient && part->wetting_test.ran && w.days > 0)
            draw_wetting(page, &w);
    }
    bw_plates_end(page);
}
