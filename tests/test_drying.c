/* Wetted planes: drying tests, the months runs start with, reserve, leaking
 * air; against hand calculations written out here, and cases/ has more. */

#include <math.h>
#include <stdlib.h>

#include "suite.h"
#include "wall_case.h"

static const double delta_0 = 2.0e-10; /* kg/(m s Pa), ISO 13788 */

static double year_seconds(void)
{
    return 365.0 * 86400.0;
}

/* A plane between two boards, all at one temperature. */
static const slab_row boards[] = {{"outer", 0.01, 0.2, 0.5},
                                  {"inner", 0.01, 0.2, 2.0}};

typedef struct board_flows {
    double out, in; /* kg/(m2 s) leaving the wet plane */
} board_flows;

static board_flows flows_from_boards(double pe, double pi)
{
    double theta = 20.0;
    double psat = 610.5 * exp(17.269 * theta / (237.3 + theta));
    return (board_flows){delta_0 * (psat - pe) / 0.5,
                         delta_0 * (psat - pi) / 2.0};
}

/* Oracle case B of the reference figures [derived there]. */
static const slab_row timber[] = {{"breather", 0, 0, 0.05},
                                  {"OSB", 0.009, 0.009 / 0.13, 0.45},
                                  {"mineral wool", 0.14, 0.14 / 0.035, 0.14},
                                  {"plasterboard", 0.0125, 0.05, 0.125}};

/* docs/methods.md: October where January is coldest. */
START_TEST(drying_test_starts_three_months_before_the_coldest)
{
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, timber, COUNT(timber), 0.04, 0.25);
    example_boundary(b, 810);
    bw_monthly_options o = {.start_month = -1,
                            .wetting = 1.0,
                            .wet_plane = {.slab = 1, .layer_face = true}};
    bw_monthly_result r = run(&wall, b, &o);
    ck_assert_int_eq(r.start_month, 9);
    /* one kilogram more than oracle B until it is dry */
    ck_assert_double_eq_tol(face(&r, 1)->month[2].accumulated, 7.0869, 5.1e-5);
    bw_monthly_free(&r);
}
END_TEST

/* Where July is the coldest: April. What stands behind twelve months is none.
 */
START_TEST(drying_test_starts_in_april_where_july_is_coldest)
{
    wall_case wall;
    bw_boundary b[BW_MONTHS + 1];
    wall_of(&wall, timber, COUNT(timber), 0.04, 0.25);
    steady(b, 20, 1000, 20, 1200);
    b[6].theta_e = 10;
    b[BW_MONTHS] = b[0];
    b[BW_MONTHS].theta_e = -30;
    bw_monthly_options o = {.start_month = -1,
                            .wetting = 1.0,
                            .wet_plane = {.slab = 1, .layer_face = true}};
    bw_monthly_result r = run(&wall, b, &o);
    ck_assert_int_eq(r.start_month, 3);
    bw_monthly_free(&r);
}
END_TEST

/* ISO 13788 [from memory, high confidence]: back to the first of the months
 * with condensation that January is one of, else on to the next. */
START_TEST(the_year_starts_with_the_first_month_of_the_season_tried)
{
    static const struct {
        const char *wet;
        int start;
    } years[] = {{"ww....w...ww", 10},
                 {"w.....ww....", 0},
                 {"...ww...w...", 3},
                 {"wwwwwwwwwwww", 0}};
    for (size_t i = 0; i < COUNT(years); ++i) {
        wall_case wall;
        bw_boundary b[BW_MONTHS];
        wall_of(&wall, timber, COUNT(timber), 0.04, 0.25);
        for (int m = 0; m < BW_MONTHS; ++m)
            b[m] = (bw_boundary){0, 550, 20,
                                 years[i].wet[m] == 'w' ? 900 : 600};
        bw_monthly_result r = run(&wall, b, NULL);
        ck_assert_int_eq(r.start_month, years[i].start);
        bw_monthly_free(&r);
    }
}
END_TEST

/* A plane that is dry half a second before the month ends: in that half second
 * the other plane already gains less. By hand, before and after. */
START_TEST(the_last_half_second_of_a_month_counts)
{
    static const slab_row rows[] = {{"skin", 0.001, 0, 5},
                                    {"wool", 0.01, 0.25, 0.2},
                                    {"board", 0.01, 0.08, 0.05}};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, rows, COUNT(rows), 2.0, 2.0);
    steady(b, 0, 400, 20, 1220);
    double q = 20 / 4.33, outer = q * 2.0, inner = 20 - q * 2.08;
    double cold = 610.5 * exp(17.269 * outer / (237.3 + outer));
    double warm = 610.5 * exp(17.269 * inner / (237.3 + inner));
    double out = (cold - 400) / 5;
    double wet = delta_0 * ((warm - cold) / 0.2 - out);
    double dry = delta_0 * ((1220 - cold) / 0.25 - out);
    double lost = delta_0 * ((warm - cold) / 0.2 + (warm - 1220) / 0.05);
    double month = 31 * 86400;
    bw_monthly_options o = {.start_month = 0,
                            .wetting = lost * (month - 0.5),
                            .wet_plane = {.slab = 1, .layer_face = true}};
    bw_monthly_result r = run(&wall, b, &o);
    ck_assert_double_gt(wet - dry, 1e-8);
    ck_assert_double_gt(dry, 0);
    ck_assert_double_eq_tol(r.wet_plane_months, 1 - 0.5 / month, 1e-12);
    ck_assert_double_eq_tol(face(&r, 0)->month[0].accumulated,
                            wet * (month - 0.5) + dry * 0.5, 1e-11);
    bw_monthly_free(&r);
}
END_TEST

/* Water that only moves to another plane is not gone: a warm wet plane feeds
 * the cold one behind the tight outer skin. */
START_TEST(water_moved_to_another_plane_does_not_count_as_dried)
{
    static const slab_row rows[] = {{"skin", 0.001, 0, 500},
                                    {"wool", 0.2, 5.0, 0.2},
                                    {"board", 0.01, 0.08, 50}};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
    steady(b, 0, 400, 20, 1000);
    bw_monthly_options o = {.start_month = 0,
                            .wetting = 0.2,
                            .wet_plane = {.slab = 1, .layer_face = true}};
    bw_monthly_result r = run(&wall, b, &o);
    ck_assert(r.wet_plane_dried && !r.dried && r.condensed_elsewhere);
    ck_assert_double_lt(r.wet_plane_months, 1.0);
    ck_assert_double_gt(r.left, 0.2);
    bw_monthly_free(&r);
}
END_TEST

/* What only moved to another plane has not been lost (docs/methods.md): of a
 * warm plane kept wet counts what leaves the wall, on either side. A leak
 * without air makes it the critical one. By hand; the wool is one strip. */
START_TEST(reserve_counts_only_water_that_left_the_wall)
{
    static const slab_row rows[] = {{"skin", 0.001, 0, 500},
                                    {"wool", 0.01, 0.25, 0.2},
                                    {"board", 0.01, 0.08, 50}};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, rows, COUNT(rows), 2.0, 2.0);
    steady(b, 0, 400, 20, 1000);
    double q = 20 / 4.33, outer = q * 2.0, inner = 20 - q * 2.08;
    double cold = 610.5 * exp(17.269 * outer / (237.3 + outer));
    double warm = 610.5 * exp(17.269 * inner / (237.3 + inner));
    bw_monthly_options o = {.start_month = -1,
                            .has_air_flow = true,
                            .leak_plane = {.slab = 1, .layer_face = true}};
    bw_monthly_result r = run(&wall, b, &o);
    double rate = delta_0 * ((cold - 400) / 500 + (warm - 1000) / 50);
    ck_assert(r.has_reserve && !r.condenses);
    ck_assert_ptr_eq(&r.plane[r.critical_plane], face(&r, 1));
    ck_assert_double_eq_tol(r.reserve, rate * year_seconds(), 1e-9);
    bw_monthly_free(&r);
}
END_TEST

/* A leak at a dry plane raises the pressure there until it flows off; at
 * saturation the rest condenses. By hand, S = V (v_i - v_sat). */
START_TEST(leaking_air_raises_the_pressure_then_condenses)
{
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, boards, 2, 0.4, 0.4);
    steady(b, 0, 300, 20, 1400); /* the plane is at 10 degC */
    double psat = 610.5 * exp(17.269 * 10 / 247.3);
    double excess = 1400 / (462 * 293.15) - psat / (462 * 283.15);
    bw_monthly_options o = {.start_month = -1, .has_air_flow = true};
    o.leak_plane = (bw_plane_at){.slab = 0, .layer_face = true};
    double dry = (300 / 0.5 + 1400 / 2.0) / (1 / 0.5 + 1 / 2.0);
    double conductance = delta_0 * (1 / 0.5 + 1 / 2.0);
    double most = (psat - dry) * conductance; /* flows off at saturation */
    static const double part[] = {1e-3, 0.5, 1.5};
    for (size_t i = 0; i < COUNT(part); ++i) {
        bool wet = part[i] > 1;
        double s = most * part[i];
        for (int m = 0; m < BW_MONTHS; ++m)
            o.air_flow[m] = s / excess;
        bw_monthly_result r = run(&wall, b, &o);
        const bw_plane *plane = face(&r, 0);
        double p = wet ? psat : dry + s / conductance;
        ck_assert_double_eq_tol(plane->month[6].vapour_pressure / p, 1, 1e-12);
        ck_assert_double_eq_tol(plane->month[6].condensation,
                                wet ? 0.5 * most * 31 * 86400 : 0, 1e-12);
        ck_assert_double_eq_tol(r.reserve, (most - s) * year_seconds(), 1e-9);
        bw_monthly_free(&r);
    }
}
END_TEST

/* Water and a leak in one layer, at two depths, whichever is the outer one.
 * The room is below saturation, so the leak brings no water, and its plane
 * lies on the straight line from the wet plane to the surface beyond it; by
 * hand, the same temperature everywhere. The layer has an sd of 2 m in 10 mm.
 */
START_TEST(leak_and_water_in_one_layer_keep_their_own_depths)
{
    static const double depth[][2] = {{.002, .006}, {.006, .002}};
    for (int i = 0; i < 2; ++i) {
        wall_case wall;
        bw_boundary b[BW_MONTHS];
        wall_of(&wall, boards, 2, 0.04, 0.25);
        steady(b, 20, 1000, 20, 2300);
        double psat = 610.5 * exp(17.269 * 20 / 257.3);
        double wet = depth[i][0], leak = depth[i][1];
        bw_monthly_options o = {.start_month = 0,
                                .max_cycles = 1,
                                .wetting = 100.0,
                                .wet_plane = {.slab = 1, .depth = wet},
                                .has_air_flow = true,
                                .leak_plane = {.slab = 1, .depth = leak}};
        bw_monthly_result r = run(&wall, b, &o);
        double end = leak > wet ? 2300 : 1000;
        double to_end = leak > wet ? 2 * (1 - leak / .01) : .5 + 2 * leak / .01;
        double to_wet = 2 * fabs(wet - leak) / .01;
        double p = (psat / to_wet + end / to_end) / (1 / to_wet + 1 / to_end);
        int seen = 0;
        for (size_t k = 0; k < r.plane_count; ++k) {
            bw_plane_at at = r.plane[k].at;
            double is = r.plane[k].month[0].vapour_pressure;
            if (at.slab != 1 || at.layer_face)
                continue;
            ++seen;
            if (fabs(at.depth - wet) < 1e-12)
                ck_assert_double_eq_tol(is, psat, 1e-9);
            else
                ck_assert_double_eq_tol(at.depth, leak, 1e-12);
            if (fabs(at.depth - leak) < 1e-12)
                ck_assert_double_eq_tol(is, p, 1e-9);
        }
        ck_assert_int_eq(seen, 2);
        bw_monthly_free(&r);
    }
}
END_TEST

/* Planes nearer than a millionth of their layer are one: one that close to the
 * end of a strip (R = 2: eight of 12.5 mm) is that end. */
START_TEST(a_plane_next_to_the_end_of_a_strip_is_that_end)
{
    static const slab_row rows[] = {{"wool", 0.1, 2.0, 1.0},
                                    {"board", 0.01, 0.05, 0.5}};
    static const double near[] = {-0.5e-7, 0.5e-7, -1e-3, 1e-3};
    for (size_t i = 0; i < COUNT(near); ++i) {
        wall_case wall;
        bw_boundary b[BW_MONTHS];
        wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
        steady(b, 20, 1000, 20, 1200);
        bw_monthly_options o = {.start_month = -1, .wetting = 0.01};
        o.wet_plane = (bw_plane_at){.slab = 0, .depth = 0.0125 + near[i]};
        bw_monthly_result r = run(&wall, b, &o);
        double expected = 0.0125 + (fabs(near[i]) < 1e-6 ? 0 : near[i]);
        ck_assert_double_eq_tol(r.plane[r.critical_plane].at.depth, expected,
                                1e-12);
        ck_assert(r.dried);
        bw_monthly_free(&r);
    }
}
END_TEST

/* The middle of a film without thickness is its outer face. */
START_TEST(water_in_a_film_is_at_its_outer_face)
{
    static const slab_row rows[] = {{"outer", 0.01, 0.2, 0.5},
                                    {"film", 0, 0, 1.0},
                                    {"inner", 0.01, 0.2, 1.0}};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
    steady(b, 20, 1000, 20, 1200);
    board_flows f = flows_from_boards(1000, 1200); /* 0.5 m out, 2 m in */
    bw_monthly_options o = {.run = "drying", .start_month = 0, .wetting = 0.1};
    o.wet_plane = (bw_plane_at){.slab = 1};
    bw_monthly_result r = run(&wall, b, &o);
    ck_assert_str_eq(r.run, "drying");
    ck_assert(!r.has_reserve);
    ck_assert_ptr_eq(&r.plane[r.critical_plane], face(&r, 0));
    ck_assert_double_eq_tol(r.months_to_dry,
                            0.1 / (f.out + f.in) / bw_month_seconds(0), 1e-9);
    bw_monthly_free(&r);
}
END_TEST

SUITE("drying", FACT(drying_test_starts_three_months_before_the_coldest),
      FACT(drying_test_starts_in_april_where_july_is_coldest),
      FACT(the_year_starts_with_the_first_month_of_the_season_tried),
      FACT(the_last_half_second_of_a_month_counts),
      FACT(water_moved_to_another_plane_does_not_count_as_dried),
      FACT(reserve_counts_only_water_that_left_the_wall),
      FACT(leaking_air_raises_the_pressure_then_condenses),
      FACT(leak_and_water_in_one_layer_keep_their_own_depths),
      FACT(a_plane_next_to_the_end_of_a_strip_is_that_end),
      FACT(water_in_a_film_is_at_its_outer_face))
