/* Every mark of the charts of water in the monthly method, of its drying test
 * and of layers that open with humidity lies at the place its datum says. Read
 * back and computed as in test_marks.c. */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "marks_case.h"

enum { SEEDS = 6 };

/* Full above nought, open below; the line stands at the ends of months. */
START_TEST(water_of_each_month_is_a_bar_and_a_point)
{
    start(_i);
    random_months();
    water_at(1);
    if (_i % 2 == 1) /* beyond 5 kg/m2 in kg */
        for (int m = 0; m < BW_MONTHS; m++) {
            wall.plane[1].month[m].condensation *= 20.0;
            wall.plane[1].month[m].accumulated *= 20.0;
        }
    const int first = (int)(12.0 * uniform(&die));
    wall.checked.run[BW_RUN_DESIGN].result.start_month = first;
    print_page();
    must_read_chart("//figure[@data-chart='water'][@data-run='design']", 0);
    const bool kg = text_of("unit", "kg/m\u00b2") != NULL;
    ck_assert(kg != (text_of("unit", "g/m\u00b2") != NULL));
    const axis x = read_months(first), y = read_axis(true, false);
    has_unit(&y, true, kg ? "kg/m\u00b2" : "g/m\u00b2");
    has_rules(&y);
    TELLS("water standing as a line, from %s. At most ", bw_month_name(first));
    double at[BW_MONTHS], stands[BW_MONTHS], low = 0.0, high = 0.0;
    size_t gains = 0, losses = 0;
    for (int k = 0; k < BW_MONTHS; k++) {
        const bw_plane_month *p = &wall.plane[1].month[(first + k) % BW_MONTHS];
        const double gain = p->condensation * (kg ? 1.0 : 1000.0);
        at[k] = k + 1.0;
        stands[k] = p->accumulated * (kg ? 1.0 : 1000.0);
        low = fmin(low, gain);
        high = fmax(high, fmax(gain, stands[k]));
        const double zero = axis_place(&y, 0.0), end = axis_place(&y, gain);
        const double width = 0.56 / x.per;
        if (fabs(end - zero) < 0.3)
            continue;
        rect_is(mark_of(DRAWN_RECT, gain > 0.0 ? "gain" : "loss",
                        gain > 0.0 ? gains++ : losses++),
                axis_place(&x, k + 0.5) - 0.5 * width, fmin(end, zero), width,
                fabs(end - zero));
        circle_is("ink", (size_t)k, axis_place(&x, at[k]),
                  axis_place(&y, stands[k]));
    }
    ck_assert(kg == (fmax(high, -low) >= (kg ? 5.0 : 5000.0)));
    line_is("main", 0, &x, &y, at, stands, BW_MONTHS);
    line_is("under", 0, &x, &y, at, stands, BW_MONTHS);
    ck_assert_uint_eq(marks_of(DRAWN_CIRCLE, "ink"), BW_MONTHS);
    holds_all(&y, low, high);
    stroke_is("axis", marks_of(DRAWN_PATH, "axis") - 1, x.from,
              axis_place(&y, 0.0), x.to, axis_place(&y, 0.0));
}
END_TEST

/* All planes together; past the month in which all is dry a line ends. */
START_TEST(the_drying_test_is_drawn_month_by_month)
{
    static const char *const lines[] = {"main", "wetdash", "dots"};
    static bw_plane planes[3][2];
    start(_i);
    const int first = (int)(12.0 * uniform(&die));
    const double wetting = between(&die, 0.3, 2.0);
    double y[3][BW_MONTHS + 1], x[BW_MONTHS + 1], high = wetting;
    size_t count[3];
    wall.assembly.drying_test.wetting = wetting;
    for (int w = 0; w < 3; w++) {
        bw_monthly_result *run =
            &wall.checked.run[BW_RUN_WETTED_BOTH + w].result;
        const int dry = 3 + 4 * w; /* months with water */
        memset(planes[w], 0, sizeof planes[w]);
        run->plane = planes[w];
        run->plane_count = 2;
        run->start_month = first;
        y[w][0] = wetting;
        count[w] = (size_t)(dry < BW_MONTHS ? dry + 2 : BW_MONTHS + 1);
        for (int k = 0; k < BW_MONTHS; k++) {
            const int m = (first + k) % BW_MONTHS;
            for (int i = 0; i < 2; i++)
                planes[w][i].month[m].accumulated =
                    k < dry ? between(&die, 0.05, 0.6) : 0.0;
            y[w][k + 1] = planes[w][0].month[m].accumulated +
                          planes[w][1].month[m].accumulated;
            high = fmax(high, y[w][k + 1]);
        }
    }
    print_page();
    must_read_chart("//figure[@data-chart='drying']", 0);
    const bool kg = text_of("unit", "kg/m\u00b2") != NULL;
    ck_assert(kg != (text_of("unit", "g/m\u00b2") != NULL));
    const axis ax = read_months(first), ay = read_axis(true, false);
    has_rules(&ay);
    for (int w = 0; w < 3; w++) {
        for (int k = 0; k <= BW_MONTHS; k++) {
            x[k] = k;
            y[w][k] *= kg ? 1.0 : 1000.0;
        }
        line_is(lines[w], 0, &ax, &ay, x, y[w], count[w]);
    }
    holds_all(&ay, 0.0, high * (kg ? 1.0 : 1000.0));
}
END_TEST

/* A film that opens with humidity: its curve, and the months on it. */
START_TEST(the_months_of_a_membrane_lie_on_its_humidity_and_sd)
{
    start(_i);
    random_months();
    for (int m = 0; m < BW_MONTHS; m++)
        wall.layer_sd[2][m] = decades(&die, -0.3, 0.8);
    print_page();
    must_read_chart("//figure[@data-chart='membrane']", 0);
    const axis x = read_axis(false, false), y = read_axis(true, true);
    has_rules(&y);
    has_unit(&x, false, "mean humidity of its two faces, %");
    ck_assert_ptr_nonnull(text_of("unit", "sd, m"));
    ck_assert_uint_eq(marks_of(DRAWN_CIRCLE, "ring"), BW_MONTHS);
    int least = 0, highest = 0;
    for (int m = 0; m < BW_MONTHS; m++) {
        const double phi = 50.0 * (wall.plane[2].month[m].relative_humidity +
                                   wall.plane[3].month[m].relative_humidity);
        const double px = axis_place(&x, phi);
        const double py = axis_place(&y, wall.layer_sd[2][m]);
        circle_is("ring", (size_t)m, px, py);
        const drawn *name = text_of("tiny", bw_month_name(m));
        ck_assert_ptr_nonnull(name);
        bool led = false;
        for (size_t k = 0; k < BW_MONTHS; k++) {
            read_outline("face", k);
            led = led || (outline.count == 2 &&
                          fabs(outline.point[0].x - name->x) < 0.11 &&
                          fabs(outline.point[0].y - 2.0 - name->y) < 0.11 &&
                          lies(outline.point[1], px, py - 3.0));
        }
        ck_assert_msg(led, "%s is led nowhere", bw_month_name(m));
        if (wall.layer_sd[2][m] < wall.layer_sd[2][least])
            least = m;
        if (wall.layer_sd[2][m] > wall.layer_sd[2][highest])
            highest = m;
    }
    char said[160];
    snprintf(said, sizeof said,
             "Tightest in %s (%.3g m), most open in %s "
             "(%.3g m)",
             bw_month_name(highest), wall.layer_sd[2][highest],
             bw_month_name(least), wall.layer_sd[2][least]);
    HAS(chart.caption, said);
    TELLS("Tightest in %s at %.3g m, most open in %s at %.3g m.",
          bw_month_name(highest), wall.layer_sd[2][highest],
          bw_month_name(least), wall.layer_sd[2][least]);
    /* between the points of its curve sd is straight in its logarithm, beyond
     * them as at their ends */
    read_outline("main", 0);
    for (size_t k = 0; k < outline.count; k++) {
        const double phi = axis_value(&x, outline.point[k].x) / 100.0;
        const double share = fmin(fmax((phi - 0.25) / 0.65, 0.0), 1.0);
        const double sd = exp(log(8.0) + share * (log(0.4) - log(8.0)));
        ck_assert_double_eq_tol(outline.point[k].y, axis_place(&y, sd), 0.5);
    }
    ck_assert_double_eq_tol(outline.point[0].x, axis_place(&x, 0.0), PAPER);
    ck_assert_double_eq_tol(outline.point[outline.count - 1].x,
                            axis_place(&x, 100.0), PAPER);
}
END_TEST

/* Where a face of it is no plane its humidity is not known: no chart. */
START_TEST(a_membrane_without_both_faces_is_not_drawn)
{
    start(_i);
    random_months();
    for (int m = 0; m < BW_MONTHS; m++)
        wall.layer_sd[2][m] = decades(&die, -0.3, 0.8);
    if (_i > 0) /* within its layer, on no face */
        wall.plane[1 + (size_t)_i].at.layer_face = false;
    print_page();
    ck_assert(read_chart("//figure[@data-chart='membrane']", 0) == (_i == 0));
}
END_TEST

/* One resistance at every humidity is a level line; none has no logarithm. */
START_TEST(a_membrane_of_one_resistance_is_drawn)
{
    static const double same[] = {4.0, 4.0}, none[] = {0.0, 4.0};
    start(0);
    random_months();
    wall.material[2].sd_curve.y = _i == 0 ? same : none;
    for (int m = 0; m < BW_MONTHS; m++)
        wall.layer_sd[2][m] = 4.0;
    print_page();
    ck_assert(read_chart("//figure[@data-chart='membrane']", 0) == (_i == 0));
}
END_TEST

/* Months with water, as runs through the turn of the year. */
static const struct {
    const char *wet; /* from January */
    const char *says;
} seasons[] = {
    {"............", "By months no water forms."},
    {".x..........", "; black bar: with water, Feb."},
    {"x...........", "; black bar: with water, Jan."},
    {"...........x", "; black bar: with water, Dec."},
    {"xx.......xxx", "; black bar: with water, Oct to Feb."},
    {".xx..x......", "; black bar: with water, Feb to Mar, Jun."},
    {"xxxxxxxxxx.x", "; black bar: with water, Dec to Oct."},
    {"xxxxxxxxxxxx", "; black bar: with water, all year."},
};

START_TEST(the_season_with_water_is_told_by_its_months)
{
    for (int first = 0; first < BW_MONTHS; first += 5) {
        bw_monthly_result *run = &wall.checked.run[BW_RUN_DESIGN].result;
        page_teardown();
        page_setup();
        run->start_month = first;
        run->peak = _i == 0 ? 0.0 : 0.25;
        for (int m = 0; m < BW_MONTHS; m++) {
            wall.plane[1].month[m].condensation = 0.0;
            wall.plane[1].month[m].accumulated = seasons[_i].wet[m] == 'x'
                                                     ? 0.25
                                                     : 0.0;
        }
        print_page();
        must_read_chart("//figure[@data-chart='year']", 0);
        HAS(chart.caption, seasons[_i].says);
        TELLS("%s", seasons[_i].says);
    }
}
END_TEST

SUITE_AROUND("marks_water", page_setup, page_teardown,
             EACH(water_of_each_month_is_a_bar_and_a_point, SEEDS),
             EACH(the_drying_test_is_drawn_month_by_month, SEEDS),
             EACH(the_months_of_a_membrane_lie_on_its_humidity_and_sd, SEEDS),
             EACH(a_membrane_without_both_faces_is_not_drawn, 3),
             EACH(a_membrane_of_one_resistance_is_drawn, 2),
             EACH(the_season_with_water_is_told_by_its_months, COUNT(seasons)))
