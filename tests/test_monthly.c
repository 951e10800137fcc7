/* What the monthly method calls a plane, which mu it takes and where its
 * critical plane lies. Its figures: cases/. */

#include <math.h>
#include <stdlib.h>

#include "suite.h"
#include "wall_case.h"

/* A timber wall without vapour control: cases/ has its figures. */
static const slab_row timber[] = {{"breather", 0, 0, 0.05},
                                  {"OSB", 0.009, 0.009 / 0.13, 0.45},
                                  {"mineral wool", 0.14, 0.14 / 0.035, 0.14},
                                  {"plasterboard", 0.0125, 0.05, 0.125}};

/* Condensation inside a homogeneous layer comes at the ends of its strips and
 * is named by its depth. R = 2 is cut into 8 strips of 12.5 mm. */
START_TEST(planes_inside_a_layer_are_named_by_depth)
{
    static const slab_row rows[] = {{"wool", 0.1, 2.0, 0.1},
                                    {"lining", 0.01, 0.05, 0.05}};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    char text[80];
    wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
    steady(b, -10, 255, 20, 1850);
    bw_monthly_result r = run(&wall, b, NULL);
    size_t within = 0;
    for (size_t i = 0; i < r.plane_count; ++i) {
        bw_plane_at at = r.plane[i].at;
        if (at.layer_face || at.depth == 0.0)
            continue;
        ++within;
        ck_assert_double_gt(r.plane[i].peak, 0);
        ck_assert_double_eq_tol(remainder(at.depth, 0.0125), 0, 1e-12);
        ck_assert_double_eq_tol(r.plane[i].month[0].sd_from_outside, at.depth,
                                1e-12);
    }
    ck_assert_uint_gt(within, 1);
    bw_plane_label(text, sizeof text, &wall.section,
                   (bw_plane_at){.slab = 0, .depth = 0.0375});
    ck_assert_str_eq(text, "in wool, 37.5 mm from its outer face");
    bw_plane_label(text, sizeof text, &wall.section,
                   (bw_plane_at){.slab = 0, .depth = 0.1, .layer_face = true});
    ck_assert_str_eq(text, "between wool and lining");
    bw_plane_label(text, sizeof text, &wall.section, (bw_plane_at){0});
    ck_assert_str_eq(text, "outer surface");
    bw_plane_label(text, sizeof text, &wall.section,
                   (bw_plane_at){.slab = 1, .depth = 0.01, .layer_face = true});
    ck_assert_str_eq(text, "inner surface");
    wall.section.dropped_layers = 2;
    bw_plane_label(text, sizeof text, &wall.section, (bw_plane_at){0});
    ck_assert_str_eq(text, "cavity face of wool");
    /* the middle of a layer without thickness, which only the outermost has
     * at a surface */
    bw_plane_label(text, sizeof text, &wall.section, (bw_plane_at){.slab = 1});
    ck_assert_str_eq(text, "in lining");
    bw_monthly_free(&r);
}
END_TEST

/* ISO 10456's rule [from memory, high confidence]: wet cup above 70 % mean
 * RH. The outer board is near 80 %, the inner near 50 %. */
START_TEST(mu_is_wet_where_the_layer_is_damp_and_the_bound_run_opposite)
{
    static const slab_row rows[] = {{"outer", 0.01, 0.1, 1.0},
                                    {"wool", 0.1, 2.5, 0.1},
                                    {"inner", 0.01, 0.1, 1.0}};
    static const struct {
        bw_mu_choice mu;
        bool wet[3];
    } choices[] = {{BW_MU_LOCAL, {true, false, false}},
                   {BW_MU_OPPOSITE, {false, false, true}},
                   {BW_MU_DRY, {false, false, false}},
                   {BW_MU_WET, {true, false, true}},
                   {BW_MU_OUTER_DRY_INNER_WET, {false, false, true}},
                   {BW_MU_OUTER_WET_INNER_DRY, {true, false, false}}};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
    wall.slab[0].sd_wet = 0.5;
    wall.slab[2].sd_wet = 0.25;
    steady(b, 5, 700, 20, 1150);
    for (size_t i = 0; i < COUNT(choices); ++i) {
        bw_monthly_options o = {.start_month = -1, .mu = choices[i].mu};
        bw_monthly_result r = run(&wall, b, &o);
        for (size_t k = 0; k < 3; ++k) {
            bool wet = choices[i].wet[k];
            ck_assert_int_eq(r.used_wet[k], wet);
            ck_assert_double_eq(r.layer_sd[k][4], wet ? wall.slab[k].sd_wet
                                                      : wall.slab[k].sd_dry);
        }
        bw_monthly_free(&r);
    }
}
END_TEST

/* The rule is of the mean of the two faces and the twelve months. By hand, one
 * temperature throughout: the outer board's faces are at `outer` and half-way
 * to `inner`; in half of the months `swing` higher, in half lower. */
START_TEST(mu_is_wet_from_70_percent_as_the_mean_of_faces_and_months)
{
    static const slab_row rows[] = {{"outer", 0.01, 0.1, 1.0},
                                    {"inner", 0.01, 0.1, 1.0}};
    static const struct {
        double outer, inner, swing;
        bool wet;
    } cases[] = {{.695, .695, 0, false},  {.705, .705, 0, true},
                 {.79, .41, 0, false},    {.80, .42, 0, true},
                 {.60, .98, 0, false},    {.62, .98, 0, true},
                 {.695, .695, .2, false}, {.705, .705, .2, true}};
    double psat = 610.5 * exp(17.269 * 20 / 257.3);
    for (size_t i = 0; i < COUNT(cases); ++i) {
        wall_case wall;
        bw_boundary b[BW_MONTHS];
        wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
        wall.slab[0].sd_wet = 0.5;
        for (int m = 0; m < BW_MONTHS; ++m) {
            double add = m % 2 ? cases[i].swing : -cases[i].swing;
            b[m] = (bw_boundary){20, psat * (cases[i].outer + add), 20,
                                 psat * (cases[i].inner + add)};
        }
        bw_monthly_result r = run(&wall, b, NULL);
        double mean = 0.75 * cases[i].outer + 0.25 * cases[i].inner;
        ck_assert_int_eq(cases[i].wet, mean > 0.7);
        ck_assert_int_eq(r.used_wet[0], cases[i].wet);
        ck_assert(!r.used_wet[1]);
        bw_monthly_free(&r);
    }
}
END_TEST

/* From dry walls: with no condensate, the face outside the insulation that is
 * dampest in winter; a single layer's middle. */
/* Little resistance to vapour but some to heat in "open": the face outside it
 * is the colder one and hardly drier, so the damper one. */
START_TEST(the_critical_plane_of_a_dry_wall_is_the_dampest_outer_face)
{
    static const slab_row rows[] = {{"tight", 0.02, 0.1, 5.0},
                                    {"open", 0.04, 0.5, 0.01},
                                    {"insulation", 0.1, 3.0, 0.1},
                                    {"film", 0.0, 0.0, 50.0}};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
    steady(b, -5, 320, 20, 600);
    bw_monthly_result r = run(&wall, b, NULL);
    ck_assert(!r.condenses);
    ck_assert_double_gt(face(&r, 0)->month[0].relative_humidity,
                        face(&r, 1)->month[0].relative_humidity);
    bw_plane_at at = bw_critical_plane(&wall.section, &r);
    ck_assert_uint_eq(at.slab, 0);
    ck_assert(at.layer_face);
    /* planes behind the last of a result are none of it */
    bw_monthly_result cut = r;
    cut.plane_count = 1;
    ck_assert_uint_eq(bw_critical_plane(&wall.section, &cut).slab, 1);
    /* water at more than 1e-9 kg/m2 stands, and decides */
    cut = r;
    cut.plane[3].peak = 1e-9;
    ck_assert_uint_eq(bw_critical_plane(&wall.section, &cut).slab, 0);
    cut.plane[3].peak = 1.0001e-9;
    ck_assert_uint_eq(bw_critical_plane(&wall.section, &cut).slab,
                      r.plane[3].at.slab);
    ck_assert_uint_gt(r.plane[3].at.slab, 1);
    /* without a result, the face before the insulation */
    at = bw_critical_plane(&wall.section, NULL);
    ck_assert_uint_eq(at.slab, 1);
    ck_assert_double_eq(at.depth, 0.04);
    ck_assert(at.layer_face);
    bw_monthly_free(&r);
}
END_TEST

START_TEST(critical_plane_of_dry_walls)
{
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, timber, COUNT(timber), 0.04, 0.25);
    steady(b, 0, 300, 20, 500);
    bw_monthly_result r = run(&wall, b, NULL);
    bw_plane_at at = bw_critical_plane(&wall.section, &r);
    ck_assert(!r.condenses && at.layer_face);
    ck_assert_double_eq(r.left, 0); /* of a drying test only */
    /* the dry room side dries the OSB's inner face below its outer one */
    ck_assert_uint_le(at.slab, 1);
    ck_assert_double_ge(face(&r, at.slab)->month[0].relative_humidity,
                        face(&r, 1 - at.slab)->month[0].relative_humidity);
    bw_monthly_free(&r);

    static const slab_row one[] = {{"brick", 0.3, 0.3, 3.0}};
    wall_of(&wall, one, 1, 0.04, 0.25);
    r = run(&wall, b, NULL);
    at = bw_critical_plane(&wall.section, &r);
    ck_assert_double_eq_tol(at.depth, 0.15, 1e-12);
    ck_assert(r.has_reserve);
    ck_assert_double_eq_tol(r.plane[r.critical_plane].at.depth, 0.15, 1e-12);
    bw_monthly_options o = {.start_month = -1, .wetting = 0.1, .wet_plane = at};
    bw_monthly_free(&r);
    r = run(&wall, b, &o);
    ck_assert(r.dried);
    bw_monthly_free(&r);
}
END_TEST

SUITE("monthly", FACT(planes_inside_a_layer_are_named_by_depth),
      FACT(mu_is_wet_where_the_layer_is_damp_and_the_bound_run_opposite),
      FACT(mu_is_wet_from_70_percent_as_the_mean_of_faces_and_months),
      FACT(critical_plane_of_dry_walls),
      FACT(the_critical_plane_of_a_dry_wall_is_the_dampest_outer_face))
