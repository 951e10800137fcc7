/* Steady heat of junctions, against published and exact figures.
 *
 * Exact constants and the second case: ../shared/reference/junctions.md names
 * their sources; what is computed by another program than this one says so. */

#include <math.h>

#include "bothways/junction.h"
#include "junction/heat.h"
#include "junction_case.h"
#include "measured.h"
#include "raster_value.h"
#include "suite.h"

static const double pi = 3.14159265358979323846;

/* Heat of a drawing; freed by the caller. */
static bw_junction_heat *heat_of(const drawn *d,
                                 const bw_junction_options *options)
{
    bw_junction_heat *h = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_junction_heat_make(&h, &d->junction, options, &err) ==
                      BW_OK,
                  "%s", err.message);
    return h;
}

/* Temperature at a point [mm] with the environments at these. */
static double temperature_at(const bw_junction_heat *h, const double *theta,
                             double x_mm, double y_mm)
{
    double t = 0.0;
    for (size_t e = 0; e < h->environment_count; e++)
        t += theta[e] *
             value_at(&h->raster, h->weight[e], 1e-3 * x_mm, 1e-3 * y_mm);
    return t;
}

/* ---- ISO 10211:2007, annex A ------------------------------------------------
 */

/* Case 1: half a square column 1 by 2, top 20 degC, left and below 0 degC. The
 * 28 points, exact: T = 20 sum_(n odd) 4/(n pi) sin(n pi x/2)
 * sinh(n pi (2 - y)/2)/sinh(n pi), y from the top; the published ones round to
 * the same (the standard, from memory, high). Tolerance 0.1 K. */
static double exact_column(double x, double y)
{
    double sum = 0.0;
    for (int n = 1; n < 400; n += 2) {
        const double a = 0.5 * n * pi;
        /* sinh(a (2 - y))/sinh(2 a) without overflow */
        const double s = exp(-a * y) * (1.0 - exp(-2.0 * a * (2.0 - y))) /
                         (1.0 - exp(-4.0 * a));
        sum += 4.0 / (n * pi) * sin(a * x) * s;
    }
    return 20.0 * sum;
}

static void draw_column(drawn *d)
{
    draw_start(d);
    /* in pieces, so that the points lie on lines of the grid */
    for (int k = 0; k < 32; k++)
        draw_box(d, 1.0, 250 * (k % 4), 250 * (k % 4) + 250, 250 * (k / 4),
                 250 * (k / 4) + 250);
    draw_space(d, 0, -100, 0, 0, 2000);
    draw_space(d, 0, -100, 1000, -100, 0);
    draw_space(d, 1, 0, 1000, 2000, 2100);
    draw_cut(d, false, true, false, false);
    draw_resistances(d, 0.0, 0.0);
}

START_TEST(every_point_of_the_standards_column_is_within_a_tenth_of_a_kelvin)
{
    static drawn d;
    static const double theta[] = {0.0, 20.0};
    draw_column(&d);
    bw_raster raster;
    bw_heat heat;
    bw_error err = {0};
    const bw_raster_options options = {.smallest = 0.01, .widest = 0.02};
    static const double surface[] = {0.0, 0.0};
    ck_assert(bw_raster_make(&raster, &d.junction, &options, &d.arena, &err) ==
              BW_OK);
    ck_assert(bw_heat_solve(&heat, &raster, surface, NULL, &d.arena, &err) ==
              BW_OK);
    bw_junction_heat h = {
        .raster = raster, .weight = heat.weight, .environment_count = 2};
    double worst = 0.0;
    for (int row = 1; row <= 7; row++)
        for (int column = 1; column <= 4; column++) {
            const double x = 0.25 * column, y = 0.25 * row;
            const double exact = exact_column(x, y);
            const double sum = temperature_at(&h, theta, 1e3 * x,
                                              2e3 - 1e3 * y);
            farther(&worst, sum, exact);
        }
    measured("iso-10211-column", worst, 0.1, "K");
    /* the centre of the whole column, by symmetry a quarter of 20 */
    ck_assert_double_eq_tol(exact_column(1.0, 1.0), 5.0, 1e-9);
    draw_end(&d);
}
END_TEST

/* Case 2: concrete, wood, insulation, aluminium. Published [from memory, high]:
 * A 7.1 B 0.8 C 7.9 D 6.3 E 0.8 F 16.4 G 16.3 H 16.8 I 18.3 degC, 9.5 W/m;
 * tolerances 0.1 K and 0.1 W/m. */
static void draw_composite(drawn *d)
{
    draw_start(d);
    draw_box(d, 0.029, 0, 500, 6, 47.5);
    draw_box(d, 1.15, 0, 500, 0, 6);
    draw_box(d, 0.12, 0, 15, 6, 11);
    draw_box(d, 230, 0, 15, 11, 12.5);
    draw_box(d, 230, 0, 1.5, 11, 47.5);
    draw_box(d, 230, 0, 500, 46, 47.5);
    draw_space(d, 0, 0, 500, -10, 0);
    draw_space(d, 1, 0, 500, 47.5, 60);
    draw_cut(d, true, true, false, false);
    draw_resistances(d, 0.06, 0.11);
}

static const struct {
    const char *name;
    double x, y, theta;
} composite[] = {
    {"A", 0, 0, 7.1},    {"B", 500, 0, 0.8},   {"C", 0, 6, 7.9},
    {"D", 15, 6, 6.3},   {"E", 500, 6, 0.8},   {"F", 0, 11, 16.4},
    {"G", 15, 11, 16.3}, {"H", 0, 47.5, 16.8}, {"I", 500, 47.5, 18.3},
};

START_TEST(every_point_of_the_standards_composite_is_within_a_tenth_of_a_kelvin)
{
    static drawn d;
    static const double theta[] = {0.0, 20.0};
    draw_composite(&d);
    const bw_junction_options options = {
        .smallest = 0.001, .frsi_error = 1e-4, .l2d_error = 2e-4};
    bw_junction_heat *h = heat_of(&d, &options);
    double worst = 0.0;
    for (size_t i = 0; i < COUNT(composite); i++) {
        const double t = temperature_at(h, theta, composite[i].x,
                                        composite[i].y);
        /* the published ones are rounded to 0.1 */
        farther(&worst, t, composite[i].theta);
    }
    measured("iso-10211-composite", worst, 0.1 + 0.05, "K");
    measured("iso-10211-flow", fabs(20.0 * h->l2d.value - 9.5), 0.1, "W/m");
    ck_assert_double_lt(20.0 * h->l2d.error, 0.01);
    /* finite volumes of another program, 45,000 cells: 9.4907 */
    ck_assert_double_eq_tol(20.0 * h->l2d.value, 9.4910, 0.002);
    bw_junction_heat_free(h);
    draw_end(&d);
}
END_TEST

/* ---- exact constants --------------------------------------------------------
 */

/* A corner of two walls a and b thick, lambda 1, faces isothermal: the flow for
 * 1 K is l1/a + l2/b + C, l the inner lengths; k = a/b,
 * C = k + 1/k - 1/pi (ln(16/((1 + k2)(1 + 1/k2))) + 2k atan k + 2/k atan 1/k),
 * of equal walls 1 - 2 ln 2/pi (conformal mapping; derived). */
static const struct {
    double thick, thin, constant;
} corners[] = {
    {250, 250, 0.558729}, {500, 250, 0.643537}, {500, 125, 0.873438}};

START_TEST(a_corner_costs_the_constant_of_conformal_mapping)
{
    static drawn d;
    const double a = corners[_i].thick, b = corners[_i].thin, l = 2000;
    draw_start(&d);
    draw_box(&d, 1.0, -a, l, -b, 0);
    draw_box(&d, 1.0, -a, 0, -b, l);
    draw_space(&d, 0, -a - 50, -a, -b - 50, l);
    draw_space(&d, 0, -a, l, -b - 50, -b);
    draw_space(&d, 1, 0, l, 0, l);
    draw_cut(&d, false, true, false, true);
    draw_resistances(&d, 0.0, 0.0);
    bw_junction_heat *h = heat_of(&d, NULL);
    const double found = h->l2d.value - l / a - l / b;
    ck_assert_msg(fabs(found - corners[_i].constant) <= h->l2d.error,
                  "%g within %g of %g", found, h->l2d.error,
                  corners[_i].constant);
    measured("corner", fabs(found - corners[_i].constant), 0.004, "W/(m K)");
    ck_assert_double_lt(h->l2d.error, 0.004);
    ck_assert_double_eq_tol(h->psi_inner, found, 1e-9);
    bw_junction_heat_free(h);
    draw_end(&d);
}
END_TEST

/* A step in thickness, one face plane, al = thin/thick: on top of l1/d1 + l2/d2
 * 1/pi ((al2 + 1)/al ln((1 + al)/(1 - al)) - 2 ln(4 al/(1 - al2))). */
static const struct {
    double ratio, constant;
} steps[] = {{0.25, 0.649967}, {0.5, 0.249833}, {0.8, 0.042878}};

START_TEST(a_step_in_thickness_costs_its_exact_constant)
{
    static drawn d;
    const double thick = 400, thin = steps[_i].ratio * thick, l = 2000;
    draw_start(&d);
    draw_box(&d, 1.0, -l, 0, 0, thick);
    draw_box(&d, 1.0, 0, l, 0, thin);
    draw_space(&d, 0, -l, l, -50, 0);
    draw_space(&d, 1, -l, l, thick, thick + 50);
    draw_space(&d, 1, 0, l, thin, thick);
    draw_cut(&d, true, true, false, false);
    draw_resistances(&d, 0.0, 0.0);
    bw_junction_heat *h = heat_of(&d, NULL);
    const double found = h->l2d.value - l / thick - l / thin;
    ck_assert_msg(fabs(found - steps[_i].constant) <= h->l2d.error,
                  "%g within %g of %g", found, h->l2d.error,
                  steps[_i].constant);
    measured("step", fabs(found - steps[_i].constant), 0.004, "W/(m K)");
    ck_assert_double_lt(h->l2d.error, 0.004);
    bw_junction_heat_free(h);
    draw_end(&d);
}
END_TEST

/* Four quadrants crosswise of 1 and L, top and bottom isothermal: conducts as
 * sqrt(L) exactly (Keller 1964; Dykhne 1970; from memory, high). At 1:10 the
 * flow is singular where four meet, and no grid is asked for better than 1 %.
 */
static const struct {
    double ratio, tolerance;
} boards[] = {{2, 0.001}, {10, 0.01}};

START_TEST(a_checkerboard_conducts_as_the_root_of_its_two)
{
    static drawn d;
    draw_start(&d);
    draw_box(&d, 1.0, 0, 100, 0, 100);
    draw_box(&d, boards[_i].ratio, 100, 200, 0, 100);
    draw_box(&d, boards[_i].ratio, 0, 100, 100, 200);
    draw_box(&d, 1.0, 100, 200, 100, 200);
    draw_space(&d, 0, 0, 200, -50, 0);
    draw_space(&d, 1, 0, 200, 200, 250);
    draw_cut(&d, true, true, false, false);
    draw_resistances(&d, 0.0, 0.0);
    bw_junction_heat *h = heat_of(&d, NULL);
    const double exact = sqrt(boards[_i].ratio);
    measured(_i == 0 ? "checkerboard-2" : "checkerboard-10",
             100.0 * fabs(h->l2d.value / exact - 1.0),
             100.0 * boards[_i].tolerance, "%");
    ck_assert_double_le(fabs(h->l2d.value - exact), h->l2d.error + 1e-9);
    bw_junction_heat_free(h);
    draw_end(&d);
}
END_TEST

/* ---- order ------------------------------------------------------------------
 */

START_TEST(a_re_entrant_corner_converges_with_the_order_known)
{
    static drawn d;
    double flow[4];
    static const double surface[] = {0.0, 0.0};
    draw_start(&d);
    draw_box(&d, 1.0, -250, 1000, -250, 0);
    draw_box(&d, 1.0, -250, 0, -250, 1000);
    draw_space(&d, 0, -300, -250, -300, 1000);
    draw_space(&d, 0, -250, 1000, -300, -250);
    draw_space(&d, 1, 0, 1000, 0, 1000);
    draw_cut(&d, false, true, false, true);
    for (int k = 0; k < 4; k++) {
        /* all cells alike, so that the corner's error rules */
        const bw_raster_options options = {
            .smallest = 0.025, .widest = 0.025, .halvings = k};
        bw_raster raster;
        bw_heat heat;
        bw_error err = {0};
        ck_assert(bw_raster_make(&raster, &d.junction, &options, &d.arena,
                                 &err) == BW_OK);
        ck_assert(bw_heat_solve(&heat, &raster, surface, NULL, &d.arena,
                                &err) == BW_OK);
        flow[k] = heat.coupling[1];
        ck_assert_double_lt(heat.balance, 1e-8);
    }
    const double order = log2((flow[2] - flow[1]) / (flow[3] - flow[2]));
    ck_assert_double_eq_tol(order, 4.0 / 3.0, 0.05);
    /* and extrapolated with it the constant comes out */
    const double found = flow[3] + (flow[3] - flow[2]) / (exp2(4.0 / 3.0) - 1);
    ck_assert_double_eq_tol(found - 8.0, 1.0 - 2.0 * log(2.0) / pi, 3e-4);
    draw_end(&d);
}
END_TEST

static bool has_line(const double *x, size_t cells, double at)
{
    for (size_t k = 0; k <= cells; k++)
        if (fabs(x[k] - at) < 1e-12)
            return true;
    return false;
}

/* A wall of board, insulation and board, 600 mm of it. */
static void draw_plane(drawn *d)
{
    draw_start(d);
    draw_box(d, 0.13, 0, 600, 0, 9);
    draw_box(d, 0.035, 0, 600, 9, 149);
    draw_box(d, 0.25, 0, 600, 149, 161.5);
    draw_space(d, 0, 0, 600, -50, 0);
    draw_space(d, 1, 0, 600, 161.5, 200);
    draw_cut(d, true, true, false, false);
}

/* Gaps of two cells and of many, of odd and even numbers, open and not. */
START_TEST(joined_cells_leave_lines_that_were_there_and_those_of_the_drawing)
{
    static drawn d;
    static const double lines[] = {0.0, 0.009, 0.149, 0.1615};
    const double starts[] = {0.001, 0.0013, 0.002, 0.003, 0.005, 0.02};
    draw_plane(&d);
    for (size_t s = 0; s < COUNT(starts); s++) {
        bw_raster fine, coarse;
        bw_raster_options options = {.smallest = starts[s], .growth = 2.0};
        ck_assert(bw_raster_make(&fine, &d.junction, &options, &d.arena,
                                 NULL) == BW_OK);
        options.joined = true;
        ck_assert(bw_raster_make(&coarse, &d.junction, &options, &d.arena,
                                 NULL) == BW_OK);
        for (size_t k = 0; k <= coarse.nx; k++)
            ck_assert(has_line(fine.x, fine.nx, coarse.x[k]));
        for (size_t k = 0; k <= coarse.ny; k++) {
            ck_assert(has_line(fine.y, fine.ny, coarse.y[k]));
            ck_assert(k == 0 || coarse.y[k] > coarse.y[k - 1]);
        }
        for (size_t k = 0; k < COUNT(lines); k++)
            ck_assert(has_line(coarse.y, coarse.ny, lines[k]));
        /* of each gap half, one more where there was one left over */
        ck_assert_uint_le(2 * coarse.ny, fine.ny + 5);
        ck_assert_uint_ge(2 * coarse.ny, fine.ny);
        ck_assert_uint_lt(coarse.filled, fine.filled);
    }
    draw_end(&d);
}
END_TEST

START_TEST(a_plane_wall_is_its_transmittance_and_has_no_psi)
{
    static drawn d;
    draw_plane(&d);
    bw_junction_heat *h = heat_of(&d, NULL);
    const double r = 0.009 / 0.13 + 0.14 / 0.035 + 0.0125 / 0.25;
    ck_assert_double_eq_tol(h->l2d.value, 0.6 / (r + 0.17), 1e-8);
    ck_assert_double_lt(h->l2d.error, 1e-8);
    ck_assert(h->has_psi);
    ck_assert_double_eq_tol(h->psi_inner, 0.0, 1e-8);
    ck_assert_double_eq_tol(h->psi_outer, 0.0, 1e-8);
    static const double rsi[BW_SURFACES_FLOW] = {0.25, 0.35, 1.0};
    for (int w = 0; w < BW_SURFACES_FLOW; w++)
        ck_assert_double_eq_tol(h->coldest[w].frsi.value,
                                (r + 0.04) / (r + 0.04 + rsi[w]), 1e-8);
    bw_junction_heat_free(h);
    draw_end(&d);
}
END_TEST

SUITE(
    "junction",
    FACT(every_point_of_the_standards_column_is_within_a_tenth_of_a_kelvin),
    FACT(every_point_of_the_standards_composite_is_within_a_tenth_of_a_kelvin),
    EACH(a_corner_costs_the_constant_of_conformal_mapping, COUNT(corners)),
    EACH(a_step_in_thickness_costs_its_exact_constant, COUNT(steps)),
    EACH(a_checkerboard_conducts_as_the_root_of_its_two, COUNT(boards)),
    FACT(joined_cells_leave_lines_that_were_there_and_those_of_the_drawing),
    FACT(a_re_entrant_corner_converges_with_the_order_known),
    FACT(a_plane_wall_is_its_transmittance_and_has_no_psi))
