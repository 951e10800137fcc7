#include "plot.h"

#include <string.h>

/* What figures of a section share: its months, its depth from outside, in mm.
 */

static int extreme_month(const bw_section_assessment *section, double sign)
{
    int best = 0;
    for (int m = 1; m < BW_MONTHS; m++)
        if (sign * section->boundary[m].theta_e >
            sign * section->boundary[best].theta_e)
            best = m;
    return best;
}

int bw_coldest_month(const bw_section_assessment *section)
{
    return extreme_month(section, -1.0);
}

int bw_warmest_month(const bw_section_assessment *section)
{
    return extreme_month(section, 1.0);
}

bool bw_has_planes(const bw_section_assessment *section)
{
    return section->run[BW_RUN_DESIGN].ran &&
           section->run[BW_RUN_DESIGN].result.plane_count >= 2 &&
           section->run[BW_RUN_DESIGN].result.plane_count <= BW_PLOT_FACES;
}

/* Letters J F M ... below. */
static void month_axis(bw_chart *chart, int first)
{
    bw_chart_stroke(chart, "axis", chart->left, chart->bottom, chart->right,
                    chart->bottom);
    for (int k = 0; k <= BW_MONTHS; k++) {
        double x = bw_chart_x(chart, k);
        bw_chart_stroke(chart, "axis", x, chart->bottom, x,
                        chart->bottom + 3.0);
        if (k == BW_MONTHS)
            break;
        char letter[2] = {bw_month_name((first + k) % BW_MONTHS)[0], '\0'};
        bw_chart_text(chart, "num", bw_chart_x(chart, k + 0.5),
                      chart->bottom + 13.0, BW_MIDDLE, letter);
    }
}

void bw_year_box(bw_chart *chart, double top, double right, double bottom,
                 int first)
{
    bw_chart_box(chart, 38.0, top, right, bottom);
    bw_chart_range_x(chart, 0.0, BW_MONTHS);
    month_axis(chart, first);
}

void bw_upright_axis(bw_chart *chart, double low, double high, size_t most,
                     const char *unit)
{
    bw_ticks ticks = bw_ticks_make(low, high, most);
    bw_chart_range_y(chart, low, high);
    bw_chart_axis_y(chart, &ticks, unit);
    bw_chart_rules_y(chart, &ticks);
}

void bw_number_layers(bw_page *page, bw_chart *chart, const double *place,
                      const size_t *number, size_t count)
{
    double label[BW_PLOT_FACES];
    memcpy(label, place, count * sizeof *label);
    bw_spread(label, count, 11.5, chart->left, chart->right);
    for (size_t i = 0; i < count; i++) {
        bw_chart_stroke(chart, "face", label[i], chart->top - 9.0, place[i],
                        chart->top);
        bw_chart_text(chart, "num", label[i], chart->top - 12.0, BW_MIDDLE,
                      bw_phrase(page, "%zu", number[i]));
    }
}

double bw_year_place(int first, double share)
{
    double year = 0.0;
    for (int m = 0; m < BW_MONTHS; m++)
        year += bw_month_seconds(m);
    double left = share * year;
    for (int k = 0; k < BW_MONTHS; k++) {
        const double length = bw_month_seconds((first + k) % BW_MONTHS);
        if (left <= length)
            return k + left / length;
        left -= length;
    }
    return BW_MONTHS;
}

bool bw_is_wet(const bw_plane_month *month)
{
    return month->accumulated > 0.0 || month->condensation > 0.0;
}

void bw_disc(bw_chart *chart, const char *class_name, double x, double y,
             double radius)
{
    bw_tag_open(chart->out, "circle", class_name);
    bw_tag_set_number(chart->out, "cx", x, 5);
    bw_tag_set_number(chart->out, "cy", y, 5);
    bw_tag_set_number(chart->out, "r", radius, 3);
    bw_tag_close_short(chart->out);
}

const char *bw_fitted(bw_page *page, const char *text, size_t columns)
{
    size_t skip = 0;
    if (bw_columns(text, strlen(text)) <= columns)
        return text;
    const size_t length = bw_line_break(text, columns - 1, &skip);
    return bw_phrase(page, "%.*s\u2026", (int)length, text);
}

void bw_level_line(bw_chart *chart, const char *class_name, double value)
{
    double y = bw_chart_y(chart, value);
    bw_chart_stroke(chart, class_name, chart->left, y, chart->right, y);
}

void bw_limit_line(bw_chart *chart, double value, const char *name)
{
    if (value < chart->y.from || value > chart->y.to)
        return;
    bw_level_line(chart, "limit", value);
    bw_chart_text(chart, "num", chart->right + 4.0,
                  bw_chart_y(chart, value) + 3.5, BW_START, name);
}

double bw_water_factor(double most, const char **unit)
{
    bool kilograms = most >= 5.0;
    *unit = kilograms ? "kg/m\u00b2" : "g/m\u00b2";
    return kilograms ? 1.0 : 1000.0;
}

const char *const bw_way_class[3] = {"main", "wetdash", "dots"};
const char *const bw_way_name[3] = {"both ways", "outwards only",
                                    "inwards only"};

void bw_ways_legend(bw_chart *chart, size_t count)
{
    static const double at[] = {76.0, 158.0, 262.0};
    for (size_t i = 0; i < count && i < sizeof at / sizeof *at; i++) {
        bw_chart_stroke(chart, bw_way_class[i], at[i], 9.0, at[i] + 20.0, 9.0);
        bw_chart_text(chart, "num", at[i] + 24.0, 12.5, BW_START,
                      bw_way_name[i]);
    }
}

void bw_depth_axis(bw_chart *chart)
{
    const bw_scale metres = chart->x;
    chart->x.from *= 1e3;
    chart->x.to *= 1e3;
    const bw_ticks ticks = bw_ticks_make(chart->x.from, chart->x.to, 6);
    bw_chart_axis_x(chart, &ticks, "mm from the outer face");
    chart->x = metres;
}
