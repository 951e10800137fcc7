/* The monthly method where water and rounding must be told apart: very thin
 * and very tight layers, planes next to each other, very much and very little
 * water; against hand calculations written out here. */

#include <math.h>
#include <stdlib.h>

#include "suite.h"
#include "wall_case.h"

static const double delta_0 = 2.0e-10; /* kg/(m s Pa), ISO 13788 */

/* ISO 13788 [from memory, high confidence] */
static double saturation(double theta)
{
    return theta < 0 ? 610.5 * exp(21.875 * theta / (265.5 + theta))
                     : 610.5 * exp(17.269 * theta / (237.3 + theta));
}

/* Two boards of one sd, the same to heat, 0 and 20 degC. */
static void two_boards(wall_case *wall, double sd)
{
    const slab_row rows[] = {{"outer", 0.01, 0.2, sd},
                             {"inner", 0.01, 0.2, sd}};
    wall_of(wall, rows, COUNT(rows), 0.04, 0.25);
}

/* The outside pressure with which the straight line from there to `p_i` passes
 * `above` Pa over saturation between the two boards. */
static double outside(double p_i, double above)
{
    return 2 * (saturation(20 * 0.24 / 0.69) + above) - p_i;
}

/* The header: sd below 1e-6 m counts as that, above 1e9 m as that; between
 * them every sd is used as it is, and condensate follows one formula. */
START_TEST(two_boards_condense_by_one_formula_whatever_their_sd)
{
    static const double sd[][2] = {
        {0, 1e-6},       {9e-7, 1e-6},  {1.05e-6, 1.05e-6},
        {1, 1},          {1e5, 1e5},    {1e9, 1e9},
        {HUGE_VAL, 1e9}, {1.05e9, 1e9}, {9.5e8, 9.5e8}};
    const double psat = saturation(20 * 0.24 / 0.69), pe = outside(1400, 5);
    for (size_t i = 0; i < COUNT(sd); ++i) {
        wall_case wall;
        bw_boundary b[BW_MONTHS];
        two_boards(&wall, sd[i][0]);
        steady(b, 0, pe, 20, 1400);
        bw_monthly_result r = run(&wall, b, NULL);
        double g = delta_0 * ((1400 - psat) - (psat - pe)) / sd[i][1];
        for (int m = 0; m < BW_MONTHS; ++m)
            ck_assert_double_eq_tol(face(&r, 0)->month[m].condensation /
                                        (g * bw_month_seconds(m)),
                                    1.0, 1e-9);
        bw_monthly_free(&r);
    }
}
END_TEST

/* Every face at saturation, and the sd such that this is a straight line:
 * what comes to a face leaves it. */
START_TEST(saturation_along_a_straight_line_condenses_nothing)
{
    for (int te = -10; te < 10; ++te) {
        slab_row rows[5];
        double p[6], total = 0.04 + 5 * 0.2 + 0.25;
        for (int k = 0; k < 6; ++k)
            p[k] = saturation(te + (20 - te) * (0.04 + 0.2 * k) / total);
        for (int k = 0; k < 5; ++k)
            rows[k] = (slab_row){"board", 0.01, 0.2, 1e-6 * (p[k + 1] - p[k])};
        wall_case wall;
        bw_boundary b[BW_MONTHS];
        wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
        steady(b, te, p[0], 20, p[5]);
        bw_monthly_result r = run(&wall, b, NULL);
        ck_assert_double_eq(r.condensed, 0);
        ck_assert_double_eq(r.evaporated, 0);
        ck_assert(!r.condenses && r.periodic);
        for (size_t k = 0; k < 5; ++k)
            ck_assert_double_eq_tol(face(&r, k)->month[0].relative_humidity, 1,
                                    1e-12);
        bw_monthly_free(&r);
    }
}
END_TEST

/* In January 1e-16 kg/m2, less than one layer of molecules by far: the plane
 * is dry in February, its pressure half-way between its two neighbours. There
 * is water on its inner side throughout. */
START_TEST(less_than_rounding_wets_no_plane)
{
    static const slab_row rows[] = {{"outer", 0.01, 0.2, 1e6},
                                    {"middle", 0.01, 0.2, 1e6},
                                    {"inner", 0.01, 0.2, 1e6}};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
    double first = saturation(20 * 0.24 / 0.89);
    double second = saturation(20 * 0.44 / 0.89);
    steady(b, 0, 2 * (first - 50) - second, 20, 1000);
    b[0].p_e = 2 * (first + 1e-7) - second;
    bw_monthly_options o = {.start_month = 0,
                            .wetting = 1,
                            .wet_plane = {.slab = 1, .layer_face = true}};
    bw_monthly_result r = run(&wall, b, &o);
    const bw_plane_month *m = face(&r, 0)->month;
    ck_assert_double_eq_tol(m[0].vapour_pressure, first, 1e-9);
    ck_assert_double_eq_tol(m[1].vapour_pressure, first - 50, 1e-9);
    ck_assert_double_eq(r.condensed, 0);
    bw_monthly_free(&r);
}
END_TEST

/* A wall of a kiln: nearly 1e8 kg/m2 a year are the same gain in every year,
 * though their last digits are not. */
START_TEST(however_much_a_wall_gains_the_second_year_proves_it)
{
    static const slab_row rows[] = {{"outer", 0.01, 0.2, 1},
                                    {"inner", 0.01, 0.2, 0}};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
    for (int pi = 24000; pi < 24020; ++pi) {
        steady(b, 20, 1200, 90, pi);
        bw_monthly_result r = run(&wall, b, NULL);
        ck_assert_double_gt(r.condensed, 1e7);
        ck_assert(r.accumulates);
        ck_assert_int_eq(r.cycles, 2);
        bw_monthly_free(&r);
    }
}
END_TEST

/* Beside 1e5 kg/m2 of water a gain of 6e-6 kg/m2 a year is as good as none,
 * but only a second year can have "the same gain". */
START_TEST(one_year_alone_proves_nothing)
{
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    two_boards(&wall, 1e4);
    steady(b, 0, outside(1400, 5), 20, 1400);
    for (int years = 1; years <= 2; ++years) {
        bw_monthly_options o = {.start_month = 0,
                                .wetting = 1e5,
                                .wet_plane = {.slab = 0, .layer_face = true},
                                .max_cycles = years};
        bw_monthly_result r = run(&wall, b, &o);
        ck_assert_int_eq(r.cycles, years);
        ck_assert_double_eq_tol(r.growth, delta_0 * 10 / 1e4 * 365 * 86400,
                                1e-9);
        ck_assert_int_eq(r.accumulates, years > 1);
        bw_monthly_free(&r);
    }
}
END_TEST

/* R = 2: eight strips of 12.5 mm, several of them saturated. */
static void saturated_wool(wall_case *wall, bw_boundary b[BW_MONTHS])
{
    static const slab_row rows[] = {{"wool", 0.1, 2.0, 0.1},
                                    {"lining", 0.01, 0.05, 0.05}};
    wall_of(wall, rows, COUNT(rows), 0.04, 0.25);
    steady(b, -10, 255, 20, 1850);
}

static void check_same(const bw_monthly_result *r, const bw_monthly_result *s)
{
    ck_assert_uint_eq(r->plane_count, s->plane_count);
    for (size_t i = 0; i < r->plane_count; ++i) {
        ck_assert_double_eq(r->plane[i].at.depth, s->plane[i].at.depth);
        ck_assert_double_eq(r->plane[i].peak, s->plane[i].peak);
        ck_assert_double_eq(r->plane[i].residual, s->plane[i].residual);
    }
    ck_assert_double_eq(r->condensed, s->condensed);
}

/* Planes nearer than a millionth of their layer are one, on either side. */
START_TEST(water_next_to_the_end_of_a_strip_makes_no_second_plane)
{
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    saturated_wool(&wall, b);
    for (int i = 1; i < 8; ++i)
        for (int side = -1; side <= 1; side += 2) {
            bw_monthly_options o = {.wetting = 0.01, .max_cycles = 1};
            o.wet_plane = (bw_plane_at){.slab = 0, .depth = 0.0125 * i};
            bw_monthly_result r = run(&wall, b, &o);
            o.wet_plane.depth += side * 0.5e-7;
            bw_monthly_result s = run(&wall, b, &o);
            check_same(&r, &s);
            bw_monthly_free(&r);
            bw_monthly_free(&s);
        }
}
END_TEST

/* So one next to a face of the layer is the face. */
START_TEST(water_next_to_a_face_is_at_the_face)
{
    static const bw_plane_at near[] = {{.slab = 0, .depth = 0.1 - 0.5e-7},
                                       {.slab = 1, .depth = 0.5e-8}};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    saturated_wool(&wall, b);
    for (size_t i = 0; i < COUNT(near); ++i) {
        bw_monthly_options o = {.wetting = 0.01, .max_cycles = 1};
        o.wet_plane = (bw_plane_at){.slab = 0, .depth = 0.1, .layer_face = 1};
        bw_monthly_result r = run(&wall, b, &o);
        o.wet_plane = near[i];
        bw_monthly_result s = run(&wall, b, &o);
        check_same(&r, &s);
        ck_assert_ptr_eq(&s.plane[s.critical_plane], face(&s, 0));
        bw_monthly_free(&r);
        bw_monthly_free(&s);
    }
}
END_TEST

START_TEST(a_wet_plane_without_water_is_no_plane)
{
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    saturated_wool(&wall, b);
    bw_monthly_options o = {.max_cycles = 1};
    bw_monthly_result r = run(&wall, b, &o);
    o.wet_plane = (bw_plane_at){.slab = 0, .depth = 0.02};
    bw_monthly_result s = run(&wall, b, &o);
    check_same(&r, &s);
    bw_monthly_free(&r);
    bw_monthly_free(&s);
}
END_TEST

/* The header: water at more than 1e-9 kg/m2 counts as standing. Nothing leaves
 * this plane: the air on both sides is saturated. */
START_TEST(a_billionth_of_a_kilogram_is_dry_and_more_is_not)
{
    static const double water[] = {1e-9, 1.0001e-9};
    for (size_t i = 0; i < COUNT(water); ++i) {
        wall_case wall;
        bw_boundary b[BW_MONTHS];
        two_boards(&wall, 1e9);
        steady(b, 20, saturation(20), 20, saturation(20));
        bw_monthly_options o = {.wetting = water[i],
                                .wet_plane = {.slab = 0, .layer_face = true}};
        bw_monthly_result r = run(&wall, b, &o);
        ck_assert_int_eq(r.dried, i == 0);
        ck_assert_double_eq(r.left, i == 0 ? 0 : water[i]);
        ck_assert_int_eq(r.wet_plane_dried, i == 0);
        ck_assert_double_eq(r.wet_plane_months, i == 0);
        bw_monthly_free(&r);
    }
}
END_TEST

SUITE("monthly_rounding",
      FACT(two_boards_condense_by_one_formula_whatever_their_sd),
      FACT(saturation_along_a_straight_line_condenses_nothing),
      FACT(less_than_rounding_wets_no_plane),
      FACT(however_much_a_wall_gains_the_second_year_proves_it),
      FACT(one_year_alone_proves_nothing),
      FACT(water_next_to_the_end_of_a_strip_makes_no_second_plane),
      FACT(water_next_to_a_face_is_at_the_face),
      FACT(a_wet_plane_without_water_is_no_plane),
      FACT(a_billionth_of_a_kilogram_is_dry_and_more_is_not))
