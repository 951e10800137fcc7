/* What the monthly method refuses, and where it stops at a limit and says
 * so. */

#include <math.h>
#include <stdlib.h>

#include "suite.h"
#include "wall_case.h"

static const slab_row timber[] = {{"breather", 0, 0, 0.05},
                                  {"OSB", 0.009, 0.009 / 0.13, 0.45},
                                  {"mineral wool", 0.14, 0.14 / 0.035, 0.14},
                                  {"plasterboard", 0.0125, 0.05, 0.125}};

typedef struct refusal {
    const char *why;
    double resistance, p_e;
    bw_monthly_options options;
} refusal;

START_TEST(what_makes_no_sense_is_refused)
{
    const refusal cases[] = {
        {"NaN resistance", NAN, 700, {.start_month = -1}},
        {"negative resistance", -1, 700, {.start_month = -1}},
        {"NaN pressure", 1, NAN, {.start_month = -1}},
        {"infinite pressure", 1, INFINITY, {.start_month = -1}},
        {"month 12", 1, 700, {.start_month = 12}},
        {"wetted surface", 1, 700, {.start_month = -1, .wetting = 1}},
        {"wet plane in no layer",
         1,
         700,
         {.wetting = 1, .wet_plane = {.slab = 9, .layer_face = true}}},
        {"no such slab", 1, 700, {.saturated = true, .saturated_slab = 4}},
        {"leak at a surface", 1, 700, {.has_air_flow = true}},
        {"wetted inner surface",
         1,
         700,
         {.wetting = 1, .wet_plane = {.slab = 3, .layer_face = true}}},
        {"wetted outer face of a saturated layer",
         1,
         700,
         {.wetting = 1,
          .wet_plane = {.slab = 1, .layer_face = true},
          .saturated = true,
          .saturated_slab = 2}},
        {"wetted plane within a saturated layer",
         1,
         700,
         {.wetting = 1,
          .wet_plane = {.slab = 2, .depth = 0.06},
          .saturated = true,
          .saturated_slab = 2}},
        {"wetted inner face of a saturated layer",
         1,
         700,
         {.wetting = 1,
          .wet_plane = {.slab = 2, .layer_face = true},
          .saturated = true,
          .saturated_slab = 2}},
        {"leak at the inner surface",
         1,
         700,
         {.has_air_flow = true, .leak_plane = {.slab = 3, .layer_face = true}}},
        {"leak in no layer",
         1,
         700,
         {.has_air_flow = true, .leak_plane = {.slab = 4, .layer_face = true}}},
        {"month -2", 1, 700, {.start_month = -2}},
        {"wet plane deeper than its layer is thick",
         1,
         700,
         {.wetting = 1, .wet_plane = {.slab = 2, .depth = 0.15}}},
        {"one-sided drying beside a saturated layer",
         1,
         700,
         {.wetting = 1,
          .wet_plane = {.slab = 1, .layer_face = true},
          .ways = BW_DRY_INWARDS,
          .saturated = true}},
        {"one-sided drying with a leak",
         1,
         700,
         {.wetting = 1,
          .wet_plane = {.slab = 1, .layer_face = true},
          .ways = BW_DRY_OUTWARDS,
          .has_air_flow = true,
          .leak_plane = {.slab = 1, .layer_face = true}}},
    };
    for (size_t i = 0; i < COUNT(cases); ++i) {
        wall_case wall;
        bw_boundary b[BW_MONTHS];
        bw_monthly_result r;
        bw_error err = {0};
        wall_of(&wall, timber, COUNT(timber), 0.04, 0.25);
        wall.slab[1].resistance = cases[i].resistance;
        steady(b, 5, cases[i].p_e, 20, 1150);
        bw_status status = bw_monthly(&r, &wall.section, b, &cases[i].options,
                                      &err);
        ck_assert_msg(status == BW_ERR_DOMAIN, "%s", cases[i].why);
        ck_assert_int_gt((int)strlen(err.message), 0);
        ck_assert_ptr_null(r.plane);
    }
}
END_TEST

/* Ways to dry are asked of a drying test only. */
START_TEST(one_sided_drying_of_no_water_is_no_reason_to_refuse)
{
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, timber, COUNT(timber), 0.04, 0.25);
    steady(b, 5, 700, 20, 1150);
    bw_monthly_options o = {.saturated = true};
    bw_monthly_result r = run(&wall, b, &o);
    o.ways = BW_DRY_INWARDS;
    bw_monthly_result s = run(&wall, b, &o);
    ck_assert_double_eq(r.condensed, s.condensed);
    ck_assert_double_eq(r.residual_last, s.residual_last);
    bw_monthly_free(&r);
    bw_monthly_free(&s);
}
END_TEST

/* The ranges of the header: BW_ERR_DOMAIN beyond them, and their ends are
 * still within. */
START_TEST(every_number_has_its_range)
{
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    bw_monthly_options o = {.start_month = 11, .has_air_flow = true};
    o.leak_plane = (bw_plane_at){.slab = 1, .layer_face = true};
    o.wet_plane = o.leak_plane;
    wall_of(&wall, timber, COUNT(timber), 0.04, 0.25);
    steady(b, 5, 700, 20, 1150);
    const struct {
        double *where, low, high;
    } numbers[] = {
        {&wall.slab[3].thickness, 0, 1e6},
        {&wall.slab[3].resistance, 0, 1e6},
        {&wall.slab[3].sd_dry, 0, HUGE_VAL},
        {&wall.slab[3].sd_wet, 0, HUGE_VAL},
        {&wall.section.outer_resistance, 0, 9.9e8},
        {&wall.section.inner_resistance, 0, 9.9e8},
        {&b[11].theta_e, -100, 200},
        {&b[11].theta_i, -100, 200},
        {&b[11].p_e, 0, 1e6},
        {&b[11].p_i, 0, 1e6},
        {&o.wetting, 0, 1e6},
        {&o.air_flow[11], 0, 1},
    };
    for (size_t i = 0; i < COUNT(numbers); ++i) {
        double low = numbers[i].low, high = numbers[i].high;
        const double trial[] = {low,         high, low - 1e-9, low - 200,
                                high * 1.02, NAN,  -HUGE_VAL};
        double kept = *numbers[i].where;
        for (size_t t = 0; t < COUNT(trial); ++t) {
            bool within = trial[t] >= low && trial[t] <= high;
            bw_monthly_result r;
            *numbers[i].where = trial[t];
            bw_status status = bw_monthly(&r, &wall.section, b, &o, NULL);
            ck_assert_msg(status == (within ? BW_OK : BW_ERR_DOMAIN),
                          "number %zu, trial %zu", i, t);
            bw_monthly_free(&r);
        }
        *numbers[i].where = kept;
    }
}
END_TEST

START_TEST(a_wall_that_nothing_can_be_said_of_is_refused)
{
    static const slab_row nothing[] = {{"film", 0, 0, 1}, {"film", 0, 0, 1}};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    bw_monthly_result r;
    bw_error err = {0};
    steady(b, 5, 700, 20, 1150);
    wall_of(&wall, nothing, 2, 0, 0);
    ck_assert_int_eq(bw_monthly(&r, &wall.section, b, NULL, &err),
                     BW_ERR_DOMAIN);
    ck_assert(strstr(err.message, "no usable sum") != NULL);
    /* with the standard's surface resistances the same films can be */
    wall_of(&wall, nothing, 2, 0.04, 0.25);
    r = run(&wall, b, NULL);
    bw_monthly_free(&r);
    /* a whole resistance of a billionth of 1 m2 K/W is the least */
    wall_of(&wall, nothing, 2, 0, 0.98e-9);
    ck_assert_int_eq(bw_monthly(&r, &wall.section, b, NULL, &err),
                     BW_ERR_DOMAIN);
    wall_of(&wall, nothing, 2, 0, 1.02e-9);
    r = run(&wall, b, NULL);
    bw_monthly_free(&r);
    wall.section.slab_count = 0;
    ck_assert_int_eq(bw_monthly(&r, &wall.section, b, NULL, &err),
                     BW_ERR_DOMAIN);
    ck_assert(strstr(err.message, "no layers") != NULL);
    bw_monthly_free(NULL); /* is allowed */
}
END_TEST

/* The middle of a film without thickness is its outer face, a surface. */
START_TEST(a_wall_of_one_film_has_no_place_for_water)
{
    static const slab_row film[] = {{"film", 0, 0.1, 2}};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, film, 1, 0.04, 0.25);
    steady(b, -5, 350, 20, 1150);
    bw_monthly_result r = run(&wall, b, NULL);
    ck_assert_uint_eq(r.plane_count, 2);
    ck_assert(!r.condenses && !r.has_reserve);
    ck_assert_uint_eq(r.critical_plane, 0);
    bw_monthly_free(&r);
}
END_TEST

/* The header: below 1e-6 m sd counts as that, above 1e9 m as that. */
START_TEST(sd_is_held_between_its_least_and_its_most)
{
    static const double pair[][2] = {
        {0, 1e-6}, {1e-7, 1e-6}, {1e12, 1e9}, {HUGE_VAL, 1e9}};
    for (size_t i = 0; i < COUNT(pair); ++i) {
        bw_monthly_result r[2];
        for (int k = 0; k < 2; ++k) {
            wall_case wall;
            bw_boundary b[BW_MONTHS];
            wall_of(&wall, timber, COUNT(timber), 0.04, 0.25);
            wall.slab[3].sd_dry = wall.slab[3].sd_wet = pair[i][k];
            example_boundary(b, 810);
            r[k] = run(&wall, b, NULL);
        }
        ck_assert_double_eq(r[0].condensed, r[1].condensed);
        ck_assert_double_eq(r[0].residual_last, r[1].residual_last);
        ck_assert_double_eq(face(&r[0], 2)->month[0].vapour_pressure,
                            face(&r[1], 2)->month[0].vapour_pressure);
        bw_monthly_free(&r[0]);
        bw_monthly_free(&r[1]);
    }
}
END_TEST

/* Two layers whose curves fall steeply: the search can end with one of them
 * off its curve (these walls are two of few of millions of random ones). The
 * result must say so, and the sd used show it: too high here, too low there. */
START_TEST(a_variable_layer_off_its_curve_is_said_not_to_have_converged)
{
    static const struct {
        double resistance[3], sd, te, pe, pi, x[2][2];
        bool too_high;
    } walls[] = {
        {{2.1, 4.8, 1.9}, .3, -6, 360, 1500, {{.77, .78}, {.69, .70}}, true},
        {{0.1, 2.1, 4.6}, .4, -8, 170, 640, {{.76, .77}, {.54, .55}}, false},
    };
    static const double y[][2] = {{10, 0.01}, {1, 0.1}};
    for (size_t i = 0; i < COUNT(walls); ++i) {
        bw_curve curve[2];
        slab_row rows[3];
        for (size_t k = 0; k < 3; ++k)
            rows[k] = (slab_row){"layer", 0.1, walls[i].resistance[k],
                                 walls[i].sd};
        wall_case wall;
        bw_boundary b[BW_MONTHS];
        wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
        for (size_t k = 0; k < 2; ++k) {
            curve[k] = (bw_curve){2, walls[i].x[k], y[k], 0, "", ""};
            wall.slab[k + 1].sd_curve = &curve[k];
        }
        steady(b, walls[i].te, walls[i].pe, 20, walls[i].pi);
        bw_monthly_result r = run(&wall, b, NULL);
        double rh = 0.5 * (face(&r, 1)->month[0].relative_humidity +
                           face(&r, 2)->month[0].relative_humidity);
        double off = r.layer_sd[2][0] / bw_curve_log(&curve[1], rh) - 1;
        ck_assert(!r.converged);
        ck_assert_double_gt(walls[i].too_high ? off : -off, 1e-6);
        bw_monthly_free(&r);

        /* either of them alone is found */
        for (size_t k = 0; k < 2; ++k) {
            wall.slab[k + 1].sd_curve = NULL;
            r = run(&wall, b, NULL);
            ck_assert(r.converged);
            bw_monthly_free(&r);
            wall.slab[k + 1].sd_curve = &curve[k];
        }
    }
}
END_TEST

/* A curve that falls from 100 m to 10 mm at one RH, steeper than any profile is
 * computed: its layer takes the sd that gives it this RH. By hand, at 20 degC
 * throughout, boards of 0.5 m and 2 m beside it, 1000 Pa and 1200 Pa: the mean
 * of its faces is 1000 + 200 (0.5 + sd/2)/(2.5 + sd), 1070 Pa with 2.5 m. */
START_TEST(a_layer_with_a_step_in_its_curve_sits_on_the_step)
{
    static const slab_row rows[] = {{"outer", 0.01, 0.2, 0.5},
                                    {"variable", 0, 0, 1},
                                    {"inner", 0.01, 0.2, 2.0}};
    const double rh = 1070 / (610.5 * exp(17.269 * 20 / 257.3));
    const double x[] = {rh, rh + 1e-9};
    static const double falling[] = {100, 0.01};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
    steady(b, 20, 1000, 20, 1200);
    bw_curve curve = {2, x, falling, 0, "", ""};
    wall.slab[1].sd_curve = &curve;
    bw_monthly_result r = run(&wall, b, NULL);
    ck_assert(r.converged);
    for (int m = 0; m < BW_MONTHS; ++m)
        ck_assert_double_eq_tol(r.layer_sd[1][m], 2.5, 1e-6);
    bw_monthly_free(&r);
}
END_TEST

SUITE("monthly_limits", FACT(what_makes_no_sense_is_refused),
      FACT(one_sided_drying_of_no_water_is_no_reason_to_refuse),
      FACT(every_number_has_its_range),
      FACT(a_wall_that_nothing_can_be_said_of_is_refused),
      FACT(a_wall_of_one_film_has_no_place_for_water),
      FACT(sd_is_held_between_its_least_and_its_most),
      FACT(a_variable_layer_off_its_curve_is_said_not_to_have_converged),
      FACT(a_layer_with_a_step_in_its_curve_sits_on_the_step))
