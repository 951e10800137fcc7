/* The hours of a drawing as a run: how far it says it is, that it stops where
 * it is told to, what it says where it cannot be, years that are counted. A
 * block of one board, between a room and the weather of a case. */

#include <math.h>

#include "bothways/air.h"
#include "hour_sides.h"
#include "hour_watch.h"
#include "hours.h"
#include "junction_case.h"
#include "raster.h"
#include "suite.h"
#include "transient_case.h"

enum { CALLS = 8760 / 73 }; /* of a year: every 73 hours (regression value) */

static transient_case *c;
static drawn d;
static bw_junction_hours out;
static bw_arena arena;

/* What is told, and after how many times it is to stop. */
static struct {
    size_t count, stop;
    double at[8 * CALLS];
} told;

static bool progress(void *payload, double done)
{
    ck_assert_ptr_eq(payload, &told);
    ck_assert_uint_lt(told.count, COUNT(told.at));
    told.at[told.count++] = done;
    return told.count != told.stop;
}

static void start(void)
{
    c = steady_new(5, 0.8, 20, 0.5);
    arena = (bw_arena){0};
    told.count = told.stop = 0;
    add_board(c, 0.1, 20.0);
    draw_start(&d);
    draw_box(&d, 0.2, 0, 200, 0, 60);
    d.material[0].material = &c->material[0];
    d.material[0].mu_dry = d.material[0].mu_wet = 20;
    draw_space(&d, 0, 0, 200, -50, 0);
    draw_space(&d, 1, 0, 200, 60, 100);
    draw_cut(&d, true, true, false, false);
    d.environment[1].indoors = c->assembly.indoors;
    d.junction.outdoors = c->assembly.outdoors;
}

static void end(void)
{
    draw_end(&d);
    bw_arena_release(&arena);
    free(c);
}

static bw_status find(int years, size_t most_cells)
{
    const bw_hour_options options = {.most_years = years,
                                     .smallest = 0.02,
                                     .most_cells = most_cells,
                                     .no_synthetic = true,
                                     .progress = progress,
                                     .payload = &told};
    return bw_junction_hours_find(&out, &arena, &d.junction, &c->climate,
                                  &options, NULL);
}

/* Two grids as many years each; the second is said to take a fifth of the time
 * (regression value). */
START_TEST(what_is_told_of_how_far_it_is_rises_evenly)
{
    const int years = 2;
    ck_assert_int_eq(find(years, 0), BW_OK);
    ck_assert_msg(out.ran && out.compared, "%s, %s", out.reason,
                  out.not_compared);
    const size_t run = (size_t)out.years * CALLS;
    ck_assert_uint_eq(told.count, 2 * run);
    for (size_t k = 0; k < run; k++) {
        ck_assert_double_eq_tol(told.at[k], 0.8 * (double)k / (years * CALLS),
                                1e-12);
        ck_assert_double_eq_tol(told.at[run + k],
                                0.8 + 0.2 * (double)k / (double)run, 1e-12);
    }
}
END_TEST

static const size_t stops[] = {1, 2, CALLS, CALLS + 2};

START_TEST(it_stops_where_it_is_told_to)
{
    told.stop = stops[_i];
    ck_assert_int_eq(find(1, 0), BW_ERR_CANCELLED);
    ck_assert_uint_eq(told.count, stops[_i]);
}
END_TEST

/* Between climates that stand still all goes to its steady state: the mean of
 * the board's faces is that of a plane wall, and the years repeat. */
START_TEST(a_wall_between_still_climates_settles)
{
    ck_assert_int_eq(find(9, 0), BW_OK);
    ck_assert(out.ran && out.asked && !out.synthetic);
    ck_assert(out.periodic && out.drying && !out.rising);
    ck_assert_int_lt(out.years, 9);
    ck_assert_double_lt(out.balance, 1e-3);
    ck_assert_double_le(out.state_change, 0.003);
    ck_assert_double_eq_tol(out.yearly_change, 0.0, 0.05);
    ck_assert_uint_eq(out.wood_count, 0);
    ck_assert_uint_gt(out.place_count, 0);
    const double r = 0.04 + 0.06 / 0.2 + 0.13;
    const double theta = 20.0 - 15.0 * 0.13 / r;
    const double p = 0.5 * bw_saturation_pressure(20.0);
    for (size_t k = 0; k < out.place_count; k++) {
        ck_assert(out.place[k].room);
        ck_assert_double_eq_tol(out.place[k].month_rh[5],
                                p / bw_saturation_pressure(theta), 0.02);
        ck_assert_double_eq_tol(out.place[k].moved.rh, 0.0, 0.02);
    }
    ck_assert_double_eq(out.leaked, 0.0);
    ck_assert_double_eq(out.ran_off, 0.0);
    ck_assert_double_eq(out.air, 0.0);
}
END_TEST

/* ---- hour by hour ---------------------------------------------------------
 */

/* A year step by step: from October, at 80 % RH and between both temperatures,
 * an hour of 3600 s at a time. */
static struct {
    bw_raster raster;
    bw_hour_sides sides;
    bw_sheet_model model;
    bw_sheet_solver solver;
    bw_hour_watch watch;
    bw_junction_hours out;
} own;

static void make_own(void)
{
    static const bw_raster_options cells = {.smallest = 0.02, .growth = 2.0};
    memset(&own, 0, sizeof own);
    ck_assert_int_eq(
        bw_raster_make(&own.raster, &d.junction, &cells, &arena, NULL), BW_OK);
    ck_assert_int_eq(
        bw_hour_sides_make(&own.sides, &arena, &own.raster, &c->climate, NULL),
        BW_OK);
    ck_assert_int_eq(bw_sheet_make(&own.model, &arena, &own.raster,
                                   own.sides.side, own.sides.pressure, NULL),
                     BW_OK);
    ck_assert_int_eq(
        bw_sheet_solver_make(&own.solver, &own.model.sheet, &arena, NULL),
        BW_OK);
    own.watch = (bw_hour_watch){.raster = &own.raster,
                                .model = &own.model,
                                .keep = &arena,
                                .arena = &arena,
                                .out = &own.out};
    ck_assert_int_eq(bw_hour_watch_make(&own.watch, NULL), BW_OK);
}

static double run_own(void)
{
    const bw_sheet *s = &own.model.sheet;
    const int october = 273 * 24;
    const bw_hourly *first = &own.sides.year[0]->hour[october];
    double *v = BW_NEW(&arena, double, 2 * s->n), water[2] = {0, 0};
    bw_sheet_flow flow = {.heat = 0};
    for (size_t i = 0; i < s->n; i++) {
        v[2 * i] = 0.5 * (first->theta_e + first->theta_i);
        v[2 * i + 1] = bw_hygro_z_of_phi(s->hygro[i], 0.8);
    }
    own.solver.tolerance_theta = 0.1; /* K, as said */
    own.solver.tolerance_z = 0.005;
    bw_sheet_start(&own.solver, v, 0.0);
    for (size_t i = 0; i < s->n; i++)
        water[0] += s->area[i] * bw_cells_water(&own.solver.cells, i);
    bw_hour_watch_year(&own.watch);
    for (int h = 0; h < 8760; h++) {
        bw_sheet_hour hour;
        bw_sheet_weather weather;
        bw_hour_sides_at(&hour, &own.sides, (october + h) % 8760, own.solver.t);
        ck_assert_int_eq(bw_sheet_advance(&own.solver, 3600.0 * (h + 1),
                                          bw_sheet_hour_at, &hour, &flow, NULL),
                         BW_OK);
        bw_sheet_hour_at(&hour, own.solver.t, &weather);
        bw_hour_watch_hour(&own.watch, &own.solver, &weather,
                           (october + h) % 8760);
    }
    bw_hour_watch_end_year(&own.watch);
    for (size_t i = 0; i < s->n; i++)
        water[1] += s->area[i] * bw_cells_water(&own.solver.cells, i);
    return water[1] - water[0];
}

START_TEST(a_year_is_its_hours_one_by_one)
{
    for (int h = 0; h < 8760; h++) { /* months that differ */
        bw_climate_hour *at = &c->hour[h];
        at->temperature += 10.0 * sin(h / 8760.0 * 6.28);
        at->vapour_pressure = 0.8 * bw_saturation_pressure(at->temperature);
    }
    ck_assert_int_eq(find(1, 0), BW_OK);
    ck_assert_int_eq(out.years, 1);
    make_own();
    const double change = run_own();
    ck_assert_uint_eq(out.cells, own.model.sheet.n);
    ck_assert_uint_eq(out.place_count, own.out.place_count);
    for (size_t k = 0; k < out.place_count; k++) {
        const bw_hour_place *is = &out.place[k], *due = &own.out.place[k];
        for (int m = 0; m < BW_MONTHS; m++)
            ck_assert_double_eq_tol(is->month_rh[m], due->month_rh[m], 1e-12);
        ck_assert_double_eq_tol(is->highest_rh, due->highest_rh, 1e-12);
    }
    /* over half the length of all that shows a face: 0.2 m of wall */
    ck_assert_double_eq_tol(out.yearly_change, change / 0.2, 1e-9);
    ck_assert_uint_eq(out.steps, own.solver.steps);
}
END_TEST

/* ---- order ----------------------------------------------------------------
 */

/* Days of the air, sun and wind; the room stands still. */
static void days(const void *ctx, double t, bw_sheet_weather *w)
{
    const double day = sin(2.0 * 3.14159265358979323846 * t / 86400.0);
    (void)ctx;
    *w = (bw_sheet_weather){.redistributes = true};
    for (size_t k = 0; k < BW_SHEET_SIDES; k++)
        w->side[k] = (bw_sheet_air){
            .theta = 20, .p = 1200, .h = 7.7, .beta = 1.8e-8};
    for (size_t k = 0; k < 3; k += 2) /* outside, and where it looks */
        w->side[k] = (bw_sheet_air){.theta = 5 + 6 * day,
                                    .p = 700 + 100 * day,
                                    .h = 17,
                                    .beta = 7e-8,
                                    .gain = 60 * day};
}

/* Temperatures after six hours, in so many steps of one length. */
static void take_steps(double *theta, size_t steps)
{
    const bw_sheet *s = &own.model.sheet;
    const double span = 6.0 * 3600.0;
    double *v = BW_NEW(&arena, double, 2 * s->n);
    bw_sheet_flow flow = {.heat = 0};
    for (size_t i = 0; i < s->n; i++) {
        v[2 * i] = 12.0;
        v[2 * i + 1] = bw_hygro_z_of_phi(s->hygro[i], 0.6);
    }
    ck_assert_int_eq(bw_sheet_solver_make(&own.solver, s, &arena, NULL), BW_OK);
    bw_sheet_start(&own.solver, v, 0.0);
    for (size_t k = 0; k < steps; k++) {
        /* Newton's method is to leave nothing, the length to stand */
        own.solver.tolerance_theta = own.solver.tolerance_z = 1e-6;
        own.solver.extent = 1e18;
        own.solver.h = span;
        ck_assert_int_eq(
            bw_sheet_advance(&own.solver,
                             span * (double)(k + 1) / (double)steps, days, NULL,
                             &flow, NULL),
            BW_OK);
    }
    ck_assert_uint_eq(own.solver.steps, steps);
    for (size_t i = 0; i < s->n; i++)
        theta[i] = own.solver.v[2 * i];
}

/* TR-BDF2 is of second order [theory; from memory, high]: half the step, a
 * quarter of the error. */
START_TEST(half_the_step_leaves_a_quarter_of_the_error)
{
    double theta[4][64];
    make_own();
    ck_assert_uint_le(own.model.sheet.n, 64);
    for (size_t k = 0; k < 4; k++)
        take_steps(theta[k], k < 3 ? (size_t)24 << k : 1536);
    double off[3] = {0, 0, 0};
    for (size_t i = 0; i < own.model.sheet.n; i++)
        for (size_t k = 0; k < 3; k++)
            off[k] = fmax(off[k], fabs(theta[k][i] - theta[3][i]));
    ck_assert_double_gt(off[2], 1e-7);
    ck_assert_double_eq_tol(log2(off[0] / off[1]), 2.0, 0.3);
    ck_assert_double_eq_tol(log2(off[1] / off[2]), 2.0, 0.3);
}
END_TEST

START_TEST(what_cannot_be_run_has_a_reason)
{
    if (_i == 0)
        c->climate.hour_count = 0;
    if (_i == 1) { /* more lines than cells are allowed */
        for (int k = 0; k < 12; k++)
            draw_box(&d, 0.2, 10 * k, 10 * k + 5, 5 + 4 * k, 8 + 4 * k);
        for (size_t k = 0; k < d.junction.material_count; k++)
            d.material[k].material = &c->material[0];
    }
    if (_i == 2)
        d.environment[1].kind = BW_ENVIRONMENT_OUTSIDE;
    ck_assert_int_eq(find(1, _i == 1 ? 60 : 0), BW_OK);
    ck_assert(out.asked && !out.ran && !out.compared);
    ck_assert(out.reason[0] != '\0');
    ck_assert_uint_eq(told.count, 0);
}
END_TEST

SUITE_AROUND("junction_run", start, end,
             FACT(what_is_told_of_how_far_it_is_rises_evenly),
             EACH(it_stops_where_it_is_told_to, COUNT(stops)),
             FACT(a_wall_between_still_climates_settles),
             FACT(a_year_is_its_hours_one_by_one),
             FACT(half_the_step_leaves_a_quarter_of_the_error),
             EACH(what_cannot_be_run_has_a_reason, 3))
