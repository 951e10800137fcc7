/* Every mark of the charts of the monthly method lies at the place its datum
 * says: the axes are read back from their figures, results are random numbers,
 * and what is expected is computed here from the results alone. Saturation and
 * dew point by ISO 13788:2012, equations E.7 to E.10. */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "marks_case.h"

enum { SEEDS = 6 };

static const double depth[WALL_PLANES] = {0.0, 0.012, 0.102, 0.102};

/* The lines of a month over sd: at each plane what it has; between, saturation
 * runs as a straight temperature makes it. */
static void check_vapour(int m)
{
    double sd[WALL_PLANES], p[WALL_PLANES];
    const axis x = read_axis(false, false), y = read_axis(true, false);
    for (size_t i = 0; i < WALL_PLANES; i++) {
        sd[i] = wall.plane[i].month[m].sd_from_outside;
        p[i] = wall.plane[i].month[m].vapour_pressure;
    }
    has_unit(&x, false, "sd from outside, m");
    has_unit(&y, true, "Pa");
    line_is("wetdash", 0, &x, &y, sd, p, WALL_PLANES);
    read_outline("main", 0);
    size_t at = 0;
    for (size_t k = 0; k < outline.count; k++) {
        const svg_point v = outline.point[k];
        while (at + 2 < WALL_PLANES &&
               axis_value(&x, v.x) > sd[at + 1] + PAPER * x.per)
            at++;
        const bw_plane_month *a = &wall.plane[at].month[m];
        const bw_plane_month *b = &wall.plane[at + 1].month[m];
        const double share = (axis_value(&x, v.x) - sd[at]) /
                             (sd[at + 1] - sd[at]);
        const double theta = a->theta + share * (b->theta - a->theta);
        /* the slope of saturation adds to what rounding x does */
        const double slope = fabs(psat(b->theta) - psat(a->theta)) /
                             (axis_place(&x, sd[at + 1]) -
                              axis_place(&x, sd[at]));
        ck_assert_double_eq_tol(axis_value(&y, v.y), psat(theta),
                                PAPER * (fabs(y.per) + 1.5 * slope));
    }
    /* bent, not straight, where the temperature differs */
    ck_assert_uint_eq(outline.count, 1 + 6 + 6 + 1);
    for (size_t i = 0; i < 3; i++) {
        const size_t vertex = i == 0 ? 0 : 6 * i;
        ck_assert_double_eq_tol(outline.point[vertex].x, axis_place(&x, sd[i]),
                                PAPER);
    }
    ck_assert_double_eq_tol(outline.point[13].x, axis_place(&x, sd[3]), PAPER);
    for (size_t i = 1; i < WALL_PLANES; i++)
        stroke_is("face", i - 1, axis_place(&x, sd[i]), 38.0,
                  axis_place(&x, sd[i]), x.line);
}

static void drop_is(size_t nth, double x, double y)
{
    static const double side[5][2] = {
        {0.0, 0.0}, {3.6, 6.5}, {2.2, 9.5}, {-2.2, 9.5}, {-3.6, 6.5}};
    read_outline("drop", nth);
    ck_assert_uint_eq(outline.count, 5);
    for (size_t i = 0; i < 5; i++)
        ck_assert(lies(outline.point[i], x + side[i][0], y + side[i][1]));
}

START_TEST(vapour_pressures_lie_at_their_planes)
{
    start(_i);
    random_months();
    water_at(1);
    const int months[] = {extreme(-1.0), extreme(1.0)};
    print_page();
    for (size_t k = 0; k < COUNT(months); k++) {
        const int m = months[k];
        must_read_chart("//figure[@data-chart='vapour']", k);
        HAS(chart.caption, bw_month_name(m));
        check_vapour(m);
        TELLS("Outside %.0f, in the room %.0f pascals.",
              wall.checked.boundary[m].p_e, wall.checked.boundary[m].p_i);
        const bw_plane_month *at = &wall.plane[1].month[m];
        const bool wet = at->accumulated > 0.0 || at->condensation > 0.0;
        const axis x = read_axis(false, false), y = read_axis(true, false);
        ck_assert_uint_eq(marks_of(DRAWN_PATH, "drop"), wet);
        if (wet)
            drop_is(0, axis_place(&x, at->sd_from_outside),
                    axis_place(&y, at->saturation_pressure));
        double high = 0.0;
        for (int n = 0; n < BW_MONTHS; n++)
            for (size_t i = 0; i < WALL_PLANES; i++)
                high = fmax(high, wall.plane[i].month[n].saturation_pressure);
        holds_all(&y, 0.0, high);
    }
    must_read_chart("//figure[@data-chart='vapour']", 1);
    ck_assert(!read_chart("//figure[@data-chart='vapour']", 2));
}
END_TEST

/* Twelve small ones: the bottom is nought, the highest rule has its figure. */
START_TEST(the_twelve_small_months_lie_on_one_scale)
{
    start(_i);
    random_months();
    print_page();
    double widest = 0.0;
    for (int m = 0; m < BW_MONTHS; m++)
        widest = fmax(widest, wall.plane[3].month[m].sd_from_outside);
    for (int m = 0; m < BW_MONTHS; m++) {
        double sd[WALL_PLANES], p[WALL_PLANES];
        must_read_chart("//figure[@data-chart='vapour-small']", (size_t)m);
        const size_t rules = marks_of(DRAWN_PATH, "rule");
        ck_assert_uint_ge(rules, 2);
        read_outline("rule", rules - 1);
        const double top = outline.point[0].y;
        read_outline("rule", 0);
        const double bottom = outline.point[0].y;
        read_outline("axis", 0);
        ck_assert_double_eq_tol(outline.point[0].y, bottom, 0.05);
        const double left = outline.point[0].x, right = outline.point[1].x;
        const drawn *figure = mark_of(DRAWN_TEXT, "tiny soft halo", 0);
        ck_assert_ptr_nonnull(figure);
        ck_assert_double_eq_tol(figure->y, top - 2.0, 0.11);
        ck_assert_ptr_nonnull(strstr(figure->text, " Pa"));
        const axis y = {.at0 = strtod(figure->text, NULL) * bottom /
                               (bottom - top),
                        .per = -strtod(figure->text, NULL) / (bottom - top)};
        const axis x = {.at0 = -widest * left / (right - left),
                        .per = widest / (right - left)};
        for (size_t i = 0; i < WALL_PLANES; i++) {
            sd[i] = wall.plane[i].month[m].sd_from_outside;
            p[i] = wall.plane[i].month[m].vapour_pressure;
        }
        line_is("wetdash", 0, &x, &y, sd, p, WALL_PLANES);
        read_outline("main", 0);
        ck_assert(
            lies(outline.point[0], axis_place(&x, sd[0]),
                 axis_place(&y, wall.plane[0].month[m].saturation_pressure)));
        ck_assert(
            lies(outline.point[outline.count - 1], axis_place(&x, sd[3]),
                 axis_place(&y, wall.plane[3].month[m].saturation_pressure)));
        ck_assert_ptr_nonnull(text_of("num", bw_month_name(m)));
    }
}
END_TEST

/* The film has more than four times the sd of the rest: it is drawn as wide as
 * the rest, and its sd is written below. */
START_TEST(a_layer_that_would_fill_the_width_is_shortened)
{
    static const double curve[] = {30.0, 20.0};
    start(_i);
    random_months();
    wall.material[2].sd_curve.y = curve;
    for (int m = 0; m < BW_MONTHS; m++) {
        wall.layer_sd[2][m] = between(&die, 20.0, 30.0);
        wall.plane[3].month[m].sd_from_outside =
            wall.plane[2].month[m].sd_from_outside + wall.layer_sd[2][m];
    }
    const int m = extreme(-1.0);
    double mean = 0.0, rest = 0.0, widest = 0.0;
    for (int k = 0; k < BW_MONTHS; k++) {
        mean += wall.layer_sd[2][k] / BW_MONTHS;
        rest += wall.plane[2].month[k].sd_from_outside / BW_MONTHS;
    }
    for (int k = 0; k < BW_MONTHS; k++)
        widest = fmax(widest, wall.plane[2].month[k].sd_from_outside +
                                  wall.layer_sd[2][k] * rest / mean);
    print_page();
    must_read_chart("//figure[@data-chart='vapour']", 0);
    const axis y = read_axis(true, false);
    const axis x = {.at0 = -widest * 38.0 / (352.0 - 38.0),
                    .per = widest / (352.0 - 38.0)};
    double at[WALL_PLANES], p[WALL_PLANES];
    for (size_t i = 0; i < WALL_PLANES; i++) {
        at[i] = wall.plane[i].month[m].sd_from_outside;
        p[i] = wall.plane[i].month[m].vapour_pressure;
    }
    at[3] = at[2] + wall.layer_sd[2][m] * rest / mean;
    line_is("wetdash", 0, &x, &y, at, p, WALL_PLANES);
    char text[32];
    snprintf(text, sizeof text, "%.3g m", wall.layer_sd[2][m]);
    const drawn *said = text_of("num", text);
    ck_assert_ptr_nonnull(said);
    ck_assert_double_eq_tol(
        said->x, 0.5 * (axis_place(&x, at[2]) + axis_place(&x, at[3])), PAPER);
    ck_assert_ptr_nonnull(
        text_of("unit", "sd from outside, m; broken layers are wider"));
}
END_TEST

/* Each of the last three has more than four times the sd of all smaller ones:
 * the two widest are drawn as wide as all that is smaller than both. */
START_TEST(of_many_such_layers_the_two_widest_are_shortened)
{
    const double scaled = _i == 0 ? 1.0 : 0.01; /* however open all are */
    enum { SLABS = 5, PLANES = SLABS + 1 };
    static const double sds[] = {0.1, 2.0, 400.0, 0.2, 30.0};
    static const double as_drawn[] = {0.1, 2.0, 2.3, 0.2, 2.3};
    static bw_slab slabs[SLABS];
    static bw_plane planes[PLANES];
    static double layer_sd[SLABS][BW_MONTHS];
    start(1);
    random_months();
    double sd = 0.0, at[PLANES] = {0.0}, p[PLANES];
    for (size_t i = 0; i < PLANES; i++) {
        planes[i] = wall.plane[i < WALL_PLANES ? i : WALL_PLANES - 1];
        planes[i].at = (bw_plane_at){i > 0 ? i - 1 : 0, 0.01, i > 0};
        sd += i > 0 ? scaled * sds[i - 1] : 0.0;
        at[i] = i > 0 ? at[i - 1] + scaled * as_drawn[i - 1] : 0.0;
        for (int m = 0; m < BW_MONTHS; m++) {
            planes[i].month[m].sd_from_outside = sd;
            if (i > 0)
                layer_sd[i - 1][m] = scaled * sds[i - 1];
        }
    }
    for (size_t k = 0; k < SLABS; k++) {
        slabs[k] = wall.slab[0];
        slabs[k].sd_curve = NULL;
    }
    wall.section.slab = slabs;
    wall.section.slab_count = SLABS;
    bw_monthly_result *run = &wall.checked.run[BW_RUN_DESIGN].result;
    static bool wet[SLABS];
    run->used_wet = wet;
    run->plane = planes;
    run->plane_count = PLANES;
    run->layer_sd = layer_sd;
    run->slab_count = SLABS;
    const int m = extreme(-1.0);
    print_page();
    must_read_chart("//figure[@data-chart='vapour']", 0);
    const axis y = read_axis(true, false);
    const axis x = {.at0 = -at[SLABS] * 38.0 / (352.0 - 38.0),
                    .per = at[SLABS] / (352.0 - 38.0)};
    for (size_t i = 0; i < PLANES; i++)
        p[i] = planes[i].month[m].vapour_pressure;
    line_is("wetdash", 0, &x, &y, at, p, PLANES);
}
END_TEST

/* Temperature and dew point over the depth, the air on both sides. */
START_TEST(the_section_is_to_scale)
{
    start(_i);
    random_months();
    water_at(2);
    const int m = extreme(-1.0);
    print_page();
    must_read_chart("//figure[@data-chart='section']", 0);
    HAS(chart.caption, bw_month_name(m));
    const axis x = read_axis(false, false), y = read_axis(true, false);
    has_unit(&x, false, "mm from the outer face");
    TELLS("Temperature from %.1f degrees outside to %.1f degrees in the room, "
          "and dew point, through 3 layers, 102 mm in all.",
          wall.checked.boundary[m].theta_e, wall.checked.boundary[m].theta_i);
    double mm[WALL_PLANES], low = 1e9, high = -1e9;
    read_outline("main", 2);
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "main"), 3);
    ck_assert_double_eq_tol(outline.point[0].x, axis_place(&x, 0.0), PAPER);
    for (size_t i = 0, k = 0; i < WALL_PLANES; i++) {
        const bw_plane_month *p = &wall.plane[i].month[m];
        mm[i] = 1e3 * depth[i];
        while (k < outline.count &&
               !lies(outline.point[k], axis_place(&x, mm[i]),
                     axis_place(&y, p->theta)))
            k++;
        ck_assert_msg(k < outline.count, "plane %zu", i);
    }
    for (size_t k = 0; k < outline.count; k++) {
        const double at = axis_value(&x, outline.point[k].x);
        const size_t i = at < mm[1] ? 0 : at < mm[2] - 0.2 ? 1 : 2;
        const double step = mm[i + 1] - mm[i];
        const double a = wall.plane[i].month[m].theta;
        const double b = wall.plane[i + 1].month[m].theta;
        const double share = step > 0.0 ? (at - mm[i]) / step : 0.5;
        const double slope = step > 0.0 ? fabs(b - a) / step * x.per : 0.0;
        ck_assert_double_eq_tol(axis_value(&y, outline.point[k].y),
                                a + share * (b - a),
                                PAPER * (fabs(y.per) + 2.0 * slope) +
                                    (step > 0.0 ? 0.0 : 0.5 * fabs(b - a)));
    }
    read_outline("wetdash", 0);
    for (size_t k = 0, i = 0; k < outline.count; k++) {
        const double at = axis_value(&x, outline.point[k].x);
        if (at > mm[2] - 0.2)
            break; /* the film is a stroke */
        i = at < mm[1] ? 0 : 1;
        const double share = (at - mm[i]) / (mm[i + 1] - mm[i]);
        const double a = wall.plane[i].month[m].vapour_pressure;
        const double b = wall.plane[i + 1].month[m].vapour_pressure;
        const double slope = fabs(dew(b) - dew(a)) / (mm[i + 1] - mm[i]) *
                             x.per;
        ck_assert_double_eq_tol(axis_value(&y, outline.point[k].y),
                                dew(a + share * (b - a)),
                                PAPER * (fabs(y.per) + 4.0 * slope));
        low = fmin(low, axis_value(&y, outline.point[k].y));
    }
    ck_assert_uint_ge(outline.count, 1 + 8 + 8 + 1);
    ck_assert(
        lies(outline.point[outline.count - 1], axis_place(&x, mm[3]),
             axis_place(&y, dew(wall.plane[3].month[m].vapour_pressure))));
    const bw_boundary *b = &wall.checked.boundary[m];
    stroke_is("main", 0, axis_place(&x, 0.0) - 16.0, axis_place(&y, b->theta_e),
              axis_place(&x, 0.0),
              axis_place(&y, wall.plane[0].month[m].theta));
    stroke_is("main", 1, axis_place(&x, mm[3]),
              axis_place(&y, wall.plane[3].month[m].theta),
              axis_place(&x, mm[3]) + 16.0, axis_place(&y, b->theta_i));
    high = fmax(b->theta_i, wall.plane[3].month[m].theta);
    holds_all(&y, fmin(low, b->theta_e), high);
    const bw_plane_month *wet = &wall.plane[2].month[m];
    const bool is_wet = wet->accumulated > 0.0 || wet->condensation > 0.0;
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "drop"), is_wet);
    if (is_wet)
        drop_is(0, axis_place(&x, mm[2]), axis_place(&y, wet->theta));
}
END_TEST

/* Each layer's box in both drawings of the wall, its number over its middle. */
START_TEST(layers_lie_at_their_depth)
{
    static const char *const drawings[] = {"//figure[@data-chart='section']",
                                           "//figure[@data-chart='year']"};
    start(1);
    random_months();
    print_page();
    must_read_chart(drawings[_i], 0);
    const axis x = read_axis(false, false);
    for (size_t i = 0; i < 2; i++) {
        const double from = axis_place(&x, i == 0 ? 0.0 : 12.0);
        const double to = axis_place(&x, i == 0 ? 12.0 : 102.0);
        const drawn *box = mark_of(DRAWN_RECT, "hatch-board hatch-edge", i);
        ck_assert_ptr_nonnull(box);
        rect_is(box, from, box->y, to - from, box->height);
        ck_assert_double_gt(box->height, 20.0);
        char number[8];
        snprintf(number, sizeof number, "%zu", i + 1);
        const drawn *said = text_of("num", number);
        ck_assert_ptr_nonnull(said);
        ck_assert_double_eq_tol(said->y, box->y - 12.0, 0.11);
        stroke_is("face", i, said->x, box->y - 9.0, 0.5 * (from + to), box->y);
    }
    const drawn *film = mark_of(DRAWN_RECT, "hatch-membrane", 0);
    ck_assert_ptr_nonnull(film);
    ck_assert_double_eq_tol(film->x + 0.5 * film->width, axis_place(&x, 102.0),
                            PAPER);
    ck_assert_double_lt(film->width, 2.0);
}
END_TEST

/* A layer of next to no thickness is a stroke, too: in the middle of it. */
START_TEST(a_thin_layer_is_a_stroke_in_its_middle)
{
    start(1);
    random_months();
    wall.layer[0].thickness = wall.slab[0].thickness = 0.0003;
    print_page();
    must_read_chart("//figure[@data-chart='section']", 0);
    const axis x = read_axis(false, false);
    const drawn *film = mark_of(DRAWN_RECT, "hatch-membrane", 0);
    ck_assert_ptr_nonnull(film);
    ck_assert_double_gt(axis_place(&x, 0.3) - axis_place(&x, 0.0), 0.8);
    ck_assert_double_eq_tol(film->x + 0.5 * film->width, axis_place(&x, 0.15),
                            PAPER);
    ck_assert_double_lt(film->width, 2.0);
    ck_assert_uint_eq(marks_of(DRAWN_RECT, "hatch-board hatch-edge"), 1);
}
END_TEST

/* Lines of a hatching lie within their layer and fill it: none leaves it, and
 * none of its four sides is farther from a line than two lines are apart. */
static const struct hatching {
    const char *group;
    bw_wood_kind wood;
    const char *box, *lines;
} hatchings[] = {
    {"board", BW_NOT_WOOD, "hatch-board hatch-edge", "h"},
    {"x", BW_NOT_WOOD, "hatch-board hatch-edge", "h"},
    {"insulation", BW_NOT_WOOD, "hatch-insulation hatch-edge", "h"},
    {"masonry", BW_NOT_WOOD, "hatch-masonry hatch-edge", "h"},
    {"plaster", BW_NOT_WOOD, "hatch-plaster hatch-edge", "h points"},
    {"board", BW_SOLID_WOOD, "hatch-wood hatch-edge", "h"},
    {"insulation", BW_WOOD_PANEL, "hatch-panel hatch-edge", "h dashes"},
};

START_TEST(a_hatching_fills_its_layer)
{
    static const double APART = 6.0;
    const struct hatching *row = &hatchings[_i];
    start(1);
    random_months();
    for (size_t i = 0; i < 2; i++) {
        wall.material[i].group = row->group;
        wall.material[i].wood_kind = row->wood;
    }
    print_page();
    must_read_chart("//figure[@data-chart='section']", 0);
    for (size_t i = 0; i < 2; i++) {
        const drawn *box = mark_of(DRAWN_RECT, row->box, i);
        ck_assert_ptr_nonnull(box);
        double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
        read_outline(row->lines, i);
        ck_assert_uint_gt(outline.count, 8);
        for (size_t k = 0; k < outline.count; k++) {
            left = fmin(left, outline.point[k].x);
            right = fmax(right, outline.point[k].x);
            top = fmin(top, outline.point[k].y);
            bottom = fmax(bottom, outline.point[k].y);
        }
        ck_assert_double_ge(left, box->x - 0.11);
        ck_assert_double_le(right, box->x + box->width + 0.11);
        ck_assert_double_ge(top, box->y - 0.11);
        ck_assert_double_le(bottom, box->y + box->height + 0.11);
        ck_assert_double_le(left, box->x + APART);
        ck_assert_double_ge(right, box->x + box->width - APART);
        ck_assert_double_le(top, box->y + APART);
        ck_assert_double_ge(bottom, box->y + box->height - APART);
    }
}
END_TEST

/* What stands outside of the section that is computed is drawn, too: a cavity
 * there as air, whatever is said to fill it. */
START_TEST(a_layer_beyond_the_section_is_drawn_as_what_it_is)
{
    start(0);
    random_months();
    wall.layer[0].kind = _i == 0 ? BW_LAYER_CAVITY : BW_LAYER_SOLID;
    wall.slab[0].layer = 1;
    print_page();
    must_read_chart("//figure[@data-chart='section']", 0);
    ck_assert_uint_eq(marks_of(DRAWN_RECT, "hatch-air hatch-edge"), _i == 0);
    ck_assert_uint_eq(marks_of(DRAWN_RECT, "hatch-board hatch-edge"),
                      _i == 0 ? 1 : 2);
}
END_TEST

SUITE_AROUND("marks", page_setup, page_teardown,
             EACH(vapour_pressures_lie_at_their_planes, SEEDS),
             EACH(the_twelve_small_months_lie_on_one_scale, 2),
             EACH(a_layer_that_would_fill_the_width_is_shortened, 2),
             EACH(of_many_such_layers_the_two_widest_are_shortened, 2),
             EACH(the_section_is_to_scale, SEEDS),
             EACH(layers_lie_at_their_depth, 2),
             FACT(a_thin_layer_is_a_stroke_in_its_middle),
             EACH(a_hatching_fills_its_layer, COUNT(hatchings)),
             EACH(a_layer_beyond_the_section_is_drawn_as_what_it_is, 2))
