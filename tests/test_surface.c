/* Surface humidity, and the air that leaks in. */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/air.h"
#include "bothways/glaser.h"
#include "glaser/surface.h"
#include "suite.h"

/* A year of class 3: cases/required-temperature-factor.case has its figures. */
static const struct {
    double theta_e, p_e, p_i;
} table[BW_MONTHS] = {
    {-1, 478, 1369},  {0, 513, 1404},   {4, 634, 1347},   {9, 826, 1316},
    {14, 1086, 1354}, {18, 1423, 1512}, {19, 1603, 1648}, {19, 1647, 1692},
    {15, 1346, 1569}, {10, 1019, 1464}, {5, 767, 1435},   {1, 578, 1424},
};

static void fill(bw_boundary boundary[BW_MONTHS])
{
    for (int i = 0; i < BW_MONTHS; ++i)
        boundary[i] = (bw_boundary){.theta_e = table[i].theta_e,
                                    .p_e = table[i].p_e,
                                    .theta_i = 20,
                                    .p_i = table[i].p_i};
}

START_TEST(corner_and_cupboard_ask_for_more)
{
    bw_boundary boundary[BW_MONTHS];
    fill(boundary);
    bw_surface_result r;
    bw_surface(&r, "open-wall", 2, .04, BW_RSI_OPEN_WALL,
               BW_RSI_OPEN_WALL_SOURCE, 0.8, boundary);
    ck_assert_str_eq(r.where, "open-wall");
    ck_assert_double_eq(r.rsi, 0.25);
    ck_assert(strstr(r.rsi_source, "13788") != NULL);
    bw_surface_result cupboard;
    bw_surface(&cupboard, "behind-cupboard", 2, .04, BW_RSI_BEHIND_CUPBOARD,
               BW_RSI_BEHIND_CUPBOARD_SOURCE, 0.8, boundary);
    bw_surface_result corner;
    bw_surface(&corner, "corner", 2, .04, BW_RSI_CORNER, BW_RSI_CORNER_SOURCE,
               0.8, boundary);
    ck_assert_double_lt(cupboard.frsi, corner.frsi);
    ck_assert_double_lt(corner.frsi, r.frsi);
    ck_assert_double_gt(cupboard.highest_rh, r.highest_rh);
}
END_TEST

START_TEST(requirement_is_met_exactly_when_the_humidity_is)
{
    bw_boundary boundary[BW_MONTHS];
    fill(boundary);
    for (double resistance = 0.05; resistance < 3; resistance += 0.05) {
        bw_surface_result r;
        bw_surface(&r, "open-wall", resistance, .04, .25, "", 0.8, boundary);
        for (int i = 0; i < BW_MONTHS; ++i)
            if (r.month[i].meaningful)
                ck_assert_int_eq(r.frsi >= r.month[i].frsi_required,
                                 r.month[i].rh_si <= 0.8);
    }
}
END_TEST

START_TEST(cooled_room_has_no_required_factor)
{
    bw_boundary boundary[BW_MONTHS];
    for (int i = 0; i < BW_MONTHS; ++i)
        boundary[i] = (bw_boundary){30 - (i == 5), 2500, 22, 1300};
    bw_surface_result r;
    bw_surface(&r, "open-wall", 1, .04, .25, "", 0.8, boundary);
    ck_assert_double_eq(r.frsi_required, 0);
    ck_assert_int_eq(r.critical_month, 5);
    ck_assert(!r.month[5].meaningful);
    ck_assert_double_eq(r.month[5].frsi_required, 0);
    ck_assert_double_gt(r.highest_rh, 0.3);
}
END_TEST

/* Without vapour no factor is asked for; without any resistance the surface is
 * as warm as the room. */
START_TEST(no_vapour_and_no_resistance_have_their_plain_answers)
{
    bw_boundary boundary[BW_MONTHS];
    fill(boundary);
    for (int i = 0; i < BW_MONTHS; ++i)
        boundary[i].p_i = 0;
    bw_surface_result r;
    bw_surface(&r, "open-wall", 0, 0, 0, "", 0.8, boundary);
    ck_assert_double_eq(r.frsi, 1);
    for (int i = 0; i < BW_MONTHS; ++i) {
        ck_assert_double_eq(r.month[i].theta_si, 20);
        ck_assert_double_eq(r.month[i].rh_si, 0);
        ck_assert_double_eq(r.month[i].frsi_required, 0);
    }
    ck_assert_double_eq(r.frsi_required, 0);
    ck_assert_double_eq(r.highest_rh, 0);
    /* half a pascal: 80 % where saturation is 0.625 Pa */
    boundary[0].p_i = 0.5;
    bw_surface(&r, "open-wall", 1, .04, .25, "", 0.8, boundary);
    double theta = -1 + 21 * r.month[0].frsi_required;
    ck_assert_double_eq_tol(bw_saturation_pressure(theta), 0.625, 1e-9);
}
END_TEST

/* The model's figures at 20 degC/50 %, -5 degC, plane at -4 degC, worked by
 * hand [derived]; k_CL [from memory, low]. */
START_TEST(leakage_flow_and_what_it_condenses)
{
    static const struct {
        double q50, flow, source, winter;
    } rows[] = {{1, 0.0110, 0.0564, 122},
                {3, 0.0193, 0.0987, 213},
                {5, 0.0275, 0.1410, 304}};
    double room = bw_vapour_pressure(20, .5, BW_OVER_ICE);
    double surplus = bw_vapour_concentration(20, room) -
                     bw_vapour_concentration(-4, bw_saturation_pressure(-4));
    for (int i = 0; i < 3; ++i) {
        double flow = bw_leakage_air_flow(rows[i].q50 / 3600, 5, -5, 20);
        ck_assert_double_eq_tol(flow * 3600, rows[i].flow, 6e-5);
        double source = flow * surplus * 1000; /* g/(m2 s) */
        ck_assert_double_eq_tol(source * 3600, rows[i].source, 0.0004);
        ck_assert_double_eq_tol(source * 90 * 86400, rows[i].winter, 1);
        ck_assert_double_eq_tol(
            bw_leakage_air_flow(rows[i].q50 / 3600, 10, -5, 20), 2 * flow,
            1e-12);
        ck_assert_double_eq_tol(
            bw_leakage_air_flow(rows[i].q50 / 3600, 0.5, -5, 20), flow / 10,
            1e-12);
    }
}
END_TEST

START_TEST(no_leak_no_height_no_cold_no_flow)
{
    ck_assert_double_eq(bw_leakage_air_flow(0, 5, -5, 20), 0);
    ck_assert_double_eq(bw_leakage_air_flow(1e-3, 0, -5, 20), 0);
    ck_assert_double_eq(bw_leakage_air_flow(1e-3, 5, 20, 20), 0);
    ck_assert_double_eq(bw_leakage_air_flow(1e-3, 5, 30, 20), 0);
    ck_assert_double_gt(bw_leakage_air_flow(1e-3, 5, 19, 20), 0);
}
END_TEST

SUITE("surface", FACT(corner_and_cupboard_ask_for_more),
      FACT(requirement_is_met_exactly_when_the_humidity_is),
      FACT(cooled_room_has_no_required_factor),
      FACT(no_vapour_and_no_resistance_have_their_plain_answers),
      FACT(leakage_flow_and_what_it_condenses),
      FACT(no_leak_no_height_no_cold_no_flow))
