/* Liquid water and rain in the hourly method: the humidity of the face between
 * two materials, redistribution, the first cell, the course of an hour. */

#include "boundary.h"
#include "model.h"
#include "suite.h"
#include "transient_case.h"
#include "transient_core.h"

#define DAY 86400.0

/* ---- between two materials ---- */

/* Draws water only from half full on. */
static double late_diffusivity(const void *ctx, double w)
{
    (void)ctx;
    return w > 73 ? 1e-9 : 0;
}

static double other_diffusivity(const void *ctx, double w)
{
    (void)ctx;
    return 1e-10 * pow(300, w / 146 - 1);
}

static double other_water(const void *ctx, double phi)
{
    (void)ctx;
    return 40 * phi + 106 * pow(phi, 9);
}

static double flow_at(const bw_hygro *m, double z)
{
    const double place = z * m->per_z, f = place - floor(place);
    const double *c = m->row[(size_t)place].flow;
    return c[0] + f * (c[1] + f * (c[2] + f * c[3]));
}

/* What passes through the face between the lab's two cells as liquid. */
static double liquid_between(lab *l)
{
    bw_edge edge;
    annex_edge(NULL, 0, &edge);
    double rate[4], crossing[BW_X_COUNT];
    bw_cells_at(&l->wall, l->solver.v, &l->solver.cells, false);
    bw_wall_rates(&l->wall, &edge, l->solver.v, &l->solver.cells, rate,
                  crossing, NULL);
    const bw_cell a = bw_cells_get(&l->solver.cells, 0);
    const bw_cell b = bw_cells_get(&l->solver.cells, 1);
    return rate[3] - crossing[BW_X_VAPOUR_I] - (a.p - b.p) / (a.rv + b.rv);
}

/* The humidity of the face by bisection: as much liquid comes as goes on. */
static double liquid_by_search(const lab *l, double per)
{
    double low = 0, high = 1, g = 0;
    const double *v = l->solver.v;
    for (int k = 0; k < 60; k++) {
        const double phi = 0.5 * (low + high);
        g = per * (flow_at(l->of[0], v[1]) -
                   flow_at(l->of[0], bw_hygro_z_of_phi(l->of[0], phi)));
        const double on = per *
                          (flow_at(l->of[1], bw_hygro_z_of_phi(l->of[1], phi)) -
                           flow_at(l->of[1], v[3]));
        if (g > on)
            low = phi;
        else
            high = phi;
    }
    return g;
}

static lab *two_cells(const bw_hygro_law *outer, const bw_hygro_law *inner,
                      int wet)
{
    lab *l = lab_new(annex_delta);
    lab_layer(l, outer, 0.01, 0.01, 1, 0);
    lab_layer(l, inner, 0.01, 0.01, 1, 0);
    lab_start(l, ANNEX_RV, 0, 20, 0.5);
    ck_assert(l->face[1].liquid && !l->face[1].same);
    for (int k = 0; k < 2; k++)
        l->solver.v[2 * k + 1] = bw_hygro_z_of_water(
            l->of[k], wet >> k & 1 ? 120 + k : 20 + k);
    return l;
}

/* A wet cell wets a dry one, whose own conductivity is nothing. */
START_TEST(liquid_between_two_tables_of_one_material_is_as_within_it)
{
    bw_hygro_law late = annex_law;
    late.diffusivity = late_diffusivity;
    for (int wet = 0; wet < 4; wet++) {
        lab *l = two_cells(&late, &late, wet);
        const double within = 100 * (flow_at(l->of[0], l->solver.v[1]) -
                                     flow_at(l->of[1], l->solver.v[3]));
        ck_assert_double_eq_tol(liquid_between(l), within,
                                1e-9 * fabs(within) + 1e-16);
        lab_free(l);
    }
}
END_TEST

START_TEST(liquid_between_two_materials_is_that_by_the_humidity_of_their_face)
{
    bw_hygro_law other = annex_law;
    other.diffusivity = other_diffusivity;
    other.water = other_water;
    for (int wet = 1; wet < 4; wet++) {
        lab *l = two_cells(&annex_law, &other, wet);
        const double searched = liquid_by_search(l, 200);
        ck_assert_double_gt(fabs(searched), 1e-9);
        ck_assert_double_eq_tol(liquid_between(l), searched,
                                2e-4 * fabs(searched));
        lab_free(l);
    }
}
END_TEST

/* ---- redistribution ---- */

/* The rule: up to the water held at 80 % RH one diffusivity, at free saturation
 * a tenth, straight in logarithms between. */
START_TEST(water_spreads_at_a_tenth_of_suction_at_free_saturation)
{
    transient_case *c = case_new();
    bw_storage *s = calloc(1, sizeof *s);
    ck_assert_int_eq(bw_storage_of_slab(s, &c->slab[0], false, NULL), BW_OK);
    const bw_hygro_law law = bw_storage_law(s);
    const double at_80 = bw_storage_water(s, 0.8), full = s->free_water;
    const double row[][2] = {{0, 1},
                             {at_80, 1},
                             {0.5 * (at_80 + full), 0.31622776601683794},
                             {full, 0.1}};
    for (size_t k = 0; k < COUNT(row); k++)
        ck_assert_double_eq_tol(law.redistribution(s, row[k][0]) /
                                    law.diffusivity(s, row[k][0]),
                                row[k][1], 1e-12);
    free(s);
    free(c);
}
END_TEST

static bw_year *year_of(const transient_case *c, const bw_transient_options *o)
{
    bw_year *year = calloc(1, sizeof *year);
    ck_assert_int_eq(bw_year_make(year, &c->assembly, &c->climate, o, NULL),
                     BW_OK);
    return year;
}

START_TEST(water_spreads_by_suction_in_hours_of_rain_and_if_told_in_all)
{
    transient_case *c = case_new();
    for (int way = 0; way < 2; way++) {
        const bw_transient_options o = {
            .redistribution = way ? BW_REDISTRIBUTION_SUCTION
                                  : BW_REDISTRIBUTION_RULE};
        bw_year *year = year_of(c, &o);
        int wet = 0;
        for (int hour = 0; hour < CASE_HOURS; hour++) {
            const bw_window span = bw_window_from(year, hour, 1, 0);
            bw_edge edge;
            bw_window_edge(&span, 1000, &edge);
            wet += edge.rain > 0;
            ck_assert_int_eq(edge.redistributes, way == 0 && !(edge.rain > 0));
        }
        ck_assert_int_gt(wet, 100);
        free(year);
    }
    free(c);
}
END_TEST

/* ---- the course of an hour ---- */

/* Simpson's rule is exact for the course of an hour. Neither does it cross
 * zero, nor does it jump from one hour to the next. */
START_TEST(sun_and_wind_keep_the_mean_of_each_hour_and_do_not_jump)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    bw_year *year = year_of(c, &none);
    bw_edge before, e[3];
    for (int hour = 0; hour < CASE_HOURS; hour++) {
        const bw_hourly *h = &year->hour[hour];
        const bw_window span = bw_window_from(year, hour, 1, 0);
        for (int k = 0; k < 3; k++)
            bw_window_edge(&span, 1800.0 * k, &e[k]);
        ck_assert_double_eq_tol((e[0].gain + 4 * e[1].gain + e[2].gain) / 6,
                                h->gain, 1e-9);
        ck_assert_double_eq_tol((e[0].h_e + 4 * e[1].h_e + e[2].h_e) / 6,
                                h->h_e, 1e-9);
        ck_assert_double_eq_tol((e[0].beta_e + 4 * e[1].beta_e + e[2].beta_e) /
                                    6,
                                h->beta_e, 1e-18);
        for (double t = 0; t <= 3600; t += 225) {
            bw_edge at;
            bw_window_edge(&span, t, &at);
            ck_assert_double_ge(at.gain * h->gain, 0);
            ck_assert_double_gt(at.h_e, 0.4 * h->h_e);
            ck_assert_double_eq(at.rain, h->rain);
        }
        if (hour > 0) {
            ck_assert_double_eq_tol(e[0].gain, before.gain, 1e-9);
            ck_assert_double_eq_tol(e[0].h_e, before.h_e, 1e-9);
            ck_assert_double_eq_tol(e[0].beta_e, before.beta_e, 1e-18);
        }
        before = e[2];
    }
    free(year);
    free(c);
}
END_TEST

static void bumped_edge(const void *ctx, double t, bw_edge *edge)
{
    (void)ctx;
    const double f = t / 3600;
    *edge = (bw_edge){.gain = 600 * f * (1 - f),
                      .h_e = 1e-9,
                      .beta_e = 1e-20,
                      .p_e = 500,
                      .h_i = 1e-9,
                      .beta_i = 1e-20,
                      .p_i = 500,
                      .theta_e = 10,
                      .theta_i = 10};
}

/* A wall that gives no heat back gains the hour's mean, in one step or many:
 * 100 W/m2 over an hour. */
START_TEST(sun_of_an_hour_comes_in_whole_however_long_the_steps)
{
    for (int k = 0; k < 2; k++) {
        static const double lambda = 2;
        const bw_hygro_law law = dry_law(&lambda, 2e6);
        lab *l = lab_new(bw_vapour_permeability_of_air);
        lab_layer(l, &law, 0.2, 0.01, 1.2, 1);
        lab_start(l, BW_R_V, 0, 10, 0.5);
        l->solver.tolerance_theta = l->solver.tolerance_z = k ? 1e-3 : 1e6;
        l->solver.polish = true;
        l->solver.h = l->solver.h_first = 3600;
        double crossing[BW_X_COUNT] = {0};
        ck_assert_int_eq(bw_solver_advance(&l->solver, 3600, bumped_edge, NULL,
                                           crossing, NULL),
                         BW_OK);
        ck_assert_uint_eq(l->solver.steps == 1, k == 0);
        ck_assert_double_eq_tol(crossing[BW_X_HEAT_E], 360000, 40);
        lab_free(l);
    }
}
END_TEST

/* ---- walls ---- */

/* Slate or metal, as a roof: from the outside a sheet that holds next to no
 * water dry, a ventilated cavity, boards, fibre, lining. */
static transient_case *cold_sheet(double rho, double thickness, double mu)
{
    static const double phi[] = {0.33, 0.5, 0.65, 0.8, 0.9, 0.93, 0.97};
    static const double u[] = {0.068, 0.095, 0.123, 0.164, 0.209, 0.228, 0.26};
    transient_case *c = steady_new(0, 0.5, 0, 0.5);
    case_weather(c);
    case_material(c, 0, "sheet", rho, 2, 1000, mu, mu);
    case_slab(c, BW_LAYER_SOLID, thickness);
    case_material(c, 1, "cavity", 1.2, 0.28, 1000, 0.2, 0.2);
    case_slab(c, BW_LAYER_CAVITY, 0.05);
    c->slab[1].resistance = 0.16;
    c->slab[1].sd_dry = c->slab[1].sd_wet = 0.01;
    c->layer[1].ventilation = BW_VENT_WELL;
    add_board(c, 0.02, 50);
    case_material(c, 3, "fibre", 50, 0.04, 2000, 2, 2);
    case_sorption(c, 3, 7, phi, u);
    case_slab(c, BW_LAYER_SOLID, 0.2);
    c->assembly.outdoors = (bw_outdoors){.climate_path = "",
                                         .has_facing = true,
                                         .azimuth = 225,
                                         .tilt = 30,
                                         .has_solar_absorptance = true,
                                         .solar_absorptance = 0.9,
                                         .emissivity = 0.9};
    c->assembly.indoors = (bw_indoors){.kind = BW_INDOOR_EN15026};
    return c;
}

START_TEST(sheets_that_hold_no_water_dry_and_get_an_answer)
{
    static const double sheet[][3] = {{7800, 0.0007, 1e6}, {2700, 0.001, 1e5},
                                      {2800, 0.005, 800},  {2800, 0.008, 1000},
                                      {2600, 0.003, 300},  {7800, 0.0007, 1e4}};
    for (size_t k = 0; k < COUNT(sheet); k++) {
        transient_case *c = cold_sheet(sheet[k][0], sheet[k][1], sheet[k][2]);
        const bw_transient_options o = {.max_years = 1};
        bw_transient_result r;
        bw_error err;
        const bw_status status = bw_transient(&r, &c->assembly, &c->section,
                                              &c->climate, &o, &err);
        ck_assert_msg(status == BW_OK, "%zu: %s", k, err.message);
        ck_assert_double_lt(r.water_balance_error, 1e-6);
        bw_transient_free(&r);
        free(c);
    }
}
END_TEST

static double taken_up(double absorption, double free_saturation,
                       double refinement, double *end)
{
    static const double phi[] = {0.5, 0.8, 0.95}, u[] = {0.09, 0.16, 0.24};
    transient_case *c = steady_new(0, 0.5, 0, 0.5);
    case_weather(c);
    case_material(c, 0, "face", 450, 0.12, 1600, 50, 50);
    case_sorption(c, 0, 3, phi, u);
    c->material[0].free_saturation = case_value(free_saturation);
    c->material[0].water_absorption = case_value(absorption);
    case_slab(c, BW_LAYER_SOLID, 0.024);
    c->assembly.outdoors = (bw_outdoors){.climate_path = "",
                                         .has_facing = true,
                                         .azimuth = 225,
                                         .tilt = 90,
                                         .driving_rain = BW_RAIN_SEVERE};
    c->assembly.indoors = (bw_indoors){.kind = BW_INDOOR_EN15026};
    const bw_transient_options o = {.max_years = 1,
                                    .grid_refinement = refinement};
    bw_transient_result r;
    ck_assert_int_eq(
        bw_transient(&r, &c->assembly, &c->section, &c->climate, &o, NULL),
        BW_OK);
    const double rain = r.rain_absorbed;
    *end = r.year_end_water[0];
    bw_transient_free(&r);
    free(c);
    return rain;
}

/* Where A_w is low an hour of rain wets less than half a millimetre. */
START_TEST(rain_taken_up_is_within_2_percent_of_that_by_cells_of_an_eighth)
{
    static const double face[][2] = {{0.002, 600}, {0.003, 600}, {0.1, 400}};
    for (size_t k = 0; k < COUNT(face); k++) {
        double end, fine_end;
        const double set = taken_up(face[k][0], face[k][1], 1, &end);
        const double fine = taken_up(face[k][0], face[k][1], 8, &fine_end);
        ck_assert_double_gt(fine, 5);
        ck_assert_double_eq_tol(set, fine, 0.02 * fine);
        ck_assert_double_eq_tol(end, fine_end, 0.02 * fine_end);
    }
}
END_TEST

START_TEST(convergence_is_told_of_a_rain_wetted_wall_too)
{
    transient_case *c = case_new();
    bw_transient_convergence found;
    ck_assert_int_eq(bw_transient_converge(&found, &c->assembly, &c->section,
                                           &c->climate, NULL, NULL),
                     BW_OK);
    ck_assert_double_gt(found.phi_grid, 0);
    ck_assert_double_lt(found.theta_time, 0.05);
    ck_assert_double_lt(found.water_time, 0.05);
    ck_assert_double_lt(found.water_grid, 0.3);
    printf("converge: %g K %g, cells %g K %g; water %g %g\n", found.theta_time,
           found.phi_time, found.theta_grid, found.phi_grid, found.water_time,
           found.water_grid);
    free(c);
}
END_TEST

SUITE("transient_rain",
      FACT(liquid_between_two_tables_of_one_material_is_as_within_it),
      FACT(liquid_between_two_materials_is_that_by_the_humidity_of_their_face),
      FACT(water_spreads_at_a_tenth_of_suction_at_free_saturation),
      FACT(water_spreads_by_suction_in_hours_of_rain_and_if_told_in_all),
      FACT(sun_and_wind_keep_the_mean_of_each_hour_and_do_not_jump),
      FACT(sun_of_an_hour_comes_in_whole_however_long_the_steps),
      FACT(sheets_that_hold_no_water_dry_and_get_an_answer),
      FACT(rain_taken_up_is_within_2_percent_of_that_by_cells_of_an_eighth),
      FACT(convergence_is_told_of_a_rain_wetted_wall_too))
