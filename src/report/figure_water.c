/* Water through the year: what condenses and dries each month and what
 * stands, where water stands; and the drying test, its water over a year. */

#include <math.h>

#include "names.h"
#include "part.h"
#include "plot.h"

typedef struct months {
    double gain[BW_MONTHS], stands[BW_MONTHS];
} months;

/* In the order of the first year. */
static months year_of(const bw_plane *plane, int start)
{
    months out;
    for (int k = 0; k < BW_MONTHS; k++) {
        const bw_plane_month *m = &plane->month[(start + k) % BW_MONTHS];
        out.gain[k] = m->condensation;
        out.stands[k] = m->accumulated;
    }
    return out;
}

static void draw_bars(bw_chart *c, const months *year, double factor)
{
    double zero = bw_chart_y(c, 0.0);
    double width = (bw_chart_x(c, 1.0) - bw_chart_x(c, 0.0)) * 0.56;
    for (int k = 0; k < BW_MONTHS; k++) {
        double end = bw_chart_y(c, factor * year->gain[k]);
        double x = bw_chart_x(c, k + 0.5) - 0.5 * width;
        if (fabs(end - zero) < 0.15)
            continue;
        bw_chart_rect(c, end < zero ? "gain" : "loss", x, fmin(end, zero),
                      width, fabs(end - zero));
    }
}

static void draw_standing(bw_chart *c, const months *year, double factor)
{
    double x[BW_MONTHS], y[BW_MONTHS];
    for (int k = 0; k < BW_MONTHS; k++) {
        x[k] = k + 1.0;
        y[k] = factor * year->stands[k];
    }
    bw_chart_line(c, "under", x, y, BW_MONTHS);
    bw_chart_line(c, "main", x, y, BW_MONTHS);
    for (int k = 0; k < BW_MONTHS; k++)
        bw_chart_mark(c, BW_SHAPE_DOT, "ink", x[k], y[k]);
}

static void draw_plane(bw_page *page, const bw_section *section,
                       const bw_monthly_result *run, const char *name,
                       const char *words, const bw_plane *plane)
{
    const months calendar = year_of(plane, 0);
    const months year = year_of(plane, run->start_month);
    const char *unit = "";
    const char *place = bw_plane_text(page, section, plane->at);
    double low = 0.0, high = 0.0;
    for (int k = 0; k < BW_MONTHS; k++) {
        low = fmin(low, year.gain[k]);
        high = fmax(high, fmax(year.gain[k], year.stands[k]));
    }
    double factor = bw_water_factor(fmax(high, -low), &unit);
    low *= factor;
    high *= factor;
    bw_round_range(&low, &high, 5);
    bw_chart c;
    bw_figure_start(page, "water", section->name, name);
    bw_figure_data(page, "data-condensation", calendar.gain, BW_MONTHS);
    bw_figure_data(page, "data-accumulated", calendar.stands, BW_MONTHS);
    bw_figure_chart(page, &c, 360, 200, bw_phrase(page, "Water %s", place),
                    "Monthly condensation and drying as bars and "
                    "water standing as a line, from %s. At most %s.",
                    bw_month_name(run->start_month),
                    bw_amount(page, plane->peak));
    bw_year_box(&c, 22.0, 352.0, 176.0, run->start_month);
    bw_upright_axis(&c, low, high, 5, unit);
    draw_bars(&c, &year, factor);
    bw_level_line(&c, "axis", 0.0);
    draw_standing(&c, &year, factor);
    bw_chart_end(&c);
    bw_figure_end(page,
                  "%s, %s: %s. Full bars: condenses; open, downwards: "
                  "dries. Line: stands at the month's end.",
                  bw_section_title(page, section->name), words, place);
}

static void draw_run(bw_page *page, const bw_section *section,
                     const bw_monthly_run *run, const char *words)
{
    for (size_t i = 0; run->ran && i < run->result.plane_count; i++)
        if (bw_holds_water(&run->result.plane[i]))
            draw_plane(page, section, &run->result, run->name, words,
                       &run->result.plane[i]);
}

BW_DRAWN(water, "Water inside the wall through the year")
{
    bw_plates(page, "plates");
    for (size_t i = 0; i < of->wall[0]->section_count; i++) {
        const bw_section_assessment *s = &of->wall[0]->section[i];
        if (!bw_has_planes(s))
            continue;
        draw_run(page, s->section, &s->run[BW_RUN_DESIGN], "as built");
        draw_run(page, s->section, &s->run[BW_RUN_LEAKAGE],
                 "with room air leaking in");
        draw_run(page, s->section, &s->run[BW_RUN_INWARD],
                 "wet outer layer in the sun");
    }
    if (!bw_plates_end(page))
        bw_text(page, "By the monthly method no water stands anywhere in "
                      "any month: there is nothing to draw.");
}

/* ---- the drying test --------------------------------------------------- */

typedef struct way {
    const bw_monthly_result *run;
    const char *name;
} way;

/* All the water in the section at the end of each month since the wetting. */
static void left_over(const bw_monthly_result *run, double wetting,
                      double out[BW_MONTHS + 1])
{
    out[0] = wetting;
    for (int k = 0; k < BW_MONTHS; k++) {
        int m = (run->start_month + k) % BW_MONTHS;
        out[k + 1] = 0.0;
        for (size_t i = 0; i < run->plane_count; i++)
            out[k + 1] += run->plane[i].month[m].accumulated;
    }
}

static void draw_ways(bw_chart *c, double y[3][BW_MONTHS + 1], double factor)
{
    double x[BW_MONTHS + 1];
    for (int k = 0; k <= BW_MONTHS; k++)
        x[k] = k;
    for (int w = 0; w < 3; w++) {
        double shown[BW_MONTHS + 1];
        for (int k = 0; k <= BW_MONTHS; k++)
            shown[k] = factor * y[w][k];
        /* Past the point where all is dry the line adds nothing. */
        size_t count = 1;
        while (count <= BW_MONTHS && (count == 1 || shown[count - 1] > 0.0))
            count++;
        bw_chart_line(c, bw_way_class[w], x, shown, count);
    }
}

static void draw_drying(bw_page *page, const bw_assessment *assessment,
                        const bw_section_assessment *s)
{
    double wetting = assessment->assembly->drying_test.wetting;
    const bw_monthly_run *wetted = &s->run[BW_RUN_WETTED_BOTH];
    const way ways[3] = {{&wetted[0].result, "both"},
                         {&wetted[1].result, "outwards"},
                         {&wetted[2].result, "inwards"}};
    double y[3][BW_MONTHS + 1], zero = 0.0, high = wetting;
    for (int w = 0; w < 3; w++) {
        left_over(ways[w].run, wetting, y[w]);
        for (int k = 0; k <= BW_MONTHS; k++)
            high = fmax(high, y[w][k]);
    }
    const char *unit = "";
    double factor = bw_water_factor(high, &unit);
    high *= factor;
    bw_round_range(&zero, &high, 5);
    bw_chart c;
    bw_figure_start(page, "drying", s->section->name, "");
    for (int w = 0; w < 3; w++)
        bw_figure_data(page, bw_phrase(page, "data-%s", ways[w].name), y[w] + 1,
                       BW_MONTHS);
    const char *place = bw_plane_text(page, s->section, s->wet_plane);
    bw_figure_chart(
        page, &c, 360, 220, "Drying test",
        "Water left over the first year after the wetting: both ways "
        "%s, outwards only %s, inwards only %s.",
        bw_drying_time(page, ways[0].run, wetting),
        bw_drying_time(page, ways[1].run, wetting),
        bw_drying_time(page, ways[2].run, wetting));
    bw_year_box(&c, 30.0, 352.0, 196.0, ways[0].run->start_month);
    bw_upright_axis(&c, zero, high, 5, unit);
    draw_ways(&c, y, factor);
    bw_ways_legend(&c, 3);
    bw_chart_end(&c);
    bw_figure_end(
        page,
        "%s: all water in the section in the year after %s g/m2 were put %s.",
        bw_section_title(page, s->section->name), bw_grams(page, wetting),
        place);
}

BW_DRAWN(drying, NULL)
{
    const bw_assessment *assessment = of->wall[0];
    bw_plates(page, "plates");
    for (size_t i = 0; i < assessment->section_count; i++)
        if (assessment->section[i].run[BW_RUN_WETTED_BOTH].ran &&
            assessment->section[i].run[BW_RUN_WETTED_BOTH].result.plane_count >
                0)
            draw_drying(page, assessment, &assessment->section[i]);
    bw_plates_end(page);
}
