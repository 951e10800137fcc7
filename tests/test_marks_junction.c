/* The picture of a junction: to scale both ways, its isotherms where the
 * temperature is theirs and within it, the coldest places where they are. The
 * temperatures are linear in x and y, so that an isotherm is a straight line
 * known beforehand. */

#include <math.h>

#include "bothways/report.h"
#include "drawing.h"
#include "full_junction.h"

static const double mesh = 0.05; /* m, of the cells */

/* theta = at0 + by_x x + by_y y, degC and m */
static double at0, by_x, by_y;

/* Of the picture: place = origin + scale * m, y downwards. */
static double scale, origin_x, origin_y;

static void setup(void)
{
    dice die = {.state = 1181783497276652981u};
    page_setup();
    full_junction_make(&meeting, &die);
    for (size_t k = 0; k <= 24; k++)
        meeting.x[k] = -0.3 + mesh * (double)k; /* to 0.9 */
    for (size_t k = 0; k <= 16; k++)
        meeting.y[k] = -0.2 + mesh * (double)k; /* to 0.6 */
    full_mesh(&meeting, 24, 16);
    for (size_t r = 0; r < FULL_ROOMS; r++)
        meeting.coldest[r * BW_SURFACES_FLOW].y = 0.1 + 0.3 * (double)r;
}

static double theta_at(double x, double y)
{
    return at0 + by_x * x + by_y * y;
}

static void linear(double constant, double along_x, double along_y)
{
    const bw_raster *g = &meeting.heat.raster;
    at0 = constant;
    by_x = along_x;
    by_y = along_y;
    for (size_t k = 0; k < g->nx * g->ny; k++) {
        const size_t i = k % g->nx, j = k / g->nx;
        meeting.weight[0][k] = theta_at(0.5 * (g->x[i] + g->x[i + 1]),
                                        0.5 * (g->y[j] + g->y[j + 1]));
        meeting.weight[1][k] = meeting.weight[2][k] = 0.0;
    }
    meeting.theta[FULL_COLDEST_MONTH] = 1.0;
}

/* The scale from the first filling's paper, which is known to stand within. */
static void print(void)
{
    const bw_results of = {.junction = &meeting.assessment};
    paper_clear(&page);
    ck_assert_int_eq(bw_report(&of, BW_DOCUMENT_JUNCTION, BW_FORM_PAGE, NULL,
                               paper_take, &page, NULL),
                     BW_OK);
    parse();
    must_read_chart("//*[@data-chart='junction']", 0);
    /* room after room, parted */
    HAS_NOT(chart.says, "; kitchen");
    if (meeting.assessment.room_count > 1)
        HAS(chart.says, "; loft ");
}

static void read_scale(void)
{
    const bw_rectangle *r = &meeting.filling[0].at;
    const drawn *m = mark_of(DRAWN_RECT, "paper", 0);
    ck_assert_ptr_nonnull(m);
    scale = m->width / (r->x1 - r->x0);
    origin_x = m->x - scale * r->x0;
    origin_y = m->y + scale * r->y1;
}

static double place_x(double x)
{
    return origin_x + scale * x;
}

static double place_y(double y)
{
    return origin_y - scale * y;
}

START_TEST(one_scale_holds_both_ways)
{
    linear(3.0, 11.0, 5.0);
    print();
    read_scale();
    for (size_t k = 0; k < 2; k++) {
        const bw_rectangle *r = &meeting.filling[k].at;
        rect_is(mark_of(DRAWN_RECT, "paper", k), place_x(r->x0), place_y(r->y1),
                scale * (r->x1 - r->x0), scale * (r->y1 - r->y0));
    }
    ck_assert_double_eq_tol(place_x(-0.3) - 34.0, 0.06 * scale, 0.2);
    ck_assert_uint_eq(marks_of(DRAWN_RECT, "paper"), 2);
}
END_TEST

/* Temperatures that span from little to more than a climate can. */
static const struct {
    double constant, along_x, along_y, step;
} fields[] = {
    {3.0, 11.0, 5.0, 1.0}, {-7.25, 25.0, 11.0, 2.0}, {12.1, 2.0, -1.0, 0.5},
    {4.3, 0.0, 9.0, 1.0},  {-30.0, 49.0, 12.0, 4.0}, {20.2, -21.0, 3.0, 2.0},
};

static void within(double x, double y)
{
    const bool upright = x >= place_x(-0.3) - PAPER &&
                         x <= place_x(0.0) + PAPER &&
                         y >= place_y(0.6) - PAPER &&
                         y <= place_y(-0.2) + PAPER;
    const bool level = x >= place_x(0.0) - PAPER && x <= place_x(0.9) + PAPER &&
                       y >= place_y(0.0) - PAPER && y <= place_y(-0.2) + PAPER;
    ck_assert_msg(upright || level, "%.1f %.1f is in no material", x, y);
}

/* Levels that lie between the least and the most of all cells. */
static size_t levels(double step)
{
    double low = HUGE_VAL, high = -HUGE_VAL;
    const bw_raster *g = &meeting.heat.raster;
    for (size_t k = 0; k < g->nx * g->ny; k++) {
        if (g->material[k] == BW_NOT_THERE)
            continue;
        low = fmin(low, meeting.weight[0][k]);
        high = fmax(high, meeting.weight[0][k]);
    }
    return (size_t)(ceil(high / step) - ceil(low / step));
}

START_TEST(an_isotherm_lies_where_its_temperature_is)
{
    const double step = fields[_i].step;
    linear(fields[_i].constant, fields[_i].along_x, fields[_i].along_y);
    print();
    read_scale();
    const size_t lines = marks_of(DRAWN_PATH, "mean");
    ck_assert_uint_eq(lines, levels(step));
    /* a place on paper is a tenth: this much of a degree */
    const double slack = (fabs(by_x) + fabs(by_y)) * 2.0 * PAPER / scale;
    double last = -HUGE_VAL;
    for (size_t n = 0; n < lines; n++) {
        read_outline("mean", n);
        ck_assert_uint_ge(outline.count, 2);
        const double first = theta_at((outline.point[0].x - origin_x) / scale,
                                      (origin_y - outline.point[0].y) / scale);
        const double level = step * round(first / step);
        ck_assert_double_eq_tol(level, n > 0 ? last + step : level, 1e-9);
        last = level;
        for (size_t k = 0; k < outline.count; k++) {
            const svg_point *p = &outline.point[k];
            within(p->x, p->y);
            ck_assert_double_eq_tol(
                theta_at((p->x - origin_x) / scale, (origin_y - p->y) / scale),
                level, slack);
        }
    }
    char says[64];
    snprintf(says, sizeof says, "isotherms every %.1f K", step);
    HAS(chart.caption, says);
}
END_TEST

/* As long as the level is, but for what is cut off by half a cell at each
 * edge: theta by y alone, in the upright leg from x -0.3 to 0 m. */
START_TEST(an_isotherm_goes_from_edge_to_edge)
{
    linear(4.3, 0.0, 9.0);
    print();
    read_scale();
    const size_t lines = marks_of(DRAWN_PATH, "mean");
    for (size_t n = 0; n < lines; n++) {
        double length = 0.0;
        read_outline("mean", n);
        for (size_t k = 0; k + 1 < outline.count; k += 2)
            length += fabs(outline.point[k + 1].x - outline.point[k].x);
        const double y = (origin_y - outline.point[0].y) / scale;
        /* the last middles of the level leg are half a cell below its face */
        const double right = y < -0.5 * mesh ? 0.9 : 0.0;
        ck_assert_double_eq_tol(length / scale, right + 0.3 - mesh,
                                0.02 * right + 0.01);
    }
}
END_TEST

START_TEST(a_coldest_place_is_marked_where_it_is)
{
    linear(3.0, 11.0, 5.0);
    print();
    read_scale();
    ck_assert_uint_eq(marks_of(DRAWN_CIRCLE, ""), FULL_ROOMS);
    for (size_t r = 0; r < FULL_ROOMS; r++) {
        const bw_coldest *c = &meeting.coldest[r * BW_SURFACES_FLOW];
        const bw_surface_month *m =
            &meeting.room[r].surface[0].month[FULL_COLDEST_MONTH];
        char says[64];
        circle_is("", r, place_x(c->x), place_y(c->y));
        snprintf(says, sizeof says, "%.1f \u00b0C", m->theta_si);
        const drawn *label = text_of("halo", says);
        ck_assert_msg(label != NULL, "no '%s'", says);
        ck_assert_double_eq_tol(label->x, place_x(c->x) + 7.0, PAPER);
        ck_assert_double_eq_tol(label->y, place_y(c->y) - 7.0, PAPER);
        snprintf(says, sizeof says, "%s %.1f", r == 0 ? "kitchen" : "loft",
                 m->theta_si);
        HAS(chart.caption, says);
        snprintf(says, sizeof says, "and %.0f", 100.0 * m->rh_si);
        HAS(chart.caption, says);
        snprintf(says, sizeof says, "%s x %.0f mm, y %.0f mm",
                 r == 0 ? "kitchen" : "loft", 1e3 * c->x, 1e3 * c->y);
        HAS(page.text, says);
    }
    HAS(chart.caption, "Feb");
}
END_TEST

START_TEST(a_room_is_named_in_its_middle)
{
    linear(3.0, 11.0, 5.0);
    print();
    read_scale();
    static const char *const name[] = {"kitchen", "loft"};
    /* what is seen of it: 0.06 m of air around the materials */
    const double right = 0.9, top[] = {0.3, 0.6};
    for (size_t r = 0; r < FULL_ROOMS; r++) {
        const drawn *m = text_of("soft", name[r]);
        ck_assert_msg(m != NULL, "no %s", name[r]);
        ck_assert_str_eq(m->anchor, "middle");
        ck_assert_double_eq_tol(m->x, place_x(0.5 * right), PAPER);
        ck_assert_double_eq_tol(m->y - 4.0, place_y(top[r] - 0.15), PAPER);
    }
}
END_TEST

/* ---- walls that go on to a cut ------------------------------------------- */

/* One wall alone, 12 m of it from cut to cut, no line across it. */
static void plane_wall(bool upright)
{
    bw_rectangle *at = &meeting.filling[0].at;
    for (size_t k = 0; k <= 24; k++)
        (upright ? meeting.y : meeting.x)[k] = -6.0 + 0.5 * (double)k;
    for (size_t k = 0; k <= 8; k++)
        (upright ? meeting.x : meeting.y)[k] = 0.05 * (double)k;
    *at = upright ? (bw_rectangle){0.0, 0.4, -6.0, 6.0}
                  : (bw_rectangle){-6.0, 6.0, 0.0, 0.4};
    meeting.junction.filling_count = 1;
    meeting.junction.space_count = 0;
    full_mesh(&meeting, upright ? 8 : 24, upright ? 24 : 8);
    for (size_t e = 0; e < BW_EDGES; e++)
        meeting.junction.symmetry[e] = upright == (e >= BW_EDGE_BELOW);
    meeting.assessment.room_count = meeting.heat.coldest_count = 1;
    meeting.coldest[0].x = upright ? 0.4 : -2.0;
    meeting.coldest[0].y = upright ? -2.0 : 0.4;
    linear(3.0, upright ? 30.0 : 0.0, upright ? 0.0 : 30.0);
}

/* By its paper: 0.4 m thick and, on either side of its coldest place, half a
 * metre long. */
START_TEST(a_plane_wall_is_shown_around_its_coldest_place)
{
    const bool upright = _i == 0;
    plane_wall(upright);
    print();
    const drawn *m = mark_of(DRAWN_RECT, "paper", 0);
    ck_assert_ptr_nonnull(m);
    const double thick = upright ? m->width : m->height;
    const double length = upright ? m->height : m->width;
    ck_assert_double_gt(thick, 20.0);
    ck_assert_double_eq_tol(length / thick, 1.0 / 0.4, 0.01);
    circle_is("", 0, upright ? m->x + m->width : m->x + 0.5 * m->width,
              upright ? m->y + 0.5 * m->height : m->y);
}
END_TEST

/* The coldest place of a room far from where the walls meet, on a leg that
 * goes on to a cut. */
START_TEST(a_coldest_place_far_off_is_in_the_picture)
{
    meeting.x[24] = 5.0; /* the last cell goes on */
    meeting.filling[1].at.x1 = 5.0;
    meeting.space[0].at.x1 = meeting.space[1].at.x1 = 5.0;
    full_mesh(&meeting, 24, 16);
    meeting.junction.symmetry[BW_EDGE_RIGHT] = true;
    meeting.coldest[0].x = 3.0;
    meeting.coldest[0].y = 0.0;
    meeting.coldest[BW_SURFACES_FLOW].x = 0.0;
    linear(3.0, 2.0, 5.0);
    print();
    read_scale();
    /* ten times as far as the scale was read over */
    const drawn *dot = mark_of(DRAWN_CIRCLE, "", 0);
    ck_assert_double_eq_tol(dot->x, place_x(3.0), 10.0 * PAPER);
    ck_assert_double_eq_tol(dot->y, place_y(0.0), PAPER);
    const drawn *m = mark_of(DRAWN_RECT, "paper", 1);
    ck_assert_double_eq_tol(m->x + m->width - dot->x, 0.5 * scale, 2.0);
}
END_TEST

/* Ground and air side by side on a wall that is the same throughout. */
START_TEST(where_spaces_meet_is_in_the_picture)
{
    plane_wall(true);
    meeting.junction.space_count = 2;
    meeting.space[0].at = (bw_rectangle){-1.0, 0.0, -6.0, 3.0};
    meeting.space[1].at = (bw_rectangle){-1.0, 0.0, 3.0, 6.0};
    print();
    const drawn *m = mark_of(DRAWN_RECT, "paper", 0);
    /* from -2.5 m to 3.5 m */
    ck_assert_double_eq_tol(m->height / m->width, 6.0 / 0.4, 0.1);
}
END_TEST

/* Of what goes on the same to a cut half a metre is shown beyond the last line
 * across it and the coldest places; to an edge that is none, all. */
START_TEST(a_cut_side_is_shown_half_a_metre_far)
{
    const bool left = (_i & 1) != 0, right = (_i & 2) != 0,
               below = (_i & 4) != 0, above = (_i & 8) != 0;
    const bw_rectangle window = {left ? -0.5 : -0.9, right ? 0.6 : 0.9,
                                 below ? -0.5 : -0.9, above ? 0.8 : 0.9};
    meeting.filling[0].at = (bw_rectangle){-0.9, 0.0, -0.9, 0.9};
    meeting.filling[1].at = (bw_rectangle){0.0, 0.9, -0.9, 0.0};
    meeting.space[1].at = (bw_rectangle){0.0, 0.9, 0.3, 0.9};
    for (size_t k = 0; k <= 18; k++)
        meeting.x[k] = meeting.y[k] = -0.9 + 0.1 * (double)k;
    full_mesh(&meeting, 18, 18);
    for (size_t r = 0; r < FULL_ROOMS; r++) {
        meeting.coldest[r * BW_SURFACES_FLOW].x = 0.1;
        meeting.coldest[r * BW_SURFACES_FLOW].y = 0.2;
    }
    meeting.junction.symmetry[BW_EDGE_LEFT] = left;
    meeting.junction.symmetry[BW_EDGE_RIGHT] = right;
    meeting.junction.symmetry[BW_EDGE_BELOW] = below;
    meeting.junction.symmetry[BW_EDGE_ABOVE] = above;
    linear(3.0, 11.0, 5.0);
    print();
    const drawn *m = mark_of(DRAWN_RECT, "paper", 0);
    scale = m->width / (0.0 - window.x0);
    origin_x = m->x - scale * window.x0;
    origin_y = m->y + scale * window.y1;
    rect_is(m, place_x(window.x0), place_y(window.y1),
            scale * (0.0 - window.x0), scale * (window.y1 - window.y0));
    rect_is(mark_of(DRAWN_RECT, "paper", 1), place_x(0.0), place_y(0.0),
            scale * window.x1, scale * (0.0 - window.y0));
    ck_assert_uint_eq(marks_of(DRAWN_RECT, "paper"), 2);
}
END_TEST

/* Air stated after a material takes its place, as far as it is seen; what is
 * stated after the air takes its. */
START_TEST(air_drawn_over_a_material_takes_its_place)
{
    static const struct air {
        bool over;
        long line;
        size_t at; /* of three papers; 3: none is drawn */
    } rows[] = {{true, 4, 1}, {true, 5, 1},  {true, 6, 2},
                {true, 2, 0}, {false, 4, 3}, {true, 0, 3}};
    const struct air *row = &rows[_i];
    meeting.filling[0].line = 3;
    meeting.filling[1].line = 5;
    meeting.space[0].line = meeting.space[1].line = row->line;
    meeting.space[0].over = row->over;
    meeting.space[0].at = (bw_rectangle){-0.15, 1.4, 0.1, 0.95};
    linear(3.0, 11.0, 5.0);
    print();
    ck_assert_uint_eq(marks_of(DRAWN_RECT, "paper"), row->at < 3 ? 3 : 2);
    const drawn *first = mark_of(DRAWN_RECT, "paper", row->at == 0 ? 1 : 0);
    const bw_rectangle *r = &meeting.filling[0].at;
    scale = first->width / (r->x1 - r->x0);
    origin_x = first->x - scale * r->x0;
    origin_y = first->y + scale * r->y1;
    if (row->at < 3) /* 60 mm of air are seen beyond the materials */
        rect_is(mark_of(DRAWN_RECT, "paper", row->at), place_x(-0.15),
                place_y(0.66), scale * (0.96 + 0.15), scale * (0.66 - 0.1));
}
END_TEST

/* Months from October to a day behind its first. */
static double months_to(double day)
{
    static const double days[] = {31, 30, 31, 31, 28, 31,
                                  30, 31, 30, 31, 31, 30};
    size_t k = 0;
    while (k + 1 < COUNT(days) && day > days[k])
        day -= days[k++];
    return (double)k + day / days[k];
}

/* Means of five days, each at the middle of its five. */
START_TEST(a_named_place_is_drawn_through_the_year)
{
    static const struct course_of {
        const char *chart;
        double factor;
        const char *limit;
    } rows[] = {{"humidity", 100.0, "80"},
                {"temperature", 1.0, "frost"},
                {"wood", 100.0, "limit"}};
    const struct course_of *row = &rows[_i];
    bw_hour_spot *s = &meeting.course[0];
    const double *value[] = {s->phi, s->theta, s->moisture};
    const double limits[] = {80.0, 0.0, 100.0 * meeting.wood[0].limit};
    double x[BW_SPANS], y[BW_SPANS], low = HUGE_VAL, high = -HUGE_VAL;
    char path[64];
    linear(3.0, 11.0, 5.0);
    print();
    snprintf(path, sizeof path, "//figure[@data-chart='%s']", row->chart);
    must_read_chart(path, 0);
    const axis ax = read_months(9), ay = read_axis(true, false);
    for (size_t k = 0; k < BW_SPANS; k++) {
        x[k] = months_to(5.0 * ((double)k + 0.5));
        y[k] = row->factor * value[_i][k];
        low = fmin(low, y[k]);
        high = fmax(high, y[k]);
    }
    line_is("mean", 0, &ax, &ay, x, y, BW_SPANS);
    TELLS(_i == 0 ? "year, between %.0f and %.0f percent."
                  : "year, between %.1f and %.1f ",
          low, high);
    const drawn *said = text_of("num", row->limit);
    ck_assert_ptr_nonnull(said);
    ck_assert_double_eq_tol(said->y - 3.5, axis_place(&ay, limits[_i]), 0.3);
    ck_assert_double_le(axis_value(&ay, ay.from), fmin(low, limits[_i]) + 1e-6);
    ck_assert_double_ge(axis_value(&ay, ay.ends[0]), high - 1e-6);
    s->wood = -1;
    print();
    ck_assert(read_chart(path, 0) == (_i < 2));
    meeting.assessment.hours.ran = false;
    print();
    ck_assert(!read_chart(path, 0));
}
END_TEST

/* The name of a room stands in the middle of its space, where there is room
 * for it. */
START_TEST(a_space_has_its_name_in_its_middle)
{
    static const struct space {
        bw_rectangle at;
        bool named;
    } rows[] = {{{0.2, 0.6, 0.1, 0.3}, true},
                {{0.2, 0.22, 0.1, 0.3}, false},
                {{0.2, 0.6, 0.1, 0.11}, false},
                {{2.0, 3.0, 0.1, 0.3}, false}};
    const struct space *row = &rows[_i];
    meeting.space[0].at = row->at;
    linear(3.0, 11.0, 5.0);
    print();
    read_scale();
    const drawn *m = text_of("soft", "kitchen");
    ck_assert((m != NULL) == row->named);
    if (m == NULL)
        return;
    ck_assert_double_eq_tol(m->x, place_x(0.5 * (row->at.x0 + row->at.x1)),
                            PAPER);
    ck_assert_double_eq_tol(m->y - 4.0,
                            place_y(0.5 * (row->at.y0 + row->at.y1)), PAPER);
    ck_assert_str_eq(m->anchor, "middle");
}
END_TEST

SUITE_AROUND("marks of a junction", setup, page_teardown,
             FACT(one_scale_holds_both_ways),
             EACH(an_isotherm_lies_where_its_temperature_is, COUNT(fields)),
             FACT(an_isotherm_goes_from_edge_to_edge),
             FACT(a_coldest_place_is_marked_where_it_is),
             FACT(a_room_is_named_in_its_middle),
             EACH(a_plane_wall_is_shown_around_its_coldest_place, 2),
             FACT(a_coldest_place_far_off_is_in_the_picture),
             FACT(where_spaces_meet_is_in_the_picture),
             EACH(a_cut_side_is_shown_half_a_metre_far, 16),
             EACH(air_drawn_over_a_material_takes_its_place, 6),
             EACH(a_named_place_is_drawn_through_the_year, 3),
             EACH(a_space_has_its_name_in_its_middle, 4))
