#include "html_plot.h"

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
    return section->has_design && section->design.plane_count >= 2 &&
           section->design.plane_count <= BW_PLOT_FACES;
}

void bw_month_axis(bw_chart *chart, int first)
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

double bw_water_factor(double most, const char **unit)
{
    bool kilograms = most >= 5.0;
    *unit = kilograms ? "kg/m\u00b2" : "g/m\u00b2";
    return kilograms ? 1.0 : 1000.0;
}
