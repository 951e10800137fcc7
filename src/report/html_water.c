/* Water through the year: what condenses and dries each month and what
 * stands, where water stands; and the drying test, its water over a year. */

#include <math.h>

#include "html.h"
#include "html_plot.h"
#include "names.h"

typedef struct months {
    double gain[BW_MONTHS], stands[BW_MONTHS];
} months;

static bool holds_water(const bw_plane *plane)
{
    for (int m = 0; m < BW_MONTHS; m++)
        if (plane->month[m].accumulated > 0.0)
            return true;
    return false;
}

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

static void data_of(bw_html *html, const bw_plane *plane)
{
    double gain[BW_MONTHS], stands[BW_MONTHS];
    for (int m = 0; m < BW_MONTHS; m++) {
        gain[m] = plane->month[m].condensation;
        stands[m] = plane->month[m].accumulated;
    }
    bw_tag_set_numbers(&html->out, "data-condensation", gain, BW_MONTHS);
    bw_tag_set_numbers(&html->out, "data-accumulated", stands, BW_MONTHS);
}

static void draw_plane(bw_html *html, const bw_section *section,
                       const bw_monthly_result *run, const char *name,
                       const char *words, const bw_plane *plane)
{
    bw_page *page = &html->page;
    months year = year_of(plane, run->start_month);
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
    bw_html_figure(html, "water", section->name, name);
    data_of(html, plane);
    bw_chart_start(&c, &html->out, 360, 200, bw_phrase(page, "Water %s", place),
                   bw_phrase(page,
                             "Monthly condensation and drying as bars and "
                             "water standing as a line, from %s. At most %s.",
                             bw_month_name(run->start_month),
                             bw_amount(page, plane->peak)));
    bw_chart_box(&c, 38.0, 22.0, 352.0, 176.0);
    bw_chart_range_x(&c, 0.0, BW_MONTHS);
    bw_chart_range_y(&c, low, high);
    bw_ticks y = bw_ticks_make(low, high, 5);
    bw_chart_axis_y(&c, &y, unit);
    bw_chart_rules_y(&c, &y);
    draw_bars(&c, &year, factor);
    bw_chart_stroke(&c, "axis", c.left, bw_chart_y(&c, 0.0), c.right,
                    bw_chart_y(&c, 0.0));
    bw_month_axis(&c, run->start_month);
    draw_standing(&c, &year, factor);
    bw_chart_end(&c);
    bw_html_figure_end(
        html,
        bw_phrase(page,
                  "%s, %s: %s. Full bars: condenses; hatched, "
                  "downwards: dries. Line: stands at the month's end.",
                  bw_html_section_name(html, section->name), words, place));
}

/* Returns how many were drawn. */
static size_t draw_run(bw_html *html, const bw_section *section,
                       const bw_monthly_result *run, const char *name,
                       const char *words)
{
    size_t drawn = 0;
    for (size_t i = 0; i < run->plane_count; i++)
        if (holds_water(&run->plane[i])) {
            draw_plane(html, section, run, name, words, &run->plane[i]);
            drawn++;
        }
    return drawn;
}

void bw_html_water(bw_html *html, const bw_assessment *assessment)
{
    size_t drawn = 0;
    bw_page_heading(&html->page, "Water inside the wall through the year");
    bw_html_plates(html, "plates");
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *s = &assessment->section[i];
        if (!bw_has_planes(s))
            continue;
        drawn += draw_run(html, s->section, &s->design, "design", "as built");
        if (s->has_leaky)
            drawn += draw_run(html, s->section, &s->leaky, "with-air-leakage",
                              "with room air leaking in");
        if (s->has_inward)
            drawn += draw_run(html, s->section, &s->inward, "inward",
                              "wet outer layer in the sun");
    }
    bw_html_plates_end(html);
    if (drawn == 0)
        bw_page_text(&html->page, 2, 2,
                     "By the monthly method no water stands anywhere in any "
                     "month: there is nothing to draw.");
}

/* ---- the drying test --------------------------------------------------- */

typedef struct way {
    const bw_monthly_result *run;
    const char *name, *class_name, *label;
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

static void draw_ways(bw_html *html, bw_chart *c, const way ways[3],
                      double y[3][BW_MONTHS + 1], double factor)
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
        bw_chart_line(c, ways[w].class_name, x, shown, count);
    }
    (void)html;
}

/* The three dashes, with their words, in the room above the plot. */
static void draw_legend(bw_chart *c, const way ways[3])
{
    static const double at[] = {76.0, 158.0, 262.0};
    for (int w = 0; w < 3; w++) {
        bw_chart_stroke(c, ways[w].class_name, at[w], 9.0, at[w] + 20.0, 9.0);
        bw_chart_text(c, "num", at[w] + 24.0, 12.5, BW_START, ways[w].label);
    }
}

static void draw_drying(bw_html *html, const bw_assessment *assessment,
                        const bw_section_assessment *s)
{
    bw_page *page = &html->page;
    double wetting = assessment->assembly->drying_test.wetting;
    const way ways[3] = {
        {&s->dry_both, "both", "main", "both ways"},
        {&s->dry_outwards, "outwards", "wetdash", "outwards only"},
        {&s->dry_inwards, "inwards", "dots", "inwards only"}};
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
    bw_html_figure(html, "drying", s->section->name, "");
    for (int w = 0; w < 3; w++)
        bw_tag_set_numbers(&html->out, bw_phrase(page, "data-%s", ways[w].name),
                           y[w] + 1, BW_MONTHS);
    const char *place = bw_plane_text(page, s->section, s->wet_plane);
    bw_chart_start(
        &c, &html->out, 360, 220, "Drying test",
        bw_phrase(page,
                  "Water left over the first year after the wetting: both "
                  "ways %s, outwards only %s, inwards only %s.",
                  bw_drying_time(page, &s->dry_both, wetting),
                  bw_drying_time(page, &s->dry_outwards, wetting),
                  bw_drying_time(page, &s->dry_inwards, wetting)));
    bw_chart_box(&c, 38.0, 30.0, 352.0, 196.0);
    bw_chart_range_x(&c, 0.0, BW_MONTHS);
    bw_chart_range_y(&c, zero, high);
    bw_ticks ticks = bw_ticks_make(zero, high, 5);
    bw_chart_axis_y(&c, &ticks, unit);
    bw_chart_rules_y(&c, &ticks);
    bw_month_axis(&c, s->dry_both.start_month);
    draw_ways(html, &c, ways, y, factor);
    draw_legend(&c, ways);
    bw_chart_end(&c);
    bw_html_figure_end(
        html, bw_phrase(page,
                        "%s: all water in the section in the year after %s "
                        "g/m2 were put %s.",
                        bw_html_section_name(html, s->section->name),
                        bw_grams(page, wetting), place));
}

void bw_html_drying(bw_html *html, const bw_assessment *assessment)
{
    bool any = false;
    for (size_t i = 0; i < assessment->section_count; i++)
        any = any || assessment->section[i].has_dry;
    if (!any)
        return;
    bw_html_plates(html, "plates");
    for (size_t i = 0; i < assessment->section_count; i++)
        if (assessment->section[i].has_dry &&
            assessment->section[i].dry_both.plane_count > 0)
            draw_drying(html, assessment, &assessment->section[i]);
    bw_html_plates_end(html);
}
